// The numbers of docs/lessons/01-taper-with-gap-shim are those of this solver: its tables are made again and
// compared. SW_LESSON_OUT=folder writes them there instead.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string>

#include "plate/lift_curve.h"
#include "plate/test_stacks.h"

namespace shimwright::plate {
namespace {

/// The stack of examples/stack-only/two-stage.job.toml.
Stack lesson_stack() {
  Stack stack = test_stack(
      {{11.75, 0.15}, {11.75, 0.15}, {11.75, 0.15}, {6.85, 0.10}, {11, 0.15}, {10, 0.15}, {8.5, 0.20}});
  stack.clamp_radius = 5.5e-3;
  stack.load = {6.5e-3, 10.5e-3, 0.75, 0.0};
  stack.seat = {true, 11e-3, 0.0};
  return stack;
}

constexpr double kPressures[] = {0.1e6, 0.5e6, 1.0e6};

std::string row(std::initializer_list<double> cells) {
  std::string text;
  for (double cell : cells) {
    char number[32];
    std::snprintf(number, sizeof number, "%.5g", cell == 0.0 ? 0.0 : cell);
    text += (text.empty() ? "" : ",") + std::string(number);
  }
  return text + "\n";
}

std::string shapes_table() {
  Options options;
  options.shapes = true;
  Workspace workspace;
  const Stack stack = lesson_stack();
  const StackResult result = stack_response(stack, kPressures, options, workspace);
  std::string text = "pressure_mpa,disc,radius_mm,height_mm,stress_mpa\n";
  for (const StackPoint& point : result.points) {
    double pile = 0.0;
    for (std::size_t disc = 0; disc < stack.discs.size(); ++disc) {
      const DiscShape& shape = point.shapes[disc];
      for (std::size_t k = 0; k < shape.radius.size(); ++k)
        text += row({1e-6 * point.pressure, static_cast<double>(disc), 1e3 * shape.radius[k],
                     1e3 * (pile + shape.deflection[k]), 1e-6 * shape.stress[k]});
      pile += stack.discs[disc].thickness;
    }
  }
  return text;
}

std::string path_table() {
  Workspace workspace;
  const Stack stack = lesson_stack();
  const double p_max = 1e6;
  const LinearPath path = linear_path(stack, p_max, Options{}, workspace);
  const LiftCurve curve = lift_curve(stack, p_max, Options{}, workspace);
  std::string text = "pressure_mpa,lift_linear_um,lift_large_um\n";
  for (std::size_t k = 0; k < path.pressure.size(); ++k)
    text += row({1e-6 * path.pressure[k], 1e6 * path.lift_seat[k], 1e6 * lift_at(curve, path.pressure[k])});
  for (int i = 1; i < 40; ++i) {
    const double p = p_max * i / 40;
    std::size_t k = 1;
    while (path.pressure[k] < p) ++k;
    const double share = (p - path.pressure[k - 1]) / (path.pressure[k] - path.pressure[k - 1]);
    text +=
        row({1e-6 * p, 1e6 * (path.lift_seat[k - 1] + share * (path.lift_seat[k] - path.lift_seat[k - 1])),
             1e6 * lift_at(curve, p)});
  }
  return text;
}

void expect_table(const std::string& name, const std::string& made) {
  if (const char* folder = std::getenv("SW_LESSON_OUT")) {
    std::ofstream(std::string(folder) + "/" + name) << made;
    return;
  }
  std::ifstream file(std::string(SW_SOURCE_DIR "/docs/lessons/01-taper-with-gap-shim/") + name);
  std::istringstream now(made);
  std::string kept_line, now_line;
  int n_lines = 0;
  while (std::getline(now, now_line)) {
    ASSERT_TRUE(std::getline(file, kept_line)) << name << " is shorter";
    std::istringstream kept_cells(kept_line), now_cells(now_line);
    for (std::string a, b; std::getline(kept_cells, a, ',') && std::getline(now_cells, b, ',');) {
      if (n_lines == 0) {
        EXPECT_EQ(a, b);
        continue;
      }
      const double kept = std::strtod(a.c_str(), nullptr);
      EXPECT_NEAR(std::strtod(b.c_str(), nullptr), kept, 2e-3 * std::abs(kept) + 1e-3)
          << name << ": " << kept_line;
    }
    ++n_lines;
  }
  EXPECT_FALSE(std::getline(file, kept_line)) << name << " is longer";
}

TEST(Lesson, ShapesAreThoseOfTheSolver) {
  expect_table("shapes.csv", shapes_table());
}
TEST(Lesson, PathIsThatOfTheSolver) {
  expect_table("path.csv", path_table());
}

}  // namespace
}  // namespace shimwright::plate
