#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "assembly/thread.h"

// The formulas of the two standards once more, evaluated apart from the program (in another language, from
// memory): the widths of the limits of sizes that no table lists, at both ends of each diameter range.

namespace shimwright::assembly {
namespace {

struct Widths {
  double diameter, pitch;  // mm; or inch and turns per inch
  double allowance, external_major, external_pitch, internal_minor, internal_pitch;  // um; or inch
};

void expect_widths(const Thread& thread, const Widths& row, double unit, double tolerance) {
  const ThreadLimits limits = medium_fit_limits(thread);
  EXPECT_EQ(limits.source, LimitSource::Formula);
  EXPECT_NEAR(thread.diameter - limits.external_major_max, row.allowance * unit, tolerance);
  EXPECT_NEAR(limits.external_major_max - limits.external_major_min, row.external_major * unit, tolerance);
  EXPECT_NEAR(limits.external_pitch_max - limits.external_pitch_min, row.external_pitch * unit, tolerance);
  EXPECT_NEAR(limits.internal_minor_max - limits.internal_minor_min, row.internal_minor * unit, tolerance);
  EXPECT_NEAR(limits.internal_pitch_max - limits.internal_pitch_min, row.internal_pitch * unit, tolerance);
}

// ISO 965-1, position g and H, grade 6
TEST(ThreadFormula, OfMetricSizesThatNoTableLists) {
  constexpr Widths kRows[] = {{1.2, 0.25, 17.750, 65.133, 52.542, 73.236, 69.355},
                              {1.4, 0.3, 18.300, 74.914, 56.517, 86.164, 74.602},
                              {2, 0.4, 19.400, 92.738, 66.793, 111.075, 88.167},
                              {2.8, 0.45, 19.950, 101.006, 70.015, 123.125, 92.420},
                              {5, 0.9, 24.900, 164.470, 99.016, 222.618, 130.702},
                              {5.6, 0.95, 25.450, 170.717, 101.181, 232.875, 133.559},
                              {8, 1.1, 27.100, 188.805, 114.993, 245.868, 151.790},
                              {11.2, 1.3, 29.300, 211.642, 122.939, 276.368, 162.280},
                              {14, 0.9, 24.900, 164.470, 113.740, 222.618, 150.137},
                              {22.4, 1.8, 34.800, 264.003, 150.081, 347.071, 198.107},
                              {30, 3.5, 53.500, 413.256, 209.915, 552.809, 277.087},
                              {45, 4.5, 64.500, 489.138, 232.114, 659.138, 306.390},
                              {64, 6, 81.000, 593.061, 279.175, 806.183, 368.510},
                              {90, 6, 81.000, 593.061, 279.175, 806.183, 368.510},
                              {100, 4, 59.000, 451.997, 254.415, 606.974, 335.827},
                              {180, 6, 81.000, 593.061, 299.212, 806.183, 394.960},
                              {200, 6, 81.000, 593.061, 320.463, 806.183, 423.011},
                              {355, 6, 81.000, 593.061, 320.463, 806.183, 423.011}};
  for (const Widths& row : kRows) {
    SCOPED_TRACE(testing::Message() << "M" << row.diameter << " x " << row.pitch);
    expect_widths(nominal_thread(row.diameter * 1e-3, row.pitch * 1e-3), row, 1e-6, 1e-9);
  }
}

// ASME B1.1, classes 2A and 2B, one diameter engaged; below a quarter inch the nut's bore has a rule of its
// own
TEST(ThreadFormula, OfUnifiedSizes) {
  constexpr double kInch = 0.0254;
  constexpr Widths kRows[] = {{0.06, 80, 0.00052877, 0.00323165, 0.00176257, 0.00492500, 0.00229134},
                              {0.073, 64, 0.00059090, 0.00375000, 0.00196968, 0.00615625, 0.00256058},
                              {0.112, 40, 0.00075226, 0.00512993, 0.00250752, 0.00897137, 0.00325978},
                              {0.138, 32, 0.00084617, 0.00595275, 0.00282056, 0.00975411, 0.00366673},
                              {0.19, 24, 0.00099569, 0.00721125, 0.00331898, 0.01058832, 0.00431468},
                              {0.216, 28, 0.00096716, 0.00650698, 0.00322388, 0.00841837, 0.00419105},
                              {0.24, 20, 0.00111085, 0.00814325, 0.00370283, 0.01150000, 0.00481368},
                              {0.25, 20, 0.00111923, 0.00814325, 0.00373075, 0.01150000, 0.00484998},
                              {0.25, 80, 0.00075086, 0.00323165, 0.00250285, 0.00306250, 0.00325371},
                              {0.3125, 18, 0.00121211, 0.00873580, 0.00404038, 0.01265432, 0.00525250},
                              {1, 8, 0.00202500, 0.01500000, 0.00675000, 0.02500000, 0.00877500},
                              {0.19, 12, 0.00131339, 0.01144714, 0.00437796, 0.02069718, 0.00569134},
                              {0.1, 64, 0.00063242, 0.00375000, 0.00210808, 0.00581250, 0.00274050}};
  for (const Widths& row : kRows) {
    SCOPED_TRACE(testing::Message() << row.diameter << " in - " << row.pitch);
    expect_widths(unified_thread(row.diameter * kInch, row.pitch), row, kInch, 1e-8 * kInch);
  }
}

// the table's rows end where the standard's ranges end: above the first bound, up to the second
TEST(ThreadFormula, TheTableEndsWhereItsRangesEnd) {
  struct Row {
    double above, to;
    std::vector<double> pitches;
  };
  const std::vector<Row> rows = {{2.8, 5.6, {0.5, 0.6, 0.7, 0.75, 0.8}},
                                 {5.6, 11.2, {0.75, 1, 1.25, 1.5}},
                                 {11.2, 22.4, {1, 1.25, 1.5, 1.75, 2, 2.5}},
                                 {22.4, 45, {1, 1.5, 2, 3}}};
  const auto width = [](double diameter, double pitch) {
    const ThreadLimits limits = medium_fit_limits(nominal_thread(diameter * 1e-3, pitch * 1e-3));
    if (limits.source == LimitSource::Formula) return 0.0;
    return limits.external_pitch_max - limits.external_pitch_min;
  };
  for (const Row& row : rows)
    for (const double pitch : row.pitches) {
      SCOPED_TRACE(testing::Message() << row.above << " to " << row.to << " mm, " << pitch);
      const double inside = width(row.to, pitch);
      EXPECT_GT(inside, 0.0);
      EXPECT_NEAR(width(row.above + 1e-3, pitch), inside, 1e-10);
      EXPECT_GT(std::abs(width(row.above, pitch) - inside), 1e-7);
      EXPECT_GT(std::abs(width(row.to + 1e-3, pitch) - inside), 1e-7);
    }
}

TEST(ThreadFormula, APitchOfHalfTheDiameterLeavesNoCore) {
  EXPECT_TRUE(problems_in(nominal_thread(8e-3, 3.999e-3)).empty());
  const Problems problems = problems_in(nominal_thread(8e-3, 4e-3));
  ASSERT_EQ(problems.size(), 1u);
  EXPECT_NEAR(problems[0].limit, 4e-3, 1e-12);
}

}  // namespace
}  // namespace shimwright::assembly
