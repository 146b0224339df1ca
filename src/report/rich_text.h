#pragma once
#include <string>
#include <vector>

#include "report/scene.h"

namespace shimwright::report {

/// A stretch of text in one weight.
struct Run {
  std::string text;
  Weight weight = Weight::Regular;
};

/// The runs as one paragraph, broken at spaces, from (x, y) down, y being the top of its first line; returns
/// the y below it. A single word that is wider than `width` is cut.
double add_runs(Scene& scene, const std::vector<Run>& runs, double x, double y, double width, double size,
                Token token = Token::Ink);

/// The words alone.
std::string plain_text(const std::vector<Run>& runs);

/// From one line to the next [pt].
inline double leading(double size) {
  return size * 1.32;
}

}  // namespace shimwright::report
