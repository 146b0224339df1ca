#pragma once
#include <span>
#include <vector>

#include "plate/contact.h"
#include "plate/layout.h"

namespace shimwright::plate {

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
};

/// One layer (n equal discs) as finite elements in the rotation phi and the radial force resultant psi = r H.
///
/// Model:  quadratic elements from station to station. The axial force S(r) outside each radius follows from
/// equilibrium,
///         so lift is no unknown: w' = (1 + e_r) sin(phi) + S / (r kappa G t). Stationary functional in (phi,
///         psi): bending energy - complementary stretch energy - psi (cos(phi) - 1) - S sin(phi). Its Hessian
///         is quasi-definite, so a banded LDLt without pivoting does. Loads are per radian; a radial load
///         acts through the known resultant T.
/// Source: Reissner's equations of finite symmetric bending of shells of revolution in the form for a flat
/// plate (from
///         memory); with cos -> 1, sin -> phi the pair of von Karman, physics reference section 1.4.
/// Tested: disc_element_test.cc, plate_reference_test.cc
class DiscElements {
 public:
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

  /// Residual at the present state and load, and, unless the one in hand is kept, the tangent with its
  /// factors; finds the step that takes the state to the one without contact forces.
  void linearise(bool keep_tangent, Flexibility& flexibility);

  /// Column of the tangent flexibility for a unit ring force at a station.
  void fill_column(int local_station, Flexibility& flexibility);

  /// Change of lift with pressure at unchanged contact forces, by station [m/Pa].
  void pressure_rate(std::vector<double>& rest_rate);

  /// The Newton step in which the ring forces at the stations become `forces`; returns its largest change of
  /// slope.
  double find_step(const std::vector<double>& forces);
  void take_step(double share);

  double largest_slope() const;

  /// Sections at the stations from the end forces of the elements, which converge faster than derivatives.
  void sections(std::vector<Section>& out);

  /// Bending and stretch energy per radian of the layer [J].
  double energy() const;

  int n_stations() const { return n_; }
  double slope(int station) const { return x_[4 * station]; }
  double radial_travel(int station) const { return travel_[station]; }  // of the state last linearised
  const std::vector<double>& state() const { return x_; }
  void set_state(const std::vector<double>& x) { x_ = x; }

 private:
  struct Material {
    double bend_r, bend_c, bend_t;  // D_r, D_rt, D_t of all equal discs [N m]
    double soft_r, soft_c, soft_t;  // membrane compliances [m/N]
    double shear;                   // kappa G t [N/m]; infinite for thin
  };
  struct Point {
    double r, weight, load;  // load: S at unit pressure
  };
  struct Local;  // element residual, tangent, load vector

  void element(int e, bool with_tangent, Local& local) const;
  void follow_pressure();
  void assemble();
  void assemble_residual();
  void add_values(int e, const Local& local);
  void finish_residual();
  void factor();
  void solve(double* x, int first) const;
  int place(int dof) const { return n_dofs_ - 2 - (dof & ~1) + (dof & 1); }  // of node order in solver order
  bool held(int dof) const;
  void lifts_of(const double* step, double* out) const;

  Kinematics kinematics_ = Kinematics::Finite;
  bool ring_ = false;
  bool slips_ = false;
  bool loaded_ = false;  // the pressure acts on this layer
  int n_ = 0;            // stations
  int n_dofs_ = 0;
  int n_equal_ = 1;
  double thickness_ = 0.0;
  std::vector<double> radius_;
  std::vector<double> share_;        // pressure share by element
  std::vector<Material> material_;   // by element
  std::vector<Point> points_;        // 3 by element
  std::vector<double> radial_load_;  // T at the points: contact and following pressure
  std::vector<double> load_;         // S at the points at unit pressure, on the annulus as it has moved
  std::vector<double> shear_;        // lift by shear per unit S, cumulative at stations
  std::vector<double> shear_load_;   // lift by shear at unit pressure, cumulative at stations

  std::vector<double> x_;         // phi, psi by node, inner edge first
  std::vector<double> residual_;  // in solver order, outer edge first
  std::vector<double> band_;
  std::vector<double> diagonal_;
  std::vector<double> by_force_;     // by element, 6: minus d residual / dS
  std::vector<double> by_pressure_;  // minus d residual / d pressure, in solver order
  std::vector<double> rest_step_;
  std::vector<double> columns_;  // Newton step by unit force, by station
  std::vector<double> step_;
  std::vector<double> now_;     // lift at stations in the present state, without shear by contact forces
  std::vector<double> travel_;  // u at stations
};

}  // namespace shimwright::plate
