#include "assembly/thread.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <span>

#include "base/check.h"

namespace shimwright::assembly {
namespace {

constexpr double kInch = 0.0254;
constexpr double kThousandth = 1e-3;  // the standards' tables are in millimetres ...
constexpr double kMillionth = 1e-6;   // ... and their tolerances in micrometres

// ---------------------------------------------------------------- listed sizes

/// ISO 261, first to third choice, M2 to M30: diameter, then pitches, the coarse one first; 0 ends the row.
/// From memory.
struct MetricRow {
  double diameter;
  std::array<double, 4> pitches;
};
constexpr std::array kMetricSeries = {
    MetricRow{2, {0.4, 0.25}},        MetricRow{2.5, {0.45, 0.35}},
    MetricRow{3, {0.5, 0.35}},        MetricRow{3.5, {0.6, 0.35}},
    MetricRow{4, {0.7, 0.5}},         MetricRow{4.5, {0.75, 0.5}},
    MetricRow{5, {0.8, 0.5}},         MetricRow{6, {1, 0.75}},
    MetricRow{7, {1, 0.75}},          MetricRow{8, {1.25, 1, 0.75}},
    MetricRow{9, {1.25, 1, 0.75}},    MetricRow{10, {1.5, 1.25, 1, 0.75}},
    MetricRow{11, {1.5, 1, 0.75}},    MetricRow{12, {1.75, 1.5, 1.25, 1}},
    MetricRow{14, {2, 1.5, 1.25, 1}}, MetricRow{16, {2, 1.5, 1}},
    MetricRow{18, {2.5, 2, 1.5, 1}},  MetricRow{20, {2.5, 2, 1.5, 1}},
    MetricRow{22, {2.5, 2, 1.5, 1}},  MetricRow{24, {3, 2, 1.5, 1}},
    MetricRow{27, {3, 2, 1.5, 1}},    MetricRow{30, {3.5, 2, 1.5, 1}},
};

/// UNC and UNF, No. 4 to 1 in: diameter in inches, turns per inch coarse and fine. ASME B1.1, from memory.
struct UnifiedRow {
  double diameter;
  double coarse;
  double fine;
};
constexpr std::array kUnifiedSeries = {
    UnifiedRow{0.112, 40, 48},  UnifiedRow{0.125, 40, 44},  UnifiedRow{0.138, 32, 40},
    UnifiedRow{0.164, 32, 36},  UnifiedRow{0.190, 24, 32},  UnifiedRow{0.216, 24, 28},
    UnifiedRow{0.25, 20, 28},   UnifiedRow{0.3125, 18, 24}, UnifiedRow{0.375, 16, 24},
    UnifiedRow{0.4375, 14, 20}, UnifiedRow{0.5, 13, 20},    UnifiedRow{0.5625, 12, 18},
    UnifiedRow{0.625, 11, 18},  UnifiedRow{0.75, 10, 16},   UnifiedRow{0.875, 9, 14},
    UnifiedRow{1.0, 8, 12},
};

/// Equal except for what a conversion from text may lose.
bool same(double a, double b) {
  return std::abs(a - b) <= 1e-6 * std::abs(b);
}

bool is_listed_metric(const Thread& thread) {
  for (const MetricRow& row : kMetricSeries) {
    if (!same(thread.diameter, row.diameter * kThousandth)) continue;
    for (double pitch : row.pitches) {
      if (pitch > 0.0 && same(thread.pitch, pitch * kThousandth)) return true;
    }
  }
  return false;
}

bool is_listed_unified(const Thread& thread) {
  for (const UnifiedRow& row : kUnifiedSeries) {
    if (!same(thread.diameter, row.diameter * kInch)) continue;
    return same(thread.pitch, kInch / row.coarse) || same(thread.pitch, kInch / row.fine);
  }
  return false;
}

// ---------------------------------------------------------------- tolerances

/// Deviations of one thread, all positive [m].
struct Tolerances {
  double allowance;       // es: the post's thread lies this much below nominal
  double external_major;  // T_d
  double external_pitch;  // T_d2
  double internal_minor;  // T_D1
  double internal_pitch;  // T_D2
};

/// ISO 965-1, position g and grade 6, by pitch [mm]: es, T_d, T_D1 [um]. From memory.
struct PitchRow {
  double pitch;
  double allowance, external_major, internal_minor;
};
constexpr std::array kPitchTolerances = {
    PitchRow{0.5, 20, 106, 140},  PitchRow{0.6, 21, 125, 160}, PitchRow{0.7, 22, 140, 180},
    PitchRow{0.75, 22, 140, 190}, PitchRow{0.8, 24, 150, 200}, PitchRow{1, 26, 180, 236},
    PitchRow{1.25, 28, 212, 265}, PitchRow{1.5, 32, 236, 300}, PitchRow{1.75, 34, 265, 335},
    PitchRow{2, 38, 280, 375},    PitchRow{2.5, 42, 335, 450}, PitchRow{3, 48, 375, 500},
};

/// ISO 965-1, grade 6, by diameter range and pitch [mm]: T_d2, T_D2 [um]. From memory.
struct DiameterRow {
  double above, to;
  double pitch;
  double external_pitch, internal_pitch;
};
constexpr std::array kDiameterTolerances = {
    DiameterRow{2.8, 5.6, 0.5, 75, 100},     DiameterRow{2.8, 5.6, 0.6, 85, 112},
    DiameterRow{2.8, 5.6, 0.7, 90, 118},     DiameterRow{2.8, 5.6, 0.75, 90, 118},
    DiameterRow{2.8, 5.6, 0.8, 95, 125},     DiameterRow{5.6, 11.2, 0.75, 100, 132},
    DiameterRow{5.6, 11.2, 1, 112, 150},     DiameterRow{5.6, 11.2, 1.25, 118, 160},
    DiameterRow{5.6, 11.2, 1.5, 132, 180},   DiameterRow{11.2, 22.4, 1, 118, 160},
    DiameterRow{11.2, 22.4, 1.25, 132, 180}, DiameterRow{11.2, 22.4, 1.5, 140, 190},
    DiameterRow{11.2, 22.4, 1.75, 150, 200}, DiameterRow{11.2, 22.4, 2, 160, 212},
    DiameterRow{11.2, 22.4, 2.5, 170, 224},  DiameterRow{22.4, 45, 1, 125, 170},
    DiameterRow{22.4, 45, 1.5, 150, 200},    DiameterRow{22.4, 45, 2, 170, 224},
    DiameterRow{22.4, 45, 3, 200, 265},
};

std::optional<Tolerances> table_tolerances(const Thread& thread) {
  const double diameter = thread.diameter / kThousandth;
  for (const DiameterRow& row : kDiameterTolerances) {
    if (!(diameter > row.above && diameter <= row.to) || !same(thread.pitch, row.pitch * kThousandth))
      continue;
    for (const PitchRow& by_pitch : kPitchTolerances) {
      if (!same(by_pitch.pitch, row.pitch)) continue;
      return Tolerances{.allowance = by_pitch.allowance * kMillionth,
                        .external_major = by_pitch.external_major * kMillionth,
                        .external_pitch = row.external_pitch * kMillionth,
                        .internal_minor = by_pitch.internal_minor * kMillionth,
                        .internal_pitch = row.internal_pitch * kMillionth};
    }
  }
  return std::nullopt;
}

/// Geometric mean of the ISO 965-1 diameter range that holds `diameter`; the diameter itself outside the
/// ranges [mm].
double range_diameter(double diameter) {
  constexpr std::array kBounds = {0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45.0, 90.0, 180.0, 355.0};
  for (std::size_t i = 0; i + 1 < kBounds.size(); ++i) {
    if (diameter > kBounds[i] && diameter <= kBounds[i + 1]) return std::sqrt(kBounds[i] * kBounds[i + 1]);
  }
  return diameter;
}

/// ISO 965-1, the formulas behind the tables, position g, grade 6, position H.
Tolerances metric_tolerances(const Thread& thread) {
  const double p = thread.pitch / kThousandth;
  const double d = range_diameter(thread.diameter / kThousandth);
  const double external_pitch = 90.0 * std::pow(p, 0.4) * std::pow(d, 0.1);
  const double internal_minor = p >= 1.0 ? 230.0 * std::pow(p, 0.7) : 433.0 * p - 190.0 * std::pow(p, 1.22);
  return {.allowance = (15.0 + 11.0 * p) * kMillionth,
          .external_major = (180.0 * std::pow(p, 2.0 / 3.0) - 3.15 / std::sqrt(p)) * kMillionth,
          .external_pitch = external_pitch * kMillionth,
          .internal_minor = internal_minor * kMillionth,
          .internal_pitch = 1.32 * external_pitch * kMillionth};
}

/// ASME B1.1, classes 2A and 2B, one diameter engaged. The formulas are in inches.
Tolerances unified_tolerances(const Thread& thread) {
  const double p = thread.pitch / kInch;
  const double d = thread.diameter / kInch;
  const double p_two_thirds = std::pow(p, 2.0 / 3.0);
  const double external_pitch = 0.0015 * (std::cbrt(d) + std::sqrt(d)) + 0.015 * p_two_thirds;

  // sizes below a quarter inch have their own rule for the nut's bore, held between two bounds
  const double large_minor = 0.25 * p - 0.4 * p * p;
  const double small_minor = 0.05 * p_two_thirds + 0.03 * p / d - 0.002;
  const double internal_minor =
      d < 0.25 - 1e-9 ? std::min(std::max(small_minor, large_minor), 0.394 * p) : large_minor;
  return {.allowance = 0.3 * external_pitch * kInch,
          .external_major = 0.06 * p_two_thirds * kInch,
          .external_pitch = external_pitch * kInch,
          .internal_minor = internal_minor * kInch,
          .internal_pitch = 1.3 * external_pitch * kInch};
}

ThreadLimits limits_from(const Thread& thread, const Tolerances& tolerance, LimitSource source) {
  const ThreadSizes sizes = basic_sizes(thread);
  ThreadLimits limits;
  limits.external_major_max = thread.diameter - tolerance.allowance;
  limits.external_major_min = limits.external_major_max - tolerance.external_major;
  limits.external_pitch_max = sizes.pitch_diameter - tolerance.allowance;
  limits.external_pitch_min = limits.external_pitch_max - tolerance.external_pitch;
  limits.internal_minor_min = sizes.internal_minor;
  limits.internal_minor_max = sizes.internal_minor + tolerance.internal_minor;
  limits.internal_pitch_min = sizes.pitch_diameter;
  limits.internal_pitch_max = sizes.pitch_diameter + tolerance.internal_pitch;
  limits.source = source;
  return limits;
}

}  // namespace

Thread nominal_thread(double diameter, double pitch) {
  return {diameter, pitch, ThreadForm::Metric};
}

Thread unified_thread(double diameter, double turns_per_inch) {
  return {diameter, kInch / turns_per_inch, ThreadForm::Unified};
}

std::optional<double> coarse_pitch(double diameter) {
  for (const MetricRow& row : kMetricSeries) {
    if (same(diameter, row.diameter * kThousandth)) return row.pitches.front() * kThousandth;
  }
  return std::nullopt;
}

bool is_listed(const Thread& thread) {
  return thread.form == ThreadForm::Metric ? is_listed_metric(thread) : is_listed_unified(thread);
}

Problems problems_in(const Thread& thread) {
  Problems problems;
  if (!(thread.diameter > 0.0) || !std::isfinite(thread.diameter)) {
    problems.push_back({"diameter", thread.diameter, 0.0, "larger than zero"});
  }
  if (!(thread.pitch > 0.0) || !std::isfinite(thread.pitch)) {
    problems.push_back({"pitch", thread.pitch, 0.0, "larger than zero"});
  }
  // the coarsest listed thread has a fifth; at a half there is hardly a core left
  if (problems.empty() && !(thread.pitch < 0.5 * thread.diameter)) {
    problems.push_back({"pitch", thread.pitch, 0.5 * thread.diameter, "smaller than half the diameter"});
  }
  return problems;
}

ThreadSizes basic_sizes(const Thread& thread) {
  SW_CHECK(problems_in(thread).empty(), thread.diameter, thread.pitch);
  const double d = thread.diameter;
  const double p = thread.pitch;
  ThreadSizes sizes;
  sizes.triangle_height = 0.5 * std::numbers::sqrt3 * p;
  sizes.pitch_diameter = d - 0.75 * sizes.triangle_height;
  sizes.internal_minor = d - 1.25 * sizes.triangle_height;
  sizes.root_diameter = d - 17.0 / 12.0 * sizes.triangle_height;
  // B1.1 takes the circle of d2 - 3H/8; ISO the mean of pitch and root diameter
  sizes.stress_diameter = thread.form == ThreadForm::Metric
                              ? 0.5 * (sizes.pitch_diameter + sizes.root_diameter)
                              : sizes.pitch_diameter - 0.375 * sizes.triangle_height;
  return sizes;
}

double stress_area(const Thread& thread, double bore) {
  const double diameter = basic_sizes(thread).stress_diameter;
  SW_CHECK(bore >= 0.0 && bore < diameter, bore, diameter);
  return 0.25 * std::numbers::pi * (diameter * diameter - bore * bore);
}

ThreadLimits metric_formula_limits(const Thread& thread) {
  SW_CHECK(thread.form == ThreadForm::Metric);
  return limits_from(thread, metric_tolerances(thread), LimitSource::Formula);
}

ThreadLimits medium_fit_limits(const Thread& thread) {
  if (thread.form == ThreadForm::Unified) {
    return limits_from(thread, unified_tolerances(thread), LimitSource::Formula);
  }
  if (const auto tolerance = table_tolerances(thread)) {
    return limits_from(thread, *tolerance, LimitSource::Table);
  }
  return metric_formula_limits(thread);
}

}  // namespace shimwright::assembly
