#include "assembly/directions.h"
#include "job/run_post.h"

namespace shimwright::job {
namespace {

DirectionNote note_of(const assembly::Direction& direction, const std::string& picture) {
  DirectionNote note;
  note.part = direction.part;
  note.words = std::string(direction.side) + " faces " + std::string(direction.toward);
  note.how_to_tell = direction.how_to_tell;
  note.if_reversed = direction.if_reversed;
  note.drawing = picture;
  return note;
}

/// The entry of the trade's list for a piece of this role; null for one that may go on either way round.
const char* direction_of(PieceRole role) {
  switch (role) {
    case PieceRole::Piston:
      return "piston";
    case PieceRole::CheckPlate:
      return "check-plate";
    case PieceRole::Collar:
      return "collar";
    case PieceRole::DishedWasher:
      return "dished-washer";
    case PieceRole::ClampShim:
      return "clamp-shim";
    case PieceRole::DiscSpring:
      return "disc-springs";
    case PieceRole::Washer:
    case PieceRole::Spacer:
    case PieceRole::Other:
      break;
  }
  return nullptr;
}

}  // namespace

std::vector<DirectionNote> direction_notes(const ValveSpec& valve, const std::string& picture_name) {
  std::vector<DirectionNote> notes;
  const auto add = [&](const char* id) {
    const assembly::Direction* direction = assembly::find_direction(id);
    if (direction == nullptr) return;
    for (const DirectionNote& note : notes) {
      if (note.part == direction->part) return;
    }
    notes.push_back(note_of(*direction, "direction:" + picture_name + ":" + id));
  };

  // what the job says of a piece goes before the trade's rule
  for (const PieceSpec& piece : valve.pieces) {
    if (!piece.direction) continue;
    DirectionNote note;
    note.part = piece_name(piece);
    note.words = piece.direction.value;
    note.drawing = "post:" + picture_name;
    notes.push_back(std::move(note));
  }
  for (const PieceSpec& piece : valve.pieces) {
    if (piece.direction) continue;
    if (const char* id = direction_of(piece.role.value_or(PieceRole::Other))) add(id);
  }

  for (const auto& direction : {valve.compression, valve.rebound}) {
    if (!direction || direction->stack.empty()) continue;
    add(is_check(*direction) ? "check-plate" : "face-shim");
    if (is_check(*direction)) {
      add("check-spring");
    } else if (direction->floating) {
      add("wave-spring");
    }
  }
  if (valve.nut) add("nut");
  for (const BleedSpec& bleed : valve.bleeds) {
    if (bleed.kind.value_or(BleedKind::Bored) == BleedKind::Needle) add("needle");
  }
  return notes;
}

}  // namespace shimwright::job
