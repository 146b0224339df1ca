#include "toml/tree_rules.h"

#include <fmt/core.h>

namespace shimwright::toml {
namespace {

/// `[key]` and the keys below an array of tables go to its last table.
Node* last_table_of(Node* node) {
  const bool of_tables = node->is_array() && node->origin == Origin::TableArray;
  return of_tables ? node->children.back().get() : node;
}

std::string joined(const std::vector<KeyPart>& key, std::size_t n_parts) {
  std::string out;
  for (std::size_t i = 0; i < n_parts; ++i) {
    if (i > 0) out += '.';
    out += is_bare_key(key[i].name) ? key[i].name : quote(key[i].name);
  }
  return out;
}

/// How the first of two clashing definitions was written, for the message.
std::string_view manner_of(const Node& node) {
  switch (node.origin) {
    case Origin::Header:
      return "a table under its header";
    case Origin::DottedKey:
      return "a table made by a dotted key";
    case Origin::SuperTable:
      return "a table implied by a header";
    case Origin::Inline:
      return "an inline table";
    case Origin::TableArray:
      return "a list of [[...]] tables";
    default:
      return node.is_array() ? "a list" : "a value";
  }
}

}  // namespace

Node& TreeRules::add(Node& table, const KeyPart& part, Kind kind, Origin origin) {
  auto node = std::make_unique<Node>();
  node->kind = kind;
  node->origin = origin;
  node->key = part.name;
  node->key_span = part.span;
  node->span = part.span;
  return table.adopt(std::move(node));
}

bool TreeRules::deep_enough_for(const Node& table, const std::vector<KeyPart>& key) {
  // an array of tables puts two nodes where the key has one part
  const auto needed = static_cast<std::size_t>(table.depth) + 2 * key.size();
  if (needed <= 2 * static_cast<std::size_t>(limits_.max_depth)) return true;
  complain_({{key.front().span.begin, key.back().span.end},
             "tables nested too deep",
             fmt::format("at most {} tables inside each other", limits_.max_depth),
             "use fewer levels"});
  return false;
}

void TreeRules::complain_of_clash(const Node& first, const std::vector<KeyPart>& key, std::size_t n_parts,
                                  bool as_table) {
  const int line = document_.place(first.key_span.begin).line;
  const std::string name = joined(key, n_parts);
  const Span span{key.front().span.begin, key[n_parts - 1].span.end};
  const std::string expected =
      fmt::format("each key once; {} on line {} is {}", name, line, manner_of(first));
  if (as_table && !first.is_table()) {
    complain_({span, fmt::format("{} is not a table, so nothing can be added to it", name), expected,
               fmt::format("rename this one, or turn line {} into a table", line)});
  } else if (as_table || first.is_table()) {
    complain_({span, fmt::format("table {} is already defined on line {}", name, line), expected,
               fmt::format("move these keys to line {}, or rename one of the two", line)});
  } else {
    complain_({span, fmt::format("{} is already defined on line {}", name, line), expected,
               fmt::format("delete this line or line {}", line)});
  }
}

Node* TreeRules::define_entry(Node& table, const std::vector<KeyPart>& key) {
  if (!deep_enough_for(table, key)) return nullptr;
  // check all of the way first, so that a clash leaves nothing half made
  Node* at = &table;
  for (std::size_t i = 0; at && i < key.size(); ++i) {
    Node* next = at->find(key[i].name);
    if (!next) break;
    const bool is_last = i + 1 == key.size();
    const bool open =
        next->is_table() && (next->origin == Origin::DottedKey || next->origin == Origin::SuperTable);
    if (is_last || !open) {
      complain_of_clash(*next, key, i + 1, !is_last);
      return nullptr;
    }
    at = next;
  }
  at = &table;
  for (std::size_t i = 0; i + 1 < key.size(); ++i) {
    Node* next = at->find(key[i].name);
    // a table so far only implied by a header is now defined here, and closed to a header of its own
    if (next) next->origin = Origin::DottedKey;
    at = next ? next : &add(*at, key[i], Kind::Table, Origin::DottedKey);
  }
  return &add(*at, key.back(), Kind::Faulty, Origin::Value);
}

/// The table that holds the last part of a header's key.
Node* TreeRules::walk_header(Node& root, const std::vector<KeyPart>& key, Span header) {
  Node* at = &root;
  for (std::size_t i = 0; i + 1 < key.size(); ++i) {
    Node* next = at->find(key[i].name);
    if (!next) {
      next = &add(*at, key[i], Kind::Table, Origin::SuperTable);
      next->span = header;
    }
    next = last_table_of(next);
    if (!next->is_table() || next->origin == Origin::Inline) {
      complain_of_clash(*next, key, i + 1, true);
      return nullptr;
    }
    at = next;
  }
  return at;
}

Node* TreeRules::open_table(Node& root, const std::vector<KeyPart>& key, Span header) {
  if (!deep_enough_for(root, key)) return nullptr;
  Node* holder = walk_header(root, key, header);
  if (!holder) return nullptr;
  Node* table = holder->find(key.back().name);
  if (table && !(table->is_table() && table->origin == Origin::SuperTable)) {
    complain_of_clash(*table, key, key.size(), true);
    return nullptr;
  }
  if (!table) table = &add(*holder, key.back(), Kind::Table, Origin::Header);
  table->origin = Origin::Header;
  table->key_span = key.back().span;
  table->span = table->header = header;
  return table;
}

Node* TreeRules::append_table(Node& root, const std::vector<KeyPart>& key, Span header) {
  if (!deep_enough_for(root, key)) return nullptr;
  Node* holder = walk_header(root, key, header);
  if (!holder) return nullptr;
  Node* array = holder->find(key.back().name);
  if (array && !(array->is_array() && array->origin == Origin::TableArray)) {
    complain_of_clash(*array, key, key.size(), true);
    return nullptr;
  }
  if (!array) {
    array = &add(*holder, key.back(), Kind::Array, Origin::TableArray);
    array->span = header;
  }
  auto table = std::make_unique<Node>();
  table->kind = Kind::Table;
  table->origin = Origin::TableArray;
  table->key_span = key.back().span;
  table->span = table->header = header;
  return &array->adopt(std::move(table));
}

}  // namespace shimwright::toml
