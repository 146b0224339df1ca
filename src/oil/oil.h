#pragma once
#include <optional>
#include <vector>

#include "base/outcome.h"
#include "base/problem.h"
#include "oil/liquid.h"

namespace shimwright::oil {

inline constexpr double kCelsiusZero = 273.15;   // 0 degC [K]
inline constexpr double kAtmosphere = 101325.0;  // pressure at which air contents are stated [Pa absolute]
inline constexpr double kDensityReference = 288.15;  // 15 degC, where a density is printed [K]

struct ViscosityPoint {
  double temperature = 0.0;  // [K]
  double viscosity = 0.0;    // kinematic [m^2/s]
};

/// A damper oil over temperature and pressure. Check it with `problems_in` before use.
///
/// The "weight" on a bottle is no viscosity and has no place here: two measured points are what counts.
struct OilModel {
  std::vector<ViscosityPoint> viscosity_points;  // two, at different temperatures, usually 40 and 100 degC
  double coldest = 253.15;                       // lowest temperature the oil's data are trusted at [K]
  double hottest = 393.15;                       // highest [K]

  double density_15 = 0.0;  // at 15 degC [kg/m^3]
  double expansion = 0.0;   // volume growth per kelvin at 15 degC [1/K]; see `lubricating_oil_expansion`

  double bulk_modulus = 1.5e9;     // of the oil without air [Pa]; 1.4 to 1.8e9 (mineral oil, from memory)
  double entrained_air = 0.0;      // volume of bubbles / whole volume, at one atmosphere [-]
  double bunsen = 0.09;            // air dissolved per oil volume and atmosphere [-]; 0.08-0.09 (from memory)
  double release_pressure = 20e3;  // air comes out of solution below this [Pa absolute]; 10-30e3 is
                                   // a cautious choice (from memory, no source opened)
  double return_time = 1.0;        // in which air that came out goes back [s]; a choice, no source
};

/// What is wrong with the model, by field. One viscosity point alone is refused: the slope over temperature
/// differs so much between oils that a guess is worthless.
Problems problems_in(const OilModel& oil);

/// Whether the oil's data carry to this temperature; OutOfRange names the limit and by how much it is passed.
Outcome validity_at(const OilModel& oil, double temperature);

/// Density and dynamic viscosity at a temperature and about atmospheric pressure.
///
/// Valid:  coldest <= temperature <= hottest; beyond, the value is an extrapolation, which `validity_at`
/// tells. Errors: SW_CHECK on temperature <= 0 and on a model without its two points. Tested:
/// oil_reference_test.cc, oil_property_test.cc
Liquid liquid_at(const OilModel& oil, double temperature);

/// Kinematic viscosity at a temperature [m^2/s].
///
/// Model:  log log Z = A - B log T, Z = v + 0.7 + exp(-1.47 - 1.84 v - 0.51 v^2), v in mm2/s. Z is turned
/// back
///         into v by Newton, not by the standard's own approximate inverse, so that both points come back
///         exactly.
/// Valid:  v above 0.21 mm2/s, no wax and no boiling between; as `liquid_at` otherwise.
/// Source: [astmD341], equations seen in public pages that quote it
/// Tested: oil_reference_test.cc (OV-01 to OV-07)
double kinematic_viscosity(const OilModel& oil, double temperature);

/// The temperature at which the oil has this kinematic viscosity [K]; the same law, solved for T.
double temperature_at_viscosity(const OilModel& oil, double viscosity);

/// The straight line of the viscosity law: log10(log10 Z) = a - b log10(T / K).
struct ViscosityLine {
  double a = 0.0;
  double b = 0.0;
};
ViscosityLine viscosity_line(const ViscosityPoint& first, const ViscosityPoint& second);

/// Density [kg/m^3].
///
/// Model:  rho15 exp(-e dt (1 + 0.8 e dt)), dt from 15 degC, e the expansion. To first order 1 - e dt.
/// Source: [astmD1250]; its constant was seen in a public source, the form is from memory
/// Tested: oil_reference_test.cc (DN-01)
double density(const OilModel& oil, double temperature);

/// Expansion of a lubricating oil by its density alone [1/K]: 0.6278 / rho15.
/// Source: [astmD1250], constant for lubricating oils
double lubricating_oil_expansion(double density_15);

/// Volume that an amount of oil takes at another temperature, divided by its volume before.
double thermal_volume_ratio(const OilModel& oil, double from_temperature, double to_temperature);

/// Viscosity index from the kinematic viscosities at 40 and 100 degC; not defined below 2 mm2/s at 100 degC.
///
/// Model:  procedure A up to 100, B above; the standard's table between 2 and 70 mm2/s, its equations above.
///         Not rounded; the standard prints whole numbers.
/// Source: [astmD2270]; table and equations read from public copies, not from the standard itself
/// Tested: oil_reference_test.cc (VI-01 to VI-07)
std::optional<double> viscosity_index(double viscosity_at_40, double viscosity_at_100);
std::optional<double> viscosity_index(const OilModel& oil);

/// The ISO VG grade that a kinematic viscosity at 40 degC falls in (within 10 % of its number); there are
/// gaps. Source: [iso3448], seen in public pages that quote it; 2200 and 3200 from memory
std::optional<int> iso_vg_grade(double viscosity_at_40);

/// Oil b in place of oil a, at one temperature: what changes. The effect on force is the valve's business.
struct OilComparison {
  double temperature = 0.0;        // [K]
  Liquid a;                        // at that temperature
  Liquid b;                        //
  double kinematic_ratio = 1.0;    // of b to a [-]
  double dynamic_ratio = 1.0;      // moves laminar drops: bleed at rest, leakage [-]
  double density_ratio = 1.0;      // moves turbulent drops: ports, curtains [-]
  double same_viscosity_at = 0.0;  // temperature at which b is as thin as a is at `temperature` [K]
  Outcome outcome;                 // the worse of the two oils' ranges
};
OilComparison compare_at(const OilModel& a, const OilModel& b, double temperature);

}  // namespace shimwright::oil
