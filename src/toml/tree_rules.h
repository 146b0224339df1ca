#pragma once
#include <string>
#include <vector>

#include "toml/document.h"
#include "toml/quoted.h"

namespace shimwright::toml {

/// One part of a dotted key as written.
struct KeyPart {
  std::string name;
  Span span;
};

/// Which tables may be defined, reopened and extended, and how: TOML 1.0.0, sections Keys, Table, Inline
/// Table and Array of Tables. Each function returns null after a complaint, and leaves the tree as it was
/// then.
class TreeRules {
 public:
  TreeRules(const Document& document, const Limits& limits, const Complain& complain)
      : document_(document), limits_(limits), complain_(complain) {}

  /// The new, still empty node for `key = ...` written in `table`.
  Node* define_entry(Node& table, const std::vector<KeyPart>& key);
  /// The table for [key].
  Node* open_table(Node& root, const std::vector<KeyPart>& key, Span header);
  /// A new table at the end of the array for [[key]].
  Node* append_table(Node& root, const std::vector<KeyPart>& key, Span header);

 private:
  Node* walk_header(Node& root, const std::vector<KeyPart>& key, Span header);
  bool deep_enough_for(const Node& table, const std::vector<KeyPart>& key);
  void complain_of_clash(const Node& first, const std::vector<KeyPart>& key, std::size_t n_parts,
                         bool as_table);
  static Node& add(Node& table, const KeyPart& part, Kind kind, Origin origin);

  const Document& document_;
  const Limits& limits_;
  const Complain& complain_;
};

}  // namespace shimwright::toml
