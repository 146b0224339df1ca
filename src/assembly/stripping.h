#pragma once
#include <span>
#include <string_view>

#include "assembly/thread.h"
#include "base/outcome.h"

namespace shimwright::assembly {

/// Strength of a thread's material.
struct Strength {
  double yield = 0.0;     // R_p0.2 [Pa]
  double ultimate = 0.0;  // R_m [Pa]
};

/// Shear strength of thread turns, 0.6 R_m [Pa].
/// Source: the usual value beside [alexander1977], from memory
double shear_strength(const Strength& strength);

/// A strength with a name a job file may use.
struct NamedStrength {
  std::string_view id;      // "8.8", "aluminium 6082-T6"
  Strength strength;        // minimum values
  std::string_view source;  // standard or "common practice, no source"; all from memory
};

/// Property classes of ISO 898-1 (sizes up to M16) and the materials usual in dampers.
std::span<const NamedStrength> named_strengths();

/// The entry called `id`, or null.
const NamedStrength* find_strength(std::string_view id);

/// A post's thread inside a nut's (or a screw's inside a tapped part's).
struct ThreadPair {
  Thread thread;
  double engaged_length = 0.0;  // of full thread, chamfers off [m]
  Strength post;                // external thread
  Strength nut;                 // internal thread
  double nut_width = 0.0;       // across flats or outer diameter [m]; 0: not known, no allowance for dilation
};

Problems problems_in(const ThreadPair& pair);

/// Shear areas at the least favourable limits of size [m^2].
///
/// Model:  post (external): pi Le (D1max/P)[P/2 + 0.57735(d2min - D1max)];
///         nut (internal): pi Le (dmin/P)[P/2 + 0.57735(dmin - D2max)].
/// Source: FED-STD-H28/2B. Tested: stripping_reference_test.cc
struct ShearAreas {
  double post = 0.0;
  double nut = 0.0;
};
ShearAreas shear_areas(const Thread& thread, double engaged_length);

/// Alexander's reductions: the nut opens, the turns of the weaker side bend.
///
/// Valid:  nut width/diameter 1.4 to 1.9 (wider: 1); strength ratio 0.4 to 2.2 (held at the edge beyond).
/// Source: [alexander1977], as in [vdi2230]; coefficients from memory
struct AlexanderFactors {
  double dilation = 1.0;  // C1
  double post = 0.897;    // C2, external thread
  double nut = 0.897;     // C3, internal thread
  Outcome outcome;        // OutOfRange outside Valid
};

/// `width_ratio` is nut width over thread diameter (0: not known, no dilation); `strength_ratio` is
/// (area x shear strength) of the nut over that of the post.
AlexanderFactors alexander_factors(double width_ratio, double strength_ratio);

enum class Member { Post, Nut };

/// Axial force at which the thread strips.
///
/// Model:  shear area x 0.6 R_m x C1 x (C2 or C3) for each side; the weaker side decides.
/// Source: [fedstdh28] and [alexander1977], from memory
/// Tested: stripping_test.cc (monotone in engagement, linear, weaker side)
struct Stripping {
  ShearAreas areas;             // [m^2]
  double strength_ratio = 0.0;  // nut over post
  AlexanderFactors factors;
  double post_force = 0.0;  // strips the post's thread [N]
  double nut_force = 0.0;   // strips the nut's thread [N]
  double force = 0.0;       // the smaller [N]
  Member weaker = Member::Nut;
  Outcome outcome;
};
Stripping stripping(const ThreadPair& pair);

/// Engaged length at which the post breaks before either thread strips, by the handbook formula [m].
///
/// Model:  Le = 2 As / {pi (D1max/P)[P/2 + 0.57735(d2min - D1max)]}, times J = (AS_post R_post) /
///         (AS_nut R_nut) when J > 1. Takes the shear strength as half of R_m, without Alexander's factors.
///         `pair.engaged_length` and `pair.nut_width` are not used.
/// Source: [fedstdh28], from memory
double handbook_engagement(const ThreadPair& pair);

/// Engaged length at which the thread strips at `force` [m]; the same model as stripping().
double engagement_to_hold(const ThreadPair& pair, double force);

}  // namespace shimwright::assembly
