#include "plate/disc_element.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "plate/disc_local.h"

namespace shimwright::plate {
namespace {

constexpr int kPoints = DiscElements::kPoints;

constexpr double kShearFactor = 5.0 / 6.0;

struct ShapeTable {
  double value[kPoints][3];
  double slope[kPoints][3];  // by the local coordinate from -1 to 1
  double weight[kPoints];
};

constexpr double kGauss = 0.77459666924148337704;  // sqrt(0.6)

constexpr ShapeTable make_shapes() {
  ShapeTable table{};
  const double at[kPoints] = {-kGauss, 0.0, kGauss};
  const double weight[kPoints] = {5.0 / 9.0, 8.0 / 9.0, 5.0 / 9.0};
  for (int g = 0; g < kPoints; ++g) {
    const double x = at[g];
    table.value[g][0] = 0.5 * x * (x - 1.0);
    table.value[g][1] = 1.0 - x * x;
    table.value[g][2] = 0.5 * x * (x + 1.0);
    table.slope[g][0] = x - 0.5;
    table.slope[g][1] = -2.0 * x;
    table.slope[g][2] = x + 0.5;
    table.weight[g] = weight[g];
  }
  return table;
}

constexpr ShapeTable kShapes = make_shapes();

/// Sine and cosine for the slopes of a disc (below 0.8): the series to the 11th power, good to 1e-10, and the
/// same bits on every machine.
struct Turn {
  double sine, cosine;
};
Turn turn_of(double phi) {
  const double q = phi * phi;
  return {phi * (1.0 - q / 6.0 * (1.0 - q / 20.0 * (1.0 - q / 42.0 * (1.0 - q / 72.0 * (1.0 - q / 110.0))))),
          1.0 - q / 2.0 * (1.0 - q / 12.0 * (1.0 - q / 30.0 * (1.0 - q / 56.0 * (1.0 - q / 90.0))))};
}

/// Share of the circle that still carries along the radius and around it, where a rim is notched.
struct NotchShares {
  double radial = 1.0;
  double hoop = 1.0;
};
NotchShares notch_shares(const RimNotches& notches, double r) {
  const double around = 2.0 * std::numbers::pi * r;
  // a hoop force needs about the depth of a notch to come back beside it (Saint-Venant; an estimate of ours)
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
  radius_.assign(layout.radius.begin() + layer.begin, layout.radius.begin() + layer.end + 1);

  const int n_elements = n_ - 1;
  const double t = layer.thickness;
  const double n = layer.n_equal;
  const double nu = layer.poisson_ratio;
  share_.assign(n_elements, 0.0);
  material_.resize(n_elements);
  points_.resize(static_cast<std::size_t>(kPoints) * n_elements);
  shear_.assign(n_, 0.0);
  shear_load_.assign(n_, 0.0);
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
    const double at[kPoints] = {-kGauss, 0.0, kGauss};
    for (int g = 0; g < kPoints; ++g) {
      const double r = middle + 0.5 * (b - a) * at[g];
      points_[kPoints * e + g] = {r, 0.5 * (b - a) * kShapes.weight[g], constant + square * r * r};
    }
    shear_[e + 1] = shear_[e] + std::log(b / a) / m.shear;
    shear_load_[e + 1] =
        shear_load_[e] + (constant * std::log(b / a) + 0.5 * square * (b * b - a * a)) / m.shear;
  }

  const int n_dofs = 2 * n_;
  x_.assign(4 * n_ - 2, 0.0);
  now_.assign(n_, 0.0);
  travel_.assign(n_, 0.0);
  middles_.resize(n_elements);
  own_.assign(n_, 0.0);
  residual_.assign(n_dofs, 0.0);
  by_pressure_.assign(n_dofs, 0.0);
  rest_step_.assign(n_dofs, 0.0);
  step_.assign(n_dofs, 0.0);
  middle_step_.assign(2 * n_elements, 0.0);
  columns_.assign(static_cast<std::size_t>(n_) * n_dofs, 0.0);
  radial_load_.assign(points_.size(), 0.0);
  load_.resize(points_.size());
  for (std::size_t g = 0; g < points_.size(); ++g) load_[g] = points_[g].load;
  axial.assign(n_elements, 0.0);
  radial.assign(n_elements, 0.0);
  moment.assign(n_, 0.0);
  pressure = 0.0;
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
    for (int e = 0; e < n_elements; ++e)
      for (int g = 0; g < kPoints; ++g) radial_load_[kPoints * e + g] = radial[e];
    return;
  }
  double pull = 0.0;
  double push = 0.0;
  for (int e = n_elements - 1; e >= 0; --e) {
    const double width = radius_[e + 1] - radius_[e];
    const double outer = radius_[e + 1] + travel_[e + 1];
    const double stretch = (travel_[e + 1] - travel_[e]) / width;
    double whole = 0.0;
    for (int g = 0; g < kPoints; ++g) {
      double phi = 0.0;
      for (int i = 0; i < 3; ++i) phi += kShapes.value[g][i] * x_[4 * e + 2 * i];
      whole -= pressure * share_[e] * phi * points_[kPoints * e + g].r * points_[kPoints * e + g].weight;
    }
    for (int g = 0; g < kPoints; ++g) {
      const double inwards = radius_[e + 1] - points_[kPoints * e + g].r;
      const double r = outer - inwards * (1.0 + stretch);
      radial_load_[kPoints * e + g] = radial[e] + pull + whole * inwards / width;
      load_[kPoints * e + g] = push + 0.5 * share_[e] * (outer * outer - r * r);
    }
    const double inner = radius_[e] + travel_[e];
    pull += whole;
    push += 0.5 * share_[e] * (outer * outer - inner * inner);
  }
}

