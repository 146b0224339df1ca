// What each verb prints for a few whole jobs, against what it printed: regression (trust D of STYLE 1.3),
// never validation. Words and white space must be the same; numbers may move by 1 %. After a change on
// purpose: SHIMWRIGHT_WRITE_DOCS=1 build-check/cli_tests --gtest_filter='PrintedGolden*'
#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "base/test_folder.h"
#include "cli/commands.h"

namespace shimwright::cli {
namespace {

/// In place of OUT stands a folder of the test's own.
const std::vector<std::vector<std::string>> kCommands = {
    {"check", "test/zoo/linkage-shock.job.toml"},
    {"check", "test/zoo/bare-stack.job.toml"},
    {"check", "test/zoo/open-bath-holes.job.toml", "--units", "imperial"},
    {"stack", "test/zoo/two-legs.job.toml"},
    {"stack", "test/zoo/bare-stack.job.toml", "--units", "imperial", "--pressures", "30 psi, 90 psi"},
    {"stack", "test/zoo/bare-stack.job.toml", "--theory", "linear", "--csv"},
    {"stack", "examples/enduro-fork/enduro-fork.job.toml", "--theory", "linear"},
    {"stack", "examples/stack-only/preloaded-ring.job.toml"},
    {"force", "test/zoo/preloaded-fork.job.toml", "--speeds", "0.1 m/s, 1 m/s"},
    {"force", "test/zoo/linkage-shock.job.toml", "--speeds", "0.1 m/s", "--clicks", "rebound needle=3"},
    {"force", "test/zoo/two-legs.job.toml", "--speeds", "1 m/s, 0.1 m/s", "--csv", "--plot", "OUT/f.svg"},
    {"spring", "test/zoo/air-and-coil.job.toml"},
    {"spring", "test/zoo/linkage-shock.job.toml", "--plot", "OUT/s.svg"},
    {"oil", "test/zoo/leverage-shock-inch.job.toml", "--temperatures", "0 degC, 40 degC"},
    {"oil", "examples/enduro-fork/enduro-fork.job.toml"},
    {"assemble", "test/zoo/both-ends.job.toml"},
    {"assemble", "test/zoo/leverage-shock-inch.job.toml", "--units", "imperial"},
    {"assemble", "test/zoo/bare-stack.job.toml"},
    {"bench", "test/zoo/preloaded-fork.job.toml"},
    {"bench", "test/zoo/two-legs.job.toml"},
    {"bench", "test/zoo/air-and-coil.job.toml"},
    {"bench", "test/zoo/coil-cartridge.job.toml", "--air", "2 mL", "--units", "imperial", "--springs", "in"},
    {"bench", "test/zoo/linkage-shock.job.toml", "--csv", "--plot", "OUT/b.svg"},
    {"bench", "docs/lessons/02-two-millilitres-of-air/fork.job.toml", "--oil-temperature", "60 degC"},
    {"compare", "test/zoo/coil-cartridge.job.toml", "test/zoo/kit.job.toml"},
    {"compare", "test/zoo/linkage-shock.job.toml", "test/zoo/leverage-shock-inch.job.toml", "--csv"},
    {"packet", "test/zoo/kit.job.toml", "--out", "OUT/packet"},
    {"packet", "test/zoo/linkage-shock.job.toml", "--paper", "letter", "--bench", "--out", "OUT/packet"},
    {"packet", "test/zoo/kit.job.toml", "--out", "OUT/f.svg"},
    {"check", "examples/broken/valve.job.toml"},
    {"check", "examples/broken/keys.job.toml"},
    {"check", "examples/broken/shapes.job.toml"},
    {"check", "test/zoo/no-such.job.toml"},
    {"force", "test/zoo/kit.job.toml", "--speeds", "0.1 m/s, 2"},
    {"force", "test/zoo/kit.job.toml", "--speeds", "-1 m/s"},
    {"force", "test/zoo/kit.job.toml", "--clicks", "rebound needle", "--clicks", " = 12345"},
    {"force", "test/zoo/kit.job.toml", "--clicks", "no such needle = 2"},
    {"force", "test/zoo/kit.job.toml", "--plot", "OUT/f.gif"},
    {"bench", "test/zoo/kit.job.toml", "--air", "1 mL, 2 mL"},
    {"bench", "test/zoo/kit.job.toml", "--air", "two", "--oil-temperature", "60 degC"},
    {"bench", "test/zoo/kit.job.toml", "--air", "2 mL", "--oil-temperature", "60"},
    {"bench", "test/zoo/kit.job.toml", "--clicks", "rebound needle", "--clicks", "rebound needle = 3"},
    {"check", "test/zoo/kit.job.toml", "--clicks", "rebound needle", "--clicks", "rebound needle = 3"},
    {"force", "test/zoo/kit.job.toml", "--speeds", "2", "--clicks", "rebound needle = 3"},
    {"stack", "test/zoo/kit.job.toml", "--pressures", "2"},
    {"oil", "test/zoo/kit.job.toml", "--temperatures", "20"},
    {"packet", "test/zoo/kit.job.toml", "--clicks", "rebound needle", "--out", "OUT/none"},
    {"spring", "test/zoo/bare-stack.job.toml"},
    {"compare", "test/zoo/no-such.job.toml", "test/zoo/kit.job.toml"},
    {"compare", "test/zoo/kit.job.toml", "test/zoo/no-such.job.toml"},
    {"bench", "test/zoo/kit.job.toml", "--threads", "257"},
    {"bench", "test/zoo/bare-stack.job.toml", "--threads", "256"},
    {"open", "--port", "0"},
    {"open", "--port", "65536"},
    {"open", "test/zoo/no-such.job.toml", "--port", "1"},
    {"open", "README.md", "--port", "65535"},
    {"open", "--passphrase-file", "README.md"},
    {"check", "test/zoo/kit.job.toml", "--json", "--csv"},
    {"--help"},
    {"check", "--help"},
    {"stack", "--help"},
    {"force", "--help"},
    {"spring", "--help"},
    {"oil", "--help"},
    {"bench", "--help"},
    {"assemble", "--help"},
    {"packet", "--help"},
    {"compare", "--help"},
    {"open", "--help"},
    {"start", "--help"},
    {"start", "shock"},
    {"start", "wheel"},
    {"chek"},
    {"check", "--jsn"},
    {"completion", "--help"},
    {"completion"},
    {"completion", "zsh"},
    {"completion", "fish"},
    {"manual"}};

/// Of each table its first three rows and then every fortieth.
std::string sampled(const std::string& csv) {
  std::string kept, line;
  std::istringstream lines(csv);
  for (int n = 0; std::getline(lines, line); ++n) {
    while (line.ends_with('\r')) line.pop_back();
    if (line.empty()) n = -2;  // the heading of the next table is its row -1
    if (n < 3 || n % 40 == 0) kept += line + '\n';
  }
  return kept;
}

std::string with_each(std::string text, const std::string& old, const std::string& now) {
  for (std::size_t at = 0; (at = text.find(old, at)) != std::string::npos; at += now.size())
    text.replace(at, old.size(), now);
  return text;
}

/// Those above, and what fits on each post of the zoo.
std::vector<std::vector<std::string>> commands() {
  std::vector<std::vector<std::string>> all = kCommands;
  std::vector<std::string> files;
  for (const auto& entry : std::filesystem::directory_iterator("test/zoo"))
    if (entry.path().string().ends_with(".job.toml")) files.push_back(entry.path().string());
  std::ranges::sort(files);
  for (const std::string& file : files) all.push_back({"assemble", file});
  return all;
}

/// From the root of the source, so that no name depends on where it lies.
std::string printed() {
  const std::filesystem::path here = std::filesystem::current_path();
  std::filesystem::current_path(SW_SOURCE_DIR);
  const TestFolder own;
  std::ostringstream all;
  for (const std::vector<std::string>& command : commands()) {
    all << "$";
    for (const std::string& word : command) all << ' ' << word;
    std::ostringstream out, err;
    std::vector<std::string> given = command;
    for (std::string& word : given) word = with_each(word, "OUT", own.path.string());
    const int code = run_command(given, out, err);
    const bool is_csv = std::ranges::find(command, "--csv") != command.end();
    const std::string text = (is_csv ? sampled(out.str()) : out.str()) + err.str();
    all << "\n" << with_each(text, own.path.string(), "OUT") << "exit " << code << "\n\n";
  }
  std::filesystem::current_path(here);
  return all.str();
}

/// A line in words and numbers, which keep their decimals: "1.5 mm" -> "#1 mm" and 1.5.
struct Line {
  std::string words;
  std::vector<double> numbers;
};

Line split(const std::string& text, bool with_decimals) {
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
    const std::string typed(text.c_str() + i, static_cast<const char*>(end));
    const std::size_t point = with_decimals ? typed.find('.') : std::string::npos;
    line.words += '#' + std::to_string(point == std::string::npos ? 0 : typed.size() - point - 1);
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
  bool is_csv = false;  // it has all digits, down to what only rounding made
  for (int n = 1; std::getline(lines, is); ++n) {
    ASSERT_TRUE(std::getline(before, was)) << "a line more: " << is;
    if (is.starts_with("$")) is_csv = is.find("--csv") != std::string::npos;
    const Line a = split(was, !is_csv), b = split(is, !is_csv);
    ASSERT_EQ(a.words, b.words) << "line " << n;
    for (std::size_t i = 0; i < a.numbers.size(); ++i)
      ASSERT_NEAR(a.numbers[i], b.numbers[i], 0.01 * std::abs(a.numbers[i]) + (is_csv ? 1e-3 : 0.0))
          << "line " << n << ": " << is;
  }
  EXPECT_FALSE(std::getline(before, was)) << "a line less: " << was;
}

}  // namespace
}  // namespace shimwright::cli
