#pragma once
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "file/load_reading.h"
#include "file/schema.h"

namespace shimwright::file {

/// The makers of schema lines: each ties a key to the member of the Spec struct `S` that takes it.

template <typename S, typename Member>
Member& member_of(void* spec, Member S::* member) {
  return static_cast<S*>(spec)->*member;
}

template <typename S, typename Member>
const Member& member_of(const void* spec, Member S::* member) {
  return static_cast<const S*>(spec)->*member;
}

inline bool given(const std::string& text) {
  return !text.empty();
}
template <typename T>
bool given(const std::vector<T>& list) {
  return !list.empty();
}
template <typename T>
bool given(const T& value) {
  return static_cast<bool>(value);
}

/// A key whose value `read(reading, key, node)` gives.
template <typename S, typename Member, typename Read>
KeySchema key_of(ValueKind kind, std::string name, Member S::* member, Read read, std::string doc,
                 std::string example) {
  KeySchema key;
  key.name = std::move(name);
  key.kind = kind;
  key.doc = std::move(doc);
  key.example = std::move(example);
  key.read = [member, read](Reading& reading, const KeySchema& self, const toml::Node& node, void* spec) {
    member_of(spec, member) = read(reading, self, node);
  };
  key.is_given = [member](const void* spec) { return given(member_of(spec, member)); };
  return key;
}

/// The same key, worked on at a station of its own.
inline KeySchema at(Station station, KeySchema key) {
  key.station = station;
  return key;
}

/// The same table, its keys worked on at a station that is not that of the key before it.
inline TableSchema keys_at(Station station, TableSchema table) {
  table.station = station;
  return table;
}

/// The same key, without which its table means nothing.
inline KeySchema required(KeySchema key) {
  key.required = true;
  return key;
}

template <typename S>
KeySchema quantity(std::string name, Quantity S::* member, units::Kind unit, Bounds bounds, std::string doc,
                   std::string example) {
  KeySchema key =
      key_of(ValueKind::Quantity, std::move(name), member, read_quantity, std::move(doc), std::move(example));
  key.unit = unit;
  key.bounds = bounds;
  return key;
}

template <typename S>
KeySchema quantity_range(std::string name, QuantityRange S::* member, units::Kind unit, Bounds bounds,
                         std::string doc, std::string example) {
  KeySchema key = key_of(ValueKind::QuantityRange, std::move(name), member, read_range, std::move(doc),
                         std::move(example));
  key.unit = unit;
  key.bounds = bounds;
  return key;
}

template <typename S>
KeySchema quantity_list(std::string name, std::vector<Quantity> S::* member, units::Kind unit, Bounds bounds,
                        std::string doc, std::string example) {
  KeySchema key = key_of(ValueKind::QuantityList, std::move(name), member, read_quantity_list, std::move(doc),
                         std::move(example));
  key.unit = unit;
  key.bounds = bounds;
  return key;
}

template <typename S>
KeySchema number(std::string name, Number S::* member, Bounds bounds, std::string doc, std::string example) {
  KeySchema key =
      key_of(ValueKind::Number, std::move(name), member, read_number, std::move(doc), std::move(example));
  key.bounds = bounds;
  return key;
}

template <typename S>
KeySchema count(std::string name, Count S::* member, Bounds bounds, std::string doc, std::string example) {
  KeySchema key =
      key_of(ValueKind::Count, std::move(name), member, read_count, std::move(doc), std::move(example));
  key.bounds = bounds;
  return key;
}

template <typename S>
KeySchema flag(std::string name, Flag S::* member, std::string doc, std::string example) {
  return key_of(ValueKind::Flag, std::move(name), member, read_flag, std::move(doc), std::move(example));
}

template <typename S>
KeySchema text(std::string name, Text S::* member, std::string doc, std::string example) {
  return key_of(ValueKind::Text, std::move(name), member, read_text, std::move(doc), std::move(example));
}

template <typename S>
KeySchema text_list(std::string name, std::vector<Text> S::* member, std::string doc, std::string example) {
  return key_of(ValueKind::TextList, std::move(name), member, read_text_list, std::move(doc),
                std::move(example));
}

template <typename S>
KeySchema date(std::string name, Text S::* member, std::string doc, std::string example) {
  return key_of(ValueKind::Date, std::move(name), member, read_date, std::move(doc), std::move(example));
}

template <typename S>
KeySchema thread(std::string name, Thread S::* member, Bounds bounds, std::string doc, std::string example) {
  KeySchema key =
      key_of(ValueKind::Thread, std::move(name), member, read_thread, std::move(doc), std::move(example));
  key.unit = units::Kind::Length;
  key.bounds = bounds;
  return key;
}

/// One of a few words, each standing for a value of an enumeration; they are listed in the order of its
/// values.
template <typename S, typename Enum>
KeySchema word(std::string name, Choice<Enum> S::* member, std::vector<std::string> words, std::string doc,
               std::string example) {
  const auto read = [](Reading& reading, const KeySchema& key, const toml::Node& node) {
    const int index = read_word(reading, key, node);
    if (index < 0) return Choice<Enum>{};
    return Choice<Enum>{static_cast<Enum>(index), true, node.text, origin_of(reading, node)};
  };
  KeySchema key = key_of(ValueKind::Word, std::move(name), member, read, std::move(doc), std::move(example));
  key.words = std::move(words);
  return key;
}

/// Several of such words, or one alone.
template <typename S, typename Enum>
KeySchema word_list(std::string name, std::vector<Choice<Enum>> S::* member, std::vector<std::string> words,
                    std::string doc, std::string example) {
  const auto read = [](Reading& reading, const KeySchema& key, const toml::Node& node) {
    std::vector<Choice<Enum>> choices;
    const auto take = [&](const toml::Node& one) {
      const int index = read_word(reading, key, one);
      if (index >= 0) choices.push_back({static_cast<Enum>(index), true, one.text, origin_of(reading, one)});
    };
    if (!node.is_array()) return take(node), choices;
    for (const auto& child : node.children) take(*child);
    return choices;
  };
  KeySchema key =
      key_of(ValueKind::TextList, std::move(name), member, read, std::move(doc), std::move(example));
  key.words = std::move(words);
  return key;
}

template <typename S, typename T>
KeySchema table(std::string name, std::optional<T> S::* member, const TableSchema& inner, std::string doc,
                std::string example = "") {
  const auto read = [](Reading& reading, const KeySchema& key, const toml::Node& node) {
    std::optional<T> value;
    if (expect_table(reading, key, node)) read_table(reading, *key.table, node, &value.emplace());
    return value;
  };
  KeySchema key = key_of(ValueKind::Table, std::move(name), member, read, std::move(doc), std::move(example));
  key.table = &inner;
  return key;
}

/// Tables in a row; a single one may stand without the second pair of brackets.
template <typename S, typename T>
KeySchema table_list(std::string name, std::vector<T> S::* member, const TableSchema& inner, std::string doc,
                     std::string example = "") {
  const auto read = [](Reading& reading, const KeySchema& key, const toml::Node& node) {
    std::vector<T> values;
    const auto take = [&](const toml::Node& one) {
      if (expect_table(reading, key, one)) read_table(reading, *key.table, one, &values.emplace_back());
    };
    if (!node.is_array()) return take(node), values;
    for (const auto& child : node.children) take(*child);
    return values;
  };
  KeySchema key =
      key_of(ValueKind::TableList, std::move(name), member, read, std::move(doc), std::move(example));
  key.table = &inner;
  return key;
}

/// A part by its name, or stated in place. `group` is where parts of its kind live.
template <typename S, typename T>
KeySchema part(std::string name, Named<T> S::* member, std::vector<T> PartsSpec::* group,
               std::string group_name, const TableSchema& inner, std::string doc, std::string example) {
  const auto read = [group, group_name](Reading& reading, const KeySchema& key, const toml::Node& node) {
    Named<T> value;
    value.origin = origin_of(reading, node);
    if (node.kind == toml::Kind::String) {
      value.name = {node.text, true, value.origin};
      const T* found = find_part(reading, reading.job->parts.*group, group_name, node.text, value.origin);
      if (found != nullptr) value.part = *found;
    } else if (expect_table(reading, key, node)) {
      read_table(reading, *key.table, node, &value.part.emplace());
    }
    return value;
  };
  KeySchema key = key_of(ValueKind::Part, std::move(name), member, read, std::move(doc), std::move(example));
  key.table = &inner;
  key.group = group_name;
  return key;
}

/// The name of the part whose values a table starts from; `copy` makes the table's struct out of the part.
template <typename S, typename T, typename Copy>
KeySchema part_name(Text S::* member, std::vector<T> PartsSpec::* group, std::string group_name, Copy copy,
                    std::string doc, std::string example) {
  KeySchema key = key_of(ValueKind::PartName, "part", member, read_text, std::move(doc), std::move(example));
  key.read = [member, group, group_name, copy](Reading& reading, const KeySchema& self,
                                               const toml::Node& node, void* spec) {
    const Text name = read_text(reading, self, node);
    if (!name) return;
    const T* found = find_part(reading, reading.job->parts.*group, group_name, name.value, name.origin);
    if (found != nullptr) *static_cast<S*>(spec) = copy(*found);
    member_of(spec, member) = name;
  };
  key.group = group_name;
  return key;
}

void report_dotted_part(Reading& reading, const KeySchema& key, const toml::Node& node,
                        const toml::Node& inner);
void report_duplicate_part(Reading& reading, const KeySchema& key, const toml::Node& node,
                           const Origin& first);

/// The table under a part whose name was split by a dot: [shim.20x0.15] holds the table `15`; or null.
const toml::Node* split_by_dot(const KeySchema& key, const toml::Node& part);

/// Parts by name, `[shim."20x0.15"]`.
template <typename T>
KeySchema parts(std::string name, std::vector<T> PartsSpec::* group, const TableSchema& inner,
                std::string doc, std::string example) {
  KeySchema key;
  key.name = std::move(name);
  key.kind = ValueKind::Parts;
  key.doc = std::move(doc);
  key.example = std::move(example);
  key.table = &inner;
  key.is_given = [](const void*) { return false; };
  key.read = [group](Reading& reading, const KeySchema& self, const toml::Node& node, void*) {
    if (!expect_table(reading, self, node)) return;
    for (const auto& child : node.children) {
      if (!expect_table(reading, self, *child)) continue;
      std::vector<T>& known = reading.job->parts.*group;
      if (const toml::Node* inner_node = split_by_dot(self, *child)) {
        report_dotted_part(reading, self, *child, *inner_node);
      } else if (const T* first = part_called(known, child->key)) {
        report_duplicate_part(reading, self, *child, first->origin);
      } else {
        T spec;
        read_table(reading, *self.table, *child, &spec);
        spec.name = child->key;
        known.push_back(std::move(spec));
      }
    }
  };
  return key;
}

template <typename S>
KeySchema stack_list(std::string name, std::vector<DiscSpec> S::* member, const TableSchema& inner,
                     std::string doc, std::string example) {
  KeySchema key =
      key_of(ValueKind::Stack, std::move(name), member, read_stack, std::move(doc), std::move(example));
  key.table = &inner;
  return key;
}

template <typename S>
KeySchema piece_list(std::string name, std::vector<PieceSpec> S::* member, const TableSchema& inner,
                     std::string doc, std::string example) {
  KeySchema key =
      key_of(ValueKind::Pieces, std::move(name), member, read_pieces, std::move(doc), std::move(example));
  key.table = &inner;
  return key;
}

/// A table whose struct `S` notes where it stands.
template <typename S>
TableSchema schema_of(std::string name, std::string doc, std::vector<KeySchema> keys) {
  TableSchema schema;
  schema.name = std::move(name);
  schema.doc = std::move(doc);
  schema.keys = std::move(keys);
  schema.place = [](Reading& reading, const toml::Node& node, void* spec) {
    static_cast<S*>(spec)->origin = origin_of(reading, node);
  };
  return schema;
}

}  // namespace shimwright::file
