#pragma once
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/outcome.h"
#include "base/problem.h"
#include "base/terms.h"
#include "oil/liquid.h"
#include "plate/stack.h"
#include "valve/valve.h"

namespace shimwright::damper {

/// Areas and outside pressures of a two-valve damper at one position of its rod. Pressures are absolute.
struct Chambers {
  double piston_area = 0.0;                // full bore [m^2]
  double rod_area = 0.0;                   // [m^2]
  double reservoir_pressure = 101325.0;    // gas, air or spring-loaded piston, at this position [Pa]
  double release_pressure = 20e3;          // below it air comes out of the oil [Pa]
  double atmospheric_pressure = 101325.0;  // around the rod [Pa]
  double seal_friction = 0.0;              // of seals and bands, against the motion [N]
};

/// A damper: a piston valve between compression and rod chamber, a foot valve between compression chamber and
/// reservoir. Serves closed cartridges, open baths and reservoir shocks; without a foot valve the
/// compression chamber is the reservoir.
struct DamperModel {
  Chambers chambers;
  valve::ValveModel piston_valve;
  std::optional<valve::ValveModel> foot_valve;
};

/// What makes the damper one that cannot be computed, valves included. Empty when there is nothing.
Problems validate(const DamperModel& model);
Problems validate(const Chambers& chambers);

struct DamperStacks {
  valve::ValveStacks piston;
  valve::ValveStacks foot;
};

struct DamperLaws {
  valve::ValveLaw piston;
  std::optional<valve::ValveLaw> foot;
};

struct DamperSweeps {
  valve::ValveSweep piston;
  valve::ValveSweep foot;
};

struct SolvedDamper {
  DamperStacks stacks;
  DamperLaws laws;
  DamperSweeps sweeps;  // that the laws were made from; empty ones are swept again where they are needed
};

/// Stacks and laws of both valves, as far as `speed_max` in both strokes needs.
SolvedDamper solve_damper(const DamperModel& model, const oil::Liquid& liquid, double speed_max,
                          const plate::Options& plate_options, plate::Workspace& workspace,
                          const valve::LawOptions& law_options = {});

/// The same with each valve solved by `solve`, which gets the flow that its law must reach [m^3/s]: for
/// callers that have solved a valve before. What it returns must be what valve::solve_valve() would.
using ValveSolver = std::function<valve::SolvedValve(const valve::ValveModel& valve, double q_max)>;
SolvedDamper solve_damper(const DamperModel& model, double speed_max, const ValveSolver& solve);

/// The laws again for another oil, temperature or setting; the stacks are kept.
DamperLaws damper_laws(const DamperModel& model, const DamperStacks& stacks, const oil::Liquid& liquid,
                       const valve::LawOptions& law_options = {});

/// The damper at one constant speed.
struct SteadyPoint {
  double speed = 0.0;           // positive in compression [m/s]
  double force_damping = 0.0;   // on the rod, positive outwards: has the sign of the speed [N]
  double force_static = 0.0;    // (p_reservoir - p_atm) A_rod, outwards [N]
  double force_friction = 0.0;  // seals; has the sign of the speed [N]

  double p_compression = 0.0;  // [Pa abs]
  double p_rod = 0.0;          // [Pa abs]
  double margin = 0.0;         // pressure of the critical chamber above release, as if it could go below [Pa]
  bool cavitated = false;      // the critical chamber is at the release pressure

  valve::ValveState piston;  // positive in compression
  valve::ValveState foot;    // likewise; all zero without a foot valve, except its flow
  Outcome outcome;           // inherited from the valves
};

/// Force on the rod, all parts together, positive outwards [N].
inline double force_total(const SteadyPoint& point) {
  return point.force_damping + point.force_static + point.force_friction;
}

/// Pressures and forces at one speed.
///
/// Model:  incompressible; q_piston = (A_p - A_r) |v|, q_foot = A_r |v|. A chamber that would fall below the
/// release
///         pressure stays at it and a void opens: the flows are then those the pressures drive.
///         Force p_C A_p - p_R (A_p - A_r) - p_atm A_r.
/// Units:  speed [m/s], positive in compression.
/// Tested: damper_reference_test.cc, damper_property_test.cc
SteadyPoint steady_point(const Chambers& chambers, const DamperLaws& laws, double speed);

struct ForceCurve {
  std::vector<SteadyPoint> points;  // as the speeds
  Outcome outcome;                  // the worst of all
};

ForceCurve force_curve(const Chambers& chambers, const DamperLaws& laws, std::span<const double> speeds);

/// A needle that the rider turns.
struct Adjuster {
  ValvePlace valve = ValvePlace::Piston;
  int bleed = 0;  // index into that valve's bleeds; must hold a needle
  int count = 1;  // so many from there on are equal and turn together

