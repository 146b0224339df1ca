// Whole jobs, as `check` and the packet run them: text to document. Aim: check of an example <= 100 ms.
#include <benchmark/benchmark.h>

#include <string>

#include "document/document_json.h"
#include "file/load.h"
#include "job/run.h"

namespace {

using namespace shimwright;
using namespace shimwright::document;
using namespace shimwright::file;
using namespace shimwright::job;

constexpr const char* kJobs[] = {"fork", "shock", "lone-stack"};

JobSpec read(int index) {
  DiskFiles files;
  return load_job(files, std::string(SW_SOURCE_DIR) + "/test/jobs/" + kJobs[index] + ".job.toml").job;
}

/// `check`: read, compute all parts that findings rest on, judge.
void check(benchmark::State& state) {
  RunOptions options;
  options.sections = {.findings = true};
  for (auto _ : state) {
    const JobSpec job = read(static_cast<int>(state.range(0)));
    auto result = run_job(job, options);
    if (!result) state.SkipWithError("the job does not run");
    benchmark::DoNotOptimize(result);
  }
  state.SetLabel(kJobs[state.range(0)]);
}
BENCHMARK(check)->DenseRange(0, 2)->Unit(benchmark::kMillisecond);

/// Everything that the packet prints.
void whole_document(benchmark::State& state) {
  const JobSpec job = read(static_cast<int>(state.range(0)));
  for (auto _ : state) benchmark::DoNotOptimize(run_job(job, {}));
  state.SetLabel(kJobs[state.range(0)]);
}
BENCHMARK(whole_document)->DenseRange(0, 2)->Unit(benchmark::kMillisecond);

void write_json(benchmark::State& state) {
  const ResultDocument document = run_job(read(0), {}).value();
  for (auto _ : state) benchmark::DoNotOptimize(to_json(document));
}
BENCHMARK(write_json)->Unit(benchmark::kMillisecond);

}  // namespace
