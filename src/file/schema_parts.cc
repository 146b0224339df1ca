#include "file/schema_bounds.h"
#include "file/schema_build.h"
#include "file/schema_tables.h"

namespace shimwright::file {
namespace {

using units::Kind;

template <typename T>
T same(const T& part) {
  return part;
}

const TableSchema& viscosity_schema() {
  static const TableSchema schema = schema_of<ViscosityPoint>(
      "viscosity", "One measured viscosity.",
      {
          required(quantity("at", &ViscosityPoint::at, Kind::Temperature, kWorkTemperature,
                            "The temperature of the measurement.", R"("40 degC")")),
          required(quantity("value", &ViscosityPoint::value, Kind::KinematicViscosity,
                            {1e-7, 5e-3, "damper oils are between 1 and 1000 mm2/s"},
                            "The kinematic viscosity at this temperature.", R"("15.0 mm2/s")")),
      });
  return schema;
}

const TableSchema& notch_schema() {
  static const TableSchema schema = schema_of<NotchSpec>(
      "notches", "Notches cut into the rim of a disc: a bleed that never closes.",
      {
          required(count("count", &NotchSpec::count, {1, 60, "they must fit around a rim"},
                         "How many notches the rim has.", "2")),
          required(quantity("width", &NotchSpec::width, Kind::Length, kHole,
                            "Width of each notch, along the rim.", R"("2.0 mm")")),
          quantity("depth", &NotchSpec::depth, Kind::Length, kHole,
                   "Depth of each notch, inwards from the rim. Default: just across the seat.",
                   R"("1.0 mm")"),
      });
  return schema;
}

}  // namespace

const TableSchema& material_schema() {
  static const TableSchema schema = schema_of<MaterialSpec>(
      "material", "What shims and springs are made of.",
      {
          quantity("youngs_modulus", &MaterialSpec::youngs_modulus, Kind::Stress, kModulus,
                   "Modulus of elasticity. Default: 206 GPa.", R"("206 GPa")"),
          number("poisson_ratio", &MaterialSpec::poisson_ratio, {0.0, 0.499, "solids are between 0 and 0.5"},
                 "Poisson's ratio. Default: 0.30.", "0.30"),
          quantity("shear_modulus", &MaterialSpec::shear_modulus, Kind::Stress, kModulus,
                   "Shear modulus of spring wire.", R"("79 GPa")"),
          quantity("density", &MaterialSpec::density, Kind::Density,
                   {500.0, 25000.0, "solids are between 500 and 25000 kg/m3"}, "Density.", R"("7850 kg/m3")"),
          quantity("yield_strength", &MaterialSpec::yield_strength, Kind::Stress, kStrength,
                   "Stress above which it stays bent. Default: the result has no margin.", R"("1400 MPa")"),
          quantity("strength", &MaterialSpec::strength, Kind::Stress, kStrength, "Tensile strength.",
                   R"("1700 MPa")"),
          quantity("fatigue_strength", &MaterialSpec::fatigue_strength, Kind::Stress, kStrength,
                   "Stress amplitude that never breaks it, at zero mean stress.", R"("600 MPa")"),
          text("note", &MaterialSpec::note, "Where the values come from.", R"("invented")"),
      });
  return schema;
}

const TableSchema& oil_schema() {
  static const TableSchema schema = schema_of<OilSpec>(
      "oil",
      "A damper oil. The weight on a bottle is not a viscosity: give the measured values from the data "
      "sheet.",
      {
          table_list(
              "viscosity", &OilSpec::viscosity, viscosity_schema(),
              "Two measured viscosities, or one and the viscosity index.",
              R"([{ at = "40 degC", value = "15.0 mm2/s" }, { at = "100 degC", value = "3.9 mm2/s" }])"),
          number("viscosity_index", &OilSpec::viscosity_index, {-100.0, 500.0, "oils are between 0 and 400"},
                 "Viscosity index, when only one viscosity is known.", "150"),
          quantity("density_15", &OilSpec::density_15, Kind::Density,
                   {600.0, 1300.0, "oils are between 600 and 1300 kg/m3"}, "Density at 15 degC.",
                   R"("850 kg/m3")"),
          quantity(
              "expansion", &OilSpec::expansion, Kind::ThermalExpansion,
              {1e-4, 3e-3, "oils are near 0.0008 1/K"},
              "Growth of its volume with temperature, at 15 degC. It becomes a little larger as the oil gets "
              "warmer, as ASTM D1250 has it.",
              R"("0.00080 1/K")"),
          quantity("bulk_modulus", &OilSpec::bulk_modulus, Kind::Stress, {1e8, 1e10, "oils are near 1.5 GPa"},
                   "Bulk modulus without air. Default: 1.5 GPa.", R"("1.5 GPa")"),
          quantity("entrained_air", &OilSpec::entrained_air, Kind::Fraction, {0.0, 0.3, "more is foam"},
                   "Share of air bubbles in the volume, at atmospheric pressure. Default: none.",
                   R"("0.5 %")"),
          quantity("air_release_pressure", &OilSpec::air_release_pressure, Kind::Pressure,
                   {-0.1e6, 0.1e6, "it is below the pressure of the outside air"},
                   "Pressure below which dissolved air leaves the oil. Default: 20 kPa(a).",
                   R"~("20 kPa(a)")~"),
          quantity("air_return_time", &OilSpec::air_return_time, Kind::Time,
                   {1e-3, 1e4, "bubbles dissolve in parts of a second to hours"},
                   "Time in which air that left the oil goes back into it. It only matters in a run in which "
                   "air comes out: the next strokes then meet the air that is still there, and a damper can "
                   "absorb a quarter less. Default: 1 s, an assumption without a source.",
                   R"("1 s")"),
          number("price", &OilSpec::price, kPrice, "Price per litre, in the currency of the shop.", "14.0"),
          text("note", &OilSpec::note, "Where the values come from.", R"("invented")"),
      });
  return schema;
}

const TableSchema& disc_schema() {
  static const TableSchema schema = schema_of<DiscSpec>(
      "shim", "A flat disc of a stack. In a stack an entry can be several equal discs.",
      {
          part_name<DiscSpec>(
              &DiscSpec::part, &PartsSpec::shims, "shim", same<DiscSpec>,
              "Name of a shim in a parts file. The other keys here replace those of the part.",
              R"("20x0.15")"),
          count("count", &DiscSpec::count, kPieces, "Number of equal shims on top of each other. Default: 1.",
                "3"),
          required(quantity("outer_diameter", &DiscSpec::outer_diameter, Kind::Length, kShimDiameter,
                            "Outer diameter.", R"("20 mm")")),
          required(quantity("thickness", &DiscSpec::thickness, Kind::Length, kShimThickness, "Thickness.",
                            R"("0.15 mm")")),
          quantity("bore", &DiscSpec::bore, Kind::Length, kBore,
                   "Diameter of its hole. If larger than the clamp, it is a ring shim and is not clamped. "
                   "Default: the diameter of the post.",
                   R"("6 mm")"),
          part("material", &DiscSpec::material, &PartsSpec::materials, "material", material_schema(),
               "Its material, by name or as a table. Default: the material of the whole stack.",
               R"("spring-steel")"),
          table("notches", &DiscSpec::notches, notch_schema(), "Notches in its rim.",
                R"({ count = 2, width = "2 mm" })"),
          count("in_hand", &DiscSpec::in_hand, kInHand, "Number in the drawer.", "24"),
          number("price", &DiscSpec::price, kPrice, "Price of one, in the currency of the shop.", "1.1"),
      });
  return schema;
}

const TableSchema& spring_schema() {
  static const TableSchema schema = schema_of<CoilSpringSpec>(
      "spring", "A coil spring, by its rate or by its wire.",
      {
          part_name<CoilSpringSpec>(
              &CoilSpringSpec::part, &PartsSpec::springs, "spring", same<CoilSpringSpec>,
              "Name of a spring in a parts file. The other keys here replace those of the part.",
              R"("outer-4.6")"),
          quantity("rate", &CoilSpringSpec::rate, Kind::SpringRate, kSpringRate,
                   "Rate. Default: calculated from the wire and the coils.", R"("4.6 N/mm")"),
          quantity("wire", &CoilSpringSpec::wire, Kind::Length, {0.1e-3, 30e-3, "it is the wire of a spring"},
                   "Diameter of the wire.", R"("4.5 mm")"),
          quantity("mean_diameter", &CoilSpringSpec::mean_diameter, Kind::Length, kTube,
                   "Diameter of the coil, from middle to middle of the wire.", R"("36.5 mm")"),
          number("active_coils", &CoilSpringSpec::active_coils, {0.5, 500.0, "it is a number of coils"},
                 "Number of active coils.", "60"),
          quantity("shear_modulus", &CoilSpringSpec::shear_modulus, Kind::Stress, kModulus,
                   "Shear modulus of the wire, if its material does not give it.", R"("79 GPa")"),
          part("material", &CoilSpringSpec::material, &PartsSpec::materials, "material", material_schema(),
               "Its material, by name or as a table.", R"("spring-steel")"),
          quantity("free_length", &CoilSpringSpec::free_length, Kind::Length, kPartLength,
                   "Length when nothing presses on it.", R"("480 mm")"),
          quantity("solid_length", &CoilSpringSpec::solid_length, Kind::Length, kPartLength,
                   "Length with all coils touching.", R"("140 mm")"),
          quantity("preload", &CoilSpringSpec::preload, Kind::Length,
                   {0.0, 0.2, "the preload is some millimetres"},
                   "How far the spring is compressed with the unit fully out.", R"("8 mm")"),
          flag("stacked", &CoilSpringSpec::stacked,
               "true: this spring stands on the spring before it in the list (in series). Otherwise it acts "
               "beside it (in parallel).",
               "true"),
          count("in_hand", &CoilSpringSpec::in_hand, kInHand, "Number in the drawer.", "2"),
          number("price", &CoilSpringSpec::price, kPrice, "Price of one, in the currency of the shop.",
                 "60.0"),
      });
  return schema;
}

const TableSchema& spacer_schema() {
  static const TableSchema schema = schema_of<SpacerSpec>(
      "spacer", "A spacer or washer that can fill a post.",
      {
          required(quantity("thickness", &SpacerSpec::thickness, Kind::Length, kPieceHeight,
                            "Nominal thickness.", R"("0.30 mm")")),
          quantity("measured", &SpacerSpec::measured, Kind::Length, kPieceHeight, "Thickness as measured.",
                   R"("0.298 mm")"),
          quantity("tolerance", &SpacerSpec::tolerance, Kind::Length, kTolerance,
                   "Tolerance of the nominal thickness, plus and minus.", R"("0.02 mm")"),
          quantity("outer_diameter", &SpacerSpec::outer_diameter, Kind::Length, kShimDiameter,
                   "Outer diameter.", R"("12 mm")"),
          quantity("bore", &SpacerSpec::bore, Kind::Length, kBore, "Diameter of its hole.", R"("6 mm")"),
          count("in_hand", &SpacerSpec::in_hand, kInHand,
                "Number in the drawer, including those that are fitted. Default: only those that are fitted.",
                "6"),
          count("fitted", &SpacerSpec::fitted, kInHand, "Number on the post now. Default: none.", "1"),
          number("price", &SpacerSpec::price, kPrice, "Price of one, in the currency of the shop.", "0.8"),
      });
  return schema;
}

const TableSchema& nut_schema() {
  static const TableSchema schema = schema_of<NutSpec>(
      "nut", "The nut that holds a valve on its post.",
      {
          part_name<NutSpec>(
              &NutSpec::part, &PartsSpec::fasteners, "fastener", same<NutSpec>,
              "Name of a fastener in a parts file. The other keys here replace those of the part.",
              R"("post-nut")"),
          thread("thread", &NutSpec::thread, kBore, "Its thread.", R"("M6 x 0.75")"),
          quantity("height", &NutSpec::height, Kind::Length, kPieceHeight,
                   "Height. All of it is thread except the chamfers.", R"("5.0 mm")"),
          quantity("width", &NutSpec::width, Kind::Length, kValveDiameter,
                   "Width across flats, or outer diameter of a round one.", R"("10 mm")"),
          quantity("face_diameter", &NutSpec::face_diameter, Kind::Length, kValveDiameter,
                   "Outer diameter of the face that turns on the washer. Default: the width.", R"("9.4 mm")"),
          quantity(
              "chamfer", &NutSpec::chamfer, Kind::Length, kTolerance,
              "Depth of the chamfer at each face, without full thread. An open nut has it at both faces, "
              "a closed nut at the clamping face.",
              R"("0.3 mm")"),
          quantity("blind_depth", &NutSpec::blind_depth, Kind::Length, kPieceHeight,
                   "From the face to the bottom of a closed nut.", R"("7 mm")"),
          text("strength_class", &NutSpec::strength_class,
               "Property class or material, if the strengths are not given.", R"("8.8")"),
          quantity("yield_strength", &NutSpec::yield_strength, Kind::Stress, kStrength, "Yield strength.",
                   R"("480 MPa")"),
          quantity("strength", &NutSpec::strength, Kind::Stress, kStrength, "Tensile strength.",
                   R"("600 MPa")"),
          quantity(
              "torque", &NutSpec::torque, Kind::Torque, {0.05, 300.0, "a damper nut takes a few N.m"},
              "Torque for this build. Default: the program estimates a range and marks it as an estimate.",
              R"("4.5 N.m")"),
          text("torque_source", &NutSpec::torque_source, "Source of this torque.",
               R"("service manual, page 12")"),
          word("on_the_thread", &NutSpec::on_the_thread,
               {"dry", "oiled", "anti-seize", "threadlocker", "high-strength threadlocker"},
               "What is on the thread when you tighten the nut. Default: dry.",
               R"("high-strength threadlocker")"),
          number("nut_factor", &NutSpec::nut_factor, {0.03, 0.6, "nut factors are near 0.2"},
                 "K in torque = K x diameter x preload, if you measured it.", "0.16"),
          count("in_hand", &NutSpec::in_hand, kInHand, "Number in the drawer.", "4"),
          number("price", &NutSpec::price, kPrice, "Price of one, in the currency of the shop.", "2.5"),
      });
  return schema;
}

}  // namespace shimwright::file
