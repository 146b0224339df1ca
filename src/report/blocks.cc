#include "report/blocks.h"

#include <fmt/core.h>

#include <algorithm>

#include "base/check.h"
#include "report/rich_text.h"
#include "report/text_metrics.h"

namespace shimwright::report {
namespace {

constexpr double kGutter = 16.0;  // between columns [pt]

/// The text wrapped from (x, y) down, y being the top of its first line; returns the y below it.
double add_text(Scene& scene, const std::string& text, double x, double y, double width, double size,
                Weight weight = Weight::Regular, Token token = Token::Ink) {
  for (const std::string& one : wrapped(text, width, size, weight)) {
    scene.add(Label{{x, y + size}, one, size, Anchor::Start, weight, token, 0});
    y += leading(size);
  }
  return y;
}

Scene blank(double width) {
  return Scene{width, 0.0, "", "", {}};
}

}  // namespace

Block block_of(const Title& title, double width) {
  Block block{blank(width), 0.0, true, {}};
  double y = add_text(block.scene, title.text, 0, 0, width, kTitle, Weight::Semibold);
  if (!title.below.empty())
    y = add_text(block.scene, title.below, 0, y + 2, width, kBody, Weight::Regular, Token::Steel);
  block.scene.height = y + 4;
  return block;
}

Block block_of(const Heading& heading, double width) {
  Block block{blank(width), 16.0, true, {}};
  const double y = add_text(block.scene, heading.text, 0, 0, width, kHead, Weight::Semibold);
  block.scene.add(line({0, y + 1}, {width, y + 1}, Stroke{Token::Line, 0.6, Dash::Solid, 1}));
  block.scene.height = y + 5;
  return block;
}

Block block_of(const Paragraph& paragraph, double width) {
  Block block{blank(width), 4.0, paragraph.keep_with_next, {}};
  // a line of more than some 75 characters is hard to follow back
  block.scene.height = add_text(block.scene, paragraph.text, 0, 0, std::min(width, 46.0 * kBody), kBody,
                                Weight::Regular, paragraph.token);
  return block;
}

Block block_of(const Caution& caution, double width) {
  Block block{blank(width), 8.0, true, {}};
  const double word = text_width("CAUTION", kBody, Weight::Semibold) + 22;
  const double y = add_text(block.scene, caution.text, word, 6, width - word - 8, kBody);
  block.scene.height = std::max(y, 6 + leading(kBody)) + 6;
  block.scene.add(Label{{10, 6 + kBody}, "CAUTION", kBody, Anchor::Start, Weight::Semibold, Token::Stop, 0});
  block.scene.add(
      box({0.5, 0.5}, {width - 0.5, block.scene.height - 0.5}, Stroke{Token::Stop, 1.2, Dash::Solid, 1}));
  return block;
}

Block block_of(const Figure& figure, double width) {
  Block block{blank(width), 8.0, false, {}};
  append(block.scene, figure.scene, {0, 0});
  block.scene.height = figure.scene.height + 2;
  if (!figure.caption.empty())
    block.scene.height = add_text(block.scene, figure.caption, 0, block.scene.height, width, kSmall,
                                  Weight::Regular, Token::Steel) +
                         4;
  return block;
}

Block block_of(const BigNumbers& big, double width) {
  const std::vector<BigNumber>& numbers = big.numbers;
  Block block{blank(width), 8.0, false, {}};
  const std::size_t columns = std::max<std::size_t>(1, big.columns ? big.columns : numbers.size());
  const double column = width / double(columns);
  double top = 0.0, lowest = 0.0;
  for (std::size_t k = 0; k < numbers.size(); ++k) {
    if (k > 0 && k % columns == 0) top = lowest + 8.0;
    const double x = column * double(k % columns);
    double y =
        add_text(block.scene, numbers[k].name, x, top, column - 8, kSmall, Weight::Regular, Token::Steel);
    // a value that does not fit large is set smaller, never cut
    double size = kHead;
    while (size > kBody && text_width(numbers[k].value, size, Weight::Semibold) > column - 8) size -= 1.0;
    y = add_text(block.scene, numbers[k].value, x, y + 1, column - 8, size, Weight::Semibold);
    lowest = std::max(lowest, y);
  }
  block.scene.height = lowest + 2;
  return block;
}

Block block_of(const FigureRow& row, double width) {
  Block block{blank(width), 8.0, false, {}};
  double x = 0.0, y = 0.0, lowest = 0.0;
  for (const Figure& figure : row.figures) {
    if (x > 0.0 && x + figure.scene.width > width + 0.5) {
      x = 0.0;
      y = lowest + 8.0;
    }
    const Block one = block_of(figure, figure.scene.width);
    append(block.scene, one.scene, {x, y});
    lowest = std::max(lowest, y + one.scene.height);
    x += figure.scene.width + kGutter;
  }
  block.scene.height = lowest;
  return block;
}

namespace {

constexpr double kNumberColumn = 30.0, kBoxColumn = 122.0;

/// The box at (x, y) with what belongs into it; returns the y below.
double add_box(Scene& scene, const StepBox& box_text, double x, double y) {
  const Stroke outline{Token::Ink, 0.9, Dash::Solid, 1};
  if (box_text.to_tick()) {
    scene.add(box({x, y}, {x + 16, y + 16}, outline));
    return std::max(y + 18, add_text(scene, box_text.what, x + 23, y + 2, kBoxColumn - 23, kSmall));
  }
  scene.add(box({x, y}, {x + kBoxColumn - 0.5, y + 23}, outline));
  y = add_text(scene, box_text.what, x, y + 25, kBoxColumn, kSmall, Weight::Regular, Token::Steel);
  if (!box_text.expected.empty())
    y = add_text(scene, "expect " + box_text.expected, x, y, kBoxColumn, kSmall, Weight::Semibold);
  if (!box_text.range.empty()) y = add_text(scene, box_text.range, x, y, kBoxColumn, kSmall);
  return y;
}

}  // namespace

Block block_of(const Step& step, double width) {
  Block block{blank(width), 7.0, false, {}};
  const bool beside = step.picture && step.picture->scene.width < 0.55 * width;
  const double picture_column = beside ? step.picture->scene.width + kGutter : 0.0;
  const double text_wide =
      width - kNumberColumn - picture_column - (step.box && !beside ? kBoxColumn + 12 : 0);
  block.scene.add(Label{{kNumberColumn - 10, 1 + kBody},
                        std::to_string(step.number),
                        kLead,
                        Anchor::End,
                        Weight::Semibold,
                        Token::Ink,
                        0});

  // what to do, why, and the number in large print
  double y = add_text(block.scene, step.text, kNumberColumn, 1, text_wide, kBody);
  if (!step.why.empty())
    y = add_text(block.scene, step.why, kNumberColumn, y, text_wide, kSmall, Weight::Regular, Token::Steel);
  if (!step.big.empty())
    y = add_text(block.scene, step.big, kNumberColumn, y + 2, text_wide, kHead, Weight::Semibold);

  // the box at the right, or under the words where the picture takes its place
  if (step.box && beside) y = add_box(block.scene, *step.box, kNumberColumn, y + 4);
  if (step.box && !beside) y = std::max(y, add_box(block.scene, *step.box, width - kBoxColumn, 1));
  if (step.picture) {
    const Block picture = block_of(*step.picture, step.picture->scene.width);
    const Point at = beside ? Point{width - step.picture->scene.width, 0} : Point{0, y + 6};
    append(block.scene, picture.scene, at);
    y = std::max(y, at.y + picture.scene.height);
  }
  block.scene.height = y + 2;
  return block;
}

std::vector<Block> blocks_of(const Rows& table, double width) {
  const auto& [heads, shares, numbers, rows] = table;
  SW_CHECK(heads.size() == shares.size() && heads.size() == numbers.size(), heads.size());
  const auto row_scene = [&](const std::vector<std::string>& cells, Weight weight, Token token) {
    Scene scene = blank(width);
    double x = 0.0, lowest = 0.0;
    for (std::size_t k = 0; k < cells.size(); ++k) {
      const double column = (width + 8) * shares[k];
      if (cells[k] == kTickBox) {
        scene.add(box({x, 2.5}, {x + 8.5, 11}, Stroke{Token::Ink, 0.8, Dash::Solid, 1}));
        x += column;
        continue;
      }
      double y = 2.0;
      for (const std::string& one : wrapped(cells[k], column - 8, kSmall, weight)) {
        scene.add(Label{{numbers[k] ? x + column - 8 : x, y + kSmall},
                        one,
                        kSmall,
                        numbers[k] ? Anchor::End : Anchor::Start,
                        weight,
                        token,
                        0});
        y += leading(kSmall);
      }
      lowest = std::max(lowest, y);
      x += column;
    }
    scene.height = std::max(lowest, 2.0 + leading(kSmall)) + 2;
    scene.add(line({0, scene.height}, {x - 8, scene.height}, Stroke{Token::Line, 0.35, Dash::Solid, 0.6}));
    return scene;
  };

  const Scene head = row_scene(heads, Weight::Semibold, Token::Steel);
  std::vector<Block> blocks = {Block{head, 4.0, true, {}}};
  for (const auto& row : rows) {
    SW_CHECK(row.size() == heads.size(), row.size(), heads.size());
    blocks.push_back(Block{row_scene(row, Weight::Regular, Token::Ink), 0.0, false, head});
  }
  // a short table is not worth cutting
  constexpr std::size_t kShort = 6;
  if (rows.size() <= kShort)
    for (std::size_t k = 0; k + 1 < blocks.size(); ++k) blocks[k].keep_with_next = true;
  return blocks;
}

}  // namespace shimwright::report
