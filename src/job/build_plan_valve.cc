#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "job/build_plan_steps.h"

namespace shimwright::job::internal {
namespace {

/// What a good hand can read of a float or a preload with feeler and depth gauge [m]. Common practice, no
/// source.
constexpr double kFeelerReading = 0.05e-3;

/// Error of a good click wrench. ISO 6789 class, from memory.
constexpr double kWrench = 0.04;

const document::StackResult* stack_of(const document::ValveResult& valve, Stroke stroke) {
  for (const document::DirectionResult& direction : valve.directions) {
    if (direction.stroke == stroke && direction.stack) return &*direction.stack;
  }
  return nullptr;
}

bool is_check(const document::ValveResult& valve, Stroke stroke) {
  return std::ranges::any_of(valve.directions, [&](const document::DirectionResult& direction) {
    return direction.stroke == stroke && direction.check;
  });
}

/// The discs in the order they go on: from the seat outwards, or the other way when the stack lies between
/// shoulder and piston.
std::string discs_in_order(const document::StackResult& stack, bool face_first) {
  std::vector<std::string> labels;
  for (const document::DiscGroup& group : stack.geometry.groups) labels.push_back(group.label);
  if (!face_first) std::ranges::reverse(labels);
  std::string words;
  for (const std::string& label : labels) words += (words.empty() ? "" : ", ") + label;
  return words;
}

/// Which way up the part of this line goes on; null when it does not matter.
const document::DirectionNote* note_for(const document::PostResult& post, const document::LedgerLine& line) {
  return line.direction ? &post.directions[static_cast<std::size_t>(*line.direction)] : nullptr;
}

/// A plate that only refills: one disc, its spring behind it.
void add_check_step(PlanDraft& draft, const document::ValveResult& valve, Stroke stroke,
                    const document::StackResult& stack) {
  document::BuildStep& step =
      draft.add(fmt::format("Put on the check plate ({}) with the lapped side on the seat, then its spring.",
                            stack.geometry.discs.front().label),
                "If the check valve does not seal, one stroke has no damping.");
  step.picture = {valve.place, stroke};
  step.hold = length_hold("travel of the check plate", stack.geometry.float_travel, kFeelerReading);
}

void add_stack_step(PlanDraft& draft, const document::ValveResult& valve, const document::LedgerLine& line,
                    bool before_piston) {
  const Stroke stroke =
      line.part == document::LinePart::CompressionStack ? Stroke::Compression : Stroke::Rebound;
  const document::StackResult* stack = stack_of(valve, stroke);
  if (stack == nullptr) return;
  if (is_check(valve, stroke)) return add_check_step(draft, valve, stroke, *stack);
  document::BuildStep& step =
      draft.add(fmt::format("Put on the {} stack in this order: {}. The face shim goes against the piston, "
                            "with its smooth side on the seat.",
                            word(stroke), discs_in_order(*stack, !before_piston)),
                "With a burr or dirt under the face shim the valve leaks at low speed.");
  step.picture = {valve.place, stroke};
  step.hold = length_hold(fmt::format("height of the {} stack, pressed between two fingers", word(stroke)),
                          stack->geometry.height, std::max(line.tolerance, 10e-6));

  draft
      .add(
          "Centre the shims on the post. Each shim must turn freely. No shim may catch on the edge of the "
          "thread.",
          "A shim that is caught stays bent when you tighten the nut.")
      .hold = look_hold("all shims centred and free");

  const document::StackGeometry& geometry = stack->geometry;
  if (geometry.float_travel > 0.0) {
    draft
        .add(
            "Push the stack off its seat with a fingernail: it must slide, and its spring must bring it "
            "back.",
            "A stack that sticks on its collar has no float.")
        .hold = length_hold("float of the stack", geometry.float_travel, kFeelerReading);
  } else if (geometry.seat_height > 0.0) {
    draft
        .add(
            "Press the pile together with two fingers and feel the preload: the last shim closes against the "
            "face shim.",
            "If you feel no preload, a shim is missing or is the wrong way round.")
        .hold = length_hold("gap at the clamp before you press", geometry.seat_height, kFeelerReading);
  } else if (geometry.seat_height < 0.0) {
    draft
        .add("Hold the pile to the light: there must be a gap between face shim and seat all round.",
             "This gap is the bleed.")
        .hold = length_hold("gap at the seat", -geometry.seat_height, kFeelerReading);
  } else {
    draft
        .add("Hold the pile to the light: no light must show under the face shim.",
             "Where light comes through, oil comes through.")
        .hold = look_hold("no light under the face shim");
  }
}

void add_piece_step(PlanDraft& draft, const document::ValveResult& valve, const document::LedgerLine& line) {
  const std::string pieces = line.count > 1 ? fmt::format("{} x {}", line.count, line.name) : line.name;
  document::BuildStep& step =
      draft.add(fmt::format("Slide on: {}{}.", pieces,
                            line.typed.empty() || line.typed == line.name ? "" : " (" + line.typed + ")"));
  step.picture = {valve.place, std::nullopt};
  if (const document::DirectionNote* note = note_for(*valve.post, line)) {
    step.text += fmt::format(" Right way round: {}.", note->words);
    if (!note->if_reversed.empty())
      step.why = document::sentence_case("the wrong way round, " + note->if_reversed + ".");
    step.hold = look_hold(note->how_to_tell.empty() ? note->words : note->how_to_tell);
  }
  if (line.shape == document::PieceShape::Piston || line.measured) {
    step.hold = length_hold("height of the " + line.name, line.height, std::max(line.tolerance, 10e-6));
  }
}

void add_spacer_step(PlanDraft& draft, const document::ValveResult& valve) {
  const document::PostResult& post = *valve.post;
  if (post.spacers.empty()) return;
  std::string words;
  for (const document::SpacerLine& spacer : post.spacers) {
    if (spacer.used == 0) continue;
    words += fmt::format("{}{} x {}", words.empty() ? "" : ", ", spacer.used,
                         draft.phrase.thickness(spacer.thickness));
  }
  document::BuildStep& step =
      draft.add(words.empty() ? "This post has no spacers." : "Spacers: " + words + ".", post.spacer_advice);
  step.picture = {valve.place, std::nullopt};
}

void add_height_step(PlanDraft& draft, const document::ValveResult& valve) {
  const document::ThreadResult& thread = *valve.post->thread;
  document::BuildStep& step = draft.add("Measure from the shoulder to the face on which the nut will sit.",
                                        "This height decides how many turns of the nut are engaged.");
  step.picture = {valve.place, std::nullopt};
  step.hold =
      length_hold("shoulder to the nut's seat", thread.stack_height, std::max(thread.stack_tolerance, 20e-6));
}

void add_nut_steps(PlanDraft& draft, const document::ValveResult& valve) {
  const document::PostResult& post = *valve.post;
  const document::ThreadResult& thread = *post.thread;
  const bool locked = post.torque && document::is_threadlocker(post.torque->on_the_thread);
  document::BuildStep& start = draft.add(
      locked ? fmt::format("Put {} on the clean, dry thread, and turn the nut on by hand. Count the turns.",
                           word(post.torque->on_the_thread))
             : "Turn the nut on by hand. Count the turns.",
      "If the nut goes on by hand, it is not cross-threaded. The number of turns shows that it holds.");
  if (const document::DirectionNote* note = note_for(post, post.ledger.back()))
    start.text += fmt::format(" {}.", document::sentence_case(note->words));
  if (locked) start.caution = "Keep threadlocker off the shims: one drop glues them together.";
  // from the first bite at the end of the post down to the pile; where a turn begins is one turn's doubt
  const double n_turns = (thread.post_length - thread.stack_height) / thread.pitch;
  document::HoldPoint turns;
  turns.what = "turns until the nut touches the pile";
  turns.expected = document::counted_value(n_turns, "turns");
  turns.low = document::counted_value(std::max(0.0, n_turns - 1.0), "turns");
  turns.high = document::counted_value(n_turns + 1.0, "turns");
  start.hold = turns;
  start.picture = {valve.place, std::nullopt};

  if (post.torque && !post.torque->refused) {
    const document::TorqueResult& torque = *post.torque;
    const double aim = torque.asked ? torque.asked->si : std::sqrt(torque.range_low * torque.range_high);
    document::BuildStep& tighten = draft.add(
        fmt::format("Tighten the nut to {}.", draft.phrase.torque_both(aim)),
        torque.estimate ? "An estimate: " + torque.derivation : "Published: " + torque.torque_source + ".");
    tighten.caution =
        "One foot-pound is twelve inch-pounds. Read the unit on the wrench twice before you pull.";
    tighten.torque = torque.asked ? *torque.asked : document::computed(aim, units::Kind::Torque);
    document::HoldPoint hold;
    hold.what = "torque";
    hold.expected = *tighten.torque;
    // a stated torque has the accuracy of the wrench; an estimate has its whole range
    hold.low =
        document::computed(torque.asked ? aim * (1.0 - kWrench) : torque.range_low, units::Kind::Torque);
    hold.high =
        document::computed(torque.asked ? aim * (1.0 + kWrench) : torque.range_high, units::Kind::Torque);
    tighten.hold = hold;
  }
  draft
      .add(thread.protrusion >= 0.0 ? "Measure how far the post sticks out of the nut."
                                    : "Measure how deep the end of the post is inside the nut.",
           "This shows whether the nut went on all the way.")
      .hold = length_hold(thread.protrusion >= 0.0 ? "post beyond the nut" : "post below the nut's face",
                          std::abs(thread.protrusion), std::max(thread.stack_tolerance, 0.1e-3));
  draft
      .add(
          "Check every stack again: the shims are centred and free, and the preload or the float is as "
          "before.",
          "The tight nut shows what you could not feel by hand.")
      .hold = look_hold("unchanged after tightening");
}

}  // namespace

void add_valve_steps(PlanDraft& draft, const document::ValveResult& valve) {
  if (!valve.post) return;
  const document::PostResult& post = *valve.post;
  draft.section = document::sentence_case(word(valve.place));
  const auto piston =
      std::ranges::find(post.ledger, document::PieceShape::Piston, &document::LedgerLine::shape);
  bool spacers_done = false;
  for (auto line = post.ledger.begin(); line != post.ledger.end(); ++line) {
    switch (line->part) {
      case document::LinePart::Piece:
        add_piece_step(draft, valve, *line);
        break;
      case document::LinePart::CompressionStack:
      case document::LinePart::ReboundStack:
        add_stack_step(draft, valve, *line, piston != post.ledger.end() && line < piston);
        break;
      case document::LinePart::Spacers:
        if (!spacers_done) add_spacer_step(draft, valve);
        spacers_done = true;
        break;
      case document::LinePart::Nut:
        break;
    }
  }
  if (!spacers_done) add_spacer_step(draft, valve);
  if (!post.thread) return;
  add_height_step(draft, valve);
  add_nut_steps(draft, valve);
}

}  // namespace shimwright::job::internal
