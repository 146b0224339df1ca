#include "units/unit_table.h"

#include <algorithm>
#include <array>

#include "units/dimensions.h"

namespace shimwright::units {
namespace {

// Exact by definition: the inch and the pound (1959 agreement), the standard acceleration of free fall (3rd
// CGPM).
constexpr double kInch = 0.0254;
constexpr double kPound = 0.45359237;
constexpr double kFreeFall = 9.80665;
constexpr double kPoundForce = 4.4482216152605;  // their product, all of its digits
constexpr double kUsFluidOunce =
    231.0 * kInch * kInch * kInch / 128.0;             // a US gallon is 231 in3 and 128 fl oz
constexpr double kImperialFluidOunce = 28.4130625e-6;  // an imperial gallon is 4.54609 L and 160 fl oz

constexpr double kPi = 3.14159265358979323846;

constexpr Unit imperial(Unit unit) {
  unit.imperial = true;
  return unit;
}

constexpr std::array kUnits{
    Unit{"m", 1, 1, dimensions::kLength},
    Unit{"mm", 1, 1e3, dimensions::kLength},
    Unit{"cm", 1, 1e2, dimensions::kLength},
    Unit{"km", 1e3, 1, dimensions::kLength},
    Unit{"um", 1, 1e6, dimensions::kLength},
    Unit{"\u00B5m", 1, 1e6, dimensions::kLength},  // the micro sign
    Unit{"\u03BCm", 1, 1e6, dimensions::kLength},  // the Greek letter
    imperial({"in", 254, 1e4, dimensions::kLength}),
    imperial({"inch", 254, 1e4, dimensions::kLength}),
    imperial({"thou", 254, 1e7, dimensions::kLength}),
    imperial({"ft", 3048, 1e4, dimensions::kLength}),

    Unit{"L", 1, 1e3, dimensions::kVolume},
    Unit{"l", 1, 1e3, dimensions::kVolume},
    Unit{"mL", 1, 1e6, dimensions::kVolume},
    Unit{"ml", 1, 1e6, dimensions::kVolume},
    Unit{"cc", 1, 1e6, dimensions::kVolume},
    imperial({"fl oz", kUsFluidOunce, 1, dimensions::kVolume}),
    imperial({"fl_oz", kUsFluidOunce, 1, dimensions::kVolume}),
    imperial({"US fl oz", kUsFluidOunce, 1, dimensions::kVolume}),
    imperial({"imp fl oz", kImperialFluidOunce, 1, dimensions::kVolume}),
    imperial({"imp_fl_oz", kImperialFluidOunce, 1, dimensions::kVolume}),

    Unit{"kg", 1, 1, dimensions::kMass},
    Unit{"g", 1, 1e3, dimensions::kMass},
    Unit{"mg", 1, 1e6, dimensions::kMass},
    imperial({"lb", kPound, 1, dimensions::kMass}),
    imperial({"lbm", kPound, 1, dimensions::kMass}),
    imperial({"oz", kPound, 16, dimensions::kMass}),

    Unit{"N", 1, 1, dimensions::kForce},
    Unit{"mN", 1, 1e3, dimensions::kForce},
    Unit{"daN", 10, 1, dimensions::kForce},
    Unit{"kN", 1e3, 1, dimensions::kForce},
    imperial({"lbf", kPoundForce, 1, dimensions::kForce}),
    Unit{"kgf", kFreeFall, 1, dimensions::kForce},
    Unit{"Nm", 1, 1, dimensions::kTorque},
    Unit{"Nmm", 1, 1e3, dimensions::kTorque},
    Unit{"Ns", 1, 1, dimensions::kImpulse},

    Unit{"Pa", 1, 1, dimensions::kPressure},
    Unit{"mPa", 1, 1e3, dimensions::kPressure, 0, {}, Reference::None, true},
    Unit{"hPa", 1e2, 1, dimensions::kPressure},
    Unit{"kPa", 1e3, 1, dimensions::kPressure},
    Unit{"MPa", 1e6, 1, dimensions::kPressure},
    Unit{"GPa", 1e9, 1, dimensions::kPressure},
    Unit{"mbar", 1e2, 1, dimensions::kPressure},
    Unit{"bar", 1e5, 1, dimensions::kPressure},
    Unit{"atm", 101325, 1, dimensions::kPressure},
    imperial({"psi", kPoundForce, kInch* kInch, dimensions::kPressure}),
    imperial({"ksi", 1e3 * kPoundForce, kInch* kInch, dimensions::kPressure}),
    Unit{"barg", 1e5, 1, dimensions::kPressure, 0, {}, Reference::Gauge},
    Unit{"bara", 1e5, 1, dimensions::kPressure, 0, {}, Reference::Absolute},
    imperial({"psig", kPoundForce, kInch* kInch, dimensions::kPressure, 0, {}, Reference::Gauge}),
    imperial({"psia", kPoundForce, kInch* kInch, dimensions::kPressure, 0, {}, Reference::Absolute}),

    Unit{"K", 1, 1, dimensions::kTemperature},
    Unit{"degC", 1, 1, dimensions::kTemperature, 273.15, Kind::Temperature},
    Unit{"deg C", 1, 1, dimensions::kTemperature, 273.15, Kind::Temperature},
    Unit{"\u00B0C", 1, 1, dimensions::kTemperature, 273.15, Kind::Temperature},
    Unit{"\u2103", 1, 1, dimensions::kTemperature, 273.15, Kind::Temperature},
    imperial({"degF", 5, 9, dimensions::kTemperature, 459.67, Kind::Temperature}),
    imperial({"deg F", 5, 9, dimensions::kTemperature, 459.67, Kind::Temperature}),
    imperial({"\u00B0F", 5, 9, dimensions::kTemperature, 459.67, Kind::Temperature}),
    imperial({"\u2109", 5, 9, dimensions::kTemperature, 459.67, Kind::Temperature}),
    Unit{"delta_degC", 1, 1, dimensions::kTemperature, 0, Kind::TemperatureDifference},
    Unit{"\u0394\u00B0C", 1, 1, dimensions::kTemperature, 0, Kind::TemperatureDifference},
    imperial({"delta_degF", 5, 9, dimensions::kTemperature, 0, Kind::TemperatureDifference}),
    imperial({"\u0394\u00B0F", 5, 9, dimensions::kTemperature, 0, Kind::TemperatureDifference}),

    imperial({"mph", 0.44704, 1, dimensions::kSpeed}),
    Unit{"gn", kFreeFall, 1, dimensions::kAcceleration},
    Unit{"St", 1, 1e4, dimensions::kKinematicViscosity},
    Unit{"cSt", 1, 1e6, dimensions::kKinematicViscosity},
    Unit{"P", 1, 10, dimensions::kDynamicViscosity},
    Unit{"cP", 1, 1e3, dimensions::kDynamicViscosity},

    Unit{"rad", 1, 1, dimensions::kAngle},
    Unit{"mrad", 1, 1e3, dimensions::kAngle},
    Unit{"deg", kPi, 180, dimensions::kAngle},
    Unit{"\u00B0", kPi, 180, dimensions::kAngle},

    Unit{"Hz", 1, 1, dimensions::kFrequency, 0, Kind::Frequency},
    Unit{"kHz", 1e3, 1, dimensions::kFrequency, 0, Kind::Frequency},
    Unit{"rpm", 1, 60, dimensions::kFrequency, 0, Kind::Frequency},
    Unit{"s", 1, 1, dimensions::kTime},
    Unit{"ms", 1, 1e3, dimensions::kTime},
    Unit{"min", 60, 1, dimensions::kTime},
    Unit{"h", 3600, 1, dimensions::kTime},

    Unit{"W", 1, 1, dimensions::kPower},
    Unit{"kW", 1e3, 1, dimensions::kPower},
    imperial({"hp", 550 * 12 * kInch* kPoundForce, 1, dimensions::kPower}),
    Unit{"J", 1, 1, dimensions::kTorque, 0, Kind::Energy},
    Unit{"kJ", 1e3, 1, dimensions::kTorque, 0, Kind::Energy},

    Unit{"%", 1, 1e2, dimensions::kNone, 0, Kind::Fraction},
    Unit{"ppm", 1, 1e6, dimensions::kNone},
};

constexpr std::string_view kMassReason = "is a mass";

constexpr std::array kShopWords{
    ShopWord{"kg", "kgf", kMassReason},
    ShopWord{"kgs", "kg", ""},
    ShopWord{"kgs", "kgf", kMassReason},
    ShopWord{"kp", "kgf", ""},
    ShopWord{"g", "gn", kMassReason},
    ShopWord{"lb", "lbf", kMassReason},
    ShopWord{"lbs", "lb", ""},
    ShopWord{"lbs", "lbf", kMassReason},
    ShopWord{"#", "lb", ""},
    ShopWord{"#", "lbf", ""},
    ShopWord{"oz", "fl oz", kMassReason},
    ShopWord{"ozs", "oz", ""},
    ShopWord{"inlb", "in.lbf", ""},
    ShopWord{"inlbs", "in.lbf", ""},
    ShopWord{"lbin", "in.lbf", ""},
    ShopWord{"ftlb", "ft.lbf", ""},
    ShopWord{"ftlbs", "ft.lbf", ""},
    ShopWord{"lbft", "ft.lbf", ""},
    ShopWord{"kgm", "kgf.m", ""},
    ShopWord{"mkg", "kgf.m", ""},
    ShopWord{"mkp", "kgf.m", ""},
    ShopWord{"Ncm", "N.cm", ""},
    ShopWord{"kNm", "kN.m", ""},

    ShopWord{"\"", "in", "is a mark that is easily lost"},
    ShopWord{"''", "in", "is a mark that is easily lost"},
    ShopWord{"\u2033", "in", "is a mark that is easily lost"},
    ShopWord{"\u201D", "in", "is a mark that is easily lost"},
    ShopWord{"'", "ft", "is a mark that is easily lost"},
    ShopWord{"mil", "thou", "means a thousandth of an inch for some people and a millimetre for others"},
    ShopWord{"mils", "thou", "means a thousandth of an inch for some people and a millimetre for others"},
    ShopWord{"micron", "um", ""},
    ShopWord{"microns", "um", ""},
    ShopWord{"\u00B5", "um", ""},
    ShopWord{"ccm", "cm3", ""},

    ShopWord{"C", "degC", "is the coulomb"},
    ShopWord{"C", "K", "is the coulomb"},
    ShopWord{"F", "degF", "is the farad"},
    ShopWord{"F", "delta_degF", "is the farad"},
    ShopWord{"degC", "K", "is a point on the scale"},
    ShopWord{"\u00B0C", "K", "is a point on the scale"},
    ShopWord{"degF", "delta_degF", "is a point on the scale"},
    ShopWord{"\u00B0F", "delta_degF", "is a point on the scale"},

    ShopWord{"mPa", "MPa", "is a thousandth of a pascal"},
    ShopWord{"Mpa", "MPa", ""},
    ShopWord{"mPas", "mPa.s", ""},
    ShopWord{"Pas", "Pa.s", ""},
    ShopWord{"at", "kgf/cm2", ""},

    ShopWord{"ips", "in/s", ""},
    ShopWord{"fps", "ft/s", ""},
    ShopWord{"kph", "km/h", ""},
    ShopWord{"kmh", "km/h", ""},
    ShopWord{"lpm", "L/min", ""},
    ShopWord{"sec", "s", ""},
    ShopWord{"secs", "s", ""},
    ShopWord{"mins", "min", ""},
    ShopWord{"hr", "h", ""},
    ShopWord{"hrs", "h", ""},
    ShopWord{"PS", "hp", "is the metric horsepower, 1.4 percent less than hp"},
};

}  // namespace

const Unit* find_unit(std::string_view name) {
  const auto found = std::ranges::find(kUnits, name, &Unit::name);
  return found == kUnits.end() ? nullptr : &*found;
}

std::span<const Unit> all_units() {
  return kUnits;
}
std::span<const ShopWord> shop_words() {
  return kShopWords;
}

}  // namespace shimwright::units
