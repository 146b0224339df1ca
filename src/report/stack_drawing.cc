#include "report/drawings.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "report/spread.h"
#include "report/text_metrics.h"

namespace shimwright::report {
namespace {

/// From the valve's metres to points on paper. The axis is the left edge of the section.
struct Section {
  double axis = 0.0;         // x of the axis [pt]
  double clamp_plane = 0.0;  // y of z = 0 [pt]
  double radial = 1.0;       // [pt/m]
  double axial = 1.0;        // [pt/m], radial times the exaggeration

  Point at(double r, double z) const { return {axis + radial * r, clamp_plane - axial * z}; }
};

const document::DiscShape* shape_of(const document::StackShape* shape, int number) {
  if (!shape) return nullptr;
  for (const document::DiscShape& d : shape->discs)
    if (d.number == number) return &d;
  return nullptr;
}

double top_of(const document::StackGeometry& g) {
  double top = g.height;
  for (const document::DiscDrawing& d : g.discs) top = std::max(top, d.height + d.thickness);
  return top + g.float_travel;
}

double highest_lift(const document::StackShape* bent) {
  double lift = 0.0;
  if (bent)
    for (const document::DiscShape& d : bent->discs)
      for (const double h : d.height) lift = std::max(lift, h);
  return lift;
}

double outermost(const document::StackGeometry& g) {
  double r = std::max(g.seat_radius * 1.06, g.pocket_outer_radius);
  for (const document::DiscDrawing& d : g.discs) r = std::max(r, d.outer_radius);
  return r;
}

constexpr double kBodyDepth = 34.0;  // of piston drawn under the clamp plane [pt]
constexpr double kWasherHeight = 16.0;

/// The post, the piston with its pocket and seat, and the washer that the discs bend over.
void draw_body(Scene& scene, const Section& s, const document::StackGeometry& g) {
  const Stroke outline{Token::Ink, kOutline, Dash::Solid, 1};
  const double bottom = s.clamp_plane + kBodyDepth;
  const double outer = outermost(g) * 1.02;
  const double seat_width = 0.035 * g.seat_radius;
  const double floor = s.clamp_plane + 22.0;
  const auto x = [&](double r) { return s.axis + s.radial * r; };
  const double seat_top = s.at(0, g.seat_height).y;
  const double relief = std::max(seat_top, s.clamp_plane) + 12.0;

  // boss, pocket floor, seat land, and the fall outside of it, as one outline
  const double pocket_in = std::max(g.pocket_inner_radius, g.clamp_radius);
  const double pocket_out =
      std::max(std::min(g.pocket_outer_radius, g.seat_radius - seat_width / 2), pocket_in);
  Polyline piston{{{x(g.bore_radius), s.clamp_plane},
                   {x(g.clamp_radius), s.clamp_plane},
                   {x(pocket_in), s.clamp_plane + 3},
                   {x(pocket_in), floor},
                   {x(pocket_out), floor},
                   {x(pocket_out), seat_top},
                   {x(g.seat_radius + seat_width / 2), seat_top},
                   {x(g.seat_radius + seat_width / 2), relief},
                   {x(outer), relief},
                   {x(outer), bottom},
                   {x(g.bore_radius), bottom}},
                  true,
                  outline,
                  Fill{Token::Steel, 1.0, Hatch{45, 4.0, 0.35}}};
  scene.add(piston);

  // the post runs through, with its chain-dotted centre line
  const double top = s.at(0, top_of(g)).y - kWasherHeight - 8;
  scene.add(Polyline{{{s.axis, top}, {x(g.bore_radius), top}, {x(g.bore_radius), bottom}, {s.axis, bottom}},
                     false,
                     outline,
                     Fill{Token::Steel, 1.0, Hatch{-45, 4.0, 0.35}}});
  scene.add(line({s.axis, top - 8}, {s.axis, bottom + 8}, Stroke{Token::Ink, kThin / 2, Dash::Chain, 1}));

  const double washer = s.at(0, top_of(g)).y;
  scene.add(box({x(g.bore_radius), washer - kWasherHeight}, {x(g.clamp_radius), washer}, outline,
                Fill{Token::Steel, 1.0, Hatch{45, 3.0, 0.35}}));
}

/// A disc as a filled thin part; bent when there is a shape, flat as piled otherwise.
Polyline disc_outline(const Section& s, const document::DiscDrawing& d, const document::DiscShape* shape) {
  Polyline p{{}, true, Stroke{Token::Paper, 0.5, Dash::Solid, 1}, Fill{Token::Ink, 0.85, {}}};
  if (!shape || shape->radius.size() < 2) {
    p.points = {s.at(d.bore_radius, d.height), s.at(d.outer_radius, d.height),
                s.at(d.outer_radius, d.height + d.thickness), s.at(d.bore_radius, d.height + d.thickness)};
    return p;
  }
  const double first = shape->radius.front(), start = shape->height.front();
  if (d.bore_radius < first) p.points.push_back(s.at(d.bore_radius, start));
  for (std::size_t i = 0; i < shape->radius.size(); ++i)
    p.points.push_back(s.at(shape->radius[i], shape->height[i]));
  for (std::size_t i = shape->radius.size(); i-- > 0;)
    p.points.push_back(s.at(shape->radius[i], shape->height[i] + d.thickness));
  if (d.bore_radius < first) p.points.push_back(s.at(d.bore_radius, start + d.thickness));
  return p;
}

/// Tint by stress: the harder a piece of disc works, the darker it is, from a third to full.
void draw_stress(Scene& scene, const Section& s, const document::DiscDrawing& d,
                 const document::DiscShape& shape, double highest) {
  if (shape.stress.size() != shape.radius.size() || highest <= 0) return;
  for (std::size_t i = 0; i + 1 < shape.radius.size(); ++i) {
    const double share = 0.5 * (shape.stress[i] + shape.stress[i + 1]) / highest;
    Polyline piece{{s.at(shape.radius[i], shape.height[i]), s.at(shape.radius[i + 1], shape.height[i + 1]),
                    s.at(shape.radius[i + 1], shape.height[i + 1] + d.thickness),
                    s.at(shape.radius[i], shape.height[i] + d.thickness)},
                   true,
                   std::nullopt,
                   Fill{Token::Ink, std::clamp(share, 0.0, 1.0) * 0.6, {}}};
    scene.add(piece);
  }
}

double highest_stress(const document::StackShape& shape) {
  double highest = 0.0;
  for (const document::DiscShape& d : shape.discs)
    for (const double stress : d.stress) highest = std::max(highest, stress);
  return highest;
}

void draw_discs(Scene& scene, const Section& s, const document::StackResult& stack,
                const document::StackShape* bent) {
  const double highest = bent ? highest_stress(*bent) : 0.0;
  for (const document::DiscDrawing& d : stack.geometry.discs) {
    if (!bent) {
      scene.add(disc_outline(s, d, nullptr));
      continue;
    }
    if (bent->pressure <= 0) {  // at rest on a raised seat: nothing to compare it with
      scene.add(disc_outline(s, d, shape_of(bent, d.number)));
      continue;
    }
    Polyline ghost = disc_outline(s, d, nullptr);
    ghost.fill.reset();
    ghost.stroke = Stroke{Token::Line, 0.4, Dash::Solid, 0.8};
    scene.add(ghost);
    const document::DiscShape* shape = shape_of(bent, d.number);
    Polyline now = disc_outline(s, d, shape);
    if (shape && !shape->stress.empty()) {
      now.fill->opacity = 0.3;
      now.stroke = Stroke{Token::Ink, 0.35, Dash::Solid, 1};
      scene.add(now);
      draw_stress(scene, s, d, *shape, highest);
    } else {
      scene.add(now);
    }
  }
}

double height_at(const Section& s, const document::StackGeometry& g, const document::StackShape* bent,
                 int number, double r) {
  const document::DiscDrawing& d = g.discs[static_cast<std::size_t>(number - 1)];
  const document::DiscShape* shape = shape_of(bent, number);
  double z = d.height;
  if (shape && !shape->radius.empty()) {
    std::size_t i = 0;
    while (i + 1 < shape->radius.size() && shape->radius[i + 1] < r) ++i;
    z = shape->height[std::min(i + 1, shape->radius.size() - 1)];
  }
  return s.at(r, z).y;
}

/// Small copper ticks where a contact carries more than a hundredth of the largest force.
void draw_contacts(Scene& scene, const Section& s, const document::StackGeometry& g,
                   const StackDrawingOptions& options) {
  if (!options.point) return;
  double largest = 0.0;
  for (const document::ContactForce& c : options.point->contacts) largest = std::max(largest, c.force);
  const int n = int(g.discs.size());
  for (const document::ContactForce& c : options.point->contacts) {
    if (c.force < 0.01 * largest || c.upper < 1 || c.upper > n) continue;
    const Point p{s.axis + s.radial * c.radius, height_at(s, g, options.bent, c.upper, c.radius)};
    scene.add(line({p.x, p.y - 3.5}, {p.x, p.y + 3.5}, Stroke{Token::Copper, 1.6, Dash::Solid, 1}));
  }
}

void draw_flow(Scene& scene, const Section& s, const document::StackGeometry& g) {
  const double r = 0.5 * (std::max(g.pocket_inner_radius, g.clamp_radius) + g.pocket_outer_radius);
  const double x = s.axis + s.radial * r;
  const double y = s.clamp_plane + 20;
  scene.add(line({x, y}, {x, y - 10}, Stroke{Token::Steel, 1.6, Dash::Solid, 1}));
  scene.add(arrow_head({x, y - 15}, 90, 6, Token::Steel));
}

struct Tag {
  Point from;  // at the rim
  std::string text;
  bool worst = false;
};

std::string tag_text(const document::StackGeometry& g, const document::DiscGroup& group, int worst_disc) {
  const auto last = static_cast<std::size_t>(group.first + group.count - 1);
  bool idle = true;
  for (std::size_t i = static_cast<std::size_t>(group.first - 1); i < std::min(last, g.discs.size()); ++i)
    idle = idle && !g.discs[i].carries;
  std::string text = group.label;
  if (worst_disc >= group.first && worst_disc <= int(last)) text += ", highest stress";
  if (idle) text += ", no load";
  return text;
}

int worst_disc(const StackDrawingOptions& options) {
  return options.point ? options.point->worst_disc : 0;
}

std::vector<Tag> tags_of(const Section& s, const document::StackGeometry& g,
                         const StackDrawingOptions& options) {
  std::vector<Tag> tags;
  for (const document::DiscGroup& group : g.groups) {
    const auto first = static_cast<std::size_t>(group.first - 1);
    const auto last = first + static_cast<std::size_t>(group.count) - 1;
    if (last >= g.discs.size()) continue;
    const document::DiscDrawing& d = g.discs[(first + last) / 2];
    const document::DiscShape* shape = shape_of(options.bent, d.number);
    const double z = (shape && !shape->height.empty() ? shape->height.back() : d.height) + d.thickness / 2;
    const int worst = worst_disc(options);
    tags.push_back(
        {s.at(d.outer_radius, z), tag_text(g, group, worst), worst >= group.first && worst <= int(last) + 1});
  }
  return tags;
}

/// Labels at the right, one a group, with leaders that do not cross.
void draw_labels(Scene& scene, const Section& s, const document::StackGeometry& g,
                 const StackDrawingOptions& options, double label_x, double bottom) {
  const std::vector<Tag> tags = tags_of(s, g, options);
  // in the order of the stack, whatever the bend does to the rims
  std::vector<double> wanted;
  for (const Tag& tag : tags)
    wanted.push_back(wanted.empty() ? tag.from.y : std::min(tag.from.y, wanted.back() - 0.01));
  const auto places = spread(wanted, kSmall + 3.0, 12.0, bottom);
  const double elbow = label_x - 10;
  for (std::size_t i = 0; i < tags.size(); ++i) {
    scene.add(Polyline{{{tags[i].from.x + 2, tags[i].from.y}, {elbow, places[i]}, {label_x - 3, places[i]}},
                       false,
                       Stroke{Token::Steel, 0.4, Dash::Solid, 1},
                       {}});
    scene.add(Label{{label_x, places[i] + 3},
                    tags[i].text,
                    kSmall,
                    Anchor::Start,
                    tags[i].worst ? Weight::Semibold : Weight::Regular,
                    Token::Ink,
                    0});
  }
}

std::string note_of(const document::StackGeometry& g, const StackDrawingOptions& options, int factor) {
  std::string note = fmt::format("Half section, radius to scale; thickness and lift \xC3\x97{}.", factor);
  if (g.float_travel > 0)
    note += " The gap under the washer is the float, " +
            units::format_thickness(g.float_travel, options.system) + ".";
  if (options.bent && options.bent->pressure > 0)
    note +=
        fmt::format(" At {}: a darker disc has more stress. Thin line: at rest.",
                    units::format(options.bent->pressure, units::Kind::PressureDifference, options.system));
  return note;
}

}  // namespace

int exaggeration(const document::StackGeometry& geometry, double extra_lift, double points_per_metre,
                 double height) {
  const double tall = std::max(top_of(geometry), top_of(geometry) + extra_lift - geometry.height);
  int factor = 1;
  while (factor < 32 && 2 * factor * points_per_metre * tall <= height) factor *= 2;
  return factor;
}

Scene stack_scene(const document::StackResult& stack, const StackDrawingOptions& options) {
  const document::StackGeometry& g = stack.geometry;
  SW_CHECK(!g.discs.empty());
  double label_width = 0.0;
  for (const document::DiscGroup& group : g.groups)
    label_width =
        std::max(label_width, text_width(tag_text(g, group, worst_disc(options)), kSmall, Weight::Semibold));

  Section s;
  s.axis = 12.0;
  s.radial = (options.width - s.axis - label_width - 26.0) / (outermost(g) * 1.02);
  const double lift = std::max(highest_lift(options.bent), std::max(0.0, g.seat_height));
  const double room = options.height - kBodyDepth - kWasherHeight - 44.0;
  const int factor = exaggeration(g, lift, s.radial, room);
  s.axial = s.radial * factor;
  const double above = s.axial * std::max(top_of(g), lift + g.discs.front().thickness) + kWasherHeight + 18.0;
  // never lower than its labels need, one to a group
  constexpr double kLabelsFrom = 12.0, kLabelPitch = kSmall + 3.0;
  const double label_column = kLabelsFrom + kLabelPitch * double(g.groups.size());
  s.clamp_plane = std::max(above, label_column - kBodyDepth);
  const double bottom = s.clamp_plane + kBodyDepth;

  Scene scene{options.width, bottom + 26.0, stack.name, "", {}};
  draw_body(scene, s, g);
  draw_flow(scene, s, g);
  draw_discs(scene, s, stack, options.bent);
  draw_contacts(scene, s, g, options);
  draw_labels(scene, s, g, options, options.width - label_width, bottom);

  const std::string note = note_of(g, options, factor);
  scene.description = note;
  double y = bottom + 20.0;
  for (const std::string& one : wrapped(note, options.width, kSmall)) {
    scene.add(Label{{0, y}, one, kSmall, Anchor::Start, Weight::Regular, Token::Steel, 0});
    y += 1.3 * kSmall;
  }
  scene.height = y - 0.8 * kSmall;
  return scene;
}

}  // namespace shimwright::report
