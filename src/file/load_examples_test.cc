// The examples and the reference stacks load without a fault, to the numbers they say.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>

#include "file/load.h"

namespace shimwright::file {
namespace {

namespace fs = std::filesystem;

const fs::path kRoot = SW_SOURCE_DIR;

std::string faults_of(const LoadResult& result) {
  std::string text;
  for (const Diagnostic& diagnostic : result.diagnostics) text += render(diagnostic, "");
  return text;
}

TEST(Examples, LoadWithoutAFaultAndSayThatTheyAreInvented) {
  int n_jobs = 0;
  for (const fs::directory_entry& entry : fs::recursive_directory_iterator(kRoot / "examples")) {
    const fs::path& path = entry.path();
    if (!path.string().ends_with(".job.toml") || path.parent_path().filename() == "broken") continue;
    DiskFiles files;
    const LoadResult result = load_job(files, path.string());
    EXPECT_EQ(faults_of(result), "") << path;
    EXPECT_NE(result.job.scenario.value.find("nvented"), std::string::npos) << path;
    ++n_jobs;
  }
  EXPECT_GE(n_jobs, 7);  // three whole jobs and four lone stacks
}

TEST(Examples, EveryOilOfTheDataFolderLoads) {
  int n_oils = 0;
  for (const fs::directory_entry& entry : fs::directory_iterator(kRoot / "data" / "oils")) {
    if (entry.path().extension() != ".toml") continue;
    MemoryFiles files({{"job.toml", "parts = [\"oil.toml\"]\n"}, {"oil.toml", [&] {
                                                                    std::ifstream stream(entry.path());
                                                                    std::ostringstream text;
                                                                    text << stream.rdbuf();
                                                                    return text.str();
                                                                  }()}});
    const LoadResult result = load_job(files, "job.toml");
    EXPECT_EQ(faults_of(result), "") << entry.path();
    for (const OilSpec& oil : result.job.parts.oils) EXPECT_FALSE(oil.note.value.empty()) << oil.name;
    n_oils += static_cast<int>(result.job.parts.oils.size());
  }
  EXPECT_GE(n_oils, 4);
}

// ---- the reference stacks, against the table they were written from

struct ReferenceStack {
  std::vector<double> geometry;  // clamp, seat, pressure from, to [m, radii]; seat there; seat height [m]
  std::vector<std::vector<double>> discs;  // outer, bore, thickness [m, radii]; E [Pa]; nu
  std::vector<double> pressures;           // [Pa]
};

std::map<std::string, ReferenceStack> reference_stacks() {
  std::map<std::string, ReferenceStack> stacks;
  std::ifstream file(kRoot / "test" / "reference" / "fe_stacks.csv");
  std::string now;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line[0] == '#') continue;
    std::istringstream cells(line);
    std::string key, cell;
    std::getline(cells, key, ',');
    if (key == "case") {
      std::getline(cells, now, ',');
      continue;
    }
    std::vector<double> numbers;
    while (std::getline(cells, cell, ',')) numbers.push_back(std::strtod(cell.c_str(), nullptr));
    if (key == "geometry") stacks[now].geometry = numbers;
    if (key == "disc") stacks[now].discs.push_back(numbers);
    if (key == "linear.pressure_pa") stacks[now].pressures = numbers;
  }
  return stacks;
}

void expect_disc(const DiscSpec& disc, const DirectionSpec& stack, const std::vector<double>& reference) {
  const double rounding = 1e-12;  // [m]: the texts are decimal, as the table is
  EXPECT_NEAR(disc.outer_diameter.si, 2 * reference[0], rounding);
  if (disc.bore) {
    EXPECT_NEAR(disc.bore.si, 2 * reference[1], rounding);
  }
  EXPECT_NEAR(disc.thickness.si, reference[2], rounding);
  EXPECT_DOUBLE_EQ(stack.material->youngs_modulus.si, reference[3]);
  EXPECT_DOUBLE_EQ(stack.material->poisson_ratio.value, reference[4]);
}

TEST(ReferenceStacks, LoadToTheNumbersTheyWereWrittenFrom) {
  const auto stacks = reference_stacks();
  ASSERT_EQ(stacks.size(), 6u);
  for (const auto& [name, reference] : stacks) {
    SCOPED_TRACE(name);
    std::string lower = name;
    for (char& c : lower) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    DiskFiles files;
    const LoadResult result =
        load_job(files, (kRoot / "test" / "jobs" / ("fe-" + lower + ".stack.toml")).string());
    ASSERT_EQ(faults_of(result), "");
    const DirectionSpec& stack = *result.job.stack;

    const double rounding = 1e-12;  // [m]
    EXPECT_NEAR(stack.clamp.si, 2 * reference.geometry[0], rounding);
    EXPECT_NEAR(stack.seat.si, 2 * reference.geometry[1], rounding);
    EXPECT_NEAR(stack.pocket->inner.si, 2 * reference.geometry[2], rounding);
    EXPECT_NEAR(stack.pocket->outer.si, 2 * reference.geometry[3], rounding);
    EXPECT_EQ(stack.seat_support.value_or(true), reference.geometry[4] != 0.0);
    EXPECT_NEAR(stack.seat_height.value_or(0.0), reference.geometry[5], rounding);

    std::size_t index = 0;
    for (const DiscSpec& run : stack.stack)
      for (int n = 0; n < run.count.value_or(1); ++n) expect_disc(run, stack, reference.discs.at(index++));
    EXPECT_EQ(index, reference.discs.size());

    ASSERT_EQ(stack.pressures.size(), reference.pressures.size());
    for (std::size_t i = 0; i < reference.pressures.size(); ++i)
      EXPECT_DOUBLE_EQ(stack.pressures[i].si, reference.pressures[i]);
  }
}

}  // namespace
}  // namespace shimwright::file
