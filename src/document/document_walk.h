#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "document/document_describe.h"

// What is made of a description. No walker knows any struct. Tested: document_describe_test.cc

namespace shimwright::document {

/// A value of a described struct, as the walkers take it.
struct Described {
  const StructInfo& structure;
  const void* value;
};

template <typename Struct>
Described described(const Struct& value) {
  return {describe<Struct>(), &value};
}

/// As JSON: of a whole document its key `schema` first, then all members that are present.
std::string written_json(const Described& value, int indent);

/// The same without blanks and with every number to seven digits.
std::string brief_json(const Described& value);

/// What makes of the brief JSON of one value that of another of the same struct: operations of RFC 6902 as
/// one JSON array. Nothing when they are no shorter than the JSON itself.
std::optional<std::string> brief_patch(const Described& from, const Described& to);

/// Why a text does not hold what is described.
struct DocumentFault {
  std::string path;      // where it goes wrong, "units[0].force.curves[1].points"; empty: at the top
  std::string what;      // one sentence at the top, else one clause
  bool no_json = false;  // it is no JSON at all
};

/// Reads a JSON object that comes from outside, nested at most so deep. Unknown keys are passed over.
std::optional<DocumentFault> read_json(std::string_view text, int deepest, const StructInfo& structure,
                                       void* value);

/// Paths of all numbers in a value that are not finite: "units[1].force.key_forces[0].rebound".
std::vector<std::string> non_finite_paths(const Described& value);

/// All structs that a value of this one may hold, itself first, each once, in the order in which a reader
/// meets them.
std::vector<const StructInfo*> structs_within(const StructInfo& root);

namespace internal {

/// "units[0].force" and "curves" -> "units[0].force.curves"
std::string inner_path(const std::string& path, std::string_view key);

}  // namespace internal
}  // namespace shimwright::document
