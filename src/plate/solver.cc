#include "plate/solver.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace shimwright::plate {
namespace {

constexpr int kMaxNewton = 50;
constexpr int kMaxHalvings = 12;
constexpr int kMaxSteps = 300;           // of Newton, at one pressure by all ways there
constexpr double kLargestTurn = 0.12;    // Newton moves the slope no further than this at once [rad]
constexpr double kNear = 4e-2;           // steps below this share of the slopes need no new tangent
constexpr double kSmallTurn = 1e-2;      // nor does a first step below this [rad]
constexpr double kGoodEnough = 1e-4;     // a slow end of Newton is accepted, and its residual reported
constexpr double kQuickly = 0.2;         // as long as each is this share of the one before
constexpr double kTurnStep = 3e-4;       // of the pressure: how far along the rates their turn is seen
constexpr double kHardlyTurned = 1e-2;   // of the rate: a first step that changes less leaves a tenth of that
constexpr double kLeastTurnStep = 2e-6;  // shorter, rounding decides
constexpr int kTurns = 2;                // steps there: each leaves about a tenth of what is off

/// How far contacts turn in one iteration: they may overshoot where a preload is heavy.
double blend_of(int iteration) {
  if (iteration < 8) return 1.0;
  return iteration < 18 ? 0.5 : iteration < 34 ? 0.25 : 0.1;
}

void resize_state(const Layout& layout, ContactState& state) {
  const std::size_t n_points = layout.points.size();
  state.active.assign(n_points, 0);
  state.force.assign(n_points, 0.0);
  state.gap.assign(n_points, 0.0);
  state.shift.assign(layout.layers.size(), 0.0);
  state.lift.resize(layout.layers.size());
  for (std::size_t l = 0; l < layout.layers.size(); ++l)
    state.lift[l].assign(layout.layers[l].n_stations(), 0.0);
}

}  // namespace

Kinematics StackSolver::kinematics() const {
  if (options_.theory == Theory::Linear) return Kinematics::Small;
  return options_.von_karman ? Kinematics::Moderate : Kinematics::Finite;
}

Annulus StackSolver::annulus_of(const Layer& layer) const {
  const double t = layer.thickness;
  const double nu = layer.poisson_ratio;
  Annulus plate;
  plate.inner = layout_.radius[layer.begin];
  plate.outer = layout_.radius[layer.end];
  plate.stiffness = layer.n_equal * layer.youngs_modulus * t * t * t / (12.0 * (1.0 - nu * nu));
  plate.poisson_ratio = nu;
  plate.shear_stiffness = options_.shear_flexible
                              ? kShearFactor * layer.youngs_modulus / (2.0 * (1.0 + nu)) * layer.n_equal * t
                              : std::numeric_limits<double>::infinity();
  plate.ring = layer.ring;
  return plate;
}

void StackSolver::set_up(const Stack& stack, const Options& options) {
  options_ = options;
  clamp_slips_ = stack.clamp_slips;
  lay_out(stack, options.refinement, layout_);
  const int n_layers = layout_.n_layers();
  log_radius_.resize(layout_.radius.size());
  for (std::size_t k = 0; k < log_radius_.size(); ++k) log_radius_[k] = std::log(layout_.radius[k]);
  flexibility_.resize(n_layers);
  station_force_.resize(n_layers);
  discs_.resize(n_layers);
  for (int l = 0; l < n_layers; ++l) {
    flexibility_[l].resize(layout_.layers[l].n_stations());
    station_force_[l].assign(layout_.layers[l].n_stations(), 0.0);
  }
  resize_state(layout_, contact_);
  resize_state(layout_, rate_);
  contact_solver_.set_up(layout_);
  force_.assign(layout_.points.size(), 0.0);
  gap_extra_.assign(layout_.points.size(), 0.0);
  gaps_.resize(layout_.points.size());
  turns_.assign(layout_.points.size(), {});
  pressure_ = 0.0;
  n_newton_ = 0;
  newton_change_ = 0.0;
  tangent_known_ = false;
  preload_share_ = 1.0;
  rates_known_ = false;
  follows_ = false;
  contraction_ = 1.0;
  n_unchecked_ = 0;
  checked_at_ = 0.0;
  find_gaps();
  for (int l = 0; l < n_layers; ++l) {
    const bool by_elements = options_.theory == Theory::Large || layout_.layers[l].notches.count > 0;
    if (!by_elements) continue;
    discs_[l].set_up(layout_, l, kinematics(), options_.shear_flexible, clamp_slips_);
    discs_[l].follows = options_.theory == Theory::Large && !options_.von_karman;
  }
  has_offsets_ = false;
  for (int l = 0; l < n_layers; ++l) has_offsets_ = has_offsets_ || offset(l) > 0.0;
  if (options_.theory == Theory::Linear) set_up_linear();
  guess_active();
  begin_trail();
}

