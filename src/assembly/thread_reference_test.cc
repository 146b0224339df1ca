#include <gtest/gtest.h>

#include <set>
#include <vector>

#include "assembly/test_units.h"
#include "assembly/thread.h"

// Published sizes of metric and unified threads. Computed from the ISO 724 and ISO 898-1 formulas by an
// independent script; the coarse stress areas are also in the tables of ISO 898-1.

namespace shimwright::assembly {
namespace {

constexpr double kInch = 0.0254;

struct SizeRow {
  double diameter_mm, pitch_mm;
  double pitch_diameter_mm, internal_minor_mm, root_mm, stress_area_mm2;
};

// case TH-01
constexpr SizeRow kSizes[] = {
    {5, 0.8, 4.480, 4.134, 4.019, 14.183},      {6, 1, 5.350, 4.917, 4.773, 20.123},
    {6, 0.75, 5.513, 5.188, 5.080, 22.031},     {8, 1.25, 7.188, 6.647, 6.466, 36.609},
    {8, 1, 7.350, 6.917, 6.773, 39.167},        {10, 1.5, 9.026, 8.376, 8.160, 57.990},
    {10, 1.25, 9.188, 8.647, 8.466, 61.199},    {10, 1, 9.350, 8.917, 8.773, 64.494},
    {12, 1.75, 10.863, 10.106, 9.853, 84.267},  {12, 1.5, 11.026, 10.376, 10.160, 88.126},
    {12, 1.25, 11.188, 10.647, 10.466, 92.072}, {12, 1, 11.350, 10.917, 10.773, 96.104},
    {14, 2, 12.701, 11.835, 11.546, 115.439},   {14, 1.5, 13.026, 12.376, 12.160, 124.546},
    {14, 1, 13.350, 12.917, 12.773, 133.997},   {16, 2, 14.701, 13.835, 13.546, 156.668},
    {16, 1.5, 15.026, 14.376, 14.160, 167.248}, {16, 1, 15.350, 14.917, 14.773, 178.174},
};

TEST(ThreadReference, BasicSizesAreThoseOfIso724) {
  // the table prints three decimals of a millimetre and of a square millimetre
  const double length = 0.00051 * kMm;
  const double area = 0.01 * kMm2;
  for (const SizeRow& row : kSizes) {
    SCOPED_TRACE(testing::Message() << "M" << row.diameter_mm << " x " << row.pitch_mm);
    const Thread thread = nominal_thread(row.diameter_mm * kMm, row.pitch_mm * kMm);
    const ThreadSizes sizes = basic_sizes(thread);
    EXPECT_NEAR(sizes.pitch_diameter, row.pitch_diameter_mm * kMm, length);
    EXPECT_NEAR(sizes.internal_minor, row.internal_minor_mm * kMm, length);
    EXPECT_NEAR(sizes.root_diameter, row.root_mm * kMm, length);
    EXPECT_NEAR(stress_area(thread), row.stress_area_mm2 * kMm2, area);
  }
}

struct LimitRow {
  double diameter_mm, pitch_mm;
  double d_min_mm, d2_min_mm, minor_max_mm, pitch_max_mm;
};

// case TH-16; ISO 965-1, from memory and by formula
constexpr LimitRow kLimits[] = {
    {6, 1, 5.794, 5.212, 5.153, 5.500},
    {8, 1.25, 7.760, 7.042, 6.912, 7.348},
    {10, 1.5, 9.732, 8.862, 8.676, 9.206},
};

TEST(ThreadReference, MetricLimitsAreThoseOfIso965) {
  for (const LimitRow& row : kLimits) {
    SCOPED_TRACE(testing::Message() << "M" << row.diameter_mm << " x " << row.pitch_mm);
    const ThreadLimits limits = medium_fit_limits(nominal_thread(row.diameter_mm * kMm, row.pitch_mm * kMm));
    const double printed =
        0.001 * kMm;  // three decimals, basic sizes rounded before the tolerance is taken off
    EXPECT_EQ(limits.source, LimitSource::Table);
    EXPECT_NEAR(limits.external_major_min, row.d_min_mm * kMm, printed);
    EXPECT_NEAR(limits.external_pitch_min, row.d2_min_mm * kMm, printed);
    EXPECT_NEAR(limits.internal_minor_max, row.minor_max_mm * kMm, printed);
    EXPECT_NEAR(limits.internal_pitch_max, row.pitch_max_mm * kMm, printed);
  }
}

struct UnifiedRow {
  double diameter_in, turns;
  double area_in2;
  double d_max_in, d_min_in, d2_max_in, d2_min_in;
  double minor_max_in, pitch_max_in;
};

// ASME B1.1 classes 2A and 2B, from memory
constexpr UnifiedRow kUnified[] = {
    {0.190, 32, 0.0200, 0.1891, 0.1831, 0.1688, 0.1658, 0.164,
     0.1736},  // below 1/4 in the bore has its own rule
    {0.138, 32, 0.00909, 0.1372, 0.1312, 0.1169, 0.1141, 0.114, 0.1214},
    {0.25, 28, 0.0364, 0.2490, 0.2425, 0.2258, 0.2225, 0.220, 0.2311},
    {0.25, 20, 0.0318, 0.2489, 0.2408, 0.2164, 0.2127, 0.207, 0.2224},
    {0.375, 24, 0.0878, 0.3739, 0.3667, 0.3468, 0.3430, 0.340, 0.3528},
    {0.5, 20, 0.1599, 0.4987, 0.4906, 0.4662, 0.4619, 0.457, 0.4731},
};

TEST(ThreadReference, UnifiedLimitsAreThoseOfAsmeB11) {
  for (const UnifiedRow& row : kUnified) {
    SCOPED_TRACE(testing::Message() << row.diameter_in << " in - " << row.turns);
    const Thread thread = unified_thread(row.diameter_in * kInch, row.turns);
    const ThreadLimits limits = medium_fit_limits(thread);
    const double printed =
        1.01e-4 * kInch;  // four decimals, the standard rounds allowance and tolerance apart
    const double printed_minor = 6e-4 * kInch;                                             // three decimals
    EXPECT_NEAR(stress_area(thread), row.area_in2 * kInch * kInch, 6e-5 * kInch * kInch);  // four decimals
    EXPECT_NEAR(limits.external_major_max, row.d_max_in * kInch, printed);
    EXPECT_NEAR(limits.external_major_min, row.d_min_in * kInch, printed);
    EXPECT_NEAR(limits.external_pitch_max, row.d2_max_in * kInch, printed);
    EXPECT_NEAR(limits.external_pitch_min, row.d2_min_in * kInch, printed);
    EXPECT_NEAR(limits.internal_minor_max, row.minor_max_in * kInch, printed_minor);
    EXPECT_NEAR(limits.internal_pitch_max, row.pitch_max_in * kInch, printed);
  }
}

// A second copy of the tables, typed apart from the first. ISO 261 M2 to M30, ASME B1.1 UNC and UNF; both
// from memory. What stands in neither is listed nowhere.
struct MetricSizes {
  double diameter_mm;
  std::vector<double> pitches_mm;  // the coarse one first
};
const std::vector<MetricSizes> kMetricSizes = {
    {2, {0.4, 0.25}},       {2.5, {0.45, 0.35}},        {3, {0.5, 0.35}},        {3.5, {0.6, 0.35}},
    {4, {0.7, 0.5}},        {4.5, {0.75, 0.5}},         {5, {0.8, 0.5}},         {6, {1, 0.75}},
    {7, {1, 0.75}},         {8, {1.25, 1, 0.75}},       {9, {1.25, 1, 0.75}},    {10, {1.5, 1.25, 1, 0.75}},
    {11, {1.5, 1, 0.75}},   {12, {1.75, 1.5, 1.25, 1}}, {14, {2, 1.5, 1.25, 1}}, {16, {2, 1.5, 1}},
    {18, {2.5, 2, 1.5, 1}}, {20, {2.5, 2, 1.5, 1}},     {22, {2.5, 2, 1.5, 1}},  {24, {3, 2, 1.5, 1}},
    {27, {3, 2, 1.5, 1}},   {30, {3.5, 2, 1.5, 1}}};

struct InchSizes {
  double number;  // a screw's number, or its diameter in sixteenths of an inch from a quarter on
  bool is_number;
  std::vector<double> turns;  // UNC, UNF
};
const std::vector<InchSizes> kInchSizes = {
    {4, true, {40, 48}},   {5, true, {40, 44}},   {6, true, {32, 40}},  {8, true, {32, 36}},
    {10, true, {24, 32}},  {12, true, {24, 28}},  {4, false, {20, 28}}, {5, false, {18, 24}},
    {6, false, {16, 24}},  {7, false, {14, 20}},  {8, false, {13, 20}}, {9, false, {12, 18}},
    {10, false, {11, 18}}, {12, false, {10, 16}}, {14, false, {9, 14}}, {16, false, {8, 12}}};

double inches(const InchSizes& size) {
  return size.is_number ? 0.060 + 0.013 * size.number : size.number / 16.0;
}

TEST(ThreadReference, ListedSizesAreThoseOfIso261AndAsmeB11) {
  std::set<double> diameters, pitches;
  for (const MetricSizes& size : kMetricSizes) {
    diameters.insert(size.diameter_mm);
    pitches.insert(size.pitches_mm.begin(), size.pitches_mm.end());
    EXPECT_NEAR(coarse_pitch(size.diameter_mm * kMm).value_or(0.0), size.pitches_mm[0] * kMm, 1e-12);
  }
  for (const double near : {2.2, 2.75, 13.0, 15.0, 17.0, 33.0}) diameters.insert(near);
  int n_listed = 0;
  for (const double diameter : diameters)
    for (const double pitch : pitches)
      n_listed += is_listed(nominal_thread(diameter * kMm, pitch * kMm)) ? 1 : 0;
  int n_wanted = 0;
  for (const MetricSizes& size : kMetricSizes)
    for (const double pitch : size.pitches_mm) {
      ++n_wanted;
      EXPECT_TRUE(is_listed(nominal_thread(size.diameter_mm * kMm, pitch * kMm)))
          << 'M' << size.diameter_mm << " x " << pitch;
    }
  EXPECT_EQ(n_listed, n_wanted) << "a size that the standard does not have";
  for (const InchSizes& size : kInchSizes) {
    for (const double turns : size.turns)
      EXPECT_TRUE(is_listed(unified_thread(inches(size) * kInch, turns))) << inches(size) << " - " << turns;
    EXPECT_FALSE(is_listed(unified_thread(inches(size) * kInch, 26.5)));
    EXPECT_FALSE(is_listed(unified_thread(1.02 * inches(size) * kInch, size.turns[0]))) << inches(size);
  }
}

}  // namespace
}  // namespace shimwright::assembly
