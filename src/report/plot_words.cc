#include "report/plot_words.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "report/text_metrics.h"

namespace shimwright::report::internal {
namespace {

/// How many lines run through the box, a heavy one counting as ten thin ones.
int lines_under(const Crowd& crowd, const TextBox& box, std::size_t without) {
  int n = 0;
  for (std::size_t k = 0; k < crowd.lines.size(); ++k) {
    if (k == without) continue;
    const PaperLine& line = crowd.lines[k];
    if (std::ranges::any_of(line.points, [&](Point p) { return box.holds(p); })) n += line.heavy ? 10 : 1;
  }
  return n;
}

bool is_free(const Crowd& crowd, const TextBox& box) {
  return box.inside(crowd.frame) &&
         std::ranges::none_of(crowd.taken, [&](const TextBox& other) { return other.touches(box); });
}

constexpr std::size_t kAll = static_cast<std::size_t>(-1);

}  // namespace

TextBox words_beside(const Crowd& crowd, Point at, const std::string& text) {
  const double wide = text_width(text, kSmall);
  // beside it on either side, or over and under it where neither has room
  const double last = std::max(crowd.frame.min.x + 2, crowd.frame.max.x - wide - 2);
  const double middle = std::clamp(at.x - wide / 2, crowd.frame.min.x + 2, last);
  std::optional<TextBox> best;
  double least = 0;
  for (const double dy : {-7.0, 13.0, -20.0, 26.0, -33.0, 39.0, -46.0, 52.0})
    for (const double x : {at.x + 6, at.x - 6 - wide, middle}) {
      const TextBox box{{x, at.y + dy - kSmall}, {x + wide, at.y + dy + 2.5}};
      if (!is_free(crowd, box)) continue;
      // five points away or one line under
      const double cost = lines_under(crowd, box, kAll) + 0.2 * std::abs(dy);
      if (best && cost >= least) continue;
      best = box;
      least = cost;
    }
  return best.value_or(TextBox{{middle, at.y - 7 - kSmall}, {middle + wide, at.y - 4.5}});
}

TextBox words_on_loop(const Crowd& crowd, std::size_t own, const std::string& text) {
  const double wide = text_width(text, kSmall);
  const std::vector<Point>& loop = crowd.lines[own].points;
  const double middle = 0.5 * (crowd.frame.min.x + crowd.frame.max.x);
  const double across = crowd.frame.max.x - crowd.frame.min.x;
  const std::size_t step = std::max<std::size_t>(1, loop.size() / 48);
  TextBox best{};
  std::optional<double> least;
  for (std::size_t i = 0; i < loop.size(); i += step) {
    const Point p = loop[i];
    const Point next = loop[(i + step) % loop.size()];
    const TextBox box{{p.x - wide / 2, p.y - kSmall / 2 - 1}, {p.x + wide / 2, p.y + kSmall / 2 + 1}};
    if (!is_free(crowd, box)) continue;
    const double steep = std::abs(next.y - p.y) / std::max(1.0, std::abs(next.x - p.x));
    const double cost = 6.0 * lines_under(crowd, box, own) + 4.0 * std::min(steep, 10.0) +
                        3.0 * std::abs(p.x - middle) / across;
    if (least && cost >= *least) continue;
    best = box;
    least = cost;
  }
  return best;
}

}  // namespace shimwright::report::internal
