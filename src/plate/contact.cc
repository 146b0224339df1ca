#include "plate/contact.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace shimwright::plate {
namespace {

constexpr int kMaxBlocks = 40;
constexpr int kMaxIterations = 600;
constexpr int kPatience = 20;        // changes of all wrong points at once without getting better
constexpr int kFewChanges = 6;       // beyond these, borders cost more than new factors
constexpr double kTolerance = 1e-9;  // of the load and of the lift

}  // namespace

void ContactSolver::set_up(const Layout& layout) {
  const std::size_t n_points = layout.points.size();
  factors_.set_up(layout);
  overlap_.assign(n_points, 0.0);
  feasible_.assign(n_points, 0.0);
  cut_.force.assign(n_points, 0.0);
  cut_.gap.assign(n_points, 0.0);
  cut_.shift.assign(layout.layers.size(), 0.0);
  cut_.lift.resize(layout.layers.size());
  has_rings_ =
      std::any_of(layout.layers.begin(), layout.layers.end(), [](const Layer& layer) { return layer.ring; });
  net_.resize(layout.radius.size());
  wanted_.resize(layout.layers.size());
  for (std::vector<int>& stations : wanted_) stations.clear();
}

void ContactSolver::fill_columns(const ContactProblem& problem, const std::vector<char>& active) {
  const int n_layers = problem.layout.n_layers();
  if (std::ranges::all_of(problem.layers, &Flexibility::complete)) return;
  const auto want = [&](int layer, int local) {
    if (problem.layers[layer].have[local]) return;
    problem.layers[layer].have[local] = 1;
    wanted_[layer].push_back(local);
  };
  for (int l = 0; l < n_layers; ++l)
    if (problem.layout.layers[l].ring) want(l, problem.layers[l].n - 1);
  for (const ContactRun& run : problem.layout.runs) {
    for (int layer : {run.lower, run.upper}) {
      if (layer == kBelow || layer >= n_layers) continue;
      const int local = run.station - problem.layout.layers[layer].begin;
      for (int k = 0; k < run.n; ++k)
        if (active[run.first_point + k]) want(layer, local + k);
    }
  }
  for (int l = 0; l < n_layers; ++l) {
    if (wanted_[l].empty()) continue;
    problem.source.fill_columns(l, wanted_[l]);
    wanted_[l].clear();
  }
}

/// Factors for this active set: the present ones where few points changed.
void ContactSolver::match_factors(const ContactProblem& problem, const std::vector<char>& active) {
  changed_.clear();
  if (factors_.has_factors()) {
    const std::vector<char>& before = factors_.active();
    for (std::size_t p = 0; p < active.size(); ++p)
      if (active[p] != before[p]) changed_.push_back(static_cast<int>(p));
    if (changed_.empty()) return;
  }
  fill_columns(problem, active);
  bool kept = factors_.has_factors() && changed_.size() <= kFewChanges;
  for (std::size_t i = 0; kept && i < changed_.size(); ++i)
    kept = factors_.toggle(problem.layout, problem.layers, changed_[i]);
  if (!kept) factors_.factor(problem.layout, problem.layers, active);
}

/// By how much the bodies overlap at each point without contact forces.
void ContactSolver::find_overlaps(const ContactProblem& problem) {
  const Layout& layout = problem.layout;
  const int n_layers = layout.n_layers();
  for (const ContactRun& run : layout.runs) {
    double* overlap = &overlap_[run.first_point];
    for (int k = 0; k < run.n; ++k) overlap[k] = -problem.gap[run.first_point + k];
    if (run.lower != kBelow) {
      const double* rest = &problem.layers[run.lower].rest[run.station - layout.layers[run.lower].begin];
      for (int k = 0; k < run.n; ++k) overlap[k] += rest[k];
    }
    if (run.upper < n_layers) {
      const double* rest = &problem.layers[run.upper].rest[run.station - layout.layers[run.upper].begin];
      for (int k = 0; k < run.n; ++k) overlap[k] -= rest[k];
    }
  }
}

