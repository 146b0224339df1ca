#include "report/article.h"
#include "report/blocks.h"

namespace shimwright::report {
namespace {

struct ToBlocks {
  double width;
  std::vector<Block>& blocks;

  template <typename OneBlock>
  void operator()(const OneBlock& element) const {
    blocks.push_back(block_of(element, width));
  }
  void operator()(const Rows& rows) const {
    for (Block& block : blocks_of(rows, width)) blocks.push_back(std::move(block));
  }
};

}  // namespace

std::vector<Scene> article_pages(const Article& article, Paper paper) {
  std::vector<Block> blocks;
  for (const Element& element : article.elements) std::visit(ToBlocks{content_width(paper), blocks}, element);
  return pages_of(blocks, paper, article.foot, article.gap_scale);
}

}  // namespace shimwright::report
