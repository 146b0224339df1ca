#include "karman/newton.h"

#include <algorithm>
#include <cmath>

#include "plate/kernels.h"

namespace shimwright::karman {
namespace {

constexpr int kMostSteps = 40;
constexpr double kNear = 0.02;          // a step of the amplitudes below this share of them is the last
constexpr double kNearRelease = 0.004;  // where the pressure is sought as well, which moves with the step
constexpr double kSoftest = 1e-3;       // a mode that is softer against its bending gives way
constexpr double kLeastForce = 1e-6;    // of the largest: a pull of less is none
constexpr double kLeastGap = 1e-9;      // an overlap of less is none [m]

/// Inverse of a symmetric positive matrix of the modes; false when it is none.
inline bool invert(const double (&s)[kModes][kModes], double* out) {
  double l[kModes][kModes];  // LDLt, its factor and that factor's inverse
  double inv[kModes][kModes];
  double over[kModes];
  for (int i = 0; i < kModes; ++i) {
    double pivot = s[i][i];
    for (int j = 0; j < i; ++j) {
      double sum = s[i][j];
      for (int k = 0; k < j; ++k) sum -= l[i][k] * over[k] * l[j][k];
      l[i][j] = sum;  // times its pivot
      pivot -= sum * sum * over[j];
    }
    if (!(pivot > kSoftest)) return false;
    over[i] = 1.0 / pivot;
  }
  for (int i = 0; i < kModes; ++i) {
    inv[i][i] = 1.0;
    for (int j = 0; j < i; ++j) {
      double sum = 0.0;
      for (int k = j; k < i; ++k) sum -= l[i][k] * over[k] * inv[k][j];
      inv[i][j] = sum;
    }
  }
  for (int i = 0; i < kModes; ++i)
    for (int j = 0; j <= i; ++j) {
      double sum = 0.0;
      for (int k = i; k < kModes; ++k) sum += inv[k][i] * over[k] * inv[k][j];
      out[i * kModes + j] = out[j * kModes + i] = sum;
    }
  return true;
}

/// Second derivatives of the stretching energy over the bending stiffness.
inline void stiffening(const Layer& layer, const double* y, double (&h)[kModes][kModes]) {
  double sum[kPairs] = {};
  const double* column = layer.disc->stretch.data();
  for (int i = 0; i < kModes; ++i)
    for (int j = i; j < kModes; ++j, column += kPairs) {
      const double z = layer.stretch * y[i] * y[j];
      for (int r = 0; r < kPairs; ++r) sum[r] += column[r] * z;
    }
  const double* at = sum;
  for (int i = 0; i < kModes; ++i)
    for (int j = i; j < kModes; ++j) h[i][j] = h[j][i] = *at++;
}

/// A symmetric matrix of the modes times a vector.
inline void multiply(const double* m, const double* x, double* out) {
  double sum[kModes] = {};
  for (int j = 0; j < kModes; ++j)
    for (int i = 0; i < kModes; ++i) sum[i] += m[j * kModes + i] * x[j];
  for (int i = 0; i < kModes; ++i) out[i] = sum[i];
}

inline double dot(const double* a, const double* b) {
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
SW_WIDE void Newton::turn_layers(const State& state) {
  for (int l = 0; l < pile_.n_layers; ++l) {
    const Layer& layer = pile_.layers[l];
    Tangent& tangent = tangent_[l];
    const double* y = state.amplitude[l].data();
    double h[kModes][kModes];
    stiffening(layer, y, h);
    double rest[kModes] = {};
    for (int i = 0; i < kModes; ++i) {
      for (int j = 0; j < kModes; ++j) rest[i] += h[i][j] * y[j];
      rest[i] *= 2.0 / 3.0;  // the gradient is a third of it
    }
    for (int i = 0; i < kModes; ++i) h[i][i] += 1.0;
    if (!invert(h, tangent.give.data())) {
      // where the modes would give way, as if they only bent
      tangent.give = {};
      for (int i = 0; i < kModes; ++i) tangent.give[i * kModes + i] = 1.0;
      std::fill_n(rest, kModes, 0.0);
    }
    multiply(tangent.give.data(), rest, tangent.rest.data());
    if (l == 0) {
      double pushed[kModes] = {};
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
      multiply(tangent.give.data(), pushed, tangent.rest_rate.data());
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
  for (int i = 0; i < kModes; ++i) touch.lift[i] = lift[i] - sign * arm * phi * slope[i];
}

SW_WIDE void Newton::list_active(const State& state) {
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

/// Where the columns of the lower half begin and end.
void Newton::lay_out_columns() {
  int end = 0;
  int row = 0;
  int offset = 0;
  for (int j = 0; j < n_active_; ++j) {
    end = std::max(end, j);
    for (; row < n_active_; ++row) {
      // rows that reach back to this column; what a row further down skips is filled in
      if (row_first_[row] <= j) end = std::max(end, row);
    }
    row = end + 1;
    column_end_[j] = end;
    column_offset_[j] = offset;
    offset += end - j + 1;
  }
  std::fill_n(matrix_.begin(), offset, 0.0);
}

/// How the gaps at the active points open by unit forces there.
SW_WIDE void Newton::assemble() {
  lay_out_columns();
  for (int l = 0; l < pile_.n_layers; ++l) {
    const Layer& layer = pile_.layers[l];
    const Touch* touch = touch_[l].data();
    for (int j = 0; j < n_touch_[l]; ++j) {
      const Touch& tj = touch[j];
      double given[kModes];
      multiply(tangent_[l].give.data(), tj.lift.data(), given);
      for (double& g : given) g *= layer.give;
      const double* remainder = &pile_.remainder[layer.first + tj.station * kMostStations];
      double* column = &matrix_[column_offset_[tj.active]] - tj.active;
      for (int i = j; i < n_touch_[l]; ++i) {
        const Touch& ti = touch[i];
        const double give = remainder[ti.station] + dot(given, ti.lift.data());
        column[ti.active] += ti.sign * tj.sign * give;
      }
    }
  }
}

bool Newton::factor() {
  plate::factor_profile({n_active_, column_end_.data(), column_offset_.data()}, matrix_.data(),
                        over_pivot_.data());
  for (int a = 0; a < n_active_; ++a)
    if (!(over_pivot_[a] > 0.0)) return false;
  return true;
}

void Newton::solve_factored(double* x) const {
  plate::solve_profile({n_active_, column_end_.data(), column_offset_.data()}, matrix_.data(),
                       over_pivot_.data(), 0, x);
}

/// How far the active points overlap without forces: at no pressure, and by pressure.
void Newton::find_loads() {
  for (int a = 0; a < n_active_; ++a) {
    constant_[a] = -pile_.points[active_point_[a]].gap;
    by_pressure_[a] = 0.0;
  }
  for (int l = 0; l < pile_.n_layers; ++l)
    for (int i = 0; i < n_touch_[l]; ++i) {
      const Touch& touch = touch_[l][i];
      constant_[touch.active] -= touch.sign * (touch.rest + dot(touch.lift.data(), tangent_[l].rest.data()));
    }
  for (int i = 0; i < n_touch_[0]; ++i) {
    const Touch& touch = touch_[0][i];
    by_pressure_[touch.active] = -touch.sign * (pile_.pressure_lift[touch.station] +
                                                dot(touch.lift.data(), tangent_[0].rest_rate.data()));
  }
  if (pile_.has_seat && n_active_ > 0 && active_point_[0] == pile_.runs[kSeatRun].first)
    constant_[0] += seat_loss_;
}

/// From the forces (in `constant_`) to the amplitudes, the lifts and the gaps.
SW_WIDE void Newton::spread(State& state) {
  const double p = state.pressure;
  std::fill_n(state.force.begin(), pile_.n_points, 0.0);
  force_scale_ = 0.0;
  for (int a = 0; a < n_active_; ++a) {
    state.force[active_point_[a]] = constant_[a];
    force_scale_ = std::max(force_scale_, std::abs(constant_[a]));
  }
  double changed = 0.0;
  double whole = 0.0;
  for (int l = 0; l < pile_.n_layers; ++l) {
    const Layer& layer = pile_.layers[l];
    const Tangent& tangent = tangent_[l];
    double push[kModes] = {};
    double lift[kMostStations];
    for (int k = 0; k < layer.n; ++k) lift[k] = l == 0 ? p * pile_.pressure_lift[k] : 0.0;
    for (int i = 0; i < n_touch_[l]; ++i) {
      const Touch& touch = touch_[l][i];
      const double f = touch.sign * constant_[touch.active];
      for (int m = 0; m < kModes; ++m) push[m] += layer.give * f * touch.lift[m];
      const double* remainder = &pile_.remainder[layer.first + touch.station * kMostStations];
      for (int k = 0; k < layer.n; ++k) lift[k] += f * remainder[k];
    }
    double y[kModes];
    multiply(tangent.give.data(), push, y);
    double slope[kMostStations];
    std::fill_n(slope, layer.n, 0.0);
    for (int m = 0; m < kModes; ++m) {
      y[m] += tangent.rest[m] + p * tangent.rest_rate[m];
      const double step = y[m] - state.amplitude[l][m];
      changed += layer.stiffness * step * step;
      whole += layer.stiffness * y[m] * y[m];
      state.amplitude[l][m] = y[m];
      const double* mode_lift = pile_.lift_of(l, m);
      const double* mode_slope = pile_.slope_of(l, m);
      for (int k = 0; k < layer.n; ++k) {
        lift[k] += y[m] * mode_lift[k];
        slope[k] += y[m] * mode_slope[k];
      }
    }
    // surfaces lie half a height from the middle
    double* bottom = bottom_[l].data();
    double* top = top_[l].data();
    for (int k = 0; k < layer.n; ++k) {
      const double turned = 0.5 * layer.half_height * slope[k] * slope[k];
      bottom[k] = lift[k] - turned;
      top[k] = lift[k] + turned;
    }
    if (l == 0) {
      const double phi = slope[pile_.seat_station];
      seat_lift_ = lift[pile_.seat_station] - 0.5 * layer.offset * phi * phi - seat_loss_;
    }
  }
  change_ = whole > 0.0 ? std::sqrt(changed / whole) : 0.0;
  for (int r = 0; r < pile_.n_runs; ++r) {
    const Run& run = pile_.runs[r];
    const int n = run.last - run.first + 1;
    const int station = pile_.points[run.first].station;
    double* gap = &gap_[run.first];
    if (run.lower == kSeat) {
      gap[0] = pile_.points[run.first].gap + seat_lift_;
      continue;
    }
    const double rest = pile_.points[run.first].gap;
    const double* bottom = &bottom_[run.upper][station];
    const double* top = &top_[run.lower][station];
    for (int k = 0; k < n; ++k) gap[k] = rest + bottom[k] - top[k];
  }
}

/// How forces, amplitudes and the lift grow with pressure at the state reached.
void Newton::finish(State& state) {
  solve_factored(by_pressure_.data());
  std::fill_n(state.force_rate.begin(), pile_.n_points, 0.0);
  for (int a = 0; a < n_active_; ++a) state.force_rate[active_point_[a]] = by_pressure_[a];
  slope_ = pile_.pressure_lift[pile_.seat_station];
  for (int l = 0; l < pile_.n_layers; ++l) {
    const Layer& layer = pile_.layers[l];
    double push[kModes] = {};
    for (int i = 0; i < n_touch_[l]; ++i) {
      const Touch& touch = touch_[l][i];
      const double f = touch.sign * by_pressure_[touch.active];
      for (int m = 0; m < kModes; ++m) push[m] += layer.give * f * touch.lift[m];
      if (l == 0)
        slope_ += f * pile_.remainder[layer.first + touch.station * kMostStations + pile_.seat_station];
    }
    double* rate = state.rate[l].data();
    multiply(tangent_[l].give.data(), push, rate);
    for (int m = 0; m < kModes; ++m) rate[m] += tangent_[l].rest_rate[m];
  }
  slope_ += dot(state.rate[0].data(), pile_.lift_at(0, pile_.seat_station));
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
  find_loads();
  if (release_run < 0) {
    for (int a = 0; a < n_active_; ++a) constant_[a] += state.pressure * by_pressure_[a];
    solve_factored(constant_.data());
  } else {
    std::array<double, kMostActive> rate = by_pressure_;
    solve_factored(constant_.data());
    solve_factored(rate.data());
    double constant = 0.0;
    double by_pressure = 0.0;
    const Run& run = pile_.runs[release_run];
    for (int a = 0; a < n_active_; ++a)
      if (active_point_[a] >= run.first && active_point_[a] <= run.last) {
        constant += constant_[a];
        by_pressure += rate[a];
      }
    const double p = by_pressure != 0.0 ? -constant / by_pressure : lowest;
    state.pressure = std::clamp(p, lowest, highest);
    for (int a = 0; a < n_active_; ++a) constant_[a] += state.pressure * rate[a];
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
  finish(state);
  solved.lift = seat_lift_;
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
  if (step(state, -1, 0.0, 0.0)) {
    finish(state);
    slope = slope_;
  }
  state = kept;
  return slope;
}

}  // namespace shimwright::karman
