#pragma once
#include <functional>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/terms.h"
#include "toml/document.h"
#include "units/kind.h"

namespace shimwright::file {

/// The schema of a job file: one line for each key, from which come the reader, every message about a key,
/// its page in docs/job-file.md, and what a shell or a screen offers.

/// What stands behind a key.
enum class ValueKind {
  Quantity,       // "0.15 mm"
  QuantityRange,  // "25 to 40 mm"
  QuantityList,   // "0.2 MPa, 0.5 MPa" or a list of quantities
  Number,         // 0.30
  Count,          // 3
  Flag,           // true
  Text,           // "rocky single track"
  TextList,       // ["dives", "harsh"], or one text
  Date,           // "2026-11-20" or 2026-11-20
  Word,           // one of a few
  Thread,         // "M6 x 0.75"
  PartList,       // names of parts, or tables
  Part,           // the name of a part, or a table that states it in place
  PartName,       // the name of the part whose values this table starts from
  Table,          // { ... } or [name]
  TableList,      // [[name]], or one [name]
  Stack,          // shims, face first
  Pieces,         // what stands on a post, shoulder first
  Parts,          // [name.PART]: parts by name
};

/// What a value may be, in SI, and why.
struct Bounds {
  double low = -std::numeric_limits<double>::infinity();
  double high = std::numeric_limits<double>::infinity();
  std::string_view reason;  // "no shim is thinner or thicker"
};

struct TableSchema;
struct Reading;  // load_reading.h

struct KeySchema {
  std::string name;
  ValueKind kind = ValueKind::Text;
  units::Kind unit = units::Kind::Number;
  Bounds bounds;
  bool required = false;           // its table means nothing without it
  std::vector<std::string> words;  // of a Word
  std::vector<std::pair<std::string, std::string>>
      meant;  // other words of the trade, and the word that means them
  const TableSchema* table = nullptr;
  std::optional<Station> station;  // where it is worked on; left out: where its table is
  std::string group;               // of a Part or PartName: the parts that it may name, "oil"
  std::string doc;                 // one sentence
  std::string example;             // as it would stand behind `name = `

  // how the Spec takes it: `spec` is the struct that the table fills
  std::function<void(Reading&, const KeySchema&, const toml::Node&, void* spec)> read;
  std::function<bool(void* spec)> is_given;
};

struct TableSchema {
  std::string name;  // "unit", what its pages and messages call it
  std::string doc;
  std::vector<KeySchema> keys;
  std::function<void(Reading&, const toml::Node&, void* spec)> place;  // notes where the table stands
  std::optional<Station> station;  // of its keys; left out: that of the key which the table stands behind
};

/// The top level of a job file, and of a parts file.
const TableSchema& job_schema();
const TableSchema& parts_schema();

/// The key called `name`, or null.
const KeySchema* find_key(const TableSchema& table, std::string_view name);

/// The schema of the key at a path such as "unit[0].piston_valve.clamp", or null.
const KeySchema* key_at(const TableSchema& top, std::string_view path);

/// Where the key of a table is worked on; `above` is the station of the key that the table stands behind.
Station station_of(const KeySchema& key, const TableSchema& table, Station above);

/// Where the key at a path is worked on; of one that the schema has not, where its table is.
Station station_at(const TableSchema& top, std::string_view path);

std::vector<std::string> key_names(const TableSchema& table);

/// What a key accepts, in words: `a length with its unit, as "0.15 mm" (or "0.006 in")`.
std::string accepted_by(const KeySchema& key);

/// "0.02 mm to 3 mm"; "" without bounds.
std::string bounds_text(const KeySchema& key);

/// docs/job-file.md, whole: how a job file is written, then every table and key of the schema.
std::string job_file_page();

}  // namespace shimwright::file
