#include "report/drawings.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "report/text_metrics.h"

namespace shimwright::report {
namespace {

using units::System;

constexpr double kShoulder = 18.0;     // of the damper rod drawn left of the shoulder [pt]
constexpr double kNamePitch = 12.0;    // between the names above [pt]
constexpr double kLargestHalf = 84.0;  // half height of the largest piece on paper [pt]
constexpr double kLeast = 7.0;         // half height of the least piece, over the post [pt]

/// Half heights of a piece without a stated radius: different enough to see.
double usual_radius(document::PieceShape shape) {
  switch (shape) {
    case document::PieceShape::Piston:
      return 14e-3;
    case document::PieceShape::Disc:
      return 11e-3;
    case document::PieceShape::Nut:
    case document::PieceShape::Washer:
      return 7e-3;
    case document::PieceShape::Spacer:
    case document::PieceShape::Other:
      break;
  }
  return 6e-3;
}

double radius_of(const document::LedgerLine& line) {
  return line.outer_radius > 0 ? line.outer_radius : usual_radius(line.shape);
}

Fill fill_of(document::PieceShape shape, std::size_t index) {
  if (shape == document::PieceShape::Disc) return Fill{Token::Ink, 0.8, {}};  // thin parts are filled
  return Fill{Token::Steel, 1.0,
              Hatch{index % 2 ? -45.0 : 45.0, shape == document::PieceShape::Nut ? 2.4 : 3.6, 0.35}};
}

/// A stack that slides on a collar has no height of its own on the post.
std::string name_of(const document::LedgerLine& line, System system) {
  std::string name = line.count > 1 ? fmt::format("{} \xC3\x97 {}", line.count, line.name) : line.name;
  if (line.height <= 0) return name;
  return name + ", " + units::format_thickness(line.height, system) + (line.measured ? " measured" : "");
}

/// From the post's metres to points on paper, along the axis and across it.
struct Layout {
  double along = 1.0;   // [pt/m]
  double across = 1.0;  // [pt/m]
  double axis = 0.0;    // y of the axis [pt]
  double post_half = 0.0;

