#include "karman/pile.h"

#include <algorithm>
#include <cmath>

namespace shimwright::karman {
namespace {

constexpr double kSame = 1e-6;        // radii closer than this share are one
constexpr double kNoGap = 1e-12;      // thicknesses summed one way and the other differ by rounding only [m]
constexpr double kShearFactor = 5.0 / 6.0;
constexpr int kFills = 5;  // no gap between stations is wider than the free width over this, or a fill

void add_layers(const DiscTable& table, const plate::Stack& stack, Pile& pile, bool& fits) {
  const double e = table.valve.youngs_modulus;
  const double nu = table.valve.poisson_ratio;
  const double spacer = table.valve.clamp_radius * (1.0 + kSame);
  double height = 0.0;
  const plate::Disc* before = nullptr;
  for (const plate::Disc& disc : stack.discs) {
    const double t = disc.thickness;
    if (disc.outer_radius <= spacer) {
      before = nullptr;
    } else if (before != nullptr && before->outer_radius == disc.outer_radius && before->thickness == t) {
      ++pile.layers[static_cast<std::size_t>(pile.n_layers - 1)].n_equal;
    } else if (pile.n_layers == kMostLayers) {
      fits = false;
      return;
    } else {
      Layer& layer = pile.layers[static_cast<std::size_t>(pile.n_layers++)];
      layer.disc = find_disc(table, disc.outer_radius);
      layer.n_equal = 1;
      layer.thickness = t;
      layer.z_bottom = height;
      before = &disc;
    }
    height += t;
  }
  for (int l = 0; l < pile.n_layers; ++l) {
    Layer& layer = pile.layers[static_cast<std::size_t>(l)];
    const double t = layer.thickness;
    layer.stiffness = layer.n_equal * e * t * t * t / (12.0 * (1.0 - nu * nu));
    layer.give = 1.0 / layer.stiffness;
    layer.stretch = 12.0 * (1.0 - nu * nu) / (t * t);
    layer.shear_give = 1.0 / (kShearFactor * e / (2.0 * (1.0 + nu)) * layer.n_equal * t);
    layer.offset = 0.5 * (layer.n_equal - 1) * t;
    layer.half_height = 0.5 * layer.n_equal * t;
  }
}

void choose_stations(const DiscTable& table, Pile& pile, bool& fits) {
  // rims and seat, then fills where they leave much between them
  bool wanted[1024] = {};
  int largest = 0;
  for (int l = 0; l < pile.n_layers; ++l) {
    const int rim = pile.layers[static_cast<std::size_t>(l)].disc->n - 1;
    wanted[rim] = true;
    largest = std::max(largest, rim);
  }
  wanted[table.seat_station] = true;
  const double clamp = table.valve.clamp_radius;
  const double widest = (table.radius[static_cast<std::size_t>(largest)] - clamp) / kFills;
  double last = clamp;
  int first_free = 0;
  const auto take = [&](int s) {
    if (pile.n_stations == kMostStations) {
      fits = false;
      return;
    }
    pile.station[static_cast<std::size_t>(pile.n_stations++)] = s;
    last = table.radius[static_cast<std::size_t>(s)];
    first_free = s + 1;
  };
  for (int s = 0; s <= largest; ++s) {
    if (!wanted[s]) continue;
    const double r = table.radius[static_cast<std::size_t>(s)];
    const double start = last;
    const int parts = static_cast<int>(std::ceil((r - start) / widest - 1e-9));
    for (int j = 1; j < parts; ++j) {
      const double aim = start + (r - start) * j / parts;
      int best = first_free;
      while (best + 1 < s && std::abs(table.radius[static_cast<std::size_t>(best + 1)] - aim) <
                                 std::abs(table.radius[static_cast<std::size_t>(best)] - aim))
        ++best;
      if (best < s) take(best);
    }
    take(s);
  }
}

void gather(const DiscTable& table, Pile& pile) {
  for (int k = 0; k < pile.n_stations; ++k)
    if (pile.station[static_cast<std::size_t>(k)] == table.seat_station) pile.seat_station = k;
  for (int l = 0; l < pile.n_layers; ++l) {
    Layer& layer = pile.layers[static_cast<std::size_t>(l)];
    const Disc& disc = *layer.disc;
    layer.n = 0;
    while (layer.n < pile.n_stations && pile.station[static_cast<std::size_t>(layer.n)] < disc.n) ++layer.n;
    layer.first = l * kMostStations * kMostStations;
    for (int k = 0; k < layer.n; ++k) {
      const int sk = pile.station[static_cast<std::size_t>(k)];
      const double* from = &disc.remainder[static_cast<std::size_t>(sk * disc.n)];
      double* row = &pile.remainder[static_cast<std::size_t>(layer.first + k * kMostStations)];
      const double shear = layer.shear_give;
      for (int q = 0; q < layer.n; ++q) {
        const int sq = pile.station[static_cast<std::size_t>(q)];
        row[q] = layer.give * from[sq] + shear * table.shear_lift[static_cast<std::size_t>(std::min(sk, sq))];
      }
      double* lift = &pile.lift[static_cast<std::size_t>((l * kMostStations + k) * kWidth)];
      double* slope = &pile.slope[static_cast<std::size_t>((l * kMostStations + k) * kWidth)];
      lift[kWidth - 1] = slope[kWidth - 1] = 0.0;
      for (int i = 0; i < kModes; ++i) {
        lift[i] = disc.lift[static_cast<std::size_t>(sk * kModes + i)];
        slope[i] = disc.slope[static_cast<std::size_t>(sk * kModes + i)];
      }
      if (l == 0)
        pile.pressure_lift[static_cast<std::size_t>(k)] =
            layer.give * disc.pressure_lift[static_cast<std::size_t>(sk)] +
            layer.shear_give * disc.pressure_shear[static_cast<std::size_t>(sk)];
    }
  }
}

void pair_layers(Pile& pile) {
  const auto add = [&](int lower, int upper, int from, int to, double gap) {
    if (from > to) return;
    Run& run = pile.runs[static_cast<std::size_t>(pile.n_runs++)];
    run = {lower, upper, pile.n_points, pile.n_points + to - from};
    for (int k = from; k <= to; ++k)
      pile.points[static_cast<std::size_t>(pile.n_points++)] = {lower, upper, k, gap};
  };
  if (pile.has_seat) add(kSeat, 0, pile.seat_station, pile.seat_station, -pile.seat_height);
  for (int l = 0; l + 1 < pile.n_layers; ++l) {
    const Layer& lower = pile.layers[static_cast<std::size_t>(l)];
    const double top = lower.z_bottom + lower.n_equal * lower.thickness;
    int between = 0;  // stations that a layer between the two covers
    for (int u = l + 1; u < pile.n_layers && between < lower.n; ++u) {
      const Layer& upper = pile.layers[static_cast<std::size_t>(u)];
      double gap = upper.z_bottom - top;
      if (std::abs(gap) <= kNoGap) gap = 0.0;
      add(l, u, between, std::min(lower.n, upper.n) - 1, gap);
      between = std::max(between, upper.n);
    }
  }
}

}  // namespace

const Disc* find_disc(const DiscTable& table, double radius) {
  const double same = kSame * table.radius.back();
  const auto at = std::lower_bound(table.discs.begin(), table.discs.end(), radius - same,
                                   [](const Disc& disc, double r) { return disc.radius < r; });
  return at != table.discs.end() && at->radius <= radius + same ? &*at : nullptr;
}

bool pile_up(const DiscTable& table, const plate::Stack& stack, Pile& pile) {
  pile.n_layers = pile.n_stations = pile.n_points = pile.n_runs = 0;
  pile.has_seat = stack.seat.present;
  pile.seat_height = stack.seat.height;
  bool fits = true;
  add_layers(table, stack, pile, fits);
  if (!fits) return false;
  choose_stations(table, pile, fits);
  if (!fits) return false;
  gather(table, pile);
  pair_layers(pile);
  return true;
}

}  // namespace shimwright::karman
