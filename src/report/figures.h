#pragma once
#include "document/document.h"
#include "report/plot.h"
#include "units/format.h"

namespace shimwright::report {

/// Force over shaft speed, both strokes up and down from one zero: the present clicks in full ink, the family
/// as a tint fan, dots past the speed at which a chamber draws air.
Plot force_plot(const document::UnitResult& unit, units::System system);

/// Absolute pressures of both chambers over speed, with the line at which air comes out of the oil.
Plot pressure_plot(const document::UnitResult& unit, shimwright::Stroke stroke, units::System system);

/// Force over travel, with the share of each spring below the sum.
Plot spring_plot(const document::UnitResult& unit, units::System system);

/// Lift at the seat and at the rim over the pressure drop, with the breakpoints of the linear path.
Plot lift_plot(const document::StackResult& stack, units::System system);

}  // namespace shimwright::report
