#include "units/quantity.h"

#include <gmock/gmock.h>

#include "units/unit_table.h"

namespace shimwright::units {
namespace {

using ::testing::DoubleNear;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

constexpr double kRounding = 1e-12;  // relative; a few roundings in double

// -- what is read --

struct Read {
  std::string_view text;
  Kind kind;
  double si;
};

const std::vector<Read> kReads{
    {"0.15 mm", Kind::Length, 0.15e-3},
    {"  0.15mm ", Kind::Length, 0.15e-3},
    {"150 µm", Kind::Length, 0.15e-3},
    {"150 um", Kind::Length, 0.15e-3},
    {"6 thou", Kind::Length, 6 * 0.0254e-3},
    {"1/2 in", Kind::Length, 0.0127},
    {"1 1/8 in", Kind::Length, 1.125 * 0.0254},
    {"-1/4 inch", Kind::Length, -0.00635},
    {"+.5 in", Kind::Length, 0.0127},
    {"\u22120.3 mm", Kind::Length, -0.3e-3},
    {"0.3\u2009mm", Kind::Length, 0.3e-3},
    {"110 mm2", Kind::Area, 110e-6},
    {"110 mm^2", Kind::Area, 110e-6},
    {"110 mm²", Kind::Area, 110e-6},
    {"380 mL", Kind::Volume, 380e-6},
    {"380 cc", Kind::Volume, 380e-6},
    {"380 cm3", Kind::Volume, 380e-6},
    {"23.2 in3", Kind::Volume, 23.2 * 16.387064e-6},
    {"12.8 fl oz", Kind::Volume, 12.8 * 29.5735295625e-6},
    {"12.8  fl  oz", Kind::Volume, 12.8 * 29.5735295625e-6},
    {"82 kg", Kind::Mass, 82},
    {"181 lb", Kind::Mass, 181 * 0.45359237},
    {"12 g", Kind::Mass, 0.012},
    {"5 oz", Kind::Mass, 5 * 0.028349523125},
    {"27 lbf", Kind::Force, 27 * 4.4482216152605},
    {"4.5 N.m", Kind::Torque, 4.5},
    {"4.5 Nm", Kind::Torque, 4.5},
    {"4.5 N·m", Kind::Torque, 4.5},
    {"40 in.lbf", Kind::Torque, 40 * 0.1129848290276167},
    {"40 in-lbf", Kind::Torque, 40 * 0.1129848290276167},
    {"3 lbf.ft", Kind::Torque, 3 * 1.3558179483314004},
    {"0.5 kgf.m", Kind::Torque, 4.903325},
    {"0.5 MPa", Kind::PressureDifference, 0.5e6},
    {"206 GPa", Kind::Stress, 206e9},
    {"206000 N/mm2", Kind::Stress, 206e9},
    {"20 degC", Kind::Temperature, 293.15},
    {"68°F", Kind::Temperature, 293.15},
    {"-40 °C", Kind::Temperature, 233.15},
    {"293.15 K", Kind::Temperature, 293.15},
    {"10 K", Kind::TemperatureDifference, 10},
    {"18 delta_degF", Kind::TemperatureDifference, 10},
    {"20 in/s", Kind::Speed, 0.508},
    {"36 km/h", Kind::Speed, 10},
    {"9.8 m/s²", Kind::Acceleration, 9.8},
    {"4.6 N/mm", Kind::SpringRate, 4600},
    {"0.46 kgf/mm", Kind::SpringRate, 0.46 * 9806.65},
    {"5 lbf.s/in", Kind::Damping, 5 * 175.12683524647636},
    {"900 N.s/m", Kind::Damping, 900},
    {"15 cSt", Kind::KinematicViscosity, 15e-6},
    {"15 mm2/s", Kind::KinematicViscosity, 15e-6},
    {"12 cP", Kind::DynamicViscosity, 0.012},
    {"12 mPa.s", Kind::DynamicViscosity, 0.012},
    {"0.86 g/cm3", Kind::Density, 860},
    {"12 L/min", Kind::VolumeRate, 12e-3 / 60},
    {"7e-4 1/K", Kind::ThermalExpansion, 7e-4},
    {"7e-4/K", Kind::ThermalExpansion, 7e-4},
    {"11.5 um/(m.K)", Kind::ThermalExpansion, 11.5e-6},
    {"180 deg", Kind::Angle, 3.14159265358979323846},
    {"180°", Kind::Angle, 3.14159265358979323846},
    {"90 rpm", Kind::Frequency, 1.5},
    {"5 min", Kind::Time, 300},
    {"1 hp", Kind::Power, 745.69987158227022},
    {"44 ft.lbf", Kind::Energy, 44 * 1.3558179483314004},
    {"60 J", Kind::Energy, 60},
    {"35 %", Kind::Fraction, 0.35},
    {"0.35", Kind::Fraction, 0.35},
    {"0.7", Kind::Number, 0.7},
};

TEST(Quantity, ReadsTheSpellingsOfTheTrade) {
  for (const Read& one : kReads) {
    const auto quantity = parse(one.text, one.kind);
    ASSERT_TRUE(quantity.has_value()) << one.text << ": " << quantity.error().what;
    EXPECT_NEAR(quantity->si / one.si, 1.0, kRounding) << one.text;
    EXPECT_EQ(quantity->kind, one.kind);
    EXPECT_EQ(quantity->reference, Reference::None);
  }
}

TEST(Quantity, KeepsWhatWasTyped) {
  EXPECT_EQ(parse("  0.20 mm ", Kind::Length)->text, "0.20 mm");
}

TEST(Quantity, DecimalUnitsGiveTheNearestDouble) {
  EXPECT_EQ(parse("0.15 mm", Kind::Length)->si, 0.00015);
  EXPECT_EQ(parse("24 mm", Kind::Length)->si, 0.024);
  EXPECT_EQ(parse("0.3 mm", Kind::Length)->si, 0.0003);
  EXPECT_EQ(parse("12.5 mL", Kind::Volume)->si, 12.5e-6);
}

// Source: physics-cases UN-01, exact from in = 25.4 mm, lb = 0.45359237 kg, g_n = 9.80665 m/s2.
TEST(UnitTable, ExactWorths) {
  const std::vector<Read> exact{
      {"1 lbf", Kind::Force, 4.4482216152605},
      {"1 in.lbf", Kind::Torque, 0.1129848290276167},
      {"1 ft.lbf", Kind::Torque, 1.3558179483314004},
      {"1 psi", Kind::Stress, 6894.757293168361},
      {"1 kgf", Kind::Force, 9.80665},
      {"1 kgf.m", Kind::Torque, 9.80665},
      {"1 in3", Kind::Volume, 16.387064e-6},
      {"1 fl oz", Kind::Volume, 29.5735295625e-6},
      {"1 imp fl oz", Kind::Volume, 28.4130625e-6},
      {"1 bar", Kind::Stress, 100000},
      {"1 atm", Kind::Stress, 101325},
      {"1 cSt", Kind::KinematicViscosity, 1e-6},
      {"1 rpm", Kind::Frequency, 1.0 / 60},
      {"212 degF", Kind::Temperature, 373.15},
      {"32 degF", Kind::Temperature, 273.15},
  };
  for (const Read& one : exact) EXPECT_NEAR(parse(one.text, one.kind)->si / one.si, 1.0, 1e-12) << one.text;
}

struct ReadPressure {
  std::string_view text;
  double si;
  Reference reference;
};

TEST(Quantity, APressureSaysGaugeOrAbsolute) {
  const std::vector<ReadPressure> pressures{
      {"10 bar(g)", 10e5, Reference::Gauge},
      {"10 bar (a)", 10e5, Reference::Absolute},
      {"10 barg", 10e5, Reference::Gauge},
      {"10 bara", 10e5, Reference::Absolute},
      {"145 psi(g)", 999739.8075, Reference::Gauge},
      {"145 psig", 999739.8075, Reference::Gauge},
      {"145 psia", 999739.8075, Reference::Absolute},
      {"100 kPa gauge", 1e5, Reference::Gauge},
      {"100 kPa absolute", 1e5, Reference::Absolute},
      {"100 kPa abs", 1e5, Reference::Absolute},
      {"1.0 MPa(a)", 1e6, Reference::Absolute},
      {"1 kgf/cm2(g)", 98066.5, Reference::Gauge},
      {"-0.2 bar(g)", -0.2e5, Reference::Gauge},
  };
  for (const ReadPressure& one : pressures) {
    const auto quantity = parse(one.text, Kind::Pressure);
    ASSERT_TRUE(quantity.has_value()) << one.text << ": " << quantity.error().what;
    EXPECT_NEAR(quantity->si / one.si, 1.0, 1e-9) << one.text;  // the table above has ten digits
    EXPECT_EQ(quantity->reference, one.reference) << one.text;
  }
}

// -- what is refused --

struct Refused {
  std::string_view text;
  Kind kind;
  Fault fault;
  int offset;
  int length;
  std::string_view remedy;  // a part of it
};

void check(const Refused& one) {
  SCOPED_TRACE(one.text);
  const auto quantity = parse(one.text, one.kind);
  ASSERT_FALSE(quantity.has_value());
  const UnitFault& fault = quantity.error();
  EXPECT_EQ(static_cast<int>(fault.fault), static_cast<int>(one.fault)) << fault.what;
  EXPECT_EQ(fault.offset, one.offset);
  EXPECT_EQ(fault.length, one.length);
  EXPECT_THAT(fault.remedy, HasSubstr(one.remedy));
  EXPECT_FALSE(fault.what.empty());
}

TEST(Quantity, ABareNumberIsOfferedInBothSystems) {
  check({"0.20", Kind::Length, Fault::UnitMissing, 0, 4, "write \"0.20 mm\" (or \"0.00787 in\")"});
  check({" 12 ", Kind::Torque, Fault::UnitMissing, 1, 2, "write \"12 N.m\" (or \"106 in.lbf\")"});
  check({"10", Kind::Pressure, Fault::UnitMissing, 0, 2,
         "\"10 bar(g)\" above the outside air, or \"10 bar(a)\""});
  check({"15", Kind::KinematicViscosity, Fault::UnitMissing, 0, 2, "write \"15 mm2/s\""});
  check({"40", Kind::Temperature, Fault::UnitMissing, 0, 2, "write \"40 degC\" (or \"104 degF\")"});
}

TEST(Quantity, WordsOfTheShopThatCanBeMisreadAreRefusedWithWhatToWrite) {
  check({"5 kg", Kind::Force, Fault::UnitAmbiguous, 2, 2, "write \"5 kgf\": kg is a mass"});
  check({"5 lb", Kind::Force, Fault::UnitAmbiguous, 2, 2, "write \"5 lbf\": lb is a mass"});
  check({"5 lbs", Kind::Force, Fault::UnitAmbiguous, 2, 3, "\"5 lbf\""});
  check({"5 lbs", Kind::Mass, Fault::UnitAmbiguous, 2, 3, "\"5 lb\""});
  check({"0.46 kg/mm", Kind::SpringRate, Fault::UnitAmbiguous, 5, 5, "\"0.46 kgf/mm\""});
  check({"26 lb/in", Kind::SpringRate, Fault::UnitAmbiguous, 3, 5, "\"26 lbf/in\""});
  check({"40 in-lb", Kind::Torque, Fault::UnitAmbiguous, 3, 5, "\"40 in.lbf\""});
  check({"40 in-lbs", Kind::Torque, Fault::UnitAmbiguous, 3, 6, "\"40 in.lbf\""});
  check({"40 ft-lb", Kind::Torque, Fault::UnitAmbiguous, 3, 5, "\"40 ft.lbf\""});
  check({"40 ftlb", Kind::Torque, Fault::UnitAmbiguous, 3, 4, "\"40 ft.lbf\""});
  check({"20 C", Kind::Temperature, Fault::UnitAmbiguous, 3, 1, "\"20 degC\": C is the coulomb"});
  check({"70 F", Kind::Temperature, Fault::UnitAmbiguous, 3, 1, "\"70 degF\""});
  check({"10 degC", Kind::TemperatureDifference, Fault::UnitAmbiguous, 3, 4, "\"10 K\""});
  check({"10 °F", Kind::TemperatureDifference, Fault::UnitAmbiguous, 3, 2, "\"10 delta_degF\""});
  check({"1\"", Kind::Length, Fault::UnitAmbiguous, 1, 1, "\"1 in\""});
  check({"5 mil", Kind::Length, Fault::UnitAmbiguous, 2, 3, "\"5 thou\""});
  check({"12 oz", Kind::Volume, Fault::UnitAmbiguous, 3, 2, "\"12 fl oz\": oz is a mass"});
  check({"1 kg/cm2 (g)", Kind::Pressure, Fault::UnitAmbiguous, 2, 6, "\"1 kgf/cm2(g)\""});
  check({"5 mPa", Kind::PressureDifference, Fault::UnitAmbiguous, 2, 3, "\"5 MPa\""});
  check({"20 ips", Kind::Speed, Fault::UnitAmbiguous, 3, 3, "\"20 in/s\""});
  check({"30 kph", Kind::Speed, Fault::UnitAmbiguous, 3, 3, "\"30 km/h\""});
  check({"2 g", Kind::Acceleration, Fault::UnitAmbiguous, 2, 1, "\"2 gn\""});
}

TEST(Quantity, AUnitOfTheWrongKindNamesBothKinds) {
  check({"5 N", Kind::Length, Fault::WrongKind, 2, 1, "write a length, such as \"0.15 mm\""});
  const auto fault = parse("5 N", Kind::Length).error();
  EXPECT_EQ(fault.what, "expected a length with its unit");
  EXPECT_EQ(fault.got, "5 N, a force");
  EXPECT_EQ(parse("5 N.m", Kind::Length).error().got, "5 N.m, a torque or an energy");
  EXPECT_EQ(parse("5 J", Kind::Torque).error().got, "5 J, an energy");
  EXPECT_EQ(parse("5 Hz", Kind::Speed).error().got, "5 Hz, a frequency");
  EXPECT_EQ(parse("5 mm6", Kind::Length).error().got, "5 mm6, which no damper has");
  EXPECT_EQ(parse("5 delta_degC", Kind::Temperature).error().got, "5 delta_degC, a temperature difference");
  check({"5 mm", Kind::Number, Fault::WrongKind, 2, 2, "write \"5\" without a unit"});
  check({"5 deg", Kind::Fraction, Fault::WrongKind, 2, 3, "35 %"});
}

TEST(Quantity, AnUnknownUnitOffersTheNearest) {
  check({"5 psl", Kind::PressureDifference, Fault::UnitUnknown, 2, 3, "write \"psi\" if you mean that"});
  check({"5 PSI", Kind::PressureDifference, Fault::UnitUnknown, 2, 3, "\"psi\""});
  check({"5 N.mn", Kind::Torque, Fault::UnitUnknown, 4, 2, "\"mN\""});
  check({"5 µµm", Kind::Length, Fault::UnitUnknown, 2, 3, "\"µm\""});
  check({"5 parsecs", Kind::Length, Fault::UnitUnknown, 2, 7, "write a length, such as"});
}

TEST(Quantity, APressureThatLeavesItOpenIsRefused) {
  check({"1.0 MPa", Kind::Pressure, Fault::ReferenceMissing, 4, 3,
         "write \"1.0 MPa(g)\" above the outside air, or \"1.0 MPa(a)\" above vacuum"});
  check({"2 atm", Kind::Pressure, Fault::ReferenceMissing, 2, 3, "2 atm(g)"});
  check({"5 bar(g)", Kind::PressureDifference, Fault::ReferenceUnwanted, 2, 6, "a pressure difference"});
  check({"5 psig", Kind::Stress, Fault::ReferenceUnwanted, 2, 4, "a stress"});
  check({"5 mm(g)", Kind::Length, Fault::ReferenceUnwanted, 2, 5, "a length"});
  check({"5 barg(g)", Kind::Pressure, Fault::UnitMalformed, 2, 7, "write \"5 barg\""});
  check({"5 (g)", Kind::Pressure, Fault::UnitMissing, 2, 3, "10 bar(g)"});
}

TEST(Quantity, TheWeightOfABottleIsNoViscosity) {
  for (const std::string_view text : {"5 wt", "7.5W", "SAE 5W", "10W-40", "5w", "2.5 WT"}) {
    const auto quantity = parse(text, Kind::KinematicViscosity);
    ASSERT_FALSE(quantity.has_value()) << text;
    EXPECT_EQ(quantity.error().fault, Fault::BottleWeight) << text;
    EXPECT_THAT(quantity.error().remedy, HasSubstr("the weight on a bottle is not a viscosity"));
  }
  EXPECT_EQ(parse("ISO VG 15", Kind::KinematicViscosity).error().fault, Fault::BottleWeight);
  EXPECT_TRUE(parse("5 W", Kind::Power).has_value());
}

TEST(Quantity, ADecimalCommaIsRefused) {
  check({"0,15 mm", Kind::Length, Fault::DecimalComma, 0, 4, "write \"0.15\""});
  check({"1,000 N", Kind::Force, Fault::DecimalComma, 0, 5, "do not group the digits"});
  // a fault after the comma is reported at once
  check({"0,15 mmm", Kind::Length, Fault::DecimalComma, 0, 4, "; and there is no unit \"mmm\": write"});
  check({"0,15", Kind::Length, Fault::DecimalComma, 0, 4, "; and"});
  EXPECT_THAT(parse("0,15 mm", Kind::Length).error().remedy, testing::Not(HasSubstr("; and")));
  EXPECT_THAT(parse_list("0,2 MPaa", Kind::PressureDifference).error().remedy,
              HasSubstr("; and there is no unit"));
}

TEST(Quantity, TextThatIsNoNumberIsRefused) {
  check({"", Kind::Length, Fault::Empty, 0, 1, "write a length"});
  check({"   ", Kind::Length, Fault::Empty, 3, 1, "write a length"});
  check({"nan mm", Kind::Length, Fault::NotANumber, 0, 6, "begin with the number"});
  check({"inf", Kind::Number, Fault::NotANumber, 0, 3, "begin with the number"});
  check({"mm", Kind::Length, Fault::NotANumber, 0, 2, "begin with the number"});
  check({"1 000 N", Kind::Force, Fault::NotANumber, 0, 5, "without spaces"});
  check({"1/0 in", Kind::Length, Fault::UnitMalformed, 2, 1, "write the unit like"});
  check({"1/8 mm", Kind::Length, Fault::NotANumber, 0, 3, "write 0.125 in place of 1/8"});
  check({"1/8", Kind::Number, Fault::NotANumber, 0, 3, "write 0.125"});
}

TEST(Quantity, NumbersNoMachineHasAreRefused) {
  check({"1e999 mm", Kind::Length, Fault::OutOfRange, 0, 5, "check the exponent"});
  check({"1e300 mm", Kind::Length, Fault::OutOfRange, 0, 8, "check the exponent"});
  check({"-300 degC", Kind::Temperature, Fault::OutOfRange, 0, 9, "check the sign"});
  check({"-1 bar(a)", Kind::Pressure, Fault::OutOfRange, 0, 9, "write (g)"});
  EXPECT_FALSE(parse(std::string(100000, '9'), Kind::Number).has_value());
  EXPECT_FALSE(parse("1 " + std::string(100000, 'm'), Kind::Length).has_value());
}

TEST(Quantity, AUnitThatCanBeReadInTwoWaysIsRefused) {
  check({"1 um/m/K", Kind::ThermalExpansion, Fault::UnitMalformed, 6, 1, "\"um/(m.K)\""});
  check({"1 kg/m.s", Kind::DynamicViscosity, Fault::UnitMalformed, 4, 4, "\"kg/(m.s)\""});
  check({"1 N m", Kind::Torque, Fault::UnitMalformed, 3, 1, "join the words with a point"});
  check({"1 mm^", Kind::Length, Fault::UnitMalformed, 4, 1, "mm2"});
  check({"1 mm22", Kind::Area, Fault::UnitMalformed, 4, 2, "mm2"});
  check({"1 mm^-9", Kind::Area, Fault::UnitMalformed, 4, 3, "mm2"});
  check({"1 N.", Kind::Force, Fault::UnitMalformed, 4, 1, "the whole unit"});
  check({"1 N/(m", Kind::SpringRate, Fault::UnitMalformed, 6, 1, "the whole unit"});
  check({"1 m)", Kind::Length, Fault::UnitMalformed, 3, 1, "write the unit like"});
  check({"1 N/degC", Kind::Force, Fault::UnitMalformed, 4, 4, "write K"});
  check({"1 N.m.N.m.N.m.N.m.N", Kind::Force, Fault::UnitMalformed, 18, 1, "plain unit"});
}

TEST(Quantity, PlacesCountCharactersNotBytes) {
  check({"\u20095 µm.qq", Kind::Area, Fault::UnitUnknown, 6, 2, ""});
}

// -- lists --

std::vector<double> values(std::string_view text, Kind kind) {
  const auto list = parse_list(text, kind);
  EXPECT_TRUE(list.has_value()) << text << ": " << list.error().what;
  std::vector<double> all;
  for (const Quantity& one : list.value_or(std::vector<Quantity>{})) all.push_back(one.si);
  return all;
}

TEST(QuantityList, ReadsOneUnitForAllOrOneEach) {
  EXPECT_THAT(values("0.2 MPa, 0.5 MPa", Kind::PressureDifference), ElementsAre(0.2e6, 0.5e6));
  EXPECT_THAT(values("0.2, 0.5 MPa", Kind::PressureDifference), ElementsAre(0.2e6, 0.5e6));
  EXPECT_THAT(values("0.2;0.5 MPa", Kind::PressureDifference), ElementsAre(0.2e6, 0.5e6));
  EXPECT_THAT(values("0.2MPa,5bar", Kind::PressureDifference), ElementsAre(0.2e6, DoubleNear(0.5e6, 1e-6)));
  EXPECT_THAT(values("1, 2 bar(g)", Kind::Pressure), ElementsAre(1e5, 2e5));
  EXPECT_THAT(values("5 mm", Kind::Length), ElementsAre(0.005));
  EXPECT_THAT(values("0.1, 0.2", Kind::Number), ElementsAre(0.1, 0.2));
}

TEST(QuantityList, KeepsTheUnitWithEachItem) {
  EXPECT_EQ(parse_list("0.2, 0.5 MPa", Kind::PressureDifference)->front().text, "0.2 MPa");
}

void check_list(const Refused& one) {
  SCOPED_TRACE(one.text);
  const auto list = parse_list(one.text, one.kind);
  ASSERT_FALSE(list.has_value());
  EXPECT_EQ(static_cast<int>(list.error().fault), static_cast<int>(one.fault)) << list.error().what;
  EXPECT_EQ(list.error().offset, one.offset);
  EXPECT_EQ(list.error().length, one.length);
  EXPECT_THAT(list.error().remedy, HasSubstr(one.remedy));
}

TEST(QuantityList, FaultsPointIntoTheWholeText) {
  check_list({"0,2 MPa", Kind::PressureDifference, Fault::DecimalComma, 1, 1, "a space after a comma"});
  check_list({"0.2 MPa, 0.5", Kind::PressureDifference, Fault::UnitMissing, 9, 3, "0.5 bar"});
  check_list({"0.2 MPa, 5 mm", Kind::PressureDifference, Fault::WrongKind, 11, 2, "0.5 MPa"});
  check_list({"0.2 MPa, , 1 MPa", Kind::PressureDifference, Fault::Empty, 8, 1, "0.5 MPa"});
  check_list({"0.2 MPa,", Kind::PressureDifference, Fault::Empty, 8, 1, "0.5 MPa"});
  check_list({"1, 2 mm", Kind::Force, Fault::WrongKind, 0, 1, "120 N"});
}

TEST(QuantityList, AThousandIsEnough) {
  std::string text = "1 mm";
  for (int i = 0; i < 1000; ++i) text += ", 1 mm";
  EXPECT_FALSE(parse_list(text, Kind::Length).has_value());
}

TEST(IsImperial, IsReadFromTheUnitAlone) {
  for (const char* text : {"0.006 in", "1/8 in", "40 in.lbf", "10 psi(g)", "104 degF", "300 lbf.s/in"}) {
    EXPECT_TRUE(is_imperial(text)) << text;
  }
  for (const char* text : {"0.15 mm", "4.5 N.m", "10 bar(g)", "40 degC", "2 min", "", "in", "0.15"}) {
    EXPECT_FALSE(is_imperial(text)) << text;
  }
}

}  // namespace
}  // namespace shimwright::units
