#include "job/bench_springs.h"

#include <fmt/core.h>

namespace shimwright::job {
namespace {

/// Air over the oil that the damper's own reservoir, or the leg around it, has already.
bool pushes_already(const damper::MotionModel& damper) {
  return damper.outer_air || (damper.reservoir.gas && damper.reservoir.gas->travel_area > 0.0);
}

std::string joined(const std::vector<std::string>& names) {
  std::string all;
  for (std::size_t i = 0; i < names.size(); ++i)
    all += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
  return all;
}

std::string words_of(const SpringsOnBench& on_bench, bool air_pushes, const document::Phrase& phrase) {
  const document::BenchSprings& told = on_bench.told;
  const std::string alone = fmt::format("the damper alone, including the push of its reservoir on the rod{}",
                                        air_pushes ? " and of the air above its oil" : "");
  if (told.names.empty())
    return fmt::format("The job has no springs for this unit. The force is the force of {}.", alone);
  if (!told.in)
    return fmt::format(
        "The springs are not fitted: the force is the force of {}. With springs, {} would add {} fully out "
        "and {} fully in.",
        alone, joined(told.names), phrase.force(told.force_out), phrase.force(told.force_in));
  return fmt::format(
      "The springs are fitted ({}): they add {} fully out and {} fully in, and absorb no energy. Without "
      "their force you have {}. The temperature of the air is {}.",
      joined(told.names), phrase.force(told.force_out), phrase.force(told.force_in), alone,
      phrase.temperature(on_bench.springs->conditions.temperature));
}

}  // namespace

bool springs_in_runs(const file::JobSpec& job) {
  return job.bench && job.bench->with_springs.value_or(false);
}

bool springs_in_hand_test(const file::JobSpec& job) {
  if (!job.bench || !job.bench->hand_test) return springs_in_runs(job);
  return job.bench->hand_test->with_springs.value_or(springs_in_runs(job));
}

SpringsOnBench springs_on_bench(const file::JobSpec& job, const file::UnitSpec& unit,
                                const resolve::Conditions& conditions, const damper::MotionModel& damper,
                                const document::Phrase& phrase, resolve::ResolveReport& report) {
  SpringsOnBench result;
  const bool wanted = springs_in_runs(job) || springs_in_hand_test(job);
  resolve::ResolveReport unasked;
  const auto model = resolve::resolve_springs(job, unit, conditions, wanted ? report : unasked);
  const bool air_pushes = pushes_already(damper);
  if (model) {
    damper::SpringsBeside springs;
    springs.conditions = model->conditions;
    springs.conditions.temperature = conditions.fill_temperature;
    springs.unit.travel = model->unit.travel;
    for (std::size_t i = 0; i < model->unit.elements.size(); ++i) {
      // what the reservoir does to the rod comes last, and is in the damper's pressures
      if (model->rod_element && i >= *model->rod_element) break;
      if (air_pushes && model->trapped_element == i) continue;
      springs.unit.elements.push_back(model->unit.elements[i]);
      result.told.names.push_back(model->unit.elements[i].name);
    }
    if (!springs.unit.elements.empty()) {
      const spring::UnitLimits limits = spring::unit_limits(springs.unit, springs.conditions);
      result.told.force_out = limits.force_out;
      result.told.force_in = limits.force_in;
      result.springs = std::move(springs);
    }
  }
  result.told.in = result.springs && springs_in_runs(job);
  result.told.words = words_of(result, air_pushes, phrase);
  return result;
}

}  // namespace shimwright::job
