#pragma once
#include <algorithm>
#include <cmath>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "document/document.h"
#include "document/document_plots.h"

/// A result document as a job gives it, for the tests of this module: an invented fork leg. The numbers are
/// plausible in size and computed by nothing.
namespace shimwright::report::sample {

inline document::Value value(double si, units::Kind kind, std::string typed = "") {
  return {si, kind, units::Reference::None, "", std::move(typed)};
}

inline document::Value clicks(int n) {
  return {double(n), units::Kind::Number, units::Reference::None, "clicks", ""};
}

/// count x diameter [mm] x thickness [mm]
struct Shim {
  int count;
  double diameter_mm, thickness_mm;
  const char* label;
};

inline void pile(document::StackGeometry& g, const std::vector<Shim>& shims) {
  for (const Shim& shim : shims) {
    g.groups.push_back({shim.count, int(g.discs.size()) + 1, shim.label});
    for (int i = 0; i < shim.count; ++i) {
      document::DiscDrawing d;
      d.number = int(g.discs.size()) + 1;
      d.group = int(g.groups.size()) - 1;
      d.label = shim.label;
      d.outer_radius = shim.diameter_mm / 2e3;
      d.bore_radius = 4e-3;
      d.thickness = shim.thickness_mm / 1e3;
      d.height = g.height;
      g.height += d.thickness;
      g.discs.push_back(d);
    }
  }
}

/// Bent like a cantilever from the clamp out: the shape only has to look as a real one does.
inline document::StackShape bent(const document::StackGeometry& g, std::string name, double pressure,
                                 double lift) {
  document::StackShape shape{std::move(name), pressure, {}};
  const double reach = g.discs.front().outer_radius - g.clamp_radius;
  for (const document::DiscDrawing& d : g.discs) {
    document::DiscShape s{d.number, {}, {}, {}};
    for (int i = 0; i <= 24; ++i) {
      const double r = d.bore_radius + (d.outer_radius - d.bore_radius) * i / 24.0;
      const double u = std::max(0.0, r - g.clamp_radius) / reach;
      s.radius.push_back(r);
      s.height.push_back(d.height + lift * u * u * (1.5 - 0.5 * u));
      s.stress.push_back(4e8 * std::max(0.0, 1.0 - u) * (r < g.clamp_radius ? 0.6 : 1.0));
    }
    shape.discs.push_back(std::move(s));
  }
  return shape;
}

inline document::StackResult stack(std::string name, const std::vector<Shim>& shims) {
  document::StackResult s;
  s.name = std::move(name);
  document::StackGeometry& g = s.geometry;
  pile(g, shims);
  g.clamp_radius = 6e-3;
  g.boss_radius = 6.2e-3;
  g.bore_radius = 4e-3;
  g.seat_radius = 10.6e-3;
  g.seat_height = 0.05e-3;
  g.pocket_inner_radius = 7e-3;
  g.pocket_outer_radius = 10.4e-3;
  g.pocket_arc = 0.7;
  g.land_outer_radius = 10.9e-3;
  s.opening_pressure = 0.8e5;
  for (int i = 0; i < 40; ++i) {
    const double p = 2e6 * i / 39.0;
    s.line.pressure.push_back(p);
    s.line.lift_at_seat.push_back(std::max(0.0, 3e-10 * (p - s.opening_pressure.value())));
    s.line.lift_at_rim.push_back(std::max(0.0, 3.6e-10 * (p - s.opening_pressure.value())));
  }
  s.shapes = {bent(g, "closed", 0.0, 0.05e-3), bent(g, "working", 5e5, 0.18e-3),
              bent(g, "most", 2e6, 0.6e-3)};
  for (std::size_t k = 0; k < 2; ++k) {
    document::StackPoint p;
    p.pressure = k == 0 ? 5e5 : 2e6;
    p.lift_at_seat = 3e-10 * (p.pressure - s.opening_pressure.value());
    p.lift_at_rim = 1.2 * p.lift_at_seat;
    p.face_stress = 180e6 * double(k + 1);
    p.highest_stress = 260e6 * double(k + 1);
    p.worst_disc = int(g.discs.size());
    p.contacts = {{1, 2, 10.5e-3, 40.0}, {2, 3, 10.2e-3, 36.0}};
    s.points.push_back(p);
  }
  s.worst_disc = int(g.discs.size());
  s.yield_margin = 1.9;
  s.fatigue_margin = 1.3;
  s.fatigue_rule = "Goodman, invented strength";
  s.plots = {document::lift_plot(s)};
  return s;
}

inline document::TorqueResult torque() {
  document::TorqueResult t;
  t.asked = value(4.5, units::Kind::Torque, "4.5 N.m");
  t.to_use = t.asked;
  t.on_the_thread = document::ThreadCoat::HighStrengthThreadlocker;
  t.friction_low = 0.12;
  t.friction_high = 0.2;
  t.preload_low = 2900;
  t.preload_high = 4700;
  t.post_stress = 310e6;
  t.stretch_margin = 1.7;
  t.strip_margin = 2.4;
  t.range_low = 3.8;
  t.range_high = 5.1;
  t.limit = 8.6;
  t.estimate = true;
  t.derivation =
      "The torque that brings the hollow post to half of its yield at the least friction on the thread.";
  t.gives_way = "the post stretches";
  t.verdict = "4.5 N·m holds the pile and stays clear of stretching the post.";
  return t;
}

inline document::LedgerLine piece(std::string name, document::PieceShape shape, int count, double height_mm,
                                  double diameter_mm, double from_mm) {
  document::LedgerLine l;
  l.name = std::move(name);
  l.shape = shape;
  l.count = count;
  l.height = height_mm / 1e3;
  l.tolerance = 0.01e-3 * count;
  l.measured = shape == document::PieceShape::Piston;
  l.from = from_mm / 1e3;
  l.to = l.from + l.height;
  l.outer_radius = diameter_mm / 2e3;
  return l;
}

inline document::PostResult post(std::string name) {
  document::PostResult p;
  p.name = std::move(name);
  using document::PieceShape;
  const std::vector<std::tuple<const char*, PieceShape, int, double, double>> pieces = {
      {"backing washer", PieceShape::Washer, 1, 1.0, 14.0},
      {"check plate", PieceShape::Disc, 1, 0.3, 21.0},
      {"check spring and collar", PieceShape::Other, 1, 2.2, 12.0},
      {"piston", PieceShape::Piston, 1, 9.0, 28.0},
      {"rebound stack", PieceShape::Disc, 12, 1.65, 24.0},
      {"6x0.3 spacer", PieceShape::Spacer, 3, 0.9, 10.0},
      {"clamp washer", PieceShape::Washer, 1, 1.2, 11.0},
      {"nut", PieceShape::Nut, 1, 5.25, 13.0},
  };
  double at = 0.0;
  for (const auto& [words, shape, count, height, diameter] : pieces) {
    p.ledger.push_back(piece(words, shape, count, height, diameter, at));
    at += height;
  }
  p.bore_radius = 1.5e-3;
  p.major_radius = 4e-3;
  document::ThreadResult t;
  t.designation = "M8 x 0.75";
  t.pitch = 0.75e-3;
  t.post_length = 22e-3;
  t.thread_start = 14e-3;
  t.stack_height = 16.25e-3;
  t.stack_tolerance = 0.12e-3;
  t.nut_height = 5.25e-3;
  t.engaged_turns = t.nut_turns = 7.0;
  t.least_turns = 6.8;
  t.protrusion = 0.5e-3;
  t.unthreaded_gap = 2.25e-3;
  p.thread = t;
  p.spacers = {{"6x0.3", 0.3e-3, 6, 3, 5}, {"6x0.5", 0.5e-3, 2, 0, 0}};
  p.spacer_advice = "Leave out two 0.3 mm spacers: the nut then sits on all 7 turns of its thread.";
  p.fits_always = false;
  p.flags.push_back({.what = "the nut loses 0.2 turns", .serious = false});
  p.torque = torque();
  p.directions = {{"piston", "the three large ports face the nut", "by eye: large ports away from the rod",
                   "rebound goes through the small ports and the fork packs down"},
                  {"check plate", "the polished face lies on the piston", "by finger: no edge to feel",
                   "it leaks at slow speed"}};
  return p;
}

inline document::ForceResult force() {
  document::ForceResult f;
  f.temperature = 313.15;
  f.seal_friction = 12;
  f.static_rod_force = 38;
  const auto at = [](double v, int n, double scale) {
    return scale * (25 + 420 * std::pow(v, 0.8)) * (1.5 - 0.02 * n);
  };
  for (const shimwright::Stroke stroke : {shimwright::Stroke::Compression, shimwright::Stroke::Rebound}) {
    const bool down = stroke == shimwright::Stroke::Compression;
    const double scale = down ? 0.8 : 1.25;
    document::ForceCurve curve{stroke, {}, {}};
    document::ClickFamily family{down ? "compression needle" : "rebound needle",
                                 down ? shimwright::ValvePlace::Foot : shimwright::ValvePlace::Piston,
                                 stroke,
                                 {},
                                 {}};
    for (int i = 1; i <= 60; ++i) {
      document::ForcePoint p;
      p.speed = 4.0 * i * i / 3600.0;
      p.force = std::min(at(p.speed, 12, scale), down ? 1e9 : 1420.0);
      p.compression_pressure = down ? 3e5 + 5e5 * p.speed : 3e5;
      p.rod_pressure = down ? 3e5 - 0.4e5 * p.speed : 3e5 + 9e5 * p.speed;
      p.cavitated = !down && at(p.speed, 12, scale) > 1420.0;
      curve.points.push_back(p);
      family.speed.push_back(p.speed);
    }
    for (int n = 0; n <= 24; n += 4) {
      document::FamilyMember m{n, n == 12, {}, {}};
      for (const double v : family.speed) {
        m.force.push_back(at(v, n, scale));
        m.cavitated.push_back(false);
      }
      family.members.push_back(std::move(m));
    }
    f.curves.push_back(std::move(curve));
    f.families.push_back(std::move(family));
    document::CavitationResult c;
    c.stroke = stroke;
    c.chamber = down ? "rod chamber" : "compression chamber";
    c.release_pressure = 0.2e5;
    f.cavitation.push_back(c);
  }
  for (const double v : {0.05, 0.2, 1.0, 3.0})
    f.key_forces.push_back({v, at(v, 12, 0.8), std::min(1420.0, at(v, 12, 1.25)), false, v > 2.5});
  return f;
}

inline document::SpringResult springs() {
  document::SpringResult s;
  s.names = {"air, positive", "air, negative", "top-out"};
  s.travel = 0.3;
  for (int i = 0; i <= 60; ++i) {
    const double x = 0.3 * i / 60.0;
    const double air = 950 / std::pow(1 - 0.72 * x / 0.3, 1.2);
    const double negative = -900 * std::exp(-x / 0.03), top_out = -60 * std::exp(-x / 0.008);
    s.points.push_back({x, air + negative + top_out, 0.0, {air, negative, top_out}});
  }
  s.sag = {{document::SagLoad::Static, 700, 0.035, 0.033, 0.11},
           {document::SagLoad::Rider, 1050, 0.075, 0.07, 0.25, value(0.06, units::Kind::Length),
            value(0.08, units::Kind::Length)}};
  return s;
}

inline document::FillResult fill() {
  document::FillResult f;
  f.rod_at = "fully out";
  f.fill_temperature = 293.15;
  f.working_temperature = 313.15;
  f.chambers = {
      {document::FillRoom::Cartridge, value(195e-6, units::Kind::Volume, "195 mL"), 196.3e-6, 195e-6, 3.2e-6,
       1.1e-6},
      {document::FillRoom::Outer, value(400e-6, units::Kind::Volume, "400 mL"), {}, 400e-6, 6.4e-6, 0.0}};
  f.purge_port = true;
  f.symptoms = {
      {"the rod stops about 12 mm short of its stroke",
       true,
       {{"air left in the cartridge", "springy at the end; goes away with more strokes",
         "Bleed for another 5 min with the rod fully out at the top of each stroke.", 0.8e-6},
        {"bladder folded or twisted",
         "stays after bleeding; the reservoir feels hard",
         "Take the base valve out and look at the bladder.",
         {}}}},
      {"bubbles do not end",
       false,
       {{"a seal draws air", "bubbles come on the rebound stroke only", "Change the rod seal.", {}}}}};
  return f;
}

inline document::BuildStep step(std::string section, std::string text, std::string why = "",
                                std::string caution = "", std::optional<document::StepPicture> picture = {}) {
  document::BuildStep s;
  s.section = std::move(section);
  s.text = std::move(text);
  s.why = std::move(why);
  s.caution = std::move(caution);
  s.picture = picture;
  return s;
}

inline void hold(document::BuildStep& s, std::string what, document::Value expected,
                 std::optional<document::Value> low, std::optional<document::Value> high) {
  s.hold.emplace();
  s.hold->what = std::move(what);
  s.hold->yes_or_no = !low && !high;
  s.hold->expected = std::move(expected);
  s.hold->low = std::move(low);
  s.hold->high = std::move(high);
}

inline std::vector<document::BuildStep> prepare_steps() {
  return {
      step("Prepare", "Lay out every part of the pick list in the order of the sheet."),
      step("Prepare",
           "Clean the threads of post and nut of all old threadlocker with a brass brush and solvent.",
           "Old threadlocker changes the friction, and with it the preload.",
           "Heat that softens threadlocker ruins seals: keep the flame off everything but the nut."),
      step("Prepare", "Clamp the rod in soft jaws with a bore of its own size.", "",
           "Never clamp the tube where the piston must pass."),
      step("Prepare", "Run a fingertip round each shim; sort out any with a burr, a kink or a worn ring."),
      step("Prepare", "Seat the piston band in its groove with no edge proud.",
           "A proud edge cuts the tube."),
      step("Prepare", "Spread a thin film of grease on band and seals."),
  };
}

inline std::vector<document::BuildStep> piston_steps() {
  std::vector<document::BuildStep> steps = {
      step("Piston valve", "Slide the backing washer onto the post, chamfer to the shoulder."),
      step("Piston valve", "Slide on the piston with the three large ports facing the nut.",
           "Turned over, rebound goes through the small ports and the fork packs down.", "",
           document::StepPicture{ValvePlace::Piston, {}}),
      step("Piston valve",
           "Build the compression stack, face shim first: 3 x 24 x 0.15, 20 x 0.15, 18 x 0.15, 16 x 0.2, 14 "
           "x 0.2 mm.",
           "", "", document::StepPicture{ValvePlace::Piston, shimwright::Stroke::Compression}),
      step("Piston valve", "Build the rebound stack, face shim first.", "", "",
           document::StepPicture{ValvePlace::Piston, shimwright::Stroke::Rebound}),
      step("Piston valve", "Check that every shim is centred and turns freely before the nut is on."),
      step("Piston valve", "Add three 0.3 mm spacers and the clamp washer.",
           "With five, the nut would hang out by 0.6 mm and lose most of a turn."),
      step("Piston valve", "Measure from the shoulder to the washer's face."),
      step("Piston valve",
           "One drop of high-strength threadlocker on the first three turns; spin the nut on by hand until "
           "you feel it touch."),
      step("Piston valve", "Torque the nut.",
           "Without threadlocker the same torque gives about a fifth more preload.",
           "40 ft·lbf is twelve times this torque and tears the post off."),
      step("Piston valve", "Push the check plate with a plastic pick: it lifts and snaps back."),
  };
  hold(steps[6], "shoulder to washer face", value(16.25e-3, units::Kind::Length),
       value(16.13e-3, units::Kind::Length), value(16.37e-3, units::Kind::Length));
  steps[8].torque = value(4.5, units::Kind::Torque, "4.5 N.m");
  hold(steps[8], "torque reached", *steps[8].torque, value(3.8, units::Kind::Torque),
       value(5.1, units::Kind::Torque));
  hold(steps[9], "check plate lifts and snaps back", {}, {}, {});
  return steps;
}

inline std::vector<document::BuildStep> fill_steps() {
  std::vector<document::BuildStep> steps = {
      step("Fill", "Pull the rod fully out.",
           "Filled with the rod in, the cartridge has too little oil and sucks the bladder flat."),
      step("Fill", "Pour 195 mL of fork oil into the cartridge."),
      step("Bleed", "Stroke the rod slowly over 125 to 150 mm for 5 to 10 minutes, until no bubble comes.",
           "Fast strokes whip air into the oil."),
      step("Bleed", "Fit the base valve; the snap ring must sit fully in its groove all round.", "",
           "A snap ring half in its groove lets go under the first hard landing."),
      step("Bleed", "Push the rod in once, fully. Catch what the purge hole lets out."),
      step("Accept", "Push the rod in and let go: it comes out by itself over its whole stroke.",
           "Stopping about 12 mm short points at air left in the cartridge."),
      step("Accept", "Set both needles: compression 12 clicks out, rebound 12 clicks out."),
  };
  hold(steps[1], "oil poured", value(195e-6, units::Kind::Volume), value(193e-6, units::Kind::Volume),
       value(198e-6, units::Kind::Volume));
  hold(steps[4], "oil purged", value(1.1e-6, units::Kind::Volume), {}, value(4e-6, units::Kind::Volume));
  hold(steps[5], "rod comes out fully", {}, {}, {});
  return steps;
}

inline document::BuildPlan plan() {
  document::BuildPlan plan{
      "fork leg",
      {"The maker's manual comes first; this sheet carries the numbers of this build, not "
       "the way to take the fork apart."},
      {}};
  for (const auto& part : {prepare_steps(), piston_steps(), fill_steps()})
    for (const document::BuildStep& s : part) {
      plan.steps.push_back(s);
      plan.steps.back().number = int(plan.steps.size());
    }
  return plan;
}

inline document::SettingsGuide guide() {
  document::SettingsGuide g;
  g.unit = "fork leg";
  document::Value air = value(1.9e6, units::Kind::Pressure);
  air = value(9.5e5, units::Kind::Pressure);
  air.reference = units::Reference::Gauge;
  g.settings = {
      {"compression needle", "fork leg, foot valve", clicks(12), "12 clicks out from seated, of 24"},
      {"rebound needle", "fork leg, piston valve", clicks(11), "11 clicks out from seated, of 24"},
      {"positive air", "fork leg", air, "9.5 bar, set with the fork extended"}};
  const auto change = [](shimwright::Stroke s, double v, double a, double b) {
    return document::ForceChange{s, v, a, b};
  };
  const auto c = shimwright::Stroke::Compression, r = shimwright::Stroke::Rebound;
  g.advice = {{"dives on the brakes",
               "compression needle 2 clicks in (to 10)",
               "",
               "compression needle",
               -2,
               {change(c, 0.05, 55, 62), change(c, 0.2, 131, 142), change(c, 1, 356, 366)},
               true},
              {"harsh over roots",
               "compression needle 3 clicks out (to 15)",
               "",
               "compression needle",
               3,
               {change(c, 0.2, 131, 118), change(c, 1, 356, 341)},
               false},
              {"kicks back after landing",
               "rebound needle 2 clicks in (to 9)",
               "",
               "rebound needle",
               -2,
               {change(r, 0.2, 205, 221), change(r, 1, 556, 571)},
               false},
              {"packs down in chatter",
               "rebound needle 2 clicks out (to 13)",
               "",
               "rebound needle",
               2,
               {change(r, 0.2, 205, 190), change(r, 1, 556, 540)},
               false},
              {"bottoms on big landings",
               "positive air 0.3 bar up",
               "The end force rises more than the force at sag.",
               "",
               0,
               {},
               false}};
  g.per_click.push_back({.adjuster = "compression needle", .effect = {change(c, 0.2, 131, 136.5)}});
  g.per_click.push_back({.adjuster = "rebound needle", .effect = {change(r, 0.2, 205, 213)}});
  g.other = {{"10 K colder",
              "Slow forces rise by 8 to 14 %: 131 to 146 N in compression at 0.2 m/s.",
              "Open both needles by 1 click.",
              {}},
             {"1000 m higher",
              "The air spring gauge reads the same and pushes 0.11 bar harder.",
              "Set 9.4 bar.",
              {}},
             {"rider 5 kg heavier",
              "Rider sag grows from 70 to 76 mm.",
              "Add 0.4 bar and close rebound by 1 click.",
              {}}};
  return g;
}

inline document::UnitResult unit() {
  document::UnitResult u;
  u.name = "fork leg";
  u.kind = "fork leg";
  u.layout = "closed cartridge";
  u.count = 2;
  u.travel = 0.3;
  u.piston_radius = 14e-3;
  u.rod_radius = 6e-3;
  u.oil = "fork oil 5 (invented)";
  const auto direction = [](shimwright::Stroke stroke, std::optional<document::StackResult> s) {
    document::DirectionResult d;
    d.stroke = stroke;
    d.stack = std::move(s);
    return d;
  };
  document::ValveResult piston;
  piston.directions = {direction(shimwright::Stroke::Compression, stack("fork leg, piston valve, compression",
                                                                        {{3, 24, 0.15, "3 x 24 x 0.15 mm"},
                                                                         {1, 20, 0.15, "20 x 0.15 mm"},
                                                                         {1, 18, 0.15, "18 x 0.15 mm"},
                                                                         {1, 16, 0.2, "16 x 0.20 mm"},
                                                                         {1, 14, 0.2, "14 x 0.20 mm"}})),
                       direction(shimwright::Stroke::Rebound,
                                 stack("fork leg, piston valve, rebound", {{4, 22, 0.2, "4 x 22 x 0.20 mm"},
                                                                           {1, 14, 0.1, "14 x 0.10 mm"},
                                                                           {2, 21, 0.15, "2 x 21 x 0.15 mm"},
                                                                           {1, 18, 0.15, "18 x 0.15 mm"},
                                                                           {1, 13, 0.2, "13 x 0.20 mm"}}))};
  piston.bleeds = {{"rebound needle", "needle", true, true, 11, 24, 0.9e-6, {}, {}}};
  piston.post = post("fork leg, piston valve");
  document::ValveResult foot;
  foot.place = shimwright::ValvePlace::Foot;
  foot.bleeds = {{"compression needle", "needle", true, false, 12, 24, 0.7e-6, {}, {}}};
  u.valves = {piston, foot};
  u.force = force();
  u.springs = springs();
  u.fill = fill();
  u.plan = plan();
  u.settings = guide();
  u.plots = document::unit_plots(u, units::System::Metric);
  return u;
}

inline std::vector<document::Finding> findings() {
  const document::Place place{
      "fork leg", "piston valve", "rebound", "unit[0].piston_valve.rebound", "fork.job.toml", 41};
  return {{"F101",
           Severity::Look,
           place,
           Station::Effect,
           "The compression chamber draws air in rebound beyond 2.6 m/s.",
           {{"speed", value(2.6, units::Kind::Speed)}},
           "The chamber keeps 0.5 bar over the release pressure up to 3 m/s.",
           "common practice, no source",
           "Raise the reservoir pressure to 2.4 bar, or soften the rebound stack."},
          {"F204", Severity::Note, {}, Station::Fit, "The nut sits on all its turns.", {}, "", "", ""}};
}

inline document::ResultDocument document() {
  document::ResultDocument d;
  d.header.program_version = "0.1.0";
  d.header.title = "Enduro fork, spring service";
  d.header.scenario = "Invented for the manual";
  d.header.revision = "3";
  d.header.date = "2026-11-20";
  d.rider = document::RiderSummary{
      "A. Rider", value(84, units::Kind::Mass), "quick", "forest, roots", {"dives on the brakes"}};
  d.machine = document::MachineSummary{"300 enduro (invented)", {}};
  d.conditions = {value(313.15, units::Kind::Temperature), value(293.15, units::Kind::Temperature),
                  value(400, units::Kind::Length), 96.6e3};
  d.findings = findings();
  d.units = {unit()};
  const auto pick = [&d](const char* part, const char* where, double count, double in_hand, double price) {
    d.pick_list.lines.push_back(
        {.part = part, .where = where, .count = count, .in_hand = in_hand, .price = price});
  };
  pick("shim 24 x 0.15 mm", "fork leg, piston valve, compression", 6, 10, 1.2);
  pick("shim 20 x 0.15 mm", "fork leg, piston valve, compression", 2, 4, 1.1);
  pick("shim 22 x 0.20 mm", "fork leg, piston valve, rebound", 8, 5, 1.2);
  d.pick_list.lines.back().short_by = 3;
  pick("spacer 6 x 0.3 mm", "fork leg, piston valve", 6, 6, 0.4);
  pick("fork oil 5 (invented)", "fork leg", 0, 2, 14);
  d.pick_list.lines.back().volume = 1.19e-3;
  d.pick_list.total = 35.66;
  d.pick_list.n_without_price = 1;
  return d;
}

}  // namespace shimwright::report::sample
