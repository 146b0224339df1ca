#pragma once
#include <cctype>
#include <set>
#include <string>
#include <vector>

#include "document/document_walk.h"

// For tests: what a description lacks.

namespace shimwright::document {

inline bool holds_numbers(const TypeInfo& type) {
  return type.shape == Shape::Number || (type.shape == Shape::List && holds_numbers(*type.item));
}

/// A sentence: begins with a capital, a digit or a quote, ends with a full stop.
inline bool is_sentence(std::string_view text) {
  const auto first = static_cast<unsigned char>(text.empty() ? ' ' : text.front());
  return text.size() > 3 && text.ends_with('.') && !text.ends_with(" .") && !std::islower(first);
}

inline void check_field(const FieldInfo& field, const std::string& name, std::vector<std::string>& faults) {
  if (!is_sentence(field.doc)) faults.push_back(name + " has no sentence that says what it means");
  if (field.key.empty()) faults.push_back(name + " has no key");
  if (field.unit.stated() != holds_numbers(*field.type))
    faults.push_back(name + ": a number has a unit or says that it has none, nothing else has one");
  if ((field.unit.reference != units::Reference::None) != (field.unit.kind == units::Kind::Pressure))
    faults.push_back(name + ": a pressure counts from vacuum or from the air outside, nothing else does");
}

/// What the descriptions of these structs, and of all that is in them, lack; empty when all is well.
inline std::vector<std::string> description_faults(const std::vector<const StructInfo*>& roots) {
  std::vector<std::string> faults;
  std::set<const StructInfo*> structs;
  std::set<std::string_view> names;
  for (const StructInfo* root : roots)
    for (const StructInfo* structure : structs_within(*root)) structs.insert(structure);
  for (const StructInfo* structure : structs) {
    const std::string name(structure->name);
    if (!names.insert(structure->name).second) faults.push_back("two structs are called " + name);
    if (!is_sentence(structure->doc)) faults.push_back(name + " has no sentence that says what it is");
    std::set<std::string_view> keys = {"schema"};
    for (const FieldInfo& field : structure->fields) {
      const std::string full = name + "." + std::string(field.key);
      if (!keys.insert(field.key).second) faults.push_back(full + " is there twice");
      check_field(field, full, faults);
    }
  }
  return faults;
}

}  // namespace shimwright::document
