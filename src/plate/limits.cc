#include "plate/limits.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <limits>
#include <string>

namespace shimwright::plate {
namespace {

constexpr double kModerateSlope = 0.25;  // the neglected slope^2 / 2 reaches 3 percent [rad]
constexpr double kFiniteSlope =
    0.5;  // strains of thin discs stay below some percent up to here; our judgement [rad]
constexpr double kLinearLift =
    0.27;  // lift over thickness at which stretch takes 1 percent of the load (VK-01: 3.6 % at 0.5)

std::string note_of(const char* what, double number) {
  char text[160];
  std::snprintf(text, sizeof text, what, number);
  return text;
}

}  // namespace

void WavyRim::set_up(std::span<const double> radius, const Disc& disc, bool ring) {
  const std::size_t n = radius.size();
  const double t = disc.thickness;
  const double nu = disc.poisson_ratio;
  const double stiffness = disc.youngs_modulus * t * t * t / (12.0 * (1.0 - nu * nu));
  const double inner = ring ? 0.0 : radius[0];
  const double width = radius[n - 1] - inner;
  // energies by the trapezoidal rule, for every power side by side
  weights_.resize(n);
  for (double* of_square : {bend_[0], bend_[1], bend_[2]}) std::fill_n(of_square, kPowers, 0.0);
  for (std::size_t i = 0; i < n; ++i) {
    const double r = radius[i];
    const double weight = 0.5 * (radius[std::min(i + 1, n - 1)] - radius[i == 0 ? 0 : i - 1]) * r;
    const double x = (r - inner) / width;
    const double over_r = 1.0 / r;
    double power = 1.0;
    for (int j = 0; j < kPowers; ++j) {
      const double k = j + 2;
      const double f = power * x * x;
      const double df = k * power * x / width;
      const double ddf = k * (k - 1.0) * power / (width * width);
      const double round = df * over_r;
      const double wave = f * over_r * over_r;
      const double twist = round - wave;
      weights_[i].push[j] = -weight * f * wave;
      weights_[i].hold[j] = weight * df * df;
      const double energy = weight * stiffness;
      bend_[0][j] += energy * ((ddf + round) * (ddf + round) - 2.0 * (1.0 - nu) * ddf * round);
      bend_[1][j] += energy * (-2.0 * (ddf + round) * wave + 2.0 * (1.0 - nu) * (ddf * wave + twist * twist));
      bend_[2][j] += energy * wave * wave;
      power *= x;
    }
  }
}

double WavyRim::ratio(std::span<const Section> sections) const {
  double push[kPowers] = {};
  double hold[kPowers] = {};
  for (std::size_t i = 0; i < weights_.size(); ++i) {
    for (int j = 0; j < kPowers; ++j) {
      push[j] += weights_[i].push[j] * sections[i].force_hoop;
      hold[j] += weights_[i].hold[j] * sections[i].force_radial;
    }
  }
  double worst = 0.0;
  for (int j = 0; j < kPowers; ++j) {
    if (push[j] <= 0.0) continue;
    // radial tension holds as bending does, radial compression pushes as the hoop's does
    const double squeeze = std::max(-hold[j], 0.0);
    const double constant = bend_[0][j] + std::max(hold[j], 0.0);
    // m^2 of the worst wave, where (push m^2 + squeeze) / resistance is largest
    const double under_root =
        squeeze * squeeze - push[j] * (squeeze * bend_[1][j] - push[j] * constant) / bend_[2][j];
    const double square = std::max(4.0, (std::sqrt(std::max(under_root, 0.0)) - squeeze) / push[j]);
    const double resist = constant + bend_[1][j] * square + bend_[2][j] * square * square;
    worst = std::max(worst, (push[j] * square + squeeze) / resist);
  }
  return worst;
}

double buckling_ratio(std::span<const double> radius, std::span<const Section> sections, const Disc& disc,
                      bool ring) {
  WavyRim rim;
  rim.set_up(radius, disc, ring);
  return rim.ratio(sections);
}

double fatigue_margin(const Disc& disc, double stress) {
  if (disc.fatigue_strength <= 0.0) return 0.0;
  if (stress <= 0.0) return std::numeric_limits<double>::infinity();
  const double ultimate = disc.ultimate_strength > 0.0 ? disc.ultimate_strength : disc.yield_strength;
  const double mean = ultimate > 0.0 ? 1.0 / ultimate : 0.0;
  return 2.0 / (stress * (1.0 / disc.fatigue_strength + mean));
}

void judge_disc(const Disc& disc, int index, std::span<const Section> sections, double buckling,
                StackPoint& point) {
  DiscResult& result = point.discs[index];
  Limits& limits = point.limits;
  result.fatigue_margin = fatigue_margin(disc, result.max_stress);
  if (disc.yield_strength > 0.0) {
    result.yield_margin = result.max_stress > 0.0 ? disc.yield_strength / result.max_stress
                                                  : std::numeric_limits<double>::infinity();
    const double ratio = result.max_stress / disc.yield_strength;
    if (ratio > limits.yield_ratio) {
      limits.yield_ratio = ratio;
      limits.yield_disc = index;
    }
  }
  limits.rim_compression = std::max(limits.rim_compression, -sections.back().force_hoop / disc.thickness);
  if (buckling > limits.buckling_ratio) {
    limits.buckling_ratio = buckling;
    limits.buckling_disc = index;
  }
  for (const Section& section : sections)
    limits.max_slope = std::max(limits.max_slope, std::abs(section.slope));
}

void judge_point(const Stack& stack, const Options& options, StackPoint& point) {
  Limits& limits = point.limits;
  if (options.theory == Theory::Linear) {
    for (std::size_t i = 0; i < stack.discs.size(); ++i) {
      const double ratio = std::abs(point.discs[i].rim_deflection) / (kLinearLift * stack.discs[i].thickness);
      limits.slope_ratio = std::max(limits.slope_ratio, ratio);
    }
  } else {
    limits.slope_ratio = limits.max_slope / (options.von_karman ? kModerateSlope : kFiniteSlope);
  }
  if (point.outcome.status != Status::Converged) return;
  if (limits.slope_ratio > 1.0) {
    point.outcome.status = Status::OutOfRange;
    point.outcome.note =
        options.theory == Theory::Linear
            ? note_of("a disc lifts %.1f times as far as the linear theory allows", limits.slope_ratio)
            : note_of("a disc slopes %.1f times as much as the theory allows", limits.slope_ratio);
  } else if (limits.yield_ratio > 1.0) {
    point.outcome.status = Status::OutOfRange;
    point.outcome.note =
        note_of("the stress is %.2f times the yield strength: the disc would stay bent", limits.yield_ratio);
  }
  // a rim that may go wavy marks nothing out of range: the estimate leaves out what steadies a real rim
}

}  // namespace shimwright::plate
