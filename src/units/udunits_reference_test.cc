// Every unit that udunits2 (an independent units library) reads in the sense of the trade must have the same
// worth.
#include <gmock/gmock.h>
#include <udunits2.h>

#include <cmath>

#include "units/unit_expression.h"

namespace shimwright::units {
namespace {

constexpr double kFewRoundings = 1e-12;  // relative; both sides multiply a handful of exact factors in double

struct Pair {
  std::string ours;
  std::string theirs;  // where udunits2 spells it otherwise
};

// udunits2 rounds its own fluid ounce and avoirdupois ounce to seven digits; their definitions are compared
// instead
const std::string kUsFluidOunce = "1.8046875 in3";  // 231 / 128

const std::vector<Pair> kPairs{
    {"m", ""},
    {"mm", ""},
    {"cm", ""},
    {"km", ""},
    {"um", ""},
    {"\u00B5m", ""},
    {"\u03BCm", ""},
    {"in", ""},
    {"inch", ""},
    {"ft", ""},
    {"thou", "mil"},
    {"L", ""},
    {"l", ""},
    {"mL", ""},
    {"ml", ""},
    {"cc", ""},
    {"cm3", ""},
    {"cm^3", ""},
    {"cm³", "cm3"},
    {"in3", ""},
    {"fl oz", kUsFluidOunce},
    {"fl_oz", kUsFluidOunce},
    {"kg", ""},
    {"g", ""},
    {"mg", ""},
    {"lb", ""},
    {"lbm", "lb"},
    {"oz", "0.0625 lb"},
    {"N", ""},
    {"mN", ""},
    {"kN", ""},
    {"daN", ""},
    {"lbf", ""},
    {"kgf", ""},
    {"N.m", ""},
    {"N*m", ""},
    {"N·m", ""},
    {"Nm", "N.m"},
    {"Nmm", "N.mm"},
    {"Ns", "N.s"},
    {"in.lbf", ""},
    {"ft-lbf", ""},
    {"lbf.ft", ""},
    {"kgf.m", ""},
    {"Pa", ""},
    {"hPa", ""},
    {"kPa", ""},
    {"MPa", ""},
    {"GPa", ""},
    {"mbar", ""},
    {"bar", ""},
    {"atm", ""},
    {"psi", ""},
    {"ksi", ""},
    {"kgf/cm2", ""},
    {"N/mm2", ""},
    {"m/s", ""},
    {"in/s", ""},
    {"mph", "mile/hour"},
    {"km/h", ""},
    {"m/s2", ""},
    {"m.s^-2", ""},
    {"gn", "gravity"},
    {"N/mm", ""},
    {"lbf/in", ""},
    {"kgf/mm", ""},
    {"N.s/m", ""},
    {"lbf.s/in", ""},
    {"cSt", ""},
    {"St", ""},
    {"mm2/s", ""},
    {"mPa.s", ""},
    {"cP", "centipoise"},
    {"P", "poise"},
    {"kg/m3", ""},
    {"g/cm3", ""},
    {"lb/ft3", ""},
    {"L/min", ""},
    {"1/K", ""},
    {"um/(m.K)", ""},
    {"rad", ""},
    {"mrad", ""},
    {"deg", "arc_degree"},
    {"°", ""},
    {"Hz", ""},
    {"kHz", ""},
    {"s", ""},
    {"ms", ""},
    {"min", ""},
    {"h", ""},
    {"W", ""},
    {"kW", ""},
    {"hp", "550 ft.lbf/s"},
    {"J", ""},
    {"kJ", ""},
    {"%", ""},
    {"ppm", ""},
    {"K", ""},
    {"delta_degC", "K"},
    {"delta_degF", "degR"},
};

/// The other library, with its unit for each dimension of ours.
class Oracle {
 public:
  Oracle() {
    ut_set_error_message_handler(ut_ignore);
    system_ = ut_read_xml(nullptr);
  }
  ~Oracle() { ut_free_system(system_); }
  Oracle(const Oracle&) = delete;
  Oracle& operator=(const Oracle&) = delete;

  bool ready() const { return system_ != nullptr; }

  /// `value` in unit `text`, in SI; nothing when the dimension differs.
  std::optional<double> si(const std::string& text, const Dimension& dimension, double value) const {
    const std::string si_text = "m" + std::to_string(dimension.length) + ".kg" +
                                std::to_string(dimension.mass) + ".s" + std::to_string(dimension.time) +
                                ".K" + std::to_string(dimension.temperature) + ".radian" +
                                std::to_string(dimension.angle);
    ut_unit* from = ut_parse(system_, text.c_str(), UT_UTF8);
    ut_unit* to = ut_parse(system_, si_text.c_str(), UT_UTF8);
    std::optional<double> result;
    if (from != nullptr && to != nullptr && ut_are_convertible(from, to) != 0) {
      cv_converter* converter = ut_get_converter(from, to);
      result = cv_convert_double(converter, value);
      cv_free(converter);
    }
    ut_free(from);
    ut_free(to);
    return result;
  }

 private:
  ut_system* system_ = nullptr;
};

void check(const Oracle& oracle, const Pair& pair) {
  SCOPED_TRACE(pair.ours);
  const auto ours = unit_value(pair.ours);
  ASSERT_TRUE(ours.has_value());
  const auto theirs = oracle.si(pair.theirs.empty() ? pair.ours : pair.theirs, ours->dimension, 1.0);
  ASSERT_TRUE(theirs.has_value()) << "the other library sees another dimension";
  EXPECT_NEAR(ours->numerator / ours->denominator / *theirs, 1.0, kFewRoundings);
}

TEST(UnitTable, AgreesWithUdunits) {
  const Oracle oracle;
  ASSERT_TRUE(oracle.ready());
  for (const Pair& pair : kPairs) check(oracle, pair);
}

TEST(UnitTable, TemperaturePointsAgreeWithUdunits) {
  const Oracle oracle;
  ASSERT_TRUE(oracle.ready());
  for (const std::string unit : {"degC", "degF", "°C", "°F"}) {
    for (const double point : {-40.0, 0.0, 20.0, 100.0}) {
      const auto ours = parse(std::to_string(point) + " " + unit, Kind::Temperature);
      ASSERT_TRUE(ours.has_value()) << unit;
      EXPECT_NEAR(ours->si / *oracle.si(unit, {.temperature = 1}, point), 1.0, kFewRoundings) << unit;
    }
  }
}

TEST(UnitTable, EveryUnitStandsInTheComparisonOrIsTheSpellingOfOneThatDoes) {
  for (const Unit& unit : all_units()) {
    if (unit.shift != 0.0 || unit.reference != Reference::None) continue;  // temperatures above; barg is bar
    bool compared = false;
    for (const Pair& pair : kPairs) {
      const auto other = unit_value(pair.ours);
      const double ratio = unit.numerator / unit.denominator / (other->numerator / other->denominator);
      compared = compared || (other->dimension == unit.dimension && std::abs(ratio - 1.0) < kFewRoundings);
    }
    // udunits2 has neither; UnitTable.ExactWorths holds them
    const bool elsewhere =
        unit.name == "imp fl oz" || unit.name == "imp_fl_oz" || unit.name == "mPa" || unit.name == "rpm";
    EXPECT_TRUE(compared || elsewhere) << unit.name;
  }
}

}  // namespace
}  // namespace shimwright::units
