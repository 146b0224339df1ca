#include "assembly/stripping.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "base/check.h"

namespace shimwright::assembly {
namespace {

constexpr double kMega = 1e6;
constexpr double kShearPerTensile = 0.6;
constexpr double kHalfAngleTangent = std::numbers::inv_sqrt3;  // tan 30 degrees; the handbook prints 0.57735

// Alexander's fits hold between these
constexpr double kLeastWidthRatio = 1.4;
constexpr double kGreatestWidthRatio = 1.9;
constexpr double kLeastStrengthRatio = 0.4;
constexpr double kGreatestStrengthRatio = 2.2;

constexpr std::array kStrengths = {
    NamedStrength{"8.8", {640 * kMega, 800 * kMega}, "ISO 898-1, up to M16"},
    NamedStrength{"10.9", {940 * kMega, 1040 * kMega}, "ISO 898-1"},
    NamedStrength{"12.9", {1100 * kMega, 1220 * kMega}, "ISO 898-1"},
    NamedStrength{"aluminium 6082-T6", {260 * kMega, 310 * kMega}, "EN 755-2, bar 20-150 mm"},
    NamedStrength{"aluminium 7075-T6", {480 * kMega, 540 * kMega}, "EN 755-2, bar up to 100 mm"},
    NamedStrength{"brass", {200 * kMega, 400 * kMega}, "CW614N half hard, EN 12164, rounded down"},
    NamedStrength{"mild steel", {235 * kMega, 360 * kMega}, "EN 10025-2, S235"},
    NamedStrength{"steel C45 normalised", {340 * kMega, 620 * kMega}, "EN ISO 683-1, up to 16 mm"},
    NamedStrength{
        "steel 42CrMo4 hardened", {750 * kMega, 1000 * kMega}, "EN ISO 683-2, 16-40 mm, rounded down"},
    NamedStrength{"stainless A2-70", {450 * kMega, 700 * kMega}, "ISO 3506-1"},
};

double stripping_force_per_length(const ThreadPair& pair) {
  ThreadPair unit = pair;
  unit.engaged_length = 1.0;
  return stripping(unit).force;
}

}  // namespace

double shear_strength(const Strength& strength) {
  return kShearPerTensile * strength.ultimate;
}

std::span<const NamedStrength> named_strengths() {
  return kStrengths;
}

const NamedStrength* find_strength(std::string_view id) {
  const auto found = std::ranges::find(kStrengths, id, &NamedStrength::id);
  return found == kStrengths.end() ? nullptr : &*found;
}

Problems problems_in(const ThreadPair& pair) {
  Problems problems = problems_in(pair.thread);
  for (Problem& problem : problems) problem.field = "thread." + problem.field;

  const auto strength = [&](const char* field, const Strength& member) {
    const std::string name = field;
    if (!(member.ultimate > 0.0)) {
      problems.push_back({name + ".ultimate", member.ultimate, 0.0, "larger than zero"});
    }
    if (!(member.yield > 0.0 && member.yield <= member.ultimate)) {
      problems.push_back({name + ".yield", member.yield, member.ultimate,
                          "larger than zero and no larger than the ultimate strength"});
    }
  };
  strength("post", pair.post);
  strength("nut", pair.nut);

  if (!(pair.engaged_length >= 0.0)) {
    problems.push_back({"engaged_length", pair.engaged_length, 0.0, "zero or larger"});
  }
  if (pair.nut_width != 0.0 && !(pair.nut_width > pair.thread.diameter)) {
    problems.push_back(
        {"nut_width", pair.nut_width, pair.thread.diameter, "larger than the thread's diameter"});
  }
  return problems;
}

ShearAreas shear_areas(const Thread& thread, double engaged_length) {
  SW_CHECK(engaged_length >= 0.0, engaged_length);
  const ThreadLimits limits = medium_fit_limits(thread);
  const double half_pitch = 0.5 * thread.pitch;
  const double turns = std::numbers::pi * engaged_length / thread.pitch;

  // the post's thread shears at the nut's bore, the nut's at the post's outside
  const double d1 = limits.internal_minor_max;
  const double d = limits.external_major_min;
  return {.post = turns * d1 * (half_pitch + kHalfAngleTangent * (limits.external_pitch_min - d1)),
          .nut = turns * d * (half_pitch + kHalfAngleTangent * (d - limits.internal_pitch_max))};
}

AlexanderFactors alexander_factors(double width_ratio, double strength_ratio) {
  AlexanderFactors factors;
  const auto out_of_range = [&](const char* note) {
    factors.outcome.status = Status::OutOfRange;
    factors.outcome.note = note;
  };

  // dilation of the nut
  if (width_ratio > 0.0 && width_ratio < kGreatestWidthRatio) {
    const double w = width_ratio;
    factors.dilation = std::max(0.0, -w * w + 3.8 * w - 2.61);
    if (w < kLeastWidthRatio)
      out_of_range(
          "The nut is less than 1.4 thread diameters wide. For such a nut it is not known how much it "
          "widens.");
  }

  // bending of the turns of the weaker side
  const double r = std::clamp(strength_ratio, kLeastStrengthRatio, kGreatestStrengthRatio);
  if (r != strength_ratio) {
    out_of_range(
        "One thread is so much softer than the other that its bending is outside the measured range.");
  }
  if (r > 1.0) factors.post = 5.594 + r * (-13.682 + r * (14.107 + r * (-6.057 + r * 0.9353)));
  if (r < 1.0) factors.nut = 0.728 + r * (1.769 + r * (-2.896 + r * 1.296));
  return factors;
}

Stripping stripping(const ThreadPair& pair) {
  SW_CHECK(problems_in(pair).empty(), pair.thread.diameter, pair.thread.pitch, pair.engaged_length);
  Stripping result;
  result.areas = shear_areas(pair.thread, pair.engaged_length);

  // the ratio does not depend on the length; one metre keeps it defined at zero engagement
  const ShearAreas unit = shear_areas(pair.thread, 1.0);
  result.strength_ratio = unit.nut * shear_strength(pair.nut) / (unit.post * shear_strength(pair.post));
  result.factors = alexander_factors(pair.nut_width / pair.thread.diameter, result.strength_ratio);
  result.outcome = result.factors.outcome;

  const AlexanderFactors& c = result.factors;
  result.post_force = result.areas.post * shear_strength(pair.post) * c.dilation * c.post;
  result.nut_force = result.areas.nut * shear_strength(pair.nut) * c.dilation * c.nut;
  result.force = std::min(result.post_force, result.nut_force);
  result.weaker = result.strength_ratio * c.nut < c.post ? Member::Nut : Member::Post;
  return result;
}

double handbook_engagement(const ThreadPair& pair) {
  SW_CHECK(problems_in(pair).empty(), pair.thread.diameter, pair.thread.pitch);
  const ShearAreas per_length = shear_areas(pair.thread, 1.0);
  const double equal_materials = 2.0 * stress_area(pair.thread) / per_length.post;
  const double j = per_length.post * pair.post.ultimate / (per_length.nut * pair.nut.ultimate);
  return equal_materials * std::max(1.0, j);
}

double engagement_to_hold(const ThreadPair& pair, double force) {
  SW_CHECK(force >= 0.0, force);
  return force / stripping_force_per_length(pair);
}

}  // namespace shimwright::assembly
