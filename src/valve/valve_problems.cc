#include <algorithm>

#include "valve/valve.h"

namespace shimwright::valve {
namespace {

void find_direction_problems(const DirectionModel& direction, const std::string& field, Problems& problems) {
  if (direction.ports) {
    flow::find_problems(*direction.ports, field + ".ports", problems);
    if (direction.ports->area == 0.0)
      problems.push_back(
          {field + ".ports.area", 0.0, 0.0, "more than zero; leave the ports out where there are none"});
  }
  if (direction.stack)
    for (Problem& problem : plate::validate(*direction.stack)) {
      problem.field = field + ".stack." + problem.field;
      problems.push_back(std::move(problem));
    }

  // the curtain takes its radius and arc from the stack; only its law and land are stated here
  const flow::Curtain curtain{
      .seat_radius = 1.0, .land_width = direction.land_width, .discharge = direction.curtain_discharge};
  flow::find_problems(curtain, field + ".curtain", problems);

  for (size_t i = 0; i < direction.face_bleeds.size(); ++i)
    flow::find_problems(direction.face_bleeds[i], field + ".face_bleeds[" + std::to_string(i) + "]",
                        problems);
  if (!direction.stack && !direction.face_bleeds.empty())
    problems.push_back({field + ".face_bleeds", static_cast<double>(direction.face_bleeds.size()), 0.0,
                        "none where no stack covers the ports"});
}

/// A way that nothing can pass would stop the rod dead.
bool passes_something(const ValveModel& model, Way way) {
  const bool compression = way == Way::Compression;
  const DirectionModel& own = compression ? model.compression : model.rebound;
  const DirectionModel& other = compression ? model.rebound : model.compression;
  if (own.stack || own.ports || (model.leakage && model.leakage->clearance > 0.0)) return true;
  const oil::Liquid any_oil{.density = 860.0, .viscosity = 0.01};
  const auto open = [&](const flow::Passage& passage) {
    return flow::flow_through(passage, any_oil, 1e5).q > 0.0;
  };
  return std::any_of(other.face_bleeds.begin(), other.face_bleeds.end(), open) ||
         std::any_of(model.bleeds.begin(), model.bleeds.end(), [&](const Bleed& bleed) {
           return (compression ? bleed.compression : bleed.rebound) && open(bleed.passage);
         });
}

}  // namespace

Problems validate(const ValveModel& model) {
  Problems problems;
  find_direction_problems(model.compression, "compression", problems);
  find_direction_problems(model.rebound, "rebound", problems);
  for (size_t i = 0; i < model.bleeds.size(); ++i)
    flow::find_problems(model.bleeds[i].passage, "bleeds[" + std::to_string(i) + "]", problems);
  if (model.leakage) flow::find_problems(*model.leakage, "leakage", problems);
  if (!problems.empty()) return problems;

  for (const Way way : {Way::Compression, Way::Rebound})
    if (!passes_something(model, way))
      problems.push_back({way == Way::Compression ? "compression" : "rebound", 0.0, 0.0,
                          "at least one passage: a stack, open ports, a bleed that is open, or leakage"});
  return problems;
}

}  // namespace shimwright::valve
