#include "job/run_release.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "assembly/acceptance.h"
#include "damper/motion.h"
#include "job/run_motion.h"

namespace shimwright::job {
namespace {

constexpr double kPushedShare = 0.8;                // of the travel, when the job does not say
constexpr double kMovingMass = 0.5;                 // [kg], an assumption
constexpr double kAir[] = {0.0, 1e-6, 2e-6, 5e-6};  // [m^3]
constexpr double kLongest = 120.0;                  // that anybody watches [s]
constexpr double kDragFactor = 3.0;
constexpr double kDragMore = 10.0;    // [N]
constexpr int kTraceSamples = 200;    // of each state, where it is drawn
constexpr double kShownStop = 10e-3;  // further in than a well-bled unit: a stop that nobody overlooks [m]

/// Nothing left but what the case says.
damper::MotionModel with_air(damper::MotionModel model, double air) {
  model.compression.trapped_air = 0.0;
  model.reservoir.oil.trapped_air = 0.0;
  model.rod.trapped_air = std::min(air, 0.9 * model.rod.volume);
  return model;
}

double pushed_to(const damper::MotionModel& model, const file::HandTestSpec* hand_test) {
  const double share = kPushedShare * model.travel;
  // the hand test of another unit may push further than this one goes
  return hand_test != nullptr ? std::min(hand_test->pushed_to.value_or(share), model.travel) : share;
}

/// `well_bled`: the unit that the test is read against.
document::ReleaseCase case_of(std::string name, const damper::MotionModel& model,
                              const damper::MotionModel& well_bled, const damper::ReleaseResult& result) {
  document::ReleaseCase one;
  one.name = std::move(name);
  one.air = model.rod.trapped_air;
  one.seal_friction = model.seal_friction;
  one.push_force = result.before.force;
  one.fully_out = result.fully_out;
  one.rest_travel = result.rest_travel;
  one.arrived = result.arrived;
  one.end_travel = result.end_travel;
  one.time = result.time;
  one.half_time = std::isfinite(result.time_to_half) ? result.time_to_half : 0.0;
  one.top_speed = result.peak_speed;
  const bool same_drag = model.seal_friction == well_bled.seal_friction;
  if (!one.fully_out && !model.springs && same_drag)
    one.reads_as = damper::air_that_stops_at(well_bled, one.rest_travel);
  one.outcome = result.outcome;
  return one;
}

/// Whether the eye tells it from a unit that comes as far as the well-bled one.
bool stops_visibly(const document::ReleaseCase& one, const document::ReleaseCase& good) {
  return one.rest_travel > good.rest_travel + assembly::kStopOfNoMatter;
}

std::string came_out(const document::ReleaseCase& one, const document::Phrase& phrase) {
  const std::string time = phrase(one.time, units::Kind::Time);
  const std::string end =
      one.fully_out ? "comes out fully" : fmt::format("stops {} short", phrase.length(one.rest_travel));
  if (!one.arrived)
    return fmt::format("is still {} short after {}: it is slow, but it {}", phrase.length(one.end_travel),
                       time, end);
  return one.fully_out ? fmt::format("{} in {}", end, time) : fmt::format("{} after {}", end, time);
}

std::string words_of(const document::ReleaseTest& test, const document::Phrase& phrase) {
  const document::ReleaseCase& good = test.cases.front();
  const document::ReleaseCase& most_air = test.cases[std::size(kAir) - 1];
  if (good.rest_travel >= test.pushed_to)
    return fmt::format(
        "Pushed in {}, the rod of a well bled unit stays there: its seals hold more than what pushes it out. "
        "Pull it out by hand. Judge the bleed by how the stroke feels.",
        phrase.length(test.pushed_to));
  std::string words = fmt::format("Push the rod in {} and let go: in a well bled unit it {}.",
                                  phrase.length(test.pushed_to), came_out(good, phrase));
  if (!good.fully_out)
    words +=
        " The force that pushes the rod out is too weak to bring it all the way: judge the bleed also by how "
        "the "
        "stroke feels.";
  const auto short_one = std::ranges::find_if(test.cases, [&](const document::ReleaseCase& one) {
    return one.air > 0.0 && stops_visibly(one, good);
  });
  if (short_one != test.cases.end()) {
    words +=
        fmt::format(" With {} of air it {}.", phrase.volume(short_one->air), came_out(*short_one, phrase));
  } else {
    words += fmt::format(
        " With up to {} of air it comes just as far. Here the hand test does not show air; the bench does.",
        phrase.volume(most_air.air));
  }
  constexpr double kFelt = 1.5;  // times as fast: a hand feels it (common practice, no source)
  if (most_air.top_speed > kFelt * good.top_speed)
    words += fmt::format(" But with {} of air it jumps when you let go: {} in place of {}.",
                         phrase.volume(most_air.air), phrase.speed(most_air.top_speed),
                         phrase.speed(good.top_speed));
  words += fmt::format(" With a dragging seal it {}.", came_out(test.cases.back(), phrase));
  return words;
}

/// How the leg comes out with its main spring in: how far says nothing then, how fast does.
std::string springs_came_out(const document::ReleaseCase& one, const document::Phrase& phrase) {
  std::string words = one.half_time > 0.0
                          ? fmt::format("is half way out after {} and reaches {}",
                                        phrase(one.half_time, units::Kind::Time), phrase.speed(one.top_speed))
                          : "does not come half way out";
  if (!one.fully_out) words += fmt::format("; it ends {} from fully out", phrase.length(one.rest_travel));
  return words;
}

std::string words_with_springs(const document::ReleaseTest& test, const document::Phrase& phrase) {
  const document::ReleaseCase& good = test.cases.front();
  const document::ReleaseCase& most_air = test.cases[std::size(kAir) - 1];
  std::string words = fmt::format(
      "With springs: {} hold the rod {} in. When you let go, a well bled unit {}.",
      phrase.force(good.push_force), phrase.length(test.pushed_to), springs_came_out(good, phrase));
  if (test.balance_travel > 0.0)
    words += fmt::format(" The springs come to rest {} from fully out.", phrase.length(test.balance_travel));
  words += fmt::format(" With {} of air it {}. With a dragging seal it {}.", phrase.volume(most_air.air),
                       springs_came_out(most_air, phrase), springs_came_out(test.cases.back(), phrase));
  return words + " With the main spring, air changes how fast the rod comes out, not where it stops.";
}

/// Where a state of the unit left what its model holds for.
std::string caution_of(const document::ReleaseTest& test) {
  for (const document::ReleaseCase& one : test.cases) {
    if (one.outcome.status != Status::OutOfRange) continue;
    std::string note = one.outcome.note;
    if (note.ends_with('.')) note.pop_back();
    return fmt::format(" An estimate ({}): {}.", one.name, note);
  }
  return "";
}

/// One state of the unit.
struct Try {
  std::string name;
  damper::MotionModel model;
};

std::vector<Try> tries_of(const damper::MotionModel& model, const document::Phrase& phrase) {
  std::vector<Try> tries;
  for (const double air : kAir)
    tries.push_back({air > 0.0 ? phrase.volume(air) + " of air" : "well bled", with_air(model, air)});
  damper::MotionModel dragging = with_air(model, 0.0);
  dragging.seal_friction = std::max(kDragFactor * model.seal_friction, model.seal_friction + kDragMore);
  tries.push_back({"dragging seal", std::move(dragging)});
  return tries;
}

HandTestRun run(const damper::MotionModel& model, const file::HandTestSpec* hand_test,
                const document::Phrase& phrase, damper::MotionOptions options) {
  HandTestRun result;
  document::ReleaseTest& test = result.test;
  const file::HandTestSpec spec = hand_test != nullptr ? *hand_test : file::HandTestSpec{};
  test.pushed_to = pushed_to(model, hand_test);
  test.moving_mass = spec.moving_mass.value_or(kMovingMass);
  test.rod_area = model.rod_area;
  test.springs_in = model.springs.has_value();
  const damper::ReleaseSetup setup{
      .pushed_to = test.pushed_to, .moving_mass = test.moving_mass, .time_max = kLongest};

  const auto proceed = options.proceed;
  const std::vector<Try> tries = tries_of(model, phrase);
  for (const Try& one : tries) {
    const double before = static_cast<double>(test.cases.size());
    if (proceed)
      options.proceed = [&](double done) {
        return proceed((before + done) / static_cast<double>(tries.size()));
      };
    const damper::ReleaseResult released = damper::rod_release(one.model, setup, options);
    result.stopped = released.stopped;
    if (result.stopped) return result;
    test.cases.push_back(case_of(one.name, one.model, tries.front().model, released));
    if (test.cases.size() == 1) test.balance_travel = released.balance;
    if (options.samples_per_cycle > 0) result.traces.push_back(trace_of(one.name, released));
  }
  for (const document::ReleaseCase& one : test.cases)
    if (one.outcome.status == Status::Stalled) test.outcome = worse(test.outcome, one.outcome);
  test.words = test.springs_in ? words_with_springs(test, phrase) : words_of(test, phrase);
  test.words += caution_of(test);
  return result;
}

}  // namespace

document::StopReading stop_reading(const damper::MotionModel& model, const file::HandTestSpec* hand_test) {
  const damper::MotionModel well_bled = with_air(model, 0.0);
  const double pushed = pushed_to(model, hand_test);
  document::StopReading reading;
  reading.well_bled = damper::rest_band(well_bled, pushed).inner;
  reading.pushed_out = reading.well_bled < pushed;
  reading.accepted = std::min(reading.well_bled + assembly::kStopOfNoMatter, model.travel);
  reading.short_stop = std::min(reading.well_bled + kShownStop, model.travel);
  reading.hidden_air = damper::air_that_stops_at(well_bled, reading.accepted);
  reading.short_stop_air = damper::air_that_stops_at(well_bled, reading.short_stop);
  return reading;
}

std::optional<double> air_behind_stop(const damper::MotionModel& model, double travel) {
  return damper::air_that_stops_at(with_air(model, 0.0), travel);
}

document::ReleaseTest release_test(const damper::MotionModel& model, const file::HandTestSpec* hand_test,
                                   const document::Phrase& phrase) {
  return run(model, hand_test, phrase, {.samples_per_cycle = 0, .keep_events = false}).test;
}

HandTestRun hand_test_run(const damper::MotionModel& model, const file::HandTestSpec* hand_test,
                          const document::Phrase& phrase, const std::function<bool(double)>& proceed) {
  return run(model, hand_test, phrase, {.samples_per_cycle = kTraceSamples, .proceed = proceed});
}

}  // namespace shimwright::job
