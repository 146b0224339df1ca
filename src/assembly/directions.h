#pragma once
#include <span>
#include <string_view>

namespace shimwright::assembly {

/// A part that has a right and a wrong way round. Facts of the trade (common practice, no source); where the
/// maker's manual says otherwise for one part, the manual wins.
struct Direction {
  std::string_view id;           // "piston", "check-plate"
  std::string_view part;         // words for print
  std::string_view side;         // which side of it
  std::string_view toward;       // faces what
  std::string_view how_to_tell;  // by eye or finger
  std::string_view if_reversed;  // what goes wrong
};

std::span<const Direction> directions();
const Direction* find_direction(std::string_view id);

}  // namespace shimwright::assembly
