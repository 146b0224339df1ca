#include "report/markdown.h"

#include <cmark-gfm-core-extensions.h>
#include <fmt/core.h>

#include <algorithm>
#include <memory>
#include <numeric>

#include "base/check.h"
#include "report/blocks.h"
#include "report/rich_text.h"
#include "report/text_metrics.h"

// cmark is seen here alone.

namespace shimwright::report {
namespace {

using Node = cmark_node;

std::vector<Node*> children_of(Node* node) {
  std::vector<Node*> found;
  for (Node* child = cmark_node_first_child(node); child; child = cmark_node_next(child))
    found.push_back(child);
  return found;
}

std::string_view type_of(Node* node) {
  return cmark_node_get_type_string(node);
}

std::string literal(Node* node) {
  const char* text = cmark_node_get_literal(node);
  return text ? text : "";
}

/// What stands in a paragraph, a heading or a cell.
void add_inlines(Node* node, Weight weight, std::vector<Run>& runs) {
  for (Node* child : children_of(node)) {
    const std::string_view what = type_of(child);
    if (what == "text")
      runs.push_back({literal(child), weight});
    else if (what == "code")
      runs.push_back({literal(child), Weight::Semibold});
    else if (what == "softbreak" || what == "linebreak")
      runs.push_back({" ", weight});
    else if (what == "strong")
      add_inlines(child, Weight::Semibold, runs);
    else if (what == "emph" || what == "link")  // paper leads nowhere: the words of a link say where it is
      add_inlines(child, weight, runs);
    else
      SW_CHECK(false, std::string(what));
  }
}

std::vector<Run> inlines(Node* node) {
  std::vector<Run> runs;
  add_inlines(node, Weight::Regular, runs);
  return runs;
}

std::string words_of(Node* node) {
  return plain_text(inlines(node));
}

constexpr double kLine = 46.0 * kBody;  // a longer line is hard to follow back
constexpr double kIndent = 16.0;        // of what belongs to a point of a list [pt]
constexpr double kCodeMargin = 8.0;     // beside a command [pt]
constexpr double kAfterBox = 9.0;       // from a box or a table to the text below it [pt]
constexpr double kPrintedDpi = 180.0;   // of a picture beside text, finer than alone [1/inch]

Scene strip(double width) {
  return Scene{width, 0.0, "", "", {}};
}

/// Width and height in pixels, from the head of a PNG (RFC 2083, 4.1.1).
std::pair<double, double> size_of_png(std::span<const unsigned char> png) {
  SW_CHECK(png.size() > 24, png.size());
  const auto number = [&](std::size_t at) {
    return std::accumulate(png.begin() + long(at), png.begin() + long(at) + 4, 0.0,
                           [](double sum, unsigned char byte) { return 256.0 * sum + byte; });
  };
  return {number(16), number(20)};
}

double cell_width(std::string_view text) {
  return text_width(text, kSmall, Weight::Semibold) + 10.0;
}

/// The width of the longest word.
double least_width(const std::string& text) {
  double least = 0.0;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    least = std::max(least, cell_width(text.substr(at, end - at)));
    at = end + 1;
  }
  return least;
}

/// Widths of the columns as shares of the page: as wide as their texts where all fit; else each at least as
/// wide as its longest word, and the rest by need.
std::vector<double> column_shares(const std::vector<std::vector<std::string>>& rows, double width) {
  std::vector<double> least(rows.front().size(), 0.0), wanted = least;
  for (std::size_t k = 0; k < least.size(); ++k)
    for (const auto& row : rows) {
      wanted[k] = std::max(wanted[k], cell_width(row[k]));
      least[k] = std::max(least[k], least_width(row[k]));
    }
  const auto sum = [](const std::vector<double>& values) {
    return std::accumulate(values.begin(), values.end(), 0.0);
  };
  const double room = width + 8.0;  // the gap behind the last column counts too
  if (sum(wanted) > room && sum(least) < room) {
    const double part = (room - sum(least)) / (sum(wanted) - sum(least));
    for (std::size_t k = 0; k < least.size(); ++k) wanted[k] = least[k] + part * (wanted[k] - least[k]);
  }
  const double scale = 1.0 / std::max(room, sum(wanted));
  for (double& share : wanted) share *= scale;
  return wanted;
}

struct Writer {
  double width;
  const PictureOf& picture;
  std::vector<Block> blocks;
  bool after_box = false;

  /// A block that is `indent` narrower, moved in.
  void add(Block block, double indent) {
    if (indent > 0.0) {
      Scene scene = strip(width);
      append(scene, block.scene, {indent, 0});
      scene.height = block.scene.height;
      block.scene = std::move(scene);
    }
    blocks.push_back(std::move(block));
  }

  void add_heading(Node* node) {
    const std::string text = words_of(node);
    const int level = cmark_node_get_heading_level(node);
    if (level == 1) {
      blocks.push_back(block_of(Title{text, ""}, width));
      return;
    }
    Block block = level == 2 ? block_of(Heading{text}, width) : Block{strip(width), 10.0, true, {}};
    if (level == 2) {
      block.gap = 24.0;
    } else {
      block.scene.height =
          add_runs(block.scene, {{text, Weight::Semibold}}, 0, 0, width, kLead, Token::Ink) + 1;
    }
    block.scene.add(Bookmark{{0, 0}, text, level - 2});
    blocks.push_back(std::move(block));
  }

