#pragma once
#include <string>
#include <string_view>

#include "base/result.h"
#include "units/format.h"
#include "units/quantity.h"

namespace shimwright::units {

/// A run of equal shims as the technician lists it: "3 x 24 x 0.15 mm".
struct ShimRun {
  /// Place of a number in the text, in characters (code points), for a fault found later.
  struct TextRange {
    int offset = 0;
    int length = 0;
  };

  int count = 1;
  double outer_diameter = 0.0;  // [m]
  double thickness = 0.0;       // [m]
  std::string text;             // as typed, without the blanks around it

  TextRange count_place;  // length 0 when the count was left out
  TextRange outer_diameter_place;
  TextRange thickness_place;
};

/// Reads COUNT x OUTER DIAMETER x THICKNESS, or without the count one shim. `x`, `X`, `×` and `*` all
/// separate. The unit comes once at the end, or after both lengths: "3 x 0.945 in x 0.006 in". Tested:
/// stack_text_test.cc
Result<ShimRun, UnitFault> parse_shims(std::string_view text);

/// "3 × 24 × 0.15 mm"; a single shim without its count. Reads back as what was given, to the printed digits.
std::string shim_text(int count, double outer_diameter, double thickness, System system);
std::string shim_text_plain(int count, double outer_diameter, double thickness, System system);

}  // namespace shimwright::units
