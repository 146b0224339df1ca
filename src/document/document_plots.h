#pragma once
#include <span>
#include <vector>

#include "document/document.h"
#include "units/format.h"

namespace shimwright::document {

/// Force over shaft speed, compression up and rebound down from one zero: the present clicks heavy, up to
/// seven of each family of clicks as a fan behind, dots past the speed at which air comes out of the oil.
PlotSpec force_plot(const ForceResult& force, units::System system);

/// Absolute pressures of chambers and reservoir over speed in one stroke, and where air comes out of the oil.
PlotSpec pressure_plot(const ForceResult& force, Stroke stroke, units::System system);

/// Force over travel with what each spring gives, the sag, and where the air is used up or a coil is solid.
PlotSpec spring_plot(const SpringResult& springs, units::System system);

/// Lift at the seat and at the rim over the pressure drop.
PlotSpec lift_plot(const StackResult& stack);

/// Of the above, those that a unit has something for.
std::vector<PlotSpec> unit_plots(const UnitResult& unit, units::System system);

/// The first plot of that id; null when it is not among them.
const PlotSpec* find_plot(std::span<const PlotSpec> plots, PlotId id);

PlotId pressure_plot_id(Stroke stroke);

}  // namespace shimwright::document
