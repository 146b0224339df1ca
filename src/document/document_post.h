#pragma once
#include <optional>
#include <string>
#include <vector>

#include "document/document_value.h"

// What each struct and each member means: document_describe_post.cc

namespace shimwright::document {

enum class PieceShape { Washer, Disc, Piston, Spacer, Nut, Other };

/// What a line of the ledger stands for.
enum class LinePart { Piece, CompressionStack, ReboundStack, Spacers, Nut };

struct LedgerLine {
  std::string name;
  LinePart part = LinePart::Piece;
  PieceShape shape = PieceShape::Other;
  int count = 1;
  double height = 0;
  double tolerance = 0;
  bool measured = false;
  std::string typed;
  double from = 0;
  double to = 0;
  double outer_radius = 0;
  std::optional<int> direction;
};

struct SpacerLine {
  std::string name;
  double thickness = 0;
  int in_hand = 0;
  int used = 0;
  int written = 0;
};

struct ThreadResult {
  std::string designation;
  double pitch = 0;
  double post_length = 0;
  double thread_start = 0;
  double stack_height = 0;
  double stack_tolerance = 0;
  double nut_height = 0;
  double engaged_turns = 0;
  double nut_turns = 0;
  double least_turns = 0;
  double protrusion = 0;
  double unthreaded_gap = 0;
};

/// What is wrong with how the nut sits.
enum class PostFault { ClampsNothing, TooFewTurns, EndTooDeep, EndTooProud };

struct PostFlag {
  PostFault kind = PostFault::ClampsNothing;
  std::string what;
  bool sure = false;
  bool serious = true;
  double value = 0.0;
  double limit = 0.0;
};

/// What is on the thread of a nut.
enum class ThreadCoat { Dry, Oiled, AntiSeize, Threadlocker, HighStrengthThreadlocker };

struct TorqueResult {
  std::optional<Value> asked;
  std::optional<Value> to_use;
  ThreadCoat on_the_thread = ThreadCoat::Dry;
  double friction_low = 0;
  double friction_high = 0;
  double preload_low = 0;
  double preload_high = 0;
  double post_stress = 0;
  double stretch_margin = 0;
  double strip_margin = 0;
  double range_low = 0;
  double range_high = 0;
  double limit = 0;
  bool estimate = false;
  std::string derivation;
  std::vector<NamedValue> derivation_steps;
  std::string torque_source;
  std::string gives_way;
  std::string verdict;
  double slip_torque = 0.0;
  bool too_low = false;
  bool tight = false;
  bool refused = false;
};

struct DirectionNote {
  std::string part;
  std::string words;
  std::string how_to_tell;
  std::string if_reversed;
};

struct CollarFloat {
  Stroke stack = Stroke::Compression;
  std::string collar;
  double stated = 0;
  double left = 0;
  double tolerance = 0;
};

struct PostResult {
  std::string name;
  std::vector<LedgerLine> ledger;
  double bore_radius = 0;
  double major_radius = 0;
  std::optional<ThreadResult> thread;
  std::vector<SpacerLine> spacers;
  std::string spacer_advice;
  bool fits = true;
  bool fits_always = true;
  double missing_least = 0.0;
  double missing_greatest = 0.0;
  long choices_examined = 0;
  std::vector<PostFlag> flags;
  std::vector<CollarFloat> floats;
  std::optional<TorqueResult> torque;
  std::vector<DirectionNote> directions;
};

std::string word(PieceShape shape);
std::string word(ThreadCoat coat);  // "anti-seize paste"
bool is_threadlocker(ThreadCoat coat);

}  // namespace shimwright::document
