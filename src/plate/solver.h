#pragma once
#include <cstdint>
#include <vector>

#include "plate/annulus.h"
#include "plate/contact.h"
#include "plate/disc_element.h"
#include "plate/layout.h"
#include "plate/stack.h"

namespace shimwright::plate {

/// State of a stack at one pressure, and how to get to the next. Float is not in here: it shifts the seat
/// only.
class StackSolver final : public FlexibilitySource {
 public:
  /// Takes the stack; flat and unloaded.
  void set_up(const Stack& stack, const Options& options);

  /// Goes from the present state to equilibrium at `pressure`. False when Newton or the active set did not
  /// end: it is then where it last was in equilibrium (large theory), so that another pressure may be tried.
  bool solve(double pressure);

  /// The same for the next of a run of rising pressures: begins where the states solved before it lead to,
  /// and ends as soon as the step with the tangent in hand leaves less than the tolerance, as it was seen to.
  bool follow(double pressure);

  /// d lift / d pressure at the face disc's stations and d force / d pressure, at the solved state.
  void find_rate();

  /// d lift at the seat / d pressure at the state reached last: from the lifts on the way there where they
  /// give it, by `find_rate` where they do not [m/Pa].
  double find_seat_slope();

  /// Takes the points that press as they are said to, where the gaps and forces of those that change have
  /// come down to zero: `rate` is then that of the piece beyond, `contact` still of the pressure solved last.
  /// Linear theory only.
  void press_at(const std::vector<char>& active);

  const Layout& layout() const { return layout_; }
  const Options& options() const { return options_; }
  const ContactState& contact() const { return contact_; }
  const ContactState& rate() const { return rate_; }
  double pressure() const { return pressure_; }
  int n_newton() const { return n_newton_; }
  double newton_change() const { return newton_change_; }
  std::uint64_t touching_pairs() const;  // a bit for each pair of bodies that press
  double seat_lift() const { return lift_of_disc(0, layout_.seat_station, -offset(0)); }
  double rim_lift() const { return lift_of_disc(0, layout_.layers[0].end, -offset(0)); }
  double seat_rate() const;

  /// How far the outer discs of a layer lie from its middle where that counts [m].
  double offset(int layer) const {
    return options_.theory == Theory::Large ? discs_[static_cast<std::size_t>(layer)].offset() : 0.0;
  }
  /// Lift of a disc that lies `height` above the middle of its layer, at a station of that layer. The discs
  /// of a layer keep their distance square to the slope, so one that lies higher is met further in [m].
  double lift_of_disc(int layer, int station, double height) const {
    const double lift = contact_.lift[static_cast<std::size_t>(layer)][static_cast<std::size_t>(station)];
    if (height == 0.0) return lift;
    const double slope = discs_[static_cast<std::size_t>(layer)].slope(station);
    return lift + 0.5 * height * slope * slope;
  }

  /// Sections of a layer at its stations, and its energy [J].
  void sections(int layer, std::vector<Section>& out, double& energy);

  void fill_columns(int layer, std::span<const int> stations) override;

  /// Which points press: to start another run from here.
  struct Snapshot {
    double pressure = 0.0;
    std::vector<std::vector<double>> state;
    std::vector<double> force;
    std::vector<char> active;
  };
  void save(Snapshot& snapshot) const;

  /// A solved state with how it changes with pressure; call after `find_rate`. Large theory only.
  struct Knot {
    Snapshot at;
    std::vector<std::vector<double>> state_rate;
    std::vector<double> force_rate;
  };
  void save_knot(Knot& knot);

  /// Puts the solver where a cubic between two knots is at a pressure, for `solve` to begin from there.
  void begin_between(const Knot& a, const Knot& b, double pressure);

  void restore(const Snapshot& snapshot);

  /// Puts the solver, set up for the same stack on another mesh, near the state that one on this is in.
  void begin_like(const StackSolver& other);

  /// Takes the present forces as the loads of the discs: before their sections are read.
  void load_sections();

 private:
  static constexpr double kFarAlongRates = 0.5;  // of the pressure: beyond, rates lead astray

