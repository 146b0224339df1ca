#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <string>

#include "job/findings.h"

namespace shimwright::job {
namespace {

TEST(FindingCodes, EachIsDocumentedWithItsRuleAndSource) {
  std::ifstream file(SW_SOURCE_DIR "/docs/findings.md");
  const std::string page{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
  for (const FindingCode& code : finding_codes()) {
    const std::string row = std::string("| ") + code.code + " | " + word(code.worst) + " | " + code.rule +
                            " | " + code.source + " |";
    EXPECT_THAT(page, testing::HasSubstr(row));
  }
}

TEST(FindingCodes, TheyAscendAndNoneIsTwice) {
  for (std::size_t i = 1; i < finding_codes().size(); ++i) {
    EXPECT_LT(std::string(finding_codes()[i - 1].code), finding_codes()[i].code);
  }
}

}  // namespace
}  // namespace shimwright::job
