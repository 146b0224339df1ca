// Where surfaces that touch are not where the middles of their layers are.
#include <algorithm>
#include <numbers>

#include "plate/solver.h"

namespace shimwright::plate {
namespace {

constexpr double kForcePerRadian = 1.0 / (2.0 * std::numbers::pi);

}  // namespace

/// Discs have thickness: where they slope, the surfaces that face each other at one radius were not at one
/// radius before. The gap grows, and the force acts square on the surface and a little further out. Second
/// order in the slope; taken from the state before, for its own change is small.
void StackSolver::shift_contacts(double blend) {
  const int n_layers = layout_.n_layers();
  for (int l = 0; l < n_layers; ++l) {
    std::fill(discs_[l].radial.begin(), discs_[l].radial.end(), 0.0);
    std::fill(discs_[l].moment.begin(), discs_[l].moment.end(), 0.0);
  }
  for (const ContactRun& run : layout_.runs) {
    if (run.lower == kBelow || run.upper >= n_layers) continue;
    const Layer& lower = layout_.layers[run.lower];
    const Layer& upper = layout_.layers[run.upper];
    DiscElements& disc_l = discs_[run.lower];
    DiscElements& disc_u = discs_[run.upper];
    for (int k = 0; k < run.n; ++k) {
      const int p = run.first_point + k;
      const int kl = run.station + k - lower.begin;
      const int ku = run.station + k - upper.begin;
      const double phi_l = disc_l.slope(kl);
      const double phi_u = disc_u.slope(ku);
      const double shift = 0.5 * (upper.thickness * phi_u + lower.thickness * phi_l) +
                           disc_u.radial_travel(ku) - disc_l.radial_travel(kl);
      // the rim keeps its own radius, and the other body's surface gives the slope
      double of_upper = 0.5;
      if (ku == upper.n_stations() - 1 && kl < lower.n_stations() - 1) of_upper = 0.0;
      if (kl == lower.n_stations() - 1 && ku < upper.n_stations() - 1) of_upper = 1.0;
      const double phi = of_upper * phi_u + (1.0 - of_upper) * phi_l;
      const double extra = 0.25 * (upper.thickness * phi_u * phi_u + lower.thickness * phi_l * phi_l) -
                           phi * shift -
                           0.5 * (disc_u.offset() * phi_u * phi_u + disc_l.offset() * phi_l * phi_l);
      ContactTurn& turn = turns_[p];
      turn.slope += blend * (phi - turn.slope);
      turn.shift += blend * (shift - turn.shift);
      gap_extra_[p] += blend * (extra - gap_extra_[p]);
      if (force_[p] == 0.0) continue;
      const double force = kForcePerRadian * force_[p];
      disc_l.moment[kl] -= (1.0 - of_upper) * force * turn.shift;
      disc_u.moment[ku] -= of_upper * force * turn.shift;
      if (kl > 0) disc_l.radial[kl - 1] += force * turn.slope;
      if (ku > 0) disc_u.radial[ku - 1] -= force * turn.slope;
    }
  }
  if (has_offsets_) shift_in_layers(blend);
  // what pulls at a station is felt by all elements inside it
  for (int l = 0; l < n_layers; ++l) {
    std::vector<double>& radial = discs_[l].radial;
    for (std::size_t e = radial.size(); e > 1; --e) radial[e - 2] += radial[e - 1];
  }
}

/// Where equal discs are one layer, what presses meets its lowest or highest disc, and the layer's middle on
/// the normal there: further in for the lowest, further out for the highest.
void StackSolver::shift_in_layers(double blend) {
  const int n_layers = layout_.n_layers();
  for (const ContactRun& run : layout_.runs) {
    const bool lower_is_layer = run.lower != kBelow;
    const bool upper_is_layer = run.upper < n_layers;
    const double offset_l = lower_is_layer ? offset(run.lower) : 0.0;
    const double offset_u = upper_is_layer ? offset(run.upper) : 0.0;
    if (offset_l == 0.0 && offset_u == 0.0) continue;
    for (int k = 0; k < run.n; ++k) {
      const int p = run.first_point + k;
      const double force = kForcePerRadian * force_[p];
      ContactTurn& turn = turns_[p];
      double extra = 0.0;
      if (offset_l > 0.0) {
        const int at = run.station + k - layout_.layers[run.lower].begin;
        const double phi = discs_[run.lower].slope(at);
        turn.lower_offset += blend * (offset_l * phi - turn.lower_offset);
        discs_[run.lower].moment[at] -= force * turn.lower_offset;
        extra -= 0.5 * offset_l * phi * phi;
      }
      if (offset_u > 0.0) {
        const int at = run.station + k - layout_.layers[run.upper].begin;
        const double phi = discs_[run.upper].slope(at);
        turn.upper_offset += blend * (offset_u * phi - turn.upper_offset);
        discs_[run.upper].moment[at] -= force * turn.upper_offset;
        extra -= 0.5 * offset_u * phi * phi;
      }
      // between two layers it is in what their discs add to the gap already
      if (!lower_is_layer || !upper_is_layer) gap_extra_[p] += blend * (extra - gap_extra_[p]);
    }
  }
}

}  // namespace shimwright::plate
