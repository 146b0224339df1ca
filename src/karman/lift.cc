#include "karman/lift.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/check.h"
#include "karman/newton.h"
#include "karman/pile.h"

namespace shimwright::karman {
namespace {

constexpr double kKnots[] = {0.03, 0.10, 0.25, 0.55, 1.0};  // of what lies between the opening and the end
constexpr double kSame = 1e-6;

}  // namespace

struct Workspace::Impl {
  Pile pile;
  Newton newton{pile};
  State state, before, kink;
  bool refine(QuickCurve& curve, double height, int depth);
};

Workspace::Workspace() : impl_(std::make_unique<Impl>()) {}
Workspace::~Workspace() = default;
Workspace::Workspace(Workspace&&) noexcept = default;
Workspace& Workspace::operator=(Workspace&&) noexcept = default;

Cover covers(const DiscTable& table, const plate::Stack& stack) {
  const Valve& valve = table.valve;
  if (stack.slide.travel > 0.0) return Cover::Float;
  if (stack.back_spring.present) return Cover::BackSpring;
  if (stack.clamp_slips) return Cover::SlippingClamp;
  if (stack.washer_radius > 0.0 && stack.washer_radius != stack.clamp_radius) return Cover::Washer;
  if (stack.clamp_radius != valve.clamp_radius || !(stack.load == valve.load) ||
      stack.seat.radius != valve.seat_radius)
    return Cover::OtherValve;
  const double spacer = valve.clamp_radius * (1.0 + kSame);
  int n_layers = 0;
  const plate::Disc* face = nullptr;
  const plate::Disc* before = nullptr;
  for (const plate::Disc& disc : stack.discs) {
    if (disc.bore_radius > valve.clamp_radius) return Cover::Ring;
    if (disc.outer_radius <= spacer) {
      before = nullptr;
      continue;
    }
    if (disc.notches.count > 0) return Cover::Notches;
    if (disc.youngs_modulus != valve.youngs_modulus || disc.poisson_ratio != valve.poisson_ratio)
      return Cover::Material;
    if (before == nullptr || before->outer_radius != disc.outer_radius || before->thickness != disc.thickness) {
      ++n_layers;
      if (find_disc(table, disc.outer_radius) == nullptr) return Cover::Rim;
    }
    before = &disc;
    if (face == nullptr) face = &disc;
  }
  if (n_layers == 0 || n_layers > kMostLayers) return Cover::Layers;
  if (face->outer_radius < valve.seat_radius * (1.0 - kSame)) return Cover::Rim;
  return Cover::Covered;
}

std::string_view word(Cover cover) {
  switch (cover) {
    case Cover::Covered: return "covered";
    case Cover::Ring: return "a ring that nothing clamps";
    case Cover::Float: return "a stack that floats";
    case Cover::BackSpring: return "a back spring";
    case Cover::Notches: return "a notched rim";
    case Cover::SlippingClamp: return "a clamp that slips";
    case Cover::Washer: return "a washer of another radius than the boss";
    case Cover::OtherValve: return "another clamp, pocket or seat";
    case Cover::Material: return "another material";
    case Cover::Rim: return "a rim that the table has not, or that ends inside the seat";
    case Cover::Layers: return "too many different layers, or none";
  }
  return "";
}

namespace {

bool touches(const State& state, const Run& run) {
  return std::any_of(&state.active[static_cast<std::size_t>(run.first)],
                     &state.active[static_cast<std::size_t>(run.last)] + 1, [](char a) { return a != 0; });
}

void interpolate(const State& a, const State& b, int n_layers, State& at) {
  const double share = (at.pressure - a.pressure) / (b.pressure - a.pressure);
  for (std::size_t l = 0; l < static_cast<std::size_t>(n_layers); ++l)
    for (std::size_t m = 0; m < kModes; ++m)
      at.amplitude[l][m] = a.amplitude[l][m] + share * (b.amplitude[l][m] - a.amplitude[l][m]);
}

void insert(QuickCurve& curve, std::size_t at, double pressure, double lift, double slope) {
  curve.pressure.insert(curve.pressure.begin() + static_cast<std::ptrdiff_t>(at), pressure);
  curve.lift.insert(curve.lift.begin() + static_cast<std::ptrdiff_t>(at), lift);
  curve.slope.insert(curve.slope.begin() + static_cast<std::ptrdiff_t>(at), slope);
}

}  // namespace

/// Where a gap has closed between the state before and the one just solved, whose point is the last of the
/// curve: two points there.
bool Workspace::Impl::refine(QuickCurve& curve, double height, int depth) {
  int closed = -1;
  double where = state.pressure;
  for (int r = 0; r < pile.n_runs; ++r) {
    const Run& run = pile.runs[static_cast<std::size_t>(r)];
    if (pile.points[static_cast<std::size_t>(run.first)].gap <= 0.0) continue;
    if (touches(before, run) || !touches(state, run)) continue;
    double force = 0.0;
    double rate = 0.0;
    for (int q = run.first; q <= run.last; ++q) {
      force += newton.force(q);
      rate += newton.force_rate(q);
    }
    const double p = rate > 0.0 ? state.pressure - force / rate : before.pressure;
    if (p < where) {
      where = p;
      closed = r;
    }
  }
  if (closed < 0) return true;
  kink = state;
  kink.pressure = std::clamp(where, before.pressure, state.pressure);
  interpolate(before, state, pile.n_layers, kink);
  const Solved solved = newton.solve_release(kink, closed, before.pressure, state.pressure);
  curve.outcome.iterations += solved.steps;
  if (!solved.ok || kink.pressure <= before.pressure || kink.pressure >= state.pressure) return true;
  const double left = newton.slope_without(kink, closed);
  insert(curve, curve.pressure.size() - 1, kink.pressure, solved.lift - height, left);
  insert(curve, curve.pressure.size() - 1, kink.pressure, solved.lift - height, solved.slope);
  return true;
}

void quick_curve(const DiscTable& table, const plate::Stack& stack, double p_max, Workspace& workspace,
                 QuickCurve& curve) {
  SW_CHECK(std::isfinite(p_max) && p_max > 0.0, p_max);
  SW_CHECK(covers(table, stack) == Cover::Covered);
  Workspace::Impl& work = workspace.impl();
  Newton& newton = work.newton;
  State& state = work.state;
  curve.pressure.clear();
  curve.lift.clear();
  curve.slope.clear();
  curve.opening_pressure = 0.0;
  curve.seat_radius = stack.seat.radius;
  curve.arc_fraction = stack.load.arc_fraction;
  curve.outcome = {};
  const auto stall = [&] {
    curve.outcome.status = Status::Stalled;
    curve.outcome.note = "the quick lift curve did not settle";
  };
  if (!pile_up(table, stack, work.pile)) return stall();
  const double height = stack.seat.present ? stack.seat.height : 0.0;
  const auto add = [&](double p, double lift, double slope) {
    curve.pressure.push_back(p);
    curve.lift.push_back(lift);
    curve.slope.push_back(slope);
    if (!std::isfinite(lift) || !std::isfinite(slope)) stall();
  };

  newton.begin(state);
  double from = 0.0;
  bool cold = true;
  if (height > 0.0) {
    state.pressure = 0.5 * p_max;
    const Solved open = newton.solve_release(state, 0, 0.0, 2.0 * p_max);
    curve.outcome.iterations += open.steps;
    if (!open.ok) return stall();
    from = std::min(state.pressure, p_max);
    curve.opening_pressure = from;
    add(0.0, 0.0, 0.0);
    if (from >= p_max) {
      add(p_max, 0.0, 0.0);
      return;
    }
    add(from, 0.0, 0.0);
    const double slope = newton.slope_without(state, 0);
    state.active[0] = 0;
    add(from, 0.0, slope);
    cold = false;
  }
  for (const double share : kKnots) {
    const double p = from + share * (p_max - from);
    state.pressure = p;
    if (cold) {
      // linear theory, scaled
      newton.begin(state);
      Solved first = newton.solve(state);
      curve.outcome.iterations += first.steps;
      if (curve.pressure.empty()) add(0.0, -height, 0.0);
    }
    const Solved solved = newton.solve(state);
    curve.outcome.iterations += solved.steps;
    if (!solved.ok) return stall();
    add(p, solved.lift - height, solved.slope);
    if (!cold) work.refine(curve, height, 0);
    work.before = state;
    cold = false;
  }
  if (from == 0.0) curve.slope[0] = curve.slope[1];
}

double lift_at(const QuickCurve& curve, double pressure) {
  double lift = 0.0;
  lifts_at(curve, std::span(&pressure, 1), std::span(&lift, 1));
  return lift;
}

void lifts_at(const QuickCurve& curve, std::span<const double> pressures, std::span<double> lifts) {
  const std::size_t last = curve.pressure.size() - 1;
  std::size_t k = 0;
  for (std::size_t i = 0; i < pressures.size(); ++i) {
    const double p = std::max(pressures[i], 0.0);
    if (p >= curve.pressure[last]) {
      lifts[i] = std::max(curve.lift[last] + curve.slope[last] * (p - curve.pressure[last]), 0.0);
      continue;
    }
    while (curve.pressure[k + 1] <= p) ++k;
    const double a = std::sqrt(curve.pressure[k]);
    const double b = std::sqrt(curve.pressure[k + 1]);
    const double h = b - a;
    const double t = (std::sqrt(p) - a) / h;
    const double u = 1.0 - t;
    const double slope_a = 2.0 * a * curve.slope[k];
    const double slope_b = 2.0 * b * curve.slope[k + 1];
    const double lift = u * u * (1.0 + 2.0 * t) * curve.lift[k] + t * t * (3.0 - 2.0 * t) * curve.lift[k + 1] +
                        h * t * u * (u * slope_a - t * slope_b);
    lifts[i] = std::max(lift, 0.0);
  }
}

double opening_area_at(const QuickCurve& curve, double pressure) {
  return 2.0 * std::numbers::pi * curve.seat_radius * curve.arc_fraction * lift_at(curve, pressure);
}

}  // namespace shimwright::karman
