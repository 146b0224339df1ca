// Cost of the stack solver. Release, one core:
//   cmake --preset release -B build-bench -DSHIMWRIGHT_BENCH=ON && cmake --build build-bench --target
//   plate_bench build-bench/bench/plate_bench
//
// CPU time [ms], 2026-11-25, one core of a busy 2-core Debian 12 VM: tapers and, after the stroke, two-stage
// stacks.
//
//   discs | lift curve, large, 60 reads | all results at 60 pressures, large | linear path | one shim edited
//       5 | 0.22 / 0.36                 | 0.75 / 1.0                         | 0.02 / 0.08 |
//      10 | 0.74 / 1.15                 | 2.4 / 2.5                          | 0.08 / 0.75 | 0.39
//      20 | 1.2 / 2.8                   | 3.3 / 3.9                          | 0.12 / 3.2  | 0.65
//      40 | 8.3 / 10.4                  | 21 / 19                            | 1.5 / 119   | 4.8
//
// Two discs: 0.10, 0.26, 0.003. The large-lift figures are the least of twelve rounds at a load of 5 to 9.
// What bounds a curve: a tangent of every disc, and the factors of the contact forces, a band of about twice
// the points per pair (discs x points x band^2). All results are solved at every pressure, none interpolated:
// at twenty discs 95 / 139 steps of 16 / 11 us for the sixty, a third of each the residual of every element;
// 0.4 for sections and margins; 0.5 the finer mesh; 0.3 the first pressure; and in two stages 0.4 the rates
// where contact jumps from point to point. The linear path of two stages passes every breakpoint (38, 180,
// 574, about 6600; 3, 8, 16, 34 of them the stack's own): the onset of the second stage sends contact
// wandering over every pair of it, and each step is two solutions with the factors in hand.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <vector>

#include "plate/lift_curve.h"
#include "plate/stack.h"

