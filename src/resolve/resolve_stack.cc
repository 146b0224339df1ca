#include "resolve/resolve_stack.h"

#include <algorithm>
#include <cmath>

#include "units/stack_text.h"

namespace shimwright::resolve {
namespace {

/// Bore of the discs of a lone stack that states none, over the clamp diameter. It is only drawn: what lies
/// inside the clamp does not bend.
constexpr double kDrawnBore = 0.6;

void set_material(const file::MaterialSpec& material, plate::Disc& disc) {
  const file::MaterialSpec steel = file::default_spring_steel();
  disc.youngs_modulus = material.youngs_modulus.value_or(steel.youngs_modulus.si);
  disc.poisson_ratio = material.poisson_ratio.value_or(steel.poisson_ratio.value);
  disc.yield_strength = material.yield_strength.value_or(0.0);
  disc.fatigue_strength = material.fatigue_strength.value_or(0.0);
  disc.ultimate_strength = material.strength.value_or(0.0);
}

/// A notch that states no depth is cut just deep enough to cross the seat.
plate::RimNotches rim_notches(const file::NotchSpec& notch, double outer_radius, double seat_radius) {
  return {notch.count.value_or(1), notch.width.si,
          notch.depth.value_or(std::max(0.0, outer_radius - seat_radius))};
}

plate::Disc resolve_disc(const file::DiscSpec& spec, const file::DirectionSpec& direction,
                         double bore_diameter, FieldPlaces& places) {
  plate::Disc disc;
  disc.bore_radius = 0.5 * bore_diameter;
  places.add("", spec.origin, units::Kind::Length);
  places.bind("outer_radius", disc.outer_radius, spec.outer_diameter, 2.0);
  places.bind("bore_radius", disc.bore_radius, spec.bore, 2.0);
  places.bind("thickness", disc.thickness, spec.thickness);
  if (spec.material) {
    set_material(*spec.material, disc);
  } else if (direction.material) {
    set_material(*direction.material, disc);
  } else {
    set_material(file::default_spring_steel(), disc);
  }
  if (spec.notches) {
    disc.notches = rim_notches(*spec.notches, disc.outer_radius, 0.5 * direction.seat.si);
    places.add("notches", spec.notches->origin, units::Kind::Length);
  }
  return disc;
}

void add_discs(const file::DirectionSpec& spec, double bore_diameter, StackModel& model) {
  for (std::size_t i = 0; i < spec.stack.size(); ++i) {
    const file::DiscSpec& entry = spec.stack[i];
    FieldPlaces places;
    const plate::Disc disc = resolve_disc(entry, spec, bore_diameter, places);
    for (int n = 0; n < entry.count.value_or(1); ++n) {
      model.places.add_all("discs[" + std::to_string(model.stack.discs.size()) + "]", places);
      model.stack.discs.push_back(disc);
      model.labels.push_back(
          units::shim_text_plain(1, entry.outer_diameter.si, entry.thickness.si, units::System::Metric));
      model.entry.push_back(static_cast<int>(i));
    }
  }
}

void add_load_and_seat(const file::DirectionSpec& spec, plate::Stack& stack, FieldPlaces& places) {
  places.bind("clamp_radius", stack.clamp_radius, spec.boss ? spec.boss : spec.clamp, 2.0);
  places.bind("washer_radius", stack.washer_radius, spec.clamp, 2.0);

  stack.seat.present = spec.seat_support.value_or(true);
  places.bind("seat.radius", stack.seat.radius, spec.seat, 2.0);
  places.bind("seat.height", stack.seat.height, spec.seat_height);
  places.add("seat", spec.seat, 2.0);

  // without a pocket the oil reaches the face disc from the clamp to the seat, all round
  stack.load.inner_radius = stack.clamp_radius;
  stack.load.outer_radius = stack.seat.radius;
  if (spec.pocket) {
    stack.load.inner_radius = stack.washer_radius;
    places.bind("load.inner_radius", stack.load.inner_radius, spec.pocket->inner, 2.0);
    places.bind("load.outer_radius", stack.load.outer_radius, spec.pocket->outer, 2.0);
    places.bind("load.arc_fraction", stack.load.arc_fraction, spec.pocket->arc);
    places.add("load", spec.pocket->origin, units::Kind::Length, 2.0);
  }
  // the pressure falls over the flat face from the pocket's edge outwards, to the seat and over its land
  const double face = seat_face_width(spec);
  if (face > 0.0) stack.load.land_outer_radius = stack.load.outer_radius + face;
  places.add("load.land_outer_radius", spec.land ? spec.land : spec.seat, 1.0);
}

void add_springs(const file::DirectionSpec& spec, plate::Stack& stack, FieldPlaces& places) {
  if (spec.floating) {
    places.bind("slide.travel", stack.slide.travel, spec.floating->travel);
    places.bind("slide.spring_force", stack.slide.spring_force, spec.floating->spring_force);
    places.bind("slide.spring_rate", stack.slide.spring_rate, spec.floating->spring_rate);
    places.add("slide", spec.floating->origin);
  }
  if (spec.back_spring) {
    stack.back_spring.present = true;
    places.bind("back_spring.gap", stack.back_spring.gap, spec.back_spring->gap);
    places.bind("back_spring.radius", stack.back_spring.radius, spec.back_spring->diameter, 2.0);
    places.bind("back_spring.rate", stack.back_spring.rate, spec.back_spring->rate);
    places.bind("back_spring.preload", stack.back_spring.preload, spec.back_spring->force);
    places.add("back_spring", spec.back_spring->origin);
  }
}

bool find_missing(const file::DirectionSpec& spec, const std::string& name, ResolveReport& report) {
  const std::size_t before = report.missing.size();
  if (spec.stack.empty()) report.missing.push_back({name, "at least one disc", "stack", spec.origin});
  if (!spec.seat) report.missing.push_back({name, "the seat's diameter", "seat", spec.origin});
  if (!spec.clamp) report.missing.push_back({name, "the diameter of the clamp washer", "clamp", spec.origin});
  return report.missing.size() > before;
}

}  // namespace

double seat_face_width(const file::DirectionSpec& spec) {
  const double land = spec.land.value_or(0.0);
  if (!spec.seat_support.value_or(true) || !spec.pocket || !spec.pocket->outer || !spec.seat) return land;
  return land + std::max(0.0, 0.5 * (spec.seat.si - spec.pocket->outer.si));
}

std::optional<StackModel> resolve_stack(const file::JobSpec& job, const file::DirectionSpec& spec,
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

}  // namespace shimwright::resolve
