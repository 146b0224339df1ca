#pragma once
#include <array>

// Coefficients of RODAS, from memory; rodas_test.cc holds them to all conditions of order four, so that a
// wrong digit cannot stay. Private to the module.

namespace shimwright::num::rodas {

inline constexpr int kStages = 6;
inline constexpr double kGamma = 0.25;

/// Rows of stages: argument y + sum a[i][j] u_j, right side plus sum c[i][j] u_j / h.
inline constexpr double kA[kStages][kStages - 1] = {
    {},
    {1.544},
    {0.9466785280815826, 0.2557011698983284},
    {3.314825187068521, 2.896124015972201, 0.9986419139977817},
    {1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950},
    {1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950, 1.0}};

inline constexpr double kC[kStages][kStages - 1] = {
    {},
    {-5.6688},
    {-2.430093356833875, -0.2063599157091915},
    {-0.1073529058151375, -9.594562251023355, -20.47028614809616},
    {7.496443313967647, -10.24680431464352, -33.99990352819905, 11.70890893206160},
    {8.083246795921522, -7.981132988064893, -31.52159432874371, 16.31930543123136, -6.058818238834054}};

/// Times of the stages and weights of the time derivative.
inline constexpr std::array<double, kStages> kAlpha{0.0, 0.386, 0.21, 0.63, 1.0, 1.0};
inline constexpr std::array<double, kStages> kD{0.25, -0.1043, 0.1035, -0.0362, 0.0, 0.0};

/// Dense output of order three: y = (1-s) y0 + s (y1 + (1-s) (U + s V)), U and V sums of u_1 to u_5.
inline constexpr std::array<double, kStages - 1> kDenseU{
    10.12623508344586, -7.487995877610167, -34.80091861555747, -7.992771707568823, 1.025137723295662};
inline constexpr std::array<double, kStages - 1> kDenseV{
    -0.6762803392801253, 6.087714651680015, 16.43084320892478, 24.76722511418386, -6.594389125716872};

}  // namespace shimwright::num::rodas
