#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "assembly/thread.h"
#include "units/kind.h"
#include "units/quantity.h"

namespace shimwright::file {

/// Place of a value in what the person wrote. Everything in a Spec carries one, so that a finding made
/// ten modules later still points at the line.
struct Origin {
  int file = -1;          // index into JobSpec::files; -1 when nobody wrote it
  std::size_t begin = 0;  // bytes from the start of the file
  std::size_t end = 0;    // one past the last byte
  int line = 0;           // 1-based
  int column = 0;         // 1-based, in characters (code points)
  int length = 1;         // in characters, on the first line
  std::string path;       // key path, "unit[0].piston_valve.rebound.stack[1]"
  std::string asked;  // "the air left in the rod chamber": of a value asked for beside the file; else empty
};

/// A number with its unit, in SI and as typed.
struct Quantity {
  double si = 0.0;     // SI of `kind`; gauge pascal for a Gauge pressure
  bool given = false;  // nothing may be read from a value that was not given
  units::Kind kind = units::Kind::Number;
  units::Reference reference = units::Reference::None;  // set for Kind::Pressure alone
  std::string text;                                     // as typed, "0.15 mm"
  Origin origin;

  explicit operator bool() const { return given; }
  double value_or(double other) const { return given ? si : other; }
};

/// "25 to 40 mm": what is aimed for.
struct QuantityRange {
  Quantity low;
  Quantity high;
  bool given = false;
  std::string text;
  Origin origin;

  explicit operator bool() const { return given; }
};

/// A plain number: a ratio, a discharge coefficient, a price.
struct Number {
  double value = 0.0;
  bool given = false;
  std::string text;
  Origin origin;

  explicit operator bool() const { return given; }
  double value_or(double other) const { return given ? value : other; }
};

/// A whole number: how many, how many clicks.
struct Count {
  int value = 0;
  bool given = false;
  Origin origin;

  explicit operator bool() const { return given; }
  int value_or(int other) const { return given ? value : other; }
};

struct Flag {
  bool value = false;
  bool given = false;
  Origin origin;

  explicit operator bool() const { return given; }
  bool value_or(bool other) const { return given ? value : other; }
};

struct Text {
  std::string value;
  bool given = false;
  Origin origin;

  explicit operator bool() const { return given; }
};

/// One word out of a fixed set.
template <typename Enum>
struct Choice {
  Enum value{};
  bool given = false;
  std::string text;  // as typed
  Origin origin;

  explicit operator bool() const { return given; }
  Enum value_or(Enum other) const { return given ? value : other; }
};

/// A part named from a parts file, or stated in place: either way `part` holds a copy of its values, whose
/// origins point to where they were written.
template <typename Part>
struct Named {
  Text name;  // as named in the job; not given when stated in place
  std::optional<Part> part;
  Origin origin;

  explicit operator bool() const { return part.has_value(); }
  const Part& operator*() const { return *part; }
  const Part* operator->() const { return &*part; }
};

/// A screw thread with 60 degree flanks, metric or unified: "M6 x 0.75", "M6" (coarse), "1/4-28".
struct Thread {
  assembly::Thread size;
  bool given = false;
  std::string text;
  Origin origin;

  explicit operator bool() const { return given; }
};

}  // namespace shimwright::file
