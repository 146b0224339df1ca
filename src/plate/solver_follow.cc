// A run of rising pressures: each predicted from the states solved before it, by the polynomial through them,
// and then solved with the present tangent until what is left is below the tolerance. `outcome.residual` is
// that rest, estimated from how much the last steps left. Against each pressure solved alone, 18 000 points
// of random stacks: lift within 1e-6 of the largest in 999 of 1000, at worst 4e-6; more than twice the
// estimate in one of 100 (response_run_test.cc). The slope comes from the lifts on the way where they
// predicted this one to 1e-3, else from a step along the rates.
#include <algorithm>
#include <cmath>
#include <limits>

#include "plate/kernels.h"
#include "plate/solver.h"

namespace shimwright::plate {
namespace {

constexpr double kSpread =
    16.0;                        // weights of the states before may add up to this; even steps of a cubic: 15
constexpr double kSafely = 2.0;  // a tangent that ages contracts less than it was seen to
constexpr double kLeastContraction = 0.03;
constexpr double kLongStep =
    1e-3;  // of the slopes: after one, loads and contacts still turn for a step or two
constexpr double kAfterLongStep = 0.3;
constexpr double kWorn = 0.15;         // a tangent that leaves more than this share is not worth keeping
constexpr int kCheckEvery = 6;         // pressures
constexpr double kFarFromCheck = 0.3;  // of the pressure: it is measured again before that, too
constexpr double kNoise = 1e-9;        // of the slopes: a change below it says nothing
constexpr double kPolished = 1e-7;     // of the slopes: near enough for rates to be found from here
constexpr double kChance = 0.2;
constexpr double kSlopeTold = 1e-3;  // a slope off by this share is not taken from the lifts

}  // namespace

/// Rest is where every stack begins that nothing preloads.
void StackSolver::begin_trail() {
  n_trail_ = 0;
  newest_ = 0;
  order_ = 2;
  trail_is_flat_ = false;
  follows_on_ = false;
  slope_misfit_ = std::numeric_limits<double>::infinity();
  const bool preloaded = std::any_of(layout_.points.begin(), layout_.points.end(),
                                     [](const ContactPoint& at) { return at.gap < 0.0; });
  if (options_.theory == Theory::Linear || preloaded) return;
  add_to_trail();
  trail_is_flat_ = true;
}

/// The present state becomes the newest.
void StackSolver::add_to_trail() {
  trail_pairs_ = touching_pairs();
  trail_is_flat_ = false;
  if (n_trail_ == 0 || trail_[newest_].pressure < pressure_) {
    newest_ = (newest_ + 1) % kTrail;
    n_trail_ = std::min(n_trail_ + 1, kTrail);
  }
  Passed& passed = trail_[newest_];
  passed.pressure = pressure_;
  passed.seat_lift = seat_lift();
  std::size_t size = force_.size();
  for (const DiscElements& disc : discs_) size += disc.state_size();
  passed.state.resize(size);
  double* to = passed.state.data();
  for (const DiscElements& disc : discs_) {
    disc.save_state(to);
    to += disc.state_size();
  }
  std::copy(force_.begin(), force_.end(), to);
}

/// Weights of the `n` newest states in the polynomial through them, at a pressure; returns the sum of their
/// magnitudes.
double StackSolver::weigh_trail(int n, double pressure, double* weight) const {
  double spread = 0.0;
  for (int a = 0; a < n; ++a) {
    weight[a] = 1.0;
    const double at = passed(a).pressure;
    for (int b = 0; b < n; ++b)
      if (b != a) weight[a] *= (pressure - passed(b).pressure) / (at - passed(b).pressure);
    spread += std::abs(weight[a]);
  }
  return spread;
}

/// How well each polynomial through the states passed predicts the lift that was found: the best one predicts
/// the next.
void StackSolver::judge_trail(double pressure, double lift) {
  const double before = slope_misfit_;
  slope_misfit_ = std::numeric_limits<double>::infinity();
  order_ = std::min(n_trail_, 2);
  slope_order_ = 0;
  const double rise = std::max(std::abs(lift - passed(0).seat_lift), 1e-300);
  double least = std::numeric_limits<double>::infinity();
  double worst_slope = 0.0;
  for (int n = 2; n <= n_trail_; ++n) {
    double weight[kTrail];
    if (weigh_trail(n, pressure, weight) > kSpread) break;
    double predicted = 0.0;
    for (int a = 0; a < n; ++a) predicted += weight[a] * passed(a).seat_lift;
    const double misfit = std::abs(predicted - lift);
    if (misfit <= least) order_ = n;
    least = std::min(least, misfit);
    // the slope at the end of a polynomial of this order is off by one part in n of what the one before
    // missed; a straight line says too little
    if (n == 2) continue;
    const double off = misfit / (n * rise);
    worst_slope = std::max(worst_slope, off);
    if (off > slope_misfit_) continue;
    slope_misfit_ = off;
    slope_order_ = n;
  }
  // a small misfit next to a large one is chance
  slope_misfit_ = std::max(slope_misfit_, kChance * worst_slope);
  if (std::isfinite(before)) slope_misfit_ = std::max(slope_misfit_, kChance * before);
}

void StackSolver::go_along_trail(int n, const double* weight) {
  const double* states[kTrail];
  for (int a = 0; a < n; ++a) states[a] = passed(a).state.data();
  predicted_.resize(passed(0).state.size());
  weighted_sum(static_cast<int>(predicted_.size()), n, states, weight, predicted_.data());
  const double* from = predicted_.data();
  for (DiscElements& disc : discs_) {
    disc.set_state(from);
    from += disc.state_size();
  }
  for (double& force : force_) force = std::max(*from++, 0.0);
}

/// What the last step with the present tangent left of what was off.
void StackSolver::learn_contraction(double pressure, double before, double after) {
  if (!(before > kNoise) || !std::isfinite(before)) return;
  const double least = before > kLongStep ? kAfterLongStep : kLeastContraction;
  contraction_ = std::clamp(kSafely * after / before, least, 1.0);
  n_unchecked_ = 0;
  checked_at_ = pressure;
}

/// What a step leaves of what was off, as far as it is known; all where that must be measured again.
double StackSolver::expected_contraction(double pressure) const {
  const bool seen =
      n_unchecked_ <= kCheckEvery && std::abs(pressure - checked_at_) < kFarFromCheck * pressure;
  return follows_ && seen ? contraction_ : 1.0;
}

/// Puts the solver where the states passed lead to.
void StackSolver::predict(double pressure) {
  double weight[kTrail] = {};
  int n = std::min(order_, n_trail_);
  while (n > 1 && weigh_trail(n, pressure, weight) > kSpread) --n;
  const bool along_rates =
      rates_known_ && pressure_ > 0.0 && std::abs(pressure - pressure_) < kFarAlongRates * pressure_;
  if (along_rates) {
    go_along_rates(pressure);
  } else if (n > 1) {
    go_along_trail(n, weight);
  }
  rates_known_ = false;
}

/// One more step with the present tangent.
void StackSolver::polish(double pressure) {
  const double left = newton_change_;
  double share = 1.0;
  if (!step(pressure, 1.0, true, share)) return;
  newton_change_ = std::min(left, newton_change_);
}

bool StackSolver::follow(double pressure) {
  if (options_.theory == Theory::Linear) return solve_linear(pressure);
  if (follows_on_) add_to_trail();
  save(before_);
  predict(pressure);
  if (contraction_ > kSafely * kWorn) tangent_known_ = false;
  ++n_unchecked_;
  follows_ = true;
  const bool ended = solve_large(pressure);
  follows_ = false;
  follows_on_ = ended;
  if (!ended || (n_trail_ > 0 && !trail_is_flat_ && touching_pairs() != trail_pairs_)) n_trail_ = 0;
  if (n_trail_ == 0) slope_misfit_ = std::numeric_limits<double>::infinity();
  if (!ended) return false;
  if (n_trail_ > 0) judge_trail(pressure, seat_lift());
  // where rates have to be found by going a little further the state has to be nearer still
  if (!(slope_misfit_ < kSlopeTold) && newton_change_ > kPolished) polish(pressure);
  return true;
}

double StackSolver::find_seat_slope() {
  if (!(slope_misfit_ < kSlopeTold)) {
    find_rate();
    return seat_rate();
  }
  // of the polynomial through the states passed and this one, here
  double slope = 0.0;
  for (int a = 0; a + 1 < slope_order_; ++a) {
    double weight = 1.0 / (passed(a).pressure - pressure_);
    for (int b = 0; b + 1 < slope_order_; ++b)
      if (b != a) weight *= (pressure_ - passed(b).pressure) / (passed(a).pressure - passed(b).pressure);
    slope += weight * (passed(a).seat_lift - seat_lift());
  }
  return slope;
}

void StackSolver::begin_like(const StackSolver& other) {
  pressure_ = other.pressure_;
  rates_known_ = false;
  tangent_known_ = false;
  for (std::size_t l = 0; l < discs_.size(); ++l) discs_[l].set_state_like(other.discs_[l]);

  // the forces where they are there; between two points that press all of this mesh do, and between the clamp
  // and the first, except next to a rim, which lifts its neighbours
  const std::vector<ContactPoint>& theirs = other.layout_.points;
  const std::size_t n_theirs = theirs.size();
  std::fill(force_.begin(), force_.end(), 0.0);
  std::size_t q = 0;
  const double same = 1e-9 * layout_.radius.back();
  for (std::size_t p = 0; p < force_.size(); ++p) {
    const ContactPoint& at = layout_.points[p];
    const double radius = layout_.radius[at.station];
    const auto is_before = [&](std::size_t i) {
      const ContactPoint& their = theirs[i];
      if (their.lower != at.lower) return their.lower < at.lower;
      if (their.upper != at.upper) return their.upper < at.upper;
      return other.layout_.radius[their.station] < radius - same;
    };
    const auto is_of_pair = [&](std::size_t i) {
      return i < n_theirs && theirs[i].lower == at.lower && theirs[i].upper == at.upper;
    };
    while (q < n_theirs && is_before(q)) ++q;
    const bool there = is_of_pair(q) && other.layout_.radius[theirs[q].station] <= radius + same;
    const bool after_one = q > 0 && is_of_pair(q - 1);
    if (there) {
      force_[p] = other.force_[q];
      contact_.active[p] = other.contact_.active[q];
    } else {
      contact_.active[p] = is_of_pair(q) && is_of_pair(q + 1) && other.contact_.active[q] &&
                           (!after_one || other.contact_.active[q - 1]);
    }
  }
}

void StackSolver::load_sections() {
  if (options_.theory == Theory::Linear) return;
  load_discs();
}

}  // namespace shimwright::plate
