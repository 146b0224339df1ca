#pragma once
#include <algorithm>
#include <cstddef>
#include <span>
#include <vector>

#include "plate/contact_factors.h"
#include "plate/layout.h"

namespace shimwright::plate {

/// Fills columns of `Flexibility` that the solver turns out to need.
class FlexibilitySource {
 public:
  virtual ~FlexibilitySource() = default;
  virtual void fill_columns(int layer, std::span<const int> stations) = 0;
};

/// Which contact points press, with which force, and how far the others gape.
struct ContactState {
  std::vector<char> active;               // by point
  std::vector<double> force;              // by point; 0 when not active [N]
  std::vector<double> gap;                // by point [m]
  std::vector<double> shift;              // rigid lift by layer; 0 except for rings [m]
  std::vector<std::vector<double>> lift;  // by layer, at its stations [m]
};

/// What the contact is solved for: the layers about the state they are in, the gaps, and a force to measure
/// rounding by.
struct ContactProblem {
  const Layout& layout;
  std::vector<Flexibility>& layers;
  const std::vector<double>& gap;  // by point, where nothing is loaded [m]
  double load = 0.0;               // [N]
  FlexibilitySource& source;
};

/// Frictionless one-sided contact between layers, condensed to the forces: force >= 0, gap >= 0, force x gap
/// = 0.
///
/// Model:  the forces at active points close their gaps. First the worst of each row of wrong points change
/// at
///         once, for as long as that leaves fewer of them now and then. Then an active set whose forces never
///         pull takes over: each of its steps lowers the energy, so it ends.
/// Source: block changes as in [judice1994]; the second as in [lawson1974] ch. 23, with steps
///         cut off at no force as in projected gradients (all from memory). The tolerance relative to the
///         load is a lesson from our own trials.
/// Tested: contact_test.cc
class ContactSolver {
 public:
  void set_up(const Layout& layout);

  /// Finds the active set from the one in `state`. False when the iterations ran out. `same_columns` says
  /// that the columns are those of the last call, so that its factors still hold.
  bool solve(const ContactProblem& problem, bool same_columns, ContactState& state);

  /// Takes the points that press as they are said to, without asking whether they may: for `rate` along a
  /// path.
  void press_at(const ContactProblem& problem, const std::vector<char>& active) {
    match_factors(problem, active);
  }

  /// With the factored system of the last `solve` or `press_at`: how forces, gaps, shifts and lifts change
  /// where the lifts without contact change by `rest_rate` (by layer) and the gaps themselves not.
  void rate(const Layout& layout, const std::vector<Flexibility>& layers,
            const std::vector<std::vector<double>>& rest_rate, ContactState& rate);

  int n_iterations() const { return n_iterations_; }

 private:
  void match_factors(const ContactProblem& problem, const std::vector<char>& active);
  void fill_columns(const ContactProblem& problem, const std::vector<char>& active);
  bool find_state(const ContactProblem& problem, ContactState& state);
  void find_lifts(const Layout& layout, const std::vector<Flexibility>& layers, ContactState& state);
  bool find_wrong(const ContactProblem& problem, ContactState& state);
  void find_flips(const Layout& layout, const ContactState& state);
  bool descend(const ContactProblem& problem, ContactState& state);
  double energy_of(const std::vector<double>& force, const std::vector<double>& gap) const;
  bool cut_off(const ContactProblem& problem, ContactState& state);
  void let_first_go(ContactState& state);
  void press_deepest(const Layout& layout, ContactState& state) const;
  void find_overlaps(const ContactProblem& problem);

  ContactFactors factors_;
  std::vector<double> overlap_;           // by point, without contact forces [m]
  std::vector<double> net_;               // force upwards at the stations of one layer
  std::vector<std::vector<int>> wanted_;  // stations by layer
  std::vector<int> wrong_;
  std::vector<int> flips_;
  std::vector<int> changed_;
  std::vector<char> begun_;  // the active set that `solve` began with
  std::vector<double> begun_force_;
  std::vector<double> feasible_;  // forces that push everywhere
  double energy_ = 0.0;           // theirs
  ContactState cut_;
  bool has_rings_ = false;
  double least_force_ = 0.0;  // below it a pull counts as zero [N]
  double least_gap_ = 0.0;    // below it an overlap counts as zero [m]
  int n_iterations_ = 0;
};

}  // namespace shimwright::plate
