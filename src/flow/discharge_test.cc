#include "flow/discharge.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace shimwright::flow {
namespace {

using Law = Discharge::Law;
using Laminar = Discharge::Laminar;

/// Merritt's short tube is stated on the mean-speed Reynolds number; ours on the ideal one, cd Re_h = Re.
double short_tube_at_mean_reynolds(double reynolds, double length_ratio) {
  const Discharge tube{.law = Law::ShortTube};
  double ideal = reynolds / 0.5;
  for (int i = 0; i < 200; ++i) ideal = reynolds / discharge_at(tube, ideal, length_ratio).cd;
  return discharge_at(tube, ideal, length_ratio).cd;
}

// Lichtarowicz, Duggins and Markland 1965 eq. 12; physics case OR-02 (formula seen quoted, values computed
// apart).
TEST(Discharge, LongOrificeReadsLichtarowiczAtTwoDiameters) {
  const Discharge tube{.law = Law::LongOrifice};
  const std::array<std::array<double, 2>, 4> cases{
      {{10, 0.0817}, {100, 0.4284}, {1000, 0.7446}, {1e4, 0.8081}}};
  for (const auto& [reynolds, expected] : cases)
    EXPECT_NEAR(discharge_at(tube, reynolds, 2.0).cd, expected, 1e-4) << reynolds;  // case prints four digits
}

// eq. 7 of the same paper; physics case OR-04.
TEST(Discharge, LongOrificeTurbulentLimitFallsWithLength) {
  EXPECT_DOUBLE_EQ(long_orifice_limit(2.0), 0.8100);
  EXPECT_DOUBLE_EQ(long_orifice_limit(4.0), 0.7930);
  EXPECT_DOUBLE_EQ(long_orifice_limit(10.0), 0.7420);
  EXPECT_DOUBLE_EQ(long_orifice_limit(1.6), 0.8100);
}

// Merritt ch. 3 from memory; physics case OR-05.
TEST(Discharge, ShortTubeReadsMerrittOnBothBranches) {
  const std::array<double, 4> reynolds{10, 100, 1000, 1e4};
  const std::array<std::pair<double, std::array<double, 4>>, 3> cases{{
      {0.5, {.42718, .63608, .74386, .79127}},
      {2.0, {.25751, .53000, .68770, .76825}},
      {5.0, {.17080, .42718, .63608, .74386}},
  }};
  for (const auto& [ratio, expected] : cases)
    for (size_t i = 0; i < reynolds.size(); ++i)
      EXPECT_NEAR(short_tube_at_mean_reynolds(reynolds[i], ratio), expected[i],
                  1e-4)  // case prints five digits
          << ratio << ' ' << reynolds[i];
}

TEST(Discharge, ShortTubeHasNoStepWhereTheBranchesMeet) {
  const Discharge tube{.law = Law::ShortTube};
  double last = discharge_at(tube, 100.0, 2.0).cd;
  for (double reynolds = 100.1; reynolds < 1000.0; reynolds *= 1.001) {
    const double cd = discharge_at(tube, reynolds, 2.0).cd;
    EXPECT_LT(std::abs(cd / last - 1.0), 1e-3);  // cd grows at most as Re_h, a step of 0.1 %
    last = cd;
  }
}

// [idelchik1986], table of tau for a thick-edged orifice, from memory, two or three digits: over its first
// value 1.35.
TEST(Discharge, ThinEdgeShareIsThatOfIdelchiksTable) {
  const std::array<std::array<double, 2>, 10> table{{{0.0, 1.35},
                                                     {0.2, 1.22},
                                                     {0.4, 1.10},
                                                     {0.6, 0.84},
                                                     {0.8, 0.42},
                                                     {1.0, 0.24},
                                                     {1.2, 0.16},
                                                     {1.6, 0.07},
                                                     {2.0, 0.02},
                                                     {2.4, 0.0}}};
  for (const auto& [ratio, tau] : table)
    EXPECT_NEAR(1.35 * thin_edge_share(ratio), tau, ratio == 0.6 ? 0.07 : 0.02)
        << ratio;  // the formula rounds the bend of the table off, most of all at 0.6
}

TEST(Discharge, AThickEdgeIsASharpOneWithoutLengthAndATubeWhenLong) {
  const Discharge thick{.law = Law::ThickEdge};
  const Discharge sharp = sharp_discharge(0.7, Laminar::WuestRound);
  const Discharge tube{.law = Law::ShortTube};
  for (double reynolds = 1.0; reynolds < 1e6; reynolds *= 3.0) {
    EXPECT_DOUBLE_EQ(discharge_at(thick, reynolds, 0.0).cd, discharge_at(sharp, reynolds, 0.0).cd);
    EXPECT_DOUBLE_EQ(discharge_at(thick, reynolds, 2.4).cd, discharge_at(tube, reynolds, 2.4).cd);
    double last = discharge_at(thick, reynolds, 1e-6).cd;
    // 1e-6 of a diameter: what the share and its logarithm leave
    EXPECT_NEAR(last / discharge_at(sharp, reynolds, 0.0).cd, 1.0, 2e-5) << reynolds;
    for (double ratio = 1e-3; ratio < 5.0; ratio *= 1.02) {
      const double cd = discharge_at(thick, reynolds, ratio).cd;
      EXPECT_LT(std::abs(cd / last - 1.0), 0.03) << reynolds << ' ' << ratio;  // no step: 2 % of length
      last = cd;
    }
  }
}

TEST(Discharge, ExponentIsTheLogarithmicSlope) {
  for (const Law law : {Law::SharpEdge, Law::ShortTube, Law::ThickEdge, Law::LongOrifice})
    for (double reynolds = 0.3; reynolds < 1e5; reynolds *= 1.7) {
      const Discharge d{.law = law};
      const double h = 1e-5;
      const double length = law == Law::ThickEdge ? 0.8 : 3.0;
      const double up = std::log(discharge_at(d, reynolds * (1 + h), length).cd);
      const double down = std::log(discharge_at(d, reynolds * (1 - h), length).cd);
      // central difference: h^2 and rounding / h
      EXPECT_NEAR(discharge_at(d, reynolds, length).exponent, (up - down) / (2 * h), 1e-7)
          << static_cast<int>(law) << ' ' << reynolds;
    }
}

TEST(Discharge, SharpEdgeHasItsTwoLimits) {
  for (const Laminar laminar : {Laminar::WuestRound, Laminar::SampsonRound, Laminar::WuestSlot}) {
    const Discharge sharp = sharp_discharge(0.611, laminar);
    const double slope = laminar_slope(sharp, 0.0);
    const double crossing = 0.611 / slope;
    EXPECT_NEAR(discharge_at(sharp, crossing / 100, 0).cd / (slope * crossing / 100), 1.0, 1e-15);
    EXPECT_NEAR(discharge_at(sharp, crossing * 100, 0).cd, 0.611, 1e-15);
    EXPECT_NEAR(discharge_at(sharp, crossing, 0).cd, 0.611 * std::pow(0.5, 0.125), 1e-12);
  }
}

// delta^2 of physics-cases 2.1: 0.1992 round, 0.1567 slot; transition Re 9.41 and 15.21 on the mean speed.
TEST(Discharge, LaminarSlopesAreThoseOfWuestAndSampson) {
  const double round = laminar_slope(sharp_discharge(0.611, Laminar::WuestRound), 0);
  const double slot = laminar_slope(sharp_discharge(0.611, Laminar::WuestSlot), 0);
  const double thin = laminar_slope(sharp_discharge(0.611, Laminar::SampsonRound), 0);
  EXPECT_NEAR(std::sqrt(round), 0.1992, 5e-5);
  EXPECT_NEAR(std::sqrt(slot), 0.1567, 5e-5);
  EXPECT_NEAR(0.611 * 0.611 / round, 9.41, 5e-3);
  EXPECT_NEAR(0.611 * 0.611 / slot, 15.21, 5e-3);
  EXPECT_NEAR(thin / round, 50.4 / (24.0 * M_PI), 1e-12);
}

}  // namespace
}  // namespace shimwright::flow
