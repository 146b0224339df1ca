// The quick curve against the full solver, over random stacks. Errors are relative to the lift, or to a
// twentieth of the largest where that is more.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <vector>

#include "karman/cover.h"
#include "karman/karman_curve.h"
#include "karman/test_random_stacks.h"
#include "plate/lift_curve.h"

namespace shimwright::karman {
namespace {

constexpr int kReads = 24;
constexpr double kFloor = 0.05;

struct Errors {
  std::vector<double> of_reads;
  int n_stacks = 0;

  double quantile(double share) {
    std::sort(of_reads.begin(), of_reads.end());
    return of_reads[static_cast<std::size_t>(share * static_cast<double>(of_reads.size() - 1))];
  }
};

struct Held {
  const char* name;
  StackClass of;
  int least_layers, most_layers, n_stacks;
  double median, most;                             // of the errors: a half, 95 of 100 are below
  double most_pressure = 3e6;                      // [Pa]
  double least_lift = 0.2e-3, most_lift = 0.8e-3;  // where that pressure lifts so far [m]
};

Errors errors_of(const Held& held) {
  RandomStacks random(20261201);
  plate::Workspace full_workspace;
  Workspace workspace;
  Curve curve;
  Errors errors;
  for (const TestValve& valve : kTestValves) {
    const DiscTable table = test_table(valve);
    for (int i = 0; i < held.n_stacks / 4; ++i) {
      const plate::Stack stack = random.stack(held.of, valve, held.least_layers, held.most_layers);
      const double p_max =
          test_pressure(stack, held.least_lift + (held.most_lift - held.least_lift) * random.share(),
                        full_workspace, held.most_pressure);
      const plate::LiftCurve full = plate::lift_curve(stack, p_max, plate::Options{}, full_workspace);
      if (full.outcome.status == Status::Stalled) continue;
      EXPECT_EQ(covers(table, stack), Cover::Covered);
      find_curve(table, stack, p_max, workspace, curve);
      EXPECT_EQ(curve.outcome.status, Status::Converged) << curve.outcome.note;
      const double largest = plate::lift_at(full, p_max);
      if (curve.outcome.status == Status::Stalled || largest < 1e-6) continue;  // shut all the way
      ++errors.n_stacks;
      for (int k = 1; k <= kReads; ++k) {
        const double p = p_max * k / kReads;
        const double lift = plate::lift_at(full, p);
        errors.of_reads.push_back(std::abs(lift_at(curve, p) - lift) / std::max(lift, kFloor * largest));
      }
    }
  }
  return errors;
}

class FullSolver : public testing::TestWithParam<Held> {};

TEST_P(FullSolver, AgreesWithinTheStatedQuantiles) {
  const Held& held = GetParam();
  Errors errors = errors_of(held);
  std::printf("%d stacks: median %.3f%%, 95 of 100 %.2f%%, largest %.1f%%\n", errors.n_stacks,
              100 * errors.quantile(0.5), 100 * errors.quantile(0.95), 100 * errors.quantile(1.0));
  EXPECT_GE(errors.n_stacks, held.n_stacks / 2);
  EXPECT_LT(errors.quantile(0.5), held.median);
  EXPECT_LT(errors.quantile(0.95), held.most);
}

// as measured, with room for another compiler
INSTANTIATE_TEST_SUITE_P(
    Stacks, FullSolver,
    testing::Values(Held{"Tapers", StackClass::Taper, 3, 8, 80, 0.0010, 0.0060},
                    Held{"TwoStages", StackClass::TwoStage, 3, 8, 80, 0.0010, 0.0075},
                    Held{"EqualPiles", StackClass::Pile, 1, 4, 80, 0.0006, 0.0040},
                    Held{"PreloadedSeats", StackClass::Preloaded, 3, 8, 80, 0.0025, 0.0250},
                    Held{"SteepTapers", StackClass::Taper, 1, 3, 24, 0.0010, 0.0060, 8e6, 0.6e-3, 1.0e-3},
                    Held{"CrowdedTapers", StackClass::Taper, 10, 12, 32, 0.0010, 0.0100},
                    Held{"CrowdedTwoStages", StackClass::TwoStage, 10, 12, 32, 0.0010, 0.0125},
                    Held{"CrowdedPreloadedSeats", StackClass::Preloaded, 10, 12, 32, 0.0025, 0.0250}),
    [](const testing::TestParamInfo<Held>& held) { return held.param.name; });

}  // namespace
}  // namespace shimwright::karman
