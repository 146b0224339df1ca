#include <array>

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

/// Words in a piece's name, and the entry of the trade's list they stand for.
struct NamedDirection {
  const char* in_name;
  const char* id;
};
constexpr std::array kByName = {
    NamedDirection{"piston", "piston"},
    NamedDirection{"check plate", "check-plate"},
    NamedDirection{"collar", "collar"},
    NamedDirection{"dished", "dished-washer"},
    NamedDirection{"cupped", "dished-washer"},
    NamedDirection{"clamp shim", "clamp-shim"},
    NamedDirection{"disc spring", "disc-springs"},
};

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
    note.part = piece.name.value;
    note.words = piece.direction.value;
    note.drawing = "post:" + picture_name;
    notes.push_back(std::move(note));
  }
  const auto said = [&](const PieceSpec& piece) { return piece.direction.given; };
  for (const PieceSpec& piece : valve.pieces) {
    if (said(piece)) continue;
    for (const NamedDirection& named : kByName) {
      if (piece.name.value.find(named.in_name) != std::string::npos) add(named.id);
    }
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
