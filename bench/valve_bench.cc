#include <benchmark/benchmark.h>

#include "valve/test_valves.h"
#include "valve/valve.h"

// What a valve's law costs: swept from a solved stack, finished for one more click, and read. The lift curves
// are written down, so no plate is solved here (bench/plate_bench.cc has those).

namespace shimwright::valve {
namespace {

constexpr oil::Liquid kOil{.density = 860.0, .viscosity = 0.012};

/// Coefficients that bend with the Reynolds number, a needle and a leaking band: the dear case.
TestValve bent_valve() {
  TestValve valve = benchmark_valve();
  for (DirectionModel* way : {&valve.model.compression, &valve.model.rebound}) {
    way->ports = flow::round_holes(6, 5e-3, 8e-3, {.law = flow::Discharge::Law::ShortTube});
    way->curtain_discharge = flow::sharp_discharge(0.7, flow::Discharge::Laminar::WuestSlot);
  }
  valve.model.bleeds.push_back(
      {.passage = flow::Needle{
           .bore_diameter = 3e-3, .half_angle = 0.26, .pitch = 1e-3, .clicks_per_turn = 8, .clicks = 10}});
  valve.model.leakage = flow::AnnularGap{.diameter = 36e-3, .clearance = 20e-6, .length = 10e-3};
  valve.stacks.compression = stiffening_curve(3.7e-9, 5e6, 16e-3);
  return valve;
}

void WholeLaw(benchmark::State& state) {
  const TestValve valve = bent_valve();
  for (auto _ : state) benchmark::DoNotOptimize(valve_law(valve.model, valve.stacks, kOil));
}
BENCHMARK(WholeLaw)->Unit(benchmark::kMicrosecond);

void LawWithFixedCoefficients(benchmark::State& state) {
  const TestValve valve = benchmark_valve();
  for (auto _ : state) benchmark::DoNotOptimize(valve_law(valve.model, valve.stacks, kOil));
}
BENCHMARK(LawWithFixedCoefficients)->Unit(benchmark::kMicrosecond);

void OneMoreClick(benchmark::State& state) {
  const TestValve valve = bent_valve();
  const ValveSweep sweep = sweep_valve(valve.model, valve.stacks, kOil);
  for (auto _ : state) benchmark::DoNotOptimize(valve_law_from_sweep(valve.model, sweep, kOil));
}
BENCHMARK(OneMoreClick)->Unit(benchmark::kMicrosecond);

/// A run of arguments, so that no branch is learned by heart.
template <typename Read>
void read_law(benchmark::State& state, double step, Read&& read) {
  const TestValve valve = bent_valve();
  const ValveLaw law = valve_law(valve.model, valve.stacks, kOil);
  unsigned i = 0;
  for (auto _ : state) {
    i = i * 1664525u + 1013904223u;
    benchmark::DoNotOptimize(read(law, step * static_cast<double>(i >> 8)));
  }
}

void FlowAtDrop(benchmark::State& state) {
  read_law(state, 0.1, [](const ValveLaw& law, double drop) { return flow_at(law, drop); });
}
BENCHMARK(FlowAtDrop);

void DropAtFlow(benchmark::State& state) {
  read_law(state, 1e-10, [](const ValveLaw& law, double q) { return drop_at(law, q); });
}
BENCHMARK(DropAtFlow);

void StateAtDrop(benchmark::State& state) {
  read_law(state, 0.1, [](const ValveLaw& law, double drop) { return state_at(law, drop); });
}
BENCHMARK(StateAtDrop);

}  // namespace
}  // namespace shimwright::valve
