
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <string_view>
#include <vector>

#include "file/schema.h"

namespace shimwright::file {
namespace {

constexpr std::string_view kHead = R"md(# The job file

One job is one file: the rider and the machine, each fork leg or shock with its valves and springs, and the settings. The
file is [TOML](https://toml.io/en/v1.0.0): `key = value`, tables in `[brackets]`, lists of tables in `[[double brackets]]`,
comments after `#`. The keys may be in any order. The program keeps what you type exactly as you typed it.

A file may contain only part of a job. Each command tells you what it needs: a single `[stack]` is enough for
`shimwright stack`.

The program writes this page: change the schema in `src/file/schema_*.cc`, then run
`SHIMWRIGHT_WRITE_DOCS=1 file_tests --gtest_filter='*Docs*'`.

## How values are written

- **Quantities** are texts with a unit: `"0.15 mm"`, `"1/8 in"`, `"4.5 N.m"`, `"40 in.lbf"`. A number without a unit is a
  fault. You can use metric and imperial units in the same file.
- **Pressures** say where they count from: `"10 bar(g)"` above the outside air, `"1.2 bar(a)"` above vacuum.
- **Diameters** everywhere, never radii. Write every length as you measure it.
- **A stack** is a list, face shim first. An entry is a text, `"3 x 24 x 0.15 mm"` (count, outer diameter, thickness), the
  name of a shim, `"3 x shim 20x0.15"`, or a table, `{ outer_diameter = "23 mm", bore = "18 mm", thickness = "0.15 mm" }`.
  A shim whose bore is larger than the clamp is a ring shim: it is loose between its neighbours.
- **A piece** on a post is a text or a table: `"washer 2.0 mm"`, the word of its role and its height; `"2 x 6x0.3"`, a
  spacer from a parts file; or `{ role = "piston", name = "base piston", height = "12 mm" }`. Its role says what it does, its
  name says nothing: `"float collar 1.3 mm"` is only a piece with a name, `"collar 1.3 mm"` is a collar.
- **Parts** are described where you use them, or named from a parts file: `oil = "light-fork-fluid"`. A table with
  `part = "NAME"` starts from that part. Its other keys replace those of the part. Put a name with a dot in quotes:
  `[shim."20x0.15"]`.
- **Clicks** are counted outwards from seated.

A parts file contains `format`, `scenario`, `notes`, `parts` (more parts files) and the tables of [parts](#parts).
[diagnostics.md](diagnostics.md) lists the faults by number.
)md";

/// A table of the schema and the headings it goes under, "[unit.piston_valve]".
struct DocumentedTable {
  const TableSchema* table;
  std::vector<std::string> headings;
  bool is_part;
};

void collect(const TableSchema& table, const std::string& path, bool is_part,
             std::vector<DocumentedTable>& places) {
  for (const KeySchema& key : table.keys) {
    if (key.table == nullptr || key.kind == ValueKind::PartName) continue;
    const bool names_part = key.kind == ValueKind::Parts;
    const std::string inner = path.empty() ? key.name : path + "." + key.name;
    const std::string shown = names_part ? inner + ".NAME" : inner;
    const bool is_list = key.kind == ValueKind::TableList;
    const std::string heading = is_list ? "[[" + shown + "]]" : "[" + shown + "]";
    const auto same = [&](const DocumentedTable& place) { return place.table == key.table; };
    const auto found = std::find_if(places.begin(), places.end(), same);
    if (found == places.end()) {
      places.push_back({key.table, {heading}, is_part || names_part});
      collect(*key.table, shown, is_part || names_part, places);
    } else {
      found->headings.push_back(heading);
    }
  }
}

std::string in_cell(std::string text) {
  for (std::size_t at = 0; (at = text.find('|', at)) != std::string::npos; at += 2) text.insert(at, "\\");
  return text;
}

std::string what_of(const KeySchema& key) {
  std::string what;
  if (key.kind == ValueKind::Quantity) {
    what = units::facts(key.unit).name;
  } else if (key.kind == ValueKind::Word) {
    what = fmt::format("`{}`", fmt::join(key.words, "`, `"));
  } else if (!key.words.empty()) {
    what = fmt::format("`{}`, or a list of them", fmt::join(key.words, "`, `"));
  } else {
    what = accepted_by(key);
  }
  const std::string bounds = bounds_text(key);
  const bool is_telling =
      key.kind == ValueKind::Quantity || key.kind == ValueKind::Number || key.kind == ValueKind::Count;
  return is_telling && !bounds.empty() ? what + ", " + bounds : what;
}

std::string key_table(const TableSchema& table) {
  std::string text = "\n| key | value | meaning | example |\n|---|---|---|---|\n";
  for (const KeySchema& key : table.keys) {
    const std::string example = key.example.empty() ? "" : fmt::format("`{}`", in_cell(key.example));
    const std::string needed = key.required ? " **Required.**" : "";
    text += fmt::format("| `{}` | {} | {}{} | {} |\n", key.name, in_cell(what_of(key)), in_cell(key.doc),
                        needed, example);
  }
  return text;
}

/// The same table can be in many places; the heading names three of them.
std::string headings_text(std::vector<std::string> headings) {
  const std::size_t n_left = headings.size() > 3 ? headings.size() - 3 : 0;
  if (n_left > 0) headings.resize(3);
  std::string text = fmt::format("`{}`", fmt::join(headings, "`, `"));
  if (n_left > 0) text += fmt::format(" and {} more", n_left);
  return text;
}

std::string section(const DocumentedTable& place) {
  return fmt::format("\n### {}\n\n{}\n{}", headings_text(place.headings), place.table->doc,
                     key_table(*place.table));
}

}  // namespace

std::string job_file_page() {
  std::string page(kHead);
  page += "\n## The top level\n" + key_table(job_schema());
  std::vector<DocumentedTable> places;
  collect(job_schema(), "", false, places);
  page += "\n## Tables\n";
  for (const DocumentedTable& place : places)
    if (!place.is_part) page += section(place);
  page += "\n## Parts\n";
  for (const DocumentedTable& place : places)
    if (place.is_part) page += section(place);
  return page;
}

}  // namespace shimwright::file
