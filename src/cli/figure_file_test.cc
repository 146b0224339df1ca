#include "cli/figure_file.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdint>
#include <sstream>
#include <string>

#include "base/disk.h"
#include "base/test_folder.h"
#include "cli/commands.h"

namespace shimwright::cli {
namespace {

using ::testing::HasSubstr;
using ::testing::StartsWith;

struct Drawn {
  int code;
  std::string err;
};

Drawn drawn(const std::string& verb, const std::string& job, const std::string& path) {
  std::ostringstream out, err;
  const int code = run_command({verb, std::string(SW_SOURCE_DIR) + "/" + job, "--plot", path}, out, err);
  return {code, err.str()};
}

std::string bytes_of(const std::string& path) {
  return file_text(path, 64u << 20).value_or("");
}

/// Width and height as the first chunk of a PNG states them (PNG specification, 11.2.2 IHDR).
std::pair<std::uint32_t, std::uint32_t> png_size(const std::string& bytes) {
  if (bytes.size() < 24 || bytes.compare(12, 4, "IHDR") != 0) return {};
  const auto number = [&](std::size_t at) {
    std::uint32_t value = 0;
    for (std::size_t i = at; i < at + 4; ++i) value = value << 8 | static_cast<unsigned char>(bytes[i]);
    return value;
  };
  return {number(16), number(20)};
}

TEST(FigureFile, APngHasAHundredAndFiftyDotsForEachInchOfTheDrawing) {
  const TestFolder folder;
  for (const char* verb : {"stack", "force", "spring"}) {
    const std::string job = "test/zoo/coil-cartridge.job.toml", name = folder.file(verb);
    ASSERT_EQ(drawn(verb, job, name + ".svg").err.substr(0, 5), "wrote");
    drawn(verb, job, name + ".png");
    const std::string svg = bytes_of(name + ".svg");
    const auto stated = [&](const std::string& key) {  // in points, 72 to the inch
      return std::stod(svg.substr(svg.find(key + "=\"") + key.size() + 2));
    };
    const auto [width, height] = png_size(bytes_of(name + ".png"));
    EXPECT_NEAR(width, stated("width") / 72.0 * 150.0, 1.0) << verb;
    EXPECT_NEAR(height, stated("height") / 72.0 * 150.0, 1.0) << verb;
  }
}

TEST(FigureFile, AStackIsAsWideAsThePageOfTheWorkbenchShowsIt) {
  const TestFolder folder;
  drawn("stack", "test/zoo/bare-stack.job.toml", folder.file("s.svg"));
  const std::string svg = bytes_of(folder.file("s.svg"));
  EXPECT_THAT(svg.substr(0, 400), HasSubstr("width=\"460"));
}

TEST(FigureFile, EachDrawingHasAFileOfItsOwn) {
  const TestFolder folder;
  const Drawn some = drawn("stack", "test/zoo/two-legs.job.toml", folder.file("a.b.svg"));
  std::istringstream lines(some.err);
  std::string line;
  int n = 0;
  while (std::getline(lines, line)) {
    if (!line.starts_with("wrote ")) continue;
    ++n;
    const std::string name =
        n == 1 ? folder.file("a.b.svg") : folder.file("a.b-" + std::to_string(n) + ".svg");
    EXPECT_EQ(line, "wrote " + name);
    EXPECT_THAT(bytes_of(name), HasSubstr("<svg"));
  }
  EXPECT_GE(n, 3);
  EXPECT_NE(bytes_of(folder.file("a.b.svg")), bytes_of(folder.file("a.b-2.svg")));
}

TEST(FigureFile, AnotherEndingNothingToDrawAndAPlaceThatIsNoneAreSaidSo) {
  const TestFolder folder;
  for (const char* name : {"s.gif", "s", "svg", "s.svg.", "s.SVG"}) {
    const Drawn none = drawn("stack", "test/zoo/bare-stack.job.toml", folder.file(name));
    EXPECT_EQ(none.code, kEnvironment) << name;
    EXPECT_THAT(none.err, HasSubstr("the name must end in .svg or .png")) << name;
  }
  const Drawn nowhere = drawn("stack", "test/zoo/bare-stack.job.toml", folder.file("none/s.svg"));
  EXPECT_EQ(nowhere.code, kEnvironment);
  EXPECT_THAT(nowhere.err, HasSubstr("none/s.svg"));
}

}  // namespace
}  // namespace shimwright::cli
