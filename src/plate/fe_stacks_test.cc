// Stacks of solids, solved elsewhere (test/reference/fe_stacks.csv). Worst of all steps, lift: A 0.2, C 0.1,
// E 0.9, F 0.4, G1 0.5, H 1.4 % (H: own uncertainty 1.2 to 1.3 %); stress 1.5 % but for E (6.4 %, where a gap
// shim's rim presses on a point: own uncertainty 6 %). Why: solids squash at a crowded clamp, and read a
// strain of 2 % about 1.5 % higher.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "plate/stack.h"

namespace shimwright::plate {
namespace {

struct Case {
  std::string name;
  Stack stack;
  std::map<std::string, std::vector<double>> values;
};

std::vector<double> numbers_of(std::istream& line) {
  std::vector<double> numbers;
  for (std::string cell; std::getline(line, cell, ',');)
    numbers.push_back(std::strtod(cell.c_str(), nullptr));
  return numbers;
}

/// Reads test/reference/fe_stacks.csv; its header explains the rows.
std::vector<Case> read_cases() {
  std::ifstream file(SW_SOURCE_DIR "/test/reference/fe_stacks.csv");
  std::vector<Case> cases;
  for (std::string text; std::getline(file, text);) {
    if (text.empty() || text[0] == '#') continue;
    std::istringstream line(text);
    std::string key;
    std::getline(line, key, ',');
    if (key == "case") {
      Case next;
      std::getline(line, next.name, ',');
      cases.push_back(next);
      continue;
    }
    Case& now = cases.back();
    const std::vector<double> n = numbers_of(line);
    if (key == "geometry") {
      now.stack.clamp_radius = n[0];
      now.stack.load = {n[2], n[3], 1.0, 0.0};
      now.stack.seat = {n[4] != 0.0, n[1], n[5]};
    } else if (key == "disc") {
      Disc disc;
      disc.outer_radius = n[0];
      disc.bore_radius = n[1];
      disc.thickness = n[2];
      disc.youngs_modulus = n[3];
      disc.poisson_ratio = n[4];
      now.stack.discs.push_back(disc);
    } else {
      now.values[key] = n;
    }
  }
  return cases;
}

struct Disagreement {
  double lift = 0.0;  // relative
  double edge = 0.0;
  double face = 0.0;
  double stress = 0.0;
};

Disagreement compare(const Case& reference, const std::string& theory, const std::string& kind,
                     const Options& options, bool print) {
  Workspace workspace;
  const std::vector<double>& pressure = reference.values.at(theory + ".pressure_pa");
  const StackResult result = stack_response(reference.stack, pressure, options, workspace);
  const auto values = [&](const std::string& key) -> const std::vector<double>& {
    return reference.values.at(theory + "." + kind + key);
  };
  Disagreement worst;
  // below `zero` a lift reads as sealed; the thin-plate programme leaves its seat up to 6 nm off, a rim twice
  // that
  const auto off = [&](double value, double expected, double zero) {
    const double rest = kind == "thin_" && zero < 1.0 ? 1.3e-8 : 0.0;
    if (std::abs(expected) < zero) return std::abs(value) < zero ? 0.0 : 1.0;
    return std::abs(value - expected) < rest ? 0.0 : value / expected - 1.0;
  };
  const auto keep = [](double& most, double next) {
    if (std::abs(next) > std::abs(most)) most = next;
  };
  for (std::size_t i = 0; i < pressure.size(); ++i) {
    const StackPoint& point = result.points[i];
    EXPECT_NE(point.outcome.status, Status::Stalled) << reference.name << ' ' << pressure[i];
    const double lift = off(point.lift_seat, values("lift_seat_m")[i], 1e-6);  // below 1 um reads as sealed
    const double edge = off(point.lift_rim, values("lift_edge_m")[i], 1e-6);
    const double face = off(point.face_stress, values("face_stress_max_pa")[i], 1.0);
    const double stress = off(point.max_stress, values("stress_max_pa")[i], 1.0);
    if (print)
      std::printf("  %-3s %-6s %9.0f lift %+7.3f%% edge %+7.3f%% face %+7.3f%% stress %+7.3f%%  it %d\n",
                  reference.name.c_str(), theory.c_str(), pressure[i], 100 * lift, 100 * edge, 100 * face,
                  100 * stress, point.outcome.iterations);
    keep(worst.lift, lift);
    keep(worst.edge, edge);
    keep(worst.face, face);
    keep(worst.stress, stress);
  }
  return worst;
}

bool prints() {
  return std::getenv("SW_TOL_SCALE") != nullptr;
}

void report(const Case& c, const char* what, const Disagreement& d) {
  std::printf("%-3s %-24s lift %+7.3f%%  edge %+7.3f%%  face stress %+7.3f%%  stress %+7.3f%%\n",
              c.name.c_str(), what, 100 * d.lift, 100 * d.edge, 100 * d.face, 100 * d.stress);
}

TEST(FeStacks, ThinPlatesMatchTheThinPlateProgramme) {
  Options options;
  options.theory = Theory::Linear;
  options.shear_flexible = false;
  for (const Case& c : read_cases()) {
    const Disagreement d = compare(c, "linear", "thin_", options, prints());
    report(c, "thin, linear", d);
    EXPECT_LT(std::abs(d.lift), 0.003) << c.name;  // the source's own bound for thin plates
    EXPECT_LT(std::abs(d.edge), 0.003) << c.name;
  }
}

void expect_within_uncertainty(const std::string& theory, const Options& options) {
  for (const Case& c : read_cases()) {
    const Disagreement d = compare(c, theory, "", options, prints());
    report(c, theory.c_str(), d);
    // 1 % of lift and 3 % of stress are required of the plate model; the rest is the case's own
    const double own = 0.01 * c.values.at(theory + ".uncertainty_percent")[0];
    EXPECT_LT(std::abs(d.lift), 0.01 + own) << c.name;
    EXPECT_LT(std::abs(d.edge), 0.01 + own) << c.name;
    EXPECT_LT(std::abs(d.face), 0.03 + 0.01 * c.values.at(theory + ".uncertainty_face_stress_percent")[0])
        << c.name;
    EXPECT_LT(std::abs(d.stress), 0.03 + 0.01 * c.values.at(theory + ".uncertainty_stress_max_percent")[0])
        << c.name;
  }
}

TEST(FeStacks, ShearFlexibleLinearTheoryMatchesTheSolids) {
  Options options;
  options.theory = Theory::Linear;
  expect_within_uncertainty("linear", options);
}

TEST(FeStacks, LargeDeflectionMatchesTheSolids) {
  expect_within_uncertainty("large", Options{});
}

}  // namespace
}  // namespace shimwright::plate
