#pragma once
#include <numbers>
#include <span>
#include <vector>

#include "plate/contact.h"
#include "plate/layout.h"

namespace shimwright::plate {

inline constexpr double kPerRadian = 1.0 / (2.0 * std::numbers::pi);
inline constexpr double kShearFactor = 5.0 / 6.0;  // of a plate, Reissner

enum class Kinematics {
  Small,     // linear theory
  Moderate,  // von Karman: stretch by half the square of the slope
  Finite,    // finite rotation, small strain
};

/// Section state at a station, of one disc of the layer.
struct Section {
  double slope = 0.0;          // rotation of the section [rad]
  double radial_travel = 0.0;  // u [m]
  double moment_radial = 0.0;  // per length [N]
  double moment_hoop = 0.0;    // [N]
  double force_radial = 0.0;   // membrane, per length [N/m]
  double force_hoop = 0.0;     // [N/m]
  // what the moments of a disc of the layer change by for every metre that it lies above the layer's middle
  double moment_radial_by_height = 0.0;  // [N/m]
  double moment_hoop_by_height = 0.0;    // [N/m]
};

/// One layer (n equal discs) as finite elements in the rotation phi and the radial force resultant psi = r H.
///
/// Model:  quadratic elements from station to station. The axial force S(r) outside each radius follows from
/// equilibrium,
///         so lift is no unknown: w' = (1 + e_r) sin(phi) + g cos(phi), with the shear angle
///         g = (S cos(phi) - psi sin(phi)) / (r kappa G t). Stationary functional in (phi, psi): bending
///         energy - complementary energy of stretch and shear - psi (cos(phi) - 1) - S sin(phi). Its Hessian
///         is quasi-definite, so a banded LDLt without pivoting does. Loads are per radian; a radial load
///         acts through the known resultant T.
/// Source: [reissner1950] in the form for a flat plate, from memory; with cos -> 1, sin -> phi the pair of
/// von Karman, physics reference section 1.4. Tested: disc_element_test.cc, plate_reference_test.cc
class DiscElements {
 public:
  static constexpr int kPoints = 3;  // of integration, by element
  static constexpr int kLanes = 4;   // elements computed side by side

  /// Takes the layer's geometry; forgets any state.
  void set_up(const Layout& layout, int layer, Kinematics kinematics, bool shear_flexible, bool clamp_slips);

  /// Puts the disc flat and unloaded.
  void flatten();

  // loads: by element (station k to k + 1), per radian; by station
  std::vector<double> axial;   // S of contact forces [N]
  std::vector<double> radial;  // T of contact forces [N]
  std::vector<double> moment;  // at stations, in the sense of phi [N m]
  double pressure = 0.0;       // [Pa]
  bool follows = false;        // the pressure turns with the surface

  /// Residual at the present state and load, and, unless the present one is kept, the tangent with its
  /// factors; finds the step that takes the state to the one without contact forces.
  void linearise(bool keep_tangent, Flexibility& flexibility);

  /// Columns of the tangent flexibility for a unit ring force at each of the stations.
  void fill_columns(std::span<const int> stations, Flexibility& flexibility);

  /// Change of lift with pressure at unchanged contact forces, by station [m/Pa].
  void pressure_rate(std::vector<double>& rest_rate);

  /// The Newton step in which the ring forces at the stations become `forces`.
  void find_step(const std::vector<double>& forces);
  double step_slope() const;   // largest change of slope in it [rad]
  double step_radial() const;  // largest change of radial force resultant at the stations [N]
  void take_step(double share);

  /// How far the lowest disc of the layer lies below its middle where that counts, the highest above it [m].
  double offset() const { return offset_; }

  double largest_slope() const;
  double largest_radial() const;  // of the radial force resultants at the stations [N]

  /// Sections at the stations from the end forces of the elements, which converge faster than derivatives.
  /// Returns the bending and stretch energy per radian of the layer [J].
  double sections(std::vector<Section>& out);

  int n_stations() const { return n_; }
  double slope(int station) const { return x_[4 * station]; }
  double radial_travel(int station) const {
    return travel_[station];
  }  // of the state last linearised or read by sections

  /// Rotations and radial forces by node, then the radial travel by station: all that the next linearisation
  /// starts from.
  int state_size() const { return n_state_ + n_; }
  void save_state(double* state) const;
  void set_state(const double* state);
  /// The state of the same disc on another mesh, read at the nodes of this one.
  void set_state_like(const DiscElements& other);

  /// After `pressure_rate`: how that state changes with pressure where ring forces at the stations change by
  /// `forces`; the travel, which follows the rest, as if it stayed.
  void find_state_rate(const std::vector<double>& forces);
  /// The same by a difference from an earlier state.
  void take_state_rate(const double* before, double over_step);
  const std::vector<double>& state_rate() const { return rate_; }
  /// Takes the state along its rate.
  void go_along(double step);

