#include "cli/table.h"

#include <gmock/gmock.h>

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

TEST(Table, ParagraphsStayInsideTheirWidth) {
  EXPECT_EQ(paragraph("one two three four", 9, 2), "  one two\n  three\n  four\n");
  EXPECT_EQ(paragraph(""), "");
}

}  // namespace
}  // namespace shimwright::cli
