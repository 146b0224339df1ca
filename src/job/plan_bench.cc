#include "job/plan_bench.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "file/load_codes.h"
#include "resolve/resolve_damper.h"

namespace shimwright::job {
namespace {

constexpr int kCycles = 4;
constexpr int kSamples = 240;
constexpr int kMostSamples = 5000;
constexpr double kOwnStroke = 1.0 / 6.0;  // of the travel, when the job names no drive

struct Planner {
  const file::JobSpec& job;
  const file::UnitSpec& unit;
  const document::Phrase& phrase;
  Diagnostics& diagnostics;
  std::vector<PlannedRun> runs;

  int n_cycles() const { return job.bench ? job.bench->cycles.value_or(kCycles) : kCycles; }
  int n_samples() const { return job.bench ? job.bench->samples.value_or(kSamples) : kSamples; }
  std::string frequency_words(double frequency) const { return phrase(frequency, units::Kind::Frequency); }

  void add_swing(const file::DriveSpec* spec, file::DriveKind kind, double stroke, double frequency);
  void add_swings(const file::DriveSpec& spec);
  void add_step(const file::DriveSpec& spec);
  void add_record(const file::DriveSpec& spec);
};

void Planner::add_swing(const file::DriveSpec* spec, file::DriveKind kind, double stroke, double frequency) {
  PlannedRun run;
  run.kind = kind == file::DriveKind::Sine ? document::RunKind::Sine : document::RunKind::Triangle;
  run.stroke = stroke;
  run.middle = spec != nullptr ? spec->middle.value_or(0.5 * unit.travel.si) : 0.5 * unit.travel.si;
  run.frequency = frequency;
  run.top_speed = file::top_speed_factor(kind) * stroke * frequency;
  run.n_cycles = n_cycles();
  run.samples = n_samples();
  run.spec = spec;
  run.name = fmt::format("{} {}, {}, {}", word(run.kind), phrase.length(stroke), frequency_words(frequency),
                         phrase.speed(run.top_speed));
  constexpr double kRounding = 1e-9;
  if (run.middle - 0.5 * stroke < -kRounding || run.middle + 0.5 * stroke > unit.travel.si + kRounding) {
    const file::Origin& origin = spec != nullptr ? spec->origin : unit.origin;
    Diagnostic diagnostic =
        file::diagnostic_at(job, origin, std::string(file::facts_of(file::Code::DriveBeyondTravel).id));
    diagnostic.what = "the stroke calculated from speed and frequency goes beyond the travel";
    diagnostic.got = phrase.length(stroke);
    diagnostic.expected = "within " + unit.travel.text;
    diagnostic.remedy = "use a higher frequency, or a lower speed";
    diagnostics.push_back(std::move(diagnostic));
    return;
  }
  if (kind == file::DriveKind::Sine) {
    run.drive = damper::SineDrive{run.middle, 0.5 * stroke, frequency, run.n_cycles};
  } else {
    run.drive = damper::TriangleDrive{run.middle, 0.5 * stroke, frequency, run.n_cycles};
  }
  runs.push_back(std::move(run));
}

void Planner::add_swings(const file::DriveSpec& spec) {
  const file::DriveKind kind = spec.kind.value;
  const double factor = file::top_speed_factor(kind);
  if (spec.stroke) {
    for (const file::Quantity& frequency : spec.frequency)
      add_swing(&spec, kind, spec.stroke.si, frequency.si);
    for (const file::Quantity& speed : spec.speed)
      add_swing(&spec, kind, spec.stroke.si, speed.si / (factor * spec.stroke.si));
    return;
  }
  for (const file::Quantity& frequency : spec.frequency)
    for (const file::Quantity& speed : spec.speed)
      add_swing(&spec, kind, speed.si / (factor * frequency.si), frequency.si);
}

void Planner::add_step(const file::DriveSpec& spec) {
  PlannedRun run;
  run.kind = document::RunKind::Step;
  run.spec = &spec;
  run.stroke = std::abs(spec.to.si - spec.from.si);
  run.middle = 0.5 * (spec.to.si + spec.from.si);
  run.top_speed = file::top_speed_factor(file::DriveKind::Step) * run.stroke / spec.rise_time.si;
  run.samples = std::max(n_samples(), 2 * kSamples);
  run.name = fmt::format("step {} to {} in {}", phrase.length(spec.from.si), phrase.length(spec.to.si),
                         phrase(spec.rise_time.si, units::Kind::Time));
  run.drive = damper::StepDrive{spec.from.si, spec.to.si, spec.rise_time.si,
                                spec.hold_time.value_or(spec.rise_time.si)};
  runs.push_back(std::move(run));
}

void Planner::add_record(const file::DriveSpec& spec) {
  const std::vector<double>& time = spec.record.time;
  const std::vector<double>& travel = spec.record.travel;
  PlannedRun run;
  run.kind = document::RunKind::Recorded;
  run.spec = &spec;
  const auto [least, most] = std::ranges::minmax(travel);
  run.stroke = most - least;
  run.middle = 0.5 * (most + least);
  for (std::size_t i = 1; i < time.size(); ++i)
    run.top_speed = std::max(run.top_speed, std::abs(travel[i] - travel[i - 1]) / (time[i] - time[i - 1]));
  run.samples = std::clamp(static_cast<int>(time.size()), n_samples(), kMostSamples);
  run.name = fmt::format("recorded, {}", spec.file.value);
  run.drive = damper::SampledDrive{time, travel, damper::Smoothness::Speed};
  runs.push_back(std::move(run));
}

}  // namespace

std::vector<PlannedRun> planned_runs(const file::JobSpec& job, const file::UnitSpec& unit,
                                     const document::Phrase& phrase, Diagnostics& diagnostics) {
  Planner planner{job, unit, phrase, diagnostics, {}};
  if (!job.bench || job.bench->drives.empty()) {
    const double stroke = kOwnStroke * unit.travel.si;
    for (const double speed : file::judged_speeds(unit.kind.value_or(file::UnitKind::ForkLeg)).key)
      planner.add_swing(nullptr, file::DriveKind::Sine, stroke,
                        speed / (file::top_speed_factor(file::DriveKind::Sine) * stroke));
    return std::move(planner.runs);
  }
  for (const file::DriveSpec& spec : job.bench->drives) {
    if (spec.kind.value == file::DriveKind::Step) {
      planner.add_step(spec);
    } else if (spec.kind.value == file::DriveKind::Recorded) {
      planner.add_record(spec);
    } else {
      planner.add_swings(spec);
    }
  }
  return std::move(planner.runs);
}

}  // namespace shimwright::job
