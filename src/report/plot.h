#pragma once
#include <optional>
#include <string>
#include <vector>

#include "report/scene.h"

namespace shimwright::report {

/// One line of a plot, in the units of its axes. It is named at its end, not in a legend.
struct Series {
  std::string name;       // empty: not named
  std::vector<double> x;  // ascending
  std::vector<double> y;  // (as x)
  std::vector<bool>
      dotted;  // (as x) or empty: the piece up to this point left the model's range, drawn as dots
  Stroke stroke;
  bool markers = false;  // a small circle at each point
};

/// A tint between two lines, with its own name.
struct Band {
  std::string name;
  std::vector<double> x, low, high;  // (all as x)
  Token token = Token::Steel;
  double opacity = 0.14;
};

struct Axis {
  std::string title;  // with its unit, "shaft speed [m/s]"
  std::optional<double> min, max;
  bool log = false;
  bool magnitudes = false;  // tick labels without sign: both strokes are positive, up and down from one zero
};

/// A mark with words at one place: an onset, a limit, a target.
struct Mark {
  double x = 0, y = 0;
  std::string text;
  Token token = Token::Steel;
};

struct Plot {
  std::string title;
  std::string caption;  // one sentence, what to see
  Axis x, y;
  std::vector<Band> bands;
  std::vector<Series> series;
  std::vector<Mark> marks;
  double width = 420, height = 260;  // [pt]
};

/// The plot as a drawing. Ticks at 1-2-5, zero line in ink, faint grid, names at the ends of lines pushed
/// apart so that none covers another. Pieces with a value that is not finite are left out.
Scene plot_scene(const Plot& plot);

/// Ticks at 1, 2 or 5 times a power of ten that cover [min, max] with about `wanted` steps.
std::vector<double> ticks_125(double min, double max, int wanted);

/// Decades with 1-2-5 inside, for min > 0.
std::vector<double> log_ticks(double min, double max);

/// A number at a tick, with just the digits that its step needs and U+2212 for minus.
std::string tick_text(double value, double step);

}  // namespace shimwright::report
