#include "file/key_changes.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "file/schema.h"
#include "toml/document.h"
#include "units/quantity.h"

namespace shimwright::file {
namespace {

/// A single value: everything except tables and lists of tables.
struct Leaf {
  std::string path;
  std::string text;  // as typed, without the quotes of a string
  const toml::Node* node = nullptr;
};

bool holds_tables(const toml::Node& array) {
  return std::ranges::any_of(array.children, [](const auto& child) { return child->is_table(); });
}

void collect_leaves(const toml::Document& document, const toml::Node& node, std::vector<Leaf>& leaves) {
  if (node.is_table() || (node.is_array() && holds_tables(node))) {
    for (const auto& child : node.children) collect_leaves(document, *child, leaves);
    return;
  }
  const std::string* text = node.as_string();
  leaves.push_back(
      {toml::path_of(node), text != nullptr ? *text : std::string(document.slice(node.span)), &node});
}

/// "0.15 mm" and "150 um" are one value.
bool same_quantity(const Leaf& first, const Leaf& second, const TableSchema& schema) {
  const KeySchema* key = key_at(schema, first.path);
  if (key == nullptr || key->kind != ValueKind::Quantity) return false;
  const auto a = units::parse(first.text, key->unit);
  const auto b = units::parse(second.text, key->unit);
  if (!a || !b || a->reference != b->reference) return false;
  return std::abs(a->si - b->si) <= 1e-12 * std::max(std::abs(a->si), std::abs(b->si));
}

void compare_texts(const std::string& first_text, const std::string& second_text, const TableSchema& schema,
                   const std::string& prefix, std::vector<KeyChange>& changes) {
  const toml::Document first = toml::parse(first_text);
  const toml::Document second = toml::parse(second_text);
  std::vector<Leaf> first_leaves;
  std::vector<Leaf> second_leaves;
  collect_leaves(first, *first.root, first_leaves);
  collect_leaves(second, *second.root, second_leaves);

  for (const Leaf& leaf : first_leaves) {
    const auto twin = std::ranges::find(second_leaves, leaf.path, &Leaf::path);
    if (twin == second_leaves.end()) {
      changes.push_back({prefix + leaf.path, leaf.text, ""});
    } else if (!toml::same_value(*leaf.node, *twin->node) && !same_quantity(leaf, *twin, schema)) {
      changes.push_back({prefix + leaf.path, leaf.text, twin->text});
    }
  }
  for (const Leaf& leaf : second_leaves) {
    if (std::ranges::find(first_leaves, leaf.path, &Leaf::path) == first_leaves.end()) {
      changes.push_back({prefix + leaf.path, "", leaf.text});
    }
  }
}

std::string base_name(const std::string& path) {
  return path.substr(path.find_last_of('/') + 1);
}

}  // namespace

std::vector<KeyChange> key_changes(const JobSpec& first, const JobSpec& second) {
  std::vector<KeyChange> changes;
  if (first.files.empty() || second.files.empty()) return changes;
  compare_texts(first.files[0].text, second.files[0].text, job_schema(), "", changes);

  // parts files by their name; what only one job reads was named in its `parts`
  for (std::size_t i = 1; i < first.files.size(); ++i) {
    const std::string name = base_name(first.files[i].name);
    const auto twin =
        std::ranges::find_if(second.files.begin() + 1, second.files.end(),
                             [&](const SourceFile& file) { return base_name(file.name) == name; });
    if (twin == second.files.end()) continue;
    compare_texts(first.files[i].text, twin->text, parts_schema(), name + ": ", changes);
  }
  return changes;
}

}  // namespace shimwright::file
