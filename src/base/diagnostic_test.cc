#include "base/diagnostic.h"

#include <gmock/gmock.h>

namespace shimwright {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

Diagnostic bare_thickness() {
  return {.code = "E0312",
          .severity = Severity::Stop,
          .file = "fork.job.toml",
          .line = 2,
          .column = 13,
          .length = 4,
          .path = "piston_valve.rebound.discs[3].thickness",
          .what = "expected a length with its unit",
          .got = "0.20",
          .expected = "",
          .remedy = "write \"0.20 mm\" (or \"0.00787 in\")"};
}

std::string caret_line(const Diagnostic& diagnostic, std::string_view source) {
  const std::string text = render(diagnostic, source);
  const std::size_t second = text.find('\n', text.find('\n') + 1) + 1;
  const std::string line = text.substr(second, text.find('\n', second) - second);
  return line.substr(0, line.rfind('^') + 1);
}

TEST(Diagnostic, RendersHeadingSourceCaretAndRemedy) {
  EXPECT_EQ(render(bare_thickness(), "[[discs]]\nthickness = 0.20\nnext = 1\n"),
            "error[E0312] fork.job.toml:2:13  piston_valve.rebound.discs[3].thickness\n"
            "     2 | thickness = 0.20\n"
            "                     ^^^^ expected a length with its unit, got 0.20\n"
            "    write \"0.20 mm\" (or \"0.00787 in\")\n");
}

TEST(Diagnostic, RendersWithoutTheFileAtHand) {
  EXPECT_EQ(render(bare_thickness(), ""),
            "error[E0312] fork.job.toml:2:13  piston_valve.rebound.discs[3].thickness\n"
            "    expected a length with its unit, got 0.20\n"
            "    write \"0.20 mm\" (or \"0.00787 in\")\n");
}

TEST(Diagnostic, RendersAFindingThatHasNoPlace) {
  EXPECT_EQ(render({.code = "F0107",
                    .severity = Severity::Look,
                    .what = "the rod chamber runs out of pressure at 2.4 m/s",
                    .remedy = "Stiffen the foot valve."},
                   ""),
            "look[F0107]\n"
            "    the rod chamber runs out of pressure at 2.4 m/s\n"
            "    Stiffen the foot valve.\n");
}

TEST(Diagnostic, NamesWhatIsAccepted) {
  Diagnostic diagnostic = bare_thickness();
  diagnostic.expected = "a length above zero";
  EXPECT_THAT(render(diagnostic, ""), HasSubstr("    accepted: a length above zero\n"));
}

TEST(Diagnostic, CaretStandsUnderTheCharacterAfterWideLettersAndTabs) {
  Diagnostic diagnostic = bare_thickness();
  diagnostic.line = 1;
  diagnostic.column = 5;
  diagnostic.length = 1;
  EXPECT_EQ(caret_line(diagnostic, "Øµ= 0.20"), "             ^");
  EXPECT_EQ(caret_line(diagnostic, "\tt= 0.20"), "         \t   ^");
}

TEST(Diagnostic, CaretStopsAtTheEndOfTheLine) {
  Diagnostic diagnostic = bare_thickness();
  diagnostic.line = 1;
  diagnostic.column = 5;
  diagnostic.length = 40;
  EXPECT_EQ(caret_line(diagnostic, "t = 0.2\r\n"), "             ^^^");
  diagnostic.column = 400;  // a place past the end, such as a missing value
  EXPECT_EQ(caret_line(diagnostic, "t = "), "             ^");
}

TEST(Diagnostic, VeryLongLinesAreCutAroundThePlace) {
  Diagnostic diagnostic = bare_thickness();
  diagnostic.line = 1;
  diagnostic.column = 5001;
  const std::string source = std::string(5000, 'a') + "0.20" + std::string(5000, 'b');
  const std::string text = render(diagnostic, source);
  EXPECT_LT(text.size(), 600u);
  EXPECT_THAT(text, HasSubstr("aaa0.20bbb"));
  EXPECT_EQ(caret_line(diagnostic, source), std::string(9 + 1 + 60, ' ') + "^^^^");
}

TEST(Diagnostic, ControlCharactersOfTheFileDoNotReachTheTerminal) {
  Diagnostic diagnostic = bare_thickness();
  diagnostic.line = 1;
  diagnostic.got = "\x1b[2J";
  const std::string text = render(diagnostic, "t = \x1b[2J \xff\n");
  EXPECT_EQ(text.find('\x1b'), std::string::npos);
  EXPECT_EQ(text.find('\xff'), std::string::npos);
}

TEST(Diagnostic, SortsByFileLineColumnAndCode) {
  const auto at = [](const char* code, const char* file, int line, int column) {
    return Diagnostic{.code = code, .file = file, .line = line, .column = column};
  };
  Diagnostics all{at("E5", "b", 1, 1), at("E4", "a", 2, 1), at("E3", "a", 1, 9), at("E2", "a", 1, 9),
                  at("E1", "a", 1, 2)};
  sort_by_place(all);
  std::vector<std::string> codes;
  for (const Diagnostic& diagnostic : all) codes.push_back(diagnostic.code);
  EXPECT_THAT(codes, ElementsAre("E1", "E2", "E3", "E4", "E5"));
}

TEST(Diagnostic, OnlyAStopStops) {
  EXPECT_FALSE(has_stop({}));
  EXPECT_FALSE(has_stop(Diagnostics{{.severity = Severity::Note}, {.severity = Severity::Look}}));
  EXPECT_TRUE(has_stop(Diagnostics{{.severity = Severity::Note}, {.severity = Severity::Stop}}));
}

TEST(NearestName, FindsSlipsOfTheFingerAndNoMore) {
  const std::vector<std::string> keys{"thickness", "outer_diameter", "bore", "lb", "MPa"};
  EXPECT_EQ(nearest_name("thikness", keys), "thickness");
  EXPECT_EQ(nearest_name("thicknses", keys), "thickness");  // two letters swapped
  EXPECT_EQ(nearest_name("outer_diamter", keys), "outer_diameter");
  EXPECT_EQ(nearest_name("lbs", keys), "lb");
  EXPECT_EQ(nearest_name("mpa", keys), "MPa");  // case alone costs nothing
  EXPECT_EQ(nearest_name("colour", keys), "");
  EXPECT_EQ(nearest_name("", keys), "");
  EXPECT_EQ(nearest_name(std::string(100000, 'x'), keys), "");
  EXPECT_EQ(nearest_name("bore", {}), "");
}

}  // namespace
}  // namespace shimwright
