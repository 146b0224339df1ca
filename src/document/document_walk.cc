#include "document/document_walk.h"

#include <algorithm>
#include <cmath>

#include "document/document_describe_list.h"
#include "document/document_json.h"

namespace shimwright::document {
namespace {

/// What a list, a list of lists, or JSON at hand as text holds in the end.
const TypeInfo& innermost(const TypeInfo& type) {
  return type.item ? innermost(*type.item) : type;
}

void collect_structs(const StructInfo& structure, std::vector<const StructInfo*>& found) {
  if (std::ranges::find(found, &structure) != found.end()) return;
  found.push_back(&structure);
  for (const FieldInfo& field : structure.fields) {
    const TypeInfo& type = innermost(*field.type);
    if (type.shape == Shape::Struct) collect_structs(type.structure(), found);
  }
}

/// What collect_non_finite() finds nothing in, without the paths: they would be most of the work.
bool all_finite(const TypeInfo& type, const void* value);

bool all_members_finite(const StructInfo& structure, const void* value) {
  return std::ranges::all_of(structure.fields, [&](const FieldInfo& field) {
    const void* const member = field.get(value);
    return !member || all_finite(*field.type, member);
  });
}

bool all_finite(const TypeInfo& type, const void* value) {
  switch (type.shape) {
    case Shape::Number:
      return std::isfinite(*static_cast<const double*>(value));
    case Shape::List: {
      const Shape inner = type.item->shape;
      if (inner != Shape::Number && inner != Shape::Struct && inner != Shape::List) return true;
      const std::size_t n = type.size(value);
      for (std::size_t i = 0; i < n; ++i)
        if (!all_finite(*type.item, type.at(value, i))) return false;
      return true;
    }
    case Shape::Struct:
      return all_members_finite(type.structure(), value);
    default:
      return true;
  }
}

void collect_in_members(const StructInfo& structure, const void* value, const std::string& path,
                        std::vector<std::string>& paths);

void collect_non_finite(const TypeInfo& type, const void* value, const std::string& path,
                        std::vector<std::string>& paths) {
  if (type.shape == Shape::Number) {
    if (!std::isfinite(*static_cast<const double*>(value))) paths.push_back(path);
  } else if (type.shape == Shape::List) {
    const std::size_t n = type.size(value);
    for (std::size_t i = 0; i < n; ++i)
      collect_non_finite(*type.item, type.at(value, i), path + "[" + std::to_string(i) + "]", paths);
  } else if (type.shape == Shape::Struct) {
    collect_in_members(type.structure(), value, path, paths);
  }
}

void collect_in_members(const StructInfo& structure, const void* value, const std::string& path,
                        std::vector<std::string>& paths) {
  for (const FieldInfo& field : structure.fields) {
    if (const void* const member = field.get(value))
      collect_non_finite(*field.type, member, internal::inner_path(path, field.key), paths);
  }
}

}  // namespace

std::vector<const StructInfo*> structs_within(const StructInfo& root) {
  std::vector<const StructInfo*> found;
  collect_structs(root, found);
  return found;
}

std::vector<std::string> non_finite_paths(const Described& value) {
  std::vector<std::string> paths;
  if (!all_members_finite(value.structure, value.value))
    collect_in_members(value.structure, value.value, "", paths);
  return paths;
}

std::vector<std::string> non_finite_paths(const ResultDocument& document) {
  return non_finite_paths(described(document));
}

std::vector<std::string> non_finite_paths(const BenchDocument& document) {
  return non_finite_paths(described(document));
}

namespace internal {

std::string inner_path(const std::string& path, std::string_view key) {
  return path.empty() ? std::string(key) : path + "." + std::string(key);
}

}  // namespace internal
}  // namespace shimwright::document
