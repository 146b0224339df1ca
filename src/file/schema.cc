#include "file/schema.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <cmath>

#include "toml/document.h"
#include "units/format.h"

namespace shimwright::file {
namespace {

std::string bound_text(const KeySchema& key, double si) {
  if (key.unit == units::Kind::Number) return fmt::format("{}", si);
  units::FormatOptions options;
  if (key.unit == units::Kind::Pressure) options.reference = units::Reference::Gauge;
  return units::format_plain(si, key.unit, units::System::Metric, options);
}

std::string quantity_text(const KeySchema& key) {
  return fmt::format("{} with its unit, {}", units::facts(key.unit).name, units::examples(key.unit));
}

}  // namespace

const KeySchema* find_key(const TableSchema& table, std::string_view name) {
  for (const KeySchema& key : table.keys)
    if (key.name == name) return &key;
  return nullptr;
}

const KeySchema* key_at(const TableSchema& top, std::string_view path) {
  const auto steps = toml::parse_path(path);
  if (!steps) return nullptr;
  const TableSchema* table = &top;
  const KeySchema* key = nullptr;
  bool names_part = false;  // the next step is the name of a part, not a key
  for (const toml::Step& step : *steps) {
    if (step.index) continue;
    if (names_part) {
      names_part = false;
      continue;
    }
    if (table == nullptr) return nullptr;
    key = find_key(*table, step.key);
    if (key == nullptr) return nullptr;
    table = key->table;
    names_part = key->kind == ValueKind::Parts;
  }
  return key;
}

Station station_of(const KeySchema& key, const TableSchema& table, Station above) {
  return key.station.value_or(table.station.value_or(above));
}

Station station_at(const TableSchema& top, std::string_view path) {
  Station station = Station::Hardware;
  const auto steps = toml::parse_path(path);
  if (!steps) return station;
  const TableSchema* table = &top;
  bool names_part = false;  // the next step is the name of a part, not a key
  for (const toml::Step& step : *steps) {
    if (step.index) continue;
    if (names_part) {
      names_part = false;
      continue;
    }
    if (table == nullptr) return station;
    const KeySchema* key = find_key(*table, step.key);
    if (key == nullptr) return table->station.value_or(station);
    station = station_of(*key, *table, station);
    table = key->table;
    names_part = key->kind == ValueKind::Parts;
  }
  return station;
}

std::vector<std::string> key_names(const TableSchema& table) {
  std::vector<std::string> names;
  for (const KeySchema& key : table.keys) names.push_back(key.name);
  return names;
}

namespace {

std::string words_text(const KeySchema& key) {
  return fmt::format("\"{}\"", fmt::join(key.words, "\" or \""));
}

}  // namespace

std::string accepted_by(const KeySchema& key) {
  switch (key.kind) {
    case ValueKind::Quantity:
      return quantity_text(key);
    case ValueKind::QuantityRange:
      return fmt::format("from {} to a larger one", units::facts(key.unit).name);
    case ValueKind::QuantityList:
      return fmt::format("{}, or several", units::facts(key.unit).name);
    case ValueKind::Number:
      return "a plain number";
    case ValueKind::Count:
      return "a whole number";
    case ValueKind::Flag:
      return "true or false";
    case ValueKind::Text:
      return "a text in quotes";
    case ValueKind::TextList:
      if (!key.words.empty()) return words_text(key) + ", or a list of them";
      return "a text in quotes, or a list of texts";
    case ValueKind::Date:
      return "a date";
    case ValueKind::Word:
      return words_text(key);
    case ValueKind::Thread:
      return "a thread, \"M6 x 0.75\" or \"1/4-28\"";
    case ValueKind::PartList:
      return "a list of names and tables";
    case ValueKind::Part:
      return "the name of a part, or a table that describes it";
    case ValueKind::PartName:
      return "the name of a part";
    case ValueKind::Table:
      return "a table";
    case ValueKind::TableList:
      return "a table, or a list of tables";
    case ValueKind::Stack:
      return "shims as \"COUNT x OUTER DIAMETER x THICKNESS\", as tables, or by name";
    case ValueKind::Pieces:
      return "pieces as \"ROLE HEIGHT\", as tables, or by name";
    case ValueKind::Parts:
      return "a table for each part";
  }
  return "";
}

std::string bounds_text(const KeySchema& key) {
  const bool has_low = std::isfinite(key.bounds.low);
  const bool has_high = std::isfinite(key.bounds.high);
  if (has_low && has_high)
    return fmt::format("{} to {}", bound_text(key, key.bounds.low), bound_text(key, key.bounds.high));
  if (has_low) return fmt::format("{} or more", bound_text(key, key.bounds.low));
  return has_high ? fmt::format("{} or less", bound_text(key, key.bounds.high)) : "";
}

}  // namespace shimwright::file
