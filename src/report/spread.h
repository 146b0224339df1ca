#pragma once
#include <vector>

namespace shimwright::report {

/// Places for labels that want to stand at `wanted` (any order) and need `pitch` between them, inside [min,
/// max] as far as there is room. Same length and order as `wanted`; the order on paper is that of the wanted
/// places.
std::vector<double> spread(const std::vector<double>& wanted, double pitch, double min, double max);

}  // namespace shimwright::report
