#include <algorithm>

#include "base/check.h"
#include "damper/damper.h"

namespace shimwright::damper {
namespace {

/// The valve that carries an adjuster, const as the model is.
auto& valve_of(auto& model, ValvePlace place) {
  SW_CHECK(place == ValvePlace::Piston || model.foot_valve.has_value());
  return place == ValvePlace::Piston ? model.piston_valve : *model.foot_valve;
}

auto& needle_of(auto& model, const Adjuster& adjuster, int index = 0) {
  auto& bleeds = valve_of(model, adjuster.valve).bleeds;
  const int at = adjuster.bleed + index;
  SW_CHECK(at >= 0 && at < static_cast<int>(bleeds.size()), at, bleeds.size());
  auto* needle = std::get_if<flow::Needle>(&bleeds[at].passage);
  SW_CHECK(needle != nullptr, at);
  return *needle;
}

/// The foot valve's flow over a void is first read off a law that ends below it.
constexpr double kVoidSpare = 1.1;

}  // namespace

SolvedDamper solve_damper(const DamperModel& model, const oil::Liquid& liquid, double speed_max,
                          const plate::Options& plate_options, plate::Workspace& workspace,
                          const valve::LawOptions& law_options) {
  return solve_damper(model, speed_max, [&](const valve::ValveModel& valve, double q_max) {
    return valve::solve_valve(valve, liquid, q_max, plate_options, workspace, law_options);
  });
}

SolvedDamper solve_damper(const DamperModel& model, double speed_max, const ValveSolver& solve) {
  SW_CHECK(speed_max > 0.0, speed_max);
  const Chambers& chambers = model.chambers;
  SolvedDamper solved;
  valve::SolvedValve piston =
      solve(model.piston_valve, (chambers.piston_area - chambers.rod_area) * speed_max);
  solved.stacks.piston = std::move(piston.stacks);
  solved.laws.piston = std::move(piston.law);
  solved.sweeps.piston = std::move(piston.sweep);
  if (model.foot_valve) {
    const double rod_flow = chambers.rod_area * speed_max;
    valve::SolvedValve foot = solve(*model.foot_valve, rod_flow);
    solved.laws.foot = foot.law;
    // with a void behind the piston more than the rod's part goes out here, at the most what the piston
    // pushes away
    const double passed = steady_point(chambers, solved.laws, speed_max).foot.q;
    if (passed > rod_flow * (1.0 + 1e-9))
      foot = solve(*model.foot_valve, std::min(kVoidSpare * passed, chambers.piston_area * speed_max));
    solved.stacks.foot = std::move(foot.stacks);
    solved.laws.foot = std::move(foot.law);
    solved.sweeps.foot = std::move(foot.sweep);
  }
  return solved;
}

DamperLaws damper_laws(const DamperModel& model, const DamperStacks& stacks, const oil::Liquid& liquid,
                       const valve::LawOptions& law_options) {
  DamperLaws laws;
  laws.piston = valve::valve_law(model.piston_valve, stacks.piston, liquid, law_options);
  if (model.foot_valve) laws.foot = valve::valve_law(*model.foot_valve, stacks.foot, liquid, law_options);
  return laws;
}

double clicks_of(const DamperModel& model, const Adjuster& adjuster) {
  return needle_of(model, adjuster).clicks;
}

void set_clicks(DamperModel& model, const Adjuster& adjuster, double clicks) {
  for (int i = 0; i < adjuster.count; ++i) needle_of(model, adjuster, i).clicks = clicks;
}

TurnedLaws turned_laws(const DamperModel& model, const SolvedDamper& solved, const oil::Liquid& liquid,
                       const Adjuster& adjuster, std::span<const double> clicks,
                       const valve::LawOptions& law_options) {
  DamperModel turned = model;
  needle_of(turned, adjuster);  // there is one
  const valve::ValveModel& valve = valve_of(turned, adjuster.valve);
  const bool at_piston = adjuster.valve == ValvePlace::Piston;
  const valve::ValveStacks& stacks = at_piston ? solved.stacks.piston : solved.stacks.foot;
  const valve::ValveSweep& known = at_piston ? solved.sweeps.piston : solved.sweeps.foot;
  const valve::Bleed& bleed = valve.bleeds[static_cast<std::size_t>(adjuster.bleed)];
  const auto sweep_of = [&](valve::Way way, const valve::DirectionLaw& one) {
    return one.nodes.empty() ? valve::sweep_way(valve, stacks, way, liquid, law_options) : one;
  };

  // the stack's part is swept once, the bleed's is added at each click
  TurnedLaws laws;
  const auto turn = [&](valve::Way way, const valve::DirectionLaw& one, auto& list) {
    const valve::DirectionLaw swept = sweep_of(way, one);
    for (const double click : clicks) {
      set_clicks(turned, adjuster, click);
      list.push_back(valve::way_law_from_sweep(valve, way, swept, liquid, law_options));
    }
  };
  if (bleed.compression) turn(valve::Way::Compression, known.compression, laws.compression);
  if (bleed.rebound) turn(valve::Way::Rebound, known.rebound, laws.rebound);
  return laws;
}

ForceFamily force_family(const Chambers& chambers, const DamperLaws& laws, const Adjuster& adjuster,
                         std::span<const double> clicks, const TurnedLaws& turned,
                         std::span<const double> speeds) {
  ForceFamily family;
  family.clicks.assign(clicks.begin(), clicks.end());
  family.curves.reserve(clicks.size());
  DamperLaws at_click = laws;
  valve::ValveLaw& law = adjuster.valve == ValvePlace::Piston ? at_click.piston : *at_click.foot;
  for (std::size_t i = 0; i < clicks.size(); ++i) {
    if (!turned.compression.empty()) law.compression = turned.compression[i];
    if (!turned.rebound.empty()) law.rebound = turned.rebound[i];
    family.curves.push_back(force_curve(chambers, at_click, speeds));
  }
  return family;
}

ForceFamily force_family(const DamperModel& model, const SolvedDamper& solved, const oil::Liquid& liquid,
                         const Adjuster& adjuster, std::span<const double> clicks,
                         std::span<const double> speeds, const valve::LawOptions& law_options) {
  return force_family(model.chambers, solved.laws, adjuster, clicks,
                      turned_laws(model, solved, liquid, adjuster, clicks, law_options), speeds);
}

}  // namespace shimwright::damper
