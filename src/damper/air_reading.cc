#include "damper/air_reading.h"

#include <Eigen/Core>
#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "base/check.h"
#include "damper/motion_elements.h"

namespace shimwright::damper {
namespace {

constexpr double kMostGive = 1e-4;  // [m/N]; a frame softer than that is a spring
constexpr double kGiveUnit = 1e-6;  // to measure it by [m/N]
constexpr double kAirUnit = 1e-6;   // to measure air by [m^3]
constexpr int kMostRounds = 8;      // of Gauss-Newton
constexpr double kStep = 0.01;      // of a unit, for derivatives
constexpr double kEnough = 2e-3;  // of a unit: a change that small ends the search, finer than benches repeat
constexpr int kDriveSamples = 1000;  // of a drive from which a give is taken off

/// Takes out of `values` what `shape` explains of it.
void take_out(const Eigen::VectorXd& shape, Eigen::VectorXd& values) {
  const double square = shape.squaredNorm();
  if (square > 0.0) values -= shape.dot(values) / square * shape;
}

/// What is fitted, in units of their own: air, then the give.
using Point = Eigen::Vector2d;

using Slopes = Eigen::Matrix<double, Eigen::Dynamic, 2>;

struct Fit {
  Point at = Point::Zero();
  Eigen::VectorXd residual;  // [N]; empty: none was found
  Slopes slopes;             // of the residual; empty: none was found
  double sum() const { return residual.size() > 0 ? residual.squaredNorm() : INFINITY; }
};

/// A measured loop, and how the model's lies beside it.
class LoopFit {
 public:
  LoopFit(const MeasuredLoop& loop, const MotionModel& model, const Drive& drive,
          const MotionOptions& options)
      : loop_(loop), model_(model), drive_(drive), clock_(drive), options_(options) {
    options_.samples_per_cycle = static_cast<int>(loop.force.size());
    options_.keep_events = false;
    options_.last_cycle_only = true;
    const auto [low, high] = std::ranges::minmax_element(loop.force);
    half_height_ = std::max(0.5 * (*high - *low), 1e-9);
  }

  /// Model less measurement, offset and friction taken out; empty where the run did not end.
  Eigen::VectorXd residual(Chamber chamber, const Point& at) {
    if (stopped_) return {};
    MotionModel filled = model_;
    (chamber == Chamber::Compression ? filled.compression : filled.rod).trapped_air = at[0] * kAirUnit;
    const MotionResult run = run_motion(filled, drive_with_give(at[1] * kGiveUnit), options_);
    n_steps_ += run.n_steps;
    stopped_ = run.stopped;
    const auto n = static_cast<Eigen::Index>(loop_.force.size());
    const auto n_samples = static_cast<Eigen::Index>(run.samples.size());
    if (stopped_ || run.cycles.empty() || n_samples <= n) return {};
    // an offset of the load cell or the gas, and a seal friction of another size, are not what air looks like
    Eigen::VectorXd apart(n), rubbing(n);
    const Eigen::VectorXd one = Eigen::VectorXd::Ones(n);
    for (Eigen::Index i = 0; i < n; ++i) {
      const MotionSample& s = run.samples[static_cast<std::size_t>(n_samples - 1 - n + i)];
      apart[i] = s.force - loop_.force[static_cast<std::size_t>(i)];
      rubbing[i] = motion::friction_share(s.speed, model_.friction_speed).value;
    }
    take_out(one, rubbing);
    take_out(one, apart);
    take_out(rubbing, apart);
    return apart;
  }

  double misfit(const Fit& fit) const {
    return std::sqrt(fit.sum() / static_cast<double>(loop_.force.size())) / half_height_;
  }
  int n_steps() const { return n_steps_; }
  bool stopped() const { return stopped_; }

 private:
  /// The rod's own motion: what the bench gives is not on the rod.
  Drive drive_with_give(double give) const {
    if (give == 0.0) return drive_;
    SampledDrive rod;
    if (const auto* record = std::get_if<SampledDrive>(&drive_)) {
      rod = *record;
    } else {
      const auto corners = clock_.corners();
      for (std::size_t piece = 0; piece + 1 < corners.size(); ++piece)
        for (int i = piece == 0 ? 0 : 1; i <= kDriveSamples; ++i) {
          const double t = corners[piece] + (corners[piece + 1] - corners[piece]) * i / kDriveSamples;
          rod.time.push_back(t);
          rod.travel.push_back(clock_.at(t, static_cast<int>(piece)).travel);
        }
    }
    for (std::size_t i = 0; i < rod.time.size(); ++i) {
      const double given = give * num::value_at(loop_.force_over_time, rod.time[i]);
      rod.travel[i] = std::clamp(rod.travel[i] - given, 0.0, model_.travel);
    }
    return rod;
  }

