#include "file/spec_unit.h"

namespace shimwright::file {

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
