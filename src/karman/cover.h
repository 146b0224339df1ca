#pragma once
#include <string_view>

#include "karman/disc_table.h"
#include "plate/stack.h"

namespace shimwright::karman {

/// Whether a table covers a stack, or why not.
enum class Cover {
  Covered,
  Ring,           // a disc that nothing clamps
  Float,          // the stack slides
  BackSpring,     // a spring on its back
  Notches,        // in a rim
  SlippingClamp,  // discs slide in the clamp
  Washer,         // its edge is not the boss's
  OtherValve,     // another clamp, pocket, land or seat radius than the table's
  Material,       // another modulus or Poisson's ratio than the table's
  Rim,            // of a radius that the table has not, or a face disc that ends inside the seat
  Layers,         // none, or more different ones in a row than there is room for
};

/// What is not covered is for plate::lift_curve.
/// Tested: cover_test.cc
Cover covers(const DiscTable& table, const plate::Stack& stack);

/// The reason in a few words.
std::string_view word(Cover cover);

}  // namespace shimwright::karman
