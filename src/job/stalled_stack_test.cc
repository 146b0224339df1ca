// Stacks that do not settle: every face says that their numbers are missing, and nothing goes on from them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

#include "document/document_json.h"
#include "job/test_jobs.h"

namespace shimwright::job {
namespace {

using testing_jobs::changed;
using testing_jobs::job_text;
using testing_jobs::n_of;
using testing_jobs::run;

// A ring without filler close to the clamp, under two thick discs: its preload bends the thin ones beyond any
// steel.
constexpr const char* kStalls = R"(seat = "21.408 mm"
clamp = "13.594 mm"
pocket = { inner = "14.295 mm", outer = "20.632 mm" }
discs = [{ outer_diameter = "23.223 mm", thickness = "0.08 mm" },
  { outer_diameter = "19.246 mm", thickness = "0.5 mm" }, { outer_diameter = "17.421 mm", thickness = "0.3 mm" },
  { outer_diameter = "20.675 mm", thickness = "0.15 mm", bore = "14.942 mm" },
  { outer_diameter = "23.047 mm", thickness = "0.15 mm" }, { outer_diameter = "16.896 mm", thickness = "0.3 mm" },
  { outer_diameter = "15.196 mm", thickness = "0.3 mm" }]
)";

TEST(StalledStack, HasNoNumbersAndOneFinding) {
  const document::ResultDocument document =
      run(std::string("format = 1\n[stack]\n") + kStalls + "pressures = \"1 bar, 5 bar\"\n");
  ASSERT_TRUE(document.stack.has_value());
  EXPECT_EQ(document.stack->outcome.status, Status::Stalled);
  EXPECT_EQ(document.header.outcome.status, Status::Stalled);
  EXPECT_TRUE(document.stack->points.empty());
  EXPECT_THAT(document.stack->unsolved, testing::ElementsAre(1e5, 5e5));
  EXPECT_FALSE(document.stack->opening_pressure.has_value());
  EXPECT_TRUE(document.stack->idle_discs.empty());
  EXPECT_THAT(document::non_finite_paths(document), testing::IsEmpty());
  EXPECT_THAT(document.header.warnings, testing::IsEmpty());
  EXPECT_EQ(n_of(document, "F601"), 1);
  for (const char* code : {"F301", "F302", "F303", "F304", "F305", "F306"})
    EXPECT_EQ(n_of(document, code), 0) << code;
}

TEST(StalledStack, LeavesTheDamperWithoutForces) {
  // the same, smaller, in the foot valve of a fork
  std::string text = changed(job_text("fork"), R"(seat        = "18 mm"
pocket      = { inner = "11 mm", outer = "17 mm", arc = "80 %" }
clamp       = "9 mm"
material    = "spring-steel"
stack = ["5 x 19 x 0.15 mm", "1 x 15 x 0.10 mm", "2 x 18 x 0.15 mm", "1 x 14 x 0.20 mm"])",
                             R"(seat        = "17.1264 mm"
pocket      = { inner = "11.436 mm", outer = "16.5056 mm" }
clamp       = "10.8752 mm"
stack = [{ outer_diameter = "18.5784 mm", thickness = "0.064 mm" },
  { outer_diameter = "15.3968 mm", thickness = "0.4 mm" }, { outer_diameter = "13.9368 mm", thickness = "0.24 mm" },
  { outer_diameter = "16.54 mm", thickness = "0.12 mm", bore = "11.9536 mm" },
  { outer_diameter = "18.4376 mm", thickness = "0.12 mm" }, { outer_diameter = "13.5168 mm", thickness = "0.24 mm" },
  { outer_diameter = "12.1568 mm", thickness = "0.24 mm" }])");
  const document::ResultDocument document = run(text);
  ASSERT_EQ(document.units.size(), 1u);
  EXPECT_FALSE(document.units[0].force.has_value());
  EXPECT_TRUE(document.units[0].springs.has_value());
  EXPECT_EQ(document.header.outcome.status, Status::Stalled);
  EXPECT_THAT(document.header.warnings,
              testing::Contains("The forces of fork leg are left out: a stack of it could not be solved."));
  EXPECT_EQ(n_of(document, "F601"), 1);
  EXPECT_THAT(document::non_finite_paths(document), testing::IsEmpty());
}

TEST(StalledStack, ASealedStackTellsNoShareOfItsLift) {
  // its seat preloads it beyond the pressures asked
  std::string text = changed(job_text("lone-stack"), "\"0.1 MPa, 0.3 MPa, 0.8 MPa\"", "\"1 kPa, 2 kPa\"");
  text = changed(text, "[stack]\n", "[stack]\nseat_height = \"0.1 mm\"\n");
  const document::ResultDocument document = run(text);
  ASSERT_TRUE(document.stack.has_value());
  EXPECT_FALSE(document.stack->influence.has_value());
  EXPECT_FALSE(document.stack->opening_pressure.has_value());
  for (const document::StackPoint& point : document.stack->points) EXPECT_EQ(point.lift_at_seat, 0.0);
}

}  // namespace
}  // namespace shimwright::job
