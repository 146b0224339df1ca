#include "job_tree.h"

#include <algorithm>

namespace shimwright::laws {
namespace {

bool is_bare(const std::string& key) {
  return !key.empty() && std::ranges::all_of(key, [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' || c == '-';
  });
}

std::string quoted(const std::string& key) {
  if (is_bare(key)) return key;
  std::string text = "\"";
  for (const char c : key) {
    if (c == '"' || c == '\\') text += '\\';
    text += c;
  }
  return text + "\"";
}

std::string inline_text(const Tree& tree) {
  std::string text;
  switch (tree.shape) {
    case Tree::Shape::Value:
      return tree.text;
    case Tree::Shape::List:
      for (const Tree& item : tree.items) text += (text.empty() ? "" : ", ") + inline_text(item);
      return "[" + text + "]";
    case Tree::Shape::Table:
      for (const auto& [key, inner] : tree.entries)
        text += (text.empty() ? " " : ", ") + quoted(key) + " = " + inline_text(inner);
      return "{" + text + " }";
  }
  return text;
}

bool is_table_list(const Tree& tree) {
  return tree.shape == Tree::Shape::List && !tree.items.empty() &&
         std::ranges::all_of(tree.items, [](const Tree& item) { return item.shape == Tree::Shape::Table; });
}

void write_table(const Tree& table, const std::string& path, int levels, std::string& text) {
  const auto under_header = [&](const Tree& inner) {
    return levels > 0 && (inner.shape == Tree::Shape::Table || is_table_list(inner));
  };
  for (const auto& [key, inner] : table.entries)
    if (!under_header(inner)) text += quoted(key) + " = " + inline_text(inner) + "\n";
  for (const auto& [key, inner] : table.entries) {
    if (!under_header(inner)) continue;
    const std::string below = path.empty() ? quoted(key) : path + "." + quoted(key);
    if (inner.shape == Tree::Shape::Table) {
      text += "\n[" + below + "]\n";
      write_table(inner, below, levels - 1, text);
    } else {
      for (const Tree& item : inner.items) {
        text += "\n[[" + below + "]]\n";
        write_table(item, below, levels - 1, text);
      }
    }
  }
}

}  // namespace

Tree* Tree::find(const std::string& key) {
  for (auto& [name, inner] : entries)
    if (name == key) return &inner;
  return nullptr;
}

const Tree* Tree::find(const std::string& key) const {
  return const_cast<Tree*>(this)->find(key);
}

void Tree::set(const std::string& key, Tree tree) {
  if (Tree* found = find(key))
    *found = std::move(tree);
  else
    entries.emplace_back(key, std::move(tree));
}

bool Tree::erase(const std::string& key) {
  return std::erase_if(entries, [&](const auto& entry) { return entry.first == key; }) > 0;
}

Tree tree_of(const toml::Document& document, const toml::Node& node) {
  Tree tree;
  if (node.is_table()) {
    tree.shape = Tree::Shape::Table;
    for (const auto& child : node.children) tree.entries.emplace_back(child->key, tree_of(document, *child));
  } else if (node.is_array()) {
    tree.shape = Tree::Shape::List;
    for (const auto& child : node.children) tree.items.push_back(tree_of(document, *child));
  } else {
    tree.text = document.slice(node.span);
  }
  return tree;
}

Tree tree_of_value(const std::string& toml) {
  const toml::Document document = toml::parse("x = " + toml + "\n");
  const toml::Node* node = document.root->find("x");
  return node == nullptr ? Tree{} : tree_of(document, *node);
}

std::string toml_text(const Tree& root) {
  std::string text;
  write_table(root, "", 3, text);
  return text;
}

namespace {

/// The table that holds the last step of a path, and that step.
struct Holder {
  Tree* tree = nullptr;
  toml::Step last;
};

Tree* step_into(Tree& tree, const toml::Step& step) {
  if (!step.index) return tree.shape == Tree::Shape::Table ? tree.find(step.key) : nullptr;
  if (tree.shape != Tree::Shape::List) return *step.index == 0 ? &tree : nullptr;
  return *step.index < tree.items.size() ? &tree.items[*step.index] : nullptr;
}

Holder holder_of(Tree& root, const std::string& path) {
  const auto steps = toml::parse_path(path);
  if (!steps || steps->empty()) return {};
  Tree* tree = &root;
  for (std::size_t i = 0; i + 1 < steps->size() && tree != nullptr; ++i) tree = step_into(*tree, (*steps)[i]);
  return {tree, steps->back()};
}

}  // namespace

Tree* at_path(Tree& root, const std::string& path) {
  const Holder holder = holder_of(root, path);
  return holder.tree == nullptr ? nullptr : step_into(*holder.tree, holder.last);
}

bool erase_path(Tree& root, const std::string& path) {
  const Holder holder = holder_of(root, path);
  if (holder.tree == nullptr) return false;
  if (!holder.last.index) return holder.tree->erase(holder.last.key);
  auto& items = holder.tree->items;
  if (holder.tree->shape != Tree::Shape::List || *holder.last.index >= items.size()) return false;
  items.erase(items.begin() + static_cast<std::ptrdiff_t>(*holder.last.index));
  return true;
}

}  // namespace shimwright::laws
