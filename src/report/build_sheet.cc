#include "report/sheets.h"

#include <fmt/core.h>

#include <algorithm>
#include <set>

#include "document/document_phrase.h"
#include "document/document_plots.h"
#include "report/drawings.h"
#include "report/phrases.h"
#include "report/plot.h"

namespace shimwright::report {
namespace {

using units::Kind;
using units::System;

struct BuildWriter {
  Article article;
  System system;
  double width;

  void add(Element element) { article.elements.push_back(std::move(element)); }
  /// The plot of that id, if it is there.
  void plot(const std::vector<document::PlotSpec>& plots, document::PlotId id, double height) {
    if (const document::PlotSpec* found = document::find_plot(plots, id))
      add(Figure{plot_scene(*found, system, {width, height}), found->caption});
  }
  void status(const Outcome& outcome) {
    if (!outcome.ok()) add(Paragraph{document::status_words(outcome), Token::Stop});
  }
};

void add_head(BuildWriter& w, const document::ResultDocument& d) {
  std::string below =
      d.header.revision.empty() ? "Build sheet" : "Build sheet, revision " + d.header.revision;
  if (!d.header.date.empty()) below += ", " + d.header.date;
  if (!d.header.scenario.empty()) below += ". " + d.header.scenario;
  w.add(Title{d.header.title.empty() ? "Build sheet" : d.header.title, below});
  w.status(d.header.outcome);
  if (!document::fit_to_build(d))
    w.add(Caution{"A finding below says stop. Do not build this unit before you have cleared it."});
  const auto& c = d.conditions;
  w.add(Paragraph{fmt::format("Working temperature of the oil {}, filled at {}, altitude {}.",
                              shown(c.oil_temperature, w.system), shown(c.fill_temperature, w.system),
                              document::Phrase{w.system}.altitude(c.altitude.si)),
                  Token::Steel});
  for (const std::string& warning : d.header.warnings) w.add(Paragraph{warning, Token::Steel});
}

void add_findings(BuildWriter& w, const document::ResultDocument& d) {
  bool first = true;
  for (const document::Finding& f : d.findings) {
    if (f.severity == Severity::Note) continue;
    if (first) w.add(Heading{"Before you start"});
    first = false;
    const bool stop = f.severity == Severity::Stop;
    std::string place = f.place.unit;
    if (!f.place.valve.empty()) place += ", " + f.place.valve;
    if (!f.place.stroke.empty()) place += ", " + f.place.stroke;
    w.add(Paragraph{fmt::format("{}{}: {} {}", stop ? "\xE2\x96\xA0 STOP" : "\xE2\x96\xB2 LOOK",
                                place.empty() ? "" : ", " + place, f.title, f.remedy),
                    stop ? Token::Stop : Token::Look});
  }
}

/// How many lie in the drawer, and how many are missing.
std::string in_hand_words(const document::PickLine& line) {
  std::string words = line.in_hand ? fmt::format("{:g}", *line.in_hand) : "";
  if (line.short_by > 0) words += fmt::format("{}{:g} missing", words.empty() ? "" : ", ", line.short_by);
  return words;
}

void add_pick_list(BuildWriter& w, const document::PickList& list) {
  if (list.lines.empty()) return;
  w.add(Heading{"Pick list"});
  Rows rows{{"Part", "For", "Count", "In hand", "Picked"},
            {0.3, 0.38, 0.1, 0.12, 0.1},
            {false, false, true, true, false},
            {}};
  for (const document::PickLine& l : list.lines)
    rows.rows.push_back(
        {l.part, l.where,
         l.volume ? units::format(*l.volume, Kind::Volume, w.system) : fmt::format("{:g}", l.count),
         in_hand_words(l), kTickBox});
  w.add(std::move(rows));
  if (list.total)
    w.add(Paragraph{
        fmt::format("The parts with a price cost {:.2f} in the currency of the shop{}.", *list.total,
                    list.n_without_price ? fmt::format(". {} without a price", list.n_without_price) : ""),
        Token::Steel});
}

double picture_width(const BuildWriter& w) {
  constexpr double kHalfFrom = 400.0;  // narrower than this is a phone: one figure a row [pt]
  return w.width > kHalfFrom ? 0.5 * (w.width - 16.0) : w.width;
}

Figure stack_figure(const BuildWriter& w, const document::StackResult& stack) {
  StackDrawingOptions options{picture_width(w), 190.0, nullptr, nullptr, w.system};
  for (const document::StackShape& shape : stack.shapes)
    if (shape.pressure <= 0) options.bent = &shape;
  std::string caption = capitalised(stack.name) + ": at rest, with the face shim on its seat.";
  if (!stack.outcome.ok()) caption += " " + document::status_words(stack.outcome);
  return {stack_scene(stack, options), caption};
}

std::optional<Figure> picture_of(const BuildWriter& w, const document::UnitResult& unit,
                                 const document::StepPicture& picture) {
  const auto valve = std::ranges::find(unit.valves, picture.valve, &document::ValveResult::place);
  if (valve == unit.valves.end()) return std::nullopt;
  if (!picture.stack) {
    if (!valve->post || valve->post->ledger.empty()) return std::nullopt;
    return Figure{post_scene(*valve->post, w.width, w.system), ""};
  }
  const auto direction =
      std::ranges::find(valve->directions, *picture.stack, &document::DirectionResult::stroke);
  if (direction == valve->directions.end() || !direction->stack || direction->stack->geometry.discs.empty())
    return std::nullopt;
  return stack_figure(w, *direction->stack);
}

/// Pictures that steps of the plan carry.
std::set<document::StepPicture> pictures_in_plan(const document::UnitResult& unit) {
  std::set<document::StepPicture> pictures;
  if (unit.plan)
    for (const document::BuildStep& s : unit.plan->steps)
      if (s.picture) pictures.insert(*s.picture);
  return pictures;
}

std::string spacer_words(const document::PostResult& post) {
  std::string words;
  for (const document::SpacerLine& s : post.spacers)
    if (s.used > 0) words += fmt::format("{}{} \xC3\x97 {}", words.empty() ? "" : ", ", s.used, s.name);
  return words;
}

/// What a shim of another thickness does: why each is measured, and which first.
void add_influence(BuildWriter& w, const document::StackResult& stack) {
  if (!stack.influence || stack.influence->sentences.empty()) return;
  std::string words =
      fmt::format("{}, at {}: ", capitalised(stack.name),
                  units::format(stack.influence->pressure, Kind::PressureDifference, w.system));
  constexpr std::size_t kMost = 2;  // the rest moves the lift less
  for (std::size_t i = 0; i < std::min(kMost, stack.influence->sentences.size()); ++i)
    words += (i > 0 ? " " : "") + stack.influence->sentences[i];
  w.add(Paragraph{words, Token::Steel});
}

/// What the hands need, large.
void add_key_numbers(BuildWriter& w, const document::UnitResult& unit) {
  std::vector<BigNumber> numbers;
  for (const document::ValveResult& valve : unit.valves) {
    if (!valve.post) continue;
    const std::string where = word(valve.place);
    if (const auto& q = valve.post->torque; q && q->refused && q->asked)
      numbers.push_back({where + ": nut torque, REFUSED", shown_in_both(*q->asked)});
    else if (q && q->to_use)
      numbers.push_back(
          {where + (q->asked ? ": nut torque" : ": nut torque (an estimate)"), shown_in_both(*q->to_use)});
    if (const std::string spacers = spacer_words(*valve.post); !spacers.empty())
      numbers.push_back({where + ": spacers", spacers});
  }
  for (const document::FillChamber& c :
       unit.fill ? unit.fill->chambers : std::vector<document::FillChamber>{}) {
    if (!(c.pour > 0)) continue;
    numbers.push_back({"oil, " + word(c.room) + (c.stated ? "" : " (calculated)"),
                       units::format(c.pour, Kind::Volume, w.system)});
  }
  for (const document::ValveResult& valve : unit.valves)
    for (const document::BleedResult& b : valve.bleeds)
      if (b.clicks)
        numbers.push_back({b.name, fmt::format("{} {} out", *b.clicks, *b.clicks == 1 ? "click" : "clicks")});
  if (!numbers.empty()) w.add(BigNumbers{numbers, 3});
}

/// The torque stands large at the head and at its step. Here small: how it was judged and where it is from.
void add_torque(BuildWriter& w, const document::TorqueResult& q) {
  const auto both = [](double si) { return shown_in_both({.si = si, .kind = Kind::Torque}); };
  w.add(Paragraph{"Nut: " + q.verdict + " On the thread: " + word(q.on_the_thread) + ".",
                  q.refused ? Token::Stop : Token::Ink});
  if (!q.torque_source.empty()) w.add(Paragraph{"Torque from: " + q.torque_source, Token::Steel});
  if (!q.estimate || q.derivation.empty()) return;
  w.add(Paragraph{fmt::format("How the program estimates it, from {} to {}: {}", both(q.range_low),
                              both(q.range_high), q.derivation),
                  Token::Steel});
}

void add_post(BuildWriter& w, const document::PostResult& post, bool with_figure) {
  w.add(Heading{capitalised(post.name)});
  if (with_figure && !post.ledger.empty()) w.add(Figure{post_scene(post, w.width, w.system), ""});
  if (!post.spacer_advice.empty()) w.add(Paragraph{post.spacer_advice, Token::Ink});
  for (const document::PostFlag& flag : post.flags)
    w.add(Paragraph{(flag.serious ? "\xE2\x96\xA0 " : "\xE2\x96\xB2 ") + capitalised(flag.what) +
                        (flag.sure ? "." : ", with the worst tolerances."),
                    flag.serious && flag.sure ? Token::Stop : Token::Look});
  if (post.torque) add_torque(w, *post.torque);
  if (post.directions.empty()) return;
  Rows rows{{"Part", "Right way round", "How to tell", "If it is the wrong way round"},
            {0.16, 0.28, 0.28, 0.28},
            {false, false, false, false},
            {}};
  for (const document::DirectionNote& note : post.directions)
    rows.rows.push_back({note.part, note.words, note.how_to_tell, note.if_reversed});
  w.add(std::move(rows));
}

std::optional<StepBox> box_of(const BuildWriter& w, const document::BuildStep& s) {
  if (!s.hold) return std::nullopt;
  if (s.hold->yes_or_no) return StepBox{s.hold->what, "", ""};
  return StepBox{s.hold->what, expected_words(*s.hold, w.system), range_words(*s.hold, w.system)};
}

void add_plan(BuildWriter& w, const document::UnitResult& unit) {
  const document::BuildPlan& plan = *unit.plan;
  w.add(Heading{"Step by step"});
  for (const std::string& one : plan.before) w.add(Paragraph{one, Token::Ink, true});
  std::string section;
  std::set<document::StepPicture> shown_pictures;
  for (const document::BuildStep& s : plan.steps) {
    if (s.section != section) w.add(Heading{s.section});
    section = s.section;
    if (!s.caution.empty()) w.add(Caution{s.caution});
    Step step{s.number, s.text, s.why, s.torque ? shown_in_both(*s.torque) : "", box_of(w, s), {}};
    // a picture once: the second step that needs it finds it above
    if (s.picture && shown_pictures.insert(*s.picture).second) step.picture = picture_of(w, unit, *s.picture);
    w.add(std::move(step));
  }
}

void add_symptoms(BuildWriter& w, const std::vector<document::Symptom>& symptoms) {
  if (symptoms.empty()) return;
  w.add(Heading{"If the acceptance test fails"});
  Rows causes{
      {"Seen", "Likely cause", "Evidence", "Do"}, {0.2, 0.24, 0.28, 0.28}, {false, false, false, false}, {}};
  for (const document::Symptom& s : symptoms)
    for (std::size_t k = 0; k < s.causes.size(); ++k)
      causes.rows.push_back({k == 0 ? (s.observed ? "Seen here: " : "") + s.seen : "",
                             fmt::format("{}. {}", k + 1, s.causes[k].cause), s.causes[k].evidence,
                             s.causes[k].remedy});
  w.add(std::move(causes));
}

/// The hand test in figures: it replaces a bench.
void add_release(BuildWriter& w, const document::ReleaseTest& test) {
  w.add(Heading{"Hand test: push in and let go"});
  Rows rows{{"State", "Stops short by", "After", "Top speed"},
            {0.34, 0.2, 0.16, 0.2},
            {false, true, true, true},
            {}};
  for (const document::ReleaseCase& one : test.cases)
    rows.rows.push_back({capitalised(one.name),
                         one.fully_out ? "fully out" : units::format(one.rest_travel, Kind::Length, w.system),
                         (one.arrived ? "" : "more than ") + units::format(one.time, Kind::Time, w.system),
                         units::format(one.top_speed, Kind::Speed, w.system)});
  w.add(std::move(rows));
  w.add(Paragraph{
      fmt::format("Calculated for a rod pushed in {}, with the oil at the temperature of the bench.",
                  units::format(test.pushed_to, Kind::Length, w.system)),
      Token::Steel});
  w.status(test.outcome);
}

/// Rod out and in, cold and warm: what the gauge and the technician may meet.
void add_reservoir(BuildWriter& w, const document::ReservoirResult& reservoir, double ambient) {
  if (reservoir.states.empty()) return;
  w.add(Heading{"Reservoir at rest"});
  const bool charged = reservoir.states.front().gas_volume.has_value();
  Rows rows{{"Rod", "Oil and gas at", "Gauge", charged ? "Gas left" : "Room left", "Pushes the rod"},
            {0.2, 0.2, 0.2, 0.2, 0.2},
            {false, true, true, true, true},
            {}};
  for (const document::ReservoirState& s : reservoir.states) {
    units::FormatOptions gauge;
    gauge.reference = units::Reference::Gauge;
    const std::string left = charged                ? units::format(*s.gas_volume, Kind::Volume, w.system)
                             : reservoir.room_known ? units::format(s.room_left, Kind::Volume, w.system)
                                                    : "";
    rows.rows.push_back({word(s.rod_at), units::format(s.temperature, Kind::Temperature, w.system),
                         (s.locked ? "more than " : "") +
                             units::format(s.pressure - ambient, Kind::Pressure, w.system, gauge),
                         left, units::format(s.rod_force, Kind::Force, w.system)});
  }
  w.add(std::move(rows));
  std::string words = fmt::format("The rod displaces {} over its travel.",
                                  units::format(reservoir.rod_volume, Kind::Volume, w.system));
  if (reservoir.growth > 0)
    words += fmt::format(" The oil, {}{}, grows by {}.", reservoir.oil_assumed ? "assumed to be " : "",
                         units::format(reservoir.oil_volume, Kind::Volume, w.system),
                         units::format(reservoir.growth, Kind::Volume, w.system));
  if (reservoir.gas_assumed) words += " The gas volume is assumed: the job does not give it.";
  w.add(Paragraph{words + " Slow stroke, gas as warm as the oil. A quick stroke adds more.", Token::Steel});
}

void add_fill(BuildWriter& w, const document::FillResult& fill) {
  w.add(Heading{"Fill, rod " + fill.rod_at});
  Rows rows{{"Chamber", "Pour", "Room", "Growth when warm"},
            {0.34, 0.22, 0.22, 0.22},
            {false, true, true, true},
            {}};
  if (fill.purge_port) {
    rows.heads.push_back("Out in the last stroke");
    rows.shares = {0.28, 0.16, 0.16, 0.2, 0.2};
    rows.numbers.push_back(true);
  }
  const auto volume = [&](double si) { return units::format(si, Kind::Volume, w.system); };
  for (const document::FillChamber& c : fill.chambers) {
    rows.rows.push_back({word(c.room), volume(c.pour), c.volume ? volume(*c.volume) : "", volume(c.growth)});
    if (fill.purge_port) rows.rows.back().push_back(volume(c.purge));
  }
  w.add(std::move(rows));
  if (fill.level)
    w.add(Paragraph{"Oil level below the top of the tube, leg fully in, spring out: " +
                        units::format(*fill.level, Kind::Length, w.system) + ".",
                    Token::Ink});
}

void add_force(BuildWriter& w, const document::UnitResult& unit) {
  w.plot(unit.plots, document::PlotId::ForceOverSpeed, 230);
  Rows rows{{"Shaft speed", "Compression", "Rebound"}, {0.2, 0.25, 0.25}, {true, true, true}, {}};
  for (const document::KeyForce& k : unit.force->key_forces) {
    const auto force = [&](double si, bool air) {
      return units::format(si, Kind::Force, w.system) + (air ? " (air in the oil)" : "");
    };
    rows.rows.push_back({units::format_round(k.speed, Kind::Speed, w.system),
                         force(k.compression, k.compression_cavitated),
                         force(k.rebound, k.rebound_cavitated)});
  }
  w.add(std::move(rows));
  w.status(unit.force->outcome);
  for (const document::CavitationResult& c : unit.force->cavitation)
    if (!c.advice.empty()) w.add(Paragraph{c.advice, Token::Look});
}

std::string target_words(const document::SagResult& sag, System system) {
  if (!sag.low || !sag.high) return "";
  return shown(*sag.low, system) + " to " + shown(*sag.high, system) + (sag.usual_target ? " (usual)" : "");
}

void add_springs(BuildWriter& w, const document::UnitResult& unit) {
  w.plot(unit.plots, document::PlotId::SpringsOverTravel, 190);
  if (unit.springs->sag.empty()) return;
  Rows rows{{"Sag", "Load", "At the unit", "At the wheel", "Share of travel", "Target at the wheel"},
            {0.12, 0.14, 0.15, 0.15, 0.16, 0.28},
            {false, true, true, true, true, true},
            {}};
  for (const document::SagResult& sag : unit.springs->sag) {
    const auto length = [&](double si) { return units::format(si, Kind::Length, w.system); };
    std::string name = word(sag.under);
    if (sag.topped_out) name += " (tops out)";
    if (sag.bottomed) name += " (bottoms out)";
    if (!sag.outcome.ok()) name += " (" + document::status_words(sag.outcome) + ")";
    rows.rows.push_back({name, units::format(sag.load, Kind::Force, w.system), length(sag.travel),
                         length(sag.wheel_travel), units::format(sag.share, Kind::Fraction, w.system),
                         target_words(sag, w.system)});
  }
  w.add(std::move(rows));
}

void add_unit(BuildWriter& w, const document::UnitResult& unit, double ambient) {
  const std::set<document::StepPicture> in_plan = pictures_in_plan(unit);
  w.add(Heading{capitalised(unit.count > 1
                                ? fmt::format("{} (build {} the same way)", unit.name,
                                              unit.count == 2 ? "both" : "all " + std::to_string(unit.count))
                                : unit.name)});
  add_key_numbers(w, unit);

  // the parts, as far as no step draws them
  FigureRow stacks;
  for (const document::ValveResult& valve : unit.valves)
    for (const document::DirectionResult& direction : valve.directions) {
      if (direction.stack && !direction.stack->geometry.discs.empty() &&
          !in_plan.contains({valve.place, direction.stroke}))
        stacks.figures.push_back(stack_figure(w, *direction.stack));
    }
  if (!stacks.figures.empty()) w.add(std::move(stacks));
  for (const document::ValveResult& valve : unit.valves)
    for (const document::DirectionResult& direction : valve.directions)
      if (direction.stack) add_influence(w, *direction.stack);
  for (const document::ValveResult& valve : unit.valves)
    if (valve.post) add_post(w, *valve.post, !in_plan.contains({valve.place, std::nullopt}));

  // the work, then what it should give
  if (unit.plan) add_plan(w, unit);
  if (unit.fill) add_fill(w, *unit.fill);
  if (unit.reservoir) add_reservoir(w, *unit.reservoir, ambient);
  if (unit.fill && unit.fill->release) add_release(w, *unit.fill->release);
  if (unit.fill) add_symptoms(w, unit.fill->symptoms);
  if (!unit.force && !unit.springs) return;
  w.add(Heading{capitalised(unit.name) + ": results of this build"});
  if (unit.force) add_force(w, unit);
  if (unit.springs && !unit.springs->points.empty()) add_springs(w, unit);
}

void add_origin(BuildWriter& w, const document::Header& header) {
  std::string words = "Calculated by Shimwright " + header.program_version;
  if (!header.job_hash.empty()) words += " from job " + header.job_hash;
  w.add(Paragraph{words + fmt::format(". Theory of the stacks: {}.", word(header.theory)), Token::Steel});
}

}  // namespace

Foot foot_of(const document::ResultDocument& document) {
  return {document.header.title.empty() ? "Shimwright" : document.header.title, document.header.revision,
          document.header.date};
}

Article build_sheet(const document::ResultDocument& document, System system, double width) {
  BuildWriter w{{"build-sheet", foot_of(document), 1.0, {}}, system, width};
  add_head(w, document);
  add_findings(w, document);
  add_pick_list(w, document.pick_list);
  if (document.stack && !document.stack->geometry.discs.empty()) w.add(stack_figure(w, *document.stack));
  if (document.stack) add_influence(w, *document.stack);
  for (const document::UnitResult& unit : document.units)
    add_unit(w, unit, document.conditions.ambient_pressure);
  add_origin(w, document.header);
  return std::move(w.article);
}

}  // namespace shimwright::report
