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

  /// Goes from the present state to equilibrium at `pressure`. False, with the state as near as it came, when
  /// Newton or the active set did not end.
  bool solve(double pressure);

  /// d lift / d pressure at the face disc's stations and d force / d pressure, at the solved state.
  void find_rate();

  /// Takes the points that press as they are said to, where the gaps and forces of those that change have
  /// come to nothing: `rate` is then that of the piece beyond, `contact` still of the pressure solved last.
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
  double seat_lift() const { return contact_.lift[0][layout_.seat_station]; }
  double rim_lift() const { return contact_.lift[0].back(); }
  double seat_rate() const { return rate_.lift[0][layout_.seat_station]; }

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

 private:
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
  bool newton(double pressure);
  template <typename Go>
  bool step_towards(double last, double target, Go&& go);
  void find_gaps();
  void spread_forces(const std::vector<double>& force);
  void load_discs();
  void shift_contacts(double blend);

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
    double slope = 0.0;  // of the surface the force is square to [rad]
    double shift = 0.0;  // how much further out the rim's neighbour is met [m]
  };
  std::vector<ContactTurn> turns_;  // by point
  ContactSolver contact_solver_;
  ContactState contact_;
  ContactState rate_;
  ContactState contact_before_;
  Snapshot before_;
  Snapshot turned_;
  double pressure_ = 0.0;
  double newton_change_ = 0.0;
  int n_newton_ = 0;
  std::vector<std::vector<double>> rest_rate_;
  bool rates_known_ = false;    // `rate_` is of the present state
  bool tangent_known_ = false;  // the discs' tangents and columns are of a state near by
  std::vector<double> constant_, square_;
  std::vector<double> shape_lift_, shape_slope_, shape_curvature_;
  Flexibility scratch_flexibility_;
};

}  // namespace shimwright::plate
