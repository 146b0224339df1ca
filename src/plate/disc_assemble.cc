// Elements of a disc, several at once in the lanes of wide registers.
#include <algorithm>
#include <cstring>

#include "plate/disc_local.h"
#include "plate/wide.h"

namespace shimwright::plate {

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
  int stride;  // from one row or point to the next
  double pressure;
  bool moderate;
};

namespace {

constexpr int kPoints = DiscElements::kPoints;
constexpr int kBand = 3;  // entries before the diagonal
constexpr int kRow = kBand + 1;
constexpr int kEnd[4] = {0, 1, 4, 5};  // end dofs in an element's own order; its middle has 2 and 3

#define SW_INLINE inline __attribute__((always_inline))

typedef double Lanes __attribute__((vector_size(DiscElements::kLanes * sizeof(double))));

SW_INLINE void load(const double* from, Lanes& to) {
  std::memcpy(&to, from, sizeof to);
}
SW_INLINE void store(const Lanes& from, double* to) {
  std::memcpy(to, &from, sizeof from);
}

/// Contributions of the elements in the lanes; dofs are phi and psi of the inner, middle and outer node.
struct LaneLocal {
  Lanes residual[6];
  Lanes tangent[6][6];   // nodes of the row not after those of the column
  Lanes by_force[6];     // minus d residual / dS
  Lanes by_pressure[6];  // minus d residual / d pressure
  Lanes lift;            // over the element
  Lanes travel;          // over the element
  Lanes energy;          // per radian
};

constexpr bool has_value(int g, int i) {
  return g != 1 || i == 1;
}
constexpr bool has_slope(int g, int i) {
  return g != 1 || i != 1;
}

template <bool kFinite, bool kTangent>
SW_INLINE void compute(const LaneView& view, LaneLocal& local) {
  const Lanes none = {};
  for (int i = 0; i < 6; ++i) local.residual[i] = none;
  local.lift = local.travel = local.energy = none;
  if (kTangent) {
    for (int i = 0; i < 6; ++i) {
      local.by_force[i] = local.by_pressure[i] = none;
      for (int j = 0; j < 6; ++j) local.tangent[i][j] = none;
    }
  }
  Lanes bend_r, bend_c, bend_t, soft_r, soft_c, soft_t, to_slope, axial;
  load(view.data, bend_r);
  load(view.data + view.stride, bend_c);
  load(view.data + 2 * view.stride, bend_t);
  load(view.data + 3 * view.stride, soft_r);
  load(view.data + 4 * view.stride, soft_c);
  load(view.data + 5 * view.stride, soft_t);
  load(view.data + 6 * view.stride, to_slope);
  load(view.axial, axial);
  Lanes x[6];
  for (int i = 0; i < 6; ++i) {
    double of_lanes[DiscElements::kLanes];
    for (int lane = 0; lane < DiscElements::kLanes; ++lane) of_lanes[lane] = view.state[4 * lane + i];
    load(of_lanes, x[i]);
  }

  // unrolled, so that what the shapes leave out at the middle is left out
#if defined(__GNUC__) && !defined(__clang__)
#pragma GCC unroll 3
#endif
  for (int g = 0; g < kPoints; ++g) {
    Lanes r, over_r, w, load_here, radial_load;
    load(view.r + g * view.stride, r);
    load(view.over_r + g * view.stride, over_r);
    load(view.weight + g * view.stride, w);
    load(view.load + g * view.stride, load_here);
    load(view.radial_load + g * view.stride, radial_load);
    const double* value = kShapes.value[g];
    Lanes slope[3];
    Lanes phi = none, dphi = none, psi = none, dpsi = none;
    for (int i = 0; i < 3; ++i) {
      slope[i] = kShapes.slope[g][i] * to_slope;
      if (has_value(g, i)) {
        phi += value[i] * x[2 * i];
        psi += value[i] * x[2 * i + 1];
      }
      if (has_slope(g, i)) {
        dphi += slope[i] * x[2 * i];
        dpsi += slope[i] * x[2 * i + 1];
      }
    }
    const Lanes s_load = axial + view.pressure * load_here;
    const Lanes h = psi + radial_load;

    // kinematics: sine and cosine in the curvature, transverse force q, radial force rn, and what multiplies
    // them
    Lanes sine = phi, cosine = none + 1.0, rn = h, q = -s_load, stretch_factor = none + 1.0, opening = none,
          lift_slope = phi;
    Lanes bend_geometry = none;  // d q / d phi
    Lanes couple = none;         // d q / d psi
    Lanes e_r = none, soft_force = none;
    if (kFinite) {
      find_turn(phi, sine, cosine);
      rn = h * cosine + s_load * sine;
      q = h * sine - s_load * cosine;
      e_r = soft_r * rn * over_r + soft_c * dpsi;
      stretch_factor = 1.0 + e_r;
      opening = stretch_factor * cosine - 1.0;
      lift_slope = stretch_factor * sine;
      bend_geometry = rn * stretch_factor - soft_r * q * q * over_r;
      couple = sine * stretch_factor + q * soft_r * cosine * over_r;
      soft_force = soft_r;
    } else {
      e_r = soft_r * rn * over_r + soft_c * dpsi;
      opening = e_r;
      if (view.moderate) {
        q += h * phi;
        opening -= 0.5 * phi * phi;
        bend_geometry = h;
        couple = phi;
      }
    }
    const Lanes e_t = soft_t * dpsi + soft_c * rn * over_r;
    const Lanes moment_r = bend_r * dphi + bend_c * sine * over_r;
    const Lanes moment_t = bend_t * sine * over_r + bend_c * dphi;

    // residual
    const Lanes r_dphi = w * r * moment_r;
    const Lanes r_phi = w * (moment_t * cosine + q * stretch_factor);
    const Lanes r_dpsi = -w * r * e_t;
    const Lanes r_psi = -w * opening;
    for (int i = 0; i < 3; ++i) {
      if (has_slope(g, i)) {
        local.residual[2 * i] += r_dphi * slope[i];
        local.residual[2 * i + 1] += r_dpsi * slope[i];
      }
      if (has_value(g, i)) {
        local.residual[2 * i] += r_phi * value[i];
        local.residual[2 * i + 1] += r_psi * value[i];
      }
    }
    local.lift += w * lift_slope;
    local.travel += w * opening;
    local.energy += 0.5 * w * (r * (moment_r * dphi + e_t * dpsi) + moment_t * sine + rn * e_r);
    if (!kTangent) continue;

    // tangent, symmetric
    const Lanes k_dd = w * r * bend_r;
    const Lanes k_dv = w * bend_c * cosine;
    Lanes k_vv = bend_t * cosine * cosine * over_r + bend_geometry;
    if (kFinite) k_vv -= moment_t * sine;
    k_vv *= w;
    const Lanes c_vv = w * couple;
    const Lanes c_vd = kFinite ? w * q * soft_c : none;
    const Lanes s_dd = -w * r * soft_t;
    const Lanes s_dv = -w * soft_c * cosine;
    const Lanes s_vv = -w * soft_r * cosine * cosine * over_r;
    for (int i = 0; i < 3; ++i) {
      for (int j = i; j < 3; ++j) {
        const double vv = value[i] * value[j];
        const Lanes dv = slope[i] * value[j];
        const Lanes vd = value[i] * slope[j];
        const Lanes dd = slope[i] * slope[j];
        local.tangent[2 * i][2 * j] += k_dd * dd + k_dv * (dv + vd) + k_vv * vv;
        local.tangent[2 * i][2 * j + 1] += c_vv * vv + c_vd * vd;
        local.tangent[2 * i + 1][2 * j] += c_vv * vv + c_vd * dv;
        local.tangent[2 * i + 1][2 * j + 1] += s_dd * dd + s_dv * (dv + vd) + s_vv * vv;
      }
    }
    Lanes f_v = w, f_d = none, f_p = none;
    if (kFinite) {
      f_v = w * (cosine * stretch_factor - q * soft_force * sine * over_r);
      f_d = w * soft_c * sine;
      f_p = w * soft_force * sine * cosine * over_r;
    }
    for (int i = 0; i < 3; ++i) {
      const Lanes on_phi = f_v * value[i];
      const Lanes on_psi = f_d * slope[i] + f_p * value[i];
      local.by_force[2 * i] += on_phi;
      local.by_force[2 * i + 1] += on_psi;
      local.by_pressure[2 * i] += on_phi * load_here;
      local.by_pressure[2 * i + 1] += on_psi * load_here;
    }
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

SW_INLINE void condense_lanes(LaneLocal& local, LaneCondensed& out) {
  const Lanes a = local.tangent[2][2];
  const Lanes b = local.tangent[2][3];
  const Lanes c = local.tangent[3][3];
  const Lanes over = 1.0 / (a * c - b * b);
  out.inverse[0] = c * over;
  out.inverse[1] = -b * over;
  out.inverse[2] = a * over;
  Lanes(&through)[2][4] = out.through;
  for (int i = 0; i < 4; ++i) {
    for (int m = 0; m < 2; ++m)
      out.couple[m][i] = i < 2 ? local.tangent[kEnd[i]][2 + m] : local.tangent[2 + m][kEnd[i]];
    through[0][i] = out.inverse[0] * out.couple[0][i] + out.inverse[1] * out.couple[1][i];
    through[1][i] = out.inverse[1] * out.couple[0][i] + out.inverse[2] * out.couple[1][i];
  }
  const Lanes* force = &local.by_force[2];
  for (int i = 0; i < 4; ++i) {
    out.ends[i] = local.by_force[kEnd[i]] - (through[0][i] * force[0] + through[1][i] * force[1]);
    out.pressure[i] = local.by_pressure[kEnd[i]] -
                      (through[0][i] * local.by_pressure[2] + through[1][i] * local.by_pressure[3]);
    for (int j = i; j < 4; ++j) {
      out.stiffness[i][j] = local.tangent[kEnd[i]][kEnd[j]] -
                            (through[0][i] * out.couple[0][j] + through[1][i] * out.couple[1][j]);
      out.stiffness[j][i] = out.stiffness[i][j];
    }
  }
  out.inverse_force[0] = out.inverse[0] * force[0] + out.inverse[1] * force[1];
  out.inverse_force[1] = out.inverse[1] * force[0] + out.inverse[2] * force[1];
  out.own = out.inverse_force[0] * force[0] + out.inverse_force[1] * force[1];
}

}  // namespace

SW_INLINE LaneView DiscElements::lanes_from(int first) const {
  return {&x_[4 * first],
          &lane_data_[first],
          &point_r_[first],
          &point_over_r_[first],
          &point_weight_[first],
          &load_[first],
          &radial_load_[first],
          &axial[first],
          n_padded_,
          pressure,
          kinematics_ == Kinematics::Moderate};
}

/// Rows of the present state's residual, lifts and travels; the tangent, too, or that of a state near by is
/// kept.
SW_WIDE void DiscElements::assemble_elements(bool with_tangent) {
  const bool finite = kinematics_ == Kinematics::Finite;
  LaneLocal local;
  LaneCondensed condensed;
  const std::size_t stride = n_padded_;
  for (int first = 0; first + 1 < n_; first += kLanes) {
    const LaneView view = lanes_from(first);
    if (finite) {
      with_tangent ? compute<true, true>(view, local) : compute<true, false>(view, local);
    } else {
      with_tangent ? compute<false, true>(view, local) : compute<false, false>(view, local);
    }
    if (first == 0) travel_[0] = held(0, 1) ? local.residual[1][0] : 0.0;  // a held clamp does not travel
    double* rows = &rows_[first];
    if (with_tangent) {
      condense_lanes(local, condensed);
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
          middle.force[m] = local.by_force[2 + m][lane];
          middle.pressure[m] = local.by_pressure[2 + m][lane];
        }
        own_[e + 1] = own_[e] + condensed.own[lane];
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

    // the middle's residual goes to the ends; what contact forces do is taken out
    const Lanes* middle = &local.residual[2];
    Lanes force, through[2], inverse[3], inverse_force[2], own, ends;
    load(&axial[first], force);
    for (int i = 0; i < 4; ++i) {
      load(rows + (kThrough + i) * stride, through[0]);
      load(rows + (kThrough + 4 + i) * stride, through[1]);
      load(rows + (kEnds + i) * stride, ends);
      store((through[0] * middle[0] + through[1] * middle[1]) - local.residual[kEnd[i]] - ends * force,
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
    store(local.lift, rows + kLift * stride);
    store(local.travel, rows + kTravel * stride);
  }
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
  const bool finite = kinematics_ == Kinematics::Finite;
  LaneLocal local;
  double energy = 0.0;
  for (int first = 0; first + 1 < n_; first += kLanes) {
    const LaneView view = lanes_from(first);
    finite ? compute<true, false>(view, local) : compute<false, false>(view, local);
    const int n_lanes = std::min(kLanes, n_ - 1 - first);
    if (first == 0) travel_[0] = held(0, 1) ? local.residual[1][0] : 0.0;
    for (int lane = 0; lane < n_lanes; ++lane) {
      const int e = first + lane;
      for (int i = 0; i < 4; ++i) ends_[4 * e + i] = local.residual[kEnd[i]][lane];
      energy += local.energy[lane];
      travel_[e + 1] = travel_[e] + local.travel[lane];
    }
  }
  return energy;
}

}  // namespace shimwright::plate
