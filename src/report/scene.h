#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "report/theme.h"

namespace shimwright::report {

struct Point {
  double x = 0.0, y = 0.0;  // [pt], y downwards
};

enum class Dash { Solid, Long, Short, Dots, Chain };
enum class Anchor { Start, Middle, End };
enum class Weight { Regular, Semibold };

struct Stroke {
  Token token = Token::Ink;
  double width = kThin;  // [pt]
  Dash dash = Dash::Solid;
  double opacity = 1.0;
};

struct Hatch {
  double angle = 45.0;   // [degree], turned for neighbours
  double spacing = 3.0;  // [pt]
  double width = 0.35;   // [pt]
};

struct Fill {
  Token token = Token::Ink;
  double opacity = 1.0;
  std::optional<Hatch> hatch;  // lines instead of a flat tint
};

struct Polyline {
  std::vector<Point> points;
  bool closed = false;
  std::optional<Stroke> stroke = Stroke{};
  std::optional<Fill> fill;
};

struct Circle {
  Point center;
  double radius = 1.0;
  std::optional<Stroke> stroke = Stroke{};
  std::optional<Fill> fill;
};

/// One line of text; the point is on its baseline.
struct Label {
  Point at;
  std::string text;  // UTF-8
  double size = kSmall;
  Anchor anchor = Anchor::Start;
  Weight weight = Weight::Regular;
  Token token = Token::Ink;
  double turn = 0.0;  // [degree], counter-clockwise
};

/// Everything up to the matching ClipEnd is cut to this box.
struct ClipBegin {
  Point min, max;
};
struct ClipEnd {};

/// Pixels, as the bytes of a PNG file that live longer than the drawing.
struct Picture {
  Point min, max;
  std::span<const unsigned char> png;
};

/// Where a reader of the PDF can jump to: by its outline, or by a Jump with the same title.
struct Bookmark {
  Point at;
  std::string title;
  int level = 0;  // 0: a chapter, 1: a section of it
};
struct Jump {
  Point min, max;  // what to press on
  std::string to;
};

using Item = std::variant<Polyline, Circle, Label, ClipBegin, ClipEnd, Picture, Bookmark, Jump>;

/// A drawing as data: one list serves PDF, PNG and SVG, and a test can look into it.
struct Scene {
  double width = 0.0, height = 0.0;  // [pt]
  std::string title;                 // one sentence, what to see
  std::string description;           // the same in words for who cannot see it
  std::vector<Item> items;

  /// What has no place on the page, because a number of it is none, is left out.
  void add(Item item);
};

Polyline line(Point from, Point to, Stroke stroke = {});
Polyline box(Point min, Point max, std::optional<Stroke> stroke, std::optional<Fill> fill = {});
Polyline arrow_head(Point tip, double direction_degrees, double size, Token token);

/// All items of `part`, moved by `offset`, appended to `scene`.
void append(Scene& scene, const Scene& part, Point offset);

/// Real text, colours as custom properties with the light values as fallback: reads well inline in the HTML
/// page and as a file of its own (`standalone` adds the XML head and the light paper). `id_prefix` keeps the
/// ids of several drawings on one page apart; empty: it follows from the content.
std::string to_svg(const Scene& scene, bool standalone, const std::string& id_prefix = "");

}  // namespace shimwright::report