/// To begin with, only the rims press where bodies lie on each other, and everything that is preloaded.
void StackSolver::guess_active() {
  const std::vector<ContactPoint>& points = layout_.points;
  for (std::size_t p = 0; p < points.size(); ++p) {
    const bool last_of_pair = p + 1 == points.size() || points[p + 1].lower != points[p].lower ||
                              points[p + 1].upper != points[p].upper;
    const bool touches = std::abs(points[p].gap) <= 1e-12 * layout_.radius.back();
    contact_.active[p] = last_of_pair && points[p].lower != kBelow && touches;
  }
}

void StackSolver::set_up_linear() {
  const int n_layers = layout_.n_layers();
  pressure_lift_.resize(n_layers);
  for (int l = 0; l < n_layers; ++l) {
    const Layer& layer = layout_.layers[l];
    const int n = layer.n_stations();
    pressure_lift_[l].assign(n, 0.0);
    flexibility_[l].complete = true;
    if (layer.notches.count > 0) {
      discs_[l].linearise(false, flexibility_[l]);
      discs_[l].pressure_rate(pressure_lift_[l]);
      for (int s = 0; s < n; ++s) discs_[l].fill_columns(std::span<const int>(&s, 1), flexibility_[l]);
      continue;
    }
    const Annulus plate = annulus_of(layer);
    const std::span<const double> radius(&layout_.radius[layer.begin], n);
    const std::span<const double> log_radius(&log_radius_[layer.begin], n);
    ring_flexibility(plate, radius, log_radius, flexibility_[l].column);
    std::fill(flexibility_[l].have.begin(), flexibility_[l].have.end(), 1);
    if (l == 0) {
      shape_slope_.resize(n);
      shape_curvature_.resize(n);
      loaded_shape(plate, radius, log_radius, std::span(layout_.load_constant).first(n),
                   std::span(layout_.load_square).first(n),
                   {pressure_lift_[0], shape_slope_, shape_curvature_});
    }
  }
}

void StackSolver::fill_columns(int layer, std::span<const int> stations) {
  discs_[layer].fill_columns(stations, flexibility_[layer]);
}

void StackSolver::spread_forces(const std::vector<double>& force) {
  const int n_layers = layout_.n_layers();
  for (std::vector<double>& forces : station_force_) std::fill(forces.begin(), forces.end(), 0.0);
  for (std::size_t p = 0; p < force.size(); ++p) {
    if (force[p] == 0.0) continue;
    const ContactPoint& point = layout_.points[p];
    if (point.lower != kBelow)
      station_force_[point.lower][point.station - layout_.layers[point.lower].begin] -= force[p];
    if (point.upper < n_layers)
      station_force_[point.upper][point.station - layout_.layers[point.upper].begin] += force[p];
  }
}

/// Axial loads of the discs from the contact forces of the present state.
void StackSolver::load_discs() {
  spread_forces(force_);
  for (int l = 0; l < layout_.n_layers(); ++l) {
    double outside = 0.0;
    for (int e = discs_[l].n_stations() - 2; e >= 0; --e) {
      outside += kPerRadian * station_force_[l][e + 1];
      discs_[l].axial[e] = outside;
    }
  }
}

