#include "resolve/resolve_post.h"

#include <algorithm>
#include <cmath>

namespace shimwright::resolve {
namespace {

assembly::Piece spacer_piece(const file::SpacerSpec& spec) {
  assembly::Piece piece;
  piece.id = spec.name;
  piece.thickness = spec.thickness.si;
  piece.tolerance = spec.tolerance.value_or(0.0);
  if (spec.measured) piece.measured = spec.measured.si;
  return piece;
}

/// Spacers that go on this post: those stated for it, or all of the parts files whose bore fits.
std::vector<file::SpacerSpec> spacers_in_hand(const file::JobSpec& job, const file::ValveSpec& valve) {
  if (!valve.spacers.empty()) return valve.spacers;
  const double diameter = valve.post->thread.size.diameter;
  std::vector<file::SpacerSpec> fitting;
  for (const file::SpacerSpec& spacer : job.parts.spacers) {
    const double play = spacer.bore.si - diameter;
    if (spacer.bore && spacer.thickness && play >= -0.05e-3 && play <= 0.6e-3) fitting.push_back(spacer);
  }
  return fitting;
}

int written_count(const file::ValveSpec& valve, const std::string& spacer) {
  int count = 0;
  for (const file::PieceSpec& piece : valve.pieces) {
    if (piece.part && piece.part.value == spacer) count += piece.count.value_or(1);
  }
  return count;
}

bool floats(const file::DirectionSpec& direction) {
  return direction.floating && direction.floating->travel.value_or(0.0) > 0.0;
}

void add_stack(const file::ValveSpec& valve, std::size_t entry, PostModel& model) {
  const file::PieceSpec& spec = valve.pieces[entry];
  const bool is_compression = spec.kind.value == file::PieceKind::CompressionStack;
  const auto& direction = is_compression ? valve.compression : valve.rebound;
  if (!direction) return;  // load has said so
  const file::PieceSpec* collar = file::collar_of(valve, spec.kind.value);
  const bool has_collar = collar != nullptr;
  const double slide = direction->floating ? direction->floating->travel.value_or(0.0) : 0.0;

  assembly::Piece piece;
  piece.id = is_compression ? "compression stack" : "rebound stack";
  piece.adds_height = !(slide > 0.0 && has_collar);
  piece.thickness = pile_height(*direction, valve.post->thread.size.diameter) + (has_collar ? 0.0 : slide);
  int n_discs = 0;
  double widest = 0.0;
  for (const file::DiscSpec& disc : direction->stack) {
    n_discs += disc.count.value_or(1);
    widest = std::max(widest, 0.5 * disc.outer_diameter.si);
  }
  piece.tolerance = n_discs * kDiscTolerance;
  const std::string name = piece.id + (slide > 0.0 && !has_collar ? " with its float" : "");
  model.faces.push_back({.name = name,
                         .stack = is_compression ? Stroke::Compression : Stroke::Rebound,
                         .typed = spec.text,
                         .outer_radius = widest,
                         .entry = entry});
  model.spacer_case.assembly.pieces.push_back(std::move(piece));
}

/// The floating stack with which a disc spring slides, between it and its collar; nothing for other pieces.
std::optional<Stroke> slides_with(const file::ValveSpec& valve, std::size_t entry) {
  const auto is_spring = [&](std::size_t i) {
    const file::PieceSpec& piece = valve.pieces[i];
    return piece.kind.value == file::PieceKind::Piece &&
           piece.role.value_or(file::PieceRole::Other) == file::PieceRole::DiscSpring;
  };
  if (!is_spring(entry)) return std::nullopt;
  std::size_t from = entry, to = entry;
  while (from > 0 && is_spring(from)) --from;
  while (to + 1 < valve.pieces.size() && is_spring(to)) ++to;
  for (const auto& [stack, other] : {std::pair{from, to}, std::pair{to, from}}) {
    const file::PieceKind kind = valve.pieces[stack].kind.value;
    if (kind != file::PieceKind::CompressionStack && kind != file::PieceKind::ReboundStack) continue;
    const bool is_compression = kind == file::PieceKind::CompressionStack;
    const auto& direction = is_compression ? valve.compression : valve.rebound;
    if (direction && floats(*direction) && file::collar_of(valve, kind) == &valve.pieces[other])
      return is_compression ? Stroke::Compression : Stroke::Rebound;
  }
  return std::nullopt;
}

void add_piece(const file::ValveSpec& valve, std::size_t entry, PostModel& model) {
  const file::PieceSpec& spec = valve.pieces[entry];
  assembly::Piece piece;
  piece.id = file::piece_name(spec);
  piece.count = spec.count.value_or(1);
  piece.adds_height = !slides_with(valve, entry);
  const std::string field = "pieces[" + std::to_string(model.faces.size()) + "]";
  model.places.add(field, spec.origin, units::Kind::Length);
  model.places.bind(field + ".thickness", piece.thickness, spec.height ? spec.height : spec.measured);
  model.places.bind(field + ".tolerance", piece.tolerance, spec.tolerance);
  if (spec.measured) {
    model.places.bind(field + ".measured", piece.measured.emplace(), spec.measured);
    if (spec.tolerance) piece.measured_tolerance = std::min(spec.tolerance.si, assembly::kMicrometerError);
  }
  const std::string typed =
      spec.text.empty() ? (spec.measured ? spec.measured.text : spec.height.text) : spec.text;
  model.faces.push_back({.name = file::piece_name(spec),
                         .role = spec.role.value_or(file::PieceRole::Other),
                         .typed = typed,
                         .outer_radius = 0.5 * spec.outer_diameter.value_or(0.0),
                         .entry = entry});
  model.spacer_case.assembly.pieces.push_back(std::move(piece));
}

void add_pieces(const file::ValveSpec& valve, const std::vector<file::SpacerSpec>& in_hand,
                PostModel& model) {
  const auto is_stock = [&](const file::PieceSpec& piece) {
    return piece.part && std::ranges::any_of(in_hand, [&](const file::SpacerSpec& spacer) {
             return spacer.name == piece.part.value;
           });
  };
  bool place_known = false;
  for (std::size_t entry = 0; entry < valve.pieces.size(); ++entry) {
    const file::PieceSpec& piece = valve.pieces[entry];
    const file::PieceKind kind = piece.kind.value_or(file::PieceKind::Piece);
    if (kind == file::PieceKind::Spacers || is_stock(piece)) {
      if (!place_known) model.spacers_before = model.faces.size();
      place_known = true;
    } else if (kind == file::PieceKind::Piece) {
      add_piece(valve, entry, model);
    } else {
      add_stack(valve, entry, model);
    }
  }
  if (!place_known) model.spacers_before = model.faces.size();
}

/// What each collar leaves its stack. Pieces are listed by now.
void add_floats(const file::ValveSpec& valve, PostModel& model) {
  const std::vector<assembly::Piece>& pieces = model.spacer_case.assembly.pieces;
  const auto piece_of = [&](std::size_t entry) -> const assembly::Piece* {
    const auto face = std::ranges::find(model.faces, entry, &PieceFace::entry);
    return face == model.faces.end() ? nullptr
                                     : &pieces[static_cast<std::size_t>(face - model.faces.begin())];
  };
  for (std::size_t entry = 0; entry < valve.pieces.size(); ++entry) {
    const file::PieceKind kind = valve.pieces[entry].kind.value;
    if (kind != file::PieceKind::CompressionStack && kind != file::PieceKind::ReboundStack) continue;
    const bool is_compression = kind == file::PieceKind::CompressionStack;
    const auto& direction = is_compression ? valve.compression : valve.rebound;
    const file::PieceSpec* collar = file::collar_of(valve, kind);
    if (!direction || !floats(*direction) || collar == nullptr) continue;
    const auto collar_entry = static_cast<std::size_t>(collar - valve.pieces.data());
    const assembly::Piece* stack_piece = piece_of(entry);
    const assembly::Piece* collar_piece = piece_of(collar_entry);
    if (stack_piece == nullptr || collar_piece == nullptr)
      continue;  // a spacer of the stock: no fixed length
    std::vector<assembly::Piece> sliding = {*stack_piece};
    for (std::size_t i = std::min(entry, collar_entry) + 1; i < std::max(entry, collar_entry); ++i)
      if (const assembly::Piece* spring = piece_of(i)) sliding.push_back(*spring);
    for (assembly::Piece& piece : sliding) piece.adds_height = true;
    model.floats.push_back({is_compression ? Stroke::Compression : Stroke::Rebound, file::piece_name(*collar),
                            direction->floating->travel.si, assembly::float_gap(*collar_piece, sliding)});
  }
}

/// The search is exhaustive for kMostSpacers pieces. More than that in the drawer: no kind needs more pieces
/// than would fill the post, and what is then still too many is taken from the largest heap.
void add_stock(const file::ValveSpec& valve, const std::vector<file::SpacerSpec>& in_hand, PostModel& model) {
  auto& stock = model.spacer_case.stock;
  for (const file::SpacerSpec& spec : in_hand) {
    const int fitted = spec.fitted ? spec.fitted.value : written_count(valve, spec.name);
    const int most = static_cast<int>(std::ceil(valve.post->length.si / std::max(spec.thickness.si, 1e-5)));
    const int available = std::max(fitted, std::min(spec.in_hand.value_or(fitted), most));
    stock.push_back({spacer_piece(spec), available, fitted});
    model.stock_faces.push_back({.name = spacer_label(spec),
                                 .role = file::PieceRole::Spacer,
                                 .typed = spec.thickness.text,
                                 .outer_radius = 0.5 * spec.outer_diameter.value_or(0.0)});
  }
  const auto total = [&] {
    int sum = 0;
    for (const auto& line : stock) sum += line.in_hand;
    return sum;
  };
  while (total() > assembly::kMostSpacers) {
    auto largest =
        std::ranges::max_element(stock, {}, [](const auto& line) { return line.in_hand - line.fitted; });
    if (largest->in_hand <= largest->fitted) break;
    --largest->in_hand;
  }
}

void set_post_and_nut(const file::PostSpec& post, const file::NutSpec& nut, PostModel& model) {
  assembly::Post& post_model = model.spacer_case.assembly.post;
  assembly::Nut& nut_model = model.spacer_case.assembly.nut;
  FieldPlaces& places = model.places;
  post_model.thread = post.thread.size;
  places.add("post", post.origin, units::Kind::Length);
  places.bind("post.length", post_model.length, post.length);
  places.bind("post.thread_length", post_model.thread_length, post.thread_length);
  places.bind("post.runout", post_model.runout, post.runout);
  places.bind("post.end_chamfer", post_model.end_chamfer, post.chamfer);
  places.bind("post.tolerance", post_model.tolerance, post.tolerance);
  places.add("nut", nut.origin, units::Kind::Length);
  places.bind("nut.height", nut_model.height, nut.height);
  places.bind("nut.face_chamfer", nut_model.face_chamfer, nut.chamfer);
  // a closed nut has no second face
  if (!nut.blind_depth) nut_model.top_chamfer = nut_model.face_chamfer;
  places.bind("nut.blind_depth", nut_model.blind_depth, nut.blind_depth);
}

std::optional<assembly::Strength> strength_of(const file::Text& strength_class, const file::Quantity& yield,
                                              const file::Quantity& ultimate) {
  if (strength_class) {
    const assembly::NamedStrength* named = assembly::find_strength(strength_class.value);
    if (named != nullptr) return named->strength;
  }
  if (!yield && !ultimate) return std::nullopt;
  // one alone: a ratio of 0.8 between them, as property class 8.8 has (ISO 898-1)
  return assembly::Strength{yield.value_or(0.8 * ultimate.si), ultimate.value_or(yield.si / 0.8)};
}

assembly::ThreadState thread_state(file::OnThread on_thread) {
  switch (on_thread) {
    case file::OnThread::Dry:
      return assembly::ThreadState::Dry;
    case file::OnThread::Oiled:
      return assembly::ThreadState::Oiled;
    case file::OnThread::AntiSeize:
      return assembly::ThreadState::AntiSeize;
    case file::OnThread::Threadlocker:
    case file::OnThread::HighStrengthThreadlocker:
      break;
  }
  return assembly::ThreadState::Threadlocker;
}

std::optional<TorqueModel> resolve_torque(const file::PostSpec& post, const file::NutSpec& nut,
                                          const std::string& name, FieldPlaces& places,
                                          ResolveReport& report) {
  const auto post_strength = strength_of(post.strength_class, post.yield_strength, post.strength);
  const auto nut_strength = strength_of(nut.strength_class, nut.yield_strength, nut.strength);
  const std::string part = "the torque of \"" + name + "\"";
  if (!post_strength)
    report.missing.push_back({part, "the strength of the post", "strength_class", post.origin});
  if (!nut_strength)
    report.missing.push_back({part, "the strength of the nut", "strength_class", nut.origin});
  if (!post_strength || !nut_strength) return std::nullopt;

  TorqueModel model;
  model.state_assumed = !nut.on_the_thread;
  model.on_the_thread = nut.on_the_thread.value_or(model.on_the_thread);
  model.asked = nut.torque;
  model.source = nut.torque_source.value;
  model.measured_factor = nut.nut_factor.value_or(0.0);

  assembly::TorqueCase& torque = model.torque_case;
  const double diameter = post.thread.size.diameter;
  torque.joint.thread = post.thread.size;
  places.add("joint", nut.origin, units::Kind::Length);
  places.bind("joint.bore", torque.joint.bore, post.bore);
  places.bind("joint.neck", torque.joint.neck, post.neck);
  // a nut that states no face: 1.5 diameters wide, as hexagon nuts bear (common practice, no source)
  model.face_assumed = !nut.face_diameter;
  torque.joint.face_outer = nut.width.value_or(1.5 * diameter);
  places.bind("joint.face_outer", torque.joint.face_outer, nut.face_diameter);
  torque.joint.face_inner = 1.05 * diameter;
  torque.post = *post_strength;
  torque.nut = *nut_strength;
  torque.nut_width = nut.width.value_or(0.0);
  torque.state = thread_state(model.on_the_thread);
  return model;
}

bool find_missing(const file::ValveSpec& valve, const std::string& name, ResolveReport& report) {
  const std::size_t before = report.missing.size();
  const std::string part = "the ledger of \"" + name + "\"";
  if (!valve.post) {
    report.missing.push_back({part, "the post", "post", valve.origin});
  } else {
    if (!valve.post->thread)
      report.missing.push_back({part, "the post's thread", "thread", valve.post->origin});
    if (!valve.post->length)
      report.missing.push_back({part, "the post's length", "length", valve.post->origin});
    if (!valve.post->thread_length) {
      report.missing.push_back(
          {part, "the length of the post's thread", "thread_length", valve.post->origin});
    }
  }
  if (!valve.nut) {
    report.missing.push_back({part, "the nut", "nut", valve.origin});
  } else if (!valve.nut->height) {
    report.missing.push_back({part, "the nut's height", "height", valve.nut->origin});
  }
  if (valve.pieces.empty())
    report.missing.push_back({part, "the pieces on the post", "pieces", valve.origin});
  return report.missing.size() > before;
}

}  // namespace

std::string spacer_label(const file::SpacerSpec& spacer) {
  return spacer.name.empty() ? spacer.thickness.text : spacer.name;
}

double pile_height(const file::DirectionSpec& direction, double post_diameter) {
  double height = 0.0;
  for (const file::DiscSpec& disc : direction.stack) {
    const bool ring = disc.bore.value_or(post_diameter) > direction.clamp.value_or(1e9);
    if (!ring) height += disc.count.value_or(1) * disc.thickness.si;
  }
  return height;
}

bool is_check(const file::DirectionSpec& direction) {
  return direction.floating.has_value() && direction.stack.size() == 1 &&
         direction.stack.front().count.value_or(1) == 1;
}

bool has_slide_spring(const file::DirectionSpec& direction) {
  return direction.floating && (direction.floating->spring_force.value_or(0.0) > 0.0 ||
                                direction.floating->spring_rate.value_or(0.0) > 0.0);
}

bool has_slide_spring(const file::ValveSpec& valve, Stroke stroke) {
  const auto& direction = stroke == Stroke::Compression ? valve.compression : valve.rebound;
  if (!direction || !has_slide_spring(*direction)) return false;
  for (std::size_t entry = 0; entry < valve.pieces.size(); ++entry)
    if (slides_with(valve, entry) == stroke) return false;
  return true;
}

std::optional<PostModel> resolve_post(const file::JobSpec& job, const file::ValveSpec& valve,
                                      const std::string& name, ResolveReport& report) {
  if (find_missing(valve, name, report)) return std::nullopt;

  PostModel model;
  model.name = name;
  model.designation = valve.post->thread.text;
  model.origin = valve.post->origin;
  model.nut_origin = valve.nut->torque ? valve.nut->torque.origin : valve.nut->origin;
  set_post_and_nut(*valve.post, *valve.nut, model);
  const std::vector<file::SpacerSpec> in_hand = spacers_in_hand(job, valve);
  add_pieces(valve, in_hand, model);
  add_floats(valve, model);
  add_stock(valve, in_hand, model);
  model.torque = resolve_torque(*valve.post, *valve.nut, name, model.places, report);

  Problems problems = assembly::problems_in(model.spacer_case);
  if (model.torque) {
    assembly::TorqueCase with_engagement = model.torque->torque_case;
    with_engagement.engaged_length = valve.nut->height.si;
    for (Problem& problem : assembly::problems_in(with_engagement)) problems.push_back(std::move(problem));
  }
  if (problems.empty()) return model;
  FieldPlaces places = model.places;
  places.add_all("assembly", model.places);
  report.add_refused(job, problems, places, valve.post->origin);
  return std::nullopt;
}

}  // namespace shimwright::resolve
