#include "document/document_pages.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <string>

namespace shimwright::document {
namespace {

/// Holds a page of docs/ to what is made for it; writes it when that is asked for.
void check(const std::string& name, const std::string& tables) {
  const std::string path = std::string(SW_SOURCE_DIR) + "/docs/" + name;
  std::ifstream file(path);
  const std::string page{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
  const auto mark = page.find(kPageMark);
  ASSERT_NE(mark, std::string::npos) << name << " has no line that ends what is written by hand";
  const std::string wanted = page.substr(0, mark) + kPageMark + "\n" + tables;
  if (std::getenv("SHIMWRIGHT_WRITE_DOCS") != nullptr) {
    std::ofstream(path) << wanted;
    return;
  }
  EXPECT_EQ(page, wanted) << "write it again: SHIMWRIGHT_WRITE_DOCS=1 document_tests --gtest_filter='*Docs*'";
}

TEST(DocumentDocs, TheResultPageSaysWhatTheDescriptionsSay) {
  check("result-document.md", result_page_tables());
}

TEST(DocumentDocs, TheBenchPageSaysWhatTheDescriptionsSay) {
  check("bench-document.md", bench_page_tables());
}

}  // namespace
}  // namespace shimwright::document
