#include "schema_use.h"

#include <string_view>

namespace shimwright::laws {
namespace {

std::string line_of(const file::TableSchema& table, const file::KeySchema& key) {
  return table.name + "." + key.name;
}

void add_whole(const file::TableSchema& table, std::set<const file::TableSchema*>& seen, SchemaUse& use) {
  if (!seen.insert(&table).second) return;
  for (const file::KeySchema& key : table.keys) {
    use.keys.insert(line_of(table, key));
    for (const std::string& word : key.words) use.words.insert(line_of(table, key) + " = " + word);
    if (key.table != nullptr) add_whole(*key.table, seen, use);
  }
}

/// A piece as text begins with the word of its role: "washer 2.0 mm".
void add_piece_text(const std::string& text, const file::TableSchema& piece, SchemaUse& use) {
  const file::KeySchema* role = file::find_key(piece, "role");
  if (role == nullptr) return;
  for (const std::string& word : role->words)
    if (text.starts_with(word + " ")) use.words.insert(line_of(piece, *role) + " = " + word);
}

void add_value(const toml::Node& node, const file::KeySchema& key, const std::string& line, SchemaUse& use) {
  if (node.is_array()) {
    for (const auto& child : node.children) add_value(*child, key, line, use);
  } else if (node.is_table() && key.kind == file::ValueKind::Parts) {
    for (const auto& child : node.children) add_use(*child, *key.table, use);
  } else if (node.is_table() && key.table != nullptr) {
    add_use(node, *key.table, use);
  } else if (const std::string* text = node.as_string()) {
    if (!key.words.empty()) use.words.insert(line + " = " + *text);
    if (key.kind == file::ValueKind::Pieces) add_piece_text(*text, *key.table, use);
  }
}

}  // namespace

SchemaUse whole_schema() {
  SchemaUse use;
  std::set<const file::TableSchema*> seen;
  add_whole(file::job_schema(), seen, use);
  add_whole(file::parts_schema(), seen, use);
  return use;
}

void add_use(const toml::Node& node, const file::TableSchema& table, SchemaUse& use) {
  for (const auto& child : node.children) {
    const file::KeySchema* key = file::find_key(table, child->key);
    if (key == nullptr) continue;
    use.keys.insert(line_of(table, *key));
    add_value(*child, *key, line_of(table, *key), use);
  }
}

}  // namespace shimwright::laws
