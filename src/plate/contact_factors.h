#pragma once
#include <cstddef>
#include <vector>

#include "plate/kernels.h"
#include "plate/layout.h"

namespace shimwright::plate {

/// How far a layer gives at its own stations, near its present state: lift by a unit ring force at each
/// station, one column after the other (n x n), filled where `have` says so; and the lift without any contact
/// force.
struct Flexibility {
  int n = 0;
  std::vector<double> column;  // [m/N]
  std::vector<char> have;
  std::vector<double> rest;  // [m]
  bool complete = false;     // every column is there

  void resize(int n_stations);
};

/// The system that gives the forces at the contact points that press: how much the gaps there yield to them,
/// and the balance of each ring.
///
/// Model:  factors of the points that pressed when it was factored, banded, for a layer meets only its
///         neighbours; each point that has since started or stopped to press is a border of one row, so one
///         change costs a solution and not new factors.
/// Source: bordering by the Schur complement, as in [gill1984], from memory
/// Tested: contact_test.cc
class ContactFactors {
 public:
  /// Takes the layout; no factors yet.
  void set_up(const Layout& layout);
  void forget() { has_factors_ = false; }
  bool has_factors() const { return has_factors_; }
  const std::vector<char>& active() const { return active_; }

  /// New factors for these points. Columns must be there (`Flexibility::have`) at their stations.
  void factor(const Layout& layout, const std::vector<Flexibility>& layers, const std::vector<char>& active);

  /// One point begins or ceases to press. False when the border is full or would lose digits: then factor
  /// again.
  bool toggle(const Layout& layout, const std::vector<Flexibility>& layers, int point);

  /// Forces that close `overlap` at the points that press, 0 at the others; and the rigid shift by layer.
  void solve(const std::vector<double>& overlap, std::vector<double>& force, std::vector<double>& shift);

 private:
  static constexpr int kMaxBorder = 16;
  struct Unknown {
    int point = -1;
    int ring = -1;  // layer whose balance this is, or -1
  };
  /// Unknowns in a row of one pair of bodies, or one ring.
  struct Span {
    int lower = kBelow;
    int upper = kBelow;  // kBelow also for a body that does not yield
    int ring = -1;
    int begin = 0;
    int end = 0;
  };
  struct Border {
    int point = -1;
    int position = -1;  // among the unknowns, of a point that has ceased to press; -1 of one that began
  };

  /// Unknowns from one to another, and the span of the first.
  struct Range {
    std::size_t first_span = 0;
    int from = 0;
    int to = 0;
  };

  void number_unknowns(const Layout& layout);
  void find_profile();
  void couple(const Layout& layout, const std::vector<Flexibility>& layers, const Span& by, int station,
              Range range, double* out) const;
  double pivot(const Layout& layout, const std::vector<Flexibility>& layers, int point) const;
  double between(const Layout& layout, const std::vector<Flexibility>& layers, int a, int b) const;
  bool append(double corner);
  void drop(int border);
  double* border_column(int b) {
    return border_columns_.data() + static_cast<std::size_t>(b) * unknowns_.size();
  }
  ProfileView view() const {
    return {static_cast<int>(unknowns_.size()), column_end_.data(), column_offset_.data()};
  }

  bool has_factors_ = false;
  int n_layers_ = 0;
  std::vector<char> active_;       // of the factors with their border
  std::vector<char> beside_ring_;  // by point: a ring is one of its bodies
  std::vector<Unknown> unknowns_;
  std::vector<Span> spans_;
  std::vector<int> station_;   // by unknown
  std::vector<int> position_;  // by point, among the unknowns; -1
  std::vector<int> last_of_layer_;
  std::vector<int> column_end_;
  std::vector<int> column_offset_;
  std::vector<double> factors_;
  std::vector<double> over_pivot_;
  std::vector<double> right_;
  std::vector<double> given_;

  int n_border_ = 0;
  Border border_[kMaxBorder];
  double corner_[kMaxBorder][kMaxBorder];    // Schur complement, lower half
  double corner_l_[kMaxBorder][kMaxBorder];  // its factors, the inverse pivots on the diagonal
  std::vector<double> border_columns_;       // the system's answer to each border's column
  std::vector<double> column_;
};

}  // namespace shimwright::plate
