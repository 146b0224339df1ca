#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "assembly/thread.h"
#include "base/problem.h"

namespace shimwright::assembly {

/// How well a micrometer in a warm hand is trusted, +/- [m]. Common practice, no source.
inline constexpr double kMicrometerError = 5e-6;

/// One kind of piece in the pile on the post.
struct Piece {
  std::string id;                                // as the job names it
  double thickness = 0.0;                        // of one, nominal, when clamped [m]
  double tolerance = 0.0;                        // of one, +/- [m]
  std::optional<double> measured;                // of one [m]; takes the place of the nominal
  double measured_tolerance = kMicrometerError;  // of the measuring, +/- [m]
  int count = 1;
  bool adds_height = true;  // false: rides on another piece (a ring shim in a gap, a stack on its collar)
};

/// A height with what may be around it.
struct HeightBand {
  double nominal = 0.0;  // measured where measured [m]
  double worst = 0.0;    // +/-, every tolerance at its end [m]
  double rss = 0.0;      // +/-, root of the sum of squares: what to expect of independent pieces [m]
};

/// Height of a pile, order does not matter. Pieces that ride on another add nothing.
///
/// Model:  nominal pieces are independent (rss: sqrt(n) t); measured ones share the micrometer's error (n t).
HeightBand pile_height(std::span<const Piece> pieces);

/// The end of a rod or a base-valve body that carries the pile.
struct Post {
  Thread thread;
  double length = 0.0;         // shoulder to end [m]
  double thread_length = 0.0;  // from the end, run-out included [m]
  double runout = 0.0;         // incomplete turns at the inner end of the thread [m]
  double end_chamfer = 0.0;    // without full thread at the free end [m]
  double tolerance = 0.0;      // of length and of thread length, +/- [m]
};

/// A nut, or a tapped part turned round: then the "post" is the screw.
struct Nut {
  double height = 0.0;        // [m]
  double face_chamfer = 0.0;  // countersink at the clamping face, without full thread [m]
  double top_chamfer = 0.0;   // at the other face [m]
  double blind_depth = 0.0;   // of a closed nut, face to bottom [m]; 0: open
};

/// A pile on a post under a nut: the whole of what the ledger reads.
struct PostAssembly {
  Post post;
  Nut nut;
  std::vector<Piece> pieces;  // shoulder first

  double engaged_needed = 0.0;      // full thread that must be in the nut [m]; 0: all of an open nut's, in a
                                    // closed one a turn less than it takes before it bottoms
  double protrusion_needed = 0.0;   // of the post's end past the nut, in pitches
  double protrusion_allowed = 1e9;  // in pitches; a part above may leave no room
};

Problems problems_in(const PostAssembly& assembly);

/// One line of the ledger, heights from the shoulder.
struct LedgerLine {
  int piece = 0;        // index into PostAssembly::pieces
  double total = 0.0;   // thickness x count, 0 when it adds none [m]
  double bottom = 0.0;  // [m]
  double top = 0.0;     // [m]
  bool is_measured = false;
};

/// low <= nominal <= high, the ends at worst-case height.
struct Spread {
  double low = 0.0;
  double nominal = 0.0;
  double high = 0.0;
};

enum class FlagKind {
  RunsOntoShank,     // the nut stops at the end of the thread before it touches the pile: it clamps nothing
  EndBottoms,        // the post's end meets the bottom of a closed nut: it clamps nothing
  NoThreadReached,   // the pile is so high that the nut finds no full thread
  TooLittleEngaged,  // fewer turns than needed
  EndTooDeep,        // the post's end is below the protrusion needed
  EndTooProud,       // the post's end sticks out more than there is room for
};

enum class Likelihood {
  Sure,      // at nominal height
  Possible,  // only inside the worst-case band
};

/// Something wrong on the post, with the number that says so.
struct LedgerFlag {
  FlagKind kind;
  Likelihood likelihood;
  double value = 0.0;  // found [m]; the worse end of the band when Possible
  double limit = 0.0;  // that was passed [m]
};

/// What the pile leaves of the thread.
///
/// Model:  the nut's face lies on the pile; thread overlap of nut and post, chamfers and run-out off.
/// Errors: SW_CHECK when problems_in() finds any.
/// Source: geometry. Tested: ledger_test.cc, ledger_property_test.cc
struct Ledger {
  std::vector<LedgerLine> lines;
  HeightBand height;   // shoulder to nut face [m]
  Spread thread_left;  // full thread of the post above the nut's face [m]
  Spread engaged;      // full thread in the nut [m]
  Spread engaged_pitches;
  Spread protrusion;  // post's end past the nut's top, negative: below it [m]
  Spread protrusion_pitches;
  double clamp_gap = 0.0;         // left between pile and nut when the nut stops early [m]; 0: it clamps
  double least_height = 0.0;      // the pile may be no lower: the nut would stop on the thread's end [m]
  double greatest_height = 0.0;   // nor higher: the nut would not be filled as needed [m]
  bool can_fit = true;            // false: no height at all would do, nut and post contradict the request
  double engaged_needed = 0.0;    // what was requested of it, resolved [m]
  std::vector<LedgerFlag> flags;  // worst first; empty: it fits
};
Ledger ledger(const PostAssembly& assembly);

/// The free play of a stack that slides on its collar before it bends.
///
/// Model:  float = collar height - thickness of all that slides on it, the light spring's flat height too.
struct FloatGap {
  double gap = 0.0;          // nominal [m]; negative: the stack is pinched by -gap
  double worst = 0.0;        // +/- [m]
  double rss = 0.0;          // +/- [m]
  bool surely_free = false;  // gap > 0 at the worst end
  bool surely_pinched = false;
};
FloatGap float_gap(const Piece& collar, std::span<const Piece> sliding);

}  // namespace shimwright::assembly
