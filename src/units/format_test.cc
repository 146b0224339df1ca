#include "units/format.h"

#include <gmock/gmock.h>

#include "base/check.h"

namespace shimwright::units {
namespace {

struct Shown {
  double si;
  Kind kind;
  const char* metric;
  const char* imperial;
};

TEST(Format, ShowsEachKindInTheUnitOfTheTrade) {
  const std::vector<Shown> all{
      {0.0124, Kind::Length, "12.4 mm", "0.488 in"},
      {850.0, Kind::Length, "850 m", "2790 ft"},
      {110e-6, Kind::Area, "110 mm2", "0.171 in2"},
      {380e-6, Kind::Volume, "380 mL", "12.8 fl oz"},
      {82.0, Kind::Mass, "82.0 kg", "181 lb"},
      {1234.0, Kind::Force, "1230 N", "277 lbf"},
      {4.5, Kind::Torque, "4.50 N.m", "39.8 in.lbf"},
      {45.0, Kind::Torque, "45.0 N.m", "33.2 ft.lbf"},
      {1e6, Kind::Pressure, "10.0 bar", "145 psi"},
      {500e6, Kind::Stress, "500 MPa", "72.5 ksi"},
      {206e9, Kind::Stress, "206 GPa", "29900 ksi"},
      {313.15, Kind::Temperature, "40 degC", "104 degF"},
      {295.65, Kind::Temperature, "22.5 degC", "72.5 degF"},
      {10.0, Kind::TemperatureDifference, "10 K", "18 delta_degF"},
      {0.5, Kind::Speed, "0.500 m/s", "19.7 in/s"},
      {4600.0, Kind::SpringRate, "4.60 N/mm", "26.3 lbf/in"},
      {15e-6, Kind::KinematicViscosity, "15.0 mm2/s", "15.0 mm2/s"},
      {860.0, Kind::Density, "860 kg/m3", "53.7 lb/ft3"},
      {7.2e-4, Kind::ThermalExpansion, "0.000720 1/K", "0.000720 1/K"},
      {1.15e-5, Kind::ThermalExpansion, "1.15e-5 1/K", "1.15e-5 1/K"},
      {0.35, Kind::Fraction, "35 %", "35 %"},
      {0.0012, Kind::Fraction, "0.120 %", "0.120 %"},
      {300.0, Kind::Time, "5.00 min", "5.00 min"},
      {0.7, Kind::Number, "0.700", "0.700"},
  };
  for (const Shown& one : all) {
    EXPECT_EQ(format_plain(one.si, one.kind, System::Metric), one.metric);
    EXPECT_EQ(format_plain(one.si, one.kind, System::Imperial), one.imperial);
  }
}

TEST(Format, PrintHasThinSpaceMinusAndProperUnits) {
  EXPECT_EQ(format(-120.0, Kind::Force, System::Metric), "\u2212120\u2009N");
  EXPECT_EQ(format(4.5, Kind::Torque, System::Metric), "4.50\u2009N·m");
  EXPECT_EQ(format(313.15, Kind::Temperature, System::Metric), "40\u2009°C");
  EXPECT_EQ(format(15e-6, Kind::KinematicViscosity, System::Metric), "15.0\u2009mm²/s");
  EXPECT_EQ(format(3.14159265358979 / 6, Kind::Angle, System::Metric), "30°");
  EXPECT_EQ(format(1e6, Kind::Pressure, System::Metric, {.reference = Reference::Gauge}), "10.0\u2009bar(g)");
}

TEST(Format, AChangeShowsItsSign) {
  EXPECT_EQ(format_plain(12.0, Kind::Force, System::Metric, {.sign = true}), "+12.0 N");
  EXPECT_EQ(format_plain(-12.0, Kind::Force, System::Metric, {.sign = true}), "-12.0 N");
  EXPECT_EQ(format_plain(0.0, Kind::Force, System::Metric, {.sign = true}), "0 N");
  EXPECT_EQ(format_plain(-1e-9, Kind::Length, System::Metric, {.decimals = 2}), "0.00 mm");
}

TEST(Format, ThreeFiguresHoldAcrossARoundingUp) {
  EXPECT_EQ(number_text_plain(9.996, Kind::Number, System::Metric), "10.0");
  EXPECT_EQ(number_text_plain(99.96, Kind::Number, System::Metric), "100");
  EXPECT_EQ(number_text_plain(999.6, Kind::Number, System::Metric), "1000");
  EXPECT_EQ(number_text_plain(9996, Kind::Number, System::Metric), "10000");
  EXPECT_EQ(number_text_plain(1234567, Kind::Number, System::Metric), "1230000");
  EXPECT_EQ(number_text_plain(12345678, Kind::Number, System::Metric), "1.23e7");
  EXPECT_EQ(number_text_plain(0.00009996, Kind::Number, System::Metric), "0.000100");
}

TEST(Format, ThicknessKeepsTwoDecimalsAndAThirdThatIsThere) {
  EXPECT_EQ(format_thickness_plain(0.0002, System::Metric), "0.20 mm");
  EXPECT_EQ(format_thickness_plain(0.000125, System::Metric), "0.125 mm");
  EXPECT_EQ(format_thickness_plain(0.00015, System::Imperial), "0.0059 in");
  EXPECT_EQ(format_thickness(0.00015, System::Metric), "0.15\u2009mm");
}

TEST(Format, ColumnsKeepOneUnit) {
  EXPECT_EQ(number_text_plain(45.0, Kind::Torque, System::Imperial), "398");
  EXPECT_EQ(unit_name_plain(Kind::Torque, System::Imperial), "in.lbf");
  EXPECT_EQ(unit_name(Kind::Pressure, System::Imperial, Reference::Absolute), "psi(a)");
  EXPECT_EQ(number_text_plain(0.000123, Kind::Length, System::Metric, {.decimals = 3}), "0.123");
}

TEST(Format, ANumberThatIsNoneIsABugOfOurs) {
  EXPECT_THROW(format(std::nan(""), Kind::Length, System::Metric), LogicFault);
  EXPECT_THROW(format_thickness(1.0 / 0.0, System::Metric), LogicFault);
}

}  // namespace
}  // namespace shimwright::units
