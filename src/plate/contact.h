#pragma once
#include <span>
#include <vector>

#include "plate/layout.h"

namespace shimwright::plate {

/// What a layer yields at its own stations, about the state it is in: lift by a unit ring force at each
/// station, one column after the other (n x n), filled where `have` says so; and the lift without any contact
/// force.
struct Flexibility {
  int n = 0;
  std::vector<double> column;  // [m/N]
  std::vector<char> have;
  std::vector<double> rest;  // [m]

  void resize(int n_stations);
};

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
  std::vector<double> shift;              // rigid lift by layer; 0 but for rings [m]
  std::vector<std::vector<double>> lift;  // by layer, at its stations [m]
};

/// Frictionless one-sided contact between layers, condensed to the forces: force >= 0, gap >= 0, force x gap
/// = 0.
///
/// Model:  the forces at active points close their gaps; each factored system is banded, for a layer meets
/// only its
///         neighbours. A primal-dual active set changes all wrong points at once; when the number of wrong
///         points stops falling, an active set whose forces never pull takes over: each of its steps lowers
///         the energy, so it ends.
/// Source: block changes as in block principal pivoting, Judice & Pires, Computers & Operations Research 21
/// (1994) 587;
///         the second as in Lawson & Hanson, Solving Least Squares Problems, ch. 23 (both from memory). The
///         tolerance relative to the load is a lesson from our own trials.
/// Tested: contact_test.cc
class ContactSolver {
 public:
  /// Finds the active set from the one in `state`. False when the iterations ran out. `same_columns` says
  /// that the columns are those of the last call, so that its factors still hold.
  bool solve(const Layout& layout, std::vector<Flexibility>& layers, const std::vector<double>& gap_extra,
             double load, bool same_columns, FlexibilitySource& source, ContactState& state);

  /// With the factored system of the last `solve`: how forces, gaps, shifts and lifts change where the lifts
  /// without contact change by `rest_rate` (by layer) and the gaps themselves not.
  void rate(const Layout& layout, const std::vector<Flexibility>& layers,
            const std::vector<std::vector<double>>& rest_rate, ContactState& rate);

  int n_iterations() const { return n_iterations_; }
  double force_tolerance() const { return force_tolerance_; }  // below it a pull counts as none [N]
  double gap_tolerance() const { return gap_tolerance_; }      // below it an overlap counts as none [m]

 private:
  void number_unknowns(const Layout& layout, const ContactState& state);
  void fill_system(const Layout& layout, const std::vector<Flexibility>& layers, int j);
  void factor(const Layout& layout, const std::vector<Flexibility>& layers);
  void back_solve();
  void find_right_side(const Layout& layout, const std::vector<Flexibility>& layers,
                       const std::vector<double>& gap_extra);
  void fill_columns(std::vector<Flexibility>& layers, FlexibilitySource& source);
  void find_wrong(const Layout& layout, const std::vector<double>& gap_extra, double load,
                  ContactState& state);
  bool step_feasibly(const Layout& layout, ContactState& state);
  void spread(const Layout& layout, const std::vector<Flexibility>& layers, ContactState& state) const;

  struct Unknown {
    int point = -1;  // contact point, or -1
    int ring = -1;   // layer whose rigid lift this is, or -1
    int lower = kBelow;
    int upper = kBelow;
    int lower_local = 0;
    int upper_local = 0;
  };
  double pivot_flexibility(const Layout& layout, const std::vector<Flexibility>& layers, const Unknown& at,
                           double value) const;

  std::vector<Unknown> unknowns_;
  std::vector<int> last_of_layer_;
  std::vector<int> column_end_;     // last row of each column of the factors
  std::vector<int> column_offset_;  // where its diagonal lies
  std::vector<double> factors_;
  std::vector<double> diagonal_;
  std::vector<double> right_;
  std::vector<std::vector<int>> wanted_;  // stations by layer
  std::vector<int> wrong_;
  std::vector<double> feasible_;  // forces that push everywhere
  std::vector<char> factored_;    // the active set of the factors
  bool has_factors_ = false;
  double force_tolerance_ = 0.0;
  double gap_tolerance_ = 0.0;
  int n_iterations_ = 0;
};

}  // namespace shimwright::plate
