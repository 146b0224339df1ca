#pragma once
#include <optional>
#include <string>
#include <vector>

#include "report/scene.h"

namespace shimwright::report {

enum class Paper { A4, Letter };

struct PaperSize {
  double width, height;  // [pt]
};

PaperSize size_of(Paper paper);

inline constexpr double kMargin = 15.0 * kPointsPerMillimetre;

/// Width that a block may fill.
double content_width(Paper paper);

/// A piece of a page that is never cut: a paragraph, a step with its box, one row of a table, a figure.
struct Block {
  Scene scene;
  double gap = 4.0;             // above it, unless it is the first on its page [pt]
  bool keep_with_next = false;  // a heading, a caution before its step
  std::optional<Scene>
      repeat;             // drawn above it where it comes to stand first on a page: the heading of its table
  bool new_page = false;  // it begins a page
  bool floats =
      false;  // a picture: where it does not fit, the text behind it goes ahead, to the next heading
};

/// The foot of each page, left to right, before "page n of N".
struct Foot {
  std::string job;
  std::string revision;
  std::string date;
};

/// The blocks on as many pages as they need and not one more. A block taller than a page is
/// set smaller, so that it fits.
///
/// Model: first fit in order; a block moves on with all that leads to it. `gap_scale` shrinks the gaps.
std::vector<Scene> pages_of(const std::vector<Block>& blocks, Paper paper, const Foot& foot,
                            double gap_scale = 1.0);

}  // namespace shimwright::report
