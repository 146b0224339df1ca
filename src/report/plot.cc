#include "report/plot.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/check.h"
#include "report/spread.h"
#include "report/text_metrics.h"

namespace shimwright::report {
namespace {

struct Range {
  double min = std::numeric_limits<double>::infinity();
  double max = -std::numeric_limits<double>::infinity();

  void cover(double value) {
    if (!std::isfinite(value)) return;
    min = std::min(min, value);
    max = std::max(max, value);
  }
};

/// The stretch of one axis, from its data or as stated; never empty.
Range range_of(const Plot& plot, bool along_x) {
  Range r;
  for (const Series& s : plot.series)
    for (const double v : along_x ? s.x : s.y) r.cover(v);
  for (const Band& b : plot.bands) {
    for (const double v : along_x ? b.x : b.low) r.cover(v);
    for (const double v : along_x ? b.x : b.high) r.cover(v);
  }
  const Axis& axis = along_x ? plot.x : plot.y;
  if (!axis.log && !along_x) r.cover(0.0);
  if (r.min > r.max) r = {0.0, 1.0};
  // a little air above and below the lines, none along x
  if (!along_x && !axis.log) {
    const double air = 0.06 * (r.max - r.min);
    if (r.max > 0) r.max += air;
    if (r.min < 0) r.min -= air;
  }
  if (axis.min) r.min = *axis.min;
  if (axis.max) r.max = *axis.max;
  if (!(r.max > r.min)) r.max = r.min + 1.0;
  return r;
}

/// From data to points on paper.
struct Frame {
  Point min, max;  // inner box
  Range x, y;
  bool log_x = false, log_y = false;

