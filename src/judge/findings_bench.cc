
#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "file/judged_speeds.h"
#include "judge/findings.h"
#include "judge/pressure_limits.h"

namespace shimwright::judge {
namespace {

constexpr double kLockPressure = 20e6;  // F704: above it, look [Pa] (common practice, no source)
constexpr double kFadeTold = 0.01;      // F705
constexpr double kWarmed = 0.5;         // F705: less is no heat that thins an oil by a percent [K]
constexpr double kFadeMost = 0.10;      // F705 (common practice, no source)
constexpr double kLagTold = 0.5e-3;     // F706: travel lost at a turn that a plot shows [m]
constexpr double kUnsettled = 0.01;     // F708
constexpr double kHottest = 473.15;     // F602: as hot as a job may say (common practice, no source) [K]
constexpr double kEnergyError = 1e-4;   // F709
constexpr double kTwoErrors = 2.0;      // F706: standard errors to either side, nineteen times in twenty
constexpr double kAirTold = 0.1e-6;     // F706: a loop is not read finer [m^3]

struct Judge {
  const file::JobSpec& job;
  const document::BenchDocument& document;
  document::Phrase phrase;
  std::vector<document::Finding> findings;

  document::Finding begin(const char* code, Severity severity, const document::BenchUnit& unit) const {
    document::Finding finding;
    finding.code = code;
    finding.severity = severity;
    const auto& codes = finding_codes();
    const auto known = std::ranges::find(codes, std::string_view(code),
                                         [](const FindingCode& one) { return std::string_view(one.code); });
    finding.rule = known->rule;
    finding.source = known->source;
    finding.station = known->station;
    finding.place.unit = unit.name;
    if (job.bench && job.bench->origin.file >= 0) {
      const Diagnostic at = file::diagnostic_at(job, job.bench->origin, "");
      finding.place.file = at.file;
      finding.place.line = at.line;
      finding.place.path = "bench";
    }
    return finding;
  }

