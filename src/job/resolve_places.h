#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.h"
#include "base/problem.h"
#include "job/spec.h"

namespace shimwright::job {

/// Where the fields of a physics model were written: the model speaks of "discs[2].outer_radius" in metres,
/// the technician wrote `unit[0].foot_valve.compression.stack[1]` in diameters.
class FieldPlaces {
 public:
  /// `scale` turns the model's number into the written one: 2 for a radius that was written as a diameter.
  void add(std::string field, const Quantity& written, double scale = 1.0);
  void add(std::string field, const Origin& origin, units::Kind kind = units::Kind::Number,
           double scale = 1.0);

  /// Takes over all places of an inner model under `prefix`.
  void add_all(const std::string& prefix, const FieldPlaces& inner);

  struct Place {
    std::string field;
    Origin origin;
    units::Kind kind = units::Kind::Number;
    double scale = 1.0;
  };

  /// The place of this field, or of the nearest field around it ("discs[2]" for "discs[2].slope"); null when
  /// none is known.
  const Place* find(std::string_view field) const;

 private:
  std::vector<Place> places_;
};

/// What physics refuses, said at the place in the file and in the user's units. Code E0901.
Diagnostics located(const JobSpec& job, const Problems& problems, const FieldPlaces& places,
                    const Origin& around);

/// One thing that a part of the result needs and the job does not say.
struct Missing {
  std::string part;  // "the force curve"
  std::string what;  // "the rod's diameter"
  std::string key;   // "rod"
  Origin origin;     // of the table it belongs in
};

/// As a fault, code E0902: the verb that was asked for cannot do without.
Diagnostic missing_fault(const JobSpec& job, const Missing& missing);

}  // namespace shimwright::job
