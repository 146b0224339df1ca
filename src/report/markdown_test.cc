#include "report/markdown.h"

#include <gmock/gmock.h>

#include "base/check.h"
#include "report/paint.h"
#include "report/rich_text.h"
#include "report/text_metrics.h"

namespace shimwright::report {
namespace {

using ::testing::ElementsAre;

std::vector<Block> blocks(const std::string& markdown, const std::string& png = "") {
  return markdown_blocks(markdown, 300.0, [&](const std::string&) {
    return std::span(reinterpret_cast<const unsigned char*>(png.data()), png.size());
  });
}

std::vector<std::string> labels(const Block& block) {
  std::vector<std::string> texts;
  for (const Item& item : block.scene.items)
    if (const auto* label = std::get_if<Label>(&item)) texts.push_back(label->text);
  return texts;
}

TEST(Markdown, SetsCodeAndStrongWordsApartInOneLine) {
  EXPECT_THAT(labels(blocks("Turn `clicks` **out**, not in.\n")[0]),
              ElementsAre("Turn ", "clicks out", ", not in."));
}

TEST(Markdown, KnowsHeadingsAsBookmarksOfTheirLevel) {
  const auto all = blocks("# Title\n\n## Chapter\n\n### Section\n");
  const auto bookmark = [](const Block& block) -> const Bookmark* {
    for (const Item& item : block.scene.items)
      if (const auto* found = std::get_if<Bookmark>(&item)) return found;
    return nullptr;
  };
  ASSERT_EQ(all.size(), 3u);
  EXPECT_EQ(bookmark(all[0]), nullptr);
  EXPECT_EQ(bookmark(all[1])->title, "Chapter");
  EXPECT_EQ(bookmark(all[1])->level, 0);
  EXPECT_EQ(bookmark(all[2])->level, 1);
  for (const Block& block : all) EXPECT_TRUE(block.keep_with_next);
}

TEST(Markdown, MarksTheFirstParagraphOfAPointAndMovesTheRestIn) {
  const auto all = blocks("3. one\n4. two\n\n   more\n");
  ASSERT_EQ(all.size(), 3u);
  EXPECT_THAT(labels(all[0]), ElementsAre("3.", "one"));
  EXPECT_THAT(labels(all[1]), ElementsAre("4.", "two"));
  EXPECT_THAT(labels(all[2]), ElementsAre("more"));
}

TEST(Markdown, MakesATableThatFillsNoMoreThanThePage) {
  const std::string row =
      "| a key | what it does, in more words than one line of the page has room for | 12 |\n";
  const auto all = blocks("| key | meaning | n |\n|---|---|--:|\n" + row + row);
  ASSERT_EQ(all.size(), 3u);
  for (const Block& block : all)
    for (const Item& item : block.scene.items)
      if (const auto* label = std::get_if<Label>(&item)) {
        const double width = text_width(label->text, label->size, label->weight);
        const double end = label->anchor == Anchor::End ? label->at.x : label->at.x + width;
        EXPECT_LE(end, 300.5) << label->text;
      }
}

TEST(Markdown, ShowsAPictureAtItsSizeOrAsWideAsThePage) {
  const auto shown = [](double width) {
    const std::string png = png_bytes(Scene{width, 30.0, "", "", {}}, kPictureDpi);
    const auto all = blocks("![a stack](stack.png)\n", png);
    EXPECT_EQ(labels(all[0]), std::vector<std::string>{"a stack"});
    for (const Item& item : all[0].scene.items)
      if (const auto* picture = std::get_if<Picture>(&item)) return picture->max.x - picture->min.x;
    return 0.0;
  };
  EXPECT_NEAR(shown(120.0), 100.0, 0.5);  // drawn at 150 dots an inch, printed at 180
  EXPECT_NEAR(shown(900.0), 300.0, 0.5);
}

TEST(Markdown, LetsTheTextGoAheadOfAPictureThatDoesNotFit) {
  const auto block = [](double height, const char* name) {
    Scene scene{300.0, height, "", "", {}};
    scene.add(Bookmark{{0, 0}, name, 0});
    return Block{scene, 4.0, false, {}};
  };
  const auto order = [](const std::vector<Scene>& pages) {
    std::string names;
    for (const Scene& page : pages) {
      names += '/';
      for (const Item& item : page.items)
        if (const auto* bookmark = std::get_if<Bookmark>(&item)) names += bookmark->title;
    }
    return names;
  };
  std::vector<Block> blocks = {block(600, "a"), block(300, "P"), block(50, "b"), block(50, "h"),
                               block(20, "c")};
  EXPECT_EQ(order(pages_of(blocks, Paper::A4, {})), "/a/Pbhc");
  blocks[1].floats = true;
  blocks[3].keep_with_next = true;  // a heading stays behind the picture
  EXPECT_EQ(order(pages_of(blocks, Paper::A4, {})), "/ab/Phc");
}

TEST(Markdown, RefusesWhatItDoesNotKnow) {
  EXPECT_THROW(blocks("<b>text</b>\n"), LogicFault);
  EXPECT_THROW(blocks("> A quote.\n"), LogicFault);
  EXPECT_THROW(blocks("![a picture](nowhere.png)\n"), LogicFault);
}

TEST(RichText, BreaksAtSpacesAndCutsAWordThatIsTooWide) {
  Scene scene;
  const double end = add_runs(scene, {{"one two "}, {"three", Weight::Semibold}, {"."}}, 0, 0, 40.0, kBody);
  std::vector<std::string> lines;
  for (const Item& item : scene.items) lines.push_back(std::get<Label>(item).text);
  EXPECT_THAT(lines, ElementsAre("one two", "three", "."));
  EXPECT_DOUBLE_EQ(end, 2.0 * leading(kBody));

  Scene cut;
  add_runs(cut, {{"abcdefghijklmnopqrstuvwxyz"}}, 0, 0, 40.0, kBody);
  std::string all;
  for (const Item& item : cut.items) {
    all += std::get<Label>(item).text;
    EXPECT_LE(text_width(std::get<Label>(item).text, kBody), 40.0);
  }
  EXPECT_EQ(all, "abcdefghijklmnopqrstuvwxyz");
}

}  // namespace
}  // namespace shimwright::report
