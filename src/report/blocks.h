#pragma once
#include <vector>

#include "report/article.h"

namespace shimwright::report {

/// Elements of an article as blocks `width` wide [pt].
Block block_of(const Title& title, double width);
Block block_of(const Heading& heading, double width);
Block block_of(const Paragraph& paragraph, double width);

/// A ruled box with the word; kept with what follows.
Block block_of(const Caution& caution, double width);

/// Name above, value below, side by side in as many rows as the columns make.
Block block_of(const BigNumbers& numbers, double width);

/// The number, what to do, then why; at the right, where the hand stops and measures, a box to write in. A
/// picture is beside the words when it is at most half as wide as the page, or else below them.
Block block_of(const Step& step, double width);

Block block_of(const Figure& figure, double width);
Block block_of(const FigureRow& row, double width);

/// One block a row, the heading repeated where a page begins with a row of it.
std::vector<Block> blocks_of(const Rows& rows, double width);

}  // namespace shimwright::report