void StackSolver::set_rest(double pressure) {
  for (int l = 0; l < layout_.n_layers(); ++l)
    for (int s = 0; s < flexibility_[l].n; ++s) flexibility_[l].rest[s] = pressure * pressure_lift_[l][s];
}

bool StackSolver::solve_linear(double pressure) {
  set_rest(pressure);
  const ContactProblem problem{layout_, flexibility_, gaps_, pressure * layout_.load_force, *this};
  const bool ended = contact_solver_.solve(problem, tangent_known_, contact_);
  tangent_known_ = true;
  force_ = contact_.force;
  pressure_ = pressure;
  n_newton_ = contact_solver_.n_iterations();
  return ended;
}

/// Gaps at rest, and what comes on top: by slope and thickness, and what a preload still lacks while it is
/// put on.
void StackSolver::find_gaps() {
  for (std::size_t p = 0; p < gaps_.size(); ++p) {
    const double gap = layout_.points[p].gap;
    gaps_[p] = gap + gap_extra_[p] - (1.0 - preload_share_) * std::min(gap, 0.0);
  }
}

/// One Newton step, as far as the slopes allow; false when the contact did not end.
bool StackSolver::step(double pressure, double blend, bool keep_tangent, double& share) {
  const int n_layers = layout_.n_layers();
  for (int l = 0; l < n_layers; ++l) discs_[l].pressure = pressure;
  load_discs();
  if (!options_.von_karman) shift_contacts(blend);
  for (int l = 0; l < n_layers; ++l) discs_[l].linearise(keep_tangent, flexibility_[l]);
  tangent_known_ = true;
  find_gaps();
  const ContactProblem problem{layout_, flexibility_, gaps_, pressure * layout_.load_force, *this};
  if (!contact_solver_.solve(problem, keep_tangent, contact_)) return false;

  spread_forces(contact_.force);
  double change = 0.0;
  double slope = 1e-12;
  double radial_change = 0.0;
  double radial = 1e-12;
  for (int l = 0; l < n_layers; ++l) {
    discs_[l].find_step(station_force_[l]);
    change = std::max(change, discs_[l].step_slope());
    slope = std::max(slope, discs_[l].largest_slope());
    if (!follows_) continue;
    radial_change = std::max(radial_change, discs_[l].step_radial());
    radial = std::max(radial, discs_[l].largest_radial());
  }
  share = std::min(1.0, kLargestTurn / std::max(change, 1e-300));
  for (int l = 0; l < n_layers; ++l) discs_[l].take_step(share);
  for (std::size_t p = 0; p < force_.size(); ++p) force_[p] += share * (contact_.force[p] - force_[p]);
  newton_change_ = std::max(change / slope, radial_change / radial);
  turn_ = change;
  return true;
}

bool StackSolver::newton(double pressure) {
  double before = std::numeric_limits<double>::infinity();
  bool keep_tangent = tangent_known_;
  for (int iteration = 0; iteration < kMaxNewton && n_newton_ < kMaxSteps; ++iteration) {
    ++n_newton_;
    double share = 1.0;
    if (!step(pressure, blend_of(iteration), keep_tangent, share)) {
      if (!keep_tangent) return false;
      keep_tangent = false;
      continue;
    }
    const double change = newton_change_;
    if (follows_ && share == 1.0) learn_contraction(pressure, before, change);
    newton_change_ *= expected_contraction(pressure);
    if (share == 1.0 && newton_change_ < options_.tolerance) return true;

    // an old tangent does while it brings the state nearer quickly
    const bool near = change < kNear || (follows_ && iteration == 0 && turn_ < kSmallTurn);
    keep_tangent = near && change < kQuickly * before;
    before = change;
  }
  return newton_change_ < kGoodEnough;
}

