#include <fmt/format.h>

#include <cmath>
#include <string>
#include <vector>

#include "document/document_walk.h"
#include "file/schema.h"
#include "server/answers.h"
#include "server/describe_list.h"
#include "server/encode.h"

namespace shimwright::server {
namespace {

using file::KeySchema;
using file::ValueKind;

bool is_quantity(ValueKind kind) {
  return kind == ValueKind::Quantity || kind == ValueKind::QuantityRange || kind == ValueKind::QuantityList;
}

/// "a length" -> "length"
std::string unit_word(units::Kind kind) {
  const std::string_view name = units::facts(kind).name;
  return std::string(name.substr(name.find(' ') + 1));
}

/// What follows a key's name in the path of the entries in its table.
std::string step_into(const KeySchema& key) {
  switch (key.kind) {
    case ValueKind::TableList:
    case ValueKind::PartList:
    case ValueKind::Stack:
    case ValueKind::Pieces:
      return key.name + "[]";
    case ValueKind::Parts:
      return key.name + ".*";
    default:
      return key.name;
  }
}

SchemaKey described_key(const KeySchema& key, std::string path, Station station) {
  SchemaKey row;
  row.path = std::move(path);
  row.value = key.kind;
  if (is_quantity(key.kind)) row.unit = unit_word(key.unit);
  for (const auto& word : key.words) row.words.emplace_back(word);
  row.required = key.required;
  row.station = station;
  row.parts = key.group;
  row.doc = key.doc;
  row.example = key.example;
  row.accepts = file::accepted_by(key);
  row.bounds = file::bounds_text(key);
  if (std::isfinite(key.bounds.low)) row.low = key.bounds.low;
  if (std::isfinite(key.bounds.high)) row.high = key.bounds.high;
  return row;
}

/// The rows of a table and of the tables in it; no table of the schema lies in itself.
void collect(const file::TableSchema& table, const std::string& above, Station around,
             std::vector<std::string>& rows) {
  for (const KeySchema& key : table.keys) {
    const Station station = file::station_of(key, table, around);
    rows.push_back(document::brief_json(document::described(described_key(key, above + key.name, station))));
    if (key.table) collect(*key.table, above + step_into(key) + ".", station, rows);
  }
}

}  // namespace

std::string schema_json() {
  std::vector<std::string> rows;
  collect(file::job_schema(), "", Station::Hardware, rows);
  return fmt::format("[{}]", fmt::join(rows, ","));
}

}  // namespace shimwright::server
