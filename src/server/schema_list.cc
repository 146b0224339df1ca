#include <cmath>
#include <nlohmann/json.hpp>
#include <string>

#include "file/schema.h"
#include "server/encode.h"

namespace shimwright::server {
namespace {

using Json = nlohmann::ordered_json;
using file::KeySchema;
using file::ValueKind;

/// Tables inside tables; no job nests deeper, and a part that names a part of its kind would never end.
constexpr int kDeepest = 8;

const char* word(ValueKind kind) {
  switch (kind) {
    case ValueKind::Quantity:
      return "quantity";
    case ValueKind::QuantityRange:
      return "range";
    case ValueKind::QuantityList:
      return "quantities";
    case ValueKind::Number:
      return "number";
    case ValueKind::Count:
      return "count";
    case ValueKind::Flag:
      return "flag";
    case ValueKind::Text:
      return "text";
    case ValueKind::TextList:
      return "texts";
    case ValueKind::Date:
      return "date";
    case ValueKind::Word:
      return "word";
    case ValueKind::Thread:
      return "thread";
    case ValueKind::PartList:
      return "part list";
    case ValueKind::Part:
      return "part";
    case ValueKind::PartName:
      return "part name";
    case ValueKind::Table:
      return "table";
    case ValueKind::TableList:
      return "tables";
    case ValueKind::Stack:
      return "stack";
    case ValueKind::Pieces:
      return "pieces";
    case ValueKind::Parts:
      return "parts";
  }
  return "text";
}

bool is_quantity(ValueKind kind) {
  return kind == ValueKind::Quantity || kind == ValueKind::QuantityRange || kind == ValueKind::QuantityList;
}

/// "a length" -> "length"
std::string unit_word(units::Kind kind) {
  const std::string_view name = units::facts(kind).name;
  return std::string(name.substr(name.find(' ') + 1));
}

/// What stands behind a key's name in the path of what lies in its table.
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

void collect(const file::TableSchema& table, const std::string& above, int depth, Json& list) {
  for (const KeySchema& key : table.keys) {
    Json row = {{"path", above + key.name},
                {"value", word(key.kind)},
                {"unit", is_quantity(key.kind) ? unit_word(key.unit) : ""},
                {"words", key.words},
                {"required", key.required},
                {"doc", key.doc},
                {"example", key.example},
                {"accepts", file::accepted_by(key)},
                {"bounds", file::bounds_text(key)}};
    if (std::isfinite(key.bounds.low)) row["low"] = key.bounds.low;
    if (std::isfinite(key.bounds.high)) row["high"] = key.bounds.high;
    list.push_back(std::move(row));
    if (key.table && depth < kDeepest) collect(*key.table, above + step_into(key) + ".", depth + 1, list);
  }
}

}  // namespace

std::string schema_json() {
  Json list = Json::array();
  collect(file::job_schema(), "", 0, list);
  return list.dump();
}

}  // namespace shimwright::server