namespace shimwright::plate {
namespace {

/// An invented taper, face disc first: every disc has its own diameter, so that none can be taken together.
Stack taper(int n_discs) {
  Stack stack;
  stack.clamp_radius = 6e-3;
  stack.load = {7e-3, 10.5e-3, 1.0, 0.0};
  stack.seat = {true, 11e-3, 0.0};
  for (int i = 0; i < n_discs; ++i) {
    Disc disc;
    disc.bore_radius = 3e-3;
    disc.outer_radius = 12e-3 - 5e-3 * i / std::max(n_discs - 1, 1);
    disc.thickness = i % 3 == 2 ? 0.15e-3 : 0.10e-3;
    stack.discs.push_back(disc);
  }
  return stack;
}

/// An invented two-stage stack: a fifth of it equal face discs, a gap shim, and behind it discs of which
/// every one has its own diameter.
Stack two_stage(int n_discs) {
  const int n_face = n_discs / 5;
  const int n_behind = n_discs - n_face - 1;
  Stack stack = taper(n_behind);
  std::vector<Disc> discs(n_face, stack.discs[0]);
  Disc gap = stack.discs[0];
  gap.outer_radius = 7e-3;
  discs.push_back(gap);
  for (int i = 0; i < n_behind; ++i) {
    discs.push_back(stack.discs[i]);
    discs.back().outer_radius = 11.5e-3 - 4.4e-3 * i / (n_behind - 1);
  }
  stack.discs = discs;
  return stack;
}

double full_pressure(int n_discs) {
  return 0.08e6 * n_discs;
}

std::vector<double> sixty_pressures(double p_max) {
  std::vector<double> pressures;
  for (int i = 1; i <= 60; ++i) pressures.push_back(p_max * i / 60);
  return pressures;
}

void large_curve_sixty(benchmark::State& state, const Stack& stack) {
  Workspace workspace;
  const double p_max = full_pressure(static_cast<int>(stack.discs.size()));
  const std::vector<double> pressures = sixty_pressures(p_max);
  int solved = 0;
  for (auto _ : state) {
    const LiftCurve curve = lift_curve(stack, p_max, Options{}, workspace);
    double sum = 0.0;
    for (double p : pressures) sum += lift_at(curve, p);
    benchmark::DoNotOptimize(sum);
    solved = curve.outcome.iterations;
  }
  state.counters["solved_pressures"] = solved;
}
void BM_LargeCurveSixtyPressures(benchmark::State& state) {
  large_curve_sixty(state, taper(static_cast<int>(state.range(0))));
}
BENCHMARK(BM_LargeCurveSixtyPressures)
    ->Arg(2)
    ->Arg(5)
    ->Arg(10)
    ->Arg(20)
    ->Arg(40)
    ->Unit(benchmark::kMicrosecond);
void BM_LargeCurveTwoStage(benchmark::State& state) {
  large_curve_sixty(state, two_stage(static_cast<int>(state.range(0))));
}
BENCHMARK(BM_LargeCurveTwoStage)->Arg(5)->Arg(10)->Arg(20)->Arg(40)->Unit(benchmark::kMicrosecond);

/// A shim changes: the stack as a search meets it again and again, thirteen discs with equal ones among them.
void BM_LargeCurveAfterOneShimEdit(benchmark::State& state) {
  Stack stack = taper(8);
  stack.discs.insert(stack.discs.begin(), 4, stack.discs[0]);
  stack.discs[8].thickness = 0.15e-3;
  Workspace workspace;
  int i = 0;
  for (auto _ : state) {
    stack.discs[6].thickness = (++i % 2) ? 0.10e-3 : 0.15e-3;
    benchmark::DoNotOptimize(lift_curve(stack, 1e6, Options{}, workspace).lift.back());
  }
}
BENCHMARK(BM_LargeCurveAfterOneShimEdit)->Unit(benchmark::kMicrosecond);

/// A shim changes, and the lift at one pressure is asked for anew: what a slider on the screen does.
void BM_LargeLiftAfterOneShimEdit(benchmark::State& state) {
  Stack stack = taper(static_cast<int>(state.range(0)));
  const std::size_t edited = stack.discs.size() / 2;
  const double pressures[] = {full_pressure(static_cast<int>(stack.discs.size()))};
  Options options;
  options.estimate_mesh_error = false;
  Workspace workspace;
  int i = 0;
  for (auto _ : state) {
    stack.discs[edited].thickness = (++i % 2) ? 0.10e-3 : 0.15e-3;
    benchmark::DoNotOptimize(stack_response(stack, pressures, options, workspace).points[0].lift_seat);
  }
}
BENCHMARK(BM_LargeLiftAfterOneShimEdit)->Arg(10)->Arg(20)->Arg(40)->Unit(benchmark::kMicrosecond);

/// Everything told at sixty pressures, each solved: stresses, contacts, margins.
void large_response_sixty(benchmark::State& state, const Stack& stack) {
  const std::vector<double> pressures = sixty_pressures(full_pressure(static_cast<int>(stack.discs.size())));
  Workspace workspace;
  for (auto _ : state)
    benchmark::DoNotOptimize(stack_response(stack, pressures, Options{}, workspace).points.back().lift_seat);
}
void BM_LargeResponseSixtyPressures(benchmark::State& state) {
  large_response_sixty(state, taper(static_cast<int>(state.range(0))));
}
void BM_LargeResponseTwoStage(benchmark::State& state) {
  large_response_sixty(state, two_stage(static_cast<int>(state.range(0))));
}
BENCHMARK(BM_LargeResponseTwoStage)->Arg(5)->Arg(10)->Arg(20)->Arg(40)->Unit(benchmark::kMicrosecond);
BENCHMARK(BM_LargeResponseSixtyPressures)
    ->Arg(2)
    ->Arg(5)
    ->Arg(10)
    ->Arg(20)
    ->Arg(40)
    ->Unit(benchmark::kMicrosecond);

void linear_path_of(benchmark::State& state, const Stack& stack) {
  Workspace workspace;
  std::size_t breakpoints = 0;
  long physical = 0;
  for (auto _ : state) {
    const LinearPath path =
        linear_path(stack, full_pressure(static_cast<int>(stack.discs.size())), Options{}, workspace);
    breakpoints = path.breakpoints.size();
    physical = std::count_if(path.breakpoints.begin(), path.breakpoints.end(), is_physical);
    benchmark::DoNotOptimize(path.lift_seat.back());
  }
  state.counters["breakpoints"] = static_cast<double>(breakpoints);
  state.counters["physical"] = static_cast<double>(physical);
}
void BM_LinearPath(benchmark::State& state) {
  linear_path_of(state, taper(static_cast<int>(state.range(0))));
}
BENCHMARK(BM_LinearPath)->Arg(2)->Arg(5)->Arg(10)->Arg(20)->Arg(40)->Unit(benchmark::kMicrosecond);
void BM_LinearPathTwoStage(benchmark::State& state) {
  linear_path_of(state, two_stage(static_cast<int>(state.range(0))));
}
BENCHMARK(BM_LinearPathTwoStage)->Arg(5)->Arg(10)->Arg(20)->Arg(40)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace shimwright::plate
