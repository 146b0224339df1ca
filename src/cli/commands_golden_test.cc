// What each verb prints for a few whole jobs, against what it printed: regression (trust D of STYLE 1.3),
// never validation. Words and white space must be the same; numbers may move by 1 %. After a change on
// purpose: SHIMWRIGHT_WRITE_DOCS=1 build-check/cli_tests --gtest_filter='PrintedGolden*'
#include <gtest/gtest.h>

#include <cctype>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "cli/commands.h"

namespace shimwright::cli {
namespace {

const std::vector<std::vector<std::string>> kCommands = {
    {"check", "test/zoo/linkage-shock.job.toml"},
    {"check", "test/zoo/bare-stack.job.toml"},
    {"stack", "test/zoo/two-legs.job.toml"},
    {"force", "test/zoo/preloaded-fork.job.toml", "--speeds", "0.1 m/s, 1 m/s"},
    {"force", "test/zoo/linkage-shock.job.toml", "--speeds", "0.1 m/s", "--clicks", "rebound needle = 3"},
    {"spring", "test/zoo/air-and-coil.job.toml"},
    {"oil", "test/zoo/leverage-shock-inch.job.toml", "--temperatures", "0 degC, 40 degC"},
    {"assemble", "test/zoo/both-ends.job.toml"},
    {"assemble", "test/zoo/leverage-shock-inch.job.toml", "--units", "imperial"},
    {"bench", "test/zoo/preloaded-fork.job.toml"},
    {"bench", "test/zoo/two-legs.job.toml"},
    {"compare", "test/zoo/coil-cartridge.job.toml", "test/zoo/kit.job.toml"},
    {"check", "examples/broken/valve.job.toml"}};

/// From the root of the source, so that no name depends on where it lies.
std::string printed() {
  const std::filesystem::path here = std::filesystem::current_path();
  std::filesystem::current_path(SW_SOURCE_DIR);
  std::ostringstream all;
  for (const std::vector<std::string>& command : kCommands) {
    all << "$";
    for (const std::string& word : command) all << ' ' << word;
    std::ostringstream out, err;
    const int code = run_command(command, out, err);
    const std::string text = out.str() + err.str();
    all << "\n" << text << "exit " << code << "\n\n";
  }
  std::filesystem::current_path(here);
  return all.str();
}

/// A line in words and numbers: "1.5 mm" -> "#  mm" and 1.5.
struct Line {
  std::string words;
  std::vector<double> numbers;
};

Line split(const std::string& text) {
  Line line;
  for (std::size_t i = 0; i < text.size();) {
    const bool digit = std::isdigit(static_cast<unsigned char>(text[i])) != 0;
    const bool in_word =
        i > 0 && (std::isalnum(static_cast<unsigned char>(text[i - 1])) != 0 || text[i - 1] == '[');
    if (!digit || in_word) {
      line.words += text[i++];
      continue;
    }
    char* end = nullptr;
    line.numbers.push_back(std::strtod(text.c_str() + i, &end));
    line.words += '#';
    i = static_cast<std::size_t>(end - text.c_str());
  }
  return line;
}

TEST(PrintedGolden, EachVerbPrintsWhatItPrinted) {
  const std::string path = std::string(SW_SOURCE_DIR) + "/test/jobs/printed.expected";
  const std::string now = printed();
  if (std::getenv("SHIMWRIGHT_WRITE_DOCS") != nullptr) std::ofstream(path) << now;
  std::ifstream before(path);
  std::istringstream lines(now);
  std::string was, is;
  for (int n = 1; std::getline(lines, is); ++n) {
    ASSERT_TRUE(std::getline(before, was)) << "a line more: " << is;
    const Line a = split(was), b = split(is);
    ASSERT_EQ(a.words, b.words) << "line " << n;
    for (std::size_t i = 0; i < a.numbers.size(); ++i)
      ASSERT_NEAR(a.numbers[i], b.numbers[i], 0.01 * std::abs(a.numbers[i])) << "line " << n << ": " << is;
  }
  EXPECT_FALSE(std::getline(before, was)) << "a line less: " << was;
}

}  // namespace
}  // namespace shimwright::cli
