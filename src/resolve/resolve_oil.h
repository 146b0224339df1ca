#pragma once
#include <optional>
#include <vector>

#include "file/spec.h"
#include "oil/oil.h"
#include "resolve/resolve_report.h"

namespace shimwright::resolve {

/// An oil ready to be computed; none when `report` takes a fault or something missing.
///
/// Model:  two viscosities as written, or one with a viscosity index: the second is then the one that gives
/// this index
///         by ASTM D2270. Expansion left out: that of a lubricating oil of this density.
/// Tested: resolve_test.cc
std::optional<oil::OilModel> resolve_oil(const file::JobSpec& job, const file::OilSpec& spec,
                                         double ambient_pressure, ResolveReport& report);

}  // namespace shimwright::resolve
