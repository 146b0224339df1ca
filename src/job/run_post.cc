#include "job/run_post.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace shimwright::job {
namespace {

std::string flag_words(assembly::FlagKind kind) {
  switch (kind) {
    case assembly::FlagKind::RunsOntoShank:
      return "the nut stops at the end of the thread before it touches the pile: it clamps nothing";
    case assembly::FlagKind::EndBottoms:
      return "the end of the post hits the bottom of the closed nut: the nut clamps nothing";
    case assembly::FlagKind::NoThreadReached:
      return "the pile is so high that the nut reaches no full thread";
    case assembly::FlagKind::TooLittleEngaged:
      return "not all turns of the nut are engaged";
    case assembly::FlagKind::EndTooDeep:
      return "the end of the post is too deep inside the nut";
    case assembly::FlagKind::EndTooProud:
      break;
  }
  return "the end of the post sticks out too far";
}

document::PostFault fault_of(assembly::FlagKind kind) {
  switch (kind) {
    case assembly::FlagKind::RunsOntoShank:
    case assembly::FlagKind::EndBottoms:
    case assembly::FlagKind::NoThreadReached:
      return document::PostFault::ClampsNothing;
    case assembly::FlagKind::TooLittleEngaged:
      return document::PostFault::TooFewTurns;
    case assembly::FlagKind::EndTooDeep:
      return document::PostFault::EndTooDeep;
    case assembly::FlagKind::EndTooProud:
      break;
  }
  return document::PostFault::EndTooProud;
}

document::PieceShape shape_of(file::PieceRole role) {
  switch (role) {
    case file::PieceRole::Piston:
      return document::PieceShape::Piston;
    case file::PieceRole::Spacer:
      return document::PieceShape::Spacer;
    case file::PieceRole::Washer:
    case file::PieceRole::DishedWasher:
      return document::PieceShape::Washer;
    case file::PieceRole::ClampShim:
    case file::PieceRole::DiscSpring:
      return document::PieceShape::Disc;
    case file::PieceRole::Collar:
    case file::PieceRole::CheckPlate:
    case file::PieceRole::Other:
      break;
  }
  return document::PieceShape::Other;
}

document::LinePart part_of(const resolve::PieceFace& face) {
  if (!face.stack) return document::LinePart::Piece;
  return *face.stack == Stroke::Compression ? document::LinePart::CompressionStack
                                            : document::LinePart::ReboundStack;
}

document::LedgerLine ledger_line(const resolve::PieceFace& face, const assembly::Piece& piece, int count,
                                 double& at) {
  document::LedgerLine line;
  line.name = face.name;
  line.part = part_of(face);
  line.shape = face.stack ? document::PieceShape::Disc : shape_of(face.role);
  line.count = count;
  line.measured = piece.measured.has_value();
  const double one = piece.measured.value_or(piece.thickness);
  line.height = piece.adds_height ? count * one : 0.0;
  line.tolerance = count * (line.measured ? piece.measured_tolerance : piece.tolerance);
  line.typed = face.typed;
  line.outer_radius = face.outer_radius;
  line.from = at;
  at += line.height;
  line.to = at;
  return line;
}

/// Pieces in their order with the chosen spacers in their place, the nut on top.
std::vector<document::LedgerLine> ledger_lines(const resolve::PostModel& model,
                                               const std::vector<int>& spacer_counts) {
  const assembly::PostAssembly& assembly = model.spacer_case.assembly;
  std::vector<document::LedgerLine> lines;
  double at = 0.0;
  const auto add_spacers = [&] {
    for (std::size_t i = 0; i < spacer_counts.size(); ++i) {
      if (spacer_counts[i] == 0) continue;
      lines.push_back(
          ledger_line(model.stock_faces[i], model.spacer_case.stock[i].piece, spacer_counts[i], at));
      lines.back().part = document::LinePart::Spacers;
    }
  };
  for (std::size_t i = 0; i < assembly.pieces.size(); ++i) {
    if (i == model.spacers_before) add_spacers();
    lines.push_back(ledger_line(model.faces[i], assembly.pieces[i], assembly.pieces[i].count, at));
  }
  if (model.spacers_before >= assembly.pieces.size()) add_spacers();

  document::LedgerLine nut;
  nut.name = "nut";
  nut.part = document::LinePart::Nut;
  nut.shape = document::PieceShape::Nut;
  nut.height = assembly.nut.height;
  nut.from = at;
  nut.to = at + nut.height;
  if (model.torque) nut.outer_radius = 0.5 * model.torque->torque_case.joint.face_outer;
  lines.push_back(nut);
  return lines;
}

document::ThreadResult thread_result(const resolve::PostModel& model, const assembly::Ledger& ledger) {
  const assembly::PostAssembly& assembly = model.spacer_case.assembly;
  const assembly::Post& post = assembly.post;
  document::ThreadResult result;
  result.designation = model.designation;
  result.pitch = post.thread.pitch;
  result.post_length = post.length;
  result.thread_start = post.length - post.thread_length + post.runout;
  result.stack_height = ledger.height.nominal;
  result.stack_tolerance = ledger.height.worst;
  result.nut_height = assembly.nut.height;
  result.engaged_turns = ledger.engaged_pitches.nominal;
  result.least_turns = ledger.engaged_pitches.low;
  result.nut_turns =
      (assembly.nut.height - assembly.nut.face_chamfer - assembly.nut.top_chamfer) / post.thread.pitch;
  result.protrusion = ledger.protrusion.nominal;
  result.unthreaded_gap = ledger.height.nominal - result.thread_start;
  return result;
}

void add_flags(const assembly::Ledger& ledger, document::PostResult& result) {
  for (const assembly::LedgerFlag& flag : ledger.flags) {
    const document::PostFault fault = fault_of(flag.kind);
    const bool serious =
        fault == document::PostFault::ClampsNothing || fault == document::PostFault::TooFewTurns;
    result.flags.push_back({fault, flag_words(flag.kind), flag.likelihood == assembly::Likelihood::Sure,
                            serious, flag.value, flag.limit});
  }
}

/// "two 0.3 mm spacers and one 0.5 mm spacer"
std::string spacers_in_words(const std::vector<std::pair<int, double>>& spacers,
                             const document::Phrase& phrase) {
  std::string words;
  for (std::size_t i = 0; i < spacers.size(); ++i) {
    if (i > 0) words += i + 1 == spacers.size() ? " and " : ", ";
    words += fmt::format("{} {} {}", document::count_word(spacers[i].first),
                         phrase.thickness(spacers[i].second), spacers[i].first == 1 ? "spacer" : "spacers");
  }
  return words;
}

std::string turns_words(const document::ThreadResult& thread) {
  const double turns = thread.engaged_turns;
  if (turns >= thread.nut_turns - 0.05) {
    return fmt::format("then all {:.1f} turns of the nut are engaged", thread.nut_turns);
  }
  return fmt::format("then {:.1f} of the {:.1f} turns of the nut are engaged", turns, thread.nut_turns);
}

/// What to add and what to leave out against what is written; empty when as written is right.
std::string advice_words(const resolve::PostModel& model, const assembly::SpacerAdvice& advice,
                         const document::ThreadResult& thread, const document::Phrase& phrase) {
  std::vector<std::pair<int, double>> out;
  std::vector<std::pair<int, double>> in;
  for (std::size_t i = 0; i < advice.best.counts.size(); ++i) {
    const assembly::SpacerStock& stock = model.spacer_case.stock[i];
    const double thickness = stock.piece.measured.value_or(stock.piece.thickness);
    const int change = advice.best.counts[i] - stock.fitted;
    if (change < 0) out.push_back({-change, thickness});
    if (change > 0) in.push_back({change, thickness});
  }
  std::string words;
  if (!out.empty()) words = "leave out " + spacers_in_words(out, phrase);
  if (!in.empty()) words += (words.empty() ? "put on " : ", put on ") + spacers_in_words(in, phrase);
  if (!words.empty()) words = document::sentence_case(words) + ": " + turns_words(thread) + ".";
  if (!advice.fits && advice.missing_greatest > 0.0) {
    if (!words.empty()) words += " ";
    words += fmt::format("Even then {} to {} are missing below the nut: no spacer in hand fills this gap.",
                         phrase.length(advice.missing_least), phrase.length(advice.missing_greatest));
  } else if (!advice.fits) {
    if (!words.empty()) words += " ";
    words += "Even then the pile is too high for this post: use a thinner washer or fewer shims.";
  }
  return words;
}

void add_spacers(const resolve::PostModel& model, const assembly::SpacerAdvice& advice,
                 document::PostResult& result, const document::Phrase& phrase) {
  for (std::size_t i = 0; i < advice.best.counts.size(); ++i) {
    const assembly::SpacerStock& stock = model.spacer_case.stock[i];
    result.spacers.push_back({model.stock_faces[i].name, stock.piece.measured.value_or(stock.piece.thickness),
                              stock.in_hand, advice.best.counts[i], stock.fitted});
  }
  result.fits = advice.fits;
  result.fits_always = advice.fits_always;
  result.missing_least = advice.missing_least;
  result.missing_greatest = advice.missing_greatest;
  result.choices_examined = advice.n_searched;
  result.spacer_advice = advice_words(model, advice, *result.thread, phrase);
}

}  // namespace

