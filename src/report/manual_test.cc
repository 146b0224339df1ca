#include "report/manual.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <regex>
#include <sstream>

#include "report/pdf_text_test.h"
#include "report/scene_boxes_test.h"
#include "report/text_metrics.h"

namespace shimwright::report {
namespace {

using ::testing::HasSubstr;

std::vector<std::string> pages_in(const std::string& text) {
  std::vector<std::string> pages;
  std::istringstream all(text);
  for (std::string page; std::getline(all, page, '\f');) pages.push_back(page);
  return pages;
}

// read back by another program, pdftotext
TEST(Manual, TheContentsNameThePageOnWhichEachChapterStands) {
  for (const Paper paper : {Paper::A4, Paper::Letter}) {
    auto pages = pages_in(text_of_pdf(manual_pdf(paper, "1.2.3")));
    ASSERT_GT(pages.size(), 8u);
    const std::regex line("^ *([A-Z][^\\n]*[a-z?]) +([0-9]+)$", std::regex::multiline);
    pages[0].erase(pages[0].find("Shimwright 1.2.3"));  // its foot
    int n = 0;
    for (std::sregex_iterator at(pages[0].begin(), pages[0].end(), line), end; at != end; ++at, ++n) {
      const std::size_t page = std::stoul((*at)[2]);
      ASSERT_LE(page, pages.size()) << at->str();
      ASSERT_GE(page, 2u) << at->str();
      EXPECT_THAT(pages[page - 1], HasSubstr((*at)[1].str())) << "page " << page;
    }
    EXPECT_GE(n, 25) << pages[0];
    EXPECT_THAT(pages[4], HasSubstr("page 5 of " + std::to_string(pages.size())));
    EXPECT_THAT(pages[4], HasSubstr("Shimwright 1.2.3"));
  }
}

TEST(Manual, KeepsItsInkInsideTheMarginsAndItsWordsApart) {
  for (const Paper paper : {Paper::A4, Paper::Letter}) {
    const PaperSize size = size_of(paper);
    for (const Scene& page : manual_pages(paper, "1.2.3")) {
      EXPECT_EQ(ink_outside(page, {kMargin, kMargin}, {size.width - kMargin, size.height - kMargin + 3}), "");
      EXPECT_EQ(overlapping_labels(page), "");
    }
  }
}

TEST(Manual, HasItsPicturesAndACautionForEachThingThatHurts) {
  std::size_t n_pictures = 0, n_jumps = 0;
  for (const Scene& page : manual_pages(Paper::A4, "1.2.3"))
    for (const Item& item : page.items) {
      n_pictures += std::holds_alternative<Picture>(item);
      n_jumps += std::holds_alternative<Jump>(item);
    }
  EXPECT_GE(n_pictures, 7u);
  EXPECT_GE(n_jumps, 25u);
  std::string text = text_of_pdf(manual_pdf(Paper::A4, "1.2.3"));
  text = std::regex_replace(text, std::regex("\\s+"), " ");
  for (const char* words : {"Let out all gas and air", "A preloaded spring can break fingers",
                            "The torque in the maker's service manual comes before", "Use dry nitrogen only",
                            "Only qualified people"})
    EXPECT_THAT(text, HasSubstr(words));
  EXPECT_EQ(missing_glyphs(text), "");
}

TEST(Manual, GivesTheSameBytesEachTime) {
  EXPECT_EQ(manual_pdf(Paper::A4, "1.2.3"), manual_pdf(Paper::A4, "1.2.3"));
}

}  // namespace
}  // namespace shimwright::report