  const MeasuredLoop& loop_;
  const MotionModel& model_;
  const Drive& drive_;
  DriveClock clock_;
  MotionOptions options_;
  double half_height_ = 0.0;
  int n_steps_ = 0;
  bool stopped_ = false;
};

/// The normal equations of the unknowns that move; the others stand alone with a one. Two unknowns in units
/// of their own size do not need better than these.
Eigen::Matrix2d normal_matrix(const Fit& fit, const Eigen::Array2i& moves) {
  Eigen::Matrix2d normal = fit.slopes.transpose() * fit.slopes;
  for (int k = 0; k < 2; ++k) {
    if (moves[k] != 0) continue;
    normal.row(k).setZero();
    normal.col(k).setZero();
    normal(k, k) = 1.0;
  }
  return normal;
}

bool can_be_told_apart(const Eigen::Matrix2d& normal) {
  return normal.determinant() > 1e-12 * normal(0, 0) * normal(1, 1);
}

/// The fit in one chamber; what is not `free` stays where it is.
class Search {
 public:
  Search(LoopFit& fit, Chamber chamber, const Point& most, const Eigen::Array2i& free)
      : fit_(fit), chamber_(chamber), most_(most), free_(free) {}

  Fit from(const Point& start) {
    Fit best = at(start);
    for (int round = 0; round < kMostRounds && best.residual.size() > 0; ++round) {
      add_slopes(best);
      if (best.slopes.size() == 0) return best;
      const Point step = step_from(best);
      if (step.cwiseAbs().maxCoeff() < kEnough) return best;
      // half as far until it is better: the law bends where air is little
      Fit next;
      double share = 1.0;
      for (; share > 0.2; share *= 0.5) {
        next = at(bounded(best.at + share * step));
        if (next.residual.size() == 0 || next.sum() < best.sum()) break;
      }
      if (!(next.sum() < best.sum())) return best;
      next.slopes = best.slopes;
      best = std::move(next);
    }
    return best;
  }

 private:
  Fit at(const Point& point) { return {point, fit_.residual(chamber_, point), {}}; }

  Point bounded(const Point& point) const { return point.cwiseMax(Point::Zero()).cwiseMin(most_); }

  void add_slopes(Fit& fit) {
    Slopes slopes = Slopes::Zero(fit.residual.size(), 2);
    for (int k = 0; k < 2; ++k) {
      if (!free_[k]) continue;
      Point aside = fit.at;
      const double step = aside[k] + kStep > most_[k] ? -kStep : kStep;
      aside[k] += step;
      const Eigen::VectorXd there = fit_.residual(chamber_, aside);
      if (there.size() == 0) {
        fit.slopes.resize(0, 2);
        return;
      }
      slopes.col(k) = (there - fit.residual) / step;
    }
    fit.slopes = std::move(slopes);
  }

  /// Least squares; an unknown that would leave its range from its end stays there.
  Point step_from(const Fit& fit) const {
    Eigen::Array2i moves = free_;
    Point step = Point::Zero();
    for (int round = 0; round < 2; ++round) {
      step = solved(fit, moves);
      bool kept = true;
      for (int k = 0; k < 2; ++k) {
        const bool leaves = (fit.at[k] <= 0.0 && step[k] < 0.0) || (fit.at[k] >= most_[k] && step[k] > 0.0);
        if (moves[k] && leaves) {
          moves[k] = 0;
          kept = false;
        }
      }
      if (kept) break;
      step = solved(fit, moves);
    }
    return bounded(fit.at + step) - fit.at;
  }

  static Point solved(const Fit& fit, const Eigen::Array2i& moves) {
    const Eigen::Matrix2d normal = normal_matrix(fit, moves);
    const Point right = -(fit.slopes.transpose() * fit.residual);
    Point step = Point::Zero();
    if (can_be_told_apart(normal)) {
      step = normal.inverse() * right;
    } else {
      const int stronger = normal(0, 0) >= normal(1, 1) ? 0 : 1;
      if (normal(stronger, stronger) > 0.0) step[stronger] = right[stronger] / normal(stronger, stronger);
    }
    return (moves != 0).select(step.array(), 0.0);
  }

