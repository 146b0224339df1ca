#include "cli/table.h"

#include <gmock/gmock.h>

#include <string>
#include <utility>
#include <vector>

namespace shimwright::cli {
namespace {

Table sample() {
  return {"Forces",
          {{"speed", "m/s", false}, {"who", "", true}},
          {{"0.05", "bleed"}, {"10", "=SUM(A1), \"x\""}},
          "ok."};
}

TEST(Table, AlignsNumbersRightAndWordsLeft) {
  EXPECT_EQ(to_text(sample()),
            "Forces\n"
            "speed  who\n"
            "  m/s\n"
            "-----  -------------\n"
            " 0.05  bleed\n"
            "   10  =SUM(A1), \"x\"\n"
            "ok.\n");
}

TEST(Table, CsvQuotesAndDisarmsFormulas) {
  EXPECT_EQ(to_csv(sample()), "speed [m/s],who\r\n0.05,bleed\r\n10,\"'=SUM(A1), \"\"x\"\"\"\r\n");
}

TEST(Table, CsvHasAllDigitsOfANumberWhereThePersonSeesThree) {
  Table table = sample();
  table.rows[0][0] = Cell("0.333", 1.0 / 3.0);
  table.rows[1][0] = Cell("0.3", 0.1 + 0.2);  // not 0.30000000000000004
  EXPECT_THAT(to_text(table), ::testing::HasSubstr("0.333  bleed"));
  EXPECT_THAT(to_csv(table), ::testing::HasSubstr("\r\n0.333333333333333,bleed\r\n0.3,"));
}

TEST(Table, HasANameThatAScriptCanWrite) {
  Table same = sample(), other = sample();
  same.title = "fork leg, piston valve: lift & stress";
  other.name = "fork leg: hand test";
  EXPECT_EQ(names_of({sample(), same, same, other}),
            (std::vector<std::string>{"forces", "fork-leg-piston-valve-lift-stress",
                                      "fork-leg-piston-valve-lift-stress-2", "fork-leg-hand-test"}));
}

TEST(Table, WidthIsCountedInCharactersAndNoLineEndsInABlank) {
  const Table table{
      "", {{"Öl", "", true}, {"n", "", false}, {"", "", true}}, {{"ää", "1", ""}, {"ä", "10", "µm"}}, ""};
  EXPECT_EQ(to_text(table),
            "Öl   n\n"
            "--  --  --\n"
            "ää   1\n"
            "ä   10  µm\n");
}

TEST(Table, WithoutRowsItHasItsHeadingAlone) {
  const Table table{"T", {{"a", "mm", false}, {"b", "", true}}, {}, ""};
  EXPECT_EQ(to_text(table), "T\n a  b\nmm\n--  -\n");
  EXPECT_EQ(to_csv(table), "a [mm],b\r\n");
}

TEST(Table, ACellOfACsvIsQuotedOrDisarmedOnlyWhereItMustBe) {
  for (const auto& [cell, written] : std::vector<std::pair<std::string, std::string>>{{"", ""},
                                                                                      {"a", "a"},
                                                                                      {"a b", "a b"},
                                                                                      {"a,b", "\"a,b\""},
                                                                                      {"a\"b", "\"a\"\"b\""},
                                                                                      {"a\nb", "\"a\nb\""},
                                                                                      {"a\rb", "\"a\rb\""},
                                                                                      {"=a", "'=a"},
                                                                                      {"+a", "'+a"},
                                                                                      {"-a", "'-a"},
                                                                                      {"@a", "'@a"},
                                                                                      {"a=", "a="}})
    EXPECT_EQ(to_csv({"", {{"x", "", true}}, {{cell}}, ""}), "x\r\n" + written + "\r\n") << cell;
  EXPECT_EQ(to_csv({"", {{"x", "", false}, {"y", "", false}}, {{"-1", "2"}}, ""}), "x,y\r\n-1,2\r\n")
      << "a number stays one";
}

TEST(Table, ParagraphsBreakExactlyWhereTheNextWordHasNoRoom) {
  EXPECT_EQ(paragraph("aa bbb", 6), "aa bbb\n");
  EXPECT_EQ(paragraph("aa bbb", 5), "aa\nbbb\n");
  EXPECT_EQ(paragraph("ää ßßß", 6), "ää ßßß\n") << "characters, not bytes";
  EXPECT_EQ(paragraph("aa bbb", 8, 2), "  aa bbb\n");
  EXPECT_EQ(paragraph("aa bbb", 7, 2), "  aa\n  bbb\n");
  EXPECT_EQ(paragraph("longer than that", 4), "longer\nthan\nthat\n") << "a long word has its own line";
  EXPECT_EQ(paragraph("one\ntwo", 80), "one two\n");
  EXPECT_EQ(paragraph(std::string(79, 'a') + " b"), std::string(79, 'a') + "\nb\n");
  EXPECT_EQ(paragraph(std::string(78, 'a') + " b"), std::string(78, 'a') + " b\n");
}

TEST(Table, ParagraphsStayInsideTheirWidth) {
  EXPECT_EQ(paragraph("one two three four", 9, 2), "  one two\n  three\n  four\n");
  EXPECT_EQ(paragraph(""), "");
}

}  // namespace
}  // namespace shimwright::cli
