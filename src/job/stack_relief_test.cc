#include "job/stack_relief.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "job/test_jobs.h"

namespace shimwright::job {
namespace {

using testing_jobs::changed;
using testing_jobs::find;
using testing_jobs::job_text;
using testing_jobs::run;

/// A rebound stack that bends one thick shim too far, on a material of little strength.
std::string overloaded() {
  std::string text = changed(job_text("fork"), "stack = [\"8 x 20 x 0.10 mm\", \"1 x 17 x 0.10 mm\"]",
                             "stack = [\"1 x 20 x 0.20 mm\"]");
  return changed(text, "yield_strength   = \"1700 MPa\"", "yield_strength   = \"250 MPa\"");
}

TEST(StackRelief, AsManyThinnerShimsAsAreAsStiffBearLessAtTheSameDrop) {
  const document::ResultDocument document = run(overloaded());
  int n_relieved = 0;
  for (const document::ValveResult& valve : document.units[0].valves) {
    for (const document::DirectionResult& direction : valve.directions) {
      if (!direction.stack || !direction.stack->relief) continue;
      ++n_relieved;
      const document::StackRelief& relief = *direction.stack->relief;
      const double before =
          direction.stack->geometry.discs[static_cast<std::size_t>(relief.first_disc - 1)].thickness;
      const int n_before = relief.last_disc - relief.first_disc + 1;
      // plate theory: the stiffness of a disc goes with the cube of its thickness
      EXPECT_GE(relief.count * std::pow(relief.thickness, 3), n_before * std::pow(before, 3) * (1.0 - 1e-6));
      EXPECT_LT(relief.thickness, before);
      EXPECT_GT(*relief.yield_margin, *direction.stack->yield_margin);
    }
  }
  EXPECT_GE(n_relieved, 1);
  const document::Finding* finding = find(document, "F301");
  ASSERT_NE(finding, nullptr);
  EXPECT_THAT(finding->remedy, testing::HasSubstr("shims of"));
}

TEST(StackRelief, IsNotThereWhileTheMarginsAreKept) {
  for (const char* name : {"fork", "shock"})
    for (const document::UnitResult& unit : run(job_text(name)).units)
      for (const document::ValveResult& valve : unit.valves)
        for (const document::DirectionResult& direction : valve.directions) {
          if (!direction.stack || direction.stack->fatigue_margin.value_or(0.0) < 1.2) continue;
          if (direction.stack->yield_margin.value_or(0.0) < 1.0) continue;
          EXPECT_FALSE(direction.stack->relief) << name;
        }
}

}  // namespace
}  // namespace shimwright::job
