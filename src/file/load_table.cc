#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "file/load_reading.h"
#include "file/schema_build.h"

namespace shimwright::file {
namespace {

/// The tables that have a key called `name`, for a key in the wrong table.
void find_homes(const TableSchema& table, std::string_view name, std::vector<std::string>& homes) {
  for (const KeySchema& key : table.keys) {
    const bool is_new = std::find(homes.begin(), homes.end(), table.name) == homes.end();
    if (key.name == name && is_new) homes.push_back(table.name);
    if (key.table != nullptr) find_homes(*key.table, name, homes);
  }
}

/// Other words of the trade for a key. The first that the table knows is the one that was meant.
struct OtherWord {
  std::string_view word;
  std::vector<std::string_view> keys;
};

std::string key_for_other_word(const TableSchema& schema, std::string_view word) {
  static const std::vector<OtherWord> words = {
      {"base_valve", {"foot_valve"}},
      {"mid_valve", {"piston_valve", "compression"}},
      {"stack", {"discs"}},
      {"discs", {"stack"}},
      {"shims", {"stack", "discs", "shim"}},
      {"od", {"outer_diameter", "diameter"}},
      {"id", {"bore"}},
      {"inner_diameter", {"bore"}},
      {"hole", {"bore"}},
      {"weight", {"mass"}},
      {"spring", {"coil_spring"}},
      {"preload", {"seat_height"}},
      {"dish", {"seat_height"}},
      {"lift", {"seat_height"}},
      {"stroke", {"travel"}},
      {"washer", {"clamp"}},
      {"pivot", {"clamp"}},
      {"qty", {"count", "in_hand"}},
      {"quantity", {"count", "in_hand"}},
      {"threadlocker", {"on_the_thread"}},
      {"volume", {"cartridge"}},
  };
  for (const OtherWord& other : words)
    if (other.word == word)
      for (const std::string_view key : other.keys)
        if (find_key(schema, key) != nullptr) return std::string(key);
  return "";
}

void report_unknown_key(Reading& reading, const TableSchema& schema, const toml::Node& node) {
  const std::vector<std::string> known = key_names(schema);
  std::vector<std::string> homes;
  find_homes(job_schema(), node.key, homes);

  const std::string other = key_for_other_word(schema, node.key);
  std::string remedy = fmt::format("remove it; {} has the keys {}", schema.name, fmt::join(known, ", "));
  if (!homes.empty()) remedy = fmt::format("move it: it belongs to {}", fmt::join(homes, " or "));
  remedy = other.empty() ? suggestion(node.key, known, remedy) : fmt::format("write \"{}\" here", other);
  report(reading, Code::UnknownKey, origin_of_key(reading, node),
         {fmt::format("{} has no such key", schema.name), node.key, "", remedy});
}

}  // namespace

void read_table(Reading& reading, const TableSchema& schema, const toml::Node& node, void* spec) {
  // the named part first: what is typed here goes over it
  for (const KeySchema& key : schema.keys)
    if (key.kind == ValueKind::PartName)
      if (const toml::Node* child = node.find(key.name)) key.read(reading, key, *child, spec);
  schema.place(reading, node, spec);

  for (const auto& child : node.children) {
    const KeySchema* key = find_key(schema, child->key);
    if (key == nullptr) report_unknown_key(reading, schema, *child);
    if (key != nullptr && key->kind != ValueKind::PartName) key->read(reading, *key, *child, spec);
  }

  for (const KeySchema& key : schema.keys) {
    const bool is_there = node.find(key.name) != nullptr || key.is_given(spec);
    // a key of a broken line may have been lost with it
    if (!key.required || is_there || !reading.document->ok()) continue;
    Origin origin = origin_of(reading, node);
    origin.path = origin.path.empty() ? key.name : origin.path + "." + key.name;
    report(reading, Code::MissingKey, origin,
           {fmt::format("{} lacks a required key", schema.name), "",
            fmt::format("{} = {}", key.name, key.example), fmt::format("add {}: {}", key.name, key.doc)});
  }
}

const toml::Node* split_by_dot(const KeySchema& key, const toml::Node& part) {
  for (const auto& child : part.children) {
    const bool is_table_key = find_key(*key.table, child->key) != nullptr;
    if (child->is_table() && !is_table_key) return child.get();
  }
  return nullptr;
}

void report_dotted_part(Reading& reading, const KeySchema& key, const toml::Node& node,
                        const toml::Node& inner) {
  std::string name = node.key;
  const toml::Node* step = &inner;
  while (step != nullptr) {
    name += "." + step->key;
    step = split_by_dot(key, *step);
  }
  Origin origin = origin_of(reading, inner);
  report(reading, Code::DotInPartName, origin,
         {"a dot splits the name of a part", typed(reading, inner), "a name with a dot in quotes",
          fmt::format("write [{}.\"{}\"]", key.name, name)});
}

void report_duplicate_part(Reading& reading, const KeySchema& key, const toml::Node& node,
                           const Origin& first) {
  const std::string& first_file = reading.job->files[static_cast<std::size_t>(first.file)].name;
  report(reading, Code::DuplicatePart, origin_of(reading, node),
         {fmt::format("a second {} of this name", key.name), fmt::format("\"{}\"", node.key),
          fmt::format("the first is in {}, line {}", first_file, first.line),
          "give one of the two another name"});
}

}  // namespace shimwright::file