/// From the last solution to `target` by as many steps as it takes; `go` solves at a value between and `last`
/// is where the solution in `before_` was.
template <typename Go>
bool StackSolver::step_towards(double last, double target, Go&& go) {
  double step = 0.5 * (target - last);
  for (int halving = 0; halving < kMaxHalvings && n_newton_ < kMaxSteps;) {
    const bool there = std::abs(step) >= std::abs(target - last) * (1.0 - 1e-12);
    const double next = there ? target : last + step;
    if (go(next)) {
      if (there) return true;
      last = next;
      save(before_);
      step *= 1.5;
    } else {
      restore(before_);
      step *= 0.5;
      ++halving;
    }
  }
  return false;
}

bool StackSolver::solve_large(double pressure) {
  n_newton_ = 0;
  const auto go = [&](double p) {
    const bool ended = newton(p);
    if (ended) pressure_ = p;
    return ended;
  };
  if (go(pressure)) return true;
  follows_ = false;

  // by smaller steps from where the last solution was
  const bool flat =
      std::all_of(before_.force.begin(), before_.force.end(), [](double f) { return f == 0.0; });
  restore(before_);
  bool ended = true;
  if (flat && before_.pressure == 0.0) {
    ended = step_towards(0.0, 1.0, [&](double share) {
      preload_share_ = share;
      return newton(0.0);
    });
    preload_share_ = 1.0;
    save(before_);
  }
  ended = ended && step_towards(before_.pressure, pressure, go);
  if (ended) {
    pressure_ = pressure;
    return true;
  }
  // what it came to is no state of the stack: back to the last one that was
  restore(before_);
  n_newton_ = 0;
  newton(before_.pressure);
  pressure_ = before_.pressure;
  return false;
}

/// Where the present rates lead to.
void StackSolver::go_along_rates(double pressure) {
  const double step = pressure - pressure_;
  for (std::size_t p = 0; p < force_.size(); ++p)
    force_[p] = std::max(force_[p] + step * rate_.force[p], 0.0);
  for (DiscElements& disc : discs_) disc.go_along(step);
}

bool StackSolver::solve(double pressure) {
  if (options_.theory == Theory::Linear) return solve_linear(pressure);
  save(before_);
  if (rates_known_ && pressure_ > 0.0 && std::abs(pressure - pressure_) < kFarAlongRates * pressure_)
    go_along_rates(pressure);
  rates_known_ = false;
  return solve_large(pressure);
}

double StackSolver::seat_rate() const {
  const double rate = rate_.lift[0][layout_.seat_station];
  if (offset(0) == 0.0) return rate;
  const int seat = layout_.seat_station;
  return rate -
         offset(0) * discs_[0].slope(seat) * discs_[0].state_rate()[static_cast<std::size_t>(4 * seat)];
}

std::uint64_t StackSolver::touching_pairs() const {
  std::uint64_t pairs = 0;
  int pair = 0;
  for (std::size_t p = 0; p < layout_.points.size(); ++p) {
    const ContactPoint& point = layout_.points[p];
    if (p > 0 && (point.lower != layout_.points[p - 1].lower || point.upper != layout_.points[p - 1].upper))
      ++pair;
    if (contact_.force[p] > 0.0) pairs |= std::uint64_t{1} << (pair % 64);
  }
  return pairs;
}

void StackSolver::find_rate() {
  rest_rate_.resize(layout_.n_layers());
  for (int l = 0; l < layout_.n_layers(); ++l) {
    if (options_.theory == Theory::Linear) {
      rest_rate_[l] = pressure_lift_[l];
    } else {
      discs_[l].pressure_rate(rest_rate_[l]);
    }
  }
  contact_solver_.rate(layout_, flexibility_, rest_rate_, rate_);
  if (options_.theory == Theory::Linear) return;
  for (std::size_t l = 0; l < discs_.size(); ++l) {
    if (l == 0) spread_forces(rate_.force);
    discs_[l].find_state_rate(station_force_[l]);
  }
  rates_known_ = true;
  if (!options_.von_karman && pressure_ > 0.0) turn_rates();
}