 private:
  struct Material {
    double bend_r, bend_c, bend_t;  // D_r, D_rt, D_t of all equal discs [N m]
    double soft_r, soft_c, soft_t;  // membrane compliances [m/N]
    double shear;                   // kappa G t [N/m]; infinite for thin
  };
  /// What is kept of an element's middle node when it is eliminated, and of its ends.
  struct Middle {
    double inverse[3];    // of the middle's own tangent: phi-phi, phi-psi, psi-psi
    double couple[2][4];  // middle to ends
    double force[2];      // minus d residual / dS at the middle
    double pressure[2];   // minus d residual / d pressure at the middle
    double ends[4];       // minus d residual / dS at the ends, with the middle's part
    double times(const double* a, const double* b) const {
      return inverse[0] * a[0] * b[0] + inverse[1] * (a[0] * b[1] + a[1] * b[0]) + inverse[2] * a[1] * b[1];
    }
  };

  static constexpr int kLaneRows = 8;
  /// Rows by element of what the lanes compute from each other's results: of the last tangent, then of the
  /// present state.
  enum Row {
    kThrough,                       // middle's inverse x its couple to the ends: 4 of phi, 4 of psi
    kInverse = kThrough + 8,        // of the middle's own tangent
    kInverseForce = kInverse + 3,   // times minus d residual / dS at the middle
    kOwn = kInverseForce + 2,       // lift by how far the middle itself gives and by shear per unit S
    kEnds,                          // minus d residual / dS at the ends, with the middle's part
    kRest = kEnds + 4,              // right side at the ends without contact forces
    kMiddleRest = kRest + 4,        // step of the middle without its ends and other forces
    kMiddleLift = kMiddleRest + 2,  // lift by that, without contact forces
    kLift,                          // over the element
    kTravel,                        // over the element
    kMiddleStep,                    // phi and psi
    kRows = kMiddleStep + 2
  };
  double* row(int which) { return &rows_[static_cast<std::size_t>(which) * n_padded_]; }
  const double* row(int which) const { return &rows_[static_cast<std::size_t>(which) * n_padded_]; }
  void set_up_lanes(const Material& filler);
  void find_lanes(int first, struct LaneResidual& residual, struct LaneTangent* tangent);
  void take_tangent(int first, const LaneTangent& tangent);
  void take_residual(int first, const LaneResidual& residual);
  void assemble_elements(bool with_tangent);
  double find_ends();
  void find_middle_steps();
  void find_rest_side();
  void follow_pressure();
  void follow_below_middle();
  void assemble(bool with_tangent);
  void add_columns(const std::vector<double>& forces, std::vector<double>& step) const;
  void factor();
  int place(int station, int field) const {
    return 2 * (n_ - 1 - station) + field;
  }  // outer edge first: solver order
  int place_of_end(int e, int end) const { return place(e + end / 2, end % 2); }
  bool held(int station, int field) const;
  template <int kLanes>
  void solve(double* x, int first) const;
  template <int kLanes>
  void fill_block(const int* stations, Flexibility& flexibility);

  Kinematics kinematics_ = Kinematics::Finite;
  bool ring_ = false;
  bool slips_ = false;
  bool loaded_ = false;  // the pressure acts on this layer
  int n_ = 0;            // stations
  int n_state_ = 0;      // entries of x_ in use
  int n_equal_ = 1;
  double thickness_ = 0.0;
  double offset_ = 0.0;
  double spread_ = 0.0;  // mean square of how far the discs lie from the middle [m^2]
  std::vector<double> radius_;
  std::vector<double> share_;       // pressure share by element
  std::vector<Material> material_;  // by element
  int n_padded_ = 0;                // elements, up to whole lanes
  std::vector<double> point_r_, point_weight_,
      load_at_rest_;                  // by point of integration, element after element
  std::vector<double> point_over_r_;  // 1 / r there
  std::vector<double> lane_data_;     // materials, rows by element
  std::vector<double> rows_;          // kRows
  std::vector<double> ends_;          // residuals at the ends of each element
  std::vector<double> radial_load_;   // T at the points: contact and following pressure
  std::vector<double> load_;          // S at the points at unit pressure, on the annulus as it has moved
  std::vector<double> load_turn_;     // minus d S / d slope there, of a layer with an offset [m^2]
  std::vector<double> push_, pull_;   // S at unit pressure and T of the pressure at the stations

  std::vector<double> x_;        // phi, psi by node (stations and middles), inner edge first
  std::vector<double> now_;      // lift at stations in the present state
  std::vector<double> travel_;   // u at stations
  std::vector<Middle> middles_;  // by element, of the last tangent
  // lift by what middles yield themselves and by shear, cumulative at stations
  std::vector<double> own_;           // per unit S
  std::vector<double> own_pressure_;  // shear alone, at unit pressure
  std::vector<double> by_pressure_;   // minus d residual / d pressure at stations, in solver order
  std::vector<double> band_;
  std::vector<double> inverse_diagonal_;
  std::vector<double> rest_step_;  // at stations
  std::vector<double> columns_;    // step by unit force, by station
  std::vector<double> step_;
  std::vector<double> step_phi_, step_psi_;  // the same, inner edge first
  std::vector<double> beyond_;         // by element: S of the forces to come less that of the present ones
  std::vector<double> pressure_step_;  // at stations, by unit pressure
  std::vector<double> rate_;
  std::vector<double> lanes_;  // right sides solved together
};

}  // namespace shimwright::plate
