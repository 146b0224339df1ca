#pragma once

namespace shimwright::flow {

/// How the discharge coefficient of an opening depends on the flow through it.
///
/// Re_h is the Reynolds number on the ideal speed sqrt(2 drop / rho) and the hydraulic diameter, so that
/// every law below is explicit in the drop.
struct Discharge {
  enum class Law {
    Fixed,        // `coefficient` at every flow: what a hand calculation uses
    SharpEdge,    // laminar limit, then `coefficient`
    ShortTube,    // length over diameter from the opening; Merritt's two branches, joined
    ThickEdge,    // a hole of any length: SharpEdge at none, ShortTube from 2.4 diameters on
    LongOrifice,  // length over diameter 1.5 to 10; Lichtarowicz, Duggins and Markland
  };
  enum class Laminar {
    WuestRound,    // round hole, Wuest as quoted by Merritt: Q = pi D^3 dp / (50.4 mu)
    SampsonRound,  // round hole in a thin wall, Sampson's exact law: Q = D^3 dp / (24 mu), a third less
    WuestSlot,     // long slot of height b: Q = pi b^2 w dp / (32 mu)
  };

  Law law = Law::SharpEdge;
  double coefficient = 0.7;               // Fixed, SharpEdge, ThickEdge: high Reynolds limit [-], 0 < c <= 1
  Laminar laminar = Laminar::WuestRound;  // SharpEdge, ThickEdge
};

/// A coefficient that never changes, for results that must be checked by hand.
Discharge fixed_discharge(double coefficient);

/// A sharp edge with the laminar limit of a round hole or of a slot.
Discharge sharp_discharge(double coefficient, Discharge::Laminar laminar);

struct DischargePoint {
  double cd = 0.0;        // [-]
  double exponent = 0.0;  // d ln(cd) / d ln(Re_h): 1 in the laminar limit, 0 where cd is constant
};

/// Discharge coefficient at an ideal-speed Reynolds number.
///
/// Model:  SharpEdge joins cd = delta^2 Re_h and cd = coefficient as 1/(1 + x^8)^(1/8), x = delta^2 Re_h /
///         coefficient; both limits are exact, and at the crossing it reads 8 % below them. Measured sharp
///         edges lie above the usual softer join there (Merritt fig. 3-9, from memory). ShortTube joins
///         Merritt's branches, which differ by 1.7 % at D Re / L = 50, over 50 to 100. ThickEdge is the
///         geometric mean of SharpEdge and ShortTube, by thin_edge_share().
/// Units:  reynolds_ideal [-] > 0; length_ratio = length / hydraulic diameter [-].
/// Valid:  LongOrifice: 10 <= Re_h <= 2e4 and 1.5 <= length_ratio <= 10, scatter +-0.02 (source). Below, its
/// own
///         laminar term carries on; above, it tends to its turbulent limit.
/// Source: [merritt1967] ch. 3, from memory; [lichtarowicz1965] eqs 7 and 12. The coefficient 0.7 of a sharp
///         edge is common practice, no source: 0.611 is that of an ideal jet from a thin edge
///         ([merritt1967]), rounded ones reach 0.8.
/// Tested: discharge_test.cc
DischargePoint discharge_at(const Discharge& discharge, double reynolds_ideal, double length_ratio);

/// The slope cd / Re_h as Re_h goes to zero [-]; infinite for a fixed coefficient.
double laminar_slope(const Discharge& discharge, double length_ratio);

/// How much a hole still loses as a thin edge does, whose jet does not come back to the wall [-]: 1 without
/// length, falling to 0 at 2.4 diameters.
///
/// Source: [idelchik1986] diagram 4-12, from memory: tau(l) over tau(0), tau = (2.4 - l) 10^-phi,
///         phi = 0.25 + 0.535 l^8 / (0.05 + l^7).
double thin_edge_share(double length_ratio);

/// The short tube the other way round: loss factor drop / (rho u^2 / 2) on the mean speed u, explicit in the
/// flow.
struct LossPoint {
  double zeta = 0.0;   // [-]
  double slope = 0.0;  // d zeta / d ln(y)
};

/// Units:  y = D Re / L on the mean speed [-] > 0.
LossPoint short_tube_loss(double y);

/// Turbulent limit of a long orifice, 0.827 - 0.0085 L/d; 0.810 below L/d = 2.
double long_orifice_limit(double length_ratio);

}  // namespace shimwright::flow