  bool operator==(const Adjuster&) const = default;
};

/// The clicks of an adjuster in the model [-]; setting them leaves stacks valid.
double clicks_of(const DamperModel& model, const Adjuster& adjuster);
void set_clicks(DamperModel& model, const Adjuster& adjuster, double clicks);

/// Force curves for every setting of one adjuster, the others as the model has them. `solved` is what
/// solve_damper gives of the model in this oil and with these options: a way that the adjuster does not act
/// in keeps its law.
struct ForceFamily {
  std::vector<double> clicks;      // one curve for each
  std::vector<ForceCurve> curves;  // as the clicks
};

ForceFamily force_family(const DamperModel& model, const SolvedDamper& solved, const oil::Liquid& liquid,
                         const Adjuster& adjuster, std::span<const double> clicks,
                         std::span<const double> speeds, const valve::LawOptions& law_options = {});

/// The laws of the valve that carries an adjuster, in the ways that it acts in, for every setting of it: most
/// of the work of a family, and the same whatever the other valve is.
struct TurnedLaws {
  std::vector<valve::DirectionLaw> compression;  // as the clicks; empty where it does not act
  std::vector<valve::DirectionLaw> rebound;
};
TurnedLaws turned_laws(const DamperModel& model, const SolvedDamper& solved, const oil::Liquid& liquid,
                       const Adjuster& adjuster, std::span<const double> clicks,
                       const valve::LawOptions& law_options = {});

/// The family that turned_laws() of the same clicks give.
ForceFamily force_family(const Chambers& chambers, const DamperLaws& laws, const Adjuster& adjuster,
                         std::span<const double> clicks, const TurnedLaws& turned,
                         std::span<const double> speeds);

/// What would keep oil in the chamber that runs short.
enum class CavitationCure {
  None,                    // the margin holds
  StiffenFootCompression,  // compression: more drop at the foot, or more reservoir pressure, or a softer
                           // piston
  RaiseReservoirPressure,  // compression without a foot valve: more pressure, or a softer piston
  OpenFootRebound,  // rebound: the refill side of the foot valve is too tight, or more reservoir pressure
};

struct CavitationReport {
  Stroke stroke = Stroke::Compression;
  double onset_speed =
      0.0;  // first speed at which the margin is lost [m/s]; infinite when it holds up to speed_max

  // at speed_max, with the drops that full flow would need
  double speed_max = 0.0;      // [m/s]
  double margin = 0.0;         // of the critical chamber above release; negative when lost [Pa]
  double margin_wanted = 0.0;  // [Pa]
  double foot_drop = 0.0;      // as built, positive [Pa]
  double piston_drop = 0.0;    // as built, positive [Pa]
  CavitationCure cure = CavitationCure::None;
  double needed_foot_drop = 0.0;           // compression: at least; rebound: at most [Pa]
  double needed_reservoir_pressure = 0.0;  // at least, absolute [Pa]
  double allowed_piston_drop = 0.0;        // compression: at most; rebound: infinite [Pa]
};

/// Where a stroke runs its chamber short, and what would cure it at speed_max.
///
/// Model:  compression: p_R = p_res + drop_foot - drop_piston; rebound: p_C = p_res - drop_foot. Rebound is
/// monotone;
///         compression need not be: the first crossing is found by a fine scan of speeds and then exactly.
CavitationReport cavitation(const Chambers& chambers, const DamperLaws& laws, Stroke stroke, double speed_max,
                            double margin_wanted);

}  // namespace shimwright::damper
