// The fork example on the bench against what it gave before: regression (trust D of STYLE 1.3), never
// validation. Numbers that a change moves on purpose are copied from the failure's own lines into
// test/jobs/enduro-fork.bench.expected.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <map>
#include <string>

#include "file/load.h"
#include "job/run_bench.h"

namespace shimwright::job {
namespace {

using Headline = std::map<std::string, double>;

Headline headline_of(const document::BenchDocument& document) {
  Headline line;
  line["runs"] = document.n_finished;
  for (const document::Finding& finding : document.findings) line["finding " + finding.code] += 1.0;
  for (const document::BenchUnit& unit : document.units) {
    for (const document::BenchRun& run : unit.runs) {
      const std::string name =
          fmt::format("{} {:.0f} mm {:.3g} m/s ", word(run.kind), 1e3 * run.stroke, run.top_speed);
      const document::BenchCycle& last = run.cycles.back();
      line[name + "compression"] = last.compression_force;
      line[name + "rebound"] = last.rebound_force;
      line[name + "energy"] = last.energy_in;
      line[name + "lowest pressure"] = last.lowest_pressure;
      line[name + "free piston"] = last.piston_travel_most;
      line[name + "temperature"] = last.temperature_end;
      line[name + "lock pressure"] = last.lock_pressure;
    }
    for (const document::ReleaseCase& one : unit.release->cases)
      line[fmt::format("let go, {:g} mL, {:g} N", 1e6 * one.air, one.seal_friction)] = one.time;
  }
  return line;
}

TEST(BenchGolden, TheForkExampleIsAsBefore) {
  file::DiskFiles disk;
  const file::LoadResult loaded =
      file::load_job(disk, SW_SOURCE_DIR "/examples/enduro-fork/enduro-fork.job.toml");
  ASSERT_TRUE(loaded.ok());
  const auto document = run_bench_job(loaded.job, {});
  ASSERT_TRUE(document.has_value());
  const Headline now = headline_of(*document);

  Headline before;
  std::ifstream file(SW_SOURCE_DIR "/test/jobs/enduro-fork.bench.expected");
  for (std::string row; std::getline(file, row);) {
    const auto equals = row.rfind(" = ");
    if (!row.empty() && row[0] != '#' && equals != std::string::npos)
      before[row.substr(0, equals)] = std::stod(row.substr(equals + 3));
  }
  EXPECT_EQ(now.size(), before.size());
  for (const auto& [name, value] : now) {
    const std::string row = fmt::format("{} = {:.6g}", name, value);
    EXPECT_TRUE(before.contains(name)) << row;
    if (!before.contains(name)) continue;
    // 0.5 %: what a finer mesh of the plates or another step in time may move; more is a change of the model
    EXPECT_NEAR(value, before.at(name), 5e-3 * std::abs(before.at(name)) + 1e-3) << row;
  }
}

}  // namespace
}  // namespace shimwright::job
