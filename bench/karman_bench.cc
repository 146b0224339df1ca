// The quick lift curve against plate's full one, over the same stacks in one run: forty by chance of each
// size (tapers, two stages, preloaded seats; lifts of 0.2 to 0.8 mm, or what 3 MPa lift), each with 24 reads.
//   build-check/bench/karman_bench --benchmark_repetitions=5 --benchmark_enable_random_interleaving=true
//
// CPU time of a stack [ms], 2026-12-01, one core of a busy 2-core Debian 12 VM, least of five, check build:
//
//   layers   | plate | here
//   3 to 8   | 2.0   | 0.032
//   8        | 3.1   | 0.064
//   10 to 12 | 4.9   | 0.164
#include <benchmark/benchmark.h>

#include <array>
#include <vector>

#include "karman/karman_curve.h"
#include "karman/test_random_stacks.h"
#include "plate/lift_curve.h"

namespace shimwright::karman {
namespace {

constexpr int kReads = 24;

struct Case {
  plate::Stack stack;
  std::size_t table = 0;
  std::vector<double> pressures;
};

struct Cases {
  std::vector<DiscTable> tables;
  std::vector<Case> cases;
};

Cases draw(int least_layers, int most_layers) {
  constexpr StackClass kClasses[] = {StackClass::Taper, StackClass::TwoStage, StackClass::Preloaded};
  RandomStacks random(8);
  plate::Workspace workspace;
  Cases drawn;
  for (const TestValve& valve : kTestValves) {
    for (int i = 0; i < 10; ++i) {
      Case c{random.stack(kClasses[i % 3], valve, least_layers, most_layers), drawn.tables.size(), {}};
      const double p_max = test_pressure(c.stack, 0.2e-3 + 0.6e-3 * random.share(), workspace);
      for (int k = 1; k <= kReads; ++k) c.pressures.push_back(p_max * k / kReads);
      drawn.cases.push_back(c);
    }
    drawn.tables.push_back(test_table(valve));
  }
  return drawn;
}

const Cases& cases_of(std::int64_t most_layers) {
  static const Cases few = draw(3, 8), eight = draw(8, 8), many = draw(10, 12);
  return most_layers == 5 ? few : most_layers == 8 ? eight : many;
}

void per_stack(benchmark::State& state, std::size_t n_stacks) {
  state.counters["per_stack"] =
      benchmark::Counter(static_cast<double>(n_stacks),
                         benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}

void BM_FullCurve(benchmark::State& state) {
  const Cases& drawn = cases_of(state.range(0));
  plate::Workspace workspace;
  for (auto _ : state)
    for (const Case& c : drawn.cases) {
      const plate::LiftCurve curve =
          plate::lift_curve(c.stack, c.pressures.back(), plate::Options{}, workspace);
      double sum = 0.0;
      for (const double p : c.pressures) sum += plate::lift_at(curve, p);
      benchmark::DoNotOptimize(sum);
    }
  per_stack(state, drawn.cases.size());
}

void BM_QuickCurve(benchmark::State& state) {
  const Cases& drawn = cases_of(state.range(0));
  Workspace workspace;
  Curve curve;
  std::array<double, kReads> lifts{};
  int steps = 0;
  for (auto _ : state) {
    steps = 0;
    for (const Case& c : drawn.cases) {
      find_curve(drawn.tables[c.table], c.stack, c.pressures.back(), workspace, curve);
      lifts_at(curve, c.pressures, lifts);
      steps += curve.outcome.iterations;
      benchmark::DoNotOptimize(lifts);
    }
  }
  per_stack(state, drawn.cases.size());
  state.counters["steps"] = static_cast<double>(steps) / static_cast<double>(drawn.cases.size());
}

// 5: 3 to 8 layers; 8: all of 8; 12: 10 to 12
BENCHMARK(BM_FullCurve)->Arg(5)->Arg(8)->Arg(12)->Unit(benchmark::kMicrosecond);
BENCHMARK(BM_QuickCurve)->Arg(5)->Arg(8)->Arg(12)->Unit(benchmark::kMicrosecond);

/// What a search pays once for each clamp and valve.
void BM_Table(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(test_table(kTestValves[0]).discs.size());
}
BENCHMARK(BM_Table)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace shimwright::karman