  static double share(double v, const Range& r, bool log) {
    return log ? std::log(v / r.min) / std::log(r.max / r.min) : (v - r.min) / (r.max - r.min);
  }
  double px(double v) const { return min.x + share(v, x, log_x) * (max.x - min.x); }
  double py(double v) const { return max.y - share(v, y, log_y) * (max.y - min.y); }
};

/// Ticks `pitch` points apart or somewhat more.
std::vector<double> ticks_of(const Axis& axis, const Range& r, double length, double pitch) {
  return axis.log ? log_ticks(r.min, r.max) : ticks_125(r.min, r.max, std::max(3, int(length / pitch)));
}

double step_of(const Axis& axis, const std::vector<double>& ticks, double tick) {
  if (axis.log || ticks.size() < 2) return std::abs(tick) > 0 ? tick : 1.0;
  return ticks[1] - ticks[0];
}

std::string label_of(const Axis& axis, const std::vector<double>& ticks, double tick) {
  return tick_text(axis.magnitudes ? std::abs(tick) : tick, step_of(axis, ticks, tick));
}

void draw_grid(Scene& scene, const Plot& plot, const Frame& f, const std::vector<double>& x_ticks,
               const std::vector<double>& y_ticks) {
  const Stroke grid{Token::Line, 0.3, Dash::Solid, 0.4};
  for (const double t : x_ticks) {
    scene.add(line({f.px(t), f.min.y}, {f.px(t), f.max.y}, grid));
    scene.add(Label{{f.px(t), f.max.y + 11},
                    label_of(plot.x, x_ticks, t),
                    kSmall,
                    Anchor::Middle,
                    Weight::Regular,
                    Token::Steel,
                    0});
  }
  for (const double t : y_ticks) {
    scene.add(line({f.min.x, f.py(t)}, {f.max.x, f.py(t)}, grid));
    scene.add(Label{{f.min.x - 4, f.py(t) + 3},
                    label_of(plot.y, y_ticks, t),
                    kSmall,
                    Anchor::End,
                    Weight::Regular,
                    Token::Steel,
                    0});
  }
  if (!f.log_y && f.y.min <= 0 && f.y.max >= 0)
    scene.add(line({f.min.x, f.py(0)}, {f.max.x, f.py(0)}, Stroke{Token::Ink, 0.8, Dash::Solid, 1}));
  scene.add(line({f.min.x, f.min.y}, {f.min.x, f.max.y}, Stroke{Token::Ink, 0.8, Dash::Solid, 1}));
}

void draw_bands(Scene& scene, const Plot& plot, const Frame& f) {
  for (const Band& band : plot.bands) {
    Polyline area{{}, true, std::nullopt, Fill{band.token, band.opacity, {}}};
    for (std::size_t i = 0; i < band.x.size(); ++i)
      area.points.push_back({f.px(band.x[i]), f.py(band.high[i])});
    for (std::size_t i = band.x.size(); i-- > 0;) area.points.push_back({f.px(band.x[i]), f.py(band.low[i])});
    scene.add(area);
  }
}

/// The line in runs of one manner: whole where the model holds, dots where it left its range, nothing where
/// there is no number.
void draw_series(Scene& scene, const Series& s, const Frame& f) {
  SW_CHECK(s.x.size() == s.y.size(), s.x.size(), s.y.size());
  const auto is_dotted = [&](std::size_t i) { return i < s.dotted.size() && s.dotted[i]; };
  const auto is_drawn = [&](std::size_t i) {
    return std::isfinite(s.x[i]) && std::isfinite(s.y[i]) && !(f.log_x && s.x[i] <= 0) &&
           !(f.log_y && s.y[i] <= 0);
  };
  std::size_t i = 0;
  while (i + 1 < s.x.size()) {
    if (!is_drawn(i) || !is_drawn(i + 1)) {
      ++i;
      continue;
    }
    const bool dotted = is_dotted(i + 1);
    Polyline run{{{f.px(s.x[i]), f.py(s.y[i])}}, false, s.stroke, {}};
    while (i + 1 < s.x.size() && is_drawn(i + 1) && is_dotted(i + 1) == dotted) {
      ++i;
      run.points.push_back({f.px(s.x[i]), f.py(s.y[i])});
    }
    if (dotted) run.stroke->dash = Dash::Dots;
    scene.add(run);
  }
  if (s.markers)
    for (std::size_t k = 0; k < s.x.size(); ++k)
      if (is_drawn(k))
        scene.add(Circle{{f.px(s.x[k]), f.py(s.y[k])},
                         1.8,
                         Stroke{s.stroke.token, 0.8, Dash::Solid, 1},
                         Fill{Token::Paper, 1, {}}});
}

struct EndName {
  double wanted, y;  // where the line ends, where the name stands
  std::string text;
  Token token;
};

std::vector<EndName> end_names(const Plot& plot, const Frame& f) {
  std::vector<EndName> names;
  std::vector<double> wanted;
  const auto add = [&](const std::string& text, double y, Token token) {
    if (text.empty() || !std::isfinite(y)) return;
    wanted.push_back(f.py(std::clamp(y, f.y.min, f.y.max)));
    names.push_back({wanted.back(), 0.0, text, token});
  };
  for (const Series& s : plot.series)
    if (!s.y.empty()) add(s.name, s.y.back(), s.stroke.token);
  for (const Band& b : plot.bands)
    if (!b.x.empty()) add(b.name, 0.5 * (b.low.back() + b.high.back()), b.token);
  const auto places = spread(wanted, kSmall + 2.0, f.min.y, f.max.y);
  for (std::size_t i = 0; i < names.size(); ++i) names[i].y = places[i];
  return names;
}

void draw_names(Scene& scene, const std::vector<EndName>& names, const Frame& f) {
  for (const EndName& n : names) {
    if (std::abs(n.y - n.wanted) > 1.5)
      scene.add(line({f.max.x + 1, n.wanted}, {f.max.x + 6, n.y}, Stroke{n.token, 0.4, Dash::Solid, 1}));
    scene.add(Label{{f.max.x + 8, n.y + 3}, n.text, kSmall, Anchor::Start, Weight::Regular, n.token, 0});
  }
}

struct TextBox {
  Point min, max;

