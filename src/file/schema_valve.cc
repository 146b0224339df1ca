#include "file/schema_bounds.h"
#include "file/schema_build.h"
#include "file/schema_tables.h"

namespace shimwright::file {
namespace {

using units::Kind;

const TableSchema& pocket_schema() {
  static const TableSchema schema = schema_of<PocketSpec>(
      "pocket", "The area where oil presses on the face shim before the stack opens.",
      {
          quantity("inner", &PocketSpec::inner, Kind::Length, kValveDiameter,
                   "Inner diameter. Default: the diameter of the clamp.", R"("12 mm")"),
          quantity(
              "outer", &PocketSpec::outer, Kind::Length, kValveDiameter,
              "Outer diameter. Between it and the seat lies the flat face of the seat: there the pressure "
              "falls with the logarithm of the radius, as in a thin film between flat faces. Default: the "
              "diameter of the seat: the full pressure acts up to the edge.",
              R"("19.5 mm")"),
          quantity("arc", &PocketSpec::arc, Kind::Fraction, {0.02, 1.0, "it is the open share of a circle"},
                   "Share of the circle that is open to the oil. Default: all.", R"("75 %")"),
      });
  return schema;
}

const TableSchema& float_schema() {
  static const TableSchema schema = schema_of<FloatSpec>(
      "float",
      "A stack that first slides on its collar against a light spring. At its stop it starts to bend.",
      {
          required(quantity("travel", &FloatSpec::travel, Kind::Length,
                            {0.0, 20e-3, "the float of a stack is less than a few millimetres"},
                            "How far the stack slides.", R"("0.45 mm")")),
          quantity("spring_force", &FloatSpec::spring_force, Kind::Force,
                   {0.0, 2000.0, "it is a light spring"},
                   "Force of the spring with the stack on its seat. Default: none.", R"("4 N")"),
          required(
              quantity("spring_rate", &FloatSpec::spring_rate, Kind::SpringRate, kSpringRate,
                       "Rate of that spring. For a float without a spring write a very soft one, 0.01 N/mm.",
                       R"("2 N/mm")")),
      });
  return schema;
}

const TableSchema& back_spring_schema() {
  static const TableSchema schema = schema_of<BackSpringSpec>(
      "back_spring", "A coil spring that presses on the back of the stack: a pop-off or high-speed adjuster.",
      {
          quantity("force", &BackSpringSpec::force, Kind::Force, kSpringForce,
                   "Force with the stack on its seat. Default: none.", R"("20 N")"),
          required(quantity("rate", &BackSpringSpec::rate, Kind::SpringRate, kSpringRate, "Rate.",
                            R"("15 N/mm")")),
          required(quantity("diameter", &BackSpringSpec::diameter, Kind::Length, kValveDiameter,
                            "Diameter on which it presses.", R"("14 mm")")),
          quantity("gap", &BackSpringSpec::gap, Kind::Length, {0.0, 20e-3, "it is a gap inside a valve"},
                   "Distance to the stack at rest. Default: it touches the stack.", R"("0.2 mm")"),
      });
  return schema;
}

std::vector<KeySchema> direction_keys(const std::string& stack_key) {
  return {
      count("port_count", &DirectionSpec::port_count, {1, 60, "they must fit side by side in a piston"},
            "Number of ports for this direction.", "3"),
      quantity("port_area", &DirectionSpec::port_area, Kind::Area, {1e-8, 5e-3, "it is a port in a piston"},
               "Area of each port at its narrowest point.", R"("26 mm2")"),
      quantity("port_bore", &DirectionSpec::port_bore, Kind::Length, kHole,
               "Diameter of each port, instead of the area.", R"("5.5 mm")"),
      quantity("port_length", &DirectionSpec::port_length, Kind::Length,
               {0.1e-3, 0.1, "it runs through a piston"}, "Length of a port.", R"("6 mm")"),
      number(
          "port_discharge", &DirectionSpec::port_discharge, kDischarge,
          "Fixed discharge coefficient of a port. Default: from the Reynolds number, towards 0.70 in fast "
          "flow (common practice, no source); with `port_length` the longer the nearer to the law of a tube.",
          "0.70"),
      number("stack_discharge", &DirectionSpec::stack_discharge, kDischarge,
             "Fixed discharge coefficient under the lifted disc. Default: from the Reynolds number, towards "
             "0.70 in "
             "fast flow (common practice, no source). Published edges: 0.61 to 0.80; at the same flow the "
             "pressure "
             "drop goes with 1 / Cd squared.",
             "0.70"),
      quantity("seat", &DirectionSpec::seat, Kind::Length, kValveDiameter,
               "Diameter of the edge on which the face shim seals. The lift is read there.", R"("20.5 mm")"),
      quantity(
          "land", &DirectionSpec::land, Kind::Length, {0.0, 20e-3, "it is the width of a seat"},
          "Width of the seat face, outwards from that edge. The pressure falls to its end as it does from "
          "the pocket to the seat, with the logarithm of the radius, and the film over it takes its part of "
          "the drop. Default: none.",
          R"("0.5 mm")"),
      at(Station::Valving,
         quantity(
             "seat_height", &DirectionSpec::seat_height, Kind::Length,
             {-2e-3, 3e-3, "it is the dish of a piston face"},
             "Height of the seat above the clamp plane. This preloads the stack. Below zero the stack is "
             "open at rest. Default: 0.",
             R"("0.10 mm")")),
      flag("seat_support", &DirectionSpec::seat_support,
           "false: nothing supports the disc. The seat is only the place where lift is read. Default: true.",
           "false"),
      table("pocket", &DirectionSpec::pocket, pocket_schema(),
            "The area where oil presses. Default: from clamp to seat, all round.",
            R"({ inner = "12 mm", outer = "19.5 mm", arc = "75 %" })"),
      quantity("clamp", &DirectionSpec::clamp, Kind::Length, kValveDiameter,
               "Diameter of the clamp washer: the discs bend over its edge.", R"("10 mm")"),
      quantity("boss", &DirectionSpec::boss, Kind::Length, kValveDiameter,
               "Diameter of the raised face under the discs. Default: the diameter of the clamp.",
               R"("10 mm")"),
      at(Station::Valving, table("float", &DirectionSpec::floating, float_schema(),
                                 "Free travel before the stack bends. Default: clamped.",
                                 R"({ travel = "0.45 mm", spring_force = "4 N", spring_rate = "2 N/mm" })")),
      at(Station::Valving, table("back_spring", &DirectionSpec::back_spring, back_spring_schema(),
                                 "A coil spring on the back of the stack.",
                                 R"({ force = "20 N", rate = "15 N/mm", diameter = "14 mm" })")),
      at(Station::Valving,
         part("material", &DirectionSpec::material, &PartsSpec::materials, "material", material_schema(),
              "Material of every disc without its own material. Default: spring steel, 206 GPa, Poisson's "
              "ratio "
              "0.30.",
              R"("spring-steel")")),
      at(Station::Valving,
         stack_list(stack_key, &DirectionSpec::stack, disc_schema(),
                    "The shims, face shim first: as text, as tables, or by name.",
                    R"(["3 x 24 x 0.15 mm", "1 x 16 x 0.10 mm", { part = "20x0.15", count = 2 }])")),
  };
}

const TableSchema& post_schema() {
  static const TableSchema schema = schema_of<PostSpec>(
      "post", "The threaded end that carries a valve.",
      {
          thread("thread", &PostSpec::thread, kBore, "Its thread.", R"("M6 x 0.75")"),
          quantity("length", &PostSpec::length, Kind::Length, kPieceHeight,
                   "Length from the shoulder to its end.", R"("38 mm")"),
          quantity("thread_length", &PostSpec::thread_length, Kind::Length, kPieceHeight,
                   "Length of the thread from its end, including the run-out.", R"("14 mm")"),
          quantity("runout", &PostSpec::runout, Kind::Length, {0.0, 20e-3, "it is a few turns of thread"},
                   "Length of the incomplete turns at the inner end of the thread. Default: none.",
                   R"("1.0 mm")"),
          quantity("chamfer", &PostSpec::chamfer, Kind::Length, {0.0, 10e-3, "it is the chamfer of a thread"},
                   "Length without full thread at the free end. Default: none.", R"("0.5 mm")"),
          quantity("tolerance", &PostSpec::tolerance, Kind::Length, kTolerance,
                   "Tolerance of both lengths, plus and minus.", R"("0.1 mm")"),
          quantity("bore", &PostSpec::bore, Kind::Length, kHole, "Bore of a hollow post. Default: solid.",
                   R"("2.5 mm")"),
          quantity("neck", &PostSpec::neck, Kind::Length, kHole,
                   "Smallest outer diameter below the thread (undercut). Default: no undercut.",
                   R"("5.0 mm")"),
          text("strength_class", &PostSpec::strength_class,
               "Property class or material, if the strengths are not given.", R"("8.8")"),
          quantity("yield_strength", &PostSpec::yield_strength, Kind::Stress, kStrength, "Yield strength.",
                   R"("640 MPa")"),
          quantity("strength", &PostSpec::strength, Kind::Stress, kStrength, "Tensile strength.",
                   R"("800 MPa")"),
      });
  return schema;
}

const TableSchema& bleed_schema() {
  static const TableSchema schema = schema_of<BleedSpec>(
      "bleed",
      "A path for oil around the stack: the needle of an adjuster, a bored hole, a notch in a seat, or the "
      "leak past a piston band.",
      {
          text("name", &BleedSpec::name,
               "Its name. The settings guide uses it for an adjuster. Default: what it is, \"rebound "
               "needle\".",
               R"("rebound needle")"),
          required(word("kind", &BleedSpec::kind, {"needle", "bored", "notch", "leakage"}, "What it is.",
                        R"("needle")")),
          word("acts_in", &BleedSpec::acts_in, {"compression", "rebound", "both"},
               "The direction in which it passes oil. Default: both.", R"("rebound")"),
          count("count", &BleedSpec::count, {1, 60, "they stand side by side"},
                "Number of equal bleeds. Default: 1.", "1"),
          number("discharge", &BleedSpec::discharge, kDischarge,
                 "Fixed discharge coefficient. Default: from the Reynolds number, towards 0.70 in fast flow "
                 "(common practice, no source); with `length` the longer the nearer to the law of a tube.",
                 "0.70"),
          quantity("seat", &BleedSpec::seat, Kind::Length, kHole,
                   "Needle: diameter of the bore that it closes.", R"("2.5 mm")"),
          quantity("half_angle", &BleedSpec::half_angle, Kind::Angle,
                   {0.008, 1.55, "it is the slope of a cone"}, "Needle: angle of its cone to its axis.",
                   R"("10 deg")"),
          quantity("per_click", &BleedSpec::per_click, Kind::Length,
                   {1e-6, 2e-3, "a click moves a needle by hundredths of a millimetre"},
                   "Needle: how far one click moves it out.", R"("0.06 mm")"),
          quantity("seated_clearance", &BleedSpec::seated_clearance, Kind::Length,
                   {0.0, 5e-3, "it is a small gap"},
                   "Needle: gap to the seat at 0 clicks. Default: it seals.", R"("0.05 mm")"),
          count("clicks", &BleedSpec::clicks, {0, 200, "clicks are counted out from seated"},
                "Needle: the setting, clicks out from seated.", "10"),
          count("clicks_max", &BleedSpec::clicks_max, {1, 200, "clicks are counted out from seated"},
                "Needle: the last click.", "22"),
          quantity("diameter", &BleedSpec::diameter, Kind::Length,
                   {0.1e-3, 120e-3, "it is a hole or a piston band"},
                   "Bored: diameter of the hole. Leakage: diameter of the band. Default: the diameter of the "
                   "piston.",
                   R"("1.2 mm")"),
          quantity("length", &BleedSpec::length, Kind::Length,
                   {0.05e-3, 0.2, "it runs through or along a piston"},
                   "Bored, leakage: length along the flow.", R"("8 mm")"),
          quantity("width", &BleedSpec::width, Kind::Length, kHole, "Notch: width along the seat.",
                   R"("2.0 mm")"),
          quantity("depth", &BleedSpec::depth, Kind::Length, {0.01e-3, 10e-3, "it is cut into a seat"},
                   "Notch: depth below the seat.", R"("0.2 mm")"),
          quantity("clearance", &BleedSpec::clearance, Kind::Length, kSmallGap,
                   "Leakage: diameter of the bore minus diameter of the band.", R"("0.06 mm")"),
          quantity("eccentricity", &BleedSpec::eccentricity, Kind::Fraction, kFraction,
                   "Leakage: 0 % is centred, 100 % touches the wall. Default: 0 %.", R"("50 %")"),
      });
  return schema;
}

KeySchema spacer_list() {
  const auto fill = [](Reading& reading, const KeySchema& key, const toml::Node& node,
                       std::vector<SpacerSpec>& spacers) {
    spacers.clear();
    if (!node.is_array()) return report_wrong_type(reading, key, node);
    for (const auto& child : node.children) {
      if (child->is_table()) {
        read_table(reading, *key.table, *child, &spacers.emplace_back());
      } else if (const Text name = read_text(reading, key, *child)) {
        const SpacerSpec* found =
            find_part(reading, reading.job->parts.spacers, "spacer", name.value, name.origin);
        if (found != nullptr) spacers.push_back(*found);
      }
    }
  };
  KeySchema key = key_of(ValueKind::PartList, "spacers", at(&ValveSpec::spacers),
                         reader_of<std::vector<SpacerSpec>>(fill),
                         "Spacers in hand for this post, by name or as a table. Default: all spacers in the "
                         "parts files that fit.",
                         R"(["6x0.3", { thickness = "0.1 mm", in_hand = 2 }])");
  key.table = &spacer_schema();
  return key;
}

}  // namespace

const TableSchema& direction_schema() {
  static const TableSchema schema = keys_at(
      Station::Hardware, schema_of<DirectionSpec>("compression or rebound",
                                                  "One direction of a valve: its ports, seat and stack.",
                                                  direction_keys("stack")));
  return schema;
}

const TableSchema& lone_stack_schema() {
  static const TableSchema schema = [] {
    std::vector<KeySchema> keys = direction_keys("discs");
    keys.push_back(quantity_list("pressures", &DirectionSpec::pressures, Kind::PressureDifference,
                                 {0.0, 100e6, "it is a pressure drop across a valve"},
                                 "Pressure drops at which the stack is calculated.",
                                 R"("0.2 MPa, 0.5 MPa")"));
    return schema_of<DirectionSpec>("stack", "A stack alone, with the keys of one direction of a valve.",
                                    std::move(keys));
  }();
  return schema;
}

const TableSchema& piece_schema() {
  static const TableSchema schema = schema_of<PieceSpec>(
      "piece", "One piece on a post.",
      {
          part_name<PieceSpec>(
              &PieceSpec::part, &PartsSpec::spacers, "spacer", piece_from,
              "Name of a spacer in a parts file. The other keys here replace those of the part.",
              R"("6x0.3")"),
          word("role", &PieceSpec::role, role_words(),
               "What the piece is. A floating stack slides on the collar beside it and then adds no height; "
               "a disc "
               "spring between the two slides with it. The piston decides which way round the stacks go. "
               "Default: other; for a part: spacer.",
               R"("piston")"),
          text("name", &PieceSpec::name, "Its name, only a label. Default: its role.", R"("base piston")"),
          count("count", &PieceSpec::count, kPieces, "Number of pieces. Default: 1.", "1"),
          required(quantity("height", &PieceSpec::height, Kind::Length, kPieceHeight,
                            "Nominal height of one piece.", R"("12.0 mm")")),
          quantity("measured", &PieceSpec::measured, Kind::Length, kPieceHeight, "Height as measured.",
                   R"("11.98 mm")"),
          quantity("tolerance", &PieceSpec::tolerance, Kind::Length, kTolerance,
                   "Tolerance of the nominal height, plus and minus.", R"("0.05 mm")"),
          quantity("outer_diameter", &PieceSpec::outer_diameter, Kind::Length, kValveDiameter,
                   "Outer diameter.", R"("24 mm")"),
          quantity("bore", &PieceSpec::bore, Kind::Length, kBore, "Diameter of its hole.", R"("6 mm")"),
          text("direction", &PieceSpec::direction, "Which way round it goes, if that matters.",
               R"("deep pockets to the rebound stack")"),
      });
  return schema;
}

const TableSchema& valve_schema() {
  static const TableSchema schema = keys_at(
      Station::Hardware,
      schema_of<ValveSpec>(
          "valve", "A piston valve or a foot valve.",
          {
              at(Station::Valving, table("compression", &ValveSpec::compression, direction_schema(),
                                         "The direction that is open when the unit goes in.")),
              at(Station::Valving, table("rebound", &ValveSpec::rebound, direction_schema(),
                                         "The direction that is open when the unit comes out.")),
              at(Station::Valving,
                 table_list("bleed", &ValveSpec::bleeds, bleed_schema(), "Paths for oil around the stacks.")),
              at(Station::Fit,
                 table("post", &ValveSpec::post, post_schema(), "The threaded end that carries the valve.",
                       R"({ thread = "M6 x 0.75", length = "38 mm", thread_length = "14 mm" })")),
              at(Station::Fit, table("nut", &ValveSpec::nut, nut_schema(), "The nut that holds the valve.",
                                     R"({ part = "post-nut", torque = "4.5 N.m" })")),
              at(Station::Fit,
                 piece_list(
                     "pieces", &ValveSpec::pieces, piece_schema(),
                     "The pieces on the post, from the shoulder to the nut. \"compression stack\" and "
                     "\"rebound "
                     "stack\" mean the stacks of this valve. \"spacers\" means the spacers that the program "
                     "chooses.",
                     R"(["washer 2.0 mm", "compression stack", { role = "piston", height = "12 mm" }, "rebound stack", "spacers"])")),
              at(Station::Fit, spacer_list()),
          }));
  return schema;
}

}  // namespace shimwright::file
