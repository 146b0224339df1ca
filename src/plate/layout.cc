#include "plate/layout.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/check.h"

namespace shimwright::plate {
namespace {

constexpr int kLandSteps = 6;         // the fall of pressure across the land goes in this many steps
constexpr double kSameRadius = 1e-6;  // stations closer than this share of the largest radius are one
// widest gap between stations, as a share of the free width; where many discs are crowded their rims are
// places enough (20 discs, two stages: 5e-4 of the lift off, against 3e-4)
constexpr double kFill = 1.0 / 22.0;
constexpr double kFillCrowded = 1.0 / 16.0;
constexpr int kCrowded = 13;      // layers
constexpr double kNoGap = 1e-12;  // thicknesses summed one way and the other differ by rounding only [m]

double fixed_radius(const Stack& stack) {
  return stack.washer_radius > 0.0 ? std::min(stack.clamp_radius, stack.washer_radius) : stack.clamp_radius;
}

bool equal_discs(const Disc& a, const Disc& b, double fixed) {
  const bool same_bore = a.bore_radius == b.bore_radius || (a.bore_radius <= fixed && b.bore_radius <= fixed);
  return same_bore && a.outer_radius == b.outer_radius && a.thickness == b.thickness &&
         a.youngs_modulus == b.youngs_modulus && a.poisson_ratio == b.poisson_ratio &&
         a.notches.count == b.notches.count && a.notches.width == b.notches.width &&
         a.notches.depth == b.notches.depth;
}

/// Layers with their heights; returns the height of the whole pile. A ring adds nothing to the pile; it lies
/// on the highest disc under its own annulus.
double pile_layers(const Stack& stack, double fixed, std::vector<Layer>& layers) {
  layers.clear();
  double pile = 0.0;
  for (int i = 0; i < static_cast<int>(stack.discs.size()); ++i) {
    const Disc& disc = stack.discs[i];
    const bool ring = disc.bore_radius > fixed;
    if (!ring && disc.outer_radius <= fixed * (1.0 + kSameRadius)) {  // a spacer under the clamp
      pile += disc.thickness;
      continue;
    }
    const bool joins = !layers.empty() && layers.back().first_disc + layers.back().n_equal == i &&
                       equal_discs(stack.discs[i - 1], disc, fixed);
    if (joins) {
      ++layers.back().n_equal;
    } else {
      Layer layer;
      layer.first_disc = i;
      layer.ring = ring;
      layer.inner = ring ? disc.bore_radius : fixed;
      layer.outer = disc.outer_radius;
      layer.thickness = disc.thickness;
      layer.youngs_modulus = disc.youngs_modulus;
      layer.poisson_ratio = disc.poisson_ratio;
      layer.notches = disc.notches;
      layer.z_bottom = pile;
      if (ring) {
        layer.z_bottom = 0.0;
        for (const Layer& below : layers)
          if (below.outer > layer.inner && below.inner < layer.outer)
            layer.z_bottom = std::max(layer.z_bottom, below.z_bottom + below.height());
      }
      layers.push_back(layer);
    }
    if (!ring) pile += disc.thickness;
  }
  return pile;
}

void place_stations(const Stack& stack, double fixed, int refinement, Layout& layout) {
  // every radius at which something begins or ends
  std::vector<double>& radius = layout.radius;
  radius.clear();
  radius.push_back(fixed);
  double largest = fixed;
  for (const Layer& layer : layout.layers) {
    radius.push_back(layer.outer);
    if (layer.ring) radius.push_back(layer.inner);
    if (layer.notches.count > 0) radius.push_back(layer.outer - layer.notches.depth);
    largest = std::max(largest, layer.outer);
  }
  const Load& load = stack.load;
  radius.push_back(load.inner_radius);
  radius.push_back(load.outer_radius);
  const double land = std::min(load.land_outer_radius, layout.layers[0].outer);
  if (land > load.outer_radius)
    for (int k = 1; k <= kLandSteps; ++k)
      radius.push_back(load.outer_radius + (land - load.outer_radius) * k / kLandSteps);
  radius.push_back(stack.seat.radius);
  if (stack.back_spring.present) radius.push_back(stack.back_spring.radius);
  if (stack.washer_radius > 0.0) radius.push_back(std::max(stack.clamp_radius, stack.washer_radius));
  std::erase_if(radius, [&](double r) { return r < fixed || r > largest; });
  std::sort(radius.begin(), radius.end());
  const double same = kSameRadius * largest;
  radius.erase(std::unique(radius.begin(), radius.end(), [&](double a, double b) { return b - a <= same; }),
               radius.end());

  // fill what lies between, so that contact finds its place and the elements stay short
  const double fill = layout.n_layers() >= kCrowded ? kFillCrowded : kFill;
  const double widest = (largest - fixed) * fill / refinement;
  const std::size_t n_given = radius.size();
  for (std::size_t k = 0; k + 1 < n_given; ++k) {
    const double a = radius[k];
    const double width = radius[k + 1] - a;
    const int parts = static_cast<int>(std::ceil(width / widest - 1e-9));
    for (int j = 1; j < parts; ++j) radius.push_back(a + width * j / parts);
  }
  std::sort(radius.begin(), radius.end());
}

int station_of(const Layout& layout, double r) {
  int best = 0;
  for (int k = 1; k < static_cast<int>(layout.radius.size()); ++k)
    if (std::abs(layout.radius[k] - r) < std::abs(layout.radius[best] - r)) best = k;
  return best;
}

void place_load(const Stack& stack, Layout& layout) {
  const int n = static_cast<int>(layout.radius.size());
  const Load& load = stack.load;
  const double rim = layout.layers[0].outer;
  const double land = std::min(load.land_outer_radius, rim);
  layout.load_constant.assign(n, 0.0);
  layout.load_square.assign(n, 0.0);

  // inwards from the rim, adding what each ring of the pocket or land carries
  double outside = 0.0;
  for (int k = n - 2; k >= 0; --k) {
    const double a = layout.radius[k];
    const double b = layout.radius[k + 1];
    const double middle = 0.5 * (a + b);
    double share = 0.0;
    if (middle > load.inner_radius && middle < load.outer_radius && middle < rim) share = 1.0;
    // radial flow between parallel faces: the pressure falls with the logarithm of the radius; its mean over
    // the ring
    if (middle >= load.outer_radius && middle < land) {
      const auto under = [&](double r) { return r * r * (0.5 * std::log(land / r) + 0.25); };
      share = 2.0 * (under(b) - under(a)) / ((b * b - a * a) * std::log(land / load.outer_radius));
    }
    share *= load.arc_fraction;
    layout.load_constant[k] = outside + 0.5 * share * b * b;
    layout.load_square[k] = -0.5 * share;
    outside += 0.5 * share * (b * b - a * a);
  }
  layout.load_force = 2.0 * std::numbers::pi * outside;
}

/// Points where bodies can touch: at every station the bodies present there, in order, pair by pair.
void pair_bodies(const Stack& stack, double fixed, double pile, Layout& layout) {
  const int n_layers = layout.n_layers();
  const double boss = stack.clamp_radius;
  const double washer = stack.washer_radius > 0.0 ? stack.washer_radius : stack.clamp_radius;
  const int spring_station = stack.back_spring.present ? station_of(layout, stack.back_spring.radius) : -1;
  const double same = kSameRadius * layout.radius.back();
  layout.points.clear();
  for (int k = 0; k < static_cast<int>(layout.radius.size()); ++k) {
    const double r = layout.radius[k];
    int below = kBelow;
    for (int l = 0; l < n_layers; ++l) {
      const Layer& layer = layout.layers[l];
      if (k < layer.begin || k > layer.end) continue;
      if (!layer.ring && k == layer.begin) {  // held by the clamp
        below = l;
        continue;
      }
      if (below == kBelow) {
        if (r > fixed && r <= boss + same) layout.points.push_back({kBelow, l, k, layer.z_bottom, 0.0});
        if (l == 0 && stack.seat.present && k == layout.seat_station)
          layout.points.push_back({kBelow, l, k, -stack.seat.height, 0.0});
      } else {
        const Layer& under = layout.layers[below];
        layout.points.push_back({below, l, k, layer.z_bottom - (under.z_bottom + under.height()), 0.0});
      }
      below = l;
    }
    if (below == kBelow || k == 0) continue;
    if (r <= washer + same && r > fixed)
      layout.points.push_back(
          {below, n_layers, k, pile - layout.layers[below].z_bottom - layout.layers[below].height(), 0.0});
    if (k == spring_station) {
      const BackSpring& spring = stack.back_spring;
      layout.points.push_back(
          {below, n_layers + 1, k, spring.gap - spring.preload / spring.rate, 1.0 / spring.rate});
    }
  }
  for (ContactPoint& point : layout.points)
    if (std::abs(point.gap) <= kNoGap) point.gap = 0.0;
  std::sort(layout.points.begin(), layout.points.end(), [](const ContactPoint& a, const ContactPoint& b) {
    return a.lower != b.lower   ? a.lower < b.lower
           : a.upper != b.upper ? a.upper < b.upper
                                : a.station < b.station;
  });
  layout.first_point.assign(n_layers + 2, 0);
  for (const ContactPoint& point : layout.points) ++layout.first_point[point.lower + 2];
  for (int l = 0; l <= n_layers; ++l) layout.first_point[l + 1] += layout.first_point[l];
}

void find_runs(Layout& layout) {
  layout.runs.clear();
  for (int p = 0; p < static_cast<int>(layout.points.size()); ++p) {
    const ContactPoint& at = layout.points[p];
    const bool goes_on = !layout.runs.empty() && layout.runs.back().lower == at.lower &&
                         layout.runs.back().upper == at.upper &&
                         layout.runs.back().station + layout.runs.back().n == at.station;
    if (goes_on) {
      ++layout.runs.back().n;
    } else {
      layout.runs.push_back({at.lower, at.upper, p, 1, at.station});
    }
  }
  layout.runs_below.resize(layout.layers.size());
  layout.runs_above.resize(layout.layers.size());
  for (int l = 0; l < layout.n_layers(); ++l) {
    layout.runs_below[l].clear();
    layout.runs_above[l].clear();
  }
  for (int r = 0; r < static_cast<int>(layout.runs.size()); ++r) {
    const ContactRun& run = layout.runs[r];
    if (run.lower != kBelow) layout.runs_above[run.lower].push_back(r);
    if (run.upper < layout.n_layers()) layout.runs_below[run.upper].push_back(r);
  }
}

}  // namespace

void lay_out(const Stack& stack, int refinement, Layout& layout) {
  SW_CHECK(refinement >= 1, refinement);
  const double fixed = fixed_radius(stack);
  const double pile = pile_layers(stack, fixed, layout.layers);
  place_stations(stack, fixed, refinement, layout);
  for (Layer& layer : layout.layers) {
    layer.begin = station_of(layout, layer.inner);
    layer.end = station_of(layout, layer.outer);
    SW_CHECK(layer.end > layer.begin, layer.inner, layer.outer);
  }
  layout.seat_station = station_of(layout, stack.seat.radius);
  place_load(stack, layout);
  pair_bodies(stack, fixed, pile, layout);
  find_runs(layout);
}

}  // namespace shimwright::plate