void StackSolver::press_at(const std::vector<char>& active) {
  contact_.active = active;
  contact_solver_.press_at({layout_, flexibility_, gaps_, 0.0, *this}, active);
  find_rate();
}

/// The tangent holds the directions of loads and contacts, which turn as the stack lifts: a little further
/// along the rates, one step with that tangent shows how far they are off. Where a contact changes on
/// that way, it has to be a shorter one.
void StackSolver::turn_rates() {
  save(turned_);
  contact_before_ = contact_;
  const double pressure = pressure_;
  const int seat = layout_.seat_station;
  bool turned = false;
  for (double step = kTurnStep * pressure; !turned && step > kLeastTurnStep * pressure; step *= 0.1) {
    go_along_rates(pressure + step);
    bool ended = true;
    for (int i = 0; ended && i < kTurns; ++i) {
      ended = relax(pressure + step);
      const double rate = (contact_.lift[0][seat] - contact_before_.lift[0][seat]) / step;
      if (follows_on_ && std::abs(rate - rate_.lift[0][seat]) < kHardlyTurned * std::abs(rate)) break;
    }
    turned = ended && contact_.active == contact_before_.active;
    if (turned) {
      const double over = 1.0 / step;
      for (std::size_t k = 0; k < rate_.lift[0].size(); ++k)
        rate_.lift[0][k] = over * (contact_.lift[0][k] - contact_before_.lift[0][k]);
      for (std::size_t p = 0; p < force_.size(); ++p)
        rate_.force[p] = over * (contact_.force[p] - contact_before_.force[p]);
      for (std::size_t l = 0; l < discs_.size(); ++l)
        discs_[l].take_state_rate(turned_.state[l].data(), over);
    }
    restore(turned_);
    pressure_ = pressure;
    contact_ = contact_before_;
  }
  tangent_known_ = true;
  rates_known_ = true;
}

/// One whole Newton step with the present tangent; false when the contact did not end.
bool StackSolver::relax(double pressure) {
  const double change = newton_change_;
  double share = 1.0;
  const bool ended = step(pressure, 1.0, true, share);
  newton_change_ = change;
  return ended;
}

void StackSolver::save(Snapshot& snapshot) const {
  snapshot.pressure = pressure_;
  snapshot.force = force_;
  snapshot.active = contact_.active;
  if (options_.theory == Theory::Linear) return;
  snapshot.state.resize(discs_.size());
  for (std::size_t l = 0; l < discs_.size(); ++l) {
    snapshot.state[l].resize(discs_[l].state_size());
    discs_[l].save_state(snapshot.state[l].data());
  }
}

void StackSolver::save_knot(Knot& knot) {
  save(knot.at);
  knot.force_rate = rate_.force;
  knot.state_rate.resize(discs_.size());
  for (std::size_t l = 0; l < discs_.size(); ++l) knot.state_rate[l] = discs_[l].state_rate();
}

void StackSolver::begin_between(const Knot& a, const Knot& b, double pressure) {
  const double h = b.at.pressure - a.at.pressure;
  const double t = (pressure - a.at.pressure) / h;
  const double u = 1.0 - t;
  const auto cubic = [&](double from, double from_rate, double to, double to_rate) {
    return u * u * (1.0 + 2.0 * t) * from + t * t * (3.0 - 2.0 * t) * to +
           h * t * u * (u * from_rate - t * to_rate);
  };
  Snapshot& between = before_;
  between.pressure = pressure;
  between.active = t < 0.5 ? a.at.active : b.at.active;
  between.force.resize(a.at.force.size());
  for (std::size_t p = 0; p < between.force.size(); ++p)
    between.force[p] = std::max(cubic(a.at.force[p], a.force_rate[p], b.at.force[p], b.force_rate[p]), 0.0);
  between.state.resize(discs_.size());
  for (std::size_t l = 0; l < discs_.size(); ++l) {
    const std::vector<double>& from = a.at.state[l];
    const std::vector<double>& to = b.at.state[l];
    std::vector<double>& state = between.state[l];
    state.resize(from.size());
    for (std::size_t i = 0; i < from.size(); ++i)
      state[i] = cubic(from[i], a.state_rate[l][i], to[i], b.state_rate[l][i]);
  }
  restore(between);
}

