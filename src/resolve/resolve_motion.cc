#include "resolve/resolve_motion.h"

#include <algorithm>
#include <numbers>

#include "resolve/areas.h"
#include "resolve/resolve_conditions.h"
#include "resolve/resolve_leg_air.h"
#include "resolve/resolve_reservoir.h"
#include "resolve/resolve_stack.h"

namespace shimwright::resolve {
namespace {

// what the job need not say; the first is an assumption that the result names
constexpr double kFreePistonInward = 5e-3;   // that it can follow missing oil [m]
constexpr double kDraggedPistonMass = 0.05;  // of a free piston whose seal drags [kg]
constexpr double kAluminiumModulus = 70e9;   // [Pa], from memory
constexpr double kMetalHeat = 900.0;         // aluminium [J/(kg K)], from memory
constexpr double kOilHeat = 1900.0;          // mineral oil [J/(kg K)], from memory

struct Maker {
  const file::JobSpec& job;
  const file::UnitSpec& unit;
  const DamperParts& damper;
  const MotionRequest& request;
  file::MotionSpec motion;  // empty when the unit has none
  MotionParts parts;

  damper::MotionModel& model() { return parts.model; }
  void assume(std::string sentence) { parts.assumptions.push_back(std::move(sentence)); }

  void add_chambers();
  void add_oil();
  void add_reservoir();
  void add_float();
  void add_extras();
  void add_heat();
};

double compliance_of(const file::MotionSpec& motion, double volume, double bore) {
  if (!motion.tube_wall) return 0.0;
  return damper::tube_compliance(volume, bore, motion.tube_wall.si,
                                 motion.tube_modulus.value_or(kAluminiumModulus));
}

void Maker::add_chambers() {
  const double bore = unit.piston.si;
  const double ring = model().piston_area - model().rod_area;
  const file::FillSpaceSpec* space = unit.fill && unit.fill->space ? &*unit.fill->space : nullptr;
  const bool known = space && space->length && space->rod_inside &&
                     space->length.si - space->rod_inside.si >= unit.travel.si &&
                     unit.fill->rod_at.value_or(file::RodAt::FullyOut) == file::RodAt::FullyOut;
  double rod_length = kSpareLength;
  double compression_length = unit.travel.si + kSpareLength;
  if (known) {
    rod_length = space->rod_inside.si;
    compression_length = space->length.si - space->rod_inside.si;
  } else if (!motion.compression_volume || !motion.rod_volume) {
    assume(
        "The job does not give the chamber volumes. The program assumes 30 mm of oil beyond the piston at "
        "each end of its travel.");
  }
  model().compression.volume = model().piston_area * compression_length;
  model().rod.volume = ring * rod_length;
  parts.places.bind("compression.volume", model().compression.volume, motion.compression_volume);
  parts.places.bind("rod.volume", model().rod.volume, motion.rod_volume);
  model().compression.compliance = compliance_of(motion, model().compression.volume, bore);
  model().rod.compliance = compliance_of(motion, model().rod.volume, bore);

  damper::MotionChamber& reservoir = model().reservoir.oil;
  const file::Quantity elsewhere = space ? space->elsewhere : file::Quantity{};
  if (!motion.reservoir_oil && !elsewhere) {
    reservoir.volume = kReservoirOil;
    assume("The job does not give the oil in the reservoir. The program assumes 50 mL.");
  }
  parts.places.bind("reservoir.oil.volume", reservoir.volume,
                    motion.reservoir_oil ? motion.reservoir_oil : elsewhere);

  if (request.air_left == nullptr) return;
  const file::AirLeftSpec& air = *request.air_left;
  parts.places.bind("compression.trapped_air", model().compression.trapped_air, air.compression);
  parts.places.bind("rod.trapped_air", model().rod.trapped_air, air.rod);
  parts.places.bind("reservoir.oil.trapped_air", reservoir.trapped_air, air.reservoir);
}

void Maker::add_oil() {
  damper::MotionOil& oil = model().oil;
  oil.bulk_modulus = damper.oil.bulk_modulus;
  oil.entrained_air = damper.oil.entrained_air;
  oil.bunsen = damper.oil.bunsen;
  oil.release_pressure = damper.oil.release_pressure;
  oil.return_time = damper.oil.return_time;
}

void Maker::add_reservoir() {
  damper::MotionReservoir& reservoir = model().reservoir;
  reservoir.dry_pressure = request.ambient_pressure;
  // rod fully out, with oil and gas at the temperature of the start
  const ReservoirModel& held = damper.reservoir;
  const assembly::ReservoirState state = reservoir_at(held, damper.oil, 0.0, request.oil_temperature);
  const auto charge_of_gas = [&] {
    if (held.gas_assumed)
      assume("The job does not give the gas volume. The program assumes three times the volume of the rod.");
    return damper::GasCushion{.pressure = state.pressure, .volume = state.gas_volume};
  };

  // the air over the oil of an open leg: the leg's own slide squeezes it beside the rod
  const bool open_leg = !unit.reservoir || !unit.reservoir->kind;
  if (open_leg) {
    reservoir.gas = charge_of_gas();
    reservoir.gas->travel_area = held.reservoir.leg_area;
    return;
  }

  const file::ReservoirSpec& spec = *unit.reservoir;
  FieldPlaces& places = parts.places;
  places.add("reservoir.gas", spec.origin);
  places.add("reservoir.piston", spec.origin);
  places.add("reservoir", spec.origin);
  const bool sprung = spec.kind.value == file::ReservoirKind::SprungPiston;
  if (!sprung) {
    reservoir.gas = charge_of_gas();
    places.add("reservoir.gas.volume", spec.volume);
  }
  if (spec.kind.value == file::ReservoirKind::AirOverOil || !spec.piston) return;
  damper::FreePiston piston;
  piston.area = disc_area(spec.piston.si);
  places.bind("reservoir.piston.friction", piston.friction, spec.friction);
  piston.mass = piston.friction > 0.0 ? kDraggedPistonMass : 0.0;
  places.bind("reservoir.piston.mass", piston.mass, motion.free_piston_mass);
  const double pushed = state.taken / piston.area;  // by the oil that grew
  if (sprung) {
    piston.spring_force = held.reservoir.spring_force + held.reservoir.spring_rate * pushed;
    piston.spring_rate = held.reservoir.spring_rate;
    places.add("reservoir.piston.spring_force", spec.spring_force);
    places.add("reservoir.piston.spring_rate", spec.spring_rate);
  }
  piston.travel_in = kFreePistonInward;
  places.bind("reservoir.piston.travel_in", piston.travel_in, motion.free_piston_inward);
  piston.travel_out =
      (reservoir.gas ? held.reservoir.gas_volume : model().rod_area * unit.travel.si * 2) / piston.area;
  places.bind("reservoir.piston.travel_out", piston.travel_out, spec.stroke);
  piston.travel_in = std::max(0.0, piston.travel_in + pushed);
  piston.travel_out = std::max(0.0, piston.travel_out - pushed);
  if (motion.relief_port) {
    damper::ReliefPort port;
    places.bind("reservoir.piston.port.position", port.position, motion.relief_port->position);
    port.position -= pushed;
    places.bind("reservoir.piston.port.area", port.area, motion.relief_port->area);
    port.outside_pressure = request.ambient_pressure;
    piston.port = port;
  }
  reservoir.piston = piston;
}

/// A mid-valve that floats: what it sweeps passes before it bends.
void Maker::add_float() {
  if (!damper.piston.compression_stack) return;
  const plate::Stack& stack = damper.piston.compression_stack->stack;
  if (stack.slide.travel <= 0.0 || stack.discs.empty()) return;
  const auto ring = [](double outer, double inner) {
    return std::numbers::pi * (outer * outer - inner * inner);
  };
  const double pressed =
      ring(stack.load.outer_radius, std::max(stack.load.inner_radius, stack.clamp_radius)) *
      stack.load.arc_fraction;
  if (pressed <= 0.0) return;
  damper::FloatingValve valve;
  valve.swept_area = ring(stack.discs.front().outer_radius, stack.discs.front().bore_radius);
  valve.gap = stack.slide.travel;
  valve.opening_drop = stack.slide.spring_force / pressed;
  const double full = (stack.slide.spring_force + stack.slide.spring_rate * stack.slide.travel) / pressed;
  constexpr double kLeastRise = 10.0;  // a spring of no rate lets go all at once [Pa]
  valve.full_drop = std::max(full, valve.opening_drop + kLeastRise);
  model().float_valve = valve;
}

void Maker::add_extras() {
  for (std::size_t i = 0; i < motion.restrictions.size(); ++i) {
    const file::RestrictionSpec& spec = motion.restrictions[i];
    damper::Restriction restriction;
    FieldPlaces places;
    places.add("", spec.origin);
    places.bind("start", restriction.start, spec.begins);
    places.bind("end", restriction.end, spec.ends);
    places.bind("opening_start", restriction.opening_start, spec.opening_first);
    places.bind("opening_end", restriction.opening_end, spec.opening_last);
    restriction.area = disc_area(spec.diameter.si);
    restriction.outside_pressure = request.ambient_pressure;
    parts.places.add_all("restrictions[" + std::to_string(i) + "]", places);
    model().restrictions.push_back(restriction);
  }
  if (!motion.position_bleed.empty()) {
    damper::PositionBleed bleed;
    for (const file::PositionBleedSpec& row : motion.position_bleed) {
      bleed.travel.push_back(row.travel.si);
      bleed.area.push_back(row.area.si);
    }
    model().position_bleed = std::move(bleed);
    parts.places.add("position_bleed", motion.position_bleed.front().origin);
  }
  const auto air = leg_air(unit, request.ambient_pressure);
  if (motion.with_leg_air.value_or(false) && air && model().reservoir.piston) {
    model().outer_air = damper::OuterAir{.area = air->area, .volume = air->volume, .pressure = air->pressure};
    parts.places.add("outer_air", motion.with_leg_air.origin);
  }
}

void Maker::add_heat() {
  if (!motion.metal_mass) {
    assume(
        "The job does not give the mass of metal that warms with the oil. The temperature stays the same and "
        "the damper does not fade.");
    return;
  }
  const double oil_volume = model().compression.volume + model().rod.volume + model().reservoir.oil.volume;
  damper::HeatModel heat;
  heat.capacity = kMetalHeat * motion.metal_mass.si + kOilHeat * damper.liquid.density * oil_volume;
  heat.loss = motion.cooling_time ? heat.capacity / motion.cooling_time.si : 0.0;
  heat.air_temperature = request.air_temperature;
  model().heat = heat;
  parts.places.add("heat", motion.metal_mass.origin);
}

/// Where the laws are solved: the start alone, or up to where a run may heat the oil.
std::vector<double> law_temperatures(const damper::MotionModel& model) {
  if (!model.heat) return {model.temperature};
  constexpr double kSteps[] = {-10.0, 0.0, 15.0, 30.0, 50.0, 75.0};
  std::vector<double> temperatures;
  for (const double step : kSteps) temperatures.push_back(model.temperature + step);
  return temperatures;
}

}  // namespace

std::optional<MotionParts> resolve_motion(const file::JobSpec& job, const file::UnitSpec& unit,
                                          const DamperParts& damper, const MotionRequest& request,
                                          ResolveReport& report, plate::Workspace& workspace) {
  if (!unit.travel) {
    report.missing.push_back(
        {"the bench run of \"" + unit.name.value + "\"", "the travel of the unit", "travel", unit.origin});
    return std::nullopt;
  }
  Maker maker{job, unit, damper, request, unit.motion.value_or(file::MotionSpec{}), {}};
  damper::MotionModel& model = maker.model();
  const damper::Chambers& chambers = damper.model.chambers;
  model.piston_area = chambers.piston_area;
  model.rod_area = chambers.rod_area;
  maker.parts.places.bind("travel", model.travel, unit.travel);
  model.atmospheric_pressure = request.ambient_pressure;
  model.seal_friction = chambers.seal_friction;
  model.temperature = request.oil_temperature;
  maker.parts.places.add("seal_friction", unit.seal_friction);
  maker.add_chambers();
  maker.add_oil();
  maker.add_reservoir();
  maker.add_float();
  maker.add_extras();
  maker.add_heat();

  // the valves, over the temperatures of the run
  if (!request.at_rest) {
    std::optional<damper::SolvedDamper> own;
    if (request.solved == nullptr) {
      plate::Options options;
      options.theory = request.theory;
      own = damper::solve_damper(damper.model, damper.liquid, std::max(request.top_speed, damper.top_speed),
                                 options, workspace);
    }
    const damper::DamperStacks& stacks = own ? own->stacks : request.solved->stacks;
    model.laws = damper::laws_over_temperature(damper.model, stacks, damper.oil, law_temperatures(model));
  }

  const Problems problems = request.at_rest ? damper::validate_at_rest(model) : damper::validate(model);
  if (problems.empty()) return std::move(maker.parts);
  const file::Origin& around = unit.motion ? unit.motion->origin : unit.origin;
  report.add_refused(job, problems, maker.parts.places, around);
  return std::nullopt;
}

}  // namespace shimwright::resolve