void DiscElements::element(int e, bool with_tangent, Local& local) const {
  if (kinematics_ == Kinematics::Finite) {
    with_tangent ? element_of<true, true>(e, local) : element_of<true, false>(e, local);
  } else {
    with_tangent ? element_of<false, true>(e, local) : element_of<false, false>(e, local);
  }
}

template <bool kFinite, bool kTangent>
void DiscElements::element_of(int e, Local& local) const {
  if (kTangent) {
    local = Local{};
  } else {
    std::fill(local.residual, local.residual + 6, 0.0);
    local.lift = local.travel = local.energy = 0.0;
  }
  const Material& m = material_[e];
  const double* x = &x_[4 * e];
  const double to_slope = 2.0 / (radius_[e + 1] - radius_[e]);
  for (int g = 0; g < kPoints; ++g) {
    const Point& point = points_[kPoints * e + g];
    const double* value = kShapes.value[g];
    double slope[3];
    double phi = 0.0, dphi = 0.0, psi = 0.0, dpsi = 0.0;
    for (int i = 0; i < 3; ++i) {
      slope[i] = kShapes.slope[g][i] * to_slope;
      phi += value[i] * x[2 * i];
      dphi += slope[i] * x[2 * i];
      psi += value[i] * x[2 * i + 1];
      dpsi += slope[i] * x[2 * i + 1];
    }
    const double r = point.r;
    const double over_r = 1.0 / r;
    const double s_load = axial[e] + pressure * load_[kPoints * e + g];
    const double h = psi + radial_load_[kPoints * e + g];

    // kinematics: sine and cosine in the curvature, transverse force q, radial force n_r, and what multiplies
    // them
    double sine = phi, cosine = 1.0, rn = 0.0, q = -s_load, stretch_factor = 1.0, opening = 0.0,
           lift_slope = phi;
    double bend_geometry = 0.0;  // d q / d phi
    double couple = 0.0;         // d q / d psi
    double e_r = 0.0, soft_force = 0.0;
    if (kFinite) {
      const Turn turn = turn_of(phi);
      sine = turn.sine;
      cosine = turn.cosine;
      rn = h * cosine + s_load * sine;
      q = h * sine - s_load * cosine;
      e_r = m.soft_r * rn * over_r + m.soft_c * dpsi;
      stretch_factor = 1.0 + e_r;
      opening = stretch_factor * cosine - 1.0;
      lift_slope = stretch_factor * sine;
      bend_geometry = rn * stretch_factor - m.soft_r * q * q * over_r;
      couple = sine * stretch_factor + q * m.soft_r * cosine * over_r;
      soft_force = m.soft_r;
    } else {
      rn = h;
      e_r = m.soft_r * rn * over_r + m.soft_c * dpsi;
      opening = e_r;
      if (kinematics_ == Kinematics::Moderate) {
        q += h * phi;
        opening -= 0.5 * phi * phi;
        bend_geometry = h;
        couple = phi;
      }
    }
    const double e_t = m.soft_t * dpsi + m.soft_c * rn * over_r;
    const double moment_r = m.bend_r * dphi + m.bend_c * sine * over_r;
    const double moment_t = m.bend_t * sine * over_r + m.bend_c * dphi;

    // residual
    const double w = point.weight;
    const double r_dphi = w * r * moment_r;
    const double r_phi = w * (moment_t * cosine + q * stretch_factor);
    const double r_dpsi = -w * r * e_t;
    const double r_psi = -w * opening;
    for (int i = 0; i < 3; ++i) {
      local.residual[2 * i] += r_dphi * slope[i] + r_phi * value[i];
      local.residual[2 * i + 1] += r_dpsi * slope[i] + r_psi * value[i];
    }
    local.lift += w * lift_slope;
    local.travel += w * opening;
    local.energy += 0.5 * w * (r * (moment_r * dphi + e_t * dpsi) + moment_t * sine + rn * e_r);
    if (!kTangent) continue;

    // tangent, symmetric
    const double k_dd = w * r * m.bend_r;
    const double k_dv = w * m.bend_c * cosine;
    const double k_vv =
        w * (m.bend_t * cosine * cosine * over_r - (kFinite ? moment_t * sine : 0.0) + bend_geometry);
    const double c_vv = w * couple;
    const double c_vd = w * (kFinite ? q * m.soft_c : 0.0);
    const double s_dd = -w * r * m.soft_t;
    const double s_dv = -w * m.soft_c * cosine;
    const double s_vv = -w * m.soft_r * cosine * cosine * over_r;
    for (int i = 0; i < 3; ++i) {
      for (int j = 0; j < 3; ++j) {
        const double vv = value[i] * value[j];
        const double dv = slope[i] * value[j];
        const double vd = value[i] * slope[j];
        const double dd = slope[i] * slope[j];
        local.tangent[2 * i][2 * j] += k_dd * dd + k_dv * (dv + vd) + k_vv * vv;
        local.tangent[2 * i][2 * j + 1] += c_vv * vv + c_vd * vd;
        local.tangent[2 * i + 1][2 * j] += c_vv * vv + c_vd * dv;
        local.tangent[2 * i + 1][2 * j + 1] += s_dd * dd + s_dv * (dv + vd) + s_vv * vv;
      }
    }
    const double f_v = w * (kFinite ? cosine * stretch_factor - q * soft_force * sine * over_r : 1.0);
    const double f_d = kFinite ? w * m.soft_c * sine : 0.0;
    const double f_p = kFinite ? w * soft_force * sine * cosine * over_r : 0.0;
    for (int i = 0; i < 3; ++i) {
      const double on_phi = f_v * value[i];
      const double on_psi = f_d * slope[i] + f_p * value[i];
      local.by_force[2 * i] += on_phi;
      local.by_force[2 * i + 1] += on_psi;
      local.by_pressure[2 * i] += on_phi * load_[kPoints * e + g];
      local.by_pressure[2 * i + 1] += on_psi * load_[kPoints * e + g];
    }
  }
}

