#pragma once
#include <optional>
#include <string_view>
#include <vector>

#include "base/problem.h"

namespace shimwright::assembly {

enum class ComesOut { Fully, StopsShort, NotAtAll };
enum class Bubbles { None, Stopped, Continue };
enum class Drag { Smooth, Tight, Notchy };

/// What the hand and the eye found when the filled cartridge was tried.
struct Observation {
  ComesOut comes_out = ComesOut::Fully;  // pushed in and let go (or drawn to the end of its stroke)
  double short_by = 0.0;                 // when it stops short [m]
  Bubbles bubbles = Bubbles::None;
  std::optional<double> purged;  // oil out of the purge port in the last full stroke [m^3]
  std::optional<Drag> drag;
  std::optional<double> bled_for;  // [s]
  bool oil_outside = false;        // wet rod or seal head after wiping
};

/// The cartridge that was tried.
struct TriedCartridge {
  double rod_diameter = 0.0;  // [m]
  double stroke = 0.0;        // full [m]
  double oil_volume = 0.0;    // of the right fill [m^3]
  double return_force = 0.0;  // that should push the rod out: gas or compensator spring [N]; 0: nothing does,
                              // it is drawn by hand
  double seal_drag = 0.0;     // usual drag of seal and bush [N]

  double well_bled_stop = 0.0;            // where the rod stops with nothing wrong [m]
  std::optional<double> air_behind_stop;  // with which it stops where it was seen, by the balance of forces
                                          // [m^3]; empty: not known, and the rod's own volume is the least
};

/// How much further in than a well-bled unit a rod may stop [m]: the play of bush and top-out (common
/// practice, no source).
inline constexpr double kStopOfNoMatter = 2e-3;

Problems problems_in(const TriedCartridge& cartridge);
Problems problems_in(const Observation& observation, const TriedCartridge& cartridge);

enum class Cause {
  AirInCartridge,
  MissingOil,
  LeakingSeal,
  TooMuchOil,
  ReturnForceLost,  // gas gone, compensator spring left out or torn
  TightGuide,       // bent rod, seal head cocked, band edge proud
};

/// What the test showed, as far as it bears on a cause.
enum class Fact {
  StopsShort,
  HalfAnInchShort,
  ShortBeyondBubbles,
  ShortBeyondHalfStroke,
  DoesNotComeOut,
  PushNoMoreThanDrag,
  BubblesGoOn,
  BledTooShort,
  BledLongEnough,
  BubblesEnded,
  BubblesEndedYetShort,
  PurgesMore,
  OilOutside,
  Tight,
  Notchy,
  Smooth,
};
std::string_view words(Fact fact);  // "the bubbles do not stop"

/// A fact that speaks for (positive) or against (negative) a cause.
struct Evidence {
  Fact fact = Fact::StopsShort;
  double found = 0.0;     // SI; 0 when the fact is not a number
  double expected = 0.0;  // SI
  int weight = 0;         // 3 nearly proves, 2 speaks for, 1 fits; negative against
};

struct LikelyCause {
  Cause cause;
  int score = 0;            // sum of weights
  double volume = 0.0;      // air or oil that belongs to it [m^3]; 0 when it has none
  std::string_view remedy;  // one sentence
  std::vector<Evidence> evidence;
};

/// The acceptance test read backwards: causes, likeliest first; only those that something speaks for.
///
/// Model:  rules with weights; ties in the order of Cause. What a short stop hides comes from the balance of
/// forces
///         where that is known; a reservoir that follows hides more than the rod's own volume, never less.
/// Source: common practice, no source: about half an inch short points at air left in the cartridge, a rod
///         that does not come out at all at a leaking seal, bubbles without end at a seal; a correct fill
///         purges almost nothing.
/// Tested: acceptance_test.cc
struct Diagnosis {
  bool accepted = false;         // nothing speaks for any cause
  double hidden_volume = 0.0;    // air or missing oil behind the stop [m^3]
  double hidden_fraction = 0.0;  // of the oil volume [-]
  std::vector<LikelyCause> causes;
};
Diagnosis diagnose_acceptance(const Observation& observation, const TriedCartridge& cartridge);

}  // namespace shimwright::assembly
