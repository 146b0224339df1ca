#include "spring/coil.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/check.h"

namespace shimwright::spring {
namespace {

/// A stretch of the stack's straight line between two coils dropping out, by compression of the stack.
struct Stretch {
  double from = 0.0;    // compression where it begins [m]
  double force = 0.0;   // there [N]
  double energy = 0.0;  // stored up to there [J]
  double rate = 0.0;    // of the coils still working [N/m]
};

double bind_force(const Coil& coil) {
  return coil.rate * *coil.bind_compression;
}

/// The line of the stack from zero compression on. The last stretch has no end.
std::vector<Stretch> line_of(const CoilStack& stack, bool* binds = nullptr) {
  SW_CHECK(!stack.in_series.empty());
  // coils in the order in which they bind
  std::vector<Coil> limited;
  double compliance = 0.0;
  for (const Coil& coil : stack.in_series) {
    SW_CHECK(coil.rate > 0.0, coil.rate);
    compliance += 1.0 / coil.rate;
    if (coil.bind_compression) limited.push_back(coil);
  }
  std::ranges::sort(limited, {}, bind_force);
  if (binds != nullptr) *binds = limited.size() == stack.in_series.size();

  // one stretch until each of them binds
  std::vector<Stretch> line{{0.0, 0.0, 0.0, 1.0 / compliance}};
  std::size_t working = stack.in_series.size();
  for (const Coil& coil : limited) {
    const Stretch& last = line.back();
    const double force = bind_force(coil);
    const double length = (force - last.force) / last.rate;
    const double energy = last.energy + 0.5 * (last.force + force) * length;
    compliance -= 1.0 / coil.rate;
    --working;
    // past its block the stack goes on at the last rate, for want of a better one
    const double rate = working > 0 ? 1.0 / compliance : last.rate;
    line.push_back({last.from + length, force, energy, rate});
  }
  return line;
}

/// Force, rate and stored energy at a compression of the stack.
ElementForce on_line(const std::vector<Stretch>& line, double compression) {
  // just touched it has its rate: that of going in
  if (compression < 0.0) return {};
  const auto after = std::ranges::find_if(line, [&](const Stretch& s) { return s.from > compression; });
  const Stretch& here = *std::prev(after);
  const double past = compression - here.from;
  const double force = here.force + here.rate * past;
  return {force, here.rate, here.energy + 0.5 * (here.force + force) * past};
}

}  // namespace

double coil_rate(const CoilGeometry& coil) {
  SW_CHECK(coil.mean_diameter > 0.0 && coil.active_coils > 0.0, coil.mean_diameter, coil.active_coils);
  return coil.shear_modulus * std::pow(coil.wire_diameter, 4) /
         (8.0 * std::pow(coil.mean_diameter, 3) * coil.active_coils);
}

double spring_index(const CoilGeometry& coil) {
  return coil.mean_diameter / coil.wire_diameter;
}

double solid_length(const CoilGeometry& coil) {
  return coil.total_coils * coil.wire_diameter;
}

double bind_compression(const CoilGeometry& coil) {
  return coil.free_length - solid_length(coil);
}

double wahl_factor(double index) {
  return (4.0 * index - 1.0) / (4.0 * index - 4.0) + 0.615 / index;
}

double bergstraesser_factor(double index) {
  return (4.0 * index + 2.0) / (4.0 * index - 3.0);
}

double shear_stress(const CoilGeometry& coil, double force, double factor) {
  return factor * 8.0 * force * coil.mean_diameter / (std::numbers::pi * std::pow(coil.wire_diameter, 3));
}

double rate_in_parallel(std::span<const double> rates) {
  double sum = 0.0;
  for (const double rate : rates) sum += rate;
  return sum;
}

double rate_in_series(std::span<const double> rates) {
  double compliance = 0.0;
  for (const double rate : rates) {
    SW_CHECK(rate > 0.0, rate);
    compliance += 1.0 / rate;
  }
  return 1.0 / compliance;
}

ElementForce coil_force(const CoilStack& stack, double travel) {
  const std::vector<Stretch> line = line_of(stack);
  ElementForce here = on_line(line, stack.preload + travel);
  here.energy -= on_line(line, stack.preload).energy;
  return here;
}

std::optional<double> bind_travel(const CoilStack& stack) {
  bool binds = false;
  const std::vector<Stretch> line = line_of(stack, &binds);
  if (!binds) return std::nullopt;
  return line.back().from - stack.preload;
}

std::vector<double> crossover_travels(const CoilStack& stack) {
  std::vector<double> travels;
  const std::vector<Stretch> line = line_of(stack);
  for (std::size_t i = 1; i < line.size(); ++i) travels.push_back(line[i].from - stack.preload);
  return travels;
}

}  // namespace shimwright::spring
