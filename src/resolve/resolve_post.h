#pragma once
#include <optional>
#include <string>
#include <vector>

#include "assembly/spacers.h"
#include "assembly/torque.h"
#include "base/terms.h"
#include "file/spec.h"
#include "resolve/resolve_places.h"
#include "resolve/resolve_report.h"

namespace shimwright::resolve {

/// What a face needs to know of one piece, beside what the ledger computes with.
struct PieceFace {
  std::string name;
  file::PieceRole role = file::PieceRole::Other;
  std::optional<Stroke> stack;  // of which it is the pile; empty: a piece
  std::string typed;
  double outer_radius = 0.0;  // [m]; 0 when not known
  std::size_t entry = 0;      // index into ValveSpec::pieces; not of a spacer in hand
};

/// The torque case but for the engaged length, which the ledger gives.
struct TorqueModel {
  assembly::TorqueCase torque_case;
  file::Quantity asked;
  std::string source;  // who published it; empty: nobody
  file::OnThread on_the_thread = file::OnThread::Dry;
  bool state_assumed = false;  // the job does not say what is on the thread
  bool face_assumed = false;   // nor how wide the nut's face is
  double measured_factor = 0;  // K of T = K d F; 0: by the state of the thread
};

/// A floating stack on its collar.
struct FloatModel {
  Stroke stack = Stroke::Compression;
  std::string collar;       // its name
  double stated = 0.0;      // float [m]
  assembly::FloatGap left;  // what the collar's length leaves
};

/// One post with all that is on it.
struct PostModel {
  std::string name;
  std::string designation;             // of the thread, as typed
  assembly::SpacerCase spacer_case;    // pieces without the spacers in hand; stock may be empty
  std::vector<PieceFace> faces;        // (as spacer_case.assembly.pieces)
  std::vector<PieceFace> stock_faces;  // (as spacer_case.stock)
  std::size_t spacers_before = 0;  // the spacers stand before this piece; = number of pieces: below the nut
  std::vector<FloatModel> floats;  // of the stacks with a collar
  std::optional<TorqueModel> torque;
  FieldPlaces places;
  file::Origin origin;
  file::Origin nut_origin;
};

/// The post of one valve. `stacks` of the valve give the height of the two piles.
///
/// Model:  each disc is trusted to kDiscTolerance. A stack with float is as high as its pile and its float
///         together, unless the piece beside it is a collar, on which it rides (file::collar_of) together
///         with the disc springs between them.
/// Tested: resolve_test.cc
std::optional<PostModel> resolve_post(const file::JobSpec& job, const file::ValveSpec& valve,
                                      const std::string& name, ResolveReport& report);

/// How well a shim's printed thickness is kept, +/- [m]. Common practice, no source.
inline constexpr double kDiscTolerance = 5e-6;

/// Height of the clamped pile of a direction; ring shims add none [m].
double pile_height(const file::DirectionSpec& direction, double post_diameter);

/// True for a plate that only refills: one disc that floats on its spring.
bool is_check(const file::DirectionSpec& direction);

/// A stack or plate that slides has a spring that brings it back.
bool has_slide_spring(const file::DirectionSpec& direction);
/// The same, where that spring is a part of its own: none of the pieces on the post is it.
bool has_slide_spring(const file::ValveSpec& valve, Stroke stroke);

/// What a spacer is called: its name, or its thickness as typed.
std::string spacer_label(const file::SpacerSpec& spacer);

}  // namespace shimwright::resolve
