#pragma once
#include <Eigen/Core>
#include <array>
#include <vector>

#include "damper/drive.h"
#include "damper/motion.h"
#include "damper/motion_elements.h"

// The equations of a damper in motion over all states it can have. Private to the module.

namespace shimwright::damper::motion {

/// Places of the states. A model without a part leaves its place alone.
enum Place {
  kPressureC,
  kPressureR,
  kPressureS,
  kReleasedC,
  kReleasedR,
  kReleasedS,
  kTaken,      // by the reservoir since fully out
  kTakenRate,  // with a free piston that has mass
  kLift,       // of the floating valve
  kTemperature,
  kTravel,  // with a free rod
  kSpeed,
  kPlaces,

  // integrals beside the states
  kWork = kPlaces,
  kHeat,
  kLost,
  kAllPlaces
};
inline constexpr int kSums = kAllPlaces - kPlaces;

using FullState = std::array<double, kAllPlaces>;
using Row = Eigen::Matrix<double, 1, kPlaces>;  // derivatives with the states
using FullJacobian = std::array<Row, kAllPlaces>;

/// A size to measure each state by: about what it changes by in a stroke, so that absolute tolerances and
/// pivots make sense.
inline constexpr FullState kScale{1e5,  1e5,  1e5,  1e-6, 1e-6, 1e-6, 1e-6, 1e-4,
                                  1e-3, 10.0, 1e-2, 1.0,  1.0,  1.0,  1e-6};

enum Event {
  kPistonDrop,
  kFootDrop,
  kReleaseC,
  kReleaseR,
  kInnerStop,
  kOuterStop,
  kPort,
  kLock,
  kOut,         // a free rod at its outer end
  kFloatOpens,  // the floating valve leaves its seat
  kFloatFull,   // it has floated through
  kReleaseS,
  kEvents
};

/// Forces on the rod, outwards.
struct Forces {
  double hydraulic = 0.0, friction = 0.0, lock = 0.0, air = 0.0;
  double springs = 0.0;  // beside the damper
  double of_damper() const { return hydraulic + friction + lock + air; }
  double total() const { return of_damper() + springs; }
};

class MotionSystem {
 public:
  /// `free_mass` > 0: the rod moves by itself with that mass [kg]; 0: as the drive says.
  MotionSystem(const MotionModel& model, double free_mass);

  const MotionModel& model() const { return model_; }
  bool rod_is_free() const { return free_mass_ > 0.0; }
  bool has_foot() const { return has_foot_; }

  /// Places in use, rising.
  const std::vector<int>& places() const { return places_; }

  /// Air comes out of the oil only below its release pressure; until a chamber has been there, its states are
  /// left out, which changes only the time it takes.
  void let_air_out();
  bool lets_air_out() const { return lets_air_out_; }
  bool may_let_air_out() const { return model_.oil.bunsen > 0.0 && model_.oil.release_pressure > 0.0; }

  /// A size to measure each state by, for tolerances and pivots: kScale, but for the rate of a free piston.
  const FullState& scale() const { return scale_; }

  /// Where the rod is; a free rod's own states are put in.
  void set_drive(const DrivePoint& drive) { drive_ = drive; }

  /// At rest with the rod at a travel.
  FullState rest_state(double travel) const;

  void rates(const FullState& y, FullState& f);
  /// Rates and their derivatives. `f_time`: how the rates change with time by the drive alone.
  void linearise(const FullState& y, FullState& f, FullJacobian& j, FullState& f_time);
  void jacobian(const FullState& y, FullJacobian& j, FullState& f_time);
  void events(const FullState& y, std::array<double, kEvents>& g) const;

  Forces forces(const FullState& y) const;

  /// Force of the springs beside the damper at a travel; zero without springs.
  spring::ElementForce springs_at(double travel) const;

  double travel_of(const FullState& y) const { return rod_is_free() ? y[kTravel] : drive_.travel; }
  double stored_energy(const FullState& y) const;
  MotionSample sample(double t, const FullState& y);
  /// The same without the volumes of gas, which cost most.
  MotionSample glance(double t, const FullState& y) const;

  /// The valve that was used furthest along its table: largest drop met over the table's end; beyond it
  /// above 1.
  struct TableUse {
    double share = 0.0;
    bool is_foot = false;
    Outcome outcome() const;  // OutOfRange beyond the end: which valve, and how far
  };
  const TableUse& table_use() const { return table_use_; }
  void note_drops(const FullState& y);

 private:
  struct Node;
  struct Flows;
  struct FlowRows;
  void list_places();
  double scale_of_piston_rate() const;
  Forces damper_forces(const FullState& y) const;
  double speed_of(const FullState& y) const { return rod_is_free() ? y[kSpeed] : drive_.speed; }
  double reservoir_pressure(const FullState& y) const { return has_foot_ ? y[kPressureS] : y[kPressureC]; }
  double density_at(double temperature) const;
  double density_slope_at(double temperature) const;
  Node node_at(double pressure, double volume, double compliance, double air) const;
  Flows flows_at(const FullState& y);
  void rates_of(const FullState& y, const Flows& w, FullState& f) const;
  void jacobian_of(const FullState& y, const Flows& w, FullJacobian& j, FullState& f_time) const;
  WarmLaw::Point amount_of(WarmLaw::Point flow) const;
  OpeningFlow amount_of(OpeningFlow flow) const;
  double heat_of(const FullState& y, const Flows& w) const;
  Node node_c(const FullState& y, double travel) const;
  Node node_r(const FullState& y, double travel) const;
  Node node_s(const FullState& y) const;
  FlowRows flow_rows(const Flows& w, double thinning) const;
  Row give_row(const Node& node, Place pressure, Place released, const Row& volume) const;
  Row heat_row(const FullState& y, const Flows& w, const FlowRows& rows, double thinning) const;
  Row force_row(const FullState& y, const Flows& w, double thinning) const;
  void other_rows(const FullState& y, const Flows& w, const FlowRows& rows, double thinning,
                  FullJacobian& j) const;
  void reservoir_rows(const FullState& y, const Flows& w, double into_value, const Row& into,
                      const Row& give_change, FullJacobian& j) const;

  const MotionModel& model_;
  SqueezedOil oil_;
  num::FixedPower gas_power_;
  double free_mass_ = 0.0;
  bool has_foot_ = false;
  bool has_mass_ = false;  // of the free piston
  bool lets_air_out_ = false;
  WarmLaw piston_law_;
  std::optional<WarmLaw> foot_law_;
  std::vector<int> places_;
  FullState scale_ = kScale;
  // the laws speak of volume at the density of their oil; what counts here is volume at one atmosphere, with
  // the bubbles that come along
  double amount_per_flow_ = 1.0;
  DrivePoint drive_;
  TableUse table_use_;
};

}  // namespace shimwright::damper::motion