  Kinematics kinematics() const;
  Annulus annulus_of(const Layer& layer) const;
  void guess_active();
  void set_up_linear();
  void set_rest(double pressure);
  bool solve_linear(double pressure);
  bool solve_large(double pressure);
  void go_along_rates(double pressure);
  void turn_rates();
  bool relax(double pressure);
  bool step(double pressure, double blend, bool keep_tangent, double& share);
  bool newton(double pressure);
  void learn_contraction(double pressure, double before, double after);
  double expected_contraction(double pressure) const;
  void begin_trail();
  void add_to_trail();
  double weigh_trail(int n, double pressure, double* weight) const;
  void judge_trail(double pressure, double lift);
  void predict(double pressure);
  void polish(double pressure);
  void go_along_trail(int n, const double* weight);
  template <typename Go>
  bool step_towards(double last, double target, Go&& go);
  void find_gaps();
  void spread_forces(const std::vector<double>& force);
  void load_discs();
  void shift_contacts(double blend);
  void shift_in_layers(double blend);

  Options options_;
  Layout layout_;
  bool clamp_slips_ = false;
  std::vector<double> log_radius_;
  std::vector<Flexibility> flexibility_;
  std::vector<std::vector<double>>
      pressure_lift_;                // linear theory: lift at unit pressure without contact, by layer
  std::vector<DiscElements> discs_;  // large theory, and notched layers in linear theory
  std::vector<std::vector<double>> station_force_;  // net contact force upwards, by layer and station
  std::vector<double> force_;                       // by point, in the present state
  std::vector<double> gap_extra_;                   // by point: what slope and thickness add to the gap
  std::vector<double> gaps_;                        // by point: all of it
  double preload_share_ = 1.0;                      // of the preload that is on
  struct ContactTurn {
    double slope = 0.0;         // of the surface the force is square to [rad]
    double shift = 0.0;         // how much further out the rim's neighbour is met [m]
    double lower_offset = 0.0;  // how much further out than the disc that presses the middle of the lower
                                // layer is met [m]
    double upper_offset = 0.0;  // further in, of the upper [m]
  };
  std::vector<ContactTurn> turns_;  // by point
  bool has_offsets_ = false;        // of some layer
  ContactSolver contact_solver_;
  ContactState contact_;
  ContactState rate_;
  ContactState contact_before_;
  Snapshot before_;
  Snapshot turned_;
  double pressure_ = 0.0;
  double newton_change_ = 0.0;
  double turn_ = 0.0;  // largest change of slope in the last step [rad]
  int n_newton_ = 0;
  std::vector<std::vector<double>> rest_rate_;
  bool rates_known_ = false;    // `rate_` is of the present state
  bool tangent_known_ = false;  // the discs' tangents and columns are of a state near by

  /// A solved state of a run of pressures: the next is predicted from these.
  struct Passed {
    double pressure = 0.0;
    double seat_lift = 0.0;
    std::vector<double> state;  // of all discs, then the forces
  };
  static constexpr int kTrail = 4;
  const Passed& passed(int a) const { return trail_[(newest_ - a + kTrail) % kTrail]; }  // the newest is 0
  Passed trail_[kTrail];                                                                 // in a circle
  int n_trail_ = 0;                                                                      // of them in use
  int newest_ = 0;                                                                       // of them
  int slope_order_ = 0;            // of the polynomial that gives the slope
  int order_ = 2;                  // of the polynomial through them that predicted the newest best
  bool trail_is_flat_ = false;     // only the state at rest
  std::uint64_t trail_pairs_ = 0;  // that press in all of them
  double slope_misfit_ =
      0.0;  // of the slope that the trail tells, as a share of it; infinite when it gives no slope
  std::vector<double> predicted_;
  bool follows_ = false;
  bool follows_on_ = false;   // the present state is to join the trail
  double contraction_ = 1.0;  // share of what is off that a step with the tangent in hand leaves
  int n_unchecked_ = 0;       // pressures since that was seen
  double checked_at_ = 0.0;   // the pressure at which it was [Pa]
  std::vector<double> constant_, square_;
  std::vector<double> shape_lift_, shape_slope_, shape_curvature_;
  Flexibility scratch_flexibility_;
};

}  // namespace shimwright::plate
