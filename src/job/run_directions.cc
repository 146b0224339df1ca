#include <algorithm>

#include "assembly/directions.h"
#include "job/run_post.h"

namespace shimwright::job {
namespace {

document::DirectionNote note_of(const assembly::Direction& direction) {
  document::DirectionNote note;
  note.part = direction.part;
  note.words = std::string(direction.side) + " faces " + std::string(direction.toward);
  note.how_to_tell = direction.how_to_tell;
  note.if_reversed = direction.if_reversed;
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

/// The notes of one post so far.
struct Notes {
  std::vector<document::DirectionNote> list;

  /// Index of the trade's note of this name; equal parts share one.
  std::optional<int> add(const char* id) {
    const assembly::Direction* direction = assembly::find_direction(id);
    if (direction == nullptr) return std::nullopt;
    const auto known = std::ranges::find(list, direction->part, &document::DirectionNote::part);
    if (known != list.end()) return static_cast<int>(known - list.begin());
    list.push_back(note_of(*direction));
    return static_cast<int>(list.size()) - 1;
  }
};

/// Of each piece on the post its note: what the job says goes before the trade's rule.
std::vector<std::optional<int>> add_pieces(const std::vector<file::PieceSpec>& pieces, Notes& notes) {
  std::vector<std::optional<int>> of_piece(pieces.size());
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    if (!pieces[i].direction) continue;
    document::DirectionNote note;
    note.part = file::piece_name(pieces[i]);
    note.words = pieces[i].direction.value;
    of_piece[i] = static_cast<int>(notes.list.size());
    notes.list.push_back(std::move(note));
  }
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const char* id = direction_of(pieces[i].role.value_or(file::PieceRole::Other));
    if (!of_piece[i] && id != nullptr) of_piece[i] = notes.add(id);
  }
  return of_piece;
}

}  // namespace

void add_directions(const file::ValveSpec& valve, const resolve::PostModel& model,
                    document::PostResult& post) {
  Notes notes;
  const std::vector<std::optional<int>> of_piece = add_pieces(valve.pieces, notes);
  for (const auto& direction : {valve.compression, valve.rebound}) {
    if (!direction || direction->stack.empty()) continue;
    notes.add(resolve::is_check(*direction) ? "check-plate" : "face-shim");
    if (resolve::is_check(*direction)) {
      notes.add("check-spring");
    } else if (direction->floating) {
      notes.add("wave-spring");
    }
  }
  const std::optional<int> of_nut = valve.nut ? notes.add("nut") : std::nullopt;
  for (const file::BleedSpec& bleed : valve.bleeds) {
    if (bleed.kind.value_or(file::BleedKind::Bored) == file::BleedKind::Needle) notes.add("needle");
  }

  // the lines of the ledger are the faces in their order, with the spacers between them and the nut on top
  auto face = model.faces.begin();
  for (document::LedgerLine& line : post.ledger) {
    if (line.part == document::LinePart::Spacers) continue;
    if (line.part == document::LinePart::Nut) {
      line.direction = of_nut;
    } else {
      line.direction = of_piece[face->entry];
      ++face;
    }
  }
  post.directions = std::move(notes.list);
}

}  // namespace shimwright::job
