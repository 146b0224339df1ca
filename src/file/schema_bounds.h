#pragma once
#include "file/schema.h"

namespace shimwright::file {

/// Where sense ends for the lengths that stand in many tables. Wide on purpose: they are there to catch a
/// lost decimal point or a wrong unit, not to judge a design. Common practice, no source.
inline constexpr Bounds kShimDiameter{4e-3, 100e-3, "shims are a few millimetres to a few inches wide"};
inline constexpr Bounds kShimThickness{0.02e-3, 3e-3,
                                       "shims are hundredths of a millimetre to a few millimetres thick"};
inline constexpr Bounds kBore{1e-3, 80e-3, "it goes over a post or around another shim"};
inline constexpr Bounds kValveDiameter{2e-3, 100e-3, "it lies inside a damper"};
inline constexpr Bounds kSmallGap{1e-6, 5e-3, "it is a clearance between parts that run in each other"};
inline constexpr Bounds kHole{0.1e-3, 60e-3, "it is a hole in a damper part"};
inline constexpr Bounds kTube{5e-3, 120e-3, "it is a tube or a piston of a fork or shock"};
inline constexpr Bounds kRod{3e-3, 60e-3, "it is the rod of a fork or shock"};
inline constexpr Bounds kTravel{5e-3, 0.6, "a fork or shock moves a few millimetres to 600 mm"};
inline constexpr Bounds kPartLength{0.0, 1.2, "no part of a fork or shock is longer"};
inline constexpr Bounds kPieceHeight{0.01e-3, 0.15, "it stands on a post of a few centimetres"};
inline constexpr Bounds kTolerance{0.0, 2e-3, "a tolerance is a fraction of a millimetre"};
inline constexpr Bounds kSpringForce{0.0, 20e3, "no spring of a fork or shock pushes harder"};
inline constexpr Bounds kSpringRate{1.0, 2e6,
                                    "springs of forks, shocks and valves lie between 0.001 and 2000 N/mm"};
inline constexpr Bounds kOilVolume{0.0, 5e-3, "a fork or shock holds less than five litres"};
inline constexpr Bounds kModulus{1e9, 500e9, "metals and plastics lie between 1 and 500 GPa"};
inline constexpr Bounds kStrength{1e6, 5e9, "no metal is stronger than 5 GPa"};
inline constexpr Bounds kFraction{0.0, 1.0, "it is a share of a whole"};
inline constexpr Bounds kDischarge{
    0.1, 1.0, "discharge coefficients lie near 0.7, and no opening passes more than its area"};
inline constexpr Bounds kWorkTemperature{223.15, 473.15, "oil and seals work between -50 and 200 degC"};
inline constexpr Bounds kBenchSpeed{1e-4, 12.0, "no bench and no wheel moves faster"};
inline constexpr Bounds kAltitude{-500.0, 9000.0,
                                  "people ride between the lowest shore and the highest pass"};
inline constexpr Bounds kGasPressure{-0.1e6, 20e6, "dampers and air springs are filled to less than 200 bar"};
inline constexpr Bounds kPieces{1, 200, "it is a number of parts in one stack"};
inline constexpr Bounds kInHand{0, 1000000, "it is a number of parts in a drawer"};
inline constexpr Bounds kPrice{0.0, 1e9, "it is a price"};

}  // namespace shimwright::file
