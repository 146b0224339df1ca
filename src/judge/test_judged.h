#pragma once
#include "document/document_phrase.h"
#include "judge/findings.h"

// What the tests of this module judge: a unit, and a unit on the bench, built by hand and in order in all
// that is looked at, so that each test puts one thing out of order.

namespace shimwright::judge::testing_judged {

/// A leg with one stack in each stroke of its piston valve, in order in all that is judged.
struct Leg {
  file::JobSpec job;
  document::ResultDocument document;

  document::UnitResult& unit() { return document.units.front(); }
  document::DirectionResult& direction() { return unit().valves.front().directions.front(); }
  document::StackResult& stack() { return *direction().stack; }
  document::DiscStress& disc() { return stack().points.front().discs.front(); }
  document::CavitationResult& cavitation() { return unit().force->cavitation.front(); }
  file::UnitSpec& spec() { return job.units.front(); }

  Leg() {
    job.units.emplace_back().name = {"leg", {}};
    spec().piston_valve.emplace().bleeds.emplace_back();
    document::UnitResult& unit = document.units.emplace_back();
    unit.name = "leg";
    document::ValveResult& valve = unit.valves.emplace_back();
    valve.post.emplace();
    document::DirectionResult& direction = valve.directions.emplace_back();
    document::StackResult& stack = direction.stack.emplace();
    stack.theory = Theory::Large;
    stack.fatigue_margin = 2.0;
    stack.yield_margin = 3.0;
    stack.geometry.discs.emplace_back().thickness = 0.15e-3;
    document::StackPoint& point = stack.points.emplace_back();
    point.pressure = 1e6;
    document::DiscStress& disc = point.discs.emplace_back();
    disc.number = 1;
    disc.fatigue_margin = 2.0;
    disc.yield_margin = 3.0;
    direction.opening_speed = 0.1;
    direction.choking_speed = 9.0;
    document::LawPoint& law = direction.law.emplace_back();
    law.speed = 0.5;
    law.flow = law.stack_flow = 1e-4;
    law.carrier = document::Carrier::Bleed;
    document::ForceResult& force = unit.force.emplace();
    force.key_forces = {{0.1, 1, 1, false, false}, {0.5, 1, 1, false, false}};
    document::CavitationResult& cavitation = force.cavitation.emplace_back();
    cavitation.working_speed = 1.5;
    cavitation.margin_wanted = 20e3;
    cavitation.margin_at_working_speed = 50e3;
    document.conditions.ambient_pressure = 101325.0;
  }

  document::SpringResult& springs() {
    if (!unit().springs) unit().springs.emplace().travel = 0.3;
    return *unit().springs;
  }
  document::SagResult& sag(document::SagLoad load) {
    document::SagResult& sag = springs().sag.emplace_back();
    sag.under = load;
    sag.low = document::computed(0.060, units::Kind::Length);
    sag.high = document::computed(0.080, units::Kind::Length);
    return sag;
  }
  document::ReservoirState& fullest() {
    spec().reservoir.emplace();
    document::ReservoirResult& reservoir = unit().reservoir.emplace();
    reservoir.room_known = true;
    return reservoir.states.emplace_back();
  }
  void set_rest(double gauge) { fullest().pressure = gauge + document.conditions.ambient_pressure; }
  void set_room(double left) {
    document::ReservoirState& state = fullest();
    state.pressure = document.conditions.ambient_pressure;
    state.room_left = left;
  }
  /// A cartridge with this room, filled beside it by a difference, and what its rod displaces.
  void set_fill(double room, double difference, double rod) {
    unit().reservoir.emplace().rod_volume = rod;
    document::FillChamber& chamber = unit().fill.emplace().chambers.emplace_back();
    chamber.volume = room;
    chamber.stated = document::computed(room + difference, units::Kind::Volume);
  }
  void set_outer_fill(double room, double difference) {
    set_fill(room, difference, 20e-6);
    unit().fill->chambers.back().room = document::FillRoom::Outer;
  }
  void set_float(double stated, double left) {
    file::ValveSpec& valve = *spec().piston_valve;
    valve.post.emplace();
    file::PieceSpec& piston = valve.pieces.emplace_back();
    piston.role.value = file::PieceRole::Piston;
    piston.role.given = true;
    document::PostResult& post = *unit().valves.front().post;
    post.thread.emplace();
    post.floats.push_back({Stroke::Compression, "collar", stated, left, 0.1e-3});
  }
  void set_level(double air, double tube) {
    const auto length = [](double si) {
      file::Quantity quantity;
      quantity.si = si;
      quantity.given = true;
      return quantity;
    };
    unit().fill.emplace();
    spec().trapped_air.emplace().level = length(air);
    spec().fill.emplace().tube.emplace().level = length(tube);
  }
  void set_gas(double gauge) {
    file::Quantity& pressure = spec().reservoir.emplace().pressure;
    pressure.given = true;
    pressure.si = gauge;
    pressure.reference = units::Reference::Gauge;
    pressure.origin.file = 0;
  }
  void set_air(double gauge) {
    file::Quantity& pressure = spec().air_spring.emplace().positive.emplace().pressure;
    pressure.given = true;
    pressure.si = gauge;
    pressure.reference = units::Reference::Gauge;
    pressure.origin.file = 0;
  }
};

/// A unit on the bench, in order in all that is judged.
struct Benched {
  file::JobSpec job;
  document::BenchDocument document;

  document::BenchUnit& unit() { return document.units.front(); }
  document::BenchRun& run() { return unit().runs.front(); }
  document::BenchCycle& cycle() { return run().cycles.back(); }
  /// A loss by warm oil.
  void fade(double share) {
    run().fade = share;
    cycle().temperature_end = 40.0;
  }

  Benched() {
    job.units.emplace_back().name = {"leg", {}};
    document.conditions.ambient_pressure = 101325.0;
    document::BenchUnit& unit = document.units.emplace_back();
    unit.name = "leg";
    unit.release_pressure = 50e3;
    unit.piston_travel_in = 0.02;
    unit.piston_travel_out = 0.03;
    document::BenchRun& run = unit.runs.emplace_back();
    run.name = "a run";
    run.frequency = 2.0;
    run.top_speed = 1.0;
    run.finished = true;
    run.cycles.resize(3);
    for (document::BenchCycle& cycle : run.cycles) {
      cycle.lowest_pressure = 500e3;
      cycle.lowest_speed = 1.0;
    }
  }
};

}  // namespace shimwright::judge::testing_judged
