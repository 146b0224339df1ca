#pragma once
#include <cstddef>
#include <vector>

#include "spring/unit_spring.h"

namespace shimwright::spring {

/// A change of what is in the unit or of what is around it. All parts at once; usually one is not zero.
struct SpringChange {
  std::size_t element = 0;        // whose oil, pressure or preload changes; the conditions are everybody's
  double oil_volume = 0.0;        // more oil in the positive chamber, set to the same pressure again [m^3]
  double pressure = 0.0;          // more pressure in it when sealed [Pa]
  double preload = 0.0;           // more compression of the coil at zero travel [m]
  double temperature = 0.0;       // warmer [K]; the sealed air keeps its amount
  double ambient_pressure = 0.0;  // around the leg [Pa]
};

/// The unit with a change of its own made.
/// Errors: SW_CHECK when the element is not of the kind that has such a thing.
UnitSpring changed(const UnitSpring& unit, const SpringChange& change);
Conditions changed(const Conditions& conditions, const SpringChange& change);

/// What the change does to the force over the travel.
struct SpringChangeEffect {
  std::vector<double> travel;      // evenly spaced from fully out to full travel [m] (n)
  std::vector<double> before;      // force [N] (n)
  std::vector<double> difference;  // force after less force before [N] (n)
  Outcome outcome;                 // the worse of the two units' limits
};
SpringChangeEffect effect_of(const SpringChange& change, const UnitSpring& unit, const Conditions& conditions,
                             int n_points);

/// The same at one travel [N].
double force_change(const SpringChange& change, const UnitSpring& unit, const Conditions& conditions,
                    double travel);

}  // namespace shimwright::spring
