#include "plate/contact.h"

#include <algorithm>
#include <cmath>

namespace shimwright::plate {
namespace {

constexpr int kMaxIterations = 400;
constexpr int kPatience = 4;         // changes of all wrong points at once without getting better
constexpr double kTolerance = 1e-9;  // of the load and of the lift
/// Sum of products in four lanes: the order of addition is fixed, and the compiler may use vectors.
double dot(const double* a, const double* b, int n) {
  double sum[4] = {0.0, 0.0, 0.0, 0.0};
  int k = 0;
  for (; k + 4 <= n; k += 4)
    for (int lane = 0; lane < 4; ++lane) sum[lane] += a[k + lane] * b[k + lane];
  for (; k < n; ++k) sum[0] += a[k] * b[k];
  return (sum[0] + sum[1]) + (sum[2] + sum[3]);
}

constexpr double kSharedBore =
    1e-9;  // flexibility of a place between two bores, as a share of the ring's own
constexpr double kRingGround = 1e-9;  // a ring that nothing touches hangs on this share of its own stiffness

}  // namespace

void Flexibility::resize(int n_stations) {
  n = n_stations;
  column.assign(static_cast<std::size_t>(n) * n, 0.0);
  have.assign(n, 0);
  rest.assign(n, 0.0);
}

void ContactSolver::number_unknowns(const Layout& layout, const ContactState& state) {
  const int n_layers = layout.n_layers();
  unknowns_.clear();
  for (int lower = kBelow; lower < n_layers; ++lower) {
    for (int p = layout.first_point[lower + 1]; p < layout.first_point[lower + 2]; ++p) {
      if (!state.active[p]) continue;
      const ContactPoint& point = layout.points[p];
      Unknown unknown;
      unknown.point = p;
      unknown.lower = point.lower;
      unknown.upper = point.upper < n_layers ? point.upper : kBelow;
      if (unknown.lower != kBelow) unknown.lower_local = point.station - layout.layers[unknown.lower].begin;
      if (unknown.upper != kBelow) unknown.upper_local = point.station - layout.layers[unknown.upper].begin;
      unknowns_.push_back(unknown);
    }
    // a ring's balance comes after all that presses on it, so that its pivot is never zero
    if (lower != kBelow && layout.layers[lower].ring) {
      Unknown unknown;
      unknown.ring = lower;
      unknowns_.push_back(unknown);
    }
  }

  // envelope: a row reaches back to the first unknown that shares a layer with it
  first_of_layer_.assign(n_layers, -1);
  row_start_.resize(unknowns_.size());
  row_offset_.resize(unknowns_.size());
  int size = 0;
  for (int i = 0; i < static_cast<int>(unknowns_.size()); ++i) {
    int start = i;
    for (int layer : {unknowns_[i].lower, unknowns_[i].upper, unknowns_[i].ring}) {
      if (layer == kBelow) continue;
      if (first_of_layer_[layer] < 0) first_of_layer_[layer] = i;
      start = std::min(start, first_of_layer_[layer]);
    }
    row_start_[i] = start;
    row_offset_[i] = size - start;
    size += i - start + 1;
  }
  envelope_.resize(size);
  diagonal_.resize(unknowns_.size());
  right_.resize(unknowns_.size());
}

/// Two rings that touch at a bore they share yield only together: a little flexibility of the place itself
/// keeps that pivot from being zero.
double ContactSolver::pivot_flexibility(const Layout& layout, const std::vector<Flexibility>& layers,
                                        const Unknown& at, double value) const {
  double rim = 0.0;
  for (int layer : {at.lower, at.upper})
    if (layer != kBelow && layout.layers[layer].ring) rim = std::max(rim, layers[layer].column.back());
  value += layout.points[at.point].compliance;
  return value > kSharedBore * kSharedBore * rim ? value : kSharedBore * rim;
}

void ContactSolver::factor(const Layout& layout, const std::vector<Flexibility>& layers) {
  const auto entry = [&](int layer, int i, int j) {
    return layers[layer].column[static_cast<std::size_t>(j) * layers[layer].n + i];
  };
  const int n = static_cast<int>(unknowns_.size());
  for (int i = 0; i < n; ++i) {
    const Unknown& a = unknowns_[i];
    double* row = envelope_.data() + row_offset_[i];
    for (int j = row_start_[i]; j <= i; ++j) {
      const Unknown& b = unknowns_[j];
      double value = 0.0;
      if (a.ring != kBelow) {
        if (b.ring == a.ring)
          value = -kRingGround / entry(a.ring, layers[a.ring].n - 1, layers[a.ring].n - 1);
        if (b.lower == a.ring) value = -1.0;
        if (b.upper == a.ring) value = 1.0;
      } else if (b.ring != kBelow) {
        if (a.lower == b.ring) value = -1.0;
        if (a.upper == b.ring) value = 1.0;
      } else {
        if (a.lower != kBelow && a.lower == b.lower) value += entry(a.lower, a.lower_local, b.lower_local);
        if (a.lower != kBelow && a.lower == b.upper) value -= entry(a.lower, a.lower_local, b.upper_local);
        if (a.upper != kBelow && a.upper == b.lower) value -= entry(a.upper, a.upper_local, b.lower_local);
        if (a.upper != kBelow && a.upper == b.upper) value += entry(a.upper, a.upper_local, b.upper_local);
        if (i == j) value = pivot_flexibility(layout, layers, a, value);
      }
      row[j] = value;
    }

    // row i of L D, then of L; the envelope keeps its shape
    double pivot = row[i];
    for (int j = row_start_[i]; j < i; ++j) {
      const double* other = envelope_.data() + row_offset_[j];
      const int k = std::max(row_start_[i], row_start_[j]);
      row[j] -= dot(row + k, other + k, j - k);
    }
    for (int j = row_start_[i]; j < i; ++j) {
      const double scaled = row[j] / diagonal_[j];
      pivot -= scaled * row[j];
      row[j] = scaled;
    }
    diagonal_[i] = pivot;
  }
}

void ContactSolver::back_solve() {
  const int n = static_cast<int>(unknowns_.size());
  for (int i = 0; i < n; ++i) {
    const double* row = envelope_.data() + row_offset_[i];
    const int first = row_start_[i];
    right_[i] -= dot(row + first, right_.data() + first, i - first);
  }
  for (int i = n - 1; i >= 0; --i) right_[i] /= diagonal_[i];
  for (int i = n - 1; i >= 0; --i) {
    const double* row = envelope_.data() + row_offset_[i];
    for (int j = row_start_[i]; j < i; ++j) right_[j] -= row[j] * right_[i];
  }
}

/// From the solved unknowns: forces, shifts, and on the lifts in `state.lift`, which hold those without
/// contact.
void ContactSolver::spread(const Layout& layout, const std::vector<Flexibility>& layers,
                           ContactState& state) const {
  std::fill(state.force.begin(), state.force.end(), 0.0);
  std::fill(state.shift.begin(), state.shift.end(), 0.0);
  const auto add = [&](int layer, int local, double force) {
    const int n = layers[layer].n;
    const double* column = layers[layer].column.data() + static_cast<std::size_t>(local) * n;
    double* lift = state.lift[layer].data();
    for (int s = 0; s < n; ++s) lift[s] += force * column[s];
  };
  for (std::size_t i = 0; i < unknowns_.size(); ++i) {
    const Unknown& unknown = unknowns_[i];
    if (unknown.ring != kBelow) {
      state.shift[unknown.ring] = right_[i];
      for (double& lift : state.lift[unknown.ring]) lift += right_[i];
      continue;
    }
    state.force[unknown.point] = right_[i];
    if (unknown.lower != kBelow) add(unknown.lower, unknown.lower_local, -right_[i]);
    if (unknown.upper != kBelow) add(unknown.upper, unknown.upper_local, right_[i]);
  }
  const int n_layers = layout.n_layers();
  for (std::size_t p = 0; p < layout.points.size(); ++p) {
    const ContactPoint& point = layout.points[p];
    double gap = 0.0;
    if (point.lower != kBelow)
      gap -= state.lift[point.lower][point.station - layout.layers[point.lower].begin];
    if (point.upper < n_layers)
      gap += state.lift[point.upper][point.station - layout.layers[point.upper].begin];
    state.gap[p] = gap;
  }
}

void ContactSolver::fill_columns(std::vector<Flexibility>& layers, FlexibilitySource& source) {
  wanted_.resize(layers.size());
  const auto want = [&](int layer, int local) {
    if (layer == kBelow || layers[layer].have[local]) return;
    layers[layer].have[local] = 1;
    wanted_[layer].push_back(local);
  };
  for (const Unknown& unknown : unknowns_) {
    if (unknown.ring != kBelow) want(unknown.ring, layers[unknown.ring].n - 1);
    want(unknown.lower, unknown.lower_local);
    want(unknown.upper, unknown.upper_local);
  }
  for (std::size_t l = 0; l < layers.size(); ++l) {
    if (wanted_[l].empty()) continue;
    source.fill_columns(static_cast<int>(l), wanted_[l]);
    wanted_[l].clear();
  }
}

void ContactSolver::find_right_side(const Layout& layout, const std::vector<Flexibility>& layers,
                                    const std::vector<double>& gap_extra) {
  for (std::size_t i = 0; i < unknowns_.size(); ++i) {
    const Unknown& unknown = unknowns_[i];
    right_[i] = unknown.point < 0 ? 0.0 : -(layout.points[unknown.point].gap + gap_extra[unknown.point]);
    if (unknown.lower != kBelow) right_[i] += layers[unknown.lower].rest[unknown.lower_local];
    if (unknown.upper != kBelow) right_[i] -= layers[unknown.upper].rest[unknown.upper_local];
  }
}

/// Points that pull, points that overlap.
void ContactSolver::find_wrong(const Layout& layout, const std::vector<double>& gap_extra, double load,
                               ContactState& state) {
  double largest_lift = 0.0;
  for (const std::vector<double>& lifts : state.lift)
    for (double lift : lifts)
      largest_lift = std::abs(lift) <= largest_lift ? largest_lift : std::abs(lift);  // NaN stays
  double largest_force = load;
  for (double force : state.force)
    largest_force = std::abs(force) <= largest_force ? largest_force : std::abs(force);
  force_tolerance_ = kTolerance * largest_force;
  gap_tolerance_ = kTolerance * largest_lift;
  wrong_.clear();
  for (std::size_t p = 0; p < layout.points.size(); ++p) {
    state.gap[p] += layout.points[p].gap + gap_extra[p] + layout.points[p].compliance * state.force[p];
    const bool wrong = state.active[p] ? state.force[p] < -force_tolerance_ : state.gap[p] < -gap_tolerance_;
    if (wrong) wrong_.push_back(static_cast<int>(p));
  }
}

/// One change of the active set along forces that push everywhere: towards the solved forces until the first
/// would pull, which is let go; or, when none would, the deepest overlap of every pair of bodies begins to
/// press. False when right.
bool ContactSolver::step_feasibly(const Layout& layout, ContactState& state) {
  double share = 1.0;
  for (int p : wrong_)
    if (state.active[p]) share = std::min(share, feasible_[p] / (feasible_[p] - state.force[p]));
  if (std::any_of(wrong_.begin(), wrong_.end(), [&](int p) { return state.active[p] != 0; })) {
    for (std::size_t p = 0; p < feasible_.size(); ++p) {
      if (!state.active[p]) continue;
      feasible_[p] += share * (state.force[p] - feasible_[p]);
      if (feasible_[p] <= 1e-3 * force_tolerance_ && state.force[p] < 0.0) {
        feasible_[p] = 0.0;
        state.active[p] = 0;
      }
    }
    return true;
  }
  for (std::size_t p = 0; p < feasible_.size(); ++p) feasible_[p] = std::max(state.force[p], 0.0);
  if (wrong_.empty()) return false;
  int deepest = wrong_[0];
  for (std::size_t i = 0; i <= wrong_.size(); ++i) {
    const int p = i < wrong_.size() ? wrong_[i] : -1;
    const bool same_pair = p >= 0 && layout.points[p].lower == layout.points[deepest].lower &&
                           layout.points[p].upper == layout.points[deepest].upper;
    if (same_pair) {
      if (state.gap[p] < state.gap[deepest]) deepest = p;
    } else {
      state.active[deepest] = 1;
      deepest = p;
    }
  }
  return true;
}

bool ContactSolver::solve(const Layout& layout, std::vector<Flexibility>& layers,
                          const std::vector<double>& gap_extra, double load, bool same_columns,
                          FlexibilitySource& source, ContactState& state) {
  const std::size_t n_points = layout.points.size();
  std::size_t fewest = n_points + 1;
  int patience = kPatience;
  bool feasibly = false;
  if (!same_columns) factored_.clear();
  for (n_iterations_ = 1; n_iterations_ <= kMaxIterations; ++n_iterations_) {
    // the forces that close the gaps of the active points
    if (factored_ != state.active) {
      number_unknowns(layout, state);
      fill_columns(layers, source);
      factor(layout, layers);
      factored_ = state.active;
    }
    find_right_side(layout, layers, gap_extra);
    back_solve();
    for (int l = 0; l < layout.n_layers(); ++l) state.lift[l] = layers[l].rest;
    spread(layout, layers, state);
    find_wrong(layout, gap_extra, load, state);

    // change what is wrong: all of it as long as that helps
    if (!std::isfinite(gap_tolerance_) || !std::isfinite(force_tolerance_)) return false;
    if (!feasibly && wrong_.empty()) return true;
    if (wrong_.size() < fewest) {
      fewest = wrong_.size();
      patience = kPatience;
    } else if (!feasibly && --patience < 0) {
      feasibly = true;
      feasible_.resize(n_points);
      for (std::size_t p = 0; p < n_points; ++p) feasible_[p] = std::max(state.force[p], 0.0);
    }
    if (!feasibly) {
      for (int p : wrong_) state.active[p] = !state.active[p];
    } else if (!step_feasibly(layout, state)) {
      return true;
    }
  }
  return false;
}

void ContactSolver::rate(const Layout& layout, const std::vector<Flexibility>& layers,
                         const std::vector<std::vector<double>>& rest_rate, ContactState& rate) {
  for (std::size_t i = 0; i < unknowns_.size(); ++i) {
    const Unknown& unknown = unknowns_[i];
    right_[i] = 0.0;
    if (unknown.lower != kBelow) right_[i] += rest_rate[unknown.lower][unknown.lower_local];
    if (unknown.upper != kBelow) right_[i] -= rest_rate[unknown.upper][unknown.upper_local];
  }
  back_solve();
  for (int l = 0; l < layout.n_layers(); ++l) rate.lift[l] = rest_rate[l];
  spread(layout, layers, rate);
  for (std::size_t p = 0; p < layout.points.size(); ++p)
    rate.gap[p] += layout.points[p].compliance * rate.force[p];
}

}  // namespace shimwright::plate
