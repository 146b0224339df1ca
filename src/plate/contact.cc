#include "plate/contact.h"

#include <algorithm>
#include <cmath>

namespace shimwright::plate {
namespace {

constexpr int kMaxIterations = 400;
constexpr int kPatience = 4;         // changes of all wrong points at once without getting better
constexpr double kTolerance = 1e-9;  // of the load and of the lift
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

  // each column reaches down to the last unknown that shares a layer with it, and never less far than the one
  // before
  const int n = static_cast<int>(unknowns_.size());
  last_of_layer_.assign(n_layers, -1);
  for (int i = 0; i < n; ++i)
    for (int layer : {unknowns_[i].lower, unknowns_[i].upper, unknowns_[i].ring})
      if (layer != kBelow) last_of_layer_[layer] = i;
  column_end_.resize(n);
  column_offset_.resize(n);
  int size = 0;
  int end = 0;
  for (int i = 0; i < n; ++i) {
    end = std::max(end, i);
    for (int layer : {unknowns_[i].lower, unknowns_[i].upper, unknowns_[i].ring})
      if (layer != kBelow) end = std::max(end, last_of_layer_[layer]);
    column_end_[i] = end;
    column_offset_[i] = size;
    size += end - i + 1;
  }
  factors_.resize(size);
  diagonal_.resize(n);
  right_.resize(n);
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

/// Column j of the system: what each gap yields to the force of unknown j, and the balance of rings.
void ContactSolver::fill_system(const Layout& layout, const std::vector<Flexibility>& layers, int j) {
  const Unknown& by = unknowns_[j];
  double* column = &factors_[column_offset_[j]];
  const int length = column_end_[j] - j + 1;
  if (by.ring != kBelow) {
    for (int k = 0; k < length; ++k) {
      const Unknown& at = unknowns_[j + k];
      column[k] = at.upper == by.ring ? 1.0 : at.lower == by.ring ? -1.0 : 0.0;
    }
    column[0] = -kRingGround / layers[by.ring].column.back();
    return;
  }
  const auto lifts = [&](int layer, int local) {
    return layer == kBelow ? nullptr
                           : &layers[layer].column[static_cast<std::size_t>(local) * layers[layer].n];
  };
  const double* of_lower = lifts(by.lower, by.lower_local);
  const double* of_upper = lifts(by.upper, by.upper_local);
  for (int k = 0; k < length; ++k) {
    const Unknown& at = unknowns_[j + k];
    double value = 0.0;
    if (at.ring != kBelow) {
      value = by.upper == at.ring ? 1.0 : by.lower == at.ring ? -1.0 : 0.0;
    } else {
      if (of_lower != nullptr && at.lower == by.lower) value += of_lower[at.lower_local];
      if (of_lower != nullptr && at.upper == by.lower) value -= of_lower[at.upper_local];
      if (of_upper != nullptr && at.lower == by.upper) value -= of_upper[at.lower_local];
      if (of_upper != nullptr && at.upper == by.upper) value += of_upper[at.upper_local];
    }
    column[k] = value;
  }
  column[0] = pivot_flexibility(layout, layers, by, column[0]);
}

/// LDLt by columns; each takes its multiples from those that follow.
void ContactSolver::factor(const Layout& layout, const std::vector<Flexibility>& layers) {
  const int n = static_cast<int>(unknowns_.size());
  for (int j = 0; j < n; ++j) fill_system(layout, layers, j);
  for (int j = 0; j < n; ++j) {
    double* column = &factors_[column_offset_[j]];
    const int length = column_end_[j] - j;
    diagonal_[j] = column[0];
    const double over = 1.0 / column[0];
    for (int k = 1; k <= length; ++k) {
      const double factor = column[k] * over;
      double* other = &factors_[column_offset_[j + k]];
      const double* from = column + k;
      for (int i = 0; i <= length - k; ++i) other[i] -= factor * from[i];
    }
    for (int k = 1; k <= length; ++k) column[k] *= over;
  }
}

void ContactSolver::back_solve() {
  const int n = static_cast<int>(unknowns_.size());
  for (int j = 0; j < n; ++j) {
    const double* column = &factors_[column_offset_[j]];
    const double value = right_[j];
    for (int k = 1; k <= column_end_[j] - j; ++k) right_[j + k] -= column[k] * value;
  }
  for (int j = n - 1; j >= 0; --j) {
    const double* column = &factors_[column_offset_[j]];
    double value = right_[j] / diagonal_[j];
    for (int k = 1; k <= column_end_[j] - j; ++k) value -= column[k] * right_[j + k];
    right_[j] = value;
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
  // a flag of its own: with no contact point an empty set says nothing of whose factors these are
  if (!same_columns) has_factors_ = false;
  for (n_iterations_ = 1; n_iterations_ <= kMaxIterations; ++n_iterations_) {
    // the forces that close the gaps of the active points
    if (!has_factors_ || factored_ != state.active) {
      number_unknowns(layout, state);
      fill_columns(layers, source);
      factor(layout, layers);
      factored_ = state.active;
      has_factors_ = true;
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
