// Every broken example gives its codes at their places. The words are read by eye.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include <fmt/format.h>

#include "file/load.h"
#include "file/load_codes.h"

namespace shimwright::file {
namespace {

namespace fs = std::filesystem;

const fs::path kBroken = fs::path(SW_SOURCE_DIR) / "examples" / "broken";

std::string file_text(const fs::path& path) {
  std::ifstream stream(path, std::ios::binary);
  std::ostringstream text;
  text << stream.rdbuf();
  return text.str();
}

std::vector<fs::path> broken_jobs() {
  std::vector<fs::path> paths;
  for (const fs::directory_entry& entry : fs::directory_iterator(kBroken))
    if (entry.path().string().ends_with(".job.toml")) paths.push_back(entry.path());
  std::sort(paths.begin(), paths.end());
  return paths;
}

/// "E0303 valve.job.toml:12:8+4 unit[0].travel", a line for each.
std::string found_in(const fs::path& path) {
  DiskFiles files;
  std::string lines;
  for (const Diagnostic& d : load_job(files, path.string()).diagnostics)
    lines += fmt::format("{} {}:{}:{}+{} {}\n", d.code, fs::path(d.file).filename().string(), d.line,
                         d.column, d.length, d.path);
  return lines;
}

class Broken : public testing::TestWithParam<fs::path> {};

TEST_P(Broken, ExampleGivesItsCodesAtTheirPlaces) {
  fs::path expected = GetParam();
  expected.replace_extension("").replace_extension(".expected");
  if (std::getenv("SHIMWRIGHT_WRITE_DOCS") != nullptr) std::ofstream(expected) << found_in(GetParam());
  EXPECT_EQ(found_in(GetParam()), file_text(expected));
}

std::string test_name(const testing::TestParamInfo<fs::path>& info) {
  std::string name = info.param.stem().stem().string();
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
}

INSTANTIATE_TEST_SUITE_P(Examples, Broken, testing::ValuesIn(broken_jobs()), test_name);

TEST(BrokenExamples, EveryCodeIsShownByOne) {
  std::set<std::string> shown = {"E0101"};  // a job file that is not there has no example; see load_test.cc
  for (const fs::path& path : broken_jobs()) {
    std::istringstream lines(found_in(path));
    for (std::string line; std::getline(lines, line);) shown.insert(line.substr(0, 5));
  }
  for (const CodeFacts& facts : code_facts())
    EXPECT_TRUE(shown.contains(std::string(facts.id))) << facts.id << ' ' << facts.title;
}

TEST(BrokenExamples, EachSaysWhatIsWrongAndWhatToDo) {
  for (const fs::path& path : broken_jobs()) {
    DiskFiles files;
    for (const Diagnostic& diagnostic : load_job(files, path.string()).diagnostics) {
      EXPECT_FALSE(diagnostic.what.empty()) << path << diagnostic.code;
      EXPECT_FALSE(diagnostic.remedy.empty()) << path << diagnostic.code;
      EXPECT_EQ(diagnostic.severity, Severity::Stop);
    }
  }
}

}  // namespace
}  // namespace shimwright::file
