#pragma once
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.h"
#include "server/api_fault.h"
#include "store/journal.h"

namespace shimwright::server {

/// One change that a client requests.
struct Edit {
  enum class Kind { Set, Remove, Insert, Move, Drop, Text };
  Kind kind = Kind::Set;
  std::string path{};   // of a key or an element; empty for Text
  std::string typed{};  // Set, Insert: as typed; Text: the whole file
  std::size_t to = 0;   // Move: the index afterwards
};

/// A draft with what is wrong with it now.
struct FaultyDraft {
  store::Draft draft;
  Diagnostic diagnostic;
};

/// A file's text and what was typed and could not be taken into it.
struct Drafted {
  std::string text;
  std::vector<FaultyDraft> drafts;
};

std::vector<store::Draft> plain(const std::vector<FaultyDraft>& drafts);

/// The state after the edits, in their order.
///
/// Model:  a value that cannot be taken becomes a draft and the text stays as it is. A draft is taken as soon
///         as another edit makes it good, moves along when its list grows or shrinks before it, and goes
///         with the table it belonged to.
/// Errors: an edit that no other value could make right: a key that no job file has, a missing element.
///         Nothing is done then.
/// Tested: edits_test.cc
Answer<Drafted> edited(const std::string& text, const std::vector<store::Draft>& drafts,
                       const std::vector<Edit>& edits);

/// True when the edits, thought for the text `base`, mean the same in `present`: every list they lead
/// through still has as many elements.
bool means_the_same(const std::vector<Edit>& edits, const std::string& base, const std::string& present);

/// What undo calls these edits when the client gave no name: "travel to 310 mm".
std::string note_of(const std::vector<Edit>& edits);

}  // namespace shimwright::server