  double working_speed(const document::BenchUnit& unit, bool compression) const {
    const auto spec =
        std::ranges::find(job.units, unit.name, [](const file::UnitSpec& one) { return one.name.value; });
    const file::UnitKind kind =
        spec != job.units.end() ? spec->kind.value_or(file::UnitKind::ForkLeg) : file::UnitKind::ForkLeg;
    const file::JudgedSpeeds judged = file::judged_speeds(kind);
    return compression ? judged.working_compression : judged.working_rebound;
  }
};

/// The cycle for which a figure is largest, over all runs of a unit.
struct Worst {
  const document::BenchRun* run = nullptr;
  const document::BenchCycle* cycle = nullptr;
  double value = 0.0;
};

template <typename Figure>
Worst worst_cycle(const document::BenchUnit& unit, Figure&& figure) {
  Worst worst;
  for (const document::BenchRun& run : unit.runs)
    for (const document::BenchCycle& cycle : run.cycles) {
      const double value = figure(cycle);
      if (worst.run == nullptr || value > worst.value) worst = {&run, &cycle, value};
    }
  return worst;
}

/// What keeps oil in a chamber: the rod chamber runs short when the foot valve holds back too little oil for
/// the mid-valve, the compression chamber when the refill is too tight.
std::string keeps_full(document::OilChamber chamber) {
  switch (chamber) {
    case document::OilChamber::Rod:
      return "Make the foot valve stiffer in compression or the mid-valve softer, or raise the reservoir "
             "pressure.";
    case document::OilChamber::Compression:
      return "Open the refill side of the foot valve, or raise the reservoir pressure.";
    case document::OilChamber::Reservoir:
      break;
  }
  return "Raise the reservoir pressure.";
}

void below_release(Judge& judge, const document::BenchUnit& unit) {
  constexpr double kReached = 1.02;  // a chamber held at its release pressure ends a little above or below it
  const Worst gas = worst_cycle(unit, [](const document::BenchCycle& cycle) { return cycle.released_air; });
  const Worst low =
      worst_cycle(unit, [](const document::BenchCycle& cycle) { return -cycle.lowest_pressure; });
  if (low.run == nullptr || -low.value > kReached * unit.release_pressure) return;
  // the slowest run in which it happens decides how bad that is
  const document::BenchRun* first = low.run;
  for (const document::BenchRun& run : unit.runs)
    for (const document::BenchCycle& cycle : run.cycles)
      if (cycle.lowest_pressure <= kReached * unit.release_pressure && run.top_speed < first->top_speed)
        first = &run;
  const document::BenchCycle& cycle = *low.cycle;
  const bool compression = cycle.lowest_speed > 0.0;
  const bool stop = first->top_speed <= judge.working_speed(unit, compression);
  document::Finding finding = judge.begin("F701", stop ? Severity::Stop : Severity::Look, unit);
  finding.title = fmt::format(
      "In \"{}\" the {} drops to the pressure at which air leaves the oil: at {} of travel and {} {}. {} of "
      "gas come out.",
      low.run->name, word(cycle.lowest_chamber), judge.phrase.length(cycle.lowest_travel),
      judge.phrase.speed(std::abs(cycle.lowest_speed)), compression ? "in compression" : "in rebound",
      judge.phrase.volume(gas.value));
  finding.numbers = {
      {"lowest pressure", document::computed_absolute(cycle.lowest_pressure)},
      {"release pressure", document::computed_absolute(unit.release_pressure)},
      {"gas at one atmosphere", document::computed(gas.value, units::Kind::Volume)},
      {"first seen at a top speed of", document::computed(first->top_speed, units::Kind::Speed)}};
  finding.remedy = keeps_full(cycle.lowest_chamber);
  judge.findings.push_back(std::move(finding));
}

void reservoir_to_raise(Judge& judge, const document::BenchUnit& unit) {
  if (!unit.reservoir) return;
  const document::ReservoirAdvice& need = *unit.reservoir;
  document::Finding finding = judge.begin("F707", Severity::Look, unit);
  finding.numbers = {{"lowest pressure", document::computed_absolute(need.lowest)},
                     {"margin wanted", document::computed(need.margin, units::Kind::PressureDifference)}};
  if (!need.outcome.ok()) {
    finding.title = fmt::format("No reservoir pressure keeps all chambers full in \"{}\".", need.run);
    finding.remedy = "Change the valves: no pressure is enough.";
  } else {
    finding.title = fmt::format("\"{}\" needs {} more pressure in the reservoir.", need.run,
                                judge.phrase.drop(need.raise_by));
    finding.numbers.push_back(
        {"raise by", document::computed(need.raise_by, units::Kind::PressureDifference)});
    finding.numbers.push_back({"new reservoir pressure", document::computed_absolute(need.pressure)});
    const double gauge = need.pressure - judge.document.conditions.ambient_pressure;
    finding.remedy =
        gauge <= kReservoirPressure.look
            ? fmt::format("Set it to {} with the rod fully out, if the seals are made for that pressure.",
                          judge.phrase.gauge(gauge))
            : fmt::format("Do not set it so high: more than {} is not usual. Change the valves instead.",
                          judge.phrase.gauge(kReservoirPressure.look));
  }
  judge.findings.push_back(std::move(finding));
}

void free_piston(Judge& judge, const document::BenchUnit& unit) {
  if (unit.piston_travel_out <= 0.0) return;
  const Worst out =
      worst_cycle(unit, [](const document::BenchCycle& cycle) { return cycle.piston_travel_most; });
  const Worst in =
      worst_cycle(unit, [](const document::BenchCycle& cycle) { return -cycle.piston_travel_least; });
  const auto add_stop = [&](Severity severity, const Worst& worst, const char* stop, const char* remedy) {
    document::Finding finding = judge.begin("F702", severity, unit);
    finding.title = fmt::format("The free piston hits its {} stop in \"{}\".", stop, worst.run->name);
    finding.numbers = {
        {"travel of the free piston", document::computed(std::abs(worst.value), units::Kind::Length)}};
    finding.remedy = remedy;
    judge.findings.push_back(std::move(finding));
  };
  if (out.run != nullptr && out.value >= unit.piston_travel_out)
    add_stop(
        Severity::Stop, out, "outer",
        "Take oil out, or fit a longer reservoir: there is no room for the oil that the rod pushes out.");
  if (in.run != nullptr && in.value >= unit.piston_travel_in)
    add_stop(Severity::Look, in, "inner",
             "Fill and bleed again: oil is missing, and air or a void is in its place.");
  const Worst lost = worst_cycle(unit, [](const document::BenchCycle& cycle) { return cycle.oil_lost; });
  if (lost.run == nullptr || lost.value <= 0.0) return;
  document::Finding finding = judge.begin("F703", Severity::Stop, unit);
  finding.title = fmt::format("The free piston uncovers its port in \"{}\": {} of oil escape in one cycle.",
                              lost.run->name, judge.phrase.volume(lost.value));
  finding.numbers = {{"oil lost in a cycle", document::computed(lost.value, units::Kind::Volume)}};
  finding.remedy = "Take the extra oil out before you close the unit. If you do not, the unit pushes it out.";
  judge.findings.push_back(std::move(finding));
}

void oil_lock(Judge& judge, const document::BenchUnit& unit) {
  const Worst worst =
      worst_cycle(unit, [](const document::BenchCycle& cycle) { return cycle.lock_pressure; });
  const double atmosphere = judge.document.conditions.ambient_pressure;
  if (worst.run == nullptr || worst.value <= 1.5 * atmosphere) return;
  document::Finding finding =
      judge.begin("F704", worst.value > kLockPressure ? Severity::Look : Severity::Note, unit);
  finding.title = fmt::format("The pressure in the oil lock rises to {} in \"{}\".",
                              judge.phrase.absolute(worst.value), worst.run->name);
  finding.numbers = {{"peak pressure", document::computed_absolute(worst.value)},
                     {"largest force of that cycle",
                      document::computed(worst.cycle->compression_force, units::Kind::Force)}};
  finding.remedy = worst.value > kLockPressure ? "Make the gap of the oil lock larger, or let it begin "
                                                 "earlier: it then absorbs the same energy over more travel."
                                               : "Do nothing: the oil lock does its job.";
  judge.findings.push_back(std::move(finding));
}

/// Why a damper takes less from cycle to cycle.
enum class Fading { NotAtAll, Warm, Air, Unsettled };

Fading fading_of(const document::BenchRun& run) {
  if (run.cycles.size() <= 2 || run.fade < kFadeTold) return Fading::NotAtAll;
  const auto lets_air_out = [](const document::BenchCycle& cycle) { return cycle.released_air > 0.0; };
  if (std::ranges::any_of(run.cycles, lets_air_out)) return Fading::Air;
  const double warmed = run.cycles.back().temperature_end - run.cycles.front().temperature_end;
  return warmed > kWarmed ? Fading::Warm : Fading::Unsettled;
}

void fades(Judge& judge, const document::BenchUnit& unit) {
  const document::BenchRun* worst = nullptr;
  for (const document::BenchRun& run : unit.runs) {
    const Fading fading = fading_of(run);
    if ((fading == Fading::Warm || fading == Fading::Air) && (worst == nullptr || run.fade > worst->fade))
      worst = &run;
  }
  if (worst == nullptr) return;
  const bool air = fading_of(*worst) == Fading::Air;
  document::Finding finding =
      judge.begin("F705", worst->fade > kFadeMost ? Severity::Look : Severity::Note, unit);
  finding.title =
      fmt::format("After {} cycles of \"{}\" the damper absorbs {} less energy than in the second cycle.",
                  worst->cycles.size(), worst->name, judge.phrase(worst->fade, units::Kind::Fraction));
  finding.numbers = {
      {"fade", document::computed(worst->fade, units::Kind::Fraction)},
      {"oil at the end", document::computed(worst->cycles.back().temperature_end, units::Kind::Temperature)}};
  if (air) finding.title += " Air comes out of the oil and is not back when the next stroke begins.";
  finding.remedy =
      air ? "Keep the air in the oil first, as F701 says. Then look at the loss again."
          : "Use an oil that thins less when warm (a higher viscosity index), or a unit with more "
            "oil and metal.";
  judge.findings.push_back(std::move(finding));
}

/// Travel that the turn loses beyond that of a unit without air.
double lost_at(const document::TurnLag& turn) {
  return turn.clean ? turn.travel - *turn.clean : 0.0;
}

void air_in_the_loop(Judge& judge, const document::BenchUnit& unit) {
  const document::BenchRun* worst = nullptr;
  const document::TurnLag* turn = nullptr;
  const document::BenchRun* read = nullptr;
  for (const document::BenchRun& run : unit.runs) {
    for (const document::TurnLag& one : run.turns)
      if (lost_at(one) > kLagTold && (turn == nullptr || lost_at(one) > lost_at(*turn))) {
        turn = &one;
        worst = &run;
      }
    if (run.air && run.air->significant && run.air->air > kAirTold && (read == nullptr || run.measured))
      read = &run;
  }
  if (turn == nullptr && (read == nullptr || !read->measured)) return;
  document::Finding finding = judge.begin("F706", Severity::Look, unit);
  if (turn != nullptr) {
    finding.title = fmt::format(
        "After the turn to {} in \"{}\" the rod moves {} before half of the force is there. Without air it "
        "moves {}.",
        word(turn->stroke), worst->name, judge.phrase.length(turn->travel),
        judge.phrase.length(*turn->clean));
    finding.numbers = {{"travel after the turn", document::computed(turn->travel, units::Kind::Length)},
                       {"without air", document::computed(*turn->clean, units::Kind::Length)}};
  } else {
    finding.title =
        fmt::format("The measured loop of \"{}\" fits best with {} of air in the {}, {} either way.",
                    read->name, judge.phrase.volume(read->air->air), word(read->air->chamber),
                    judge.phrase.volume(kTwoErrors * read->air->uncertainty));
  }
  if (read != nullptr) {
    finding.title += turn != nullptr
                         ? fmt::format(" The loop alone suggests {} of air in the {}.",
                                       judge.phrase.volume(read->air->air), word(read->air->chamber))
                         : "";
    finding.numbers.push_back(
        {"air that the loop suggests", document::computed(read->air->air, units::Kind::Volume)});
    finding.numbers.push_back(
        {"standard error", document::computed(read->air->uncertainty, units::Kind::Volume)});
    if (read->measured && read->air->stiffness)
      finding.numbers.push_back({read->air->stiffness_fitted ? "stiffness of the bench, from the loop"
                                                             : "stiffness of the bench, as stated",
                                 document::computed(*read->air->stiffness, units::Kind::SpringRate)});
    finding.numbers.push_back(
        {"misfit with air", document::computed(read->air->misfit, units::Kind::Fraction)});
    finding.numbers.push_back(
        {"misfit without air", document::computed(read->air->misfit_clean, units::Kind::Fraction)});
  }
  finding.remedy = "Bleed again before you take anything apart. Then run the same loop once more.";
  judge.findings.push_back(std::move(finding));
}

double hottest_of(const document::BenchRun& run) {
  double hottest = 0.0;
  for (const document::BenchCycle& cycle : run.cycles) hottest = std::max(hottest, cycle.temperature_end);
  return hottest;
}

void numbers_of_runs(Judge& judge, const document::BenchUnit& unit) {
  const document::BenchRun* unsettled = nullptr;
  const document::BenchRun* unbalanced = nullptr;
  const auto error_of = [](const document::BenchRun& run) {
    return run.cycles.empty() ? 0.0 : run.cycles.back().energy_error;
  };
  for (const document::BenchRun& run : unit.runs) {
    if (!run.finished) continue;
    if (const double hottest = hottest_of(run); hottest > kHottest) {
      document::Finding finding = judge.begin("F602", Severity::Stop, unit);
      finding.title = fmt::format("The oil reaches {} in \"{}\": no oil and no seal works there.",
                                  judge.phrase.temperature(hottest), run.name);
      finding.numbers = {{"hottest oil", document::computed(hottest, units::Kind::Temperature)},
                         {"highest", document::computed(kHottest, units::Kind::Temperature)}};
      finding.remedy = "Run fewer or slower cycles, or say how the unit cools.";
      finding.in_file = "Write `cooling_time` and `metal_mass` under the motion of the unit.";
      judge.findings.push_back(std::move(finding));
      continue;
    }
    if (!run.outcome.ok()) {
      const bool stalled = run.outcome.status == Status::Stalled;
      document::Finding finding =
          judge.begin(stalled ? "F601" : "F602", stalled ? Severity::Stop : Severity::Look, unit);
      finding.title = fmt::format("\"{}\": {}.", run.name, run.outcome.note);
      finding.remedy = stalled ? "Check the drive and the values of the motion table."
                               : "Treat the run as an estimate where it is out of range.";
      judge.findings.push_back(std::move(finding));
      continue;
    }
    const bool swings = run.frequency > 0.0 && run.cycles.size() > 1;
    // a damper that warms up never settles, and F705 says so
    if (swings && run.settled > kUnsettled && fading_of(run) != Fading::Warm &&
        (unsettled == nullptr || run.settled > unsettled->settled))
      unsettled = &run;
    if (error_of(run) > kEnergyError && (unbalanced == nullptr || error_of(run) > error_of(*unbalanced)))
      unbalanced = &run;
  }
  if (unsettled != nullptr) {
    document::Finding finding = judge.begin("F708", Severity::Look, unit);
    finding.title = fmt::format("The loop of \"{}\" still changes by {} from one cycle to the next.",
                                unsettled->name, judge.phrase(unsettled->settled, units::Kind::Fraction));
    finding.numbers = {{"change of the area", document::computed(unsettled->settled, units::Kind::Fraction)}};
    finding.remedy = "Run more cycles.";
    judge.findings.push_back(std::move(finding));
  }
  if (unbalanced != nullptr) {
    document::Finding finding = judge.begin("F709", Severity::Look, unit);
    finding.title = fmt::format("Work, heat and stored energy do not add up in \"{}\".", unbalanced->name);
    finding.numbers = {{"missing share of the work", document::counted_value(error_of(*unbalanced), "")}};
    finding.remedy = "Set a finer tolerance.";
    judge.findings.push_back(std::move(finding));
  }
}

void stopped_early(Judge& judge) {
  if (!judge.document.stopped || judge.document.units.empty()) return;
  document::Finding finding = judge.begin("F710", Severity::Look, judge.document.units.front());
  finding.place.unit.clear();
  const bool after = judge.document.n_finished == judge.document.n_runs;
  finding.title = after
                      ? "The bench was stopped after its runs: the results from these runs are not complete."
                      : fmt::format("The bench was stopped: {} of {} runs are finished.",
                                    judge.document.n_finished, judge.document.n_runs);
  finding.numbers = {{"finished", document::counted_value(judge.document.n_finished, "runs")},
                     {"planned", document::counted_value(judge.document.n_runs, "runs")}};
  finding.remedy = "Run it again to the end to get the missing results.";
  judge.findings.push_back(std::move(finding));
}

}  // namespace

std::vector<document::Finding> judge_bench(const file::JobSpec& job, const document::BenchDocument& document,
                                           const document::Phrase& phrase) {
  Judge judge{job, document, phrase, {}};
  for (const document::BenchUnit& unit : document.units) {
    below_release(judge, unit);
    reservoir_to_raise(judge, unit);
    free_piston(judge, unit);
    oil_lock(judge, unit);
    fades(judge, unit);
    air_in_the_loop(judge, unit);
    numbers_of_runs(judge, unit);
  }
  stopped_early(judge);
  std::ranges::stable_sort(judge.findings, [](const document::Finding& a, const document::Finding& b) {
    return std::pair(-static_cast<int>(a.severity), a.code) <
           std::pair(-static_cast<int>(b.severity), b.code);
  });
  return std::move(judge.findings);
}

}  // namespace shimwright::judge