/// From the forces and shifts: on the lifts in `state.lift`, which hold those without contact, and their
/// differences at the points.
void ContactSolver::find_lifts(const Layout& layout, const std::vector<Flexibility>& layers,
                               ContactState& state) {
  const int n_layers = layout.n_layers();
  for (int l = 0; l < n_layers; ++l) {
    const int begin = layout.layers[l].begin;
    const int n = layers[l].n;
    std::fill_n(net_.begin(), n, 0.0);
    for (int side = 0; side < 2; ++side) {
      // runs that this layer is the upper or the lower body of
      const std::vector<int>& runs = side == 0 ? layout.runs_below[l] : layout.runs_above[l];
      for (int r : runs) {
        const ContactRun& run = layout.runs[r];
        const double* force = &state.force[run.first_point];
        double* net = &net_[run.station - begin];
        for (int k = 0; k < run.n; ++k) net[k] += side == 0 ? force[k] : -force[k];
      }
    }
    add_weighted_columns(n, n, layers[l].column.data(), net_.data(), state.lift[l].data());
    if (state.shift[l] != 0.0)
      for (double& lift : state.lift[l]) lift += state.shift[l];
  }
  for (const ContactRun& run : layout.runs) {
    double* gap = &state.gap[run.first_point];
    for (int k = 0; k < run.n; ++k)
      gap[k] = layout.points[run.first_point + k].compliance * state.force[run.first_point + k];
    if (run.lower != kBelow) {
      const double* lift = &state.lift[run.lower][run.station - layout.layers[run.lower].begin];
      for (int k = 0; k < run.n; ++k) gap[k] -= lift[k];
    }
    if (run.upper < n_layers) {
      const double* lift = &state.lift[run.upper][run.station - layout.layers[run.upper].begin];
      for (int k = 0; k < run.n; ++k) gap[k] += lift[k];
    }
  }
}

/// Points that pull, points that overlap. False when the numbers are not finite.
bool ContactSolver::find_wrong(const ContactProblem& problem, ContactState& state) {
  double largest_lift = 0.0;
  bool finite = true;
  for (const std::vector<double>& lifts : state.lift) {
    const double largest = largest_magnitude(static_cast<int>(lifts.size()), lifts.data());
    finite = finite && std::isfinite(largest);
    largest_lift = std::max(largest_lift, largest);
  }
  const int n_points = static_cast<int>(state.force.size());
  const double largest_force = largest_magnitude(n_points, state.force.data());
  least_force_ = kTolerance * std::max(problem.load, largest_force);
  least_gap_ = kTolerance * largest_lift;
  wrong_.clear();
  for (int p = 0; p < n_points; ++p) {
    state.gap[p] += problem.gap[p];
    const bool wrong = state.active[p] ? state.force[p] < -least_force_ : state.gap[p] < -least_gap_;
    if (wrong) wrong_.push_back(p);
  }
  return finite && std::isfinite(largest_force);
}

/// Forces, lifts and gaps with the active set of `state`, and what is wrong with them.
bool ContactSolver::find_state(const ContactProblem& problem, ContactState& state) {
  ++n_iterations_;
  match_factors(problem, state.active);
  factors_.solve(overlap_, state.force, state.shift);
  for (int l = 0; l < problem.layout.n_layers(); ++l) state.lift[l] = problem.layers[l].rest;
  find_lifts(problem.layout, problem.layers, state);
  return find_wrong(problem, state);
}

/// Of each row of neighbours that pull or overlap the one that does so most: where plates lie on each other,
/// changing all of them would only make the next ones wrong.
void ContactSolver::find_flips(const Layout& layout, const ContactState& state) {
  const auto wrongness = [&](std::size_t i) {
    return state.active[wrong_[i]] ? state.force[wrong_[i]] : state.gap[wrong_[i]];
  };
  const auto one_row = [&](std::size_t i, std::size_t j) {  // j = i + 1
    const ContactPoint& a = layout.points[wrong_[i]];
    const ContactPoint& b = layout.points[wrong_[j]];
    return wrong_[j] == wrong_[i] + 1 && a.lower == b.lower && a.upper == b.upper &&
           state.active[wrong_[i]] == state.active[wrong_[j]];
  };
  flips_.clear();
  for (std::size_t i = 0; i < wrong_.size(); ++i) {
    const bool below = i > 0 && one_row(i - 1, i) && wrongness(i - 1) < wrongness(i);
    const bool above = i + 1 < wrong_.size() && one_row(i, i + 1) && wrongness(i + 1) < wrongness(i);
    if (!below && !above) flips_.push_back(wrong_[i]);
  }
}

