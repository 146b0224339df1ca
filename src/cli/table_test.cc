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

TEST(Table, ParagraphsStayInsideTheirWidth) {
  EXPECT_EQ(paragraph("one two three four", 9, 2), "  one two\n  three\n  four\n");
  EXPECT_EQ(paragraph(""), "");
}

}  // namespace
}  // namespace shimwright::cli
