#pragma once
#include <optional>
#include <span>
#include <vector>

#include "base/problem.h"
#include "damper/damper.h"
#include "oil/air.h"
#include "oil/oil.h"
#include "spring/unit_spring.h"

namespace shimwright::damper {

/// Oil as it is squeezed, with the air in it.
///
/// Oil of constant modulus beside polytropic air, as in oil/air.h. Two kinds of free air are separate:
/// trapped air is there from the start, stays in its chamber and does not dissolve; released air came out of
/// the oil below the release pressure and goes back above it.
struct MotionOil {
  double bulk_modulus = 1.5e9;       // of the oil without air [Pa]
  double air_exponent = oil::kFast;  // of all free air [-]
  double entrained_air = 0.0;        // bubbles / volume, at one atmosphere; they go where the oil goes [-]
  double bunsen = 0.09;              // air dissolved per oil volume and atmosphere [-]; 0: nothing comes out
  double saturation_pressure = 101325.0;  // up to which the oil took air up, absolute [Pa]
  double release_pressure = 20e3;         // air comes out below it [Pa abs]

  // how quick; no source. The first only sets how sharply pressure stops falling near release (a thousandth
  // of a second is much shorter than a stroke); the second, a key of the oil, how much of the released air
  // the next stroke still meets
  double release_time = 1e-3;  // [s]
  double return_time = 1.0;    // [s]
};

/// A chamber of the cartridge with the rod fully out.
struct MotionChamber {
  double volume = 0.0;       // inside, rod fully out [m^3]
  double compliance = 0.0;   // of its walls: volume gained per pressure [m^3/Pa]; `tube_compliance`
  double trapped_air = 0.0;  // where oil should be, at one atmosphere [m^3]
};

/// Volume that a thin round tube gains per pressure, V D / (E s) [m^3/Pa], closed ends carried by others.
/// Source: [merritt1967] ch. 1 (container modulus E s / D), from memory
double tube_compliance(double volume, double bore, double wall, double youngs_modulus);

/// Gas over the oil or behind the free piston.
struct GasCushion {
  double pressure = 101325.0;  // rod fully out, reservoir at its rest [Pa abs]
  double volume = 0.0;         // then [m^3]
  double exponent = 1.4;       // [-]
  double travel_area = 0.0;  // gas that the leg itself compresses per travel, besides the oil that comes in:
                             // the air over the oil of an open fork leg [m^2]; it then pushes the leg out too
};

/// Lets oil past the free piston once that has gone far enough: a relief, and an oil loss.
struct ReliefPort {
  double position = 0.0;               // of the free piston where the port begins to open [m]
  double opening_length = 1e-3;        // further travel until it is open [m]
  double area = 0.0;                   // fully open [m^2]
  double discharge = 0.7;              // [-]
  double outside_pressure = 101325.0;  // [Pa abs]
};

/// A piston between the oil and what holds it. Its travel counts from its place with the rod fully out and
/// grows as oil comes in.
struct FreePiston {
  double area = 0.0;             // [m^2]
  double mass = 0.0;             // [kg]; 0: follows at once, and then has no friction
  double friction = 0.0;         // of its seal [N]
  double friction_speed = 5e-3;  // friction is friction tanh(speed / this) [m/s]: no stick, no Stribeck dip
  double spring_force = 0.0;     // rod fully out [N]
  double spring_rate = 0.0;      // [N/m]
  double travel_in = 0.0;        // until its stop when oil is missing, from its rest place, positive [m]
  double travel_out = 0.0;       // until its stop when oil comes in [m]
  double stop_rate = 2e7;        // of the stops [N/m]; stiff against everything else, a choice
  double stop_loss = 0.5;  // damping ratio of the piston on a stop: a bounce gives back a sixth of its speed,
                           // as rubber and an oil film do; a choice, no source
  std::optional<ReliefPort> port;
};

/// What takes the oil of the rod. Gas, a free piston, or both: one is needed.
struct MotionReservoir {
  MotionChamber oil;  // on the oil's side; volume with the rod fully out
  std::optional<GasCushion> gas;
  std::optional<FreePiston> piston;
  double dry_pressure = 101325.0;  // behind a free piston without gas [Pa abs]
};

/// A plate or mid-valve stack that floats before it bends: the volume that it sweeps passes without a drop.
///
/// Model:  opens from opening_drop to full_drop, following its drop with settle_time: about what the spring
/// needs to
///         push the plate through its gap, sqrt(2 gap mass / force), a millisecond or less. A valve that
///         shuts late lets oil back at the turn.
struct FloatingValve {
  double swept_area = 0.0;     // [m^2]
  double gap = 0.0;            // how far it floats [m]
  double opening_drop = 0.0;   // over the piston, when it leaves its seat [Pa]
  double full_drop = 0.0;      // when it has floated through [Pa]
  double settle_time = 2e-4;   // [s]
  bool in_compression = true;  // false: opens in rebound
};

/// An oil lock or a bottoming cone: near the end of the stroke oil is squeezed out of a cup.
///
/// Model:  outside the valves' network: force area x drop of the oil it displaces, only on the way in.
struct Restriction {
  double start = 0.0;                  // travel where it enters [m]
  double end = 0.0;                    // travel from which the opening stays [m]
  double area = 0.0;                   // of the cup [m^2]
  double opening_start = 0.0;          // free opening at the start [m^2]
  double opening_end = 0.0;            // at the end, not zero [m^2]
  double discharge = 0.7;              // [-]
  double outside_pressure = 101325.0;  // [Pa abs]
};

/// Grooves or holes past the piston that it uncovers over travel.
struct PositionBleed {
  std::vector<double> travel;  // strictly rising [m] (n >= 2)
  std::vector<double> area;    // open there, straight between, held beyond [m^2] (n)
  double discharge = 0.7;      // [-]
};

/// Air around the cartridge that the leg squeezes: a force on the rod, nothing else.
struct OuterAir {
  double area = 0.0;           // [m^2]
  double volume = 0.0;         // rod fully out [m^3]
  double pressure = 101325.0;  // then [Pa abs]
  double exponent = 1.2;       // [-]
};

/// Main spring, air and stops beside the damper: what is in the leg or on the shock while it is moved.
///
/// Model:  a force on the rod that follows its travel alone and gives back all it takes; chambers, valves and
///         heat know nothing of it.
struct SpringsBeside {
  spring::UnitSpring unit;
  spring::Conditions conditions;
};

/// All heat goes into one lump: oil, metal that keeps up with it.
struct HeatModel {
  double capacity = 0.0;            // m c of the lump [J/K]
  double loss = 0.0;                // to the air [W/K]
  double air_temperature = 293.15;  // [K]
};

/// The valves at one temperature.
struct LawsAt {
  double temperature = 0.0;  // [K]
  double density = 0.0;      // of the oil [kg/m^3]
  DamperLaws laws;
};

/// A damper that can be moved. Check it with `validate` before use.
///
/// Without a foot valve in the laws the compression chamber and the reservoir's oil are one.
struct MotionModel {
  double piston_area = 0.0;                // [m^2]
  double rod_area = 0.0;                   // [m^2]
  double travel = 0.0;                     // rod from fully out to fully in [m]
  double atmospheric_pressure = 101325.0;  // around the rod [Pa abs]
  double seal_friction = 0.0;              // of rod seal and piston band, against the motion [N]
  double friction_speed = 1e-3;            // friction is seal_friction tanh(speed / this) [m/s]

