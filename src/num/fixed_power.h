#pragma once
#include <array>
#include <bit>
#include <cmath>
#include <cstdint>

namespace shimwright::num {

/// x to the same power again and again: a gas law that is asked at each stage of each step. Half the time of
/// exp and log, all digits but the last two or three bits.
///
/// Model:  x = 2^e m, m beside the nearest of 32 places m_i, r = m / m_i - 1, |r| <= 1/64; 2^(e a) and m_i^a
/// from
///         tables, (1 + r)^a by its series up to r^8.
/// Valid:  any x; what lies far off the table (2^-64 to 2^64), or is no number, is left to the library.
/// Tested: fixed_power_test.cc
class FixedPower {
 public:
  FixedPower() : FixedPower(1.0) {}
  explicit FixedPower(double exponent) : exponent_(exponent) {
    for (int e = 0; e < kOctaves; ++e) octave_[e] = std::pow(2.0, exponent * (e - kHalf));
    for (int i = 0; i < kPlaces; ++i) {
      const double place = 1.0 + (i + 0.5) / kPlaces;
      place_[i] = std::pow(place, exponent);
      per_place_[i] = 1.0 / place;
    }
    double term = 1.0;
    for (int k = 0; k < kTerms; ++k) {
      series_[k] = term;
      term *= (exponent - k) / (k + 1);
    }
  }

  double at(double x) const {
    const std::uint64_t bits = std::bit_cast<std::uint64_t>(x);
    // the sign makes this too large, as zero and what is no number do
    const std::uint64_t octave = (bits >> 52) - (1023 - kHalf);
    if (octave >= kOctaves) return std::pow(x, exponent_);
    constexpr std::uint64_t kFraction = (std::uint64_t{1} << 52) - 1;
    const std::size_t i = (bits & kFraction) >> 47;
    const double m = std::bit_cast<double>((bits & kFraction) | (std::uint64_t{1023} << 52));
    const double r = m * per_place_[i] - 1.0;
    const auto& c = series_;
    const double r2 = r * r;
    const double r4 = r2 * r2;
    const double low = (c[0] + c[1] * r) + (c[2] + c[3] * r) * r2;
    const double high = (c[4] + c[5] * r) + (c[6] + c[7] * r) * r2;
    return octave_[octave] * place_[i] * (low + (high + c[8] * r4) * r4);
  }

 private:
  static constexpr int kPlaces = 32;
  static constexpr int kHalf = 64;
  static constexpr int kOctaves = 2 * kHalf;
  static constexpr int kTerms = 9;

  double exponent_ = 1.0;
  std::array<double, kOctaves> octave_{};
  std::array<double, kPlaces> place_{}, per_place_{};
  std::array<double, kTerms> series_{};
};

}  // namespace shimwright::num
