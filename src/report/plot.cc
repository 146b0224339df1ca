#include "report/plot.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/check.h"
#include "report/plot_words.h"
#include "report/spread.h"
#include "report/text_metrics.h"

namespace shimwright::report {
namespace {

using internal::Crowd;
using internal::TextBox;
using units::System;

struct Range {
  double min = std::numeric_limits<double>::infinity();
  double max = -std::numeric_limits<double>::infinity();

  void cover(double value) {
    if (!std::isfinite(value)) return;
    min = std::min(min, value);
    max = std::max(max, value);
  }
};

/// A line in the units of its axes.
struct Line {
  const document::PlotLine* from;
  std::vector<double> x, y;
};

struct Band {
  const document::PlotBand* from;
  std::vector<double> x, low, high;
};

/// A plot in the reader's units and from data to points on paper.
struct Sheet {
  const document::PlotSpec& plot;
  System system;
  PlotSize size;
  std::vector<Line> lines;
  std::vector<Band> bands;
  Range x, y;
  Point min, max;  // inner box

  double px(double v) const { return min.x + (v - x.min) / (x.max - x.min) * (max.x - min.x); }
  double py(double v) const { return max.y - (v - y.min) / (y.max - y.min) * (max.y - min.y); }
  double in_x(double si) const { return units::to_unit(si, plot.x.kind, system); }
  double in_y(double si) const { return units::to_unit(si, plot.y.kind, system); }
};

Token token_of(document::PlotInk ink) {
  static constexpr Token kInks[] = {Token::Ink,    Token::Steel,       Token::Line,
                                    Token::Copper, Token::Compression, Token::Rebound,
                                    Token::Fine,   Token::Look,        Token::Stop};
  return kInks[static_cast<std::size_t>(ink)];
}

Stroke stroke_of(const document::PlotLine& line) {
  static constexpr Dash kDashes[] = {Dash::Solid, Dash::Long, Dash::Short, Dash::Chain};
  static constexpr double kWidths[] = {1.6, 1.0, 0.6};  // heavy, plain, thin [pt]
  return {token_of(line.ink), line.behind ? 0.45 : kWidths[static_cast<std::size_t>(line.weight)],
          kDashes[static_cast<std::size_t>(line.dash)], line.behind ? 0.5 : 1.0};
}

std::vector<double> in_units_of(const std::vector<double>& si, units::Kind kind, System system) {
  std::vector<double> values;
  values.reserve(si.size());
  for (const double v : si) values.push_back(units::to_unit(v, kind, system));
  return values;
}

std::string title_of(const document::PlotAxis& axis, System system) {
  const std::string unit = units::unit_name(axis.kind, system, axis.reference);
  return unit.empty() ? axis.title : axis.title + " [" + unit + "]";
}

Range range_of(const Sheet& sheet, bool along_x) {
  Range r;
  for (const Line& line : sheet.lines)
    for (const double v : along_x ? line.x : line.y) r.cover(v);
  for (const Band& band : sheet.bands)
    for (const auto* values : {along_x ? &band.x : &band.low, along_x ? &band.x : &band.high})
      for (const double v : *values) r.cover(v);
  if ((along_x ? sheet.plot.x : sheet.plot.y).zero) r.cover(0.0);
  if (r.min > r.max) r = {0.0, 1.0};
  // a little air above and below the lines, none along x and none under a zero at the edge
  if (!along_x) {
    const double air = 0.06 * (r.max - r.min);
    if (r.max != 0) r.max += air;
    if (r.min != 0) r.min -= air;
  }
  if (!(r.max > r.min)) r.max = r.min + 1.0;
  return r;
}

Sheet sheet_of(const document::PlotSpec& plot, System system, PlotSize size) {
  Sheet sheet{plot, system, size, {}, {}, {}, {}, {}, {}};
  for (const document::PlotLine& line : plot.lines) {
    SW_CHECK(line.x.size() == line.y.size(), line.x.size(), line.y.size());
    if (line.spare) continue;
    sheet.lines.push_back(
        {&line, in_units_of(line.x, plot.x.kind, system), in_units_of(line.y, plot.y.kind, system)});
  }
  for (const document::PlotBand& band : plot.bands)
    sheet.bands.push_back({&band, in_units_of(band.x, plot.x.kind, system),
                           in_units_of(band.low, plot.y.kind, system),
                           in_units_of(band.high, plot.y.kind, system)});
  sheet.x = range_of(sheet, true);
  sheet.y = range_of(sheet, false);
  return sheet;
}

/// Ticks `pitch` points apart or somewhat more.
std::vector<double> ticks_of(const Range& r, double length, double pitch) {
  return ticks_125(r.min, r.max, std::max(3, int(length / pitch)));
}

std::string label_of(const document::PlotAxis& axis, const std::vector<double>& ticks, double tick) {
  const double step = ticks.size() < 2 ? (std::abs(tick) > 0 ? tick : 1.0) : ticks[1] - ticks[0];
  return tick_text(axis.magnitudes ? std::abs(tick) : tick, step);
}

Label small_label(Point at, std::string text, Anchor anchor, Token token) {
  return {at, std::move(text), kSmall, anchor, Weight::Regular, token, 0};
}

void draw_grid(Scene& scene, const Sheet& s, const std::vector<double>& x_ticks,
               const std::vector<double>& y_ticks) {
  const Stroke grid{Token::Line, 0.3, Dash::Solid, 0.4};
  const Stroke edge{Token::Ink, 0.8, Dash::Solid, 1};
  for (const double t : x_ticks) {
    scene.add(line({s.px(t), s.min.y}, {s.px(t), s.max.y}, grid));
    scene.add(
        small_label({s.px(t), s.max.y + 11}, label_of(s.plot.x, x_ticks, t), Anchor::Middle, Token::Steel));
  }
  for (const double t : y_ticks) {
    scene.add(line({s.min.x, s.py(t)}, {s.max.x, s.py(t)}, grid));
    scene.add(
        small_label({s.min.x - 4, s.py(t) + 3}, label_of(s.plot.y, y_ticks, t), Anchor::End, Token::Steel));
  }
  if (s.y.min <= 0 && s.y.max >= 0) scene.add(line({s.min.x, s.py(0)}, {s.max.x, s.py(0)}, edge));
  scene.add(line({s.min.x, s.min.y}, {s.min.x, s.max.y}, edge));
}

void draw_bands(Scene& scene, const Sheet& s) {
  for (const Band& band : s.bands) {
    Polyline area{{}, true, std::nullopt, Fill{token_of(band.from->ink), 0.1, {}}};
    for (std::size_t i = 0; i < band.x.size(); ++i)
      area.points.push_back({s.px(band.x[i]), s.py(band.high[i])});
    for (std::size_t i = band.x.size(); i-- > 0;) area.points.push_back({s.px(band.x[i]), s.py(band.low[i])});
    scene.add(area);
  }
}

/// The line in runs of one manner: whole where the model holds, dots where it left its range, nothing where
/// there is no number.
void draw_line(Scene& scene, const Line& l, const Sheet& s) {
  const auto& dotted = l.from->dotted;
  const auto is_dotted = [&](std::size_t i) { return i < dotted.size() && dotted[i]; };
  const auto is_drawn = [&](std::size_t i) { return std::isfinite(l.x[i]) && std::isfinite(l.y[i]); };
  const Stroke stroke = stroke_of(*l.from);
  std::size_t i = 0;
  while (i + 1 < l.x.size()) {
    if (!is_drawn(i) || !is_drawn(i + 1)) {
      ++i;
      continue;
    }
    const bool dots = is_dotted(i + 1);
    Polyline run{{{s.px(l.x[i]), s.py(l.y[i])}}, false, stroke, {}};
    while (i + 1 < l.x.size() && is_drawn(i + 1) && is_dotted(i + 1) == dots) {
      ++i;
      run.points.push_back({s.px(l.x[i]), s.py(l.y[i])});
    }
    if (dots) run.stroke->dash = Dash::Dots;
    scene.add(run);
  }
  if (!l.from->markers) return;
  for (std::size_t k = 0; k < l.x.size(); ++k)
    if (is_drawn(k))
      scene.add(Circle{{s.px(l.x[k]), s.py(l.y[k])},
                       1.8,
                       Stroke{stroke.token, 0.8, Dash::Solid, 1},
                       Fill{Token::Paper, 1, {}}});
}

// ---- words beside the frame

/// A loop has its name on itself, a line that ends inside the frame has it there; all others beside it.
bool named_inside(const Line& l, const Range& x) {
  return l.from->loop || (!l.x.empty() && x.max - l.x.back() > 0.06 * (x.max - x.min));
}

struct EndName {
  double wanted, y;  // where the line ends, where the name is
  std::string text;
  Token token;
};

std::vector<EndName> end_names(const Sheet& s) {
  std::vector<EndName> names;
  std::vector<double> wanted;
  const auto add = [&](const std::string& text, double y, Token token) {
    if (text.empty() || !std::isfinite(y)) return;
    wanted.push_back(s.py(std::clamp(y, s.y.min, s.y.max)));
    names.push_back({wanted.back(), 0.0, text, token});
  };
  for (const Line& l : s.lines)
    if (!l.y.empty() && !named_inside(l, s.x)) add(l.from->name, l.y.back(), token_of(l.from->ink));
  for (const Band& b : s.bands)
    if (!b.x.empty()) add(b.from->name, 0.5 * (b.low.back() + b.high.back()), token_of(b.from->ink));
  const auto places = spread(wanted, kSmall + 2.0, s.min.y, s.max.y);
  for (std::size_t i = 0; i < names.size(); ++i) names[i].y = places[i];
  return names;
}

void draw_end_names(Scene& scene, const Sheet& s) {
  for (const EndName& n : end_names(s)) {
    if (std::abs(n.y - n.wanted) > 1.5)
      scene.add(line({s.max.x + 1, n.wanted}, {s.max.x + 6, n.y}, Stroke{n.token, 0.4, Dash::Solid, 1}));
    scene.add(small_label({s.max.x + 8, n.y + 3}, n.text, Anchor::Start, n.token));
  }
}

/// Room that the widest name needs on the right.
double right_margin(const Sheet& s) {
  double right = 8.0;
  const auto keep = [&](const std::string& name) {
    if (!name.empty()) right = std::max(right, text_width(name, kSmall) + 12);
  };
  for (const Line& l : s.lines)
    if (!named_inside(l, s.x)) keep(l.from->name);
  for (const Band& b : s.bands) keep(b.from->name);
  return right;
}

// ---- words inside the frame

Crowd crowd_of(const Sheet& s) {
  Crowd crowd{{s.min, s.max}, {}, {}};
  for (const Line& l : s.lines) {
    internal::PaperLine& paper = crowd.lines.emplace_back();
    paper.heavy = l.from->weight == document::PlotWeight::Heavy;
    for (std::size_t i = 0; i < l.x.size(); ++i)
      if (std::isfinite(l.x[i]) && std::isfinite(l.y[i]))
        paper.points.push_back({s.px(l.x[i]), s.py(l.y[i])});
  }
  return crowd;
}

/// Paper behind the words, so that no thin line runs through them.
void draw_words(Scene& scene, const TextBox& words, const std::string& text, Token token) {
  scene.add(box({words.min.x - 1, words.min.y}, {words.max.x + 1, words.max.y}, std::nullopt,
                Fill{Token::Paper, 0.85, {}}));
  scene.add(small_label({words.min.x, words.max.y - 2.5}, text, Anchor::Start, token));
}

void draw_rules(Scene& scene, const Sheet& s, Crowd& crowd) {
  for (const document::PlotRule& rule : s.plot.rules) {
    const double x = s.px(s.in_x(rule.x));
    if (x < s.min.x || x > s.max.x) continue;
    scene.add(line({x, s.min.y}, {x, s.max.y}, Stroke{token_of(rule.ink), 1.0, Dash::Solid, 1}));
    const double wide = text_width(rule.text, kSmall);
    const double left = x + 4 + wide > s.max.x ? x - 4 - wide : x + 4;
    const TextBox words{{left, s.max.y - 7 - kSmall}, {left + wide, s.max.y - 4.5}};
    draw_words(scene, words, rule.text, token_of(rule.ink));
    crowd.taken.push_back(words);
  }
}

void draw_marks(Scene& scene, const Sheet& s, Crowd& crowd) {
  for (const document::PlotMark& m : s.plot.marks) {
    const double x = s.in_x(m.x), y = s.in_y(m.y);
    if (x < s.x.min || x > s.x.max || y < s.y.min || y > s.y.max) continue;
    const Point at{s.px(x), s.py(y)};
    crowd.taken.push_back(internal::words_beside(crowd, at, m.text));
    draw_words(scene, crowd.taken.back(), m.text, token_of(m.ink));
    scene.add(Circle{at, 2.4, Stroke{token_of(m.ink), 1.0, Dash::Solid, 1}, Fill{Token::Paper, 1, {}}});
  }
}

void draw_inner_names(Scene& scene, const Sheet& s, Crowd& crowd) {
  for (std::size_t k = 0; k < s.lines.size(); ++k) {
    const Line& l = s.lines[k];
    if (l.from->name.empty() || crowd.lines[k].points.empty() || !named_inside(l, s.x)) continue;
    const TextBox words = l.from->loop
                              ? internal::words_on_loop(crowd, k, l.from->name)
                              : internal::words_beside(crowd, crowd.lines[k].points.back(), l.from->name);
    if (!(words.max.x > words.min.x)) continue;
    crowd.taken.push_back(words);
    draw_words(scene, words, l.from->name, token_of(l.from->ink));
  }
}

}  // namespace

Scene plot_scene(const document::PlotSpec& plot, System system, PlotSize size) {
  Scene scene{size.width, size.height, plot.title, plot.caption, {}};
  Sheet s = sheet_of(plot, system, size);

  // margins follow from the widest label on each side
  s.min = {8, plot.title.empty() ? 14.0 : 30.0};
  s.max = {size.width - right_margin(s), size.height - 28};
  const auto y_ticks = ticks_of(s.y, s.max.y - s.min.y, 24.0);
  double left = 0;
  for (const double t : y_ticks) left = std::max(left, text_width(label_of(plot.y, y_ticks, t), kSmall));
  s.min.x = left + 8;
  const auto x_ticks = ticks_of(s.x, s.max.x - s.min.x, 42.0);

  // frame, then what lies behind, then the lines, then the words
  draw_grid(scene, s, x_ticks, y_ticks);
  scene.add(ClipBegin{{s.min.x, s.min.y - 2}, {s.max.x + 1, s.max.y + 2}});
  draw_bands(scene, s);
  for (const Line& l : s.lines) draw_line(scene, l, s);
  scene.add(ClipEnd{});
  Crowd crowd = crowd_of(s);
  draw_rules(scene, s, crowd);
  draw_marks(scene, s, crowd);
  draw_inner_names(scene, s, crowd);
  draw_end_names(scene, s);
  if (!plot.title.empty())
    scene.add(Label{{0, 12}, plot.title, kBody, Anchor::Start, Weight::Semibold, Token::Ink, 0});
  scene.add(small_label({0, s.min.y - 5}, title_of(plot.y, system), Anchor::Start, Token::Steel));
  scene.add(small_label({s.max.x, size.height - 5}, title_of(plot.x, system), Anchor::End, Token::Steel));
  return scene;
}

}  // namespace shimwright::report
