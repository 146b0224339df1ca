#pragma once
#include "oil/oil.h"

namespace shimwright::oil {

inline constexpr double kSlow = 1.0;  // exponent of air that has time to give off its heat
inline constexpr double kFast = 1.4;  // exponent of air that does not

/// Stiffness of oil with its bubbles: -V dp/dV [Pa].
///
/// Model:  oil of constant modulus beside polytropic air, nothing dissolving:
///         V_l = (1-f) exp(-(p-p0)/K), V_g = f (p0/p)^(1/n), modulus (V_l + V_g) / (V_l/K + V_g/(n p)).
/// Units:  pressure absolute [Pa]; exponent n from kSlow to kFast.
/// Valid:  pressure > 0. Above saturation real bubbles dissolve in time, so this is the soft side.
/// Source: [gholizadeh2011] surveys this and its rivals; the form is the exact derivative of the volume
/// Tested: oil_reference_test.cc (BM-01 to BM-06), oil_property_test.cc (derivative of
/// `pressure_volume_ratio`)
double effective_bulk_modulus(const OilModel& oil, double pressure, double exponent = kFast);

/// Volume of oil with its bubbles at a pressure, divided by that at one atmosphere; the same model.
double pressure_volume_ratio(const OilModel& oil, double pressure, double exponent = kFast);

/// Volume that the air dissolved in saturated oil takes when it all comes out at one atmosphere [m^3].
///
/// Model:  Henry's law with Bunsen's coefficient: bunsen V p / one atmosphere.
/// Units:  volume of oil [m^3]; saturation pressure absolute [Pa].
/// Tested: oil_reference_test.cc (AR-01)
double dissolved_air_volume(const OilModel& oil, double volume, double saturation_pressure);

/// Stiffness of an oil column that a piston closes: K A^2 / V [N/m].
double column_stiffness(double bulk_modulus, double area, double volume);

}  // namespace shimwright::oil
