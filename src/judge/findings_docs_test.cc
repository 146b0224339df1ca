#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <string>

#include "judge/findings.h"

namespace shimwright::judge {
namespace {

/// The page with its table of codes as the code has it.
std::string page_with(const std::string& page) {
  std::string table;
  for (const FindingCode& code : finding_codes()) {
    table += std::string("| ") + code.code + " | " + word(code.worst) + " | " + code.rule + " | " +
             code.source + " |\n";
  }
  const auto from = page.find("| F101 |");
  auto to = page.rfind("\n| F");
  if (from == std::string::npos || to == std::string::npos) return page + table;
  to = page.find('\n', to + 1);
  return page.substr(0, from) + table + page.substr(to + 1);
}

TEST(FindingDocs, EachCodeIsDocumentedWithItsRuleAndSource) {
  const char* path = SW_SOURCE_DIR "/docs/findings.md";
  std::ifstream file(path);
  const std::string page{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
  const std::string wanted = page_with(page);
  if (std::getenv("SHIMWRIGHT_WRITE_DOCS") != nullptr) {
    std::ofstream(path) << wanted;
    return;
  }
  EXPECT_EQ(page, wanted) << "write it again: SHIMWRIGHT_WRITE_DOCS=1 judge_tests --gtest_filter='*Docs*'";
}

TEST(FindingCodes, TheyAscendAndNoneIsTwice) {
  for (std::size_t i = 1; i < finding_codes().size(); ++i) {
    EXPECT_LT(std::string(finding_codes()[i - 1].code), finding_codes()[i].code);
  }
}

}  // namespace
}  // namespace shimwright::judge