  MotionOil oil;
  MotionChamber compression;
  MotionChamber rod;
  MotionReservoir reservoir;

  std::vector<LawsAt> laws;       // rising temperature (n >= 1); straight between two, held beyond
  double temperature = 293.15;    // at the start [K]
  std::optional<HeatModel> heat;  // empty: the temperature stays

  std::optional<FloatingValve> float_valve;
  std::vector<Restriction> restrictions;
  std::optional<PositionBleed> position_bleed;
  std::optional<OuterAir> outer_air;
  std::optional<SpringsBeside> springs;
};

Problems validate(const MotionModel& model);

/// All of it but the laws of the valves: what a damper at rest does not ask for.
Problems validate_at_rest(const MotionModel& model);

/// The laws of a damper at several temperatures, from stacks solved once.
std::vector<LawsAt> laws_over_temperature(const DamperModel& model, const DamperStacks& stacks,
                                          const oil::OilModel& oil, std::span<const double> temperatures,
                                          const valve::LawOptions& options = {});

/// The damper at rest at a travel: one pressure everywhere.
struct RestPoint {
  double pressure = 0.0;         // [Pa abs]
  double reservoir_taken = 0.0;  // oil and air the reservoir took in since fully out [m^3]
  double piston_travel = 0.0;    // of the free piston; 0 without one [m]
  double gas_volume = 0.0;       // trapped air at that pressure, all chambers [m^3]
  double force = 0.0;            // on the rod, outwards, springs included, without friction [N]
  Outcome outcome;               // OutOfRange when a stop of the free piston holds the pressure
};

/// Model:  the oil, bubbles and all, that a good fill holds at travel 0 and the pressure that was set, less
///         the trapped air, which took the place of as much.
/// `held_back`: pressure that friction takes off what the reservoir holds against the oil [Pa].
/// Valid:  a model without problems at rest; 0 <= travel <= model.travel.
/// Tested: rest_test.cc
RestPoint rest_at(const MotionModel& model, double travel, double held_back = 0.0);

}  // namespace shimwright::damper