document::PostResult post_result(const resolve::PostModel& model, const document::Phrase& phrase) {
  const assembly::PostAssembly& assembly = model.spacer_case.assembly;
  document::PostResult result;
  result.name = model.name;
  result.major_radius = 0.5 * assembly.post.thread.diameter;
  if (model.torque) result.bore_radius = 0.5 * model.torque->torque_case.joint.bore;

  assembly::Ledger ledger;
  if (model.spacer_case.stock.empty()) {
    ledger = assembly::ledger(assembly);
    result.thread = thread_result(model, ledger);
    result.ledger = ledger_lines(model, {});
    result.fits = std::ranges::none_of(
        ledger.flags, [](const auto& flag) { return flag.likelihood == assembly::Likelihood::Sure; });
    result.fits_always = ledger.flags.empty();
  } else {
    const assembly::SpacerAdvice advice = assembly::choose_spacers(model.spacer_case);
    ledger = advice.ledger;
    result.thread = thread_result(model, ledger);
    result.ledger = ledger_lines(model, advice.best.counts);
    add_spacers(model, advice, result, phrase);
  }
  add_flags(ledger, result);
  for (const resolve::FloatModel& one : model.floats)
    result.floats.push_back({one.stack, one.collar, one.stated, one.left.gap, one.left.worst});
  if (model.torque && ledger.engaged.nominal > 0.0 && ledger.clamp_gap <= 0.0) {
    result.torque = torque_result(*model.torque, ledger.engaged.nominal, phrase);
  }
  return result;
}

}  // namespace shimwright::job