  double x(double z) const { return kShoulder + along * z; }
  double half(const document::LedgerLine& line) const {
    return std::max(across * radius_of(line), post_half + kLeast - 16.0);
  }
};

double protrusion_end(const document::PostResult& post) {
  double length = post.thread ? post.thread->post_length : 0.0;
  for (const document::LedgerLine& l : post.ledger) length = std::max(length, l.to);
  return std::max(length, 1e-4);
}

/// The largest scale at which every name still ends inside the drawing, right of its leader.
Layout layout_of(const document::PostResult& post, const std::vector<std::string>& names, double width,
                 double end_words) {
  Layout at;
  at.along = (width - kShoulder - std::max(14.0, end_words + 8.0)) / protrusion_end(post);
  double largest = 1e-4;
  for (std::size_t k = 0; k < post.ledger.size(); ++k) {
    const double middle = 0.5 * (post.ledger[k].from + post.ledger[k].to);
    const double room = width - kShoulder - 5.0 - text_width(names[k], kSmall);
    if (middle > 0) at.along = std::min(at.along, std::max(room, 0.3 * width) / middle);
    largest = std::max(largest, radius_of(post.ledger[k]));
  }
  at.across = std::min(kLargestHalf / largest, at.along);
  at.post_half = std::clamp(at.across * post.major_radius, 12.0, 34.0);
  at.axis = kNamePitch * double(names.size()) + 16.0 + std::max(at.across * largest, at.post_half + 8.0);
  return at;
}

/// The rod's shoulder, the post and the turns of its thread.
void draw_post(Scene& scene, const document::PostResult& post, const Layout& at) {
  const Stroke outline{Token::Ink, kOutline, Dash::Solid, 1};
  const double end = at.x(post.thread ? post.thread->post_length : protrusion_end(post));
  const double top = at.axis - at.post_half;
  scene.add(box({0, top - 10}, {kShoulder, at.axis}, outline, Fill{Token::Steel, 1.0, Hatch{45, 4.5, 0.35}}));
  scene.add(box({kShoulder, top}, {end, at.axis}, outline, Fill{Token::Paper, 1, {}}));
  if (post.bore_radius > 0) {
    const double bore = at.axis - std::min(at.across * post.bore_radius, at.post_half - 4.0);
    scene.add(line({0, bore}, {end, bore}, Stroke{Token::Ink, kThin, Dash::Short, 1}));
  }
  if (!post.thread) return;
  // ISO 6410: a thin line at the root; the turns as a saw edge, so that they can be counted
  const document::ThreadResult& t = *post.thread;
  const double depth = std::max(2.0, 0.6 * at.across * t.pitch);
  scene.add(line({at.x(t.thread_start), top + depth}, {end, top + depth},
                 Stroke{Token::Ink, kThin, Dash::Solid, 1}));
  Polyline turns{{{at.x(t.thread_start), top}}, false, Stroke{Token::Ink, 0.6, Dash::Solid, 1}, {}};
  for (double z = t.thread_start; t.pitch > 0 && z + t.pitch <= t.post_length + 1e-9; z += t.pitch) {
    turns.points.push_back({at.x(z + t.pitch / 2), top + depth});
    turns.points.push_back({at.x(z + t.pitch), top});
  }
  scene.add(turns);
}

void draw_pieces(Scene& scene, const document::PostResult& post, const Layout& at,
                 const std::vector<std::string>& names) {
  for (std::size_t k = 0; k < post.ledger.size(); ++k) {
    const document::LedgerLine& l = post.ledger[k];
    scene.add(box({at.x(l.from), at.axis - at.half(l)}, {at.x(l.to), at.axis - at.post_half},
                  Stroke{Token::Ink, l.shape == document::PieceShape::Nut ? kOutline : 0.8, Dash::Solid, 1},
                  fill_of(l.shape, k)));
  }
  // a row each, so that no name meets the leader of another: names run to the right, later leaders begin
  // lower
  for (std::size_t k = 0; k < names.size(); ++k) {
    const double x = 0.5 * (at.x(post.ledger[k].from) + at.x(post.ledger[k].to));
    const double y = 10.0 + kNamePitch * double(k);
    scene.add(
        line({x, y - 5}, {x, at.axis - at.half(post.ledger[k])}, Stroke{Token::Steel, 0.4, Dash::Solid, 1}));
    scene.add(Label{{x + 4, y}, names[k], kSmall, Anchor::Start, Weight::Regular, Token::Ink, 0});
  }
}

/// A length along the axis with arrows at both ends, its words on the line or right of it.
void draw_dimension(Scene& scene, double from, double to, double y, const std::string& words) {
  const Stroke thin{Token::Steel, 0.4, Dash::Solid, 1};
  scene.add(line({from, y - 9}, {from, y + 3}, thin));
  scene.add(line({to, y - 9}, {to, y + 3}, thin));
  scene.add(line({from, y}, {to, y}, thin));
  const double wide = text_width(words, kSmall);
  if (to - from > 12) {
    scene.add(arrow_head({from, y}, 180, 5, Token::Steel));
    scene.add(arrow_head({to, y}, 0, 5, Token::Steel));
  }
  const bool inside = wide + 16 < to - from;
  if (inside)
    scene.add(box({0.5 * (from + to - wide) - 2, y - 4}, {0.5 * (from + to + wide) + 2, y + 4}, std::nullopt,
                  Fill{Token::Paper, 1, {}}));
  scene.add(Label{{inside ? 0.5 * (from + to) : to + 4, y + 3},
                  words,
                  kSmall,
                  inside ? Anchor::Middle : Anchor::Start,
                  Weight::Regular,
                  Token::Ink,
                  0});
}

std::string protrusion_words(const document::ThreadResult& t, System system) {
  return units::format_thickness(std::abs(t.protrusion), system) + (t.protrusion >= 0 ? " out" : " inside");
}

/// Below the axis: shoulder to nut seat, the engaged turns, and the protrusion.
void draw_thread_dimensions(Scene& scene, const document::PostResult& post, const Layout& at, System system) {
  const double y = at.axis + 16.0;
  if (post.ledger.empty()) return;
  const document::LedgerLine& nut = post.ledger.back();
  if (nut.from > 0)
    draw_dimension(scene, kShoulder, at.x(nut.from), y,
                   "shoulder to nut " + units::format_thickness(nut.from, system));
  if (!post.thread) return;
  const document::ThreadResult& t = *post.thread;
  const double low = std::min(nut.to, t.post_length), high = std::max(nut.to, t.post_length);
  draw_dimension(scene, at.x(low), at.x(high), y, protrusion_words(t, system));
}

}  // namespace

Scene post_scene(const document::PostResult& post, double width, System system) {
  std::vector<std::string> names;
  for (const document::LedgerLine& l : post.ledger) names.push_back(name_of(l, system));
  const double end_words = post.thread ? text_width(protrusion_words(*post.thread, system), kSmall) : 0.0;
  const Layout at = layout_of(post, names, width, end_words);

  Scene scene{width, 0.0, post.name, "", {}};
  draw_post(scene, post, at);
  draw_pieces(scene, post, at, names);
  const double end = std::min(width, at.x(protrusion_end(post)) + 12);
  scene.add(line({0, at.axis}, {end, at.axis}, Stroke{Token::Ink, kThin / 2, Dash::Chain, 1}));
  draw_thread_dimensions(scene, post, at, system);

  // what to see, in words
  std::string words =
      at.along > 1.02 * at.across
          ? fmt::format(
                "Half section, starting at the shoulder. Lengths are drawn {:.1f} times as large as radii.",
                at.along / at.across)
          : "Half section, starting at the shoulder, to scale.";
  if (post.thread)
    words +=
        fmt::format(" {}: {:.1f} of the {:.1f} turns of the nut are engaged{}. The post {} the nut by {}.",
                    post.thread->designation, post.thread->engaged_turns, post.thread->nut_turns,
                    post.thread->least_turns < post.thread->engaged_turns - 0.05
                        ? fmt::format(" ({:.1f} with the worst tolerances)", post.thread->least_turns)
                        : "",
                    post.thread->protrusion >= 0 ? "sticks out of" : "ends inside",
                    units::format_thickness(std::abs(post.thread->protrusion), system));
  scene.description = words;
  double y = at.axis + 36.0;
  for (const std::string& one : wrapped(words, width, kSmall)) {
    scene.add(Label{{0, y}, one, kSmall, Anchor::Start, Weight::Regular, Token::Steel, 0});
    y += 1.3 * kSmall;
  }
  scene.height = y - 0.8 * kSmall;
  return scene;
}

}  // namespace shimwright::report
