// Elements of a disc, several at once in the lanes of wide registers.
#include <algorithm>
#include <cstring>

#include "plate/disc_band.h"
#include "plate/disc_local.h"
#include "plate/kernels.h"

namespace shimwright::plate {
namespace {

constexpr int kEnd[4] = {0, 1, 4, 5};  // end dofs in an element's own order; its middle has 2 and 3

#define SW_INLINE inline __attribute__((always_inline))

typedef double Lanes __attribute__((vector_size(DiscElements::kLanes * sizeof(double))));

SW_INLINE void load(const double* from, Lanes& to) {
  std::memcpy(&to, from, sizeof to);
}
SW_INLINE void store(const Lanes& from, double* to) {
  std::memcpy(to, &from, sizeof from);
}

}  // namespace

/// What the elements in the lanes are computed from: rows that begin at the first of them.
struct LaneView {
  const double* state;  // of the first element's inner node
  const double* data;   // materials and local coordinates
  const double* r;
  const double* over_r;
  const double* weight;
  const double* load;
  const double* radial_load;
  const double* axial;
  const double* load_turn;  // of discs that lie on each other
  int stride;               // from one row or point to the next
  double pressure;
  double spread;  // mean square of how far the layer's discs lie from its middle
  bool moderate;
};

/// What the residual sums up over each element; dofs are phi and psi of the inner, middle and outer node.
struct LaneResidual {
  Lanes by_dof[6];
  Lanes lift;    // over the element
  Lanes travel;  // over the element
  Lanes energy;  // per radian
};

/// Derivatives of that residual.
struct LaneTangent {
  Lanes by_dof[6][6];    // nodes of the row not after those of the column
  Lanes by_force[6];     // minus d residual / dS
  Lanes by_pressure[6];  // minus d residual / d pressure
  Lanes lift_by_force;   // over the element, by shear
  Lanes lift_by_pressure;
};

namespace {

/// Materials, load and state of each element.
struct LaneElement {
  Lanes bend_r, bend_c, bend_t;
  Lanes soft_r, soft_c, soft_t;
  Lanes soft_shear;
  Lanes to_slope;  // from a slope by the local coordinate
  Lanes axial;
  Lanes x[6];
};

SW_INLINE void load_element(const LaneView& view, LaneElement& element) {
  load(view.data, element.bend_r);
  load(view.data + view.stride, element.bend_c);
  load(view.data + 2 * view.stride, element.bend_t);
  load(view.data + 3 * view.stride, element.soft_r);
  load(view.data + 4 * view.stride, element.soft_c);
  load(view.data + 5 * view.stride, element.soft_t);
  load(view.data + 6 * view.stride, element.soft_shear);
  load(view.data + 7 * view.stride, element.to_slope);
  load(view.axial, element.axial);
  for (int i = 0; i < 6; ++i) {
    double of_lanes[DiscElements::kLanes];
    for (int lane = 0; lane < DiscElements::kLanes; ++lane) of_lanes[lane] = view.state[4 * lane + i];
    load(of_lanes, element.x[i]);
  }
}

/// Shape functions that vanish at a point of integration are left out.
constexpr bool has_value(int g, int i) {
  return g != 1 || i == 1;
}
constexpr bool has_slope(int g, int i) {
  return g != 1 || i != 1;
}

/// The disc at one point of integration: what residual and tangent have in common.
struct LanePoint {
  Lanes r, over_r, w, load;
  Lanes slope[3];            // of the shape functions along the radius
  Lanes dphi, dpsi;          // slopes of the state
  Lanes sine, cosine;        // of the rotation, as they enter the curvature
  Lanes q, rn;               // transverse and radial force
  Lanes stretch_factor;      // 1 + e_r
  Lanes opening;             // of the radius, du/dr
  Lanes lift_slope;          // dw/dr
  Lanes shear_over_r;        // shear compliance over r
  Lanes shear;               // angle between the section and the normal
  Lanes pull;                // what the shear angle turns into a moment, d q / d phi
  Lanes shear_by_radial;     // d of minus the shear angle / d psi over the shear compliance over r
  Lanes bend_geometry;       // d q / d phi
  Lanes couple;              // d q / d psi
  Lanes e_r, e_t;            // membrane strains
  Lanes moment_r, moment_t;  // per length
  Lanes bend_r;              // d moment_r / d curvature
};

/// Discs that lie on each other bend about one centre: those above the middle more, those below it less. With
/// D / 2 [k^2 (1 - z k_t) / (1 - z k) + k_t^2 (1 - z k) / (1 - z k_t) + 2 nu k k_t] in a disc at height z,
/// what is left of the mean is D / 2 z^2 (k - k_t) (k^3 - k_t^3).
SW_INLINE void bend_around_middle(const LaneView& view, const LaneElement& element, LanePoint& point) {
  const Lanes k = point.dphi;
  const Lanes k_t = point.sine * point.over_r;
  const Lanes apart = k - k_t;
  const Lanes cubes = apart * (k * k + k * k_t + k_t * k_t);
  point.moment_r += 0.5 * view.spread * element.bend_r * (cubes + 3.0 * k * k * apart);
  point.moment_t -= 0.5 * view.spread * element.bend_t * (cubes + 3.0 * k_t * k_t * apart);
  point.bend_r += 3.0 * view.spread * element.bend_r * k * (k + apart);
}

template <bool kFinite, bool kPiled>
SW_INLINE void find_point(const LaneView& view, const LaneElement& element, int g, LanePoint& point) {
  const Lanes zero = {};
  Lanes radial_load;
  load(view.r + g * view.stride, point.r);
  load(view.over_r + g * view.stride, point.over_r);
  load(view.weight + g * view.stride, point.w);
  load(view.load + g * view.stride, point.load);
  load(view.radial_load + g * view.stride, radial_load);
  const double* value = kShapes.value[g];
  Lanes phi = zero, psi = zero;
  point.dphi = point.dpsi = zero;
  for (int i = 0; i < 3; ++i) {
    point.slope[i] = kShapes.slope[g][i] * element.to_slope;
    if (has_value(g, i)) {
      phi += value[i] * element.x[2 * i];
      psi += value[i] * element.x[2 * i + 1];
    }
    if (has_slope(g, i)) {
      point.dphi += point.slope[i] * element.x[2 * i];
      point.dpsi += point.slope[i] * element.x[2 * i + 1];
    }
  }
  const Lanes s_load = element.axial + view.pressure * point.load;
  const Lanes h = psi + radial_load;

  point.shear_over_r = element.soft_shear * point.over_r;
  if (kFinite) {
    find_turn(phi, point.sine, point.cosine);
    point.rn = h * point.cosine + s_load * point.sine;
    point.q = h * point.sine - s_load * point.cosine;
    point.e_r = element.soft_r * point.rn * point.over_r + element.soft_c * point.dpsi;
    point.stretch_factor = 1.0 + point.e_r;
    point.shear = -point.q * point.shear_over_r;
    point.pull = point.rn;
    point.shear_by_radial = point.sine;
    point.opening = point.stretch_factor * point.cosine - 1.0 - point.shear * point.sine;
    point.lift_slope = point.stretch_factor * point.sine + point.shear * point.cosine;
    const Lanes soft = point.shear_over_r - element.soft_r * point.over_r;
    point.bend_geometry =
        point.rn * point.stretch_factor + soft * point.q * point.q - point.shear_over_r * point.rn * point.rn;
    point.couple =
        point.sine * (point.stretch_factor - point.shear_over_r * point.rn) - soft * point.q * point.cosine;
    if (kPiled) {
      Lanes load_turn;
      load(view.load_turn + g * view.stride, load_turn);
      point.bend_geometry += view.pressure * load_turn * point.cosine;
    }
  } else {
    point.sine = point.lift_slope = phi;
    point.cosine = point.stretch_factor = zero + 1.0;
    point.rn = h;
    point.q = -s_load;
    point.bend_geometry = point.couple = point.pull = point.shear_by_radial = zero;
    point.e_r = element.soft_r * point.rn * point.over_r + element.soft_c * point.dpsi;
    point.opening = point.e_r;
    if (view.moderate) {
      point.q += h * phi;
      point.pull = h;
      point.shear_by_radial = phi;
    }
    point.shear = -point.q * point.shear_over_r;
    point.lift_slope += point.shear;
    if (view.moderate) {
      point.opening -= (0.5 * phi + point.shear) * phi;
      point.bend_geometry = h - point.shear_over_r * h * h;
      point.couple = phi + point.shear - point.shear_over_r * h * phi;
    }
  }
  point.e_t = element.soft_t * point.dpsi + element.soft_c * point.rn * point.over_r;
  point.moment_r = element.bend_r * point.dphi + element.bend_c * point.sine * point.over_r;
  point.moment_t = element.bend_t * point.sine * point.over_r + element.bend_c * point.dphi;
  point.bend_r = element.bend_r;
  if (kPiled) bend_around_middle(view, element, point);
}

SW_INLINE void add_residual(const LanePoint& point, int g, LaneResidual& residual) {
  const Lanes w = point.w, r = point.r;
  const double* value = kShapes.value[g];
  const Lanes r_dphi = w * r * point.moment_r;
  const Lanes r_phi =
      w * (point.moment_t * point.cosine + point.q * point.stretch_factor + point.shear * point.pull);
  const Lanes r_dpsi = -w * r * point.e_t;
  const Lanes r_psi = -w * point.opening;
  for (int i = 0; i < 3; ++i) {
    if (has_slope(g, i)) {
      residual.by_dof[2 * i] += r_dphi * point.slope[i];
      residual.by_dof[2 * i + 1] += r_dpsi * point.slope[i];
    }
    if (has_value(g, i)) {
      residual.by_dof[2 * i] += r_phi * value[i];
      residual.by_dof[2 * i + 1] += r_psi * value[i];
    }
  }
  residual.lift += w * point.lift_slope;
  residual.travel += w * point.opening;
  residual.energy += 0.5 * w *
                     (r * (point.moment_r * point.dphi + point.e_t * point.dpsi) +
                      point.moment_t * point.sine + point.rn * point.e_r);
}

/// The tangent is symmetric.
template <bool kFinite>
SW_INLINE void add_tangent(const LaneElement& element, const LanePoint& point, int g, LaneTangent& tangent) {
  const Lanes zero = {};
  const Lanes w = point.w, sine = point.sine, cosine = point.cosine, over_r = point.over_r;
  const double* value = kShapes.value[g];
  const Lanes k_dd = w * point.r * point.bend_r;
  const Lanes k_dv = w * element.bend_c * cosine;
  Lanes k_vv = element.bend_t * cosine * cosine * over_r + point.bend_geometry;
  if (kFinite) k_vv -= point.moment_t * sine;
  k_vv *= w;
  const Lanes c_vv = w * point.couple;
  const Lanes c_vd = kFinite ? w * point.q * element.soft_c : zero;
  const Lanes s_dd = -w * point.r * element.soft_t;
  const Lanes s_dv = -w * element.soft_c * cosine;
  const Lanes s_vv = -w * (element.soft_r * cosine * cosine * over_r +
                           point.shear_over_r * point.shear_by_radial * point.shear_by_radial);
  for (int i = 0; i < 3; ++i) {
    for (int j = i; j < 3; ++j) {
      const double vv = value[i] * value[j];
      const Lanes dv = point.slope[i] * value[j];
      const Lanes vd = value[i] * point.slope[j];
      const Lanes dd = point.slope[i] * point.slope[j];
      tangent.by_dof[2 * i][2 * j] += k_dd * dd + k_dv * (dv + vd) + k_vv * vv;
      tangent.by_dof[2 * i][2 * j + 1] += c_vv * vv + c_vd * vd;
      tangent.by_dof[2 * i + 1][2 * j] += c_vv * vv + c_vd * dv;
      tangent.by_dof[2 * i + 1][2 * j + 1] += s_dd * dd + s_dv * (dv + vd) + s_vv * vv;
    }
  }
  const Lanes shear_v = point.shear_over_r * cosine;  // of the shear angle by S
  Lanes f_v = w * (1.0 - shear_v * point.pull), f_d = zero, f_p = -w * shear_v * point.shear_by_radial;
  if (kFinite) {
    f_v = w * (cosine * point.stretch_factor - point.q * element.soft_r * sine * over_r - shear_v * point.rn -
               point.shear * sine);
    f_d = w * element.soft_c * sine;
    f_p += w * element.soft_r * sine * cosine * over_r;
  }
  const Lanes lift_by_force = w * shear_v * cosine;
  tangent.lift_by_force += lift_by_force;
  tangent.lift_by_pressure += lift_by_force * point.load;
  for (int i = 0; i < 3; ++i) {
    const Lanes on_phi = f_v * value[i];
    const Lanes on_psi = f_d * point.slope[i] + f_p * value[i];
    tangent.by_force[2 * i] += on_phi;
    tangent.by_force[2 * i + 1] += on_psi;
    tangent.by_pressure[2 * i] += on_phi * point.load;
    tangent.by_pressure[2 * i + 1] += on_psi * point.load;
  }
}

// the loops over the points are unrolled, so that shape functions that vanish are left out
#if defined(__GNUC__) && !defined(__clang__)
#define SW_UNROLL_POINTS _Pragma("GCC unroll 3")
#else
#define SW_UNROLL_POINTS
#endif

template <bool kFinite, bool kPiled>
SW_INLINE void find_residual(const LaneView& view, LaneResidual& residual) {
  LaneElement element;
  load_element(view, element);
  residual = LaneResidual{};
  SW_UNROLL_POINTS
  for (int g = 0; g < DiscElements::kPoints; ++g) {
    LanePoint point;
    find_point<kFinite, kPiled>(view, element, g, point);
    add_residual(point, g, residual);
  }
}

template <bool kFinite, bool kPiled>
SW_INLINE void find_residual_and_tangent(const LaneView& view, LaneResidual& residual, LaneTangent& tangent) {
  LaneElement element;
  load_element(view, element);
  residual = LaneResidual{};
  tangent = LaneTangent{};
  SW_UNROLL_POINTS
  for (int g = 0; g < DiscElements::kPoints; ++g) {
    LanePoint point;
    find_point<kFinite, kPiled>(view, element, g, point);
    add_residual(point, g, residual);
    add_tangent<kFinite>(element, point, g, tangent);
  }
}

/// An element's middle eliminated: what is kept of it, and what its ends get.
struct LaneCondensed {
  Lanes inverse[3];
  Lanes couple[2][4];
  Lanes through[2][4];     // inverse x couple
  Lanes inverse_force[2];  // inverse x force
  Lanes ends[4];
  Lanes pressure[4];
  Lanes stiffness[4][4];  // rows and columns of ends, lower half in solver order and more
  Lanes own;
};

SW_INLINE void condense_lanes(const LaneTangent& tangent, LaneCondensed& out) {
  const Lanes a = tangent.by_dof[2][2];
  const Lanes b = tangent.by_dof[2][3];
  const Lanes c = tangent.by_dof[3][3];
  const Lanes over = 1.0 / (a * c - b * b);
  out.inverse[0] = c * over;
  out.inverse[1] = -b * over;
  out.inverse[2] = a * over;
  Lanes(&through)[2][4] = out.through;
  for (int i = 0; i < 4; ++i) {
    for (int m = 0; m < 2; ++m)
      out.couple[m][i] = i < 2 ? tangent.by_dof[kEnd[i]][2 + m] : tangent.by_dof[2 + m][kEnd[i]];
    through[0][i] = out.inverse[0] * out.couple[0][i] + out.inverse[1] * out.couple[1][i];
    through[1][i] = out.inverse[1] * out.couple[0][i] + out.inverse[2] * out.couple[1][i];
  }
  const Lanes* force = &tangent.by_force[2];
  for (int i = 0; i < 4; ++i) {
    out.ends[i] = tangent.by_force[kEnd[i]] - (through[0][i] * force[0] + through[1][i] * force[1]);
    out.pressure[i] = tangent.by_pressure[kEnd[i]] -
                      (through[0][i] * tangent.by_pressure[2] + through[1][i] * tangent.by_pressure[3]);
    for (int j = i; j < 4; ++j) {
      out.stiffness[i][j] = tangent.by_dof[kEnd[i]][kEnd[j]] -
                            (through[0][i] * out.couple[0][j] + through[1][i] * out.couple[1][j]);
      out.stiffness[j][i] = out.stiffness[i][j];
    }
  }
  out.inverse_force[0] = out.inverse[0] * force[0] + out.inverse[1] * force[1];
  out.inverse_force[1] = out.inverse[1] * force[0] + out.inverse[2] * force[1];
  out.own = out.inverse_force[0] * force[0] + out.inverse_force[1] * force[1] + tangent.lift_by_force;
}

}  // namespace

/// The residual of the elements in the lanes, in the present state.
SW_INLINE void DiscElements::find_lanes(int first, LaneResidual& residual, LaneTangent* tangent) {
  const LaneView view = {&x_[4 * first],
                         &lane_data_[first],
                         &point_r_[first],
                         &point_over_r_[first],
                         &point_weight_[first],
                         &load_[first],
                         &radial_load_[first],
                         &axial[first],
                         offset_ > 0.0 ? &load_turn_[first] : nullptr,
                         n_padded_,
                         pressure,
                         spread_,
                         kinematics_ == Kinematics::Moderate};
  const bool finite = kinematics_ == Kinematics::Finite;
  const bool piled = offset_ > 0.0;  // in Finite alone
  if (tangent != nullptr) {
    if (piled) {
      find_residual_and_tangent<true, true>(view, residual, *tangent);
    } else if (finite) {
      find_residual_and_tangent<true, false>(view, residual, *tangent);
    } else {
      find_residual_and_tangent<false, false>(view, residual, *tangent);
    }
  } else if (piled) {
    find_residual<true, true>(view, residual);
  } else if (finite) {
    find_residual<true, false>(view, residual);
  } else {
    find_residual<false, false>(view, residual);
  }
  if (first == 0) travel_[0] = held(0, 1) ? residual.by_dof[1][0] : 0.0;  // a held clamp does not travel
}

/// Eliminates the middles; adds the ends to the band, and keeps what the residuals of later states need.
SW_INLINE void DiscElements::take_tangent(int first, const LaneTangent& tangent) {
  LaneCondensed condensed;
  condense_lanes(tangent, condensed);
  const std::size_t stride = n_padded_;
  double* rows = &rows_[first];
  for (int i = 0; i < 4; ++i) {
    store(condensed.through[0][i], rows + (kThrough + i) * stride);
    store(condensed.through[1][i], rows + (kThrough + 4 + i) * stride);
    store(condensed.ends[i], rows + (kEnds + i) * stride);
  }
  for (int i = 0; i < 3; ++i) store(condensed.inverse[i], rows + (kInverse + i) * stride);
  for (int m = 0; m < 2; ++m) store(condensed.inverse_force[m], rows + (kInverseForce + m) * stride);
  store(condensed.own, rows + kOwn * stride);
  const int n_lanes = std::min(kLanes, n_ - 1 - first);
  for (int lane = 0; lane < n_lanes; ++lane) {
    const int e = first + lane;
    Middle& middle = middles_[e];
    for (int i = 0; i < 3; ++i) middle.inverse[i] = condensed.inverse[i][lane];
    for (int m = 0; m < 2; ++m) {
      middle.force[m] = tangent.by_force[2 + m][lane];
      middle.pressure[m] = tangent.by_pressure[2 + m][lane];
    }
    own_[e + 1] = own_[e] + condensed.own[lane];
    own_pressure_[e + 1] = own_pressure_[e] + tangent.lift_by_pressure[lane];
    bool fixed[4] = {};  // what is held moves nothing
    if (e == 0) fixed[0] = held(0, 0), fixed[1] = held(0, 1);
    if (e == n_ - 2) fixed[2] = held(n_ - 1, 0), fixed[3] = held(n_ - 1, 1);
    for (int i = 0; i < 4; ++i) {
      const int at = place_of_end(e, i);
      for (int m = 0; m < 2; ++m) middle.couple[m][i] = fixed[i] ? 0.0 : condensed.couple[m][i][lane];
      middle.ends[i] = fixed[i] ? 0.0 : condensed.ends[i][lane];
      if (fixed[i]) {
        band_[kRow * at + kBand] = 1.0;
        continue;
      }
      by_pressure_[at] += condensed.pressure[i][lane];
      for (int j = 0; j < 4; ++j) {
        const int column = place_of_end(e, j);
        if (column <= at && !fixed[j])
          band_[kRow * at + kBand + column - at] += condensed.stiffness[i][j][lane];
      }
    }
  }
}

/// Hands the middle's residual to the ends by the tangent that is kept; contact forces are taken out.
SW_INLINE void DiscElements::take_residual(int first, const LaneResidual& residual) {
  const std::size_t stride = n_padded_;
  double* rows = &rows_[first];
  const Lanes* middle = &residual.by_dof[2];
  Lanes force, through[2], inverse[3], inverse_force[2], own, ends;
  load(&axial[first], force);
  for (int i = 0; i < 4; ++i) {
    load(rows + (kThrough + i) * stride, through[0]);
    load(rows + (kThrough + 4 + i) * stride, through[1]);
    load(rows + (kEnds + i) * stride, ends);
    store((through[0] * middle[0] + through[1] * middle[1]) - residual.by_dof[kEnd[i]] - ends * force,
          rows + (kRest + i) * stride);
  }
  for (int i = 0; i < 3; ++i) load(rows + (kInverse + i) * stride, inverse[i]);
  for (int m = 0; m < 2; ++m) {
    load(rows + (kInverseForce + m) * stride, inverse_force[m]);
    store(-(inverse[m] * middle[0] + inverse[m + 1] * middle[1]), rows + (kMiddleRest + m) * stride);
  }
  load(rows + kOwn * stride, own);
  store(-(inverse_force[0] * middle[0] + inverse_force[1] * middle[1]) - own * force,
        rows + kMiddleLift * stride);
  store(residual.lift, rows + kLift * stride);
  store(residual.travel, rows + kTravel * stride);
}

/// Rows of the present state's residual, lifts and travels; its tangent too, or that of an earlier state
/// stays in use.
SW_WIDE void DiscElements::assemble_elements(bool with_tangent) {
  LaneResidual residual;
  LaneTangent tangent;
  for (int first = 0; first + 1 < n_; first += kLanes) {
    find_lanes(first, residual, with_tangent ? &tangent : nullptr);
    if (with_tangent) take_tangent(first, tangent);
    take_residual(first, residual);
  }
  const std::size_t stride = n_padded_;
  now_[0] = 0.0;
  for (int e = 0; e + 1 < n_; ++e) {
    now_[e + 1] = now_[e] + rows_[kLift * stride + e];
    travel_[e + 1] = travel_[e] + rows_[kTravel * stride + e];
  }
}

/// Steps of the middles from those of their ends.
SW_WIDE void DiscElements::find_middle_steps() {
  const std::size_t stride = n_padded_;
  for (int first = 0; first + 1 < n_; first += kLanes) {
    double* rows = &rows_[first];
    Lanes force, end[4];
    load(&beyond_[first], force);
    load(&step_phi_[first], end[0]);
    load(&step_psi_[first], end[1]);
    load(&step_phi_[first + 1], end[2]);
    load(&step_psi_[first + 1], end[3]);
    for (int m = 0; m < 2; ++m) {
      Lanes step, by_force, through[4];
      load(rows + (kMiddleRest + m) * stride, step);
      load(rows + (kInverseForce + m) * stride, by_force);
      for (int i = 0; i < 4; ++i) load(rows + (kThrough + 4 * m + i) * stride, through[i]);
      step += by_force * force -
              ((through[0] * end[0] + through[1] * end[1]) + (through[2] * end[2] + through[3] * end[3]));
      store(step, rows + (kMiddleStep + m) * stride);
    }
  }
}

/// End residuals of every element and the travels in the present state; returns the energy per radian.
SW_WIDE double DiscElements::find_ends() {
  LaneResidual residual;
  double energy = 0.0;
  for (int first = 0; first + 1 < n_; first += kLanes) {
    find_lanes(first, residual, nullptr);
    const int n_lanes = std::min(kLanes, n_ - 1 - first);
    for (int lane = 0; lane < n_lanes; ++lane) {
      const int e = first + lane;
      for (int i = 0; i < 4; ++i) ends_[4 * e + i] = residual.by_dof[kEnd[i]][lane];
      energy += residual.energy[lane];
      travel_[e + 1] = travel_[e] + residual.travel[lane];
    }
  }
  return energy;
}

}  // namespace shimwright::plate
