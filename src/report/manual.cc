#include "report/manual.h"

#include <fmt/core.h>

#include <map>

#include "base/check.h"
#include "report/blocks.h"
#include "report/markdown.h"
#include "report/paint.h"
#include "report/rich_text.h"
#include "report/text_metrics.h"
#include "report_assets.h"

namespace shimwright::report {
namespace {

constexpr double kPageColumn = 24.0;  // for the number of a page [pt]

std::span<const unsigned char> embedded_picture(const std::string& name) {
  return asset(name.substr(name.rfind('/') + 1));
}

const Bookmark* bookmark_of(const Block& block) {
  for (const Item& item : block.scene.items)
    if (const auto* bookmark = std::get_if<Bookmark>(&item)) return bookmark;
  return nullptr;
}

/// One line of the contents: what, dots, where.
Block contents_line(const Bookmark& bookmark, std::size_t page, double width) {
  const bool chapter = bookmark.level == 0;
  const double size = chapter ? kBody : kSmall, indent = chapter ? 0.0 : 16.0;
  const Weight weight = chapter ? Weight::Semibold : Weight::Regular;
  Block block{Scene{width, leading(size), "", "", {}}, chapter ? 5.0 : 0.0, false, {}};
  block.scene.add(Label{{indent, size}, bookmark.title, size, Anchor::Start, weight, Token::Ink, 0});
  block.scene.add(Label{{width, size}, std::to_string(page), size, Anchor::End, weight, Token::Ink, 0});
  const double end = indent + text_width(bookmark.title, size, weight);
  block.scene.add(
      line({end + 6.0, size}, {width - kPageColumn, size}, Stroke{Token::Line, 0.5, Dash::Dots, 1}));
  block.scene.add(Jump{{indent, 0}, {width, leading(size)}, bookmark.title});
  return block;
}

/// On which page each bookmark stands, from 1.
std::map<std::string, std::size_t> pages_by_title(const std::vector<Scene>& pages) {
  std::map<std::string, std::size_t> found;
  for (std::size_t k = 0; k < pages.size(); ++k)
    for (const Item& item : pages[k].items)
      if (const auto* bookmark = std::get_if<Bookmark>(&item)) {
        SW_CHECK(!found.contains(bookmark->title), bookmark->title);
        found[bookmark->title] = k + 1;
      }
  return found;
}

}  // namespace

std::vector<Scene> manual_pages(Paper paper, const std::string& version) {
  const auto text = asset("manual.md");
  const double width = content_width(paper);
  const std::vector<Block> blocks =
      markdown_blocks({reinterpret_cast<const char*>(text.data()), text.size()}, width, embedded_picture);

  // the contents stand before the first chapter; the same lines with any numbers take the same room
  const Foot foot{"Shimwright " + version + ", manual", "", ""};
  std::vector<Scene> pages;
  std::map<std::string, std::size_t> page_of;
  for (int turn = 0; turn < 2; ++turn) {
    std::vector<Block> all;
    bool listed = false;
    for (const Block& block : blocks) {
      if (!listed && bookmark_of(block) != nullptr) {
        listed = true;
        all.push_back(block_of(Heading{"Contents"}, width));
        for (const Block& other : blocks)
          if (const Bookmark* to = bookmark_of(other))
            all.push_back(contents_line(*to, page_of[to->title], width));
        all.push_back(block);
        all.back().new_page = true;
        continue;
      }
      all.push_back(block);
    }
    pages = pages_of(all, paper, foot);
    page_of = pages_by_title(pages);
  }
  return pages;
}

std::string manual_pdf(Paper paper, const std::string& version) {
  return pdf_bytes(manual_pages(paper, version), {"Shimwright: the manual", "manual", ""});
}

}  // namespace shimwright::report
