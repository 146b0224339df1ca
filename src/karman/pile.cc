#include "karman/pile.h"

#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "plate/disc_element.h"

namespace shimwright::karman {
namespace {

constexpr double kNoGap = 1e-12;  // thicknesses summed one way and the other differ by rounding only [m]
constexpr int kFills = 4;         // no gap between stations is wider than the free width over this, or a fill

void add_layers(const DiscTable& table, const plate::Stack& stack, Pile& pile) {
  const double e = table.valve.youngs_modulus;
  const double nu = table.valve.poisson_ratio;
  double height = 0.0;
  const plate::Disc* before = nullptr;
  for (const plate::Disc& disc : stack.discs) {
    const double t = disc.thickness;
    if (is_spacer(table.valve, disc)) {
      before = nullptr;
    } else if (before != nullptr && are_equal(*before, disc)) {
      ++pile.layers[pile.n_layers - 1].n_equal;
    } else {
      Layer& layer = pile.layers[pile.n_layers++];
      layer.disc = find_disc(table, disc.outer_radius);
      layer.n_equal = 1;
      layer.thickness = t;
      layer.z_bottom = height;
      before = &disc;
    }
    height += t;
  }
  for (int l = 0; l < pile.n_layers; ++l) {
    Layer& layer = pile.layers[l];
    const double t = layer.thickness;
    layer.stiffness = layer.n_equal * e * t * t * t / (12.0 * (1.0 - nu * nu));
    layer.give = 1.0 / layer.stiffness;
    layer.stretch = 12.0 * (1.0 - nu * nu) / (t * t);
    layer.shear_give = 1.0 / (plate::kShearFactor * e / (2.0 * (1.0 + nu)) * layer.n_equal * t);
    layer.offset = 0.5 * (layer.n_equal - 1) * t;
    layer.half_height = 0.5 * layer.n_equal * t;
  }
}

void choose_stations(const DiscTable& table, Pile& pile) {
  // rims and seat, then fills where they leave much between them
  std::array<bool, kMostRadii> wanted{};
  int largest = 0;
  for (int l = 0; l < pile.n_layers; ++l) {
    const int rim = pile.layers[l].disc->n - 1;
    wanted[rim] = true;
    largest = std::max(largest, rim);
  }
  wanted[table.seat_station] = true;
  const double clamp = table.valve.clamp_radius;
  const double widest = (table.radius[largest] - clamp) / kFills;
  double last = clamp;
  int first_free = 0;
  const auto take = [&](int s) {
    SW_CHECK(pile.n_stations < kMostStations);
    pile.station[pile.n_stations++] = s;
    last = table.radius[s];
    first_free = s + 1;
  };
  for (int s = 0; s <= largest; ++s) {
    if (!wanted[s]) continue;
    const double r = table.radius[s];
    const double start = last;
    const int parts = static_cast<int>(std::ceil((r - start) / widest - 1e-9));
    for (int j = 1; j < parts; ++j) {
      const double aim = start + (r - start) * j / parts;
      int best = first_free;
      while (best + 1 < s && std::abs(table.radius[best + 1] - aim) < std::abs(table.radius[best] - aim))
        ++best;
      if (best < s) take(best);
    }
    take(s);
  }
}

void gather(const DiscTable& table, Pile& pile) {
  for (int k = 0; k < pile.n_stations; ++k)
    if (pile.station[k] == table.seat_station) pile.seat_station = k;
  for (int l = 0; l < pile.n_layers; ++l) {
    Layer& layer = pile.layers[l];
    const Disc& disc = *layer.disc;
    layer.n = 0;
    while (layer.n < pile.n_stations && pile.station[layer.n] < disc.n) ++layer.n;
    layer.first = l * kMostStations * kMostStations;
    for (int k = 0; k < layer.n; ++k) {
      const int sk = pile.station[k];
      const double* from = &disc.remainder[sk * disc.n];
      double* row = &pile.remainder[layer.first + k * kMostStations];
      const double shear = layer.shear_give;
      for (int q = 0; q < layer.n; ++q) {
        const int sq = pile.station[q];
        row[q] = layer.give * from[sq] + shear * table.shear_lift[std::min(sk, sq)];
      }
      double* lift = &pile.lift[(l * kMostStations + k) * kModes];
      double* slope = &pile.slope[(l * kMostStations + k) * kModes];
      for (int i = 0; i < kModes; ++i) {
        lift[i] = disc.lift[sk * kModes + i];
        slope[i] = disc.slope[sk * kModes + i];
        pile.lift_by_mode[(l * kModes + i) * kMostStations + k] = lift[i];
        pile.slope_by_mode[(l * kModes + i) * kMostStations + k] = slope[i];
      }
      if (l == 0)
        pile.pressure_lift[k] =
            layer.give * disc.pressure_lift[sk] + layer.shear_give * disc.pressure_shear[sk];
    }
  }
}

void pair_layers(Pile& pile) {
  const auto add = [&](int lower, int upper, int from, int to, double gap) {
    if (from > to) return;
    Run& run = pile.runs[pile.n_runs++];
    run = {lower, upper, pile.n_points, pile.n_points + to - from};
    for (int k = from; k <= to; ++k) pile.points[pile.n_points++] = {lower, upper, k, gap};
  };
  if (pile.has_seat) add(kSeat, 0, pile.seat_station, pile.seat_station, -pile.seat_height);
  for (int l = 0; l + 1 < pile.n_layers; ++l) {
    const Layer& lower = pile.layers[l];
    const double top = lower.z_bottom + lower.n_equal * lower.thickness;
    int between = 0;  // stations that a layer between the two covers
    for (int u = l + 1; u < pile.n_layers && between < lower.n; ++u) {
      const Layer& upper = pile.layers[u];
      double gap = upper.z_bottom - top;
      if (std::abs(gap) <= kNoGap) gap = 0.0;
      add(l, u, between, std::min(lower.n, upper.n) - 1, gap);
      between = std::max(between, upper.n);
    }
  }
}

}  // namespace

const Disc* find_disc(const DiscTable& table, double radius) {
  const double same = kSameRadius * table.radius.back();
  const auto at = std::lower_bound(table.discs.begin(), table.discs.end(), radius - same,
                                   [](const Disc& disc, double r) { return disc.radius < r; });
  return at != table.discs.end() && at->radius <= radius + same ? &*at : nullptr;
}

bool is_spacer(const Valve& valve, const plate::Disc& disc) {
  return disc.outer_radius <= valve.clamp_radius * (1.0 + kSameRadius);
}

bool are_equal(const plate::Disc& a, const plate::Disc& b) {
  return a.outer_radius == b.outer_radius && a.thickness == b.thickness;
}

void pile_up(const DiscTable& table, const plate::Stack& stack, Pile& pile) {
  pile.n_layers = pile.n_stations = pile.n_points = pile.n_runs = 0;
  pile.has_seat = stack.seat.present;
  pile.seat_height = stack.seat.height;
  add_layers(table, stack, pile);
  choose_stations(table, pile);
  gather(table, pile);
  pair_layers(pile);
}

}  // namespace shimwright::karman
