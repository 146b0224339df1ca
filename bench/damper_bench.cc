#include <benchmark/benchmark.h>

#include <cmath>
#include <vector>

#include "damper/damper.h"
#include "damper/test_dampers.h"

// What a screen asks of a damper: every click of an adjuster at sixty speeds in both strokes, alone and with
// the stacks of both valves solved before it.

namespace shimwright::damper {
namespace {

constexpr int kClicks = 25;
constexpr int kSpeeds = 60;

std::vector<double> all_clicks() {
  std::vector<double> clicks;
  for (int i = 0; i < kClicks; ++i) clicks.push_back(i);
  return clicks;
}

/// Sixty speeds to 4 m/s in each stroke, closer together at the slow end.
std::vector<double> all_speeds() {
  std::vector<double> speeds;
  for (int i = 1; i <= kSpeeds; ++i) {
    const double share = static_cast<double>(i) / kSpeeds;
    speeds.push_back(4.0 * share * share);
    speeds.push_back(-4.0 * share * share);
  }
  return speeds;
}

/// The test cartridge with coefficients that bend with the Reynolds number.
TestDamper bent_cartridge() {
  TestDamper damper = cartridge();
  for (valve::ValveModel* valve : {&damper.model.piston_valve, &*damper.model.foot_valve})
    for (valve::DirectionModel* way : {&valve->compression, &valve->rebound}) {
      way->ports = flow::round_holes(4, 4e-3, 8e-3, {.law = flow::Discharge::Law::ShortTube});
      way->curtain_discharge = flow::sharp_discharge(0.7, flow::Discharge::Laminar::WuestSlot);
    }
  solve(damper);
  return damper;
}

void FamilyOfOneAdjuster(benchmark::State& state) {
  const TestDamper damper = bent_cartridge();
  const Adjuster adjuster{state.range(0) == 0 ? ValvePlace::Piston : ValvePlace::Foot, 0};
  const auto clicks = all_clicks();
  const auto speeds = all_speeds();
  for (auto _ : state)
    benchmark::DoNotOptimize(
        force_family(damper.model, damper.solved, damper.liquid, adjuster, clicks, speeds));
}
BENCHMARK(FamilyOfOneAdjuster)->ArgName("foot")->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);

void OneForceCurve(benchmark::State& state) {
  const TestDamper damper = bent_cartridge();
  const auto speeds = all_speeds();
  for (auto _ : state)
    benchmark::DoNotOptimize(force_curve(damper.model.chambers, damper.solved.laws, speeds));
}
BENCHMARK(OneForceCurve)->Unit(benchmark::kMicrosecond);

/// Discs of falling diameter, `n` of them, 0.1 to 0.15 mm.
plate::Stack taper(int n, double seat_radius) {
  plate::Stack stack;
  for (int i = 0; i < n; ++i) {
    plate::Disc disc;
    disc.outer_radius = seat_radius + 1e-3 - i * (seat_radius - 3.5e-3) / n;
    disc.bore_radius = 3e-3;
    disc.thickness = i % 2 == 0 ? 0.15e-3 : 0.1e-3;
    stack.discs.push_back(disc);
  }
  stack.clamp_radius = 4.5e-3;
  stack.load.inner_radius = 4.5e-3;
  stack.load.outer_radius = seat_radius;
  stack.seat.radius = seat_radius;
  return stack;
}

void FromStacksToFamily(benchmark::State& state) {
  TestDamper damper = bent_cartridge();
  const int n_discs = static_cast<int>(state.range(0));
  damper.model.piston_valve.compression.stack = taper(n_discs, 9e-3);
  damper.model.piston_valve.rebound.stack = taper(n_discs, 8e-3);
  damper.model.foot_valve->compression.stack = taper(n_discs, 8e-3);
  damper.model.foot_valve->rebound.stack = taper(2, 9e-3);
  const plate::Options options{.theory = state.range(1) == 0 ? Theory::Linear : Theory::Large};
  plate::Workspace workspace;
  const auto clicks = all_clicks();
  const auto speeds = all_speeds();
  for (auto _ : state) {
    const SolvedDamper solved = solve_damper(damper.model, damper.liquid, 4.0, options, workspace);
    benchmark::DoNotOptimize(
        force_family(damper.model, solved, damper.liquid, {ValvePlace::Foot, 0}, clicks, speeds));
  }
}
BENCHMARK(FromStacksToFamily)
    ->ArgNames({"discs", "large"})
    ->ArgsProduct({{6, 12, 20}, {0, 1}})
    ->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace shimwright::damper
