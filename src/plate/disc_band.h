#pragma once

namespace shimwright::plate {

// The matrix of a disc is symmetric and banded: of each row the diagonal and what lies before it is kept.
inline constexpr int kBand = 3;  // entries before the diagonal
inline constexpr int kRow = kBand + 1;

}  // namespace shimwright::plate
