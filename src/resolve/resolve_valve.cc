#include "resolve/resolve_valve.h"

#include <cmath>
#include <numbers>

namespace shimwright::resolve {
namespace {

/// Coefficient of a sharp edge at high flow. Common practice, no source.
constexpr double kSharpEdge = 0.7;

flow::Discharge hole_discharge(const file::Number& fixed, bool has_length) {
  if (fixed) return flow::fixed_discharge(fixed.value);
  const auto law = has_length ? flow::Discharge::Law::ThickEdge : flow::Discharge::Law::SharpEdge;
  return {.law = law, .coefficient = kSharpEdge, .laminar = flow::Discharge::Laminar::WuestRound};
}

flow::Discharge slot_discharge(const file::Number& fixed) {
  if (fixed) return flow::fixed_discharge(fixed.value);
  return flow::sharp_discharge(kSharpEdge, flow::Discharge::Laminar::WuestSlot);
}

std::optional<flow::Orifice> resolve_ports(const file::DirectionSpec& spec, FieldPlaces& places) {
  if (!spec.port_area && !spec.port_bore) return std::nullopt;
  const int count = spec.port_count.value_or(1);
  const double each =
      spec.port_area ? spec.port_area.si : 0.25 * std::numbers::pi * spec.port_bore.si * spec.port_bore.si;
  flow::Orifice ports;
  ports.area = count * each;
  // a port of another shape counts as the round one of its area
  ports.hydraulic_diameter = 2.0 * std::sqrt(each / std::numbers::pi);
  places.add("area", spec.port_area ? spec.port_area : spec.port_bore);
  places.bind("length", ports.length, spec.port_length);
  ports.discharge = hole_discharge(spec.port_discharge, spec.port_length.given);
  places.add("discharge", spec.port_discharge.origin);
  return ports;
}

/// Notches of the face disc: they never close, and lie behind the ports.
std::optional<flow::Notches> face_notches(const file::DirectionSpec& spec) {
  if (spec.stack.empty() || !spec.stack.front().notches) return std::nullopt;
  const file::DiscSpec& face = spec.stack.front();
  flow::Notches notches;
  notches.n_notches = face.notches->count.value_or(1);
  notches.width = face.notches->width.si;
  notches.thickness = face.thickness.si;
  notches.length = spec.land.value_or(0.0);
  return notches;
}

void add_direction(const file::JobSpec& job, const file::DirectionSpec& spec, const StackContext& context,
                   const std::string& field, valve::DirectionModel& model, std::optional<StackModel>& stack,
                   FieldPlaces& places, ResolveReport& report) {
  FieldPlaces ports;
  model.ports = resolve_ports(spec, ports);
  places.add_all(field + ".ports", ports);
  places.add(field, spec.origin, units::Kind::Length);

  model.curtain_discharge = slot_discharge(spec.stack_discharge);
  places.add(field + ".curtain.discharge", spec.stack_discharge.origin);
  places.bind(field + ".curtain.land_width", model.land_width, spec.land);
  if (const auto notches = face_notches(spec)) model.face_bleeds.push_back(*notches);

  if (spec.stack.empty()) return;
  stack = resolve_stack(job, spec, context, report);
  if (!stack) return;
  model.stack = stack->stack;
  places.add_all(field + ".stack", stack->places);
}

flow::Needle resolve_needle(const file::BleedSpec& spec, FieldPlaces& places) {
  flow::Needle needle;
  places.bind("bore_diameter", needle.bore_diameter, spec.seat);
  places.bind("half_angle", needle.half_angle, spec.half_angle);
  places.bind("pitch", needle.pitch, spec.per_click);
  needle.clicks_per_turn = 1.0;  // the file gives the distance of one click, so one click is the turn
  places.bind("seated_clearance", needle.seated_clearance, spec.seated_clearance);
  needle.clicks = spec.clicks.value_or(0);
  if (spec.discharge) needle.discharge = flow::fixed_discharge(spec.discharge.value);
  places.add("discharge", spec.discharge.origin);
  return needle;
}

flow::AnnularGap resolve_gap(const file::BleedSpec& spec, const file::Quantity& piston, FieldPlaces& places) {
  flow::AnnularGap gap;
  places.bind("diameter", gap.diameter, spec.diameter ? spec.diameter : piston);
  places.bind("clearance", gap.clearance, spec.clearance, 2.0);  // written as a difference of diameters
  places.bind("length", gap.length, spec.length);
  places.bind("eccentricity", gap.eccentricity, spec.eccentricity);
  return gap;
}

/// `places` takes those of one passage: equal ones were written once.
std::vector<flow::Passage> passages_of(const file::BleedSpec& spec, const file::Quantity& piston,
                                       FieldPlaces& places) {
  places.add("", spec.origin, units::Kind::Length);
  const int count = spec.count.value_or(1);
  switch (spec.kind.value) {
    case file::BleedKind::Needle:
      return std::vector<flow::Passage>(static_cast<std::size_t>(count), resolve_needle(spec, places));
    case file::BleedKind::Bored:
      return {flow::round_holes(count, spec.diameter.si, spec.length.value_or(0.0),
                                hole_discharge(spec.discharge, spec.length.given))};
    case file::BleedKind::Notch: {
      flow::Notches notches;
      notches.n_notches = count;
      places.bind("width", notches.width, spec.width);
      places.bind("thickness", notches.thickness, spec.depth);
      places.bind("length", notches.length, spec.length);
      notches.discharge = slot_discharge(spec.discharge);
      places.add("discharge", spec.discharge.origin);
      return {notches};
    }
    case file::BleedKind::Leakage:
      break;
  }
  return std::vector<flow::Passage>(static_cast<std::size_t>(count), resolve_gap(spec, piston, places));
}

struct Need {
  const file::Quantity* quantity;
  const char* what;
  const char* key;
};

bool find_missing(const file::BleedSpec& spec, const file::Quantity& piston, ResolveReport& report) {
  const std::size_t before = report.missing.size();
  const std::string part = "the bleed \"" + spec.name.value + "\"";
  std::vector<Need> needs;
  if (!spec.kind) {
    report.missing.push_back({part, "its kind", "kind", spec.origin});
    return true;
  }
  switch (spec.kind.value) {
    case file::BleedKind::Needle:
      needs = {{&spec.seat, "the diameter of its bore", "seat"},
               {&spec.half_angle, "the half angle of its cone", "half_angle"},
               {&spec.per_click, "the distance of one click", "per_click"}};
      if (!spec.clicks) report.missing.push_back({part, "its setting", "clicks", spec.origin});
      break;
    case file::BleedKind::Bored:
      needs = {{&spec.diameter, "its diameter", "diameter"}};
      break;
    case file::BleedKind::Notch:
      needs = {{&spec.width, "its width", "width"}, {&spec.depth, "its depth", "depth"}};
      break;
    case file::BleedKind::Leakage:
      needs = {{&spec.clearance, "the clearance", "clearance"},
               {&spec.length, "the length of the band", "length"}};
      if (!spec.diameter && !piston)
        report.missing.push_back({part, "the diameter of the band", "diameter", spec.origin});
      break;
  }
  for (const Need& need : needs) {
    if (!*need.quantity) report.missing.push_back({part, need.what, need.key, spec.origin});
  }
  return report.missing.size() > before;
}

void add_bleeds(const file::ValveSpec& spec, const file::Quantity& piston, ValveParts& parts,
                ResolveReport& report) {
  for (std::size_t i = 0; i < spec.bleeds.size(); ++i) {
    const file::BleedSpec& bleed = spec.bleeds[i];
    if (find_missing(bleed, piston, report)) continue;
    const file::ActsIn acts = bleed.acts_in.value_or(file::ActsIn::Both);
    FieldPlaces places;
    for (const flow::Passage& passage : passages_of(bleed, piston, places)) {
      const auto* gap = std::get_if<flow::AnnularGap>(&passage);
      if (gap != nullptr && acts == file::ActsIn::Both && !parts.model.leakage) {
        parts.model.leakage = *gap;
        parts.places.add_all("leakage", places);
        continue;
      }
      parts.places.add_all("bleeds[" + std::to_string(parts.model.bleeds.size()) + "]", places);
      parts.model.bleeds.push_back(
          {passage, acts != file::ActsIn::Rebound, acts != file::ActsIn::Compression});
      parts.spec_of_bleed.push_back(i);
    }
  }
}

}  // namespace

std::optional<ValveParts> resolve_valve(const file::JobSpec& job, const file::ValveSpec& spec,
                                        ValvePlace place, const std::string& unit_name,
                                        const file::Quantity& piston, ResolveReport& report) {
  ValveParts parts;
  parts.place = place;
  parts.name = unit_name + ", " + word(place);
  parts.spec = &spec;
  const double post_diameter = spec.post && spec.post->thread ? spec.post->thread.size.diameter : 0.0;
  // the discs of a floating stack sit on its collar
  const auto centre = [&](const file::DirectionSpec& direction, file::PieceKind stack) {
    const bool floats = direction.floating && direction.floating->travel.value_or(0.0) > 0.0;
    const file::PieceSpec* collar = floats ? file::collar_of(spec, stack) : nullptr;
    return collar != nullptr ? collar->outer_diameter.value_or(post_diameter) : post_diameter;
  };
  const std::size_t faults_before = report.size();
  if (spec.compression) {
    add_direction(
        job, *spec.compression,
        {parts.name + ", compression", centre(*spec.compression, file::PieceKind::CompressionStack)},
        "compression", parts.model.compression, parts.compression_stack, parts.places, report);
  }
  if (spec.rebound) {
    add_direction(job, *spec.rebound,
                  {parts.name + ", rebound", centre(*spec.rebound, file::PieceKind::ReboundStack)}, "rebound",
                  parts.model.rebound, parts.rebound_stack, parts.places, report);
  }
  add_bleeds(spec, piston, parts, report);
  if (report.size() > faults_before) return std::nullopt;

  const Problems problems = valve::validate(parts.model);
  if (problems.empty()) return parts;
  report.add_refused(job, problems, parts.places, spec.origin);
  return std::nullopt;
}

}  // namespace shimwright::resolve