bool ContactSolver::solve(const ContactProblem& problem, bool same_columns, ContactState& state) {
  if (!same_columns) factors_.forget();
  find_overlaps(problem);
  n_iterations_ = 0;
  begun_ = state.active;
  begun_force_ = state.force;

  // the worst of the wrong points at once as long as that helps
  std::size_t fewest = state.active.size() + 1;
  int patience = kPatience;
  while (n_iterations_ < kMaxBlocks) {
    if (!find_state(problem, state)) return false;
    if (wrong_.empty()) return true;
    if (wrong_.size() < fewest) {
      fewest = wrong_.size();
      patience = kPatience;
    } else if (--patience < 0) {
      break;
    }
    find_flips(problem.layout, state);
    for (int p : flips_) state.active[p] = !state.active[p];
  }
  state.active = begun_;
  state.force = begun_force_;
  return descend(problem, state);
}

/// Energy of forces under which the gaps are `gap`: of what they store less the work on the overlaps.
double ContactSolver::energy_of(const std::vector<double>& force, const std::vector<double>& gap) const {
  const int n = static_cast<int>(force.size());
  return 0.5 * (dot(n, force.data(), gap.data()) - dot(n, force.data(), overlap_.data()));
}

/// The solved forces, zero where they pull: takes them when that lowers the energy.
bool ContactSolver::cut_off(const ContactProblem& problem, ContactState& state) {
  if (has_rings_) return false;  // what is cut off one would have to balance
  for (std::size_t p = 0; p < feasible_.size(); ++p) cut_.force[p] = std::max(state.force[p], 0.0);
  for (int l = 0; l < problem.layout.n_layers(); ++l) cut_.lift[l] = problem.layers[l].rest;
  find_lifts(problem.layout, problem.layers, cut_);
  for (std::size_t p = 0; p < feasible_.size(); ++p) cut_.gap[p] += problem.gap[p];
  const double energy = energy_of(cut_.force, cut_.gap);
  if (!(energy < energy_)) return false;
  energy_ = energy;
  feasible_ = cut_.force;
  for (int p : wrong_)
    if (state.active[p]) state.active[p] = 0;
  return true;
}

/// Towards the solved forces until the first would pull, which is let go.
void ContactSolver::let_first_go(ContactState& state) {
  double share = 1.0;
  for (int p : wrong_)
    if (state.active[p]) share = std::min(share, feasible_[p] / (feasible_[p] - state.force[p]));
  for (std::size_t p = 0; p < feasible_.size(); ++p) {
    if (!state.active[p]) continue;
    feasible_[p] += share * (state.force[p] - feasible_[p]);
    if (feasible_[p] <= 1e-3 * least_force_ && state.force[p] < 0.0) {
      feasible_[p] = 0.0;
      state.active[p] = 0;
    }
  }
}

/// The deepest overlap of every pair of bodies begins to press.
void ContactSolver::press_deepest(const Layout& layout, ContactState& state) const {
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
}

/// By forces that push everywhere, each lower in energy than those before.
bool ContactSolver::descend(const ContactProblem& problem, ContactState& state) {
  for (std::size_t p = 0; p < feasible_.size(); ++p) feasible_[p] = std::max(state.force[p], 0.0);
  energy_ = std::numeric_limits<double>::infinity();
  while (n_iterations_ < kMaxIterations) {
    if (!find_state(problem, state)) return false;
    const bool pulls = std::any_of(wrong_.begin(), wrong_.end(), [&](int p) { return state.active[p] != 0; });
    if (pulls) {
      if (!cut_off(problem, state)) let_first_go(state);
      continue;
    }
    for (std::size_t p = 0; p < feasible_.size(); ++p) feasible_[p] = std::max(state.force[p], 0.0);
    energy_ = energy_of(feasible_, state.gap);
    if (wrong_.empty()) return true;
    press_deepest(problem.layout, state);
  }
  return false;
}

void ContactSolver::rate(const Layout& layout, const std::vector<Flexibility>& layers,
                         const std::vector<std::vector<double>>& rest_rate, ContactState& rate) {
  const int n_layers = layout.n_layers();
  for (const ContactRun& run : layout.runs) {
    for (int k = 0; k < run.n; ++k) {
      double overlap = 0.0;
      if (run.lower != kBelow)
        overlap += rest_rate[run.lower][run.station + k - layout.layers[run.lower].begin];
      if (run.upper < n_layers)
        overlap -= rest_rate[run.upper][run.station + k - layout.layers[run.upper].begin];
      overlap_[run.first_point + k] = overlap;
    }
  }
  factors_.solve(overlap_, rate.force, rate.shift);
  for (int l = 0; l < n_layers; ++l) rate.lift[l] = rest_rate[l];
  find_lifts(layout, layers, rate);
}

}  // namespace shimwright::plate
