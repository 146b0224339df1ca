#include "cli/tables.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "cli/columns.h"
#include "document/document_phrase.h"

namespace shimwright::cli {
namespace {

using units::Kind;
using units::System;

Cell micrometre_aware(double si, System system) {
  // lifts are small: three more digits than a length has in this trade
  units::FormatOptions options;
  options.decimals = system == System::Metric ? 4 : 5;
  return text(si, Kind::Length, system, options);
}

std::string status_note(const Outcome& outcome) {
  if (outcome.ok()) return "status: converged.";
  const char* word =
      outcome.status == Status::OutOfRange ? "outside the range of the model" : "not converged";
  return fmt::format("status: {}. {}", word, outcome.note);
}

std::vector<const document::StackResult*> stacks_of(const document::ResultDocument& document) {
  std::vector<const document::StackResult*> stacks;
  if (document.stack) stacks.push_back(&*document.stack);
  for (const document::UnitResult& unit : document.units)
    for (const document::ValveResult& valve : unit.valves)
      for (const document::DirectionResult& direction : valve.directions)
        if (direction.stack) stacks.push_back(&*direction.stack);
  return stacks;
}

Cell percent(double share, bool sign = false) {
  return text(share, Kind::Fraction, System::Metric, {.sign = sign, .decimals = 0});
}

std::string error_note(const document::StackResult& stack) {
  double mesh = 0.0, iteration = 0.0;
  for (const document::StackPoint& p : stack.points) {
    mesh = std::max(mesh, p.mesh_error);
    iteration = std::max(iteration, p.iteration_error);
  }
  const auto words = [](double error) {
    return error < 1e-4 ? std::string("below 0.01 %") : fmt::format("{:.2g} %", 100.0 * error);
  };
  if (stack.points.empty()) return "no pressure could be solved.";
  return fmt::format("numerical error of the lift: {} from the mesh, {} from the iteration.", words(mesh),
                     words(iteration));
}

Table lift_table(const document::StackResult& stack, System system) {
  Table t;
  t.title = stack.name + ": lift and stress";
  t.columns = {number("pressure", Kind::PressureDifference, system),
               number("seat lift", Kind::Length, system),
               number("rim lift", Kind::Length, system),
               number("opening", Kind::Area, system),
               number("face stress", Kind::Stress, system),
               number("highest", Kind::Stress, system),
               {"disc", "", false},
               words("status")};
  auto unsolved = stack.unsolved.begin();
  const auto add_unsolved = [&](double below) {
    for (; unsolved != stack.unsolved.end() && *unsolved < below; ++unsolved)
      t.rows.push_back(
          {text(*unsolved, Kind::PressureDifference, system), "-", "-", "-", "-", "-", "-", "stalled"});
  };
  for (const document::StackPoint& p : stack.points) {
    add_unsolved(p.pressure);
    t.rows.push_back({text(p.pressure, Kind::PressureDifference, system),
                      micrometre_aware(p.lift_at_seat, system), micrometre_aware(p.lift_at_rim, system),
                      text(p.opening_area, Kind::Area, system), text(p.face_stress, Kind::Stress, system),
                      text(p.highest_stress, Kind::Stress, system), std::to_string(p.worst_disc),
                      p.outcome.ok() ? "converged" : "range"});
  }
  add_unsolved(1e300);
  t.note =
      fmt::format("theory: {}; {} {}", word(stack.theory), error_note(stack), status_note(stack.outcome));
  return t;
}

/// One row for each pair that presses: where two shims lie on each other over a width, from where to where.
Table contact_table(const document::StackResult& stack, System system) {
  Table t;
  t.title = stack.name + ": contact forces around the whole circle";
  t.columns = {number("pressure", Kind::PressureDifference, system), words("between"),
               number("from radius", Kind::Length, system), number("to radius", Kind::Length, system),
               number("force", Kind::Force, system)};
  const int n = int(stack.geometry.discs.size());
  for (const document::StackPoint& p : stack.points)
    for (std::size_t i = 0; i < p.contacts.size();) {
      const document::ContactForce& first = p.contacts[i];
      double from = first.radius, to = first.radius, force = 0.0;
      for (;
           i < p.contacts.size() && p.contacts[i].lower == first.lower && p.contacts[i].upper == first.upper;
           ++i) {
        from = std::min(from, p.contacts[i].radius);
        to = std::max(to, p.contacts[i].radius);
        force += p.contacts[i].force;
      }
      const std::string lower = first.lower == 0 ? "seat" : fmt::format("disc {}", first.lower);
      const std::string upper = first.upper > n ? "stop" : fmt::format("disc {}", first.upper);
      t.rows.push_back({text(p.pressure, Kind::PressureDifference, system), lower + " and " + upper,
                        micrometre_aware(from, system), micrometre_aware(to, system),
                        text(force, Kind::Force, system)});
    }
  return t;
}

/// How much each bracket of equal shims matters, and which shims could be left out.
Table influence_table(const document::StackResult& stack, System system) {
  const document::StackInfluence& influence = *stack.influence;
  Table t;
  t.title = stack.name + ": effect of each shim";
  t.columns = {words("shims"),
               {"stiffness", "%", false},
               number("thicker", Kind::Length, system),
               {"lift", "%", false},
               number("left out", Kind::Length, system),
               {"lift", "%", false},
               words("")};
  for (const document::GroupInfluence& g : influence.groups) {
    const document::DiscGroup& group = stack.geometry.groups[std::size_t(g.group)];
    const document::DiscInfluence& disc = influence.discs[std::size_t(group.first - 1)];
    const auto lift = [&](const std::optional<double>& w) -> Cell {
      return w ? micrometre_aware(*w, system) : "-";
    };
    t.rows.push_back(
        {group.label, percent(g.stiffness_share), lift(g.lift_thicker),
         g.change ? percent(*g.change, true) : "-", lift(disc.lift_without),
         disc.lift_without ? percent(*disc.lift_without / influence.lift_at_seat - 1.0, true) : "-",
         disc.could_be_left_out ? "not needed" : ""});
  }
  t.note = fmt::format(
      "At {}, where the lift of the stack is {} {}. Thicker: every shim of the row is {} thicker. Left out: "
      "the stack without one shim of the row. ",
      units::format_plain(influence.pressure, Kind::PressureDifference, system),
      micrometre_aware(influence.lift_at_seat, system).text, units::unit_name_plain(Kind::Length, system),
      units::format_thickness_plain(influence.thicker_by, system));
  if (influence.stages.size() > 1) {
    t.note += "Share of the stiffness of each stage between gap shims: ";
    for (const document::StageShare& s : influence.stages)
      t.note += fmt::format("{}disc{} {} {} %", s.first_disc == 1 ? "" : ", ",
                            s.first_disc == s.last_disc ? "" : "s",
                            s.first_disc == s.last_disc ? std::to_string(s.first_disc)
                                                        : fmt::format("{} to {}", s.first_disc, s.last_disc),
                            percent(s.stiffness_share).text);
    t.note += ". ";
  }
  t.note += status_note(influence.outcome);
  return t;
}

Table path_table(const document::StackResult& stack, System system) {
  Table t;
  t.title = stack.name + ": breakpoints of the linear path";
  t.columns = {number("pressure", Kind::PressureDifference, system),
               number("lift at seat", Kind::Length, system), words("what changes")};
  std::size_t n_steps = 0;
  for (const document::PathBreak& b : stack.path) {
    if (!b.physical) {
      ++n_steps;
      continue;
    }
    t.rows.push_back({text(b.pressure, Kind::PressureDifference, system),
                      micrometre_aware(b.lift_at_seat, system), b.what});
  }
  if (n_steps > 0)
    t.note = fmt::format("{} more change{} not shown: the point of contact only moves on.", n_steps,
                         n_steps == 1 ? "" : "s");
  return t;
}

Table force_table(const document::UnitResult& unit, const document::ForceCurve& curve, System system) {
  Table t;
  t.title = fmt::format("{}: {}", unit.name, word(curve.stroke));
  const auto absolute = units::Reference::Absolute;
  t.columns = {number("speed", Kind::Speed, system),
               number("force", Kind::Force, system),
               number("compr. ch.", Kind::Pressure, system, absolute),
               number("rod ch.", Kind::Pressure, system, absolute),
               number("margin", Kind::PressureDifference, system),
               words("piston valve"),
               words("foot valve"),
               words("air")};
  for (const document::ForcePoint& p : curve.points)
    t.rows.push_back({text(p.speed, Kind::Speed, system), text(p.force, Kind::Force, system),
                      text(p.compression_pressure, Kind::Pressure, system),
                      text(p.rod_pressure, Kind::Pressure, system),
                      text(p.margin, Kind::PressureDifference, system), word(p.piston_carrier),
                      word(p.foot_carrier), p.cavitated ? "drawn" : ""});
  t.note = status_note(curve.outcome);
  return t;
}

/// Another oil in the same unit: what it does to the force, and the clicks that bring it back.
Table swap_table(const document::OilSwap& swap, System system) {
  Table t;
  t.title = fmt::format("{}: {} instead of {}", swap.unit, document::readable(swap.to),
                        document::readable(swap.from));
  t.columns = {words("stroke"), number("speed", Kind::Speed, system), number("before", Kind::Force, system),
               number("after", Kind::Force, system), number("change", Kind::Force, system)};
  for (const document::OilSwapForce& f : swap.forces)
    t.rows.push_back({word(f.stroke), text(f.speed, Kind::Speed, system), text(f.before, Kind::Force, system),
                      text(f.after, Kind::Force, system),
                      text(f.after - f.before, Kind::Force, system, {.sign = true})});
  t.note = fmt::format(
      "Viscosity is {:.2f} times and density {:.3f} times that of {}. It is as thin as the other oil at {}. ",
      swap.kinematic_ratio, swap.density_ratio, document::readable(swap.from),
      units::format_plain(swap.same_viscosity_at, Kind::Temperature, system));
  for (const document::OilSwapClicks& c : swap.clicks)
    t.note += c.change == 0 ? fmt::format("Do not change the {}. ", c.adjuster)
                            : fmt::format("Turn the {} {} click{} {} to get the same force at low speed. ",
                                          c.adjuster, std::abs(c.change), std::abs(c.change) == 1 ? "" : "s",
                                          c.change < 0 ? "in" : "out");
  t.note += status_note(swap.outcome);
  return t;
}

}  // namespace

bool print_tables(const Streams& s, const std::vector<Table>& tables, const Asked& asked) {
  if (!asked.table.empty()) {
    const std::vector<std::string> names = names_of(tables);
    const auto found = std::ranges::find(names, asked.table);
    if (found == names.end()) {
      s.err << fmt::format("--table {}: there is no such table. This job has:\n", asked.table);
      for (const std::string& name : names) s.err << "  " << name << '\n';
      return false;
    }
    s.out << to_csv(tables[std::size_t(found - names.begin())]);
    return true;
  }
  for (std::size_t k = 0; k < tables.size(); ++k)
    s.out << (k ? (asked.csv ? "\r\n" : "\n") : "") << (asked.csv ? to_csv(tables[k]) : to_text(tables[k]));
  return true;
}

std::string value_text(const document::Value& value, System system) {
  if (value.kind == Kind::Number && !value.counted.empty())
    return fmt::format("{:g} {}", value.si, value.counted);
  units::FormatOptions options;
  options.reference = value.reference;
  return units::format_plain(value.si, value.kind, system, options);
}

std::string heading_text(const document::ResultDocument& document) {
  return heading_text(document.header);
}

std::string heading_text(const document::Header& h) {
  std::string out = h.title.empty() ? std::string("(no title)") : h.title;
  if (!h.revision.empty()) out += ", revision " + h.revision;
  out += '\n';
  if (!h.scenario.empty()) out += h.scenario + '\n';
  out += paragraph(fmt::format("theory: {}; {}", word(h.theory), status_note(h.outcome)));
  for (const std::string& warning : h.warnings) out += paragraph("note: " + warning);
  return out;
}

std::string findings_text(const document::ResultDocument& document, System system) {
  return findings_text(document.findings, system);
}

std::string findings_text(const std::vector<document::Finding>& findings, System system) {
  if (findings.empty()) return "No findings.\n";
  std::string out;
  for (const document::Finding& f : findings) {
    std::string place = f.place.unit;
    for (const std::string& part : {f.place.valve, f.place.stroke})
      if (!part.empty()) place += (place.empty() ? "" : ", ") + part;
    out += fmt::format("{}[{}] {}\n", word(f.severity), f.code, place);
    if (f.place.line > 0) out += fmt::format("  {}:{}\n  {}\n", f.place.file, f.place.line, f.place.path);
    out += paragraph(f.title, 80, 2);
    std::string numbers;
    for (const document::NamedValue& n : f.numbers)
      numbers += (numbers.empty() ? "" : "; ") + n.name + " " + value_text(n.value, system);
    if (!numbers.empty()) out += paragraph(numbers, 80, 4);
    if (!f.rule.empty()) out += paragraph(f.rule + (f.source.empty() ? "" : " (" + f.source + ")"), 80, 4);
    if (!f.remedy.empty()) out += paragraph("-> " + f.remedy, 80, 2);
    if (!f.in_file.empty()) out += paragraph("-> " + f.in_file, 80, 2);
    out += '\n';
  }
  const auto n = [&](Severity severity) {
    return std::ranges::count(findings, severity, &document::Finding::severity);
  };
  out += fmt::format("{} stop, {} look, {} fine.\n", n(Severity::Stop), n(Severity::Look), n(Severity::Note));
  return out;
}

std::vector<Table> key_figure_tables(const document::ResultDocument& document, System system) {
  std::vector<Table> tables;
  for (const document::UnitResult& unit : document.units) {
    if (!unit.force) continue;
    Table t;
    t.title = unit.name + ": damping force at four speeds";
    t.columns = {number("speed", Kind::Speed, system), number("compression", Kind::Force, system),
                 number("rebound", Kind::Force, system), words("air in the oil")};
    for (const document::KeyForce& k : unit.force->key_forces) {
      std::string air = k.compression_cavitated ? "compression" : "";
      if (k.rebound_cavitated) air += air.empty() ? "rebound" : ", rebound";
      t.rows.push_back({text(k.speed, Kind::Speed, system), text(k.compression, Kind::Force, system),
                        text(k.rebound, Kind::Force, system), air});
    }
    t.note = fmt::format("Static rod force, not included above: {}. {}",
                         units::format_plain(unit.force->static_rod_force, Kind::Force, system),
                         status_note(unit.force->outcome));
    tables.push_back(std::move(t));
  }
  return tables;
}

std::vector<Table> stack_tables(const document::ResultDocument& document, System system) {
  std::vector<Table> tables;
  for (const document::StackResult* stack : stacks_of(document)) {
    Table pile;
    pile.title = stack->name + ": the stack, face shim first";
    pile.columns = {{"no.", "", false}, words("disc"), number("lies at", Kind::Length, system), words("")};
    for (const document::DiscDrawing& d : stack->geometry.discs)
      pile.rows.push_back({std::to_string(d.number), d.label, micrometre_aware(d.height, system),
                           d.ring      ? "loose ring"
                           : d.carries ? ""
                                       : "no load"});
    tables.push_back(std::move(pile));
    tables.push_back(lift_table(*stack, system));
    if (stack->influence) tables.push_back(influence_table(*stack, system));
    tables.push_back(contact_table(*stack, system));
    if (!stack->path.empty()) tables.push_back(path_table(*stack, system));
  }
  return tables;
}

std::vector<Table> force_tables(const document::ResultDocument& document, System system) {
  std::vector<Table> tables;
  for (const document::UnitResult& unit : document.units)
    if (unit.force)
      for (const document::ForceCurve& curve : unit.force->curves)
        tables.push_back(force_table(unit, curve, system));
  return tables;
}

std::vector<Table> spring_tables(const document::ResultDocument& document, System system) {
  std::vector<Table> tables;
  for (const document::UnitResult& unit : document.units) {
    if (!unit.springs) continue;
    const document::SpringResult& springs = *unit.springs;
    Table t;
    t.title = unit.name + ": springs over travel";
    t.columns = {number("travel", Kind::Length, system), number("force", Kind::Force, system),
                 number("rate", Kind::SpringRate, system)};
    for (const std::string& name : springs.names) t.columns.push_back(number(name, Kind::Force, system));
    const std::size_t stride = std::max<std::size_t>(1, (springs.points.size() - 1) / 12);
    for (std::size_t i = 0; i < springs.points.size(); i += stride) {
      const document::SpringPoint& p = springs.points[i];
      std::vector<Cell> row = {text(p.travel, Kind::Length, system), text(p.force, Kind::Force, system),
                               text(p.rate, Kind::SpringRate, system)};
      for (std::size_t k = 0; k < springs.names.size(); ++k)
        row.push_back(k < p.shares.size() ? text(p.shares[k], Kind::Force, system) : "-");
      t.rows.push_back(std::move(row));
    }
    t.note = status_note(springs.outcome);
    tables.push_back(std::move(t));

    if (!springs.sag.empty()) {
      Table sag;
      sag.title = unit.name + ": sag";
      sag.columns = {words("sag"), number("load", Kind::Force, system),
                     number("at the unit", Kind::Length, system),
                     number("at the wheel", Kind::Length, system), words("")};
      for (const document::SagResult& s : springs.sag)
        sag.rows.push_back({word(s.under), text(s.load, Kind::Force, system),
                            text(s.travel, Kind::Length, system), text(s.wheel_travel, Kind::Length, system),
                            s.topped_out ? "topped out"
                            : s.bottomed ? "bottomed out"
                                         : ""});
      tables.push_back(std::move(sag));
    }
    Table effects;
    effects.title = unit.name + ": effect of a small change on the force";
    effects.columns = {words("change"), number("at sag", Kind::Force, system),
                       number("at half travel", Kind::Force, system),
                       number("at the end", Kind::Force, system)};
    for (const document::SpringEffect& e : springs.effects)
      effects.rows.push_back({e.what, text(e.at_sag, Kind::Force, system),
                              text(e.at_middle, Kind::Force, system), text(e.at_end, Kind::Force, system)});
    if (!effects.rows.empty()) tables.push_back(std::move(effects));
  }
  return tables;
}

std::vector<Table> oil_tables(const document::ResultDocument& document, System system) {
  std::vector<Table> tables;
  for (const document::OilResult& oil : document.oils) {
    Table t;
    t.title = document::readable(oil.name);
    t.columns = {number("temperature", Kind::Temperature, system),
                 number("kinematic", Kind::KinematicViscosity, system),
                 number("dynamic", Kind::DynamicViscosity, system), number("density", Kind::Density, system),
                 words("")};
    for (const document::OilPoint& p : oil.table)
      t.rows.push_back({text(p.temperature, Kind::Temperature, system),
                        text(p.kinematic_viscosity, Kind::KinematicViscosity, system),
                        text(p.dynamic_viscosity, Kind::DynamicViscosity, system),
                        text(p.density, Kind::Density, system), p.extrapolated ? "extrapolated" : ""});
    t.note = oil.viscosity_index
                 ? fmt::format("Viscosity index {:.0f} (ASTM D2270). ", *oil.viscosity_index)
                 : "No viscosity index: ASTM D2270 does not define it below 2 mm2/s at 100 degC. ";
    t.note += status_note(oil.outcome);
    tables.push_back(std::move(t));
  }
  for (const document::OilSwap& swap : document.oil_swaps) tables.push_back(swap_table(swap, system));
  return tables;
}

namespace {

Table fill_table(const std::string& unit, const document::FillResult& fill, System system) {
  Table table;
  table.title = fmt::format("{}: fill, rod {}", unit, fill.rod_at);
  table.columns = {words("chamber"), number("stated", Kind::Volume, system),
                   number("pour", Kind::Volume, system), number("room", Kind::Volume, system),
                   number("growth", Kind::Volume, system)};
  if (fill.purge_port) table.columns.push_back(number("last stroke", Kind::Volume, system));
  for (const document::FillChamber& c : fill.chambers) {
    table.rows.push_back({word(c.room), c.stated ? text(c.stated->si, Kind::Volume, system) : "-",
                          text(c.pour, Kind::Volume, system), text(c.volume, Kind::Volume, system),
                          text(c.growth, Kind::Volume, system)});
    if (fill.purge_port) table.rows.back().push_back(text(c.purge, Kind::Volume, system));
  }
  return table;
}

/// Rod out and in, cold and warm.
Table reservoir_table(const std::string& unit, const document::ReservoirResult& reservoir, double ambient,
                      System system) {
  Table table;
  table.title = unit + ": reservoir at rest";
  table.columns = {words("rod"),
                   number("oil at", Kind::Temperature, system),
                   words("gauge"),
                   number("gas left", Kind::Volume, system),
                   number("room left", Kind::Volume, system),
                   number("pushes the rod", Kind::Force, system)};
  const document::Phrase phrase{system};
  const auto gauge = [&](const document::ReservoirState& s) {
    Cell cell((s.locked ? "more than " : "") + phrase.gauge(s.pressure - ambient),
              units::to_unit(s.pressure - ambient, Kind::Pressure, system));
    cell.digits = fmt::format("{}{} {}", s.locked ? "more than " : "", cell.digits,
                              units::unit_name_plain(Kind::Pressure, system, units::Reference::Gauge));
    return cell;
  };
  for (const document::ReservoirState& s : reservoir.states)
    table.rows.push_back({word(s.rod_at), text(s.temperature, Kind::Temperature, system), gauge(s),
                          text(s.gas_volume, Kind::Volume, system),
                          reservoir.room_known ? text(s.room_left, Kind::Volume, system) : "-",
                          text(s.rod_force, Kind::Force, system)});
  return table;
}

}  // namespace

std::vector<Table> assembly_tables(const document::ResultDocument& document, System system) {
  std::vector<Table> tables;
  for (const document::UnitResult& unit : document.units)
    for (const document::ValveResult& valve : unit.valves) {
      if (!valve.post) continue;
      const document::PostResult& post = *valve.post;
      Table t;
      t.title = post.name + ": from the shoulder to the nut";
      t.columns = {words("piece"),
                   {"count", "", false},
                   number("height", Kind::Length, system),
                   number("from", Kind::Length, system),
                   number("to", Kind::Length, system),
                   words("")};
      for (const document::LedgerLine& line : post.ledger)
        t.rows.push_back({line.name, std::to_string(line.count), micrometre_aware(line.height, system),
                          micrometre_aware(line.from, system), micrometre_aware(line.to, system),
                          line.measured ? "measured" : "nominal"});
      if (post.thread)
        t.note = fmt::format(
            "{}: {:.1f} of the {:.1f} turns of the nut are engaged ({:.1f} with the worst tolerances). ",
            post.thread->designation, post.thread->engaged_turns, post.thread->nut_turns,
            post.thread->least_turns);
      t.note += post.spacer_advice;
      tables.push_back(std::move(t));
      if (!post.torque) continue;
      const document::TorqueResult& q = *post.torque;
      Table torque;
      torque.title = post.name + ": torque";
      torque.columns = {words("what"), number("from", Kind::Torque, system),
                        number("to", Kind::Torque, system)};
      if (q.asked) {
        const Cell asked = text(q.asked->si, Kind::Torque, system);
        torque.rows.push_back({"stated", asked, asked});
      }
      torque.rows.push_back({q.estimate ? "range (estimate)" : "range",
                             text(q.range_low, Kind::Torque, system),
                             text(q.range_high, Kind::Torque, system)});
      torque.rows.push_back({"highest safe torque", "", text(q.limit, Kind::Torque, system)});
      torque.note = q.verdict + (q.derivation.empty() ? "" : " " + q.derivation);
      tables.push_back(std::move(torque));
    }
  for (const document::UnitResult& unit : document.units) {
    if (unit.fill) tables.push_back(fill_table(unit.name, *unit.fill, system));
    if (unit.reservoir && !unit.reservoir->states.empty())
      tables.push_back(
          reservoir_table(unit.name, *unit.reservoir, document.conditions.ambient_pressure, system));
  }
  return tables;
}

std::vector<Table> comparison_tables(const document::Comparison& comparison, System system) {
  std::vector<Table> tables;
  Table keys{"Differences", {words("key"), words("first"), words("second")}, {}, ""};
  for (const document::KeyDifference& k : comparison.keys) keys.rows.push_back({k.path, k.first, k.second});
  tables.push_back(std::move(keys));

  Table numbers{
      "Effect", {words("unit"), words("figure"), words("first"), words("second"), words("change")}, {}, ""};
  for (const auto* group : {&comparison.forces, &comparison.margins, &comparison.springs, &comparison.oils})
    for (const document::NumberPair& p : *group) {
      // each row has a unit of its own, so it stands in the cell
      const auto show = [&](const std::optional<double>& v, bool sign = false) -> Cell {
        if (!v) return "-";
        Cell cell(units::format_plain(*v, p.kind, system, {.sign = sign}),
                  units::to_unit(*v, p.kind, system));
        if (const std::string unit = units::unit_name_plain(p.kind, system); !unit.empty())
          cell.digits += " " + unit;
        return cell;
      };
      Cell change = "-";
      if (p.first && p.second && p.kind != Kind::Temperature) change = show(*p.second - *p.first, true);
      numbers.rows.push_back({p.unit, p.name, show(p.first), show(p.second), change});
    }
  tables.push_back(std::move(numbers));

  Table findings{"Findings", {words(""), words("code"), words("finding")}, {}, ""};
  for (const document::Finding& f : comparison.gone) findings.rows.push_back({"gone", f.code, f.title});
  for (const document::Finding& f : comparison.come) findings.rows.push_back({"new", f.code, f.title});
  if (!findings.rows.empty()) tables.push_back(std::move(findings));
  return tables;
}

}  // namespace shimwright::cli
