#include "file/spec_unit.h"

#include <algorithm>
#include <numbers>

namespace shimwright::file {

double top_speed_factor(DriveKind kind) {
  constexpr double kSteepest = 1.875;  // of 10 s^3 - 15 s^4 + 6 s^5, half way
  switch (kind) {
    case DriveKind::Sine:
      return std::numbers::pi;
    case DriveKind::Step:
      return kSteepest;
    case DriveKind::Triangle:
    case DriveKind::Recorded:
      break;
  }
  return 2.0;
}

const std::vector<std::string>& role_words() {
  static const std::vector<std::string> words = {"piston",        "collar",      "washer",
                                                 "dished washer", "spacer",      "clamp shim",
                                                 "check plate",   "disc spring", "other"};
  return words;
}

std::string piece_name(const PieceSpec& piece) {
  if (piece.name) return piece.name.value;
  const PieceRole role = piece.role.value_or(PieceRole::Other);
  return role == PieceRole::Other ? "piece" : role_words()[static_cast<std::size_t>(role)];
}

const PieceSpec* collar_of(const ValveSpec& valve, PieceKind stack) {
  const std::vector<PieceSpec>& pieces = valve.pieces;
  const auto here = std::ranges::find(pieces, stack, [](const PieceSpec& piece) { return piece.kind.value; });
  if (here == pieces.end()) return nullptr;
  const auto role = [](const PieceSpec& piece) {
    return piece.kind.value == PieceKind::Piece ? piece.role.value_or(PieceRole::Other) : PieceRole::Other;
  };
  const auto is_spring = [&](const PieceSpec& piece) { return role(piece) == PieceRole::DiscSpring; };
  const auto after = std::find_if_not(here + 1, pieces.end(), is_spring);
  if (after != pieces.end() && role(*after) == PieceRole::Collar) return &*after;
  const auto before = std::find_if_not(std::make_reverse_iterator(here), pieces.rend(), is_spring);
  return before != pieces.rend() && role(*before) == PieceRole::Collar ? &*before : nullptr;
}

std::string word(UnitKind kind) {
  return kind == UnitKind::ForkLeg ? "fork leg" : "shock";
}

std::string word(Layout layout) {
  switch (layout) {
    case Layout::ClosedCartridge:
      return "closed cartridge";
    case Layout::OpenBath:
      return "open bath";
    case Layout::ReservoirShock:
      break;
  }
  return "reservoir shock";
}

}  // namespace shimwright::file
