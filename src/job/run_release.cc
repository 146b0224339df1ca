#include "job/run_release.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "damper/motion.h"

namespace shimwright::job {
namespace {

constexpr double kPushedShare = 0.8;                // of the travel, when the job does not say
constexpr double kMovingMass = 0.5;                 // [kg], an assumption
constexpr double kAir[] = {0.0, 1e-6, 2e-6, 5e-6};  // [m^3]
constexpr double kLongest = 120.0;                  // that anybody watches [s]
constexpr double kDragFactor = 3.0;
constexpr double kDragMore = 10.0;  // [N]

/// Nothing left but what the case says.
damper::MotionModel with_air(damper::MotionModel model, double air) {
  model.compression.trapped_air = 0.0;
  model.reservoir.oil.trapped_air = 0.0;
  model.rod.trapped_air = std::min(air, 0.9 * model.rod.volume);
  return model;
}

ReleaseCase case_of(std::string name, const damper::MotionModel& model, const damper::ReleaseSetup& setup) {
  damper::MotionOptions options;
  options.samples_per_cycle = 0;
  options.keep_events = false;
  const damper::ReleaseResult result = damper::rod_release(model, setup, options);
  ReleaseCase one;
  one.name = std::move(name);
  one.air = model.rod.trapped_air;
  one.seal_friction = model.seal_friction;
  one.push_force = result.before.force;
  one.fully_out = result.fully_out;
  one.rest_travel = result.rest_travel;
  one.time = result.time;
  one.half_time = std::isfinite(result.time_to_half) ? result.time_to_half : 0.0;
  one.top_speed = result.peak_speed;
  one.reads_as = result.missing;
  one.outcome = result.outcome;
  return one;
}

std::string came_out(const ReleaseCase& one, const Phrase& phrase) {
  const std::string time = phrase(one.time, units::Kind::Time);
  if (one.fully_out) return fmt::format("comes out fully in {}", time);
  if (one.outcome.status == Status::OutOfRange)
    return fmt::format("is still {} short after {}", phrase.length(one.rest_travel), time);
  return fmt::format("stops {} short after {}", phrase.length(one.rest_travel), time);
}

std::string words_of(const ReleaseTest& test, const Phrase& phrase) {
  const ReleaseCase& good = test.cases.front();
  const auto short_one = std::ranges::find_if(
      test.cases, [](const ReleaseCase& one) { return one.air > 0.0 && !one.fully_out; });
  std::string words = fmt::format("Pushed in {} and let go, the rod of a well bled unit {}.",
                                  phrase.length(test.pushed_to), came_out(good, phrase));
  if (!good.fully_out)
    return words + " What pushes it out is too weak for this test: judge the bleed by how the stroke feels.";
  if (short_one != test.cases.end()) {
    words +=
        fmt::format(" With {} of air it {}.", phrase.volume(short_one->air), came_out(*short_one, phrase));
  } else {
    words +=
        fmt::format(" With up to {} of air it still does: here the test does not show air, the bench does.",
                    phrase.volume(test.cases[std::size(kAir) - 1].air));
  }
  words += fmt::format(" With a dragging seal it {}.", came_out(test.cases.back(), phrase));
  return words;
}

}  // namespace

ReleaseTest release_test(const damper::MotionModel& model, const HandTestSpec* hand_test,
                         const Phrase& phrase) {
  ReleaseTest test;
  test.pushed_to = hand_test != nullptr ? hand_test->pushed_to.value_or(kPushedShare * model.travel)
                                        : kPushedShare * model.travel;
  test.pushed_to = std::min(test.pushed_to, model.travel);
  test.moving_mass = hand_test != nullptr ? hand_test->moving_mass.value_or(kMovingMass) : kMovingMass;
  test.rod_area = model.rod_area;
  const damper::ReleaseSetup setup{
      .pushed_to = test.pushed_to, .moving_mass = test.moving_mass, .time_max = kLongest};

  for (const double air : kAir) {
    const std::string name = air > 0.0 ? phrase.volume(air) + " of air" : "well bled";
    test.cases.push_back(case_of(name, with_air(model, air), setup));
  }
  damper::MotionModel dragging = with_air(model, 0.0);
  dragging.seal_friction = std::max(kDragFactor * model.seal_friction, model.seal_friction + kDragMore);
  test.cases.push_back(case_of("dragging seal", dragging, setup));
  for (const ReleaseCase& one : test.cases)
    if (one.outcome.status == Status::Stalled) test.outcome = worse(test.outcome, one.outcome);
  test.words = words_of(test, phrase);
  return test;
}

}  // namespace shimwright::job
