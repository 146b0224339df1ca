#include "plate/disc_element.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "plate/disc_local.h"

namespace shimwright::plate {
namespace {

/// Share of the circle that still carries along the radius and around it, where a rim is notched.
struct NotchShares {
  double radial = 1.0;
  double hoop = 1.0;
};
NotchShares notch_shares(const RimNotches& notches, double r) {
  const double around = 2.0 * std::numbers::pi * r;
  // a hoop force needs about the depth of a notch to come back next to it (Saint-Venant; an estimate of ours)
  return {std::max(1.0 - notches.count * notches.width / around, 0.02),
          std::max(1.0 - notches.count * (notches.width + 2.0 * notches.depth) / around, 0.02)};
}

}  // namespace

void DiscElements::set_up(const Layout& layout, int layer_index, Kinematics kinematics, bool shear_flexible,
                          bool clamp_slips) {
  const Layer& layer = layout.layers[layer_index];
  kinematics_ = kinematics;
  ring_ = layer.ring;
  slips_ = clamp_slips;
  loaded_ = layer_index == 0;
  n_ = layer.n_stations();
  n_equal_ = layer.n_equal;
  thickness_ = layer.thickness;
  offset_ = kinematics == Kinematics::Finite ? layer.offset() : 0.0;
  spread_ = kinematics == Kinematics::Finite ? layer.spread() : 0.0;
  radius_.assign(layout.radius.begin() + layer.begin, layout.radius.begin() + layer.end + 1);

  const int n_elements = n_ - 1;
  const double t = layer.thickness;
  const double n = layer.n_equal;
  const double nu = layer.poisson_ratio;
  share_.assign(n_elements, 0.0);
  material_.resize(n_elements);
  const Material filler{1.0, 0.0, 1.0, 1.0, 0.0, 1.0, std::numeric_limits<double>::infinity()};
  n_padded_ = (n_elements + kLanes - 1) / kLanes * kLanes;
  const std::size_t n_points = static_cast<std::size_t>(DiscElements::kPoints) * n_padded_;
  point_r_.assign(n_points, 1.0);
  point_over_r_.assign(n_points, 1.0);
  point_weight_.assign(n_points, 0.0);  // of what only fills the last lanes: nothing
  load_at_rest_.assign(n_points, 0.0);
  for (int e = 0; e < n_elements; ++e) {
    const double a = radius_[e];
    const double b = radius_[e + 1];
    const double middle = 0.5 * (a + b);

    // stiffness, weaker where the rim is notched
    NotchShares shares;
    if (layer.notches.count > 0 && middle > layer.outer - layer.notches.depth)
      shares = notch_shares(layer.notches, middle);
    const double modulus_r = layer.youngs_modulus * shares.radial;
    const double modulus_t = layer.youngs_modulus * shares.hoop;
    const double modulus_c = std::sqrt(modulus_r * modulus_t);
    const double cube = n * t * t * t / (12.0 * (1.0 - nu * nu));
    Material& m = material_[e];
    m.bend_r = modulus_r * cube;
    m.bend_t = modulus_t * cube;
    m.bend_c = nu * modulus_c * cube;
    m.soft_r = 1.0 / (modulus_r * n * t);
    m.soft_t = 1.0 / (modulus_t * n * t);
    m.soft_c = -nu / (modulus_c * n * t);
    m.shear = shear_flexible ? kShearFactor * modulus_r / (2.0 * (1.0 + nu)) * n * t
                             : std::numeric_limits<double>::infinity();

    // the pressure's axial force outside each point
    const double constant = loaded_ ? layout.load_constant[layer.begin + e] : 0.0;
    const double square = loaded_ ? layout.load_square[layer.begin + e] : 0.0;
    share_[e] = -2.0 * square;
    const double at[DiscElements::kPoints] = {-kGauss, 0.0, kGauss};
    for (int g = 0; g < DiscElements::kPoints; ++g) {
      const double r = middle + 0.5 * (b - a) * at[g];
      const int point = g * n_padded_ + e;
      point_r_[point] = r;
      point_over_r_[point] = 1.0 / r;
      point_weight_[point] = 0.5 * (b - a) * kShapes.weight[g];
      load_at_rest_[point] = constant + square * r * r;
    }
  }

  const int n_dofs = 2 * n_;
  n_state_ = 4 * n_ - 2;
  x_.assign(4 * n_padded_ + 2, 0.0);
  ends_.assign(4 * n_padded_, 0.0);
  lane_data_.assign(static_cast<std::size_t>(kLaneRows) * n_padded_, 0.0);
  now_.assign(n_, 0.0);
  travel_.assign(n_, 0.0);
  middles_.resize(n_elements);
  own_.assign(n_, 0.0);
  own_pressure_.assign(n_, 0.0);
  by_pressure_.assign(n_dofs, 0.0);
  rest_step_.assign(n_dofs, 0.0);
  step_.assign(n_dofs, 0.0);
  step_phi_.assign(n_padded_ + kLanes, 0.0);
  step_psi_.assign(n_padded_ + kLanes, 0.0);
  beyond_.assign(n_padded_, 0.0);
  rows_.assign(static_cast<std::size_t>(kRows) * n_padded_, 0.0);
  columns_.assign(static_cast<std::size_t>(n_) * n_dofs, 0.0);
  radial_load_.assign(n_points, 0.0);
  load_ = load_at_rest_;
  load_turn_.assign(offset_ > 0.0 ? n_points : 0, 0.0);
  set_up_lanes(filler);
  axial.assign(n_padded_, 0.0);
  radial.assign(n_elements, 0.0);
  moment.assign(n_, 0.0);
  pressure = 0.0;
}

/// Materials and local coordinates in rows by element, for the lanes.
void DiscElements::set_up_lanes(const Material& filler) {
  for (int e = 0; e < n_padded_; ++e) {
    const bool real = e + 1 < n_;
    const Material& m = real ? material_[e] : filler;
    const double rows[kLaneRows] = {
        m.bend_r, m.bend_c, m.bend_t,      m.soft_r,
        m.soft_c, m.soft_t, 1.0 / m.shear, real ? 2.0 / (radius_[e + 1] - radius_[e]) : 1.0};
    for (int row = 0; row < kLaneRows; ++row) lane_data_[row * n_padded_ + e] = rows[row];
  }
}

void DiscElements::flatten() {
  std::fill(x_.begin(), x_.end(), 0.0);
  std::fill(axial.begin(), axial.end(), 0.0);
  std::fill(radial.begin(), radial.end(), 0.0);
  std::fill(moment.begin(), moment.end(), 0.0);
  std::fill(travel_.begin(), travel_.end(), 0.0);
  pressure = 0.0;
}

/// Radial resultant at the points, and the axial load of a pressure that stays square on the surface: its
/// radial part pulls inwards with the slope, its axial part acts on the annulus as it has moved.
void DiscElements::follow_pressure() {
  const int n_elements = n_ - 1;
  if (!follows || !loaded_ || pressure == 0.0) {
    for (int g = 0; g < DiscElements::kPoints; ++g)
      for (int e = 0; e < n_elements; ++e) radial_load_[g * n_padded_ + e] = radial[e];
    return;
  }
  if (offset_ > 0.0) return follow_below_middle();
  double pull = 0.0;
  double push = 0.0;
  for (int e = n_elements - 1; e >= 0; --e) {
    const double width = radius_[e + 1] - radius_[e];
    const double outer = radius_[e + 1] + travel_[e + 1];
    const double stretch = (travel_[e + 1] - travel_[e]) / width;
    double whole = 0.0;
    for (int g = 0; g < DiscElements::kPoints; ++g) {
      const int point = g * n_padded_ + e;
      double phi = 0.0;
      for (int i = 0; i < 3; ++i) phi += kShapes.value[g][i] * x_[4 * e + 2 * i];
      whole -= pressure * share_[e] * phi * point_r_[point] * point_weight_[point];
    }
    for (int g = 0; g < DiscElements::kPoints; ++g) {
      const int point = g * n_padded_ + e;
      const double inwards = radius_[e + 1] - point_r_[point];
      const double r = outer - inwards * (1.0 + stretch);
      radial_load_[point] = radial[e] + pull + whole * inwards / width;
      load_[point] = push + 0.5 * share_[e] * (outer * outer - r * r);
    }
    const double inner = radius_[e] + travel_[e];
    pull += whole;
    push += 0.5 * share_[e] * (outer * outer - inner * inner);
  }
}

/// The same for equal discs that lie on each other: the pressure acts on the lowest, and a normal of the
/// layer meets that one further out than its middle, by the offset along the slope.
void DiscElements::follow_below_middle() {
  const int n_elements = n_ - 1;
  push_.assign(n_, 0.0);
  pull_.assign(n_, 0.0);
  const double* radii = radius_.data();
  const double* travel = travel_.data();
  for (int e = n_elements - 1; e >= 0; --e) {
    const double outer = radii[e + 1] + travel[e + 1];
    const double inner = radii[e] + travel[e];
    double whole = 0.0;
    for (int g = 0; g < DiscElements::kPoints; ++g) {
      const int point = g * n_padded_ + e;
      double phi = 0.0;
      for (int i = 0; i < 3; ++i) phi += kShapes.value[g][i] * x_[4 * e + 2 * i];
      load_[point] = point_r_[point] + offset_ * phi;  // for now: where the lowest disc is met
      whole -= phi * point_r_[point] * point_weight_[point];
    }
    push_[e] = push_[e + 1] + 0.5 * share_[e] * (outer * outer - inner * inner);
    pull_[e] = pull_[e + 1] + pressure * share_[e] * whole;
  }
  for (int e = 0; e < n_elements; ++e) {
    for (int g = 0; g < DiscElements::kPoints; ++g) {
      const int point = g * n_padded_ + e;
      const double r = std::clamp(load_[point], radii[0], radii[n_elements]);
      int at = e;
      while (r < radii[at]) --at;
      while (r > radii[at + 1]) ++at;
      const double outwards = (r - radii[at]) / (radii[at + 1] - radii[at]);
      const double moved = r + travel[at] + outwards * (travel[at + 1] - travel[at]);
      const double outer = radii[at + 1] + travel[at + 1];
      load_[point] = push_[at + 1] + 0.5 * share_[at] * (outer * outer - moved * moved);
      load_turn_[point] = offset_ * share_[at] * moved;
      radial_load_[point] = radial[e] + pull_[at] + outwards * (pull_[at + 1] - pull_[at]);
    }
  }
}

double DiscElements::largest_slope() const {
  double largest = 0.0;
  for (int i = 0; i < n_state_; i += 2) largest = std::max(largest, std::abs(x_[i]));
  return largest;
}

double DiscElements::largest_radial() const {
  double largest = 0.0;
  for (int k = 0; k < n_; ++k) largest = std::max(largest, std::abs(x_[4 * k + 1]));
  return largest;
}

double DiscElements::sections(std::vector<Section>& out) {
  out.resize(n_);
  follow_pressure();
  const double energy = find_ends();
  const double over_n = 1.0 / n_equal_;
  const bool finite = kinematics_ == Kinematics::Finite;
  for (int k = 0; k < n_; ++k) {
    const int e = std::max(k - 1, 0);
    const Material& m = material_[e];
    const double r = radius_[k];
    const double over_r = 1.0 / r;
    const double* ends = &ends_[4 * e];
    Section& section = out[k];
    section.slope = x_[4 * k];
    section.radial_travel = k == 0 ? ends[1] : -ends[3];
    const double moment_r = (k == 0 ? -ends[0] : ends[2]) * over_r;
    const Turn turn = finite ? turn_of(section.slope) : Turn{section.slope, 1.0};
    const double hoop = turn.sine * over_r;
    double bend = (moment_r - m.bend_c * hoop) / m.bend_r;
    bend /= 1.0 + 2.0 * spread_ * bend * bend;  // outer discs took more than the middle one
    section.moment_radial = (m.bend_r * bend + m.bend_c * hoop) * over_n;
    section.moment_hoop = (m.bend_t * hoop + m.bend_c * bend) * over_n;
    // a surface above the middle is nearer to the centre that it bends around
    section.moment_radial_by_height = (m.bend_r * bend * bend + m.bend_c * hoop * hoop) * over_n;
    section.moment_hoop_by_height = (m.bend_t * hoop * hoop + m.bend_c * bend * bend) * over_n;

    // membrane: the axial force has a part along the slope
    const int point = (k == 0 ? 0 : DiscElements::kPoints - 1) * n_padded_ + e;
    const double h = x_[4 * k + 1] + radial_load_[point];
    const double load = load_[point] - 0.5 * share_[e] * (r * r - point_r_[point] * point_r_[point]);
    const double s_load = axial[e] + pressure * load;
    const double force_r = (finite ? h * turn.cosine + s_load * turn.sine : h) * over_r;
    if (kinematics_ == Kinematics::Small) {
      section.force_radial = section.force_hoop = section.radial_travel = 0.0;
    } else {
      section.force_radial = force_r * over_n;
      section.force_hoop = (section.radial_travel * over_r - m.soft_c * force_r) / m.soft_t * over_n;
    }
  }
  return energy;
}

}  // namespace shimwright::plate
