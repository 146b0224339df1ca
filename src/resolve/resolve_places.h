#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "file/spec_value.h"

namespace shimwright::resolve {

/// Where one field of a physics model was written, and how the written number follows from the model's.
struct FieldPlace {
  std::string field;
  file::Origin origin;
  units::Kind kind = units::Kind::Number;
  double scale = 1.0;
};

/// Where the fields of a physics model were written: the model speaks of "discs[2].outer_radius" in metres,
/// the technician wrote `unit[0].foot_valve.compression.stack[1]` in diameters.
class FieldPlaces {
 public:
  /// Sets a field of the model to what was written and remembers where that was. A value that was left out
  /// changes nothing: the member keeps what it holds. `scale` turns the model's number into the written one:
  /// 2 for a radius that was written as a diameter.
  void bind(std::string field, double& member, const file::Quantity& written, double scale = 1.0);

  /// Remembers the place alone, of a field that follows from more than one written value, or of a group.
  void add(std::string field, const file::Quantity& written, double scale = 1.0);
  void add(std::string field, const file::Origin& origin, units::Kind kind = units::Kind::Number,
           double scale = 1.0);

  /// Takes over all places of an inner model under `prefix`.
  void add_all(const std::string& prefix, const FieldPlaces& inner);

  /// The place of this field, or of the nearest field around it ("discs[2]" for "discs[2].slope"); null when
  /// none is known.
  const FieldPlace* find(std::string_view field) const;

 private:
  std::vector<FieldPlace> places_;
};

}  // namespace shimwright::resolve
