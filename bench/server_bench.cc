// What the page waits for: an edit of one shim until its answer stands as JSON, one of a shim seen before, a
// trial while a finger drags, a step of the stack's slider, undo to a state computed before. Aim: an edit
// well under 20 ms.
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

/// What a page does: it holds the newest result and is told what changed in it.
struct Page {
  Bench& bench;
  ClientContext context{units::System::Metric};

  void take(const JobView& view) { context.holds = view.result ? view.result->tag : ""; }
  std::int64_t position() {
    const auto view = bench.workbench.job(bench.id, context);
    take(*view);
    return view->track.position;
  }
};

/// Edits `path` again and again; the answer stands as JSON at the end of each.
template <typename Typed>
void edit(benchmark::State& state, const char* path, bool whole, Typed&& typed) {
  Bench bench;
  Page page{bench};
  std::int64_t position = page.position();
  int n = 0;
  for (auto _ : state) {
    const auto answer = bench.workbench.edit(
        bench.id, {position, "tab", "", {{Edit::Kind::Set, path, typed(++n), 0}}}, page.context);
    const JobView& view = std::get<JobView>(*answer);
    const std::string json = to_json(view);
    state.counters["bytes"] = static_cast<double>(json.size());
    position = view.track.position;
    if (!whole) page.take(view);
    if (whole) page.context.holds.clear();
  }
}

void edit_a_shim(benchmark::State& state) {
  edit(state, kShim, false, new_shim);
}
BENCHMARK(edit_a_shim)->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime()->UseRealTime();

void edit_a_shim_answered_whole(benchmark::State& state) {
  edit(state, kShim, true, new_shim);
}
BENCHMARK(edit_a_shim_answered_whole)->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime()->UseRealTime();

void try_a_shim(benchmark::State& state) {
  Bench bench;
  Page page{bench};
  page.position();
  int n = 0;
  double compute_ms = 0, encode_ms = 0;
  for (auto _ : state) {
    const auto trial =
        bench.workbench.attempt(bench.id, {{Edit::Kind::Set, kShim, new_shim(++n), 0}}, page.context);
    const std::string json = to_json(*trial);
    page.context.holds = trial->result->tag;
    compute_ms += trial->timing.compute_ms;
    encode_ms += trial->timing.encode_ms;
    state.counters["bytes"] = static_cast<double>(json.size());
  }
  state.counters["compute_ms"] = benchmark::Counter(compute_ms, benchmark::Counter::kAvgIterations);
  state.counters["encode_ms"] = benchmark::Counter(encode_ms, benchmark::Counter::kAvgIterations);
}
BENCHMARK(try_a_shim)->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime()->UseRealTime();

void swap_a_shim_back_and_forth(benchmark::State& state) {
  edit(state, kShim, false, [](int n) { return new_shim(n % 2); });
}
BENCHMARK(swap_a_shim_back_and_forth)->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime()->UseRealTime();

void edit_what_changes_no_result(benchmark::State& state) {
  edit(state, "title", false, [](int n) { return "Title " + std::to_string(n); });
}
BENCHMARK(edit_what_changes_no_result)->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime()->UseRealTime();

void undo_and_redo(benchmark::State& state) {
  Bench bench;
  Page page{bench};
  const auto edited = bench.workbench.edit(
      bench.id, {page.position(), "tab", "", {{Edit::Kind::Set, kShim, new_shim(1), 0}}}, page.context);
  page.take(std::get<JobView>(*edited));
  for (auto _ : state) {
    const auto undone = bench.workbench.undo(bench.id, "tab", page.context);
    const std::string json = to_json(*undone);
    page.take(*undone);
    const auto redone = bench.workbench.redo(bench.id, "tab", page.context);
    benchmark::DoNotOptimize(to_json(*redone));
    page.take(*redone);
    state.counters["bytes"] = static_cast<double>(json.size());
  }
}
BENCHMARK(undo_and_redo)->Unit(benchmark::kMillisecond)->MeasureProcessCPUTime()->UseRealTime();

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