  void add_pictures(Node* paragraph, double indent) {
    FigureRow row;
    for (Node* image : children_of(paragraph)) {
      if (type_of(image) != "image") continue;  // a blank between two
      const auto png = picture(cmark_node_get_url(image));
      SW_CHECK(!png.empty(), cmark_node_get_url(image));
      const auto [wide, high] = size_of_png(png);
      const double scale = std::min(72.0 / kPrintedDpi, (width - indent) / wide);
      Figure figure{strip(wide * scale), words_of(image)};
      figure.scene.height = high * scale;
      figure.scene.add(Picture{{0, 0}, {wide * scale, high * scale}, png});
      row.figures.push_back(std::move(figure));
    }
    // a lone caption may be as wide as the page
    Block block = row.figures.size() == 1 ? block_of(row.figures.front(), width - indent)
                                          : block_of(row, width - indent);
    block.floats = true;
    add(std::move(block), indent);
  }

  void add_paragraph(Node* node, double indent, const std::string& marker, double gap) {
    if (const auto inside = children_of(node); !inside.empty() && type_of(inside.front()) == "image") {
      add_pictures(node, indent);
      return;
    }
    const std::vector<Run> runs = inlines(node);
    Block block{
        strip(width), after_box ? std::max(gap, kAfterBox) : gap, plain_text(runs).ends_with(':'), {}};
    if (!marker.empty())
      block.scene.add(
          Label{{indent - kIndent, kBody}, marker, kBody, Anchor::Start, Weight::Regular, Token::Steel, 0});
    block.scene.height = add_runs(block.scene, runs, indent, 0, std::min(kLine, width) - indent, kBody);
    blocks.push_back(std::move(block));
  }

  void add_list(Node* node, double indent) {
    const bool numbered = cmark_node_get_list_type(node) == CMARK_ORDERED_LIST;
    int number = std::max(1, cmark_node_get_list_start(node));
    for (Node* item : children_of(node)) {
      std::string marker = numbered ? fmt::format("{}.", number++) : "\xE2\x80\xA2";
      for (Node* child : children_of(item)) {
        add_block(child, indent + kIndent, marker, marker.empty() ? 2.0 : 3.0);
        marker.clear();
      }
    }
  }

  void add_commands(Node* node, double indent) {
    const double wide = width - indent - 2.0 * kCodeMargin;
    Scene text = strip(width - indent);
    std::string lines = literal(node);
    while (lines.ends_with('\n')) lines.pop_back();
    double y = 5.0;
    for (std::size_t at = 0; at <= lines.size();) {
      const std::size_t end = std::min(lines.find('\n', at), lines.size());
      y = add_runs(text, {{lines.substr(at, end - at), Weight::Semibold}}, kCodeMargin, y, wide, kBody);
      at = end + 1;
    }
    Block block{strip(width - indent), 5.0, false, {}};
    block.scene.height = y + 5.0;
    block.scene.add(box({0, 0}, {width - indent, y + 5.0}, std::nullopt, Fill{Token::Line, 0.14, {}}));
    append(block.scene, text, {0, 0});
    add(std::move(block), indent);
  }

  void add_caution(Node* node, double indent) {
    constexpr std::string_view kWord = "Caution.";
    std::string text;
    for (Node* paragraph : children_of(node)) text += (text.empty() ? "" : "\n") + words_of(paragraph);
    SW_CHECK(text.starts_with(kWord), text);
    text.erase(0, std::min(text.size(), kWord.size() + 1));
    Block block = block_of(Caution{text}, width - indent);
    add(std::move(block), indent);
  }

  void add_table(Node* node, double indent) {
    Rows table;
    for (Node* row : children_of(node)) {
      std::vector<std::string> cells;
      for (Node* cell : children_of(row)) cells.push_back(words_of(cell));
      table.rows.push_back(std::move(cells));
    }
    table.shares = column_shares(table.rows, width - indent);
    table.heads = table.rows.front();
    table.rows.erase(table.rows.begin());
    const std::uint8_t* aligned = cmark_gfm_extensions_get_table_alignments(node);
    for (std::size_t k = 0; k < table.heads.size(); ++k) table.numbers.push_back(aligned[k] == 'r');
    for (Block& block : blocks_of(table, width - indent)) add(std::move(block), indent);
  }

  void add_block(Node* node, double indent = 0.0, const std::string& marker = "", double gap = 5.0) {
    const std::string_view what = type_of(node);
    if (what == "heading")
      add_heading(node);
    else if (what == "paragraph")
      add_paragraph(node, indent, marker, gap);
    else if (what == "list")
      add_list(node, indent);
    else if (what == "code_block")
      add_commands(node, indent);
    else if (what == "block_quote")
      add_caution(node, indent);
    else if (what == "table")
      add_table(node, indent);
    else
      SW_CHECK(false, std::string(what));
    after_box = what == "code_block" || what == "block_quote" || what == "table";
  }
};

}  // namespace

std::vector<Block> markdown_blocks(std::string_view markdown, double width, const PictureOf& picture) {
  cmark_gfm_core_extensions_ensure_registered();
  const std::unique_ptr<cmark_parser, void (*)(cmark_parser*)> parser(cmark_parser_new(CMARK_OPT_DEFAULT),
                                                                      cmark_parser_free);
  cmark_parser_attach_syntax_extension(parser.get(), cmark_find_syntax_extension("table"));
  cmark_parser_feed(parser.get(), markdown.data(), markdown.size());
  const std::unique_ptr<Node, void (*)(Node*)> document(cmark_parser_finish(parser.get()), cmark_node_free);
  Writer writer{width, picture, {}};
  for (Node* node : children_of(document.get())) writer.add_block(node);
  return std::move(writer.blocks);
}

}  // namespace shimwright::report
