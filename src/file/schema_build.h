#pragma once
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "file/load_reading.h"
#include "file/schema.h"

namespace shimwright::file {

/// The makers of schema lines: each ties a key to the member of the Spec struct `S` that takes it. Only the
/// way to the member is a template for each struct; what reads a value is there once for each kind of value.

/// The way from a Spec struct to one of its members.
using MemberAt = std::function<void*(void* spec)>;

template <typename S, typename Member>
MemberAt at(Member S::* member) {
  return [member](void* spec) -> void* { return &(static_cast<S*>(spec)->*member); };
}

/// How a member takes a value, and whether it has one.
struct MemberReader {
  std::function<void(Reading&, const KeySchema&, const toml::Node&, void* member)> read;
  bool (*is_given)(const void* member) = nullptr;
};

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

/// Of a member that `fill(reading, key, node, member)` fills where it stands: a Spec is large, and moving one
/// costs more to compile than to read.
template <typename Member, typename Fill>
MemberReader reader_of(Fill fill) {
  return {[fill](Reading& reading, const KeySchema& key, const toml::Node& node, void* member) {
            fill(reading, key, node, *static_cast<Member*>(member));
          },
          [](const void* member) { return given(*static_cast<const Member*>(member)); }};
}

KeySchema key_of(ValueKind kind, std::string_view name, MemberAt member, MemberReader reader,
                 std::string_view doc, std::string_view example);

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
KeySchema required(KeySchema key);

/// The same word key, with what else the trade says for its words.
inline KeySchema meant_by(KeySchema key, std::vector<std::pair<std::string, std::string>> meant) {
  key.meant = std::move(meant);
  return key;
}

// ---- keys by what stands behind them; the members' types are those of spec_value.h

KeySchema quantity_key(std::string_view name, MemberAt member, units::Kind unit, const Bounds& bounds,
                       std::string_view doc, std::string_view example);
KeySchema quantity_range_key(std::string_view name, MemberAt member, units::Kind unit, const Bounds& bounds,
                             std::string_view doc, std::string_view example);
KeySchema quantity_list_key(std::string_view name, MemberAt member, units::Kind unit, const Bounds& bounds,
                            std::string_view doc, std::string_view example);
KeySchema number_key(std::string_view name, MemberAt member, const Bounds& bounds, std::string_view doc,
                     std::string_view example);
KeySchema count_key(std::string_view name, MemberAt member, const Bounds& bounds, std::string_view doc,
                    std::string_view example);
KeySchema flag_key(std::string_view name, MemberAt member, std::string_view doc, std::string_view example);
KeySchema text_key(std::string_view name, MemberAt member, std::string_view doc, std::string_view example);
KeySchema text_list_key(std::string_view name, MemberAt member, std::string_view doc,
                        std::string_view example);
KeySchema date_key(std::string_view name, MemberAt member, std::string_view doc, std::string_view example);
KeySchema thread_key(std::string_view name, MemberAt member, const Bounds& bounds, std::string_view doc,
                     std::string_view example);
KeySchema stack_key(std::string_view name, MemberAt member, const TableSchema& inner, std::string_view doc,
                    std::string_view example);
KeySchema pieces_key(std::string_view name, MemberAt member, const TableSchema& inner, std::string_view doc,
                     std::string_view example);

template <typename S>
KeySchema quantity(std::string_view name, Quantity S::* member, units::Kind unit, const Bounds& bounds,
                   std::string_view doc, std::string_view example) {
  return quantity_key(name, at(member), unit, bounds, doc, example);
}

template <typename S>
KeySchema quantity_range(std::string_view name, QuantityRange S::* member, units::Kind unit,
                         const Bounds& bounds, std::string_view doc, std::string_view example) {
  return quantity_range_key(name, at(member), unit, bounds, doc, example);
}

template <typename S>
KeySchema quantity_list(std::string_view name, std::vector<Quantity> S::* member, units::Kind unit,
                        const Bounds& bounds, std::string_view doc, std::string_view example) {
  return quantity_list_key(name, at(member), unit, bounds, doc, example);
}

template <typename S>
KeySchema number(std::string_view name, Number S::* member, const Bounds& bounds, std::string_view doc,
                 std::string_view example) {
  return number_key(name, at(member), bounds, doc, example);
}

template <typename S>
KeySchema count(std::string_view name, Count S::* member, const Bounds& bounds, std::string_view doc,
                std::string_view example) {
  return count_key(name, at(member), bounds, doc, example);
}

template <typename S>
KeySchema flag(std::string_view name, Flag S::* member, std::string_view doc, std::string_view example) {
  return flag_key(name, at(member), doc, example);
}

template <typename S>
KeySchema text(std::string_view name, Text S::* member, std::string_view doc, std::string_view example) {
  return text_key(name, at(member), doc, example);
}

template <typename S>
KeySchema text_list(std::string_view name, std::vector<Text> S::* member, std::string_view doc,
                    std::string_view example) {
  return text_list_key(name, at(member), doc, example);
}

template <typename S>
KeySchema date(std::string_view name, Text S::* member, std::string_view doc, std::string_view example) {
  return date_key(name, at(member), doc, example);
}

template <typename S>
KeySchema thread(std::string_view name, Thread S::* member, const Bounds& bounds, std::string_view doc,
                 std::string_view example) {
  return thread_key(name, at(member), bounds, doc, example);
}

template <typename S>
KeySchema stack_list(std::string_view name, std::vector<DiscSpec> S::* member, const TableSchema& inner,
                     std::string_view doc, std::string_view example) {
  return stack_key(name, at(member), inner, doc, example);
}

template <typename S>
KeySchema piece_list(std::string_view name, std::vector<PieceSpec> S::* member, const TableSchema& inner,
                     std::string_view doc, std::string_view example) {
  return pieces_key(name, at(member), inner, doc, example);
}

/// One of a few words, each standing for a value of an enumeration; they are listed in the order of its
/// values.
template <typename S, typename Enum>
KeySchema word(std::string_view name, Choice<Enum> S::* member, std::vector<std::string> words,
               std::string_view doc, std::string_view example) {
  const auto fill = [](Reading& reading, const KeySchema& key, const toml::Node& node, Choice<Enum>& choice) {
    const int index = read_word(reading, key, node);
    choice = {};
    if (index >= 0) choice = {static_cast<Enum>(index), true, node.text, origin_of(reading, node)};
  };
  KeySchema key = key_of(ValueKind::Word, name, at(member), reader_of<Choice<Enum>>(fill), doc, example);
  key.words = std::move(words);
  return key;
}

/// Several of such words, or one alone.
template <typename S, typename Enum>
KeySchema word_list(std::string_view name, std::vector<Choice<Enum>> S::* member,
                    std::vector<std::string> words, std::string_view doc, std::string_view example) {
  const auto fill = [](Reading& reading, const KeySchema& key, const toml::Node& node,
                       std::vector<Choice<Enum>>& choices) {
    choices.clear();
    const auto take = [&](const toml::Node& one) {
      const int index = read_word(reading, key, one);
      if (index >= 0) choices.push_back({static_cast<Enum>(index), true, one.text, origin_of(reading, one)});
    };
    if (!node.is_array()) return take(node);
    for (const auto& child : node.children) take(*child);
  };
  KeySchema key =
      key_of(ValueKind::TextList, name, at(member), reader_of<std::vector<Choice<Enum>>>(fill), doc, example);
  key.words = std::move(words);
  return key;
}

template <typename S, typename T>
KeySchema table(std::string_view name, std::optional<T> S::* member, const TableSchema& inner,
                std::string_view doc, std::string_view example = "") {
  const auto fill = [](Reading& reading, const KeySchema& key, const toml::Node& node,
                       std::optional<T>& value) {
    value.reset();
    if (expect_table(reading, key, node)) read_table(reading, *key.table, node, &value.emplace());
  };
  KeySchema key = key_of(ValueKind::Table, name, at(member), reader_of<std::optional<T>>(fill), doc, example);
  key.table = &inner;
  return key;
}

/// Tables in a row; a single one may stand without the second pair of brackets.
template <typename S, typename T>
KeySchema table_list(std::string_view name, std::vector<T> S::* member, const TableSchema& inner,
                     std::string_view doc, std::string_view example = "") {
  const auto fill = [](Reading& reading, const KeySchema& key, const toml::Node& node,
                       std::vector<T>& values) {
    values.clear();
    const auto take = [&](const toml::Node& one) {
      if (expect_table(reading, key, one)) read_table(reading, *key.table, one, &values.emplace_back());
    };
    if (!node.is_array()) return take(node);
    for (const auto& child : node.children) take(*child);
  };
  KeySchema key =
      key_of(ValueKind::TableList, name, at(member), reader_of<std::vector<T>>(fill), doc, example);
  key.table = &inner;
  return key;
}

/// A part by its name, or stated in place. `group` is where parts of its kind live.
template <typename S, typename T>
KeySchema part(std::string_view name, Named<T> S::* member, std::vector<T> PartsSpec::* group,
               std::string_view group_name, const TableSchema& inner, std::string_view doc,
               std::string_view example) {
  const auto fill = [group, group_name = std::string(group_name)](Reading& reading, const KeySchema& key,
                                                                  const toml::Node& node, Named<T>& value) {
    value.name = {};
    value.part.reset();
    value.origin = origin_of(reading, node);
    if (node.kind == toml::Kind::String) {
      value.name = {node.text, true, value.origin};
      const T* found = find_part(reading, reading.job->parts.*group, group_name, node.text, value.origin);
      if (found != nullptr) value.part.emplace(*found);
    } else if (expect_table(reading, key, node)) {
      read_table(reading, *key.table, node, &value.part.emplace());
    }
  };
  KeySchema key = key_of(ValueKind::Part, name, at(member), reader_of<Named<T>>(fill), doc, example);
  key.table = &inner;
  key.group = std::string(group_name);
  return key;
}

/// The name of the part whose values a table starts from; `copy` makes the table's struct out of the part.
template <typename S, typename T, typename Copy>
KeySchema part_name(Text S::* member, std::vector<T> PartsSpec::* group, std::string_view group_name,
                    Copy copy, std::string_view doc, std::string_view example) {
  KeySchema key = text_key("part", at(member), doc, example);
  key.kind = ValueKind::PartName;
  key.read = [member = at(member), group, group_name = std::string(group_name), copy](
                 Reading& reading, const KeySchema& self, const toml::Node& node, void* spec) {
    const Text name = read_text(reading, self, node);
    if (!name) return;
    const T* found = find_part(reading, reading.job->parts.*group, group_name, name.value, name.origin);
    if (found != nullptr) *static_cast<S*>(spec) = copy(*found);
    *static_cast<Text*>(member(spec)) = name;
  };
  key.group = std::string(group_name);
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
KeySchema parts(std::string_view name, std::vector<T> PartsSpec::* group, const TableSchema& inner,
                std::string_view doc, std::string_view example) {
  KeySchema key;
  key.name = name;
  key.kind = ValueKind::Parts;
  key.doc = doc;
  key.example = example;
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

TableSchema table_of(std::string_view name, std::string_view doc, std::vector<KeySchema> keys,
                     MemberAt origin);

/// A table whose struct `S` notes its place.
template <typename S>
TableSchema schema_of(std::string_view name, std::string_view doc, std::vector<KeySchema> keys) {
  return table_of(name, doc, std::move(keys), at<S, Origin>(&S::origin));
}

}  // namespace shimwright::file
