#include "report/post_drawing.h"

#include <fmt/format.h>

#include <algorithm>

#include "report/spread.h"
#include "report/text_metrics.h"

namespace shimwright::report {
namespace {

constexpr double kShoulder = 16.0;  // of the damper rod drawn left of the shoulder [pt]
constexpr double kPostHalf = 16.0;  // half height of the post on paper [pt]

double half_height(const job::LedgerLine& line) {
  switch (line.shape) {
    case job::PieceShape::Piston:
      return 58.0;
    case job::PieceShape::Disc:
      return 50.0;
    case job::PieceShape::Nut:
      return 34.0;
    case job::PieceShape::Washer:
      return 32.0;
    case job::PieceShape::Spacer:
      return 26.0;
    case job::PieceShape::Other:
      return 30.0;
  }
  return 30.0;
}

Fill fill_of(job::PieceShape shape, std::size_t index) {
  if (shape == job::PieceShape::Disc) return Fill{Token::Ink, 0.8, {}};  // thin parts are filled
  return Fill{Token::Steel, 1.0,
              Hatch{index % 2 ? -45.0 : 45.0, shape == job::PieceShape::Nut ? 2.4 : 3.6, 0.35}};
}

}  // namespace

Scene post_scene(const job::PostResult& post, double width, units::System system) {
  using units::Kind;
  double length = post.thread ? post.thread->post_length : 0.0;
  for (const job::LedgerLine& l : post.ledger) length = std::max(length, l.to);
  const double scale = (width - kShoulder - 12.0) / std::max(length * 1.04, 1e-4);

  // names stand above the drawing in a column of their own height, so that thin pieces keep theirs apart
  std::vector<std::string> names;
  for (const job::LedgerLine& l : post.ledger)
    names.push_back(fmt::format("{}{}, {}{}", l.count > 1 ? fmt::format("{} \xC3\x97 ", l.count) : "", l.name,
                                units::format(l.height, Kind::Length, system),
                                l.measured ? " measured" : ""));
  const double names_height = 12.0 * double(names.size()) + 8.0;
  const double axis = names_height + 66.0;
  const auto x = [&](double z) { return kShoulder + scale * z; };
  Scene scene{width,
              axis + 34.0,
              post.name,
              "The post in half section, from the shoulder out, lengths to scale.",
              {}};

  // the rod's shoulder and the post with its thread
  const Stroke outline{Token::Ink, kOutline, Dash::Solid, 1};
  scene.add(box({0, axis - 30}, {kShoulder, axis}, outline, Fill{Token::Steel, 1.0, Hatch{45, 4.5, 0.35}}));
  const double end = post.thread ? x(post.thread->post_length) : x(length);
  scene.add(box({kShoulder, axis - kPostHalf}, {end, axis}, outline, Fill{Token::Paper, 1, {}}));
  if (post.thread)
    for (double z = post.thread->thread_start; z + 0.5 * post.thread->pitch < post.thread->post_length;
         z += post.thread->pitch)
      scene.add(Polyline{{{x(z), axis - kPostHalf},
                          {x(z + post.thread->pitch / 2), axis - kPostHalf + 3},
                          {x(z + post.thread->pitch), axis - kPostHalf}},
                         false,
                         Stroke{Token::Ink, 0.5, Dash::Solid, 1},
                         {}});
  scene.add(line({0, axis}, {width, axis}, Stroke{Token::Ink, kThin / 2, Dash::Chain, 1}));

  // the pieces, then their names from the last down to the first, leaders straight up
  std::vector<double> middle;
  for (std::size_t k = 0; k < post.ledger.size(); ++k) {
    const job::LedgerLine& l = post.ledger[k];
    const double top = axis - half_height(l);
    scene.add(box({x(l.from), top}, {x(l.to), axis - kPostHalf}, Stroke{Token::Ink, 0.8, Dash::Solid, 1},
                  fill_of(l.shape, k)));
    middle.push_back(0.5 * (x(l.from) + x(l.to)));
  }
  for (std::size_t k = 0; k < names.size(); ++k) {
    const double y = 10.0 + 12.0 * double(k);
    const double wide = text_width(names[k], kSmall);
    const bool left = middle[k] + 8 + wide > width;
    scene.add(line({middle[k], y}, {middle[k], axis - half_height(post.ledger[k])},
                   Stroke{Token::Steel, 0.4, Dash::Solid, 1}));
    scene.add(Label{{middle[k] + (left ? -4 : 4), y + 2},
                    names[k],
                    kSmall,
                    left ? Anchor::End : Anchor::Start,
                    Weight::Regular,
                    Token::Ink,
                    0});
  }

  // what the nut has of its thread, as a dimension below the axis
  std::string words =
      fmt::format("shoulder to nut seat {}",
                  units::format(post.ledger.empty() ? 0.0 : post.ledger.back().from, Kind::Length, system));
  if (post.thread)
    words = fmt::format("{}: {:.1f} of the nut's {:.1f} turns engaged; post {} the nut by {}",
                        post.thread->designation, post.thread->engaged_turns, post.thread->nut_turns,
                        post.thread->protrusion >= 0 ? "stands out of" : "ends inside",
                        units::format(std::abs(post.thread->protrusion), Kind::Length, system));
  scene.add(Label{{0, axis + 20}, words, kSmall, Anchor::Start, Weight::Regular, Token::Steel, 0});
  return scene;
}

}  // namespace shimwright::report
