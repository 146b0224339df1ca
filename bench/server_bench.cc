// What the page waits for: an edit of one shim until its answer stands as JSON, a trial while a finger drags,
// a step of the stack's slider, undo to a state computed before. Aim: an edit well under 20 ms.
#include <benchmark/benchmark.h>
#include <unistd.h>

#include <filesystem>
#include <string>

#include "server/encode.h"
#include "server/workbench.h"
#include "store/journal.h"

namespace {

using namespace shimwright;
using namespace shimwright::server;
namespace fs = std::filesystem;

constexpr const char* kShim = "unit[0].piston_valve.rebound.stack[0]";

/// The example fork in a folder of its own, with a journal on the disk.
struct Bench {
  fs::path folder = fs::temp_directory_path() / ("shimwright-bench-" + std::to_string(::getpid()));
  Workbench workbench;
  std::string id;

  Bench() : workbench(settings(), store::Journal::open((folder / "journal.db").string())) {
    id = workbench.session().open;
  }
  ~Bench() { fs::remove_all(folder); }

  WorkbenchSettings settings() const {
    fs::create_directories(folder / "shop");
    fs::copy(fs::path(SW_SOURCE_DIR) / "examples" / "enduro-fork", folder / "shop",
             fs::copy_options::recursive | fs::copy_options::overwrite_existing);
    WorkbenchSettings settings;
    settings.folder = (folder / "shop").string();
    settings.open_job = (folder / "shop" / "enduro-fork.job.toml").string();
    settings.now_ms = [] { return 0; };
    return settings;
  }
};

/// Thicknesses that no run has seen before, so that nothing is remembered.
std::string new_shim(int n) {
  return "8 x 20 x 0." + std::to_string(100000 + n % 100000) + " mm";
}

void edit_a_shim(benchmark::State& state) {
  Bench bench;
  int n = 0;
  for (auto _ : state) {
    const auto answer =
        bench.workbench.edit(bench.id,
                             {bench.workbench.job(bench.id, units::System::Metric)->track.position,
                              "tab",
                              "",
                              {{Edit::Kind::Set, kShim, new_shim(++n), 0}}},
                             units::System::Metric);
    benchmark::DoNotOptimize(to_json(std::get<JobView>(*answer)));
  }
}
BENCHMARK(edit_a_shim)->Unit(benchmark::kMillisecond);

void try_a_shim(benchmark::State& state) {
  Bench bench;
  int n = 0;
  double compute_ms = 0, encode_ms = 0;
  for (auto _ : state) {
    const auto trial = bench.workbench.attempt(bench.id, {{Edit::Kind::Set, kShim, new_shim(++n), 0}},
                                               units::System::Metric);
    const std::string json = to_json(*trial);
    compute_ms += trial->timing.compute_ms;
    encode_ms += trial->timing.encode_ms;
    state.counters["bytes"] = static_cast<double>(json.size());
  }
  state.counters["compute_ms"] = benchmark::Counter(compute_ms, benchmark::Counter::kAvgIterations);
  state.counters["encode_ms"] = benchmark::Counter(encode_ms, benchmark::Counter::kAvgIterations);
}
BENCHMARK(try_a_shim)->Unit(benchmark::kMillisecond);

void edit_what_changes_no_result(benchmark::State& state) {
  Bench bench;
  int n = 0;
  for (auto _ : state) {
    const auto answer =
        bench.workbench.edit(bench.id,
                             {bench.workbench.job(bench.id, units::System::Metric)->track.position,
                              "tab",
                              "",
                              {{Edit::Kind::Set, "title", "Title " + std::to_string(++n), 0}}},
                             units::System::Metric);
    benchmark::DoNotOptimize(to_json(std::get<JobView>(*answer)));
  }
}
BENCHMARK(edit_what_changes_no_result)->Unit(benchmark::kMillisecond);

void undo_and_redo(benchmark::State& state) {
  Bench bench;
  const auto position = bench.workbench.job(bench.id, units::System::Metric)->track.position;
  benchmark::DoNotOptimize(bench.workbench.edit(
      bench.id, {position, "tab", "", {{Edit::Kind::Set, kShim, new_shim(1), 0}}}, units::System::Metric));
  for (auto _ : state) {
    benchmark::DoNotOptimize(to_json(*bench.workbench.undo(bench.id, "tab", units::System::Metric)));
    benchmark::DoNotOptimize(to_json(*bench.workbench.redo(bench.id, "tab", units::System::Metric)));
  }
}
BENCHMARK(undo_and_redo)->Unit(benchmark::kMillisecond);

void slide_a_stack(benchmark::State& state) {
  Bench bench;
  int n = 0;
  for (auto _ : state) {
    const double pressure = 1e5 + 1e3 * (++n % 500);
    benchmark::DoNotOptimize(
        to_json(*bench.workbench.stack(bench.id, {"unit[0].piston_valve.rebound", pressure, {}})));
  }
}
BENCHMARK(slide_a_stack)->Unit(benchmark::kMillisecond);

void write_a_revision(benchmark::State& state) {
  const fs::path folder = fs::temp_directory_path() / ("shimwright-journal-" + std::to_string(::getpid()));
  auto journal = store::Journal::open((folder / "journal.db").string());
  std::string text(8000, '#');
  int n = 0;
  for (auto _ : state) {
    text.replace(4000, 8, std::to_string(10000000 + ++n));
    benchmark::DoNotOptimize(journal.append("/a", {text, {}, "edit", "tab", n, {}}));
  }
  journal = store::Journal::in_memory();
  state.counters["bytes_each"] =
      static_cast<double>(fs::file_size(folder / "journal.db")) / static_cast<double>(state.iterations());
  fs::remove_all(folder);
}
BENCHMARK(write_a_revision)->Unit(benchmark::kMillisecond);

}  // namespace
