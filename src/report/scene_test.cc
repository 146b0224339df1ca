#include "report/scene.h"

#include <gmock/gmock.h>

#include <limits>

#include "report/paint.h"
#include "report/text_metrics.h"

namespace shimwright::report {
namespace {

using ::testing::HasSubstr;
using ::testing::StartsWith;

Scene small_scene() {
  Scene scene{120, 80, "A box", "A hatched box with a name", {}};
  scene.add(
      box({10, 10}, {60, 50}, Stroke{Token::Ink, kOutline, Dash::Solid, 1}, Fill{Token::Steel, 1, Hatch{}}));
  scene.add(Label{{10, 70},
                  "\xC3\x98 24 \xC3\x97 0.15 mm <face>",
                  kBody,
                  Anchor::Start,
                  Weight::Semibold,
                  Token::Ink,
                  0});
  scene.add(Circle{{90, 30}, 12, Stroke{Token::Compression, kThin, Dash::Long, 1}, {}});
  return scene;
}

TEST(Scene, GivesTheSameBytesOnEveryRun) {
  const Scene page = small_scene();
  const PdfInfo info{"A box", "test", "2026-11-25"};
  EXPECT_EQ(pdf_bytes({&page, 1}, info), pdf_bytes({&page, 1}, info));
  EXPECT_EQ(png_bytes(page, 96), png_bytes(page, 96));
  EXPECT_EQ(to_svg(page, true), to_svg(page, true));
}

TEST(Scene, SvgKeepsTextAsTextAndEscapesIt) {
  const std::string svg = to_svg(small_scene(), false);
  EXPECT_THAT(svg, HasSubstr("\xC3\x98 24 \xC3\x97 0.15 mm &lt;face&gt;</text>"));
  EXPECT_THAT(svg, HasSubstr("<desc"));
}

TEST(Scene, PdfAndPngHaveTheirMagicBytes) {
  const Scene page = small_scene();
  EXPECT_THAT(pdf_bytes({&page, 1}, {}), StartsWith("%PDF-"));
  EXPECT_THAT(png_bytes(page, 72), StartsWith("\x89PNG"));
}

TEST(Text, FiguresAreTabular) {
  EXPECT_DOUBLE_EQ(text_width("1111", 10), text_width("0000", 10));
}

TEST(Text, WrappedLinesStayInsideTheWidth) {
  const std::string text = "Leave out two 0.3 mm spacers: the nut then sits on all 7 turns of its thread.";
  const auto lines = wrapped(text, 120, kBody);
  ASSERT_GT(lines.size(), 2u);
  std::string joined;
  for (const std::string& one : lines) {
    EXPECT_LE(text_width(one, kBody), 120);
    joined += (joined.empty() ? "" : " ") + one;
  }
  EXPECT_EQ(joined, text);
}

TEST(Text, KnowsEveryGlyphOfTheTradeAndNamesTheMissing) {
  EXPECT_EQ(missing_glyphs("\xC3\x98 \xC3\x97 \xC2\xB1 \xC2\xB5m \xC2\xB0\x43 \xE2\x88\x92 \xE2\x80\x89 "
                           "N\xC2\xB7m mm\xC2\xB2/s \xCE\xB1 \xE2\x89\xA4"),
            "");
  EXPECT_NE(missing_glyphs("\xF0\x93\x80\x80"), "");  // an Egyptian hieroglyph, which no shop machine has
}

TEST(Scene, LeavesOutWhatHasNoPlaceOnThePage) {
  const double none = std::numeric_limits<double>::quiet_NaN();
  Scene scene;
  scene.add(line({0, 0}, {10, none}));
  scene.add(Label{.at = {none, 0}, .text = "nowhere"});
  scene.add(Circle{.center = {0, 0}, .radius = std::numeric_limits<double>::infinity()});
  EXPECT_TRUE(scene.items.empty());
  scene.add(line({0, 0}, {10, 5}));
  EXPECT_EQ(scene.items.size(), 1u);
}

}  // namespace
}  // namespace shimwright::report
