#include "karman/newton.h"

#include <algorithm>
#include <cmath>

namespace shimwright::karman {
namespace {

constexpr int kMostSteps = 40;
constexpr double kNear = 0.02;          // a step of the amplitudes below this share of them is the last
constexpr double kNearRelease = 0.004;  // where the pressure is sought as well, which moves with the step
constexpr double kLeastForce = 1e-6;    // of the largest: a pull of less is none
constexpr double kLeastGap = 1e-9;      // an overlap of less is none [m]

/// Inverse of a symmetric positive matrix of the modes; false when it is none.
bool invert(const double (&s)[kModes][kModes], std::array<double, kWidth * kWidth>& out) {
  double l[kModes][kModes];
  double over[kModes];
  for (int i = 0; i < kModes; ++i) {
    for (int j = 0; j <= i; ++j) {
      double sum = s[i][j];
      for (int k = 0; k < j; ++k) sum -= l[i][k] * l[j][k];
      if (i == j) {
        if (!(sum > 1e-3)) return false;
        over[i] = 1.0 / std::sqrt(sum);
        l[i][i] = sum * over[i];
      } else {
        l[i][j] = sum * over[j];
      }
    }
  }
  double inv[kModes][kModes] = {};  // of the factor
  for (int i = 0; i < kModes; ++i) {
    inv[i][i] = over[i];
    for (int j = 0; j < i; ++j) {
      double sum = 0.0;
      for (int k = j; k < i; ++k) sum -= l[i][k] * inv[k][j];
      inv[i][j] = sum * over[i];
    }
  }
  out = {};
  for (int i = 0; i < kModes; ++i)
    for (int j = 0; j <= i; ++j) {
      double sum = 0.0;
      for (int k = i; k < kModes; ++k) sum += inv[k][i] * inv[k][j];
      out[i * kWidth + j] = out[j * kWidth + i] = sum;
    }
  return true;
}

/// Second derivatives of the stretching energy over the bending stiffness.
void stiffening(const Layer& layer, const double* y, double (&h)[kModes][kModes]) {
  double z[kPairs];
  int at = 0;
  for (int i = 0; i < kModes; ++i)
    for (int j = i; j < kModes; ++j) z[at++] = layer.stretch * y[i] * y[j];
  const double* row = layer.disc->stretch.data();
  for (int i = 0; i < kModes; ++i)
    for (int j = i; j < kModes; ++j) {
      double sum = 0.0;
      for (int k = 0; k < kPairs; ++k) sum += row[k] * z[k];
      h[i][j] = h[j][i] = sum;
      row += kPairs;
    }
}

void multiply(const std::array<double, kWidth * kWidth>& m, const double* x, double* out) {
  for (int i = 0; i < kModes; ++i) {
    double sum = 0.0;
    for (int j = 0; j < kModes; ++j) sum += m[i * kWidth + j] * x[j];
    out[i] = sum;
  }
}

double dot(const double* a, const double* b) {
  double sum = 0.0;
  for (int i = 0; i < kModes; ++i) sum += a[i] * b[i];
  return sum;
}

}  // namespace

void Newton::begin(State& state) const {
  for (int l = 0; l < pile_.n_layers; ++l) state.amplitude[l].fill(0.0);
  std::fill_n(state.active.begin(), pile_.n_points, 0);
  for (int r = 0; r < pile_.n_runs; ++r) {
    const Run& run = pile_.runs[r];
    const double gap = pile_.points[run.first].gap;
    state.active[run.last] = run.lower == kSeat ? gap < 0.0 : gap == 0.0;
  }
}

/// Linearises every layer about its amplitudes.
void Newton::turn_layers(const State& state) {
  for (int l = 0; l < pile_.n_layers; ++l) {
    const Layer& layer = pile_.layers[l];
    Tangent& tangent = tangent_[l];
    const double* y = state.amplitude[l].data();
    double h[kModes][kModes];
    stiffening(layer, y, h);
    double rest[kWidth] = {};
    for (int i = 0; i < kModes; ++i) {
      for (int j = 0; j < kModes; ++j) rest[i] += h[i][j] * y[j];
      rest[i] *= 2.0 / 3.0;  // the gradient is a third of it
    }
    for (int i = 0; i < kModes; ++i) h[i][i] += 1.0;
    if (!invert(h, tangent.give)) {
      // where the modes would give way, as if they only bent
      tangent.give = {};
      for (int i = 0; i < kModes; ++i) tangent.give[i * kWidth + i] = 1.0;
      std::fill_n(rest, kModes, 0.0);
    }
    tangent.rest[kWidth - 1] = tangent.rest_rate[kWidth - 1] = 0.0;
    multiply(tangent.give, rest, tangent.rest.data());
    if (l == 0) {
      double pushed[kWidth] = {};
      const Disc& disc = *layer.disc;
      double z[kPairs];
      int at = 0;
      for (int i = 0; i < kModes; ++i)
        for (int j = i; j < kModes; ++j) z[at++] = y[i] * y[j];
      seat_loss_ = 0.0;
      for (int i = 0; i < kModes; ++i) {
        double push = disc.pressure_force[i];
        double bow = 0.0;
        for (int k = 0; k < kPairs; ++k) {
          push += disc.pressure_turn[i * kPairs + k] * z[k];
          bow += disc.seat_bow[i * kPairs + k] * z[k];
        }
        for (int j = 0; j < kModes; ++j) push += layer.offset * disc.pressure_arm[i * kModes + j] * y[j];
        pushed[i] = layer.give * push;
        seat_loss_ += y[i] * bow / 3.0;
      }
      multiply(tangent.give, pushed, tangent.rest_rate.data());
    } else {
      tangent.rest_rate.fill(0.0);
    }
  }
}

/// A surface lies `arm` from the middle of its layer: where the layer slopes, less lift for what is below,
/// more for what is above, by half the arm times the slope's square.
void Newton::touch(const State& state, int layer, int active, int station, double sign, double arm) {
  Touch& touch = touch_[layer][n_touch_[layer]++];
  const double* slope = pile_.slope_at(layer, station);
  const double* lift = pile_.lift_at(layer, station);
  const double phi = dot(slope, state.amplitude[layer].data());
  touch.active = active;
  touch.station = station;
  touch.sign = sign;
  touch.rest = sign * 0.5 * arm * phi * phi;
  for (int i = 0; i < kWidth; ++i) touch.lift[i] = lift[i] - sign * arm * phi * slope[i];
}

void Newton::list_active(const State& state) {
  n_active_ = 0;
  std::fill_n(n_touch_.begin(), pile_.n_layers, 0);
  for (int p = 0; p < pile_.n_points; ++p) {
    if (!state.active[p]) continue;
    if (n_active_ == kMostActive) return;
    const Point& point = pile_.points[p];
    const int a = n_active_++;
    active_point_[a] = p;
    int first = a;
    if (point.lower != kSeat) {
      const int l = point.lower;
      touch(state, l, a, point.station, -1.0, pile_.layers[l].half_height);
      first = std::min(first, touch_[l][0].active);
    }
    const int u = point.upper;
    touch(state, u, a, point.station, 1.0,
          point.lower == kSeat ? pile_.layers[u].offset : pile_.layers[u].half_height);
    row_first_[a] = std::min(first, touch_[u][0].active);
  }
}

/// How the gaps at the active points open by unit forces there.
void Newton::assemble() {
  for (int a = 0; a < n_active_; ++a)
    std::fill(&matrix_[a * kMostActive + row_first_[a]], &matrix_[a * kMostActive + a + 1], 0.0);
  for (int l = 0; l < pile_.n_layers; ++l) {
    const Layer& layer = pile_.layers[l];
    for (int i = 0; i < n_touch_[l]; ++i) {
      const Touch& ti = touch_[l][i];
      double given[kWidth] = {};
      multiply(tangent_[l].give, ti.lift.data(), given);
      for (double& g : given) g *= layer.give;
      const double* remainder = &pile_.remainder[layer.first + ti.station * kMostStations];
      double* row = &matrix_[ti.active * kMostActive];
      for (int j = 0; j <= i; ++j) {
        const Touch& tj = touch_[l][j];
        const double give = remainder[tj.station] + dot(given, tj.lift.data());
        row[tj.active] += ti.sign * tj.sign * give;
      }
    }
  }
}

/// Cholesky's factor, row by row from the first entry of each.
bool Newton::factor() {
  for (int i = 0; i < n_active_; ++i) {
    double* row = &matrix_[i * kMostActive];
    for (int j = row_first_[i]; j < i; ++j) {
      const double* other = &matrix_[j * kMostActive];
      double sum = row[j];
      for (int k = std::max(row_first_[i], row_first_[j]); k < j; ++k) sum -= row[k] * other[k];
      row[j] = sum * over_pivot_[j];
    }
    double pivot = row[i];
    const double whole = pivot;
    for (int k = row_first_[i]; k < i; ++k) pivot -= row[k] * row[k];
    if (!(pivot > 1e-12 * whole)) return false;
    over_pivot_[i] = 1.0 / std::sqrt(pivot);
  }
  return true;
}

void Newton::solve_factored(double* x) const {
  for (int i = 0; i < n_active_; ++i) {
    const double* row = &matrix_[i * kMostActive];
    double sum = x[i];
    for (int k = row_first_[i]; k < i; ++k) sum -= row[k] * x[k];
    x[i] = sum * over_pivot_[i];
  }
  for (int i = n_active_ - 1; i >= 0; --i) {
    const double* row = &matrix_[i * kMostActive];
    x[i] *= over_pivot_[i];
    for (int k = row_first_[i]; k < i; ++k) x[k] -= row[k] * x[i];
  }
}

/// Forces at the active points: at no pressure, and by pressure.
void Newton::find_forces() {
  for (int a = 0; a < n_active_; ++a) {
    constant_[a] = -pile_.points[active_point_[a]].gap;
    by_pressure_[a] = 0.0;
  }
  for (int l = 0; l < pile_.n_layers; ++l)
    for (int i = 0; i < n_touch_[l]; ++i) {
      const Touch& touch = touch_[l][i];
      const double* lift = touch.lift.data();
      constant_[touch.active] -= touch.sign * (touch.rest + dot(lift, tangent_[l].rest.data()));
      if (pile_.points[active_point_[touch.active]].lower == kSeat) constant_[touch.active] += seat_loss_;
      if (l == 0)
        by_pressure_[touch.active] -=
            touch.sign * (pile_.pressure_lift[touch.station] + dot(lift, tangent_[l].rest_rate.data()));
    }
  solve_factored(constant_.data());
  solve_factored(by_pressure_.data());
}

/// Lift of a surface that lies `height` over the middle of its layer.
double Newton::surface(const State& state, int layer, int station, double height) const {
  const double phi = dot(pile_.slope_at(layer, station), state.amplitude[layer].data());
  return lift_[layer][station] + 0.5 * height * phi * phi;
}

/// From the forces to the amplitudes, the lifts and the gaps.
void Newton::spread(State& state) {
  const double p = state.pressure;
  std::fill_n(state.force.begin(), pile_.n_points, 0.0);
  std::fill_n(state.force_rate.begin(), pile_.n_points, 0.0);
  force_scale_ = 0.0;
  for (int a = 0; a < n_active_; ++a) {
    const double f = constant_[a] + p * by_pressure_[a];
    state.force[active_point_[a]] = f;
    state.force_rate[active_point_[a]] = by_pressure_[a];
    force_scale_ = std::max(force_scale_, std::abs(f));
  }
  double changed = 0.0;
  double whole = 0.0;
  for (int l = 0; l < pile_.n_layers; ++l) {
    const Layer& layer = pile_.layers[l];
    const Tangent& tangent = tangent_[l];
    double push[kWidth] = {};
    double push_rate[kWidth] = {};
    double* lift = lift_[l].data();
    for (int k = 0; k < layer.n; ++k) lift[k] = l == 0 ? p * pile_.pressure_lift[k] : 0.0;
    double seat_rate = 0.0;
    for (int i = 0; i < n_touch_[l]; ++i) {
      const Touch& touch = touch_[l][i];
      const double f = touch.sign * state.force[active_point_[touch.active]];
      const double f_rate = touch.sign * by_pressure_[touch.active];
      const double* mode = touch.lift.data();
      for (int m = 0; m < kModes; ++m) {
        push[m] += layer.give * f * mode[m];
        push_rate[m] += layer.give * f_rate * mode[m];
      }
      const double* remainder = &pile_.remainder[layer.first + touch.station * kMostStations];
      for (int k = 0; k < layer.n; ++k) lift[k] += f * remainder[k];
      if (l == 0) seat_rate += f_rate * remainder[pile_.seat_station];
    }
    double y[kWidth] = {};
    multiply(tangent.give, push, y);
    multiply(tangent.give, push_rate, state.rate[l].data());
    for (int m = 0; m < kModes; ++m) {
      y[m] += tangent.rest[m] + p * tangent.rest_rate[m];
      state.rate[l][m] += tangent.rest_rate[m];
      const double step = y[m] - state.amplitude[l][m];
      changed += layer.stiffness * step * step;
      whole += layer.stiffness * y[m] * y[m];
      state.amplitude[l][m] = y[m];
    }
    for (int k = 0; k < layer.n; ++k) lift[k] += dot(y, pile_.lift_at(l, k));
    if (l == 0)
      slope_ = seat_rate + pile_.pressure_lift[pile_.seat_station] +
               dot(state.rate[0].data(), pile_.lift_at(0, pile_.seat_station));
  }
  change_ = whole > 0.0 ? std::sqrt(changed / whole) : 0.0;
  for (int q = 0; q < pile_.n_points; ++q) {
    const Point& point = pile_.points[q];
    const int k = point.station;
    if (point.lower == kSeat) {
      gap_[q] = point.gap + surface(state, 0, k, -pile_.layers[0].offset) - seat_loss_;
    } else {
      gap_[q] = point.gap + surface(state, point.upper, k, -pile_.layers[point.upper].half_height) -
                surface(state, point.lower, k, pile_.layers[point.lower].half_height);
    }
  }
}

/// Of each row of wrong neighbours the worst changes. Gives how many did.
int Newton::flip(State& state, int release_run) const {
  int n = 0;
  const double least_force = kLeastForce * force_scale_;
  for (int r = 0; r < pile_.n_runs; ++r) {
    const Run& run = pile_.runs[r];
    int worst = -1;
    double by = 0.0;
    bool pulls = false;
    const auto end_row = [&] {
      if (worst >= 0) {
        state.active[worst] = !state.active[worst];
        ++n;
      }
      worst = -1;
      by = 0.0;
    };
    for (int q = run.first; q <= run.last; ++q) {
      double wrong = 0.0;
      if (state.active[q]) {
        if (state.force[q] < -least_force) wrong = -state.force[q];
      } else if (gap_[q] < -kLeastGap) {
        wrong = -gap_[q];
      }
      if (r == release_run && state.active[q] && run.first == run.last) wrong = 0.0;
      if (wrong == 0.0 || (worst >= 0 && pulls != static_cast<bool>(state.active[q]))) end_row();
      if (wrong > by) {
        by = wrong;
        worst = q;
        pulls = state.active[q];
      }
    }
    end_row();
  }
  return n;
}

bool Newton::step(State& state, int release_run, double lowest, double highest) {
  list_active(state);
  if (n_active_ == kMostActive) return false;
  turn_layers(state);
  assemble();
  if (!factor()) return false;
  find_forces();
  if (release_run >= 0) {
    double constant = 0.0;
    double by_pressure = 0.0;
    const Run& run = pile_.runs[release_run];
    for (int a = 0; a < n_active_; ++a)
      if (active_point_[a] >= run.first && active_point_[a] <= run.last) {
        constant += constant_[a];
        by_pressure += by_pressure_[a];
      }
    const double p = by_pressure != 0.0 ? -constant / by_pressure : lowest;
    state.pressure = std::clamp(p, lowest, highest);
  }
  spread(state);
  return true;
}

Solved Newton::solve(State& state) {
  return solve_release(state, -1, 0.0, 0.0);
}

Solved Newton::solve_release(State& state, int run, double lowest, double highest) {
  Solved solved;
  for (solved.steps = 1; solved.steps <= kMostSteps; ++solved.steps) {
    const double pressure = state.pressure;
    if (!step(state, run, lowest, highest)) return solved;
    const int n_flips = flip(state, run);
    const bool stays = std::abs(state.pressure - pressure) <= kNearRelease * state.pressure;
    if (n_flips == 0 && change_ <= (run < 0 ? kNear : kNearRelease) && stays) {
      solved.ok = std::isfinite(change_);
      break;
    }
  }
  solved.lift = surface(state, 0, pile_.seat_station, -pile_.layers[0].offset) - seat_loss_;
  solved.slope = slope_;
  return solved;
}

bool Newton::step_linear(State& state) {
  if (!step(state, -1, 0.0, 0.0)) return false;
  flip(state, -1);
  return true;
}

void Newton::foresee(State& state, double pressure) const {
  const double p = state.pressure;
  const double run = std::log(pressure / p);
  for (int l = 0; l < pile_.n_layers; ++l) {
    double* y = state.amplitude[l].data();
    const double* rate = state.rate[l].data();
    const double square = dot(y, y);
    if (!(square > 0.0)) continue;
    const double power = std::clamp(p * dot(y, rate) / square, 0.0, 2.0);
    const double growth = std::exp(power * run);
    for (int i = 0; i < kModes; ++i) y[i] = growth * (y[i] + (p * rate[i] - power * y[i]) * run);
  }
  state.pressure = pressure;
}

void Newton::soften_start(State& state) {
  double bend = 0.0;
  double stretch = 0.0;
  for (int l = 0; l < pile_.n_layers; ++l) {
    const Layer& layer = pile_.layers[l];
    const double* y = state.amplitude[l].data();
    double h[kModes][kModes];
    stiffening(layer, y, h);
    for (int i = 0; i < kModes; ++i) {
      bend += 0.5 * layer.stiffness * y[i] * y[i];
      for (int j = 0; j < kModes; ++j) stretch += layer.stiffness * y[i] * h[i][j] * y[j] / 12.0;
    }
  }
  if (!(bend > 0.0)) return;
  const double x = 2.0 * stretch / bend;  // a + x a^3 = 1
  double a = 1.0 / (1.0 + std::cbrt(x));
  for (int i = 0; i < 4; ++i) a -= (a + x * a * a * a - 1.0) / (1.0 + 3.0 * x * a * a);
  for (int l = 0; l < pile_.n_layers; ++l)
    for (double& y : state.amplitude[l]) y *= a;
}

double Newton::slope_without(State& state, int run) {
  const State kept = state;
  for (int q = pile_.runs[run].first; q <= pile_.runs[run].last; ++q) state.active[q] = 0;
  double slope = slope_;
  if (step(state, -1, 0.0, 0.0)) slope = slope_;
  state = kept;
  return slope;
}

}  // namespace shimwright::karman
