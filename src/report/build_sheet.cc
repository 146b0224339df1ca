#include "report/build_sheet.h"

#include <fmt/format.h>

#include <algorithm>

#include "report/figures.h"
#include "report/phrases.h"
#include "report/post_drawing.h"
#include "report/stack_drawing.h"

namespace shimwright::report {
namespace {

using units::Kind;
using units::System;

struct Writer {
  Article article;
  System system;
  double width;

  void add(Element element) { article.elements.push_back(std::move(element)); }
  void status(const Outcome& outcome) {
    if (!outcome.ok()) add(Paragraph{status_words(outcome), Token::Stop});
  }
};

void add_head(Writer& w, const job::ResultDocument& d) {
  std::string below =
      d.header.revision.empty() ? "Build sheet" : "Build sheet, revision " + d.header.revision;
  if (!d.header.date.empty()) below += ", " + d.header.date;
  if (!d.header.scenario.empty()) below += ". " + d.header.scenario;
  w.add(Title{d.header.title.empty() ? "Build sheet" : d.header.title, below});
  w.status(d.header.outcome);
  for (const std::string& warning : d.header.warnings) w.add(Paragraph{warning, Token::Steel});
}

void add_findings(Writer& w, const job::ResultDocument& d) {
  bool first = true;
  for (const job::Finding& f : d.findings) {
    if (f.severity == Severity::Note) continue;
    if (first) w.add(Heading{"Before you start"});
    first = false;
    const bool stop = f.severity == Severity::Stop;
    std::string place = f.place.unit;
    if (!f.place.valve.empty()) place += ", " + f.place.valve;
    if (!f.place.stroke.empty()) place += ", " + f.place.stroke;
    w.add(Paragraph{fmt::format("{} {}{}: {} {}", stop ? "\xE2\x96\xA0 STOP" : "\xE2\x96\xB2 LOOK", f.code,
                                place.empty() ? "" : " (" + place + ")", f.title, f.remedy),
                    stop ? Token::Stop : Token::Look});
  }
}

/// How many lie in the drawer, and how many are missing.
std::string in_hand_words(const job::PickLine& line) {
  std::string words = line.in_hand ? fmt::format("{:g}", *line.in_hand) : "";
  if (line.short_by > 0) words += fmt::format("{}{:g} short", words.empty() ? "" : ", ", line.short_by);
  return words;
}

void add_pick_list(Writer& w, const job::PickList& list) {
  if (list.lines.empty()) return;
  w.add(Heading{"Pick list"});
  Rows rows{{"Part", "For", "Count", "In hand", "Picked"},
            {0.32, 0.34, 0.12, 0.11, 0.11},
            {false, false, true, true, false},
            {}};
  for (const job::PickLine& l : list.lines)
    rows.rows.push_back({l.part, l.where,
                         l.volume ? units::format(*l.volume, Kind::Volume, w.system) : fmt::format("{:g}", l.count),
                         in_hand_words(l), "\xE2\x96\xA1"});
  w.add(std::move(rows));
  if (list.total)
    w.add(Paragraph{
        fmt::format(
            "Parts with a price come to {:.2f} in the shop's own currency{}.", *list.total,
            list.n_without_price ? fmt::format("; {} lines have no price", list.n_without_price) : ""),
        Token::Steel});
}

void add_stack(Writer& w, const job::DirectionResult& direction) {
  if (!direction.stack) return;
  const job::StackResult& stack = *direction.stack;
  StackDrawingOptions options{w.width, 190.0, nullptr, nullptr, w.system};
  w.add(Figure{stack_scene(stack, options), stack.name + ": the stack at rest, face shim on the seat."});
  w.status(stack.outcome);
}

void add_post(Writer& w, const job::PostResult& post) {
  w.add(Heading{post.name});
  w.add(Figure{post_scene(post, w.width, w.system), "The post with its ledger, lengths to scale."});
  if (!post.spacer_advice.empty()) w.add(Paragraph{post.spacer_advice, Token::Ink});
  for (const job::DirectionNote& note : post.directions)
    w.add(Paragraph{"Right way up: " + note.part + ", " + note.words + ".", Token::Ink});
  if (!post.torque) return;
  const job::TorqueResult& q = *post.torque;
  const auto torque = [&](double si) { return units::format(si, Kind::Torque, w.system); };
  BigNumbers big;
  if (q.asked)
    big.numbers.push_back({q.refused ? "torque asked, REFUSED" : "nut torque", shown_in_both(*q.asked)});
  big.numbers.push_back(
      {q.estimate ? "range (an estimate)" : "range", torque(q.range_low) + " to " + torque(q.range_high)});
  big.numbers.push_back({"on the thread", q.on_the_thread});
  w.add(std::move(big));
  w.add(Paragraph{q.verdict, q.refused ? Token::Stop : Token::Ink});
  if (q.estimate && !q.derivation.empty()) w.add(Paragraph{"Estimate: " + q.derivation, Token::Steel});
}

void add_plan(Writer& w, const job::BuildPlan& plan) {
  w.add(Heading{"The work, step by step"});
  for (const std::string& one : plan.before) w.add(Paragraph{one, Token::Ink});
  std::string section;
  for (const job::BuildStep& s : plan.steps) {
    if (s.section != section) w.add(Heading{s.section});
    section = s.section;
    if (!s.caution.empty()) w.add(Caution{s.caution});
    Step step{s.number, s.text, s.why, s.torque ? shown_in_both(*s.torque) : "", {}};
    if (s.hold) {
      const bool measured = s.hold->low || s.hold->high;
      step.box = StepBox{s.hold->what, measured ? shown(s.hold->expected, w.system) : "",
                         range_words(*s.hold, w.system)};
    }
    w.add(std::move(step));
  }
}

void add_fill(Writer& w, const job::FillResult& fill) {
  w.add(Heading{"Fill, rod " + fill.rod_at});
  Rows rows{{"Chamber", "Pour", "Room for", "Growth to working heat", "Last stroke purges"},
            {0.28, 0.16, 0.16, 0.2, 0.2},
            {false, true, true, true, true},
            {}};
  const auto volume = [&](double si) { return units::format(si, Kind::Volume, w.system); };
  for (const job::FillChamber& c : fill.chambers)
    rows.rows.push_back({c.name, c.stated ? shown(*c.stated, w.system) : "",
                         c.volume ? volume(*c.volume) : "", volume(c.growth), volume(c.purge)});
  w.add(std::move(rows));
  if (fill.symptoms.empty()) return;
  w.add(Heading{"When the acceptance test fails"});
  Rows causes{
      {"Seen", "Likely cause", "Evidence", "Do"}, {0.2, 0.24, 0.28, 0.28}, {false, false, false, false}, {}};
  for (const job::Symptom& s : fill.symptoms)
    for (std::size_t k = 0; k < s.causes.size(); ++k)
      causes.rows.push_back({k == 0 ? s.seen : "", fmt::format("{}. {}", k + 1, s.causes[k].cause),
                             s.causes[k].evidence, s.causes[k].remedy});
  w.add(std::move(causes));
}

void add_unit(Writer& w, const job::UnitResult& unit) {
  w.add(Heading{unit.count > 1 ? fmt::format("{}, {} alike", unit.name, unit.count) : unit.name});
  if (unit.force) {
    w.add(Figure{plot_scene([&] {
                   Plot plot = force_plot(unit, w.system);
                   plot.width = w.width;
                   plot.height = 250;
                   return plot;
                 }()),
                 force_plot(unit, w.system).caption});
    Rows rows{{"Shaft speed", "Compression", "Rebound"}, {0.34, 0.33, 0.33}, {true, true, true}, {}};
    for (const job::KeyForce& k : unit.force->key_forces) {
      const auto force = [&](double si, bool air) {
        return units::format(si, Kind::Force, w.system) + (air ? " (draws air)" : "");
      };
      rows.rows.push_back({units::format(k.speed, Kind::Speed, w.system),
                           force(k.compression, k.compression_cavitated),
                           force(k.rebound, k.rebound_cavitated)});
    }
    w.add(std::move(rows));
  }
  for (const job::ValveResult& valve : unit.valves) {
    for (const job::DirectionResult& direction : valve.directions) add_stack(w, direction);
    if (valve.post) add_post(w, *valve.post);
  }
  if (unit.plan) add_plan(w, *unit.plan);
  if (unit.fill) add_fill(w, *unit.fill);
}

}  // namespace

Foot foot_of(const job::ResultDocument& document) {
  return {document.header.title.empty() ? "Shimwright" : document.header.title, document.header.revision,
          document.header.date};
}

Article build_sheet(const job::ResultDocument& document, System system, double width) {
  Writer w{{"build-sheet", foot_of(document), {}}, system, width};
  add_head(w, document);
  add_findings(w, document);
  add_pick_list(w, document.pick_list);
  for (const job::UnitResult& unit : document.units) add_unit(w, unit);
  return std::move(w.article);
}

}  // namespace shimwright::report