void StackSolver::restore(const Snapshot& snapshot) {
  pressure_ = snapshot.pressure;
  rates_known_ = false;
  force_ = snapshot.force;
  contact_.active = snapshot.active;
  contact_.force = snapshot.force;
  if (options_.theory == Theory::Linear) return;  // the columns are the same at every pressure
  tangent_known_ = false;
  for (std::size_t l = 0; l < discs_.size(); ++l) discs_[l].set_state(snapshot.state[l].data());
}

void StackSolver::sections(int l, std::vector<Section>& out, double& energy) {
  const Layer& layer = layout_.layers[l];
  const int n = layer.n_stations();
  if (options_.theory == Theory::Large) {
    energy = 2.0 * std::numbers::pi * discs_[l].sections(out);
    return;
  }
  spread_forces(force_);
  if (layer.notches.count > 0) {
    DiscElements& disc = discs_[l];
    disc.flatten();
    double outside = 0.0;
    for (int e = n - 2; e >= 0; --e) {
      outside += kPerRadian * station_force_[l][e + 1];
      disc.axial[e] = outside;
    }
    disc.pressure = pressure_;
    Flexibility& scratch = scratch_flexibility_;
    scratch = flexibility_[l];
    disc.linearise(false, scratch);
    for (int s = 0; s < n; ++s) disc.fill_columns(std::span<const int>(&s, 1), scratch);
    disc.find_step(station_force_[l]);
    disc.take_step(1.0);
    energy = 2.0 * std::numbers::pi * disc.sections(out);
    return;
  }
  constant_.assign(n, 0.0);
  square_.assign(n, 0.0);
  double outside = 0.0;
  for (int k = n - 2; k >= 0; --k) {
    outside += kPerRadian * station_force_[l][k + 1];
    constant_[k] = outside + (l == 0 ? pressure_ * layout_.load_constant[k] : 0.0);
    square_[k] = l == 0 ? pressure_ * layout_.load_square[k] : 0.0;
  }
  const Annulus plate = annulus_of(layer);
  std::vector<double>& lift = shape_lift_;
  std::vector<double>& slope = shape_slope_;
  std::vector<double>& curvature = shape_curvature_;
  lift.resize(n);
  slope.resize(n);
  curvature.resize(n);
  const std::span<const double> radius(&layout_.radius[layer.begin], n);
  loaded_shape(plate, radius, std::span<const double>(&log_radius_[layer.begin], n), constant_, square_,
               {lift, slope, curvature});
  out.assign(n, Section{});
  const double stiffness = plate.stiffness / layer.n_equal;
  energy = 0.0;
  for (int k = 0; k < n; ++k) {
    const double hoop = slope[k] / radius[k];
    out[k].slope = slope[k];
    out[k].moment_radial = stiffness * (curvature[k] + plate.poisson_ratio * hoop);
    out[k].moment_hoop = stiffness * (hoop + plate.poisson_ratio * curvature[k]);
    // work of the loads, half of it stored: forces here, the pressure below
    energy += 0.5 * station_force_[l][k] * lift[k];
    if (l == 0 && k > 0) {
      const double a = radius[k - 1];
      const double b = radius[k];
      const double share = -2.0 * layout_.load_square[k - 1] * pressure_;
      energy += 0.5 * share * std::numbers::pi * (b * b - a * a) * 0.5 * (lift[k] + lift[k - 1]);
    }
  }
}

}  // namespace shimwright::plate