double DiscElements::largest_slope() const {
  double largest = 0.0;
  for (std::size_t i = 0; i < x_.size(); i += 2) largest = std::max(largest, std::abs(x_[i]));
  return largest;
}

void DiscElements::sections(std::vector<Section>& out) {
  out.resize(n_);
  follow_pressure();
  Local local;
  for (int k = 0; k < n_; ++k) {
    const int e = std::max(k - 1, 0);
    element(e, false, local);
    const Material& m = material_[e];
    const double r = radius_[k];
    const double n = n_equal_;
    Section& section = out[k];
    section.slope = x_[4 * k];
    section.radial_travel = k == 0 ? local.residual[1] : -local.residual[5];
    const double moment_r = (k == 0 ? -local.residual[0] : local.residual[4]) / r;
    const bool finite = kinematics_ == Kinematics::Finite;
    const Turn turn = finite ? turn_of(section.slope) : Turn{section.slope, 1.0};
    const double bend = (moment_r - m.bend_c * turn.sine / r) / m.bend_r;
    section.moment_radial = moment_r / n;
    section.moment_hoop = (m.bend_t * turn.sine / r + m.bend_c * bend) / n;

    // membrane: the axial force has a part along the slope
    const double h = x_[4 * k + 1] + radial_load_[kPoints * e + (k == 0 ? 0 : kPoints - 1)];
    const Point& point = points_[kPoints * e + (k == 0 ? 0 : kPoints - 1)];
    const double load =
        load_[kPoints * e + (k == 0 ? 0 : kPoints - 1)] - 0.5 * share_[e] * (r * r - point.r * point.r);
    const double s_load = axial[e] + pressure * load;
    const double force_r = (finite ? h * turn.cosine + s_load * turn.sine : h) / r;
    if (kinematics_ == Kinematics::Small) {
      section.force_radial = section.force_hoop = section.radial_travel = 0.0;
    } else {
      section.force_radial = force_r / n;
      section.force_hoop = (section.radial_travel / r - m.soft_c * force_r) / m.soft_t / n;
    }
  }
}

double DiscElements::energy() const {
  Local local;
  double sum = 0.0;
  for (int e = 0; e + 1 < n_; ++e) {
    element(e, false, local);
    sum += local.energy;
  }
  return sum;
}

}  // namespace shimwright::plate
