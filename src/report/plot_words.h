#pragma once
#include <string>
#include <vector>

#include "report/scene.h"

// Where the words inside a plot stand.

namespace shimwright::report::internal {

/// A line on paper, as far as words have to keep clear of it.
struct PaperLine {
  std::vector<Point> points;
  bool heavy = false;
};

struct TextBox {
  Point min, max;

  bool holds(Point p) const { return p.x > min.x && p.x < max.x && p.y > min.y && p.y < max.y; }
  bool touches(const TextBox& b) const {
    return min.x < b.max.x && b.min.x < max.x && min.y < b.max.y && b.min.y < max.y;
  }
  bool inside(const TextBox& b) const {
    return min.x >= b.min.x && max.x <= b.max.x && min.y >= b.min.y && max.y <= b.max.y;
  }
};

/// What is in the way of new words.
struct Crowd {
  TextBox frame;
  std::vector<PaperLine> lines;
  std::vector<TextBox> taken;  // by other words
};

/// Near `at`: inside the frame, clear of other words, on as few lines as can be.
TextBox words_beside(const Crowd& crowd, Point at, const std::string& text);

/// On the loop `own` itself, which they interrupt as the figure of a contour does, so that of several loops
/// inside each other each has its own name. Empty corners where there is no room.
TextBox words_on_loop(const Crowd& crowd, std::size_t own, const std::string& text);

}  // namespace shimwright::report::internal
