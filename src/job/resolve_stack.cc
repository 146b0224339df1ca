#include "job/resolve_stack.h"

#include <algorithm>
#include <cmath>

#include "units/stack_text.h"

namespace shimwright::job {
namespace {

/// Bore of the discs of a lone stack that states none, over the clamp diameter. It is only drawn: what lies
/// inside the clamp does not bend.
constexpr double kDrawnBore = 0.6;

void set_material(const MaterialSpec& material, plate::Disc& disc) {
  const MaterialSpec steel = default_spring_steel();
  disc.youngs_modulus = material.youngs_modulus.value_or(steel.youngs_modulus.si);
  disc.poisson_ratio = material.poisson_ratio.value_or(steel.poisson_ratio.value);
  disc.yield_strength = material.yield_strength.value_or(0.0);
  disc.fatigue_strength = material.fatigue_strength.value_or(0.0);
  disc.ultimate_strength = material.strength.value_or(0.0);
}

/// A notch that states no depth is cut just deep enough to cross the seat.
plate::RimNotches rim_notches(const NotchSpec& notch, double outer_radius, double seat_radius) {
  return {notch.count.value_or(1), notch.width.si,
          notch.depth.value_or(std::max(0.0, outer_radius - seat_radius))};
}

plate::Disc resolve_disc(const DiscSpec& spec, const DirectionSpec& direction, double bore_diameter) {
  plate::Disc disc;
  disc.outer_radius = 0.5 * spec.outer_diameter.si;
  disc.bore_radius = 0.5 * spec.bore.value_or(bore_diameter);
  disc.thickness = spec.thickness.si;
  if (spec.material) {
    set_material(*spec.material, disc);
  } else if (direction.material) {
    set_material(*direction.material, disc);
  } else {
    set_material(default_spring_steel(), disc);
  }
  if (spec.notches) disc.notches = rim_notches(*spec.notches, disc.outer_radius, 0.5 * direction.seat.si);
  return disc;
}

void add_discs(const DirectionSpec& spec, double bore_diameter, StackModel& model) {
  for (std::size_t i = 0; i < spec.stack.size(); ++i) {
    const DiscSpec& entry = spec.stack[i];
    const plate::Disc disc = resolve_disc(entry, spec, bore_diameter);
    for (int n = 0; n < entry.count.value_or(1); ++n) {
      const std::string field = "discs[" + std::to_string(model.stack.discs.size()) + "]";
      model.places.add(field, entry.origin, units::Kind::Length);
      model.places.add(field + ".outer_radius", entry.outer_diameter, 2.0);
      model.places.add(field + ".bore_radius", entry.bore, 2.0);
      model.places.add(field + ".thickness", entry.thickness);
      if (entry.notches) model.places.add(field + ".notches", entry.notches->origin, units::Kind::Length);
      model.stack.discs.push_back(disc);
      model.labels.push_back(
          units::shim_text_plain(1, entry.outer_diameter.si, entry.thickness.si, units::System::Metric));
      model.entry.push_back(static_cast<int>(i));
    }
  }
}

void add_load_and_seat(const DirectionSpec& spec, plate::Stack& stack, FieldPlaces& places) {
  stack.clamp_radius = 0.5 * spec.boss.value_or(spec.clamp.si);
  stack.washer_radius = 0.5 * spec.clamp.si;
  places.add("clamp_radius", spec.boss ? spec.boss : spec.clamp, 2.0);
  places.add("washer_radius", spec.clamp, 2.0);

  stack.seat.present = spec.seat_support.value_or(true);
  stack.seat.radius = 0.5 * spec.seat.si;
  stack.seat.height = spec.seat_height.value_or(0.0);
  places.add("seat.radius", spec.seat, 2.0);
  places.add("seat.height", spec.seat_height);
  places.add("seat", spec.seat, 2.0);

  // without a pocket the oil reaches the face disc from the clamp to the seat, all round
  stack.load.inner_radius = stack.clamp_radius;
  stack.load.outer_radius = stack.seat.radius;
  if (spec.pocket) {
    stack.load.inner_radius = 0.5 * spec.pocket->inner.value_or(spec.clamp.si);
    stack.load.outer_radius = 0.5 * spec.pocket->outer.value_or(spec.seat.si);
    stack.load.arc_fraction = spec.pocket->arc.value_or(1.0);
    places.add("load.inner_radius", spec.pocket->inner, 2.0);
    places.add("load.outer_radius", spec.pocket->outer, 2.0);
    places.add("load.arc_fraction", spec.pocket->arc);
    places.add("load", spec.pocket->origin, units::Kind::Length, 2.0);
  }
  if (spec.land) stack.load.land_outer_radius = stack.seat.radius + spec.land.si;
  places.add("load.land_outer_radius", spec.land, 1.0);
}

void add_springs(const DirectionSpec& spec, plate::Stack& stack, FieldPlaces& places) {
  if (spec.floating) {
    stack.slide = {spec.floating->travel.value_or(0.0), spec.floating->spring_force.value_or(0.0),
                   spec.floating->spring_rate.value_or(0.0)};
    places.add("slide.travel", spec.floating->travel);
    places.add("slide.spring_force", spec.floating->spring_force);
    places.add("slide.spring_rate", spec.floating->spring_rate);
    places.add("slide", spec.floating->origin);
  }
  if (spec.back_spring) {
    stack.back_spring.present = true;
    stack.back_spring.radius = 0.5 * spec.back_spring->diameter.si;
    stack.back_spring.rate = spec.back_spring->rate.value_or(0.0);
    stack.back_spring.preload = spec.back_spring->force.value_or(0.0);
    stack.back_spring.gap = spec.back_spring->gap.value_or(0.0);
    places.add("back_spring.gap", spec.back_spring->gap);
    places.add("back_spring.radius", spec.back_spring->diameter, 2.0);
    places.add("back_spring.rate", spec.back_spring->rate);
    places.add("back_spring.preload", spec.back_spring->force);
    places.add("back_spring", spec.back_spring->origin);
  }
}

bool find_missing(const DirectionSpec& spec, const std::string& name, ResolveReport& report) {
  const std::size_t before = report.missing.size();
  if (spec.stack.empty()) report.missing.push_back({name, "at least one disc", "stack", spec.origin});
  if (!spec.seat) report.missing.push_back({name, "the seat's diameter", "seat", spec.origin});
  if (!spec.clamp)
    report.missing.push_back({name, "the diameter of the washer the discs bend over", "clamp", spec.origin});
  return report.missing.size() > before;
}

}  // namespace

plate::Theory plate_theory(Theory theory) {
  return theory == Theory::Large ? plate::Theory::Large : plate::Theory::Linear;
}

std::optional<StackModel> resolve_stack(const JobSpec& job, const DirectionSpec& spec,
                                        const StackContext& context, ResolveReport& report) {
  if (find_missing(spec, "the stack \"" + context.name + "\"", report)) return std::nullopt;

  StackModel model;
  model.name = context.name;
  model.origin = spec.origin;
  const double bore = context.post_diameter > 0.0 ? context.post_diameter : kDrawnBore * spec.clamp.si;
  add_discs(spec, bore, model);
  add_load_and_seat(spec, model.stack, model.places);
  add_springs(spec, model.stack, model.places);

  const Problems problems = plate::validate(model.stack);
  if (problems.empty()) return model;
  report.add_refused(job, problems, model.places, spec.origin);
  return std::nullopt;
}

}  // namespace shimwright::job
