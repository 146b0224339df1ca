#include "judge/key_figures.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <string_view>
#include <utility>

#include "document/document_phrase.h"
#include "units/format.h"

namespace shimwright::judge {
namespace {

using document::KeyFigure;
using units::Kind;

constexpr double kNoLift = 1e-10;      // the width of an atom: less is what contact is solved to [m]
constexpr std::size_t kMostLifts = 4;  // of a lone stack; more are in its table

/// The findings on one unit, or on the whole document when it has a lone stack only.
struct Findings {
  const std::vector<document::Finding>& all;
  const std::string* unit = nullptr;

  /// The gravest with one of these codes; null: nothing is said against it. Findings stand stop first.
  template <typename Fits>
  const document::Finding* gravest(std::initializer_list<std::string_view> codes, Fits&& fits) const {
    const auto found = std::ranges::find_if(all, [&](const document::Finding& one) {
      return one.severity != Severity::Note && (unit == nullptr || one.place.unit == *unit) &&
             std::ranges::find(codes, one.code) != codes.end() && fits(one.place);
    });
    return found == all.end() ? nullptr : &*found;
  }
};

void judge_figure(KeyFigure& figure, const document::Finding* finding) {
  if (finding == nullptr) return;
  figure.verdict = finding->severity;
  figure.reason = finding->title;
}

const document::Finding* cavitation_finding(const Findings& findings, Stroke stroke) {
  const std::string_view runs_dry = stroke == Stroke::Compression ? "F201" : "F202";
  return findings.gravest({runs_dry, "F203"}, [&](const document::Place& place) {
    return place.stroke.empty() || place.stroke == word(stroke);
  });
}

// forces

KeyFigure force_figure(const document::KeyForce& force, Stroke stroke, const Findings& findings,
                       const std::string& pointer) {
  const bool in = stroke == Stroke::Compression;
  KeyFigure figure;
  figure.key = fmt::format("{} at {}", word(stroke), force.speed);
  figure.label = figure.short_label = word(stroke);
  figure.value = document::computed(in ? force.compression : force.rebound, Kind::Force);
  figure.pointer = pointer + "/" + word(stroke);
  if (in ? force.compression_cavitated : force.rebound_cavitated) {
    figure.reason = "The oil releases air at this speed.";
    judge_figure(figure, cavitation_finding(findings, stroke));
    figure.verdict = Severity::Stop;
    figure.where = "cavitation";
  }
  return figure;
}

KeyFigure cavitation_figure(const document::CavitationResult& result, const Findings& findings,
                            std::string pointer) {
  KeyFigure figure;
  figure.key = "cavitation " + word(result.stroke);
  figure.label = "Margin to cavitation, " + word(result.stroke);
  figure.short_label = result.stroke == Stroke::Compression ? "cav. in" : "cav. out";
  figure.value = document::computed(result.margin_at_working_speed, Kind::PressureDifference);
  figure.where = result.chamber;
  figure.pointer = std::move(pointer);
  judge_figure(figure, cavitation_finding(findings, result.stroke));
  return figure;
}

void add_forces(const document::ForceResult& force, const Findings& findings, const std::string& pointer,
                document::KeyFigures& figures) {
  for (std::size_t i = 0; i < force.key_forces.size(); ++i) {
    const document::KeyForce& one = force.key_forces[i];
    const std::string row = fmt::format("{}/key_forces/{}", pointer, i);
    figures.forces.push_back({one.speed, force_figure(one, Stroke::Compression, findings, row),
                              force_figure(one, Stroke::Rebound, findings, row)});
  }
  for (std::size_t i = 0; i < force.cavitation.size(); ++i) {
    figures.margins.push_back(cavitation_figure(
        force.cavitation[i], findings, fmt::format("{}/cavitation/{}/margin_at_working_speed", pointer, i)));
  }
}

// shims and threads

/// The worst shim of one stack: its margin, or its stress where no strength is stated.
std::vector<KeyFigure> shim_figure(const document::StackResult& stack, const std::string& place,
                                   const Findings& findings, const std::string& pointer) {
  KeyFigure figure;
  figure.key = figure.short_label = "worst shim";
  int disc = stack.worst_disc;
  if (stack.fatigue_margin || stack.yield_margin) {
    const bool fatigue = stack.fatigue_margin.has_value();
    figure.label = fatigue ? "Worst shim, margin to fatigue" : "Worst shim, margin to yield";
    figure.value = document::computed(fatigue ? *stack.fatigue_margin : *stack.yield_margin, Kind::Number);
    figure.pointer = pointer + (fatigue ? "/fatigue_margin" : "/yield_margin");
    judge_figure(figure,
                 findings.gravest({"F301", "F302", "F303"}, [](const document::Place&) { return true; }));
  } else if (!stack.points.empty()) {
    const document::StackPoint& hardest = stack.points.back();
    figure.label = "Worst shim, stress";
    figure.value = document::computed(hardest.highest_stress, Kind::Stress);
    figure.pressure = hardest.pressure;
    figure.pointer = fmt::format("{}/points/{}/highest_stress", pointer, stack.points.size() - 1);
    disc = hardest.worst_disc;
  } else {
    return {};
  }
  figure.where = fmt::format("{}{}shim {}", place, place.empty() ? "" : ", ", disc);
  return {figure};
}

KeyFigure thread_figure(const document::ThreadResult& thread, const std::string& valve,
                        const Findings& findings, std::string pointer) {
  KeyFigure figure;
  figure.key = "engaged thread";
  figure.label = "Turns of thread engaged";
  figure.short_label = "thread";
  figure.value = document::computed(thread.engaged_turns, Kind::Number);
  figure.where = valve + ", of " + units::format(thread.nut_turns, Kind::Number, units::System::Metric);
  figure.pointer = std::move(pointer);
  judge_figure(figure, findings.gravest({"F101", "F102"},
                                        [&](const document::Place& place) { return place.valve == valve; }));
  return figure;
}

/// The worst of several places: the least margin, where there are margins, else the highest stress.
void add_worst(std::vector<KeyFigure> candidates, document::KeyFigures& figures) {
  const auto is_stress = [](const KeyFigure& one) { return one.value.kind == Kind::Stress; };
  if (!std::ranges::all_of(candidates, is_stress)) std::erase_if(candidates, is_stress);
  if (candidates.empty()) return;
  const auto worse = [&](const KeyFigure& a, const KeyFigure& b) {
    return is_stress(a) ? a.value.si > b.value.si : a.value.si < b.value.si;
  };
  figures.margins.push_back(*std::ranges::min_element(candidates, worse));
}

void add_valves(const std::vector<document::ValveResult>& valves, const Findings& findings,
                const std::string& pointer, document::KeyFigures& figures) {
  std::vector<KeyFigure> shims;
  std::vector<KeyFigure> threads;
  for (std::size_t v = 0; v < valves.size(); ++v) {
    const document::ValveResult& valve = valves[v];
    const std::string at = fmt::format("{}/valves/{}", pointer, v);
    for (std::size_t d = 0; d < valve.directions.size(); ++d) {
      const document::DirectionResult& direction = valve.directions[d];
      if (!direction.stack) continue;
      const std::string place = word(valve.place) + ", " + word(direction.stroke);
      const auto found =
          shim_figure(*direction.stack, place, findings, fmt::format("{}/directions/{}/stack", at, d));
      shims.insert(shims.end(), found.begin(), found.end());
    }
    if (valve.post && valve.post->thread) {
      threads.push_back(
          thread_figure(*valve.post->thread, word(valve.place), findings, at + "/post/thread/engaged_turns"));
    }
  }
  add_worst(std::move(shims), figures);
  add_worst(std::move(threads), figures);
}

// a stack by itself

document::KeyFigures lone_stack_figures(const document::StackResult& stack, const Findings& findings) {
  document::KeyFigures figures;
  for (std::size_t i = 0; i < std::min(stack.points.size(), kMostLifts); ++i) {
    const document::StackPoint& point = stack.points[i];
    const bool lifts = std::abs(point.lift_at_seat) >= kNoLift;
    KeyFigure figure;
    figure.key = fmt::format("lift {}", i);
    figure.label = "Lift at the seat";
    figure.short_label = "lift";
    figure.value = document::computed(lifts ? point.lift_at_seat : 0.0, Kind::Length);
    figure.pressure = point.pressure;
    figure.pointer = fmt::format("/stack/points/{}/lift_at_seat", i);
    figures.margins.push_back(std::move(figure));
  }
  add_worst(shim_figure(stack, "", findings, "/stack"), figures);
  return figures;
}

}  // namespace

void add_key_figures(document::ResultDocument& document) {
  for (std::size_t i = 0; i < document.units.size(); ++i) {
    document::UnitResult& unit = document.units[i];
    const Findings findings{document.findings, &unit.name};
    const std::string pointer = fmt::format("/units/{}", i);
    document::KeyFigures& figures = unit.key_figures.emplace();
    if (unit.force) add_forces(*unit.force, findings, pointer + "/force", figures);
    add_valves(unit.valves, findings, pointer, figures);
  }
  if (document.stack) document.key_figures = lone_stack_figures(*document.stack, {document.findings});
}

}  // namespace shimwright::judge
