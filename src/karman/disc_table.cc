#include "karman/disc_table.h"

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "base/check.h"
#include "plate/annulus.h"
#include "plate/layout.h"

namespace shimwright::karman {
namespace {

constexpr double kFill = 1.0 / 16.0;  // widest gap between stations, of the free width
constexpr int kParts = 6;             // of a piece between stations, for the integrals over the radius
constexpr double kTwoPi = 2.0 * std::numbers::pi;

void keep_apart(std::vector<double>& radius) {
  std::sort(radius.begin(), radius.end());
  const double same = kSameRadius * radius.back();
  radius.erase(std::unique(radius.begin(), radius.end(), [&](double a, double b) { return b - a <= same; }),
               radius.end());
}

/// A disc on a fine grid of radii, on which every station lies.
struct Fine {
  std::vector<double> radius, log_radius;
  std::vector<int> at;                   // of each station
  std::vector<double> constant, square;  // load outside each piece, as plate::loaded_shape takes it
  std::vector<double> pressure;          // on each piece, as a share
};

Fine fine_grid(const Valve& valve, const std::vector<double>& station, int n) {
  plate::Stack stack;
  plate::Disc disc;
  disc.outer_radius = station[n - 1];
  disc.bore_radius = 0.5 * valve.clamp_radius;
  disc.thickness = 1e-4;
  stack.discs.push_back(disc);
  stack.clamp_radius = valve.clamp_radius;
  stack.load = valve.load;
  stack.seat = {false, std::min(valve.seat_radius, disc.outer_radius), 0.0};
  plate::Layout layout;
  plate::lay_out(stack, 1, layout);

  Fine fine;
  std::vector<double> edge = layout.radius;
  edge.insert(edge.end(), station.begin(), station.begin() + n);
  keep_apart(edge);
  std::size_t of = 0;
  for (std::size_t k = 0; k + 1 < edge.size(); ++k) {
    const double middle = 0.5 * (edge[k] + edge[k + 1]);
    while (of + 2 < layout.radius.size() && layout.radius[of + 1] < middle) ++of;
    for (int j = 0; j < kParts; ++j) {
      fine.radius.push_back(edge[k] + (edge[k + 1] - edge[k]) * j / kParts);
      fine.constant.push_back(layout.load_constant[of]);
      fine.square.push_back(layout.load_square[of]);
      fine.pressure.push_back(-2.0 * layout.load_square[of]);
    }
  }
  fine.radius.push_back(edge.back());
  fine.constant.push_back(0.0);
  fine.square.push_back(0.0);
  for (const double r : fine.radius) fine.log_radius.push_back(std::log(r));
  for (int s = 0; s < n; ++s) {
    const double r = station[s];
    const auto near = std::min_element(fine.radius.begin(), fine.radius.end(),
                                       [&](double a, double b) { return std::abs(a - r) < std::abs(b - r); });
    fine.at.push_back(static_cast<int>(near - fine.radius.begin()));
  }
  return fine;
}

struct Shape {
  std::vector<double> lift, slope, curvature;
};

Shape shape_under(const Fine& fine, double poisson_ratio, const std::vector<double>& constant,
                  const std::vector<double>& square) {
  plate::Annulus plate;
  plate.inner = fine.radius.front();
  plate.outer = fine.radius.back();
  plate.stiffness = 1.0;
  plate.poisson_ratio = poisson_ratio;
  plate.shear_stiffness = std::numeric_limits<double>::infinity();
  const std::size_t n = fine.radius.size();
  Shape shape{std::vector<double>(n), std::vector<double>(n), std::vector<double>(n)};
  plate::loaded_shape(plate, fine.radius, fine.log_radius, constant, square,
                      {shape.lift, shape.slope, shape.curvature});
  return shape;
}

double integral(const Fine& fine, const std::vector<double>& of) {
  double sum = 0.0;
  for (std::size_t k = 0; k + 1 < of.size(); ++k)
    sum += 0.5 * (of[k] + of[k + 1]) * (fine.radius[k + 1] - fine.radius[k]);
  return sum;
}

/// Stress function F = r N_r and travel u at unit E t.
struct Membrane {
  std::vector<double> force, travel, travel_rate;
};

/// For the strain that a slope leaves along the radius: r F'' + F' - F / r = -strain, no travel at the clamp,
/// no force at the rim.
Membrane membrane_of(const Fine& fine, double poisson_ratio, const std::vector<double>& strain) {
  const std::size_t n = fine.radius.size();
  const std::vector<double>& r = fine.radius;
  const double nu = poisson_ratio;
  Membrane out{std::vector<double>(n), std::vector<double>(n), std::vector<double>(n)};
  std::vector<double> rate(n);
  double over = 0.0;   // integral of strain / r
  double times = 0.0;  // integral of strain r
  for (std::size_t k = 0; k < n; ++k) {
    if (k > 0) {
      const double h = 0.5 * (r[k] - r[k - 1]);
      over += h * (strain[k] / r[k] + strain[k - 1] / r[k - 1]);
      times += h * (strain[k] * r[k] + strain[k - 1] * r[k - 1]);
    }
    out.force[k] = -0.5 * (r[k] * over - times / r[k]);
    rate[k] = -0.5 * (over + times / (r[k] * r[k]));
  }
  // A r + B / r added: at the clamp r F' = nu F, where the particular part and its slope are zero
  const double ratio = (1.0 - nu) / (1.0 + nu) * r[0] * r[0];  // B / A
  const double a = -out.force[n - 1] / (r[n - 1] + ratio / r[n - 1]);
  for (std::size_t k = 0; k < n; ++k) {
    out.force[k] += a * (r[k] + ratio / r[k]);
    rate[k] += a * (1.0 - ratio / (r[k] * r[k]));
    out.travel[k] = r[k] * rate[k] - nu * out.force[k];
    out.travel_rate[k] = out.force[k] / r[k] - nu * rate[k] - strain[k];
  }
  return out;
}

int pair_of(int i, int j) {
  const auto [a, b] = std::minmax(i, j);
  return a * kModes - a * (a - 1) / 2 + (b - a);
}

/// From energy = sum of c(i, j, k, l) y_i y_j y_k y_l to the rows of its second derivatives.
template <typename Coefficient>
std::array<double, kPairs * kPairs> second_derivatives(Coefficient&& c) {
  std::array<double, kPairs * kPairs> rows{};
  for (int i = 0; i < kModes; ++i)
    for (int j = i; j < kModes; ++j)
      for (int k = 0; k < kModes; ++k)
        for (int l = k; l < kModes; ++l) {
          // c does not change where i and j, k and l, or the two pairs change places
          const double even = (c(i, j, k, l) + c(i, k, j, l) + c(i, l, j, k)) / 3.0;
          rows[pair_of(k, l) * kPairs + pair_of(i, j)] = 12.0 * even * (k == l ? 1.0 : 2.0);
        }
  return rows;
}

std::vector<double> product(const std::vector<double>& a, const std::vector<double>& b) {
  std::vector<double> out(a.size());
  for (std::size_t k = 0; k < a.size(); ++k) out[k] = a[k] * b[k];
  return out;
}

/// What is of second order in the slopes, by virtual work: a lift of the integral of sin(slope), and a
/// pressure that stays square to the surface, which moves inwards.
void add_large_slopes(const Fine& fine, const std::array<Shape, kModes>& mode,
                      const std::array<Membrane, kPairs>& membrane, double seat_radius, Disc& disc) {
  const std::size_t n = fine.radius.size();
  for (int i = 0; i < kModes; ++i)
    for (int j = 0; j < kModes; ++j)
      for (int k = j; k < kModes; ++k) {
        const double times = j == k ? 1.0 : 2.0;
        const Shape& mi = mode[i];
        const Shape& mj = mode[j];
        const Shape& mk = mode[k];
        const Membrane& jk = membrane[pair_of(j, k)];
        const Membrane& ij = membrane[pair_of(i, j)];
        const Membrane& ik = membrane[pair_of(i, k)];
        double bow = 0.0;  // integral of half the slope's square times the slope of mode i
        double work = 0.0;
        double before = 0.0;
        for (std::size_t q = 0; q < n; ++q) {
          const double r = fine.radius[q];
          if (q > 0) {
            const std::size_t b = q - 1;
            bow += 0.25 * times * (r - fine.radius[b]) *
                   (mi.slope[q] * mj.slope[q] * mk.slope[q] + mi.slope[b] * mj.slope[b] * mk.slope[b]);
          }
          const double value = 0.5 * times * mi.lift[q] * (jk.travel[q] + r * jk.travel_rate[q]) - r * bow -
                               r * 0.5 * times * (ij.travel[q] * mk.slope[q] + ik.travel[q] * mj.slope[q]);
          if (q > 0) work += 0.5 * (value + before) * (r - fine.radius[q - 1]) * fine.pressure[q - 1];
          before = value;
          if (q > 0 && fine.radius[q - 1] < seat_radius && r >= seat_radius * (1.0 - kSameRadius))
            disc.seat_bow[i * kPairs + pair_of(j, k)] = bow;
        }
        disc.pressure_turn[i * kPairs + pair_of(j, k)] = kTwoPi * work;
      }
  for (int i = 0; i < kModes; ++i)
    for (int j = 0; j < kModes; ++j)
      for (std::size_t q = 0; q + 1 < n; ++q) {
        const auto value = [&](std::size_t k) {
          return fine.radius[k] * mode[i].slope[k] * mode[j].slope[k];
        };
        disc.pressure_arm[i * kModes + j] -= kTwoPi * fine.pressure[q] * 0.5 * (value(q) + value(q + 1)) *
                                             (fine.radius[q + 1] - fine.radius[q]);
      }
}

Disc disc_of(const Valve& valve, const std::vector<double>& station, int n) {
  const Fine fine = fine_grid(valve, station, n);
  const std::size_t n_fine = fine.radius.size();
  const double nu = valve.poisson_ratio;
  Disc disc;
  disc.radius = station[n - 1];
  disc.n = n;

  // lift by unit force at each station
  Eigen::MatrixXd flexibility(n, n);
  std::vector<Shape> by_force;
  const std::vector<double> none(n_fine, 0.0);
  for (int j = 0; j < n; ++j) {
    std::vector<double> constant(n_fine, 0.0);
    std::fill(constant.begin(), constant.begin() + fine.at[j], 1.0 / kTwoPi);
    by_force.push_back(shape_under(fine, nu, constant, none));
    for (int i = 0; i < n; ++i) flexibility(i, j) = by_force.back().lift[fine.at[i]];
  }
  flexibility = 0.5 * (flexibility + flexibility.transpose()).eval();
  const Shape by_pressure = shape_under(fine, nu, fine.constant, fine.square);

  // the leading modes, their bending energy a half of the amplitude's square
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen(flexibility);
  const int n_modes = std::min(kModes, n);
  Eigen::MatrixXd lift = Eigen::MatrixXd::Zero(n, kModes);
  std::array<Shape, kModes> mode;
  for (int i = 0; i < kModes; ++i) {
    Shape& shape = mode[i];
    shape = {none, none, none};
    if (i >= n_modes) continue;
    const double root = std::sqrt(eigen.eigenvalues()(n - 1 - i));
    const Eigen::VectorXd force = eigen.eigenvectors().col(n - 1 - i) / root;
    lift.col(i) = flexibility * force;
    for (int j = 0; j < n; ++j) {
      for (std::size_t k = 0; k < n_fine; ++k) {
        shape.lift[k] += force(j) * by_force[j].lift[k];
        shape.slope[k] += force(j) * by_force[j].slope[k];
        shape.curvature[k] += force(j) * by_force[j].curvature[k];
      }
      disc.pressure_force[i] += force(j) * by_pressure.lift[fine.at[j]];
    }
  }
  const Eigen::MatrixXd remainder = flexibility - lift * lift.transpose();

  double shear = 0.0;
  std::size_t fine_at = 0;
  for (int s = 0; s < n; ++s) {
    const std::size_t at = fine.at[s];
    double by_modes = 0.0;
    for (int i = 0; i < kModes; ++i) {
      disc.lift.push_back(lift(s, i));
      disc.slope.push_back(mode[i].slope[at]);
      by_modes += lift(s, i) * disc.pressure_force[i];
    }
    disc.pressure_lift.push_back(by_pressure.lift[at] - by_modes);
    for (int j = 0; j < n; ++j) disc.remainder.push_back(remainder(s, j));
    for (; fine_at < at; ++fine_at) {
      const double a = fine.radius[fine_at];
      const double b = fine.radius[fine_at + 1];
      shear += fine.constant[fine_at] * std::log(b / a) + 0.5 * fine.square[fine_at] * (b * b - a * a);
    }
    disc.pressure_shear.push_back(shear);
  }

  // energy of stretching: an eighth of the sum of c(i, j, k, l) y_i y_j y_k y_l
  std::array<Membrane, kPairs> membrane;
  for (int i = 0; i < kModes; ++i)
    for (int j = i; j < kModes; ++j)
      membrane[pair_of(i, j)] = membrane_of(fine, nu, product(mode[i].slope, mode[j].slope));
  disc.stretch = second_derivatives([&](int i, int j, int k, int l) {
    const std::vector<double> strain = product(mode[k].slope, mode[l].slope);
    return 0.125 * kTwoPi * integral(fine, product(membrane[pair_of(i, j)].force, strain));
  });
  add_large_slopes(fine, mode, membrane, valve.seat_radius, disc);
  return disc;
}

}  // namespace

DiscTable table_of_discs(const Valve& valve, std::span<const double> rims) {
  SW_CHECK(!rims.empty());
  SW_CHECK(*std::min_element(rims.begin(), rims.end()) > valve.clamp_radius * (1.0 + kSameRadius));
  DiscTable table;
  table.valve = valve;
  std::vector<double> rim(rims.begin(), rims.end());
  keep_apart(rim);
  table.radius = rim;
  table.radius.push_back(valve.seat_radius);
  table.radius.push_back(valve.clamp_radius);
  keep_apart(table.radius);
  const double widest = (table.radius.back() - valve.clamp_radius) * kFill;
  const std::vector<double> given = table.radius;
  for (std::size_t k = 0; k + 1 < given.size(); ++k) {
    const int parts = static_cast<int>(std::ceil((given[k + 1] - given[k]) / widest - 1e-9));
    for (int j = 1; j < parts; ++j) table.radius.push_back(given[k] + (given[k + 1] - given[k]) * j / parts);
  }
  std::sort(table.radius.begin(), table.radius.end());
  table.radius.erase(table.radius.begin());  // the clamp's edge, which does not lift
  SW_CHECK(table.radius.size() <= kMostRadii, table.radius.size());

  const double same = kSameRadius * table.radius.back();
  for (std::size_t s = 0; s < table.radius.size(); ++s) {
    const double r = table.radius[s];
    table.shear_lift.push_back(std::log(r / valve.clamp_radius) / kTwoPi);
    if (std::abs(r - valve.seat_radius) <= same) table.seat_station = static_cast<int>(s);
    const bool is_rim =
        std::any_of(rim.begin(), rim.end(), [&](double a) { return std::abs(a - r) <= same; });
    if (is_rim) table.discs.push_back(disc_of(valve, table.radius, static_cast<int>(s) + 1));
  }
  return table;
}

}  // namespace shimwright::karman