  bool holds(Point p) const { return p.x > min.x && p.x < max.x && p.y > min.y && p.y < max.y; }
  bool touches(const TextBox& b) const {
    return min.x < b.max.x && b.min.x < max.x && min.y < b.max.y && b.min.y < max.y;
  }
};

/// How many lines run through the box, a heavy one counting as ten thin ones.
int lines_under(const Plot& plot, const Frame& f, const TextBox& box) {
  int n = 0;
  for (const Series& s : plot.series)
    for (std::size_t i = 0; i < s.x.size(); ++i)
      if (box.holds({f.px(s.x[i]), f.py(s.y[i])})) {
        n += s.stroke.width > 1.0 ? 10 : 1;
        break;
      }
  return n;
}

/// Where the words of a mark stand: near it, inside the frame, clear of other words, on as few lines as can
/// be.
TextBox place_words(const Plot& plot, const Frame& f, Point at, const std::string& text,
                    const std::vector<TextBox>& taken) {
  const double wide = text_width(text, kSmall);
  std::optional<TextBox> best;
  double least = 0;
  for (const double dy : {-7.0, 13.0, -20.0, 26.0, -33.0, 39.0})
    for (const bool left : {false, true}) {
      const double x = left ? at.x - 6 - wide : at.x + 6;
      const TextBox box{{x, at.y + dy - kSmall}, {x + wide, at.y + dy + 2.5}};
      if (box.min.x < f.min.x || box.max.x > f.max.x || box.min.y < f.min.y || box.max.y > f.max.y) continue;
      if (std::any_of(taken.begin(), taken.end(), [&](const TextBox& b) { return b.touches(box); })) continue;
      const double cost =
          lines_under(plot, f, box) + 0.2 * std::abs(dy);  // five points away or one line under
      if (best && cost >= least) continue;
      best = box;
      least = cost;
    }
  return best.value_or(TextBox{{at.x + 6, at.y - 7 - kSmall}, {at.x + 6 + wide, at.y - 4.5}});
}

void draw_marks(Scene& scene, const Plot& plot, const Frame& f) {
  std::vector<TextBox> taken;
  for (const Mark& m : plot.marks) {
    if (m.x < f.x.min || m.x > f.x.max || m.y < f.y.min || m.y > f.y.max) continue;
    const Point at{f.px(m.x), f.py(m.y)};
    taken.push_back(place_words(plot, f, at, m.text, taken));
    const TextBox& words = taken.back();
    // paper behind the words, so that no thin line runs through them
    scene.add(box({words.min.x - 1, words.min.y}, {words.max.x + 1, words.max.y}, std::nullopt,
                  Fill{Token::Paper, 0.85, {}}));
    scene.add(
        Label{{words.min.x, words.max.y - 2.5}, m.text, kSmall, Anchor::Start, Weight::Regular, m.token, 0});
    scene.add(Circle{at, 2.4, Stroke{m.token, 1.0, Dash::Solid, 1}, Fill{Token::Paper, 1, {}}});
  }
}

}  // namespace

Scene plot_scene(const Plot& plot) {
  Scene scene{plot.width, plot.height, plot.title, plot.caption, {}};
  Frame f{{}, {}, range_of(plot, true), range_of(plot, false), plot.x.log, plot.y.log};

  // margins follow from the widest label on each side
  double right = 8.0;
  for (const Series& s : plot.series)
    if (!s.name.empty()) right = std::max(right, text_width(s.name, kSmall) + 12);
  for (const Band& b : plot.bands)
    if (!b.name.empty()) right = std::max(right, text_width(b.name, kSmall) + 12);
  f.min = {8, plot.title.empty() ? 14.0 : 30.0};
  f.max = {plot.width - right, plot.height - 28};
  const auto y_ticks = ticks_of(plot.y, f.y, f.max.y - f.min.y, 24.0);
  double left = 0;
  for (const double t : y_ticks) left = std::max(left, text_width(label_of(plot.y, y_ticks, t), kSmall));
  f.min.x = left + 8;
  const auto x_ticks = ticks_of(plot.x, f.x, f.max.x - f.min.x, 42.0);

  // frame, then what lies behind, then the lines, then the words
  draw_grid(scene, plot, f, x_ticks, y_ticks);
  scene.add(ClipBegin{{f.min.x, f.min.y - 2}, {f.max.x + 1, f.max.y + 2}});
  draw_bands(scene, plot, f);
  for (const Series& s : plot.series) draw_series(scene, s, f);
  scene.add(ClipEnd{});
  draw_marks(scene, plot, f);
  draw_names(scene, end_names(plot, f), f);
  if (!plot.title.empty())
    scene.add(Label{{0, 12}, plot.title, kBody, Anchor::Start, Weight::Semibold, Token::Ink, 0});
  scene.add(Label{{0, f.min.y - 5}, plot.y.title, kSmall, Anchor::Start, Weight::Regular, Token::Steel, 0});
  scene.add(
      Label{{f.max.x, plot.height - 5}, plot.x.title, kSmall, Anchor::End, Weight::Regular, Token::Steel, 0});
  return scene;
}

}  // namespace shimwright::report
