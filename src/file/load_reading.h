#pragma once
#include <string>
#include <string_view>

#include "base/diagnostic.h"
#include "file/load_codes.h"
#include "file/schema.h"
#include "file/spec.h"
#include "toml/document.h"

namespace shimwright::file {

/// What the reader of one file carries along.
struct Reading {
  JobSpec* job = nullptr;  // its parts and files
  int file = 0;            // index into JobSpec::files
  const toml::Document* document = nullptr;
  Diagnostics* diagnostics = nullptr;
  bool parts_complete = true;  // false: a parts file is missing or broken, so unknown names are not reported
};

/// What a diagnostic says; the place comes with the origin.
struct FaultText {
  std::string what;
  std::string got;
  std::string expected;
  std::string remedy;
};

/// The code under which a fault of a unit text is reported.
Code unit_code(units::Fault fault);

Origin origin_of(const Reading& reading, const toml::Node& node);
Origin origin_of_key(const Reading& reading, const toml::Node& node);

/// A part of a text value, in characters from its start; the whole value when it was typed with escapes.
Origin origin_within(const Reading& reading, const toml::Node& node, int offset, int length);

/// The text of the value in the file, only its first line.
std::string typed(const Reading& reading, const toml::Node& node);

void report(Reading& reading, Code code, const Origin& origin, FaultText words);

/// `did you mean "clamp"?`, or `fallback` when no known name is near.
std::string suggestion(std::string_view word, const std::vector<std::string>& known, std::string fallback);

// ---- values

void read_table(Reading& reading, const TableSchema& schema, const toml::Node& node, void* spec);

/// True when the node is a table; reports what is wrong otherwise.
bool expect_table(Reading& reading, const KeySchema& key, const toml::Node& node);

void report_wrong_type(Reading& reading, const KeySchema& key, const toml::Node& node);

Quantity read_quantity(Reading& reading, const KeySchema& key, const toml::Node& node);
QuantityRange read_range(Reading& reading, const KeySchema& key, const toml::Node& node);
std::vector<Quantity> read_quantity_list(Reading& reading, const KeySchema& key, const toml::Node& node);
Number read_number(Reading& reading, const KeySchema& key, const toml::Node& node);
Count read_count(Reading& reading, const KeySchema& key, const toml::Node& node);
Flag read_flag(Reading& reading, const KeySchema& key, const toml::Node& node);
Text read_text(Reading& reading, const KeySchema& key, const toml::Node& node);
std::vector<Text> read_text_list(Reading& reading, const KeySchema& key, const toml::Node& node);
Text read_date(Reading& reading, const KeySchema& key, const toml::Node& node);
Thread read_thread(Reading& reading, const KeySchema& key, const toml::Node& node);

/// Index into the key's words, or -1 after a report.
int read_word(Reading& reading, const KeySchema& key, const toml::Node& node);

/// Reports a value beyond the key's bounds; true when it lies inside.
bool check_bounds(Reading& reading, const KeySchema& key, double si, const Origin& origin,
                  const std::string& typed_text);

// ---- named parts

/// The part called `name`, or null after a report. `group` is the key its kind lives under, "shim".
template <typename Part>
const Part* find_part(Reading& reading, const std::vector<Part>& parts, std::string_view group,
                      const std::string& name, const Origin& origin);

void report_unknown_part(Reading& reading, std::string_view group, const std::string& name,
                         const std::vector<std::string>& known, const Origin& origin);

template <typename Part>
std::vector<std::string> names_of(const std::vector<Part>& parts) {
  std::vector<std::string> names;
  for (const Part& part : parts) names.push_back(part.name);
  return names;
}

template <typename Part>
const Part* part_called(const std::vector<Part>& parts, std::string_view name) {
  for (const Part& part : parts)
    if (part.name == name) return &part;
  return nullptr;
}

template <typename Part>
const Part* find_part(Reading& reading, const std::vector<Part>& parts, std::string_view group,
                      const std::string& name, const Origin& origin) {
  if (const Part* part = part_called(parts, name)) return part;
  report_unknown_part(reading, group, name, names_of(parts), origin);
  return nullptr;
}

// ---- lists with a short form

std::vector<DiscSpec> read_stack(Reading& reading, const KeySchema& key, const toml::Node& node);
std::vector<PieceSpec> read_pieces(Reading& reading, const KeySchema& key, const toml::Node& node);

/// A piece that starts from a spacer of the parts file.
PieceSpec piece_from(const SpacerSpec& spacer);

}  // namespace shimwright::file
