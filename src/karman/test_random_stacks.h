#pragma once
// Invented stacks by chance, for the tests and the benchmark: what a search meets.
#include <algorithm>
#include <cmath>
#include <random>
#include <span>
#include <vector>

#include "karman/disc_table.h"
#include "plate/stack.h"

namespace shimwright::karman {

enum class StackClass { Taper, TwoStage, Pile, Preloaded };

/// A valve: clamp, pocket and seat. All radii lie on the quarter of a millimetre.
struct TestValve {
  double clamp_radius, pocket_inner, pocket_outer, seat_radius, largest_radius;
};

inline constexpr double kTestStep = 0.25e-3;  // of radius: rims come in half millimetres of diameter [m]
inline constexpr TestValve kTestValves[] = {{6.0e-3, 6.5e-3, 10.5e-3, 11.0e-3, 12.0e-3},
                                            {4.5e-3, 5.0e-3, 8.5e-3, 9.0e-3, 10.0e-3},
                                            {6.0e-3, 8.0e-3, 13.0e-3, 14.0e-3, 15.0e-3},
                                            {8.0e-3, 9.0e-3, 17.0e-3, 18.0e-3, 20.0e-3}};

class RandomStacks {
 public:
  explicit RandomStacks(unsigned seed) : engine_(seed) {}

  /// Whole number from a to b, both taken in.
  int between(int a, int b) { return a + static_cast<int>(engine_() % static_cast<unsigned>(b - a + 1)); }
  double share() { return static_cast<double>(engine_()) * (1.0 / 4294967296.0); }

  /// A stack of the class on the valve, with so many different layers where its rims are enough for them.
  plate::Stack stack(StackClass of, const TestValve& valve, int least_layers, int most_layers) {
    plate::Stack stack;
    stack.clamp_radius = valve.clamp_radius;
    stack.load = {valve.pocket_inner, valve.pocket_outer, 0.8, 0.0};
    stack.seat = {true, valve.seat_radius, 0.0};
    const int lowest = steps(valve.clamp_radius) + 1;
    const int largest = steps(valve.largest_radius);
    int wanted = between(least_layers, most_layers);
    int rim = between(steps(valve.seat_radius) + 1, largest);
    add(stack, rim, thickness(), of == StackClass::Pile ? between(3, 12) : between(1, 3));
    --wanted;
    if (of == StackClass::Pile) wanted = between(0, 3);
    if (of == StackClass::TwoStage || (of == StackClass::Preloaded && between(0, 1) == 1)) {
      if (between(0, 1) == 1) {
        add(stack, between(lowest + 1, rim), thickness(), 1);
        --wanted;
      }
      add(stack, lowest + between(0, 2), thickness(), 1);  // the gap shim
      rim = std::min(largest, rim + between(-3, 1));
      add(stack, rim, thickness(), between(1, 2));
      wanted -= 2;
    }
    // so many of the smaller rims, falling
    for (int smaller = rim - lowest; smaller > 0 && wanted > 0; --smaller) {
      --rim;
      if (between(1, smaller) > wanted) continue;
      add(stack, rim, thickness(), between(0, 4) == 0 ? 2 : 1);
      --wanted;
    }
    if (of == StackClass::Preloaded) stack.seat.height = 1e-6 * between(20, 300);
    return stack;
  }

 private:
  static int steps(double radius) { return static_cast<int>(std::lround(radius / kTestStep)); }
  double thickness() {
    constexpr double kThickness[] = {0.10e-3, 0.15e-3, 0.20e-3, 0.25e-3, 0.30e-3};
    return kThickness[between(0, 4)];
  }
  void add(plate::Stack& stack, int rim, double thickness, int n) {
    plate::Disc disc;
    disc.bore_radius = 3e-3;
    disc.outer_radius = kTestStep * rim;
    disc.thickness = thickness;
    stack.discs.insert(stack.discs.end(), static_cast<std::size_t>(n), disc);
  }

  std::mt19937 engine_;
};

/// The table of all half millimetres of diameter on that valve.
inline DiscTable test_table(const TestValve& valve) {
  const plate::Stack stack = RandomStacks(1).stack(StackClass::Taper, valve, 2, 2);
  std::vector<double> rims;
  for (int k = static_cast<int>(std::lround(valve.clamp_radius / kTestStep)) + 1;
       k * kTestStep < valve.largest_radius + 0.5 * kTestStep; ++k)
    rims.push_back(k * kTestStep);
  return table_of_discs({valve.clamp_radius, stack.load, valve.seat_radius}, rims);
}

/// A pressure that lifts the stack about so far, but none above the most.
inline double test_pressure(const plate::Stack& stack, double lift, plate::Workspace& workspace,
                            double most = 3e6) {
  double p = 2e4;
  for (;;) {
    const plate::Lift at = plate::stack_lifts(stack, std::span(&p, 1), plate::Options{}, workspace)[0];
    if (at.outcome.status == Status::Stalled || at.seat > lift || p >= most) return p;
    p = std::min(most, 1.3 * p);
  }
}

}  // namespace shimwright::karman
