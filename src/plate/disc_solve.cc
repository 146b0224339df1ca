// The linear algebra of one layer: middles of elements eliminated, stations in a band of three, loads by
// columns.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "plate/disc_band.h"
#include "plate/disc_local.h"
#include "plate/kernels.h"

namespace shimwright::plate {
namespace {}  // namespace

bool DiscElements::held(int station, int field) const {
  if (station == n_ - 1) return field == 1;  // no radial force at the rim
  if (station != 0) return false;
  return field == 0 ? !ring_
                    : (ring_ || slips_);  // no slope at a clamp; no radial force at a bore or one that slips
}

/// Rows of the present state; the tangent, too, or that of a state near by is kept.
void DiscElements::assemble(bool with_tangent) {
  follow_pressure();
  if (with_tangent) {
    std::fill(by_pressure_.begin(), by_pressure_.end(), 0.0);
    band_.assign(static_cast<std::size_t>(kRow) * 2 * n_, 0.0);
  }
  assemble_elements(with_tangent);
}

/// The right side at the stations, in solver order, from those of the elements.
void DiscElements::find_rest_side() {
  const double* of_inner[2] = {row(kRest), row(kRest + 1)};
  const double* of_outer[2] = {row(kRest + 2), row(kRest + 3)};
  for (int field = 0; field < 2; ++field) {
    rest_step_[place(0, field)] = of_inner[field][0];
    for (int k = 1; k + 1 < n_; ++k)
      rest_step_[place(k, field)] = of_inner[field][k] + of_outer[field][k - 1];
    rest_step_[place(n_ - 1, field)] = of_outer[field][n_ - 2];
  }
  for (int k = 0; k < n_; ++k) rest_step_[place(k, 0)] += moment[k];
  for (int station : {0, n_ - 1})
    for (int field : {0, 1})
      if (held(station, field)) rest_step_[place(station, field)] = 0.0;
}

void DiscElements::factor() {
  const int n = 2 * n_;
  inverse_diagonal_.resize(n);
  for (int i = 0; i < n; ++i) {
    double* row = &band_[kRow * i];  // entry (i, j) is row[kBand + j - i]
    const int first = std::max(0, i - kBand);
    for (int j = first; j < i; ++j) {
      const double* other = &band_[kRow * j];
      double value = row[kBand + j - i];
      for (int k = first; k < j; ++k) value -= row[kBand + k - i] * other[kBand + k - j];
      row[kBand + j - i] = value;
    }
    double pivot = row[kBand];
    for (int j = first; j < i; ++j) {
      const double scaled = row[kBand + j - i] * inverse_diagonal_[j];
      pivot -= scaled * row[kBand + j - i];
      row[kBand + j - i] = scaled;
    }
    inverse_diagonal_[i] = 1.0 / pivot;
  }
}

/// Solves for right sides that are zero before `first`, kWidth of them side by side.
template <int kWidth>
void DiscElements::solve(double* x, int first) const {
  const int n = 2 * n_;
  for (int i = first; i < n; ++i) {
    const double* row = &band_[kRow * i];
    for (int j = std::max(first, i - kBand); j < i; ++j) {
      const double factor = row[kBand + j - i];
      for (int lane = 0; lane < kWidth; ++lane) x[kWidth * i + lane] -= factor * x[kWidth * j + lane];
    }
  }
  for (int i = first; i < n; ++i)
    for (int lane = 0; lane < kWidth; ++lane) x[kWidth * i + lane] *= inverse_diagonal_[i];
  for (int i = n - 1; i > 0; --i) {
    const double* row = &band_[kRow * i];
    for (int j = std::max(0, i - kBand); j < i; ++j) {
      const double factor = row[kBand + j - i];
      for (int lane = 0; lane < kWidth; ++lane) x[kWidth * j + lane] -= factor * x[kWidth * i + lane];
    }
  }
}

void DiscElements::linearise(bool keep_tangent, Flexibility& flexibility) {
  assemble(!keep_tangent);
  if (!keep_tangent) {
    factor();
    std::fill(flexibility.have.begin(), flexibility.have.end(), 0);
  }

  // without contact forces
  find_rest_side();
  solve_band_one(2 * n_, band_.data(), inverse_diagonal_.data(), rest_step_.data());
  double lift = 0.0;
  const double* by_middle = row(kMiddleLift);
  const double* ends[4] = {row(kEnds), row(kEnds + 1), row(kEnds + 2), row(kEnds + 3)};
  flexibility.rest[0] = now_[0];
  for (int e = 0; e + 1 < n_; ++e) {
    const double* inner = &rest_step_[place(e, 0)];
    const double* outer = inner - 2;
    lift += by_middle[e] + ((ends[0][e] * inner[0] + ends[1][e] * inner[1]) +
                            (ends[2][e] * outer[0] + ends[3][e] * outer[1]));
    flexibility.rest[e + 1] = now_[e + 1] + lift;
  }
}

template <int kWidth>
void DiscElements::fill_block(const int* stations, Flexibility& flexibility) {
  const std::size_t n = 2 * static_cast<std::size_t>(n_);
  lanes_.assign(n * kWidth, 0.0);
  int outermost = 0;
  for (int lane = 0; lane < kWidth; ++lane) {
    outermost = std::max(outermost, stations[lane]);
    for (int e = 0; e < stations[lane]; ++e)
      for (int i = 0; i < 4; ++i)
        lanes_[place_of_end(e, i) * kWidth + lane] += kPerRadian * middles_[e].ends[i];
  }
  if constexpr (kWidth == 4) {
    solve_band_four(static_cast<int>(n), band_.data(), inverse_diagonal_.data(), place(outermost, 0),
                    lanes_.data());
  } else {
    solve<kWidth>(lanes_.data(), place(outermost, 0));
  }

  double lift[kWidth] = {};
  double* column[kWidth];
  for (int lane = 0; lane < kWidth; ++lane) {
    column[lane] = &flexibility.column[static_cast<std::size_t>(stations[lane]) * n_];
    column[lane][0] = 0.0;
    flexibility.have[stations[lane]] = 1;
    double* step = &columns_[static_cast<std::size_t>(stations[lane]) * n];
    for (std::size_t i = 0; i < n; ++i) step[i] = lanes_[i * kWidth + lane];
  }
  for (int e = 0; e + 1 < n_; ++e) {
    for (int i = 0; i < 4; ++i) {
      const double by = middles_[e].ends[i];
      const double* step = &lanes_[place_of_end(e, i) * kWidth];
      for (int lane = 0; lane < kWidth; ++lane) lift[lane] += by * step[lane];
    }
    for (int lane = 0; lane < kWidth; ++lane) {
      column[lane][e + 1] = lift[lane] + kPerRadian * own_[std::min(e + 1, stations[lane])];
    }
  }
}

void DiscElements::fill_columns(std::span<const int> stations, Flexibility& flexibility) {
  std::size_t done = 0;
  for (; done + kLanes <= stations.size(); done += kLanes) fill_block<kLanes>(&stations[done], flexibility);
  if (stations.size() - done >= 2) {
    fill_block<2>(&stations[done], flexibility);
    done += 2;
  }
  if (done < stations.size()) fill_block<1>(&stations[done], flexibility);
}

void DiscElements::pressure_rate(std::vector<double>& rest_rate) {
  rest_rate.assign(n_, 0.0);
  pressure_step_ = by_pressure_;
  if (!loaded_) return;
  solve_band_one(static_cast<int>(pressure_step_.size()), band_.data(), inverse_diagonal_.data(),
                 pressure_step_.data());
  double lift = 0.0;
  for (int e = 0; e + 1 < n_; ++e) {
    const Middle& middle = middles_[e];
    lift += middle.times(middle.force, middle.pressure);
    for (int i = 0; i < 4; ++i) lift += middle.ends[i] * pressure_step_[place_of_end(e, i)];
    rest_rate[e + 1] = lift + own_pressure_[e + 1];
  }
}

/// Adds the steps that ring forces at the stations bring.
void DiscElements::add_columns(const std::vector<double>& forces, std::vector<double>& step) const {
  add_weighted_columns(2 * n_, n_, columns_.data(), forces.data(), step.data());
}

void DiscElements::find_state_rate(const std::vector<double>& forces) {
  std::vector<double>& rate = rate_;
  add_columns(forces, pressure_step_);
  rate.assign(n_state_ + travel_.size(), 0.0);
  for (int k = 0; k < n_; ++k)
    for (int field = 0; field < 2; ++field) rate[4 * k + field] = pressure_step_[place(k, field)];
  double outside = 0.0;
  for (int e = n_ - 2; e >= 0; --e) {
    outside += kPerRadian * forces[e + 1];
    const Middle& middle = middles_[e];
    double right[2];
    for (int m = 0; m < 2; ++m) {
      right[m] = middle.force[m] * outside + (loaded_ ? middle.pressure[m] : 0.0);
      for (int i = 0; i < 4; ++i) right[m] -= middle.couple[m][i] * pressure_step_[place_of_end(e, i)];
    }
    rate[4 * e + 2] = middle.inverse[0] * right[0] + middle.inverse[1] * right[1];
    rate[4 * e + 3] = middle.inverse[1] * right[0] + middle.inverse[2] * right[1];
  }
}

void DiscElements::take_state_rate(const double* before, double over_step) {
  for (int i = 0; i < n_state_; ++i) rate_[i] = over_step * (x_[i] - before[i]);
  for (int k = 0; k < n_; ++k) rate_[n_state_ + k] = over_step * (travel_[k] - before[n_state_ + k]);
}

void DiscElements::go_along(double step) {
  for (int i = 0; i < n_state_; ++i) x_[i] += step * rate_[i];
  for (int k = 0; k < n_; ++k) travel_[k] += step * rate_[n_state_ + k];
}

void DiscElements::save_state(double* state) const {
  std::copy_n(x_.begin(), n_state_, state);
  std::copy_n(travel_.begin(), n_, state + n_state_);
}

void DiscElements::set_state(const double* state) {
  std::copy_n(state, n_state_, x_.begin());
  std::copy_n(state + n_state_, n_, travel_.begin());
}

void DiscElements::set_state_like(const DiscElements& other) {
  int from = 0;  // element of the other
  for (int node = 0; 2 * node < n_state_; ++node) {
    const int k = node / 2;
    const double r = node % 2 == 0 ? radius_[k] : 0.5 * (radius_[k] + radius_[k + 1]);
    while (from + 2 < other.n_ && other.radius_[from + 1] < r) ++from;
    const double a = other.radius_[from];
    const double b = other.radius_[from + 1];
    const double t = std::clamp((r - a) / (b - a), 0.0, 1.0);
    const double value[3] = {(1.0 - t) * (1.0 - 2.0 * t), 4.0 * t * (1.0 - t), t * (2.0 * t - 1.0)};
    const double* x = &other.x_[4 * from];
    for (int field = 0; field < 2; ++field)
      x_[2 * node + field] = value[0] * x[field] + value[1] * x[2 + field] + value[2] * x[4 + field];
    if (node % 2 == 0) travel_[k] = (1.0 - t) * other.travel_[from] + t * other.travel_[from + 1];
  }
}

void DiscElements::find_step(const std::vector<double>& forces) {
  step_ = rest_step_;
  add_columns(forces, step_);
  for (int k = 0; k < n_; ++k) {
    step_phi_[k] = step_[place(k, 0)];
    step_psi_[k] = step_[place(k, 1)];
  }
  double outside = 0.0;
  for (int e = n_ - 2; e >= 0; --e) {
    outside += kPerRadian * forces[e + 1];
    beyond_[e] = outside - axial[e];
  }
  find_middle_steps();
}

double DiscElements::step_slope() const {
  return std::max(largest_magnitude(n_, step_phi_.data()), largest_magnitude(n_ - 1, row(kMiddleStep)));
}

double DiscElements::step_radial() const {
  return largest_magnitude(n_, step_psi_.data());
}

void DiscElements::take_step(double share) {
  const double* phi = row(kMiddleStep);
  const double* psi = row(kMiddleStep + 1);
  for (int k = 0; k < n_; ++k) {
    x_[4 * k] += share * step_phi_[k];
    x_[4 * k + 1] += share * step_psi_[k];
  }
  for (int e = 0; e + 1 < n_; ++e) {
    x_[4 * e + 2] += share * phi[e];
    x_[4 * e + 3] += share * psi[e];
  }
}

}  // namespace shimwright::plate
