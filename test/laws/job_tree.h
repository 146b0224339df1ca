#pragma once
#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "toml/document.h"

namespace shimwright::laws {

/// A TOML value that can be taken apart and put together again: what the drawing and the shrinking work on.
struct Tree {
  enum class Shape { Value, List, Table } shape = Shape::Value;
  std::string text;                                     // of a value, as TOML: "\"0.15 mm\"", "3", "true"
  std::vector<Tree> items;                              // of a list
  std::vector<std::pair<std::string, Tree>> entries{};  // of a table, in order

  static Tree value(std::string toml) { return {Shape::Value, std::move(toml), {}, {}}; }
  static Tree table() { return {Shape::Table, "", {}, {}}; }

  Tree* find(const std::string& key);
  const Tree* find(const std::string& key) const;
  void set(const std::string& key, Tree tree);
  bool erase(const std::string& key);
};

/// The tree of a document's node; values as they were typed.
Tree tree_of(const toml::Document& document, const toml::Node& node);

/// The tree of one TOML value, as in a schema's example.
Tree tree_of_value(const std::string& toml);

/// As TOML: tables of the first two levels under headers, those below in one line.
std::string toml_text(const Tree& root);

/// The node at a path as in file::Origin, "unit[0].rod"; null when there is none. A single table behind the
/// key of a list counts as its only element.
Tree* at_path(Tree& root, const std::string& path);

/// Takes away what stands at a path; false when there is nothing.
bool erase_path(Tree& root, const std::string& path);

}  // namespace shimwright::laws
