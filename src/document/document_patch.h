#pragma once
#include <optional>
#include <string>

#include "document/document.h"

namespace shimwright::document {

/// What turns the document that to_brief_json(from) wrote into the one that it writes of `to`: the operations
/// replace, add and remove of RFC 6902 as one JSON array. Numbers and texts are written as there.
///
/// Model:  objects are compared by member, lists of equal length by element; other lists are replaced. A part
///         in which most has changed is replaced as a whole where that is about shorter. What a number's
///         seven digits do not show is no change.
/// Valid:  any two documents. None when the operations would be no shorter than the document.
/// Tested: document_patch_test.cc, against the patch() of a JSON library
std::optional<std::string> brief_patch(const ResultDocument& from, const ResultDocument& to);

}  // namespace shimwright::document
