#pragma once
#include <optional>
#include <string>
#include <vector>
#include "document/document_phrase.h"

#include "document/document_spring.h"
#include "resolve/resolve_springs.h"
#include "ride/sag.h"

namespace shimwright::job {

/// One unit of an end of the machine: which it is, and what of it is turned for sag.
struct EndUnit {
  std::size_t index = 0;                    // into JobSpec::units
  std::optional<std::size_t> air_element;   // of its springs
  std::optional<std::size_t> coil_element;  // likewise
};

/// One end of the machine on its springs.
struct EndModel {
  ride::WheelSpring wheel;
  spring::Conditions conditions;
  ride::SprungMass mass;
  bool rider_known = false;
  const file::SagSpec* target = nullptr;
  std::vector<EndUnit> units;  // as wheel.units, equal ones repeated
};

/// The fork with all its legs, or the shock with its linkage; none when the job does not say enough, which
/// goes to `report`. `springs` as JobSpec::units.
std::optional<EndModel> resolve_end(const file::JobSpec& job, file::UnitKind kind,
                                    const std::vector<std::optional<resolve::SpringModel>>& springs,
                                    resolve::ResolveReport& report);

/// What is turned for sag: the pressure of the air springs, or the preload of the coils, on all legs alike.
enum class SagKnob { Pressure, Preload };

/// Change of the knob that carries `mass` at a wheel travel [Pa or m]; none within its reach (3 bar less to 6
/// bar more, 50 mm either way).
std::optional<double> change_for(const EndModel& end, SagKnob knob, double mass, double wheel_travel);

/// The keys of the job that turn a knob by so much on every unit of an end; nothing when one of them would
/// leave what a job may state, what the trade sets, or the room between the coils.
std::optional<std::vector<document::KeyChange>> knob_changes(const file::JobSpec& job, const EndModel& end,
                                                             SagKnob knob, double change);

/// Sag of the machine alone and with its rider, against the targets of the job or, where it has none, the
/// usual ones; with the one change of the knob that brings all of them into their targets, or what the spring
/// must be where none does.
std::vector<document::SagResult> sag_results(const file::JobSpec& job, const EndModel& end,
                                             file::UnitKind kind);

/// Curve, limits and the effects of small changes; without sag, which is a matter of the whole machine end.
///
/// Shape:  effects are read at `sag_travel` [m], at half and at full travel.
document::SpringResult spring_result(const resolve::SpringModel& model, double sag_travel,
                                     const document::Phrase& phrase);

}  // namespace shimwright::job
