#pragma once
#include "job/document_bench.h"
#include "job/document_fields_whole.h"

namespace shimwright::job::internal {

/// The members of the bench document, as document_fields.h has those of the result document.

template <>
struct Fields<BenchLoop> {
  static constexpr auto list = std::make_tuple(
      field("time", &BenchLoop::time), field("travel", &BenchLoop::travel), field("speed", &BenchLoop::speed),
      field("force", &BenchLoop::force), field("friction", &BenchLoop::friction),
      field("lock", &BenchLoop::lock), field("springs", &BenchLoop::springs),
      field("compression_pressure", &BenchLoop::compression_pressure),
      field("rod_pressure", &BenchLoop::rod_pressure),
      field("reservoir_pressure", &BenchLoop::reservoir_pressure),
      field("released_air", &BenchLoop::released_air), field("piston_travel", &BenchLoop::piston_travel),
      field("temperature", &BenchLoop::temperature));
};

template <>
struct Fields<BenchCycle> {
  static constexpr auto list = std::make_tuple(
      field("number", &BenchCycle::number), field("energy_in", &BenchCycle::energy_in),
      field("heat", &BenchCycle::heat), field("stored_change", &BenchCycle::stored_change),
      field("energy_error", &BenchCycle::energy_error),
      field("compression_force", &BenchCycle::compression_force),
      field("compression_travel", &BenchCycle::compression_travel),
      field("rebound_force", &BenchCycle::rebound_force),
      field("rebound_travel", &BenchCycle::rebound_travel),
      field("damper_compression_force", &BenchCycle::damper_compression_force),
      field("damper_rebound_force", &BenchCycle::damper_rebound_force),
      field("compression_speed", &BenchCycle::compression_speed),
      field("rebound_speed", &BenchCycle::rebound_speed), field("phase_lag", &BenchCycle::phase_lag),
      field("lowest_pressure", &BenchCycle::lowest_pressure),
      field("lowest_chamber", &BenchCycle::lowest_chamber),
      field("lowest_travel", &BenchCycle::lowest_travel), field("lowest_speed", &BenchCycle::lowest_speed),
      field("released_air", &BenchCycle::released_air),
      field("piston_travel_least", &BenchCycle::piston_travel_least),
      field("piston_travel_most", &BenchCycle::piston_travel_most),
      field("lock_pressure", &BenchCycle::lock_pressure), field("oil_lost", &BenchCycle::oil_lost),
      field("temperature_end", &BenchCycle::temperature_end));
};

template <>
struct Fields<BenchEvent> {
  static constexpr auto list =
      std::make_tuple(field("time", &BenchEvent::time), field("travel", &BenchEvent::travel),
                      field("force", &BenchEvent::force), field("what", &BenchEvent::what));
};

template <>
struct Fields<TurnLag> {
  static constexpr auto list = std::make_tuple(
      field("stroke", &TurnLag::stroke), field("travel", &TurnLag::travel), field("clean", &TurnLag::clean));
};

template <>
struct Fields<AirReading> {
  static constexpr auto list =
      std::make_tuple(field("chamber", &AirReading::chamber), field("air", &AirReading::air),
                      field("misfit", &AirReading::misfit), field("misfit_clean", &AirReading::misfit_clean),
                      field("outcome", &AirReading::outcome));
};

template <>
struct Fields<MeasuredLoop> {
  static constexpr auto list =
      std::make_tuple(field("time", &MeasuredLoop::time), field("travel", &MeasuredLoop::travel),
                      field("force", &MeasuredLoop::force), field("computed", &MeasuredLoop::computed));
};

template <>
struct Fields<BenchRun> {
  static constexpr auto list = std::make_tuple(
      field("name", &BenchRun::name), field("kind", &BenchRun::kind), field("stroke", &BenchRun::stroke),
      field("middle", &BenchRun::middle), field("frequency", &BenchRun::frequency),
      field("top_speed", &BenchRun::top_speed), field("n_cycles", &BenchRun::n_cycles),
      field("finished", &BenchRun::finished), field("loop", &BenchRun::loop),
      field("cycles", &BenchRun::cycles), field("events", &BenchRun::events),
      field("turns", &BenchRun::turns), field("air", &BenchRun::air), field("measured", &BenchRun::measured),
      field("fade", &BenchRun::fade), field("settled", &BenchRun::settled),
      field("n_steps", &BenchRun::n_steps), field("outcome", &BenchRun::outcome));
};

template <>
struct Fields<BenchSprings> {
  static constexpr auto list =
      std::make_tuple(field("in", &BenchSprings::in), field("names", &BenchSprings::names),
                      field("force_out", &BenchSprings::force_out),
                      field("force_in", &BenchSprings::force_in), field("words", &BenchSprings::words));
};

template <>
struct Fields<ReleaseTrace> {
  static constexpr auto list = std::make_tuple(
      field("name", &ReleaseTrace::name), field("time", &ReleaseTrace::time),
      field("travel", &ReleaseTrace::travel), field("speed", &ReleaseTrace::speed),
      field("force", &ReleaseTrace::force), field("springs", &ReleaseTrace::springs),
      field("compression_pressure", &ReleaseTrace::compression_pressure),
      field("rod_pressure", &ReleaseTrace::rod_pressure), field("events", &ReleaseTrace::events));
};

template <>
struct Fields<ReservoirAdvice> {
  static constexpr auto list = std::make_tuple(
      field("run", &ReservoirAdvice::run), field("lowest", &ReservoirAdvice::lowest),
      field("margin", &ReservoirAdvice::margin), field("raise_by", &ReservoirAdvice::raise_by),
      field("pressure", &ReservoirAdvice::pressure), field("outcome", &ReservoirAdvice::outcome));
};

template <>
struct Fields<BenchUnit> {
  static constexpr auto list = std::make_tuple(
      field("name", &BenchUnit::name), field("kind", &BenchUnit::kind), field("layout", &BenchUnit::layout),
      field("oil", &BenchUnit::oil), field("travel", &BenchUnit::travel),
      field("piston_area", &BenchUnit::piston_area), field("rod_area", &BenchUnit::rod_area),
      field("oil_temperature", &BenchUnit::oil_temperature),
      field("reservoir_pressure", &BenchUnit::reservoir_pressure),
      field("release_pressure", &BenchUnit::release_pressure),
      field("compression_volume", &BenchUnit::compression_volume),
      field("rod_volume", &BenchUnit::rod_volume), field("air_compression", &BenchUnit::air_compression),
      field("air_rod", &BenchUnit::air_rod), field("air_reservoir", &BenchUnit::air_reservoir),
      field("heat_capacity", &BenchUnit::heat_capacity),
      field("piston_travel_in", &BenchUnit::piston_travel_in),
      field("piston_travel_out", &BenchUnit::piston_travel_out),
      field("assumptions", &BenchUnit::assumptions), field("springs", &BenchUnit::springs),
      field("runs", &BenchUnit::runs), field("reservoir", &BenchUnit::reservoir),
      field("release", &BenchUnit::release), field("release_traces", &BenchUnit::release_traces));
};

template <>
struct Fields<BenchDocument> {
  static constexpr auto list = std::make_tuple(
      field("header", &BenchDocument::header), field("conditions", &BenchDocument::conditions),
      field("tolerance", &BenchDocument::tolerance), field("n_runs", &BenchDocument::n_runs),
      field("n_finished", &BenchDocument::n_finished), field("stopped", &BenchDocument::stopped),
      field("findings", &BenchDocument::findings), field("units", &BenchDocument::units));
};

}  // namespace shimwright::job::internal
