#include "report/page.h"

#include <fmt/core.h>

#include "report/text_metrics.h"

namespace shimwright::report {
namespace {

constexpr double kFootHeight = 20.0;

void add_foot(Scene& page, const Foot& foot, std::size_t number, std::size_t n_pages) {
  const double y = page.height - kMargin;
  page.add(line({kMargin, y - 12}, {page.width - kMargin, y - 12}, Stroke{Token::Line, 0.5, Dash::Solid, 1}));
  std::string left = foot.job;
  if (!foot.revision.empty()) left += ", revision " + foot.revision;
  if (!foot.date.empty()) left += ", " + foot.date;
  const double room = page.width - 2.0 * kMargin - 80.0;  // beside "page n of N"
  if (text_width(left, kSmall) > room) left = fitting_start(left, room - 10.0, kSmall) + "\xE2\x80\xA6";
  page.add(Label{{kMargin, y}, left, kSmall, Anchor::Start, Weight::Regular, Token::Steel, 0});
  page.add(Label{{page.width - kMargin, y},
                 fmt::format("page {} of {}", number, n_pages),
                 kSmall,
                 Anchor::End,
                 Weight::Regular,
                 Token::Steel,
                 0});
}

/// The drawing at `factor` of its size.
Scene shrunk(Scene scene, double factor) {
  const auto shrink = [factor](Point& p) { p = {p.x * factor, p.y * factor}; };
  const auto shrink_stroke = [factor](std::optional<Stroke>& stroke) {
    if (stroke) stroke->width *= factor;
  };
  for (Item& item : scene.items) {
    if (auto* polyline = std::get_if<Polyline>(&item)) {
      for (Point& p : polyline->points) shrink(p);
      shrink_stroke(polyline->stroke);
    } else if (auto* circle = std::get_if<Circle>(&item)) {
      shrink(circle->center);
      circle->radius *= factor;
      shrink_stroke(circle->stroke);
    } else if (auto* label = std::get_if<Label>(&item)) {
      shrink(label->at);
      label->size *= factor;
    } else if (auto* clip = std::get_if<ClipBegin>(&item)) {
      shrink(clip->min);
      shrink(clip->max);
    } else if (auto* picture = std::get_if<Picture>(&item)) {
      shrink(picture->min);
      shrink(picture->max);
    } else if (auto* bookmark = std::get_if<Bookmark>(&item)) {
      shrink(bookmark->at);
    } else if (auto* jump = std::get_if<Jump>(&item)) {
      shrink(jump->min);
      shrink(jump->max);
    }
  }
  scene.width *= factor;
  scene.height *= factor;
  return scene;
}

/// No block is taller than a page with the heading it repeats: small print is better than none.
std::vector<Block> fitted(std::vector<Block> blocks, double room) {
  for (Block& block : blocks) {
    const double left = room - (block.repeat ? block.repeat->height : 0.0);
    if (block.scene.height > left && left > 0) block.scene = shrunk(block.scene, left / block.scene.height);
  }
  return blocks;
}

/// The block `next` may stand in the `room` that a picture before it leaves: text, not a heading, nothing
/// that belongs to what follows it.
bool fills_up(const std::vector<Block>& blocks, std::size_t next, double room, double gap_scale) {
  if (next >= blocks.size()) return false;
  const Block& block = blocks[next];
  return !block.keep_with_next && !block.repeat && !block.new_page && !block.floats &&
         block.scene.height + gap_scale * block.gap <= room;
}

}  // namespace

PaperSize size_of(Paper paper) {
  // ISO 216 and ANSI/ASME Y14.1
  return paper == Paper::A4 ? PaperSize{210.0 * kPointsPerMillimetre, 297.0 * kPointsPerMillimetre}
                            : PaperSize{612.0, 792.0};
}

double content_width(Paper paper) {
  return size_of(paper).width - 2.0 * kMargin;
}

std::vector<Scene> pages_of(const std::vector<Block>& wanted, Paper paper, const Foot& foot,
                            double gap_scale) {
  const PaperSize size = size_of(paper);
  const double bottom = size.height - kMargin - kFootHeight;
  std::vector<Block> blocks = fitted(wanted, bottom - kMargin);
  std::vector<Scene> pages;
  double y = 0.0;
  const auto new_page = [&] {
    pages.push_back(Scene{size.width, size.height, foot.job, "", {}});
    y = kMargin;
  };
  new_page();

  std::size_t i = 0;
  while (i < blocks.size()) {
    // a run of blocks that stay together, then the one they lead to
    std::size_t end = i;
    double height = 0.0;
    for (;; ++end) {
      height += blocks[end].scene.height + (end == i && y == kMargin ? 0.0 : gap_scale * blocks[end].gap);
      if (!blocks[end].keep_with_next || end + 1 >= blocks.size()) break;
    }
    const bool full = y + height > bottom && y > kMargin;
    if (full && end == i && blocks[i].floats && fills_up(blocks, i + 1, bottom - y, gap_scale)) {
      std::swap(blocks[i], blocks[i + 1]);
      continue;
    }
    if (full || (blocks[i].new_page && y > kMargin)) {
      new_page();
      if (blocks[i].repeat) {
        append(pages.back(), *blocks[i].repeat, {kMargin, y});
        y += blocks[i].repeat->height;
      }
    }
    for (; i <= end; ++i) {
      if (y > kMargin) y += gap_scale * blocks[i].gap;
      if (y + blocks[i].scene.height > bottom) new_page();
      append(pages.back(), blocks[i].scene, {kMargin, y});
      y += blocks[i].scene.height;
    }
  }
  for (std::size_t k = 0; k < pages.size(); ++k) add_foot(pages[k], foot, k + 1, pages.size());
  return pages;
}

}  // namespace shimwright::report
