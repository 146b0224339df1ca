#pragma once
#include "plate/disc_element.h"

namespace shimwright::plate {

inline constexpr double kGauss = 0.77459666924148337704;  // sqrt(0.6)

/// Quadratic shape functions of an element's three nodes at its points of integration.
struct ShapeTable {
  double value[DiscElements::kPoints][3];
  double slope[DiscElements::kPoints][3];  // by the local coordinate from -1 to 1
  double weight[DiscElements::kPoints];
};

constexpr ShapeTable make_shapes() {
  ShapeTable table{};
  const double at[DiscElements::kPoints] = {-kGauss, 0.0, kGauss};
  const double weight[DiscElements::kPoints] = {5.0 / 9.0, 8.0 / 9.0, 5.0 / 9.0};
  for (int g = 0; g < DiscElements::kPoints; ++g) {
    const double x = at[g];
    table.value[g][0] = 0.5 * x * (x - 1.0);
    table.value[g][1] = 1.0 - x * x;
    table.value[g][2] = 0.5 * x * (x + 1.0);
    table.slope[g][0] = x - 0.5;
    table.slope[g][1] = -2.0 * x;
    table.slope[g][2] = x + 0.5;
    table.weight[g] = weight[g];
  }
  return table;
}

inline constexpr ShapeTable kShapes = make_shapes();

/// Sine and cosine for the slopes of a disc (below 0.8): the series to the 11th power, good to 1e-10, and the
/// same bits on every machine.
struct Turn {
  double sine, cosine;
};
template <typename Number>
inline void find_turn(const Number& phi, Number& sine, Number& cosine) {
  const Number q = phi * phi;
  const double s[] = {1.0 / 6.0, 1.0 / 20.0, 1.0 / 42.0, 1.0 / 72.0, 1.0 / 110.0};
  const double c[] = {1.0 / 2.0, 1.0 / 12.0, 1.0 / 30.0, 1.0 / 56.0, 1.0 / 90.0};
  sine = phi * (1.0 - q * s[0] * (1.0 - q * s[1] * (1.0 - q * s[2] * (1.0 - q * s[3] * (1.0 - q * s[4])))));
  cosine = 1.0 - q * c[0] * (1.0 - q * c[1] * (1.0 - q * c[2] * (1.0 - q * c[3] * (1.0 - q * c[4]))));
}
inline Turn turn_of(double phi) {
  Turn turn{};
  find_turn(phi, turn.sine, turn.cosine);
  return turn;
}

}  // namespace shimwright::plate
