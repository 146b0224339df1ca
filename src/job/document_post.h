#pragma once
#include <optional>
#include <string>
#include <vector>

#include "job/document_value.h"

namespace shimwright::job {

enum class PieceShape { Washer, Disc, Piston, Spacer, Nut, Other };

/// One line of the height ledger, from the shoulder outwards.
struct LedgerLine {
  std::string name;  // "piston", "compression stack"
  PieceShape shape = PieceShape::Other;
  int count = 1;
  double height = 0;        // of all of them [m]
  double tolerance = 0;     // plus and minus, of all of them [m]
  bool measured = false;    // false: nominal
  std::string typed;        // as written
  double from = 0;          // distance from the shoulder to its near face [m]
  double to = 0;            // to its far face [m]
  double outer_radius = 0;  // for drawing; 0 when not known [m]
};

/// Spacers taken from those in hand.
struct SpacerLine {
  std::string name;      // "6x0.3"
  double thickness = 0;  // [m]
  int in_hand = 0;
  int used = 0;
  int written = 0;  // as the job file lists them
};

/// How the nut sits on its thread.
struct ThreadResult {
  std::string designation;     // "M6 x 0.75"
  double pitch = 0;            // [m]
  double post_length = 0;      // shoulder to the end [m]
  double thread_start = 0;     // shoulder to the first full turn [m]
  double stack_height = 0;     // all pieces, shoulder to the nut's seat [m]
  double stack_tolerance = 0;  // worst case, plus and minus [m]
  double nut_height = 0;       // [m]
  double engaged_turns = 0;    // of the nut on the post
  double nut_turns = 0;        // that the nut has
  double least_turns = 0;      // with all tolerances against it
  double protrusion = 0;       // of the post past the nut; negative: the nut overhangs [m]
  double unthreaded_gap =
      0;  // from the nut's seat back to the first full turn; negative: the nut bottoms on it [m]
};

/// What is wrong with how the nut sits.
enum class PostFault { ClampsNothing, TooFewTurns, EndTooDeep, EndTooProud };

/// Something wrong with how the nut sits.
struct PostFlag {
  PostFault kind = PostFault::ClampsNothing;
  std::string what;     // one clause, "the nut stops at the end of the thread before it touches the pile"
  bool sure = false;    // false: only at the worst end of the tolerances
  bool serious = true;  // false: it holds, but not as it should
  double value = 0.0;   // found [m]
  double limit = 0.0;   // that was passed [m]
};

/// The torque and what it does.
struct TorqueResult {
  std::optional<Value> asked;                // as the job file says
  std::string on_the_thread;                 // "high-strength threadlocker"
  double friction_low = 0;                   // coefficient in the thread, least
  double friction_high = 0;                  // most
  double preload_low = 0;                    // clamping force at the asked (or recommended) torque [N]
  double preload_high = 0;                   // [N]
  double post_stress = 0;                    // equivalent, at the highest preload [Pa]
  double stretch_margin = 0;                 // yield of the post over that stress
  double strip_margin = 0;                   // force that strips the softer thread over the highest preload
  double range_low = 0;                      // recommended torque [N m]
  double range_high = 0;                     // [N m]
  double limit = 0;                          // beyond which the thread cannot carry it [N m]
  bool estimate = false;                     // nobody published the torque: the range is derived
  std::string derivation;                    // one sentence
  std::vector<NamedValue> derivation_steps;  // its lines, in order
  std::string torque_source;                 // who published it; empty: nobody
  std::string gives_way;  // what gives way first: "the post stretches", "the nut's thread strips"
  std::string verdict;    // one sentence
  double slip_torque =
      0.0;               // the torque that was likely meant, a twelfth or twelve times [N m]; 0: no such slip
  bool too_low = false;  // the asked torque leaves the pile loose
  bool tight = false;    // holds, but not at both ends of the friction band
  bool refused = false;  // the thread cannot carry the asked torque
};

/// The right way up of one part.
struct DirectionNote {
  std::string part;         // "piston"
  std::string words;        // "the three large ports face the shoulder"
  std::string how_to_tell;  // by eye or finger
  std::string if_reversed;  // what goes wrong
  std::string drawing;      // picture id for the step; empty when none
};

/// One post: what is on it, how the nut sits, how tight.
struct PostResult {
  std::string name;                    // "fork leg, piston valve"
  std::vector<LedgerLine> ledger;      // shoulder first, the nut last
  double bore_radius = 0;              // hollow post, 0 = solid [m]
  double major_radius = 0;             // of the thread [m]
  std::optional<ThreadResult> thread;  // empty: no thread stated
  std::vector<SpacerLine> spacers;
  std::string spacer_advice;      // "Leave out two 0.3 mm spacers: ..."; empty when as written is right
  bool fits = true;               // with the spacers used
  bool fits_always = true;        // also at the worst end of all tolerances
  double missing_least = 0.0;     // a piece from this thick [m] ...
  double missing_greatest = 0.0;  // ... to this thick would do; 0: nothing to add [m]
  long choices_examined = 0;
  std::vector<PostFlag> flags;  // with the spacers used, worst first
  std::optional<TorqueResult> torque;
  std::vector<DirectionNote> directions;
};

std::string word(PieceShape shape);

}  // namespace shimwright::job
