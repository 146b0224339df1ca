#include "file/schema.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <set>
#include <sstream>

#include "file/load.h"
#include "file/load_codes.h"
#include "toml/document.h"

namespace shimwright::file {
namespace {

void for_each_table(const TableSchema& table, std::set<const TableSchema*>& seen, const auto& visit) {
  if (!seen.insert(&table).second) return;
  visit(table);
  for (const KeySchema& key : table.keys)
    if (key.table != nullptr) for_each_table(*key.table, seen, visit);
}

void for_each_key(const auto& visit) {
  std::set<const TableSchema*> seen;
  for_each_table(job_schema(), seen, [&](const TableSchema& table) {
    for (const KeySchema& key : table.keys) visit(table, key);
  });
}

TEST(Schema, EveryKeyHasASentenceAndAnExampleOrATable) {
  for_each_key([](const TableSchema& table, const KeySchema& key) {
    EXPECT_TRUE(key.doc.ends_with(".")) << table.name << ' ' << key.name;
    EXPECT_TRUE(!key.example.empty() || key.table != nullptr) << table.name << ' ' << key.name;
    EXPECT_FALSE(accepted_by(key).empty()) << table.name << ' ' << key.name;
  });
}

TEST(Schema, EveryQuantityAndCountHasBoundsWithAReason) {
  for_each_key([](const TableSchema& table, const KeySchema& key) {
    const bool is_measure =
        key.kind == ValueKind::Quantity || key.kind == ValueKind::Count || key.kind == ValueKind::Number;
    if (!is_measure) return;
    EXPECT_TRUE(std::isfinite(key.bounds.low) && std::isfinite(key.bounds.high))
        << table.name << ' ' << key.name;
    EXPECT_LT(key.bounds.low, key.bounds.high) << table.name << ' ' << key.name;
    EXPECT_FALSE(key.bounds.reason.empty()) << table.name << ' ' << key.name;
  });
}

TEST(Schema, NoTableHasAKeyTwice) {
  std::set<const TableSchema*> seen;
  for_each_table(job_schema(), seen, [](const TableSchema& table) {
    std::set<std::string> names;
    for (const KeySchema& key : table.keys)
      EXPECT_TRUE(names.insert(key.name).second) << table.name << ' ' << key.name;
  });
}

/// A file that holds one key with its example, at `path` of tables.
void expect_example_reads(const std::string& path, const KeySchema& key) {
  const std::string head = path.empty() ? "" : "[" + path + "]\n";
  MemoryFiles files({{"example", head + key.name + " = " + key.example + "\n"}});
  for (const Diagnostic& diagnostic : load_job(files, "example").diagnostics) {
    const bool is_shape = diagnostic.code < "E0400" && diagnostic.code != facts_of(Code::MissingKey).id &&
                          diagnostic.code != facts_of(Code::PartsFileUnreadable).id;
    EXPECT_FALSE(is_shape) << path << '.' << key.name << ": " << render(diagnostic, "");
  }
}

void expect_examples_read(const TableSchema& table, const std::string& path) {
  for (const KeySchema& key : table.keys) {
    const bool names_part = key.kind == ValueKind::Parts;
    if (!key.example.empty() && !names_part) expect_example_reads(path, key);
    const bool goes_on = key.table != nullptr && key.kind != ValueKind::Stack &&
                         key.kind != ValueKind::Pieces && key.kind != ValueKind::PartList;
    const std::string inner = path.empty() ? key.name : path + "." + key.name;
    if (goes_on) expect_examples_read(*key.table, names_part ? inner + ".example" : inner);
  }
}

TEST(Schema, EveryExampleIsAcceptedByItsKey) {
  expect_examples_read(job_schema(), "");
}

TEST(Schema, APathLeadsToItsKeyThroughListsAndPartNames) {
  EXPECT_EQ(key_at(job_schema(), "unit[1].piston_valve.rebound.stack[2]")->name, "stack");
  EXPECT_EQ(key_at(job_schema(), "unit[0].piston_valve.rebound.stack[2].thickness")->name, "thickness");
  EXPECT_EQ(key_at(job_schema(), "shim.\"20x0.15\".bore")->name, "bore");
  EXPECT_EQ(key_at(job_schema(), "unit[0].colour"), nullptr);
  EXPECT_EQ(key_at(job_schema(), "title.deeper"), nullptr);
  EXPECT_EQ(key_at(job_schema(), ""), nullptr);
}

struct Placed {
  const char* path;
  Station station;
};

TEST(Schema, EachKeyIsWorkedOnAtItsStation) {
  const std::vector<Placed> all{
      {"title", Station::Rider},
      {"rider.complaints[0]", Station::Rider},
      {"machine.front_sag.static", Station::Rider},
      {"unit[0]", Station::Hardware},
      {"unit[0].travel", Station::Hardware},
      {"unit[0].piston_valve.rebound.seat", Station::Hardware},
      {"unit[0].piston_valve.rebound.pocket.arc", Station::Hardware},
      {"unit[0].piston_valve.rebound.stack[2]", Station::Valving},
      {"unit[0].piston_valve.rebound.stack[2].thickness", Station::Valving},
      {"unit[0].piston_valve.rebound.float.travel", Station::Valving},
      {"unit[0].foot_valve.bleed[0].clicks", Station::Valving},
      {"unit[0].foot_valve", Station::Valving},
      {"unit[0].foot_valve.compression", Station::Valving},
      {"stack.seat", Station::Valving},
      {"unit[0].air_spring.positive.pressure", Station::Springs},
      {"unit[0].piston_valve.nut.torque", Station::Fit},
      {"unit[0].piston_valve.spacers[1]", Station::Fit},
      {"unit[1].fill.space.bore", Station::Build},
      {"unit[0].motion.metal_mass", Station::Effect},
      {"bench.with_springs", Station::Effect},
      {"shim.\"20x0.15\".bore", Station::Hardware},
      {"unit[0].foot_valve.slip", Station::Hardware},
      {"slip", Station::Rider},
  };
  for (const Placed& one : all) EXPECT_EQ(station_at(job_schema(), one.path), one.station) << one.path;
}

// ---- pages written by the program

void expect_page(const std::string& name, const std::string& page) {
  const std::string path = std::string(SW_SOURCE_DIR) + "/docs/" + name;
  if (std::getenv("SHIMWRIGHT_WRITE_DOCS") != nullptr) std::ofstream(path) << page;
  std::ifstream stream(path);
  std::ostringstream text;
  text << stream.rdbuf();
  EXPECT_EQ(text.str(), page) << "write it again: SHIMWRIGHT_WRITE_DOCS=1 file_tests --gtest_filter='*Docs*'";
}

TEST(SchemaDocs, TheJobFilePageIsUpToDate) {
  expect_page("job-file.md", job_file_page());
}

TEST(SchemaDocs, TheDiagnosticsPageIsUpToDate) {
  expect_page("diagnostics.md", diagnostics_page());
}

}  // namespace
}  // namespace shimwright::file
