#pragma once
#include <optional>
#include <vector>

#include "job/resolve_places.h"
#include "job/spec.h"
#include "oil/oil.h"

namespace shimwright::job {

/// An oil ready to be computed. Faults go to `diagnostics`, what is left out to `missing`; then there is no
/// model.
///
/// Model:  two viscosities as written, or one with a viscosity index: the second is then the one that gives
/// this index
///         by ASTM D2270. Expansion left out: that of a lubricating oil of this density.
/// Tested: resolve_test.cc
std::optional<oil::OilModel> resolve_oil(const JobSpec& job, const OilSpec& spec, double ambient_pressure,
                                         Diagnostics& diagnostics, std::vector<Missing>& missing);

}  // namespace shimwright::job