  LoopFit& fit_;
  Chamber chamber_;
  Point most_;
  Eigen::Array2i free_;
};

/// How many of the residuals speak for themselves: neighbours that repeat each other count less.
double independent(const Eigen::VectorXd& residual) {
  const auto n = static_cast<double>(residual.size());
  const double square = residual.squaredNorm();
  if (square == 0.0) return n;
  double neighbours = 0.0;
  for (Eigen::Index i = 0; i < residual.size(); ++i)
    neighbours += residual[i] * residual[(i + 1) % residual.size()];
  const double r = std::clamp(neighbours / square, 0.0, 1.0);
  constexpr double kLeast = 6.0;  // the unknowns, offset and friction, and two more
  return std::clamp(n * (1.0 - r) / (1.0 + r), kLeast, n);
}

/// Standard error of the air in a fit [m^3].
double air_uncertainty(const Fit& fit, const Eigen::Array2i& free) {
  if (fit.slopes.size() == 0) return INFINITY;
  const Eigen::Matrix2d normal = normal_matrix(fit, free);
  if (!can_be_told_apart(normal)) return INFINITY;
  const double n_own = independent(fit.residual);
  const double unknowns = free.sum() + 2.0;  // offset and friction too
  const double variance = fit.sum() / static_cast<double>(fit.residual.size()) * n_own / (n_own - unknowns);
  const double fewer = static_cast<double>(fit.residual.size()) / n_own;
  return kAirUnit * std::sqrt(std::max(0.0, normal.inverse()(0, 0)) * variance * fewer);
}

}  // namespace

AirEstimate air_from_loop(const MeasuredLoop& loop, const MotionModel& model, const Drive& drive,
                          double air_max, const MotionOptions& options) {
  SW_CHECK(loop.force.size() >= 20 && air_max > 0.0, loop.force.size(), air_max);
  SW_CHECK(loop.give == 0.0 || loop.force_over_time.x.size() >= 2, loop.force_over_time.x.size());
  LoopFit fit(loop, model, drive, options);
  const int give_is_free = loop.give ? 0 : 1;
  const double give = loop.give.value_or(0.0) / kGiveUnit;
  const double most_give = std::max(give, kMostGive / kGiveUnit);

  // without air
  const Fit clean =
      Search(fit, Chamber::Compression, {air_max / kAirUnit, most_give}, {0, give_is_free}).from({0.0, give});
  AirEstimate best;
  best.misfit = best.misfit_clean = fit.misfit(clean);
  best.give = clean.at[1] * kGiveUnit;

  // with air in either chamber
  double least = clean.sum();
  for (const auto& [chamber, room] : {std::pair{Chamber::Compression, model.compression.volume},
                                      std::pair{Chamber::Rod, model.rod.volume}}) {
    const double most = std::min(air_max, room) / kAirUnit;
    const Eigen::Array2i free{1, give_is_free};
    // from both ends: give without air, and air without give
    Search search(fit, chamber, {most, most_give}, free);
    Fit found = search.from({0.0, clean.at[1]});
    if (give_is_free) {
      Fit other = search.from({0.1 * most, 0.2 * clean.at[1]});
      if (other.sum() < found.sum()) found = std::move(other);
    }
    const double uncertainty = air_uncertainty(found, free);
    if (!(found.sum() < least) || found.at[0] <= 0.0) {
      if (best.air == 0.0) best.uncertainty = std::max(best.uncertainty, uncertainty);
      continue;
    }
    least = found.sum();
    best.chamber = chamber;
    best.air = found.at[0] * kAirUnit;
    best.give = found.at[1] * kGiveUnit;
    best.misfit = fit.misfit(found);
    best.uncertainty = uncertainty;
    best.significant = best.air > kAirSignificant * best.uncertainty;
    best.outcome = {};
    if (found.at[0] > 0.997 * most)
      best.outcome = {.status = Status::OutOfRange,
                      .residual = best.misfit,
                      .note = "the highest amount of air that was tried fits best"};
  }
  best.n_steps = fit.n_steps();
  best.stopped = fit.stopped();
  return best;
}

}  // namespace shimwright::damper
