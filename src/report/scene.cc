#include "report/scene.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <variant>

namespace shimwright::report {
namespace {

struct HasPlace {
  static bool at(const Point& p) { return std::isfinite(p.x) && std::isfinite(p.y); }
  bool operator()(const Polyline& line) const { return std::ranges::all_of(line.points, at); }
  bool operator()(const Circle& circle) const { return at(circle.center) && std::isfinite(circle.radius); }
  bool operator()(const Label& label) const { return at(label.at); }
  bool operator()(const ClipBegin&) const { return true; }
  bool operator()(const ClipEnd&) const { return true; }
  bool operator()(const Picture& picture) const { return at(picture.min) && at(picture.max); }
  bool operator()(const Bookmark& bookmark) const { return at(bookmark.at); }
  bool operator()(const Jump& jump) const { return at(jump.min) && at(jump.max); }
};

}  // namespace

void Scene::add(Item item) {
  if (std::visit(HasPlace{}, item)) items.push_back(std::move(item));
}

namespace {

Point moved(Point p, Point by) {
  return {p.x + by.x, p.y + by.y};
}

Item moved(Item item, Point by) {
  if (auto* polyline = std::get_if<Polyline>(&item)) {
    for (Point& p : polyline->points) p = moved(p, by);
  } else if (auto* circle = std::get_if<Circle>(&item)) {
    circle->center = moved(circle->center, by);
  } else if (auto* label = std::get_if<Label>(&item)) {
    label->at = moved(label->at, by);
  } else if (auto* clip = std::get_if<ClipBegin>(&item)) {
    clip->min = moved(clip->min, by);
    clip->max = moved(clip->max, by);
  } else if (auto* picture = std::get_if<Picture>(&item)) {
    picture->min = moved(picture->min, by);
    picture->max = moved(picture->max, by);
  } else if (auto* bookmark = std::get_if<Bookmark>(&item)) {
    bookmark->at = moved(bookmark->at, by);
  } else if (auto* jump = std::get_if<Jump>(&item)) {
    jump->min = moved(jump->min, by);
    jump->max = moved(jump->max, by);
  }
  return item;
}

}  // namespace

Polyline line(Point from, Point to, Stroke stroke) {
  return {{from, to}, false, stroke, {}};
}

Polyline box(Point min, Point max, std::optional<Stroke> stroke, std::optional<Fill> fill) {
  return {{min, {max.x, min.y}, max, {min.x, max.y}}, true, stroke, fill};
}

Polyline arrow_head(Point tip, double direction_degrees, double size, Token token) {
  const double direction = direction_degrees * std::numbers::pi / 180.0;
  const auto corner = [&](double turn) {
    const double a = direction + turn;
    return Point{tip.x - size * std::cos(a), tip.y + size * std::sin(a)};
  };
  return {{tip, corner(0.28), corner(-0.28)}, true, std::nullopt, Fill{token, 1.0, {}}};
}

void append(Scene& scene, const Scene& part, Point offset) {
  scene.items.reserve(scene.items.size() + part.items.size());
  for (const Item& item : part.items) scene.items.push_back(moved(item, offset));
}

}  // namespace shimwright::report
