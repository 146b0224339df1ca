#include "assembly/directions.h"
#include "job/run_post.h"

namespace shimwright::job {
namespace {

document::DirectionNote note_of(const assembly::Direction& direction, const std::string& picture) {
  document::DirectionNote note;
  note.part = direction.part;
  note.words = std::string(direction.side) + " faces " + std::string(direction.toward);
  note.how_to_tell = direction.how_to_tell;
  note.if_reversed = direction.if_reversed;
  note.drawing = picture;
  return note;
}

/// The entry of the trade's list for a piece of this role; null for one that may go on either way round.
const char* direction_of(file::PieceRole role) {
  switch (role) {
    case file::PieceRole::Piston:
      return "piston";
    case file::PieceRole::CheckPlate:
      return "check-plate";
    case file::PieceRole::Collar:
      return "collar";
    case file::PieceRole::DishedWasher:
      return "dished-washer";
    case file::PieceRole::ClampShim:
      return "clamp-shim";
    case file::PieceRole::DiscSpring:
      return "disc-springs";
    case file::PieceRole::Washer:
    case file::PieceRole::Spacer:
    case file::PieceRole::Other:
      break;
  }
  return nullptr;
}

}  // namespace

std::vector<document::DirectionNote> direction_notes(const file::ValveSpec& valve,
                                                     const std::string& picture_name) {
  std::vector<document::DirectionNote> notes;
  const auto add = [&](const char* id) {
    const assembly::Direction* direction = assembly::find_direction(id);
    if (direction == nullptr) return;
    for (const document::DirectionNote& note : notes) {
      if (note.part == direction->part) return;
    }
    notes.push_back(note_of(*direction, "direction:" + picture_name + ":" + id));
  };

  // what the job says of a piece goes before the trade's rule
  for (const file::PieceSpec& piece : valve.pieces) {
    if (!piece.direction) continue;
    document::DirectionNote note;
    note.part = file::piece_name(piece);
    note.words = piece.direction.value;
    note.drawing = "post:" + picture_name;
    notes.push_back(std::move(note));
  }
  for (const file::PieceSpec& piece : valve.pieces) {
    if (piece.direction) continue;
    if (const char* id = direction_of(piece.role.value_or(file::PieceRole::Other))) add(id);
  }

  for (const auto& direction : {valve.compression, valve.rebound}) {
    if (!direction || direction->stack.empty()) continue;
    add(resolve::is_check(*direction) ? "check-plate" : "face-shim");
    if (resolve::is_check(*direction)) {
      add("check-spring");
    } else if (direction->floating) {
      add("wave-spring");
    }
  }
  if (valve.nut) add("nut");
  for (const file::BleedSpec& bleed : valve.bleeds) {
    if (bleed.kind.value_or(file::BleedKind::Bored) == file::BleedKind::Needle) add("needle");
  }
  return notes;
}

}  // namespace shimwright::job
