#include "job/run_header.h"
#include "job/run_spring.h"

#include <algorithm>

#include "document/document_phrase.h"
#include "file/schema.h"
#include "judge/pressure_limits.h"
#include "num/root.h"
#include "spring/spring_change.h"

namespace shimwright::job {
namespace {

std::optional<ride::Linkage> resolve_linkage(const file::JobSpec& job, const file::LinkageSpec& spec,
                                             resolve::ResolveReport& report) {
  std::vector<ride::LinkageRow> travels;
  std::vector<ride::LeverageRow> leverages;
  resolve::FieldPlaces places;
  for (std::size_t i = 0; i < spec.table.size(); ++i) {
    const file::LinkagePoint& row = spec.table[i];
    if (row.shock) travels.push_back({row.wheel.si, row.shock.si});
    if (row.leverage) leverages.push_back({row.wheel.si, row.leverage.value});
    places.add("table[" + std::to_string(i) + "]", row.origin, units::Kind::Length);
    places.add("[" + std::to_string(i) + "]", row.origin, units::Kind::Length);
  }
  const bool by_travel = travels.size() == spec.table.size();
  const Problems problems = by_travel ? ride::problems_in(travels) : ride::problems_in(leverages);
  if (problems.empty()) return by_travel ? ride::linkage_through(travels) : ride::linkage_through(leverages);
  report.add_refused(job, problems, places, spec.origin);
  return std::nullopt;
}

std::optional<ride::SprungMass> resolve_mass(const file::JobSpec& job, bool front, bool& rider_known,
                                             resolve::ResolveReport& report) {
  const std::string part = front ? "the sag of the fork" : "the sag of the shock";
  if (!job.machine) {
    report.missing.push_back({part, "the machine", "machine", {}});
    return std::nullopt;
  }
  const file::Quantity& mass = front ? job.machine->front_mass : job.machine->rear_mass;
  if (!mass) {
    report.missing.push_back({part, front ? "the mass on the front springs" : "the mass on the rear spring",
                              front ? "front_mass" : "rear_mass", job.machine->origin});
    return std::nullopt;
  }
  ride::SprungMass result{mass.si, 0.0};
  rider_known = job.rider && job.rider->mass && job.machine->rider_front_share;
  if (rider_known) {
    const double share = job.machine->rider_front_share.si;
    result.rider = job.rider->mass.si * (front ? share : 1.0 - share);
  }
  return result;
}

/// The wheel with one knob turned on every unit that has it.
ride::WheelSpring turned(const EndModel& end, SagKnob knob, double change) {
  ride::WheelSpring after = end.wheel;
  for (std::size_t i = 0; i < after.units.size(); ++i) {
    spring::UnitSpring& unit = after.units[i];
    const EndUnit& parts = end.units[i];
    if (knob == SagKnob::Pressure && parts.air_element)
      unit = spring::changed(unit, {.element = *parts.air_element, .pressure = change});
    if (knob == SagKnob::Preload && parts.coil_element)
      unit = spring::changed(unit, {.element = *parts.coil_element, .preload = change});
  }
  return after;
}

document::Value target_value(double travel) {
  return document::computed(travel, units::Kind::Length);
}

void set_target(const file::QuantityRange* written, const ride::SagRange& usual, double full_travel,
                document::SagResult& result) {
  if (written != nullptr && written->given) {
    result.low = typed_value(written->low);
    result.high = typed_value(written->high);
    return;
  }
  result.usual_target = true;
  result.low = target_value(usual.low * full_travel);
  result.high = target_value(usual.high * full_travel);
}

}  // namespace

std::optional<EndModel> resolve_end(const file::JobSpec& job, file::UnitKind kind,
                                    const std::vector<std::optional<resolve::SpringModel>>& springs,
                                    resolve::ResolveReport& report) {
  const bool front = kind == file::UnitKind::ForkLeg;
  EndModel end;
  const file::UnitSpec* first = nullptr;
  for (std::size_t i = 0; i < job.units.size(); ++i) {
    if (job.units[i].kind.value_or(file::UnitKind::ForkLeg) != kind || !springs[i]) continue;
    if (first == nullptr) first = &job.units[i];
    end.conditions = springs[i]->conditions;
    for (int n = 0; n < job.units[i].count.value_or(1); ++n) {
      end.wheel.units.push_back(springs[i]->unit);
      end.units.push_back({i, springs[i]->air_element, springs[i]->coil_element});
    }
  }
  if (first == nullptr) return std::nullopt;
  const auto mass = resolve_mass(job, front, end.rider_known, report);
  if (!mass) return std::nullopt;
  end.mass = *mass;

  if (front) {
    const auto& target = job.machine->front_sag;
    end.target = target ? &*target : nullptr;
    if (!job.machine->head_angle) {
      report.missing.push_back({"the sag of the fork", "the head angle", "head_angle", job.machine->origin});
      return std::nullopt;
    }
    end.wheel.path = ride::ForkAngle{job.machine->head_angle.si};
  } else {
    const auto& target = job.machine->rear_sag;
    end.target = target ? &*target : nullptr;
    if (!first->linkage || first->linkage->table.empty()) {
      report.missing.push_back({"the sag of the shock", "the linkage's table", "linkage", first->origin});
      return std::nullopt;
    }
    const auto linkage = resolve_linkage(job, *first->linkage, report);
    if (!linkage) return std::nullopt;
    end.wheel.path = *linkage;
  }
  const Problems problems = ride::problems_in(end.wheel);
  if (problems.empty()) return end;
  resolve::FieldPlaces places;
  places.add("path", front ? job.machine->head_angle.origin : first->linkage->origin, units::Kind::Angle);
  report.add_refused(job, problems, places, first->origin);
  return std::nullopt;
}

std::optional<double> change_for(const EndModel& end, SagKnob knob, double mass, double wheel_travel) {
  const auto surplus = [&](double change) {
    return ride::wheel_force_at(turned(end, knob, change), end.conditions, wheel_travel).force -
           mass * ride::kGravity;
  };
  const double low = knob == SagKnob::Pressure ? -3e5 : -0.05;
  const double high = knob == SagKnob::Pressure ? 6e5 : 0.05;
  const num::Root root = num::root_between(surplus, low, high);
  if (!root.ok()) return std::nullopt;
  // a spring that is solid there holds any load: the wheel does not come to that place. Nor may it stand on a
  // hair there: where the leverage falls away faster than the spring gets harder, a little less sends it
  // elsewhere
  constexpr double kThere = 1e-5, kNearby = 2e-3;
  const double hair = knob == SagKnob::Pressure ? 2e3 : 0.05e-3;
  const auto comes_near = [&](double change, double near) {
    const ride::Sag sag = ride::sag_under(mass, turned(end, knob, change), end.conditions);
    return std::abs(sag.wheel_travel - wheel_travel) < near;
  };
  const bool stays =
      comes_near(root.x, kThere) && comes_near(root.x - hair, kNearby) && comes_near(root.x + hair, kNearby);
  return stays ? std::optional<double>(root.x) : std::nullopt;
}

namespace {

/// One pressure set higher; false beyond what the trade sets.
bool add_pressure(const file::UnitSpec& unit, double change, double ambient,
                  std::vector<document::KeyChange>& keys) {
  if (!unit.air_spring || !unit.air_spring->positive) return true;
  const file::Quantity& now = unit.air_spring->positive->pressure;
  document::Value to = typed_value(now);
  to.typed.clear();
  to.si += change;
  const double gauge = to.si - (now.reference == units::Reference::Absolute ? ambient : 0.0);
  if (!(gauge > 0.0 && gauge <= judge::kAirSpringPressure.look)) return false;
  keys.push_back({now.origin.path, "", typed_value(now), to});
  return true;
}

/// The preload of the first spring; false where a job may not state it.
bool add_preload(const file::UnitSpec& unit, double change, std::vector<document::KeyChange>& keys) {
  if (unit.coil_springs.empty()) return true;
  const file::CoilSpringSpec& spring = unit.coil_springs.front();
  const file::KeySchema* key = file::key_at(file::job_schema(), "unit.coil_spring.preload");
  const double now = spring.preload.value_or(0.0);
  if (now + change < key->bounds.low || now + change > key->bounds.high) return false;
  keys.push_back({spring.preload ? spring.preload.origin.path : spring.origin.path + ".preload", "",
                  document::computed(now, units::Kind::Length),
                  document::computed(now + change, units::Kind::Length)});
  return true;
}

bool coils_bind(const ride::WheelSpring& wheel, const spring::Conditions& conditions) {
  return std::ranges::any_of(wheel.units, [&](const spring::UnitSpring& unit) {
    return spring::unit_limits(unit, conditions).coil_bind_travel.has_value();
  });
}

/// Changes of a knob that bring one sag into its target, from the deepest of it to the least.
struct Reach {
  double least = 0.0;
  double most = 0.0;
};

std::optional<Reach> reach_of(const EndModel& end, SagKnob knob, double mass,
                              const document::SagResult& sag) {
  const auto least = change_for(end, knob, mass, sag.high->si);
  const auto most = change_for(end, knob, mass, sag.low->si);
  if (!least || !most) return std::nullopt;
  return Reach{*least, *most};
}

bool off_target(const document::SagResult& sag) {
  return sag.wheel_travel < sag.low->si || sag.wheel_travel > sag.high->si || sag.bottomed;
}

double mass_of(const EndModel& end, const document::SagResult& sag) {
  return end.mass.machine + (sag.under == document::SagLoad::Rider ? end.mass.rider : 0.0);
}

/// What one change of the knob does to all sags of the end.
document::Cure cure_of(const file::JobSpec& job, const EndModel& end, const ride::WheelSpring& after,
                       std::vector<document::KeyChange> changes,
                       const std::vector<document::SagResult>& sags) {
  document::Cure cure{job.units[end.units.front().index].name.value, std::move(changes), {}};
  for (const document::SagResult& sag : sags) {
    document::CureEffect effect{.goal = document::CureGoal::Sag, .under = sag.under};
    effect.before = document::computed(sag.wheel_travel, units::Kind::Length);
    effect.after = document::computed(ride::sag_under(mass_of(end, sag), after, end.conditions).wheel_travel,
                                      units::Kind::Length);
    cure.effects.push_back(std::move(effect));
  }
  return cure;
}

/// What a knob must do for every sag at once, and what the spring must be where it cannot.
struct KnobPlan {
  std::optional<double> change;
  document::SpringNeed need = document::SpringNeed::None;
};

KnobPlan plan_of(const EndModel& end, SagKnob knob, const std::vector<document::SagResult>& sags) {
  using document::SpringNeed;
  std::vector<Reach> reaches;
  for (const document::SagResult& sag : sags) {
    const auto reach = reach_of(end, knob, mass_of(end, sag), sag);
    if (!reach)
      return {std::nullopt, sag.wheel_travel > sag.low->si ? SpringNeed::Stiffer : SpringNeed::Softer};
    reaches.push_back(*reach);
  }
  double least = reaches.front().least;
  double most = reaches.front().most;
  for (const Reach& reach : reaches) {
    least = std::max(least, reach.least);
    most = std::min(most, reach.most);
  }
  if (least <= most) return {0.5 * (least + most), SpringNeed::None};
  // the rider wants more of the knob than the machine alone may have: each kilogram sinks it too far
  return {std::nullopt,
          reaches.back().least > reaches.front().most ? SpringNeed::Stiffer : SpringNeed::Softer};
}

void set_knob(const file::JobSpec& job, const EndModel& end, std::vector<document::SagResult>& sags) {
  if (std::ranges::none_of(sags, off_target)) return;
  const bool air = end.units.front().air_element.has_value();
  if (!air && !end.units.front().coil_element) return;
  const SagKnob knob = air ? SagKnob::Pressure : SagKnob::Preload;
  KnobPlan plan = plan_of(end, knob, sags);
  std::optional<document::Cure> cure;
  if (plan.change) {
    const ride::WheelSpring after = turned(end, knob, *plan.change);
    auto changes = knob_changes(job, end, knob, *plan.change);
    const bool binds = coils_bind(after, end.conditions) && !coils_bind(end.wheel, end.conditions);
    if (changes && !binds)
      cure = cure_of(job, end, after, std::move(*changes), sags);
    else
      plan = {std::nullopt,
              *plan.change > 0.0 ? document::SpringNeed::Stiffer : document::SpringNeed::Softer};
  }
  for (document::SagResult& sag : sags) {
    if (!off_target(sag)) continue;
    sag.knob = air ? "positive pressure" : "preload";
    sag.need = plan.need;
    sag.cure = cure;
    if (plan.change)
      sag.change =
          document::computed(*plan.change, air ? units::Kind::PressureDifference : units::Kind::Length);
  }
}

}  // namespace

std::optional<std::vector<document::KeyChange>> knob_changes(const file::JobSpec& job, const EndModel& end,
                                                             SagKnob knob, double change) {
  std::vector<document::KeyChange> keys;
  std::vector<std::size_t> done;
  for (const EndUnit& unit : end.units) {
    if (std::ranges::find(done, unit.index) != done.end()) continue;
    done.push_back(unit.index);
    const file::UnitSpec& spec = job.units[unit.index];
    const bool taken = knob == SagKnob::Pressure
                           ? add_pressure(spec, change, end.conditions.ambient_pressure, keys)
                           : add_preload(spec, change, keys);
    if (!taken) return std::nullopt;
  }
  return keys;
}

std::vector<document::SagResult> sag_results(const file::JobSpec& job, const EndModel& end,
                                             file::UnitKind kind) {
  const double full = ride::wheel_travel_at_unit(end.wheel, end.wheel.units.front().travel);
  const ride::SagTarget usual = ride::usual_sag(
      ride::Use::OffRoad, kind == file::UnitKind::ForkLeg ? ride::End::Front : ride::End::Rear);
  const auto result_of = [&](document::SagLoad under, double mass, const file::QuantityRange* written,
                             const ride::SagRange& range) {
    const ride::Sag sag = ride::sag_under(mass, end.wheel, end.conditions);
    document::SagResult result;
    result.under = under;
    result.load = sag.load;
    result.travel = sag.unit_travel;
    result.wheel_travel = sag.wheel_travel;
    result.share = sag.share;
    result.topped_out = sag.topped_out;
    result.bottomed = sag.bottomed;
    result.outcome = sag.outcome;
    set_target(written, range, full, result);
    return result;
  };
  const file::SagSpec* target = end.target;
  std::vector<document::SagResult> results = {result_of(document::SagLoad::Static, end.mass.machine,
                                                        target != nullptr ? &target->fixed : nullptr,
                                                        usual.machine_alone)};
  if (end.rider_known) {
    results.push_back(result_of(document::SagLoad::Rider, end.mass.machine + end.mass.rider,
                                target != nullptr ? &target->rider : nullptr, usual.with_rider));
  }
  set_knob(job, end, results);
  return results;
}

}  // namespace shimwright::job
