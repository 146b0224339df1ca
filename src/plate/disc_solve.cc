// The linear algebra of one layer: middles of elements eliminated, stations in a band of three, loads by
// columns.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "plate/disc_local.h"
#include "plate/kernels.h"

namespace shimwright::plate {
namespace {

constexpr int kBand = 3;  // entries before the diagonal
constexpr int kRow = kBand + 1;
constexpr double kPerRadian = 1.0 / (2.0 * std::numbers::pi);

}  // namespace

bool DiscElements::held(int station, int field) const {
  if (station == n_ - 1) return field == 1;  // no radial force at the rim
  if (station != 0) return false;
  return field == 0 ? !ring_
                    : (ring_ || slips_);  // no slope at a clamp; no radial force at a bore or one that slips
}

/// Residual, lifts and travels of the present state; the tangent, too, or that of a state near by is kept.
void DiscElements::assemble(bool with_tangent) {
  follow_pressure();
  std::fill(residual_.begin(), residual_.end(), 0.0);
  if (with_tangent) {
    std::fill(by_pressure_.begin(), by_pressure_.end(), 0.0);
    band_.assign(static_cast<std::size_t>(kRow) * residual_.size(), 0.0);
  }
  assemble_elements(with_tangent);
  for (int k = 0; k < n_; ++k) {
    now_[k] += pressure * shear_load_[k];
    residual_[place(k, 0)] -= moment[k];
  }
  for (int station : {0, n_ - 1})
    for (int field : {0, 1})
      if (held(station, field)) residual_[place(station, field)] = 0.0;
}

void DiscElements::factor() {
  const int n = static_cast<int>(residual_.size());
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
  const int n = static_cast<int>(residual_.size());
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

  // without contact forces: the residual, and what they put into it taken out
  for (std::size_t i = 0; i < residual_.size(); ++i) rest_step_[i] = -residual_[i];
  for (int e = 0; e + 1 < n_; ++e)
    for (int i = 0; i < 4; ++i) rest_step_[place_of_end(e, i)] -= middles_[e].ends[i] * axial[e];
  solve_band_one(static_cast<int>(rest_step_.size()), band_.data(), inverse_diagonal_.data(),
                 rest_step_.data());
  double lift = 0.0;
  flexibility.rest[0] = now_[0];
  for (int e = 0; e + 1 < n_; ++e) {
    const Middle& middle = middles_[e];
    const double right[2] = {-middle.residual[0] - middle.force[0] * axial[e],
                             -middle.residual[1] - middle.force[1] * axial[e]};
    lift += middle.times(middle.force, right);
    for (int i = 0; i < 4; ++i) lift += middle.ends[i] * rest_step_[place_of_end(e, i)];
    flexibility.rest[e + 1] = now_[e + 1] + lift;
  }
}

template <int kWidth>
void DiscElements::fill_block(const int* stations, Flexibility& flexibility) {
  const std::size_t n = residual_.size();
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
      const int inner = std::min(e + 1, stations[lane]);
      column[lane][e + 1] = lift[lane] + kPerRadian * (shear_[inner] + own_[inner]);
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
    rest_rate[e + 1] = lift + shear_load_[e + 1];
  }
}

/// Adds the steps that ring forces at the stations bring.
void DiscElements::add_columns(const std::vector<double>& forces, std::vector<double>& step) const {
  add_weighted_columns(static_cast<int>(residual_.size()), n_, columns_.data(), forces.data(), step.data());
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

void DiscElements::take_state_rate(const std::vector<double>& before, double over_step) {
  for (int i = 0; i < n_state_; ++i) rate_[i] = over_step * (x_[i] - before[i]);
  for (int k = 0; k < n_; ++k) rate_[n_state_ + k] = over_step * (travel_[k] - before[n_state_ + k]);
}

void DiscElements::go_along(double step) {
  for (int i = 0; i < n_state_; ++i) x_[i] += step * rate_[i];
  for (int k = 0; k < n_; ++k) travel_[k] += step * rate_[n_state_ + k];
}

void DiscElements::save_state(std::vector<double>& state) const {
  state.resize(n_state_ + travel_.size());
  std::copy_n(x_.begin(), n_state_, state.begin());
  std::copy(travel_.begin(), travel_.end(), state.begin() + n_state_);
}

void DiscElements::set_state(const std::vector<double>& state) {
  std::copy_n(state.begin(), n_state_, x_.begin());
  std::copy(state.begin() + n_state_, state.end(), travel_.begin());
}

double DiscElements::find_step(const std::vector<double>& forces) {
  const std::size_t n = residual_.size();
  step_ = rest_step_;
  add_columns(forces, step_);
  double largest = 0.0;
  for (std::size_t i = 0; i < n; i += 2) largest = std::max(largest, std::abs(step_[i]));

  // the middles follow from their ends
  double outside = 0.0;
  for (int e = n_ - 2; e >= 0; --e) {
    outside += kPerRadian * forces[e + 1];
    const Middle& middle = middles_[e];
    double right[2];
    for (int m = 0; m < 2; ++m) {
      right[m] = -middle.residual[m] + middle.force[m] * (outside - axial[e]);
      for (int i = 0; i < 4; ++i) right[m] -= middle.couple[m][i] * step_[place_of_end(e, i)];
    }
    middle_step_[2 * e] = middle.inverse[0] * right[0] + middle.inverse[1] * right[1];
    middle_step_[2 * e + 1] = middle.inverse[1] * right[0] + middle.inverse[2] * right[1];
    largest = std::max(largest, std::abs(middle_step_[2 * e]));
  }
  return largest;
}

void DiscElements::take_step(double share) {
  for (int k = 0; k < n_; ++k)
    for (int field = 0; field < 2; ++field) x_[4 * k + field] += share * step_[place(k, field)];
  for (int e = 0; e + 1 < n_; ++e)
    for (int field = 0; field < 2; ++field) x_[4 * e + 2 + field] += share * middle_step_[2 * e + field];
}

}  // namespace shimwright::plate
