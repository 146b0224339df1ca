#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "job/build_plan_steps.h"
#include "resolve/resolve_post.h"
#include "units/stack_text.h"

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

const file::DirectionSpec* spec_of(const file::UnitSpec& unit, ValvePlace place, Stroke stroke) {
  const auto& valve = place == ValvePlace::Piston ? unit.piston_valve : unit.foot_valve;
  if (!valve) return nullptr;
  const auto& side = stroke == Stroke::Compression ? valve->compression : valve->rebound;
  return side ? &*side : nullptr;
}

bool has_slide_spring(const file::UnitSpec& unit, ValvePlace place, Stroke stroke) {
  const auto& valve = place == ValvePlace::Piston ? unit.piston_valve : unit.foot_valve;
  return valve && resolve::has_slide_spring(*valve, stroke);
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

/// Side of the piston on which a stack lies.
enum class Side { BeforePiston, BehindPiston };

/// A check of what is on the post, made as soon as all that it needs is there.
struct PendingCheck {
  std::vector<PartRef> needs;
  std::string text;
  std::string why;
  document::HoldPoint hold;
};

/// The work on one valve.
struct ValveWork {
  PlanDraft& draft;
  const document::ValveResult& valve;
  std::vector<PartRef> on_post;
  std::vector<PendingCheck> checks;

  document::BuildStep& add(std::string text, std::string why = {}) {
    return draft.add(std::move(text), std::move(why));
  }
  /// Parts of a step go on the post.
  void put_on(document::BuildStep& step, std::vector<PartRef> parts) {
    on_post.insert(on_post.end(), parts.begin(), parts.end());
    step.parts = std::move(parts);
    step.needs = draft.made_of({UnitState::ThreadsClean, UnitState::PartsClean});
  }
  void make_checks(bool all);
};

void ValveWork::make_checks(bool all) {
  for (auto check = checks.begin(); check != checks.end();) {
    const bool ready = std::ranges::all_of(
        check->needs, [&](const PartRef& part) { return std::ranges::find(on_post, part) != on_post.end(); });
    if (!ready && !all) {
      ++check;
      continue;
    }
    document::BuildStep& step = draft.add(check->text, check->why);
    step.hold = check->hold;
    step.needs_parts = check->needs;
    check = checks.erase(check);
  }
}

std::vector<PartRef> stack_parts(const ValveWork& work, Stroke stroke, const document::StackResult& stack) {
  const ValvePlace place = work.valve.place;
  const file::DirectionSpec* spec = spec_of(work.draft.spec, place, stroke);
  std::vector<PartRef> parts;
  for (std::size_t i = 0; i < stack.geometry.groups.size(); ++i)
    parts.push_back({PartKind::Shims, place, stroke, static_cast<int>(i)});
  if (has_slide_spring(work.draft.spec, place, stroke))
    parts.push_back({PartKind::SlideSpring, place, stroke, 0});
  if (spec != nullptr && spec->back_spring) parts.push_back({PartKind::BackSpring, place, stroke, 0});
  return parts;
}

/// What must be on the post before a stack can be judged: itself, the piston, and for its float the pieces
/// beside it, which are its collar and its stop.
std::vector<PartRef> needed_to_judge(const ValveWork& work, Stroke stroke, const std::vector<PartRef>& own,
                                     bool floats) {
  std::vector<PartRef> needs = own;
  if (!work.valve.post) return needs;
  const auto& ledger = work.valve.post->ledger;
  const auto part =
      stroke == Stroke::Compression ? document::LinePart::CompressionStack : document::LinePart::ReboundStack;
  const auto piece = [&](std::size_t line) {
    if (ledger[line].part == document::LinePart::Piece)
      needs.push_back({PartKind::Piece, work.valve.place, {}, static_cast<int>(line)});
  };
  for (std::size_t i = 0; i < ledger.size(); ++i) {
    if (ledger[i].shape == document::PieceShape::Piston && ledger[i].part == document::LinePart::Piece)
      piece(i);
    if (!floats || ledger[i].part != part) continue;
    if (i > 0 && ledger[i - 1].shape != document::PieceShape::Piston) piece(i - 1);
    if (i + 1 < ledger.size() && ledger[i + 1].shape != document::PieceShape::Piston) piece(i + 1);
  }
  return needs;
}

/// A plate that only refills: one disc, its spring behind it.
void add_check_step(ValveWork& work, Stroke stroke, const document::StackResult& stack, Side side) {
  const std::string& label = stack.geometry.discs.front().label;
  const std::vector<PartRef> parts = stack_parts(work, stroke, stack);
  const bool sprung = has_slide_spring(work.draft.spec, work.valve.place, stroke);
  std::string text;
  if (side == Side::BeforePiston) {
    text = fmt::format("Put on {}the check plate ({}). Its lapped side must face the piston.",
                       sprung ? "the spring of the check plate, then " : "", label);
  } else {
    text = fmt::format("Put on the check plate ({}) with the lapped side on the seat{}.", label,
                       sprung ? ", then its spring" : "");
  }
  document::BuildStep& step =
      work.add(std::move(text), "If the check valve does not seal, one stroke has no damping.");
  step.picture = {work.valve.place, stroke};
  work.put_on(step, parts);
  work.checks.push_back(
      {needed_to_judge(work, stroke, parts, true),
       "Lift the check plate off its seat with a fingernail: it must move freely and come back.",
       "A plate that sticks lets the chamber run empty.",
       length_hold("travel of the check plate", stack.geometry.float_travel, kFeelerReading)});
}

/// How the stack sits on its seat: its float, its preload, its gap or its seal.
PendingCheck seat_check(const document::StackGeometry& geometry) {
  if (geometry.float_travel > 0.0)
    return {
        {},
        "Push the stack off its seat with a fingernail: it must slide, and its spring must bring it back.",
        "A stack that sticks on its collar has no float.",
        length_hold("float of the stack", geometry.float_travel, kFeelerReading)};
  if (geometry.seat_height > 0.0)
    return {{},
            "Press the pile together with two fingers and feel the preload: the last shim closes against the "
            "face "
            "shim.",
            "If you feel no preload, a shim is missing or is the wrong way round.",
            length_hold("gap at the clamp before you press", geometry.seat_height, kFeelerReading)};
  if (geometry.seat_height < 0.0)
    return {{},
            "Hold the pile to the light: there must be a gap between face shim and seat all round.",
            "This gap is the bleed.",
            length_hold("gap at the seat", -geometry.seat_height, kFeelerReading)};
  return {{},
          "Hold the pile to the light: no light must show under the face shim.",
          "Where light comes through, oil comes through.",
          look_hold("no light under the face shim")};
}

/// A stack of which the job does not say enough to bend it: its parts go on all the same.
void add_unsolved_stack_step(ValveWork& work, Stroke stroke, const file::DirectionSpec& spec, Side side) {
  std::vector<PartRef> parts;
  std::vector<std::string> order;
  for (std::size_t i = 0; i < spec.stack.size(); ++i) {
    const file::DiscSpec& entry = spec.stack[i];
    parts.push_back({PartKind::Shims, work.valve.place, stroke, static_cast<int>(i)});
    order.push_back(units::shim_text_plain(entry.count.value_or(1), entry.outer_diameter.si,
                                           entry.thickness.si, work.draft.phrase.system));
  }
  if (has_slide_spring(work.draft.spec, work.valve.place, stroke)) {
    parts.push_back({PartKind::SlideSpring, work.valve.place, stroke, 0});
    order.push_back(resolve::is_check(spec) ? "the spring of the check plate" : "the spring of the float");
  }
  if (spec.back_spring) {
    parts.push_back({PartKind::BackSpring, work.valve.place, stroke, 0});
    order.push_back("the back spring");
  }
  if (side == Side::BeforePiston) std::ranges::reverse(order);
  std::string words;
  for (const std::string& one : order) words += (words.empty() ? "" : ", ") + one;
  document::BuildStep& step =
      work.add(fmt::format("Put on the {} stack in this order: {}. The face shim goes against the piston, "
                           "with its smooth side on the seat.",
                           word(stroke), words),
               "The job does not say enough of this stack to calculate its height.");
  step.picture = {work.valve.place, stroke};
  work.put_on(step, parts);
}

void add_stack_step(ValveWork& work, Stroke stroke, Side side, double tolerance) {
  const document::StackResult* stack = stack_of(work.valve, stroke);
  const file::DirectionSpec* spec = spec_of(work.draft.spec, work.valve.place, stroke);
  if (stack == nullptr) {
    if (spec != nullptr && !spec->stack.empty()) add_unsolved_stack_step(work, stroke, *spec, side);
    return;
  }
  if (is_check(work.valve, stroke)) return add_check_step(work, stroke, *stack, side);
  const std::vector<PartRef> parts = stack_parts(work, stroke, *stack);
  std::vector<std::string> order;
  const bool face_first = side == Side::BehindPiston;
  order.push_back(discs_in_order(*stack, face_first));
  const auto add_spring = [&](const char* name) {
    order.insert(face_first ? order.end() : order.begin(), name);
  };
  if (has_slide_spring(work.draft.spec, work.valve.place, stroke)) add_spring("the spring of the float");
  if (spec != nullptr && spec->back_spring) add_spring("the back spring");
  std::string words;
  for (const std::string& one : order) words += (words.empty() ? "" : ", ") + one;
  document::BuildStep& step = work.add(
      fmt::format("Put on the {} stack in this order: {}. The face shim goes against the piston, with its "
                  "smooth side on the seat.",
                  word(stroke), words),
      "With a burr or dirt under the face shim the valve leaks at low speed.");
  step.picture = {work.valve.place, stroke};
  step.hold = length_hold(fmt::format("height of the {} stack, pressed between two fingers", word(stroke)),
                          stack->geometry.height, std::max(tolerance, 10e-6));
  work.put_on(step, parts);

  document::BuildStep& centre = work.add(
      "Centre the shims on the post. Each shim must turn freely. No shim may catch on the edge of the "
      "thread.",
      "A shim that is caught stays bent when you tighten the nut.");
  centre.hold = look_hold("all shims centred and free");
  centre.needs_parts = parts;

  PendingCheck check = seat_check(stack->geometry);
  check.needs = needed_to_judge(work, stroke, parts, stack->geometry.float_travel > 0.0);
  work.checks.push_back(std::move(check));
}

void add_piece_step(ValveWork& work, const document::LedgerLine& line, int index) {
  const double one = line.height / std::max(line.count, 1);
  const std::string pieces = line.count > 1 ? fmt::format("{} x {}", line.count, line.name) : line.name;
  document::BuildStep& step =
      work.add(one > 0.0 ? fmt::format("Slide on: {}, {}.", pieces, work.draft.phrase.thickness(one))
                         : fmt::format("Slide on: {}.", pieces));
  step.picture = {work.valve.place, std::nullopt};
  work.put_on(step, {{PartKind::Piece, work.valve.place, {}, index}});
  if (const document::DirectionNote* note = note_for(*work.valve.post, line)) {
    step.text += fmt::format(" Right way round: {}.", note->words);
    if (!note->if_reversed.empty())
      step.why = document::sentence_case("the wrong way round, " + note->if_reversed + ".");
    step.hold = look_hold(note->how_to_tell.empty() ? note->words : note->how_to_tell);
  }
  if (line.shape == document::PieceShape::Piston || line.measured) {
    step.hold = length_hold("height of the " + line.name, line.height, std::max(line.tolerance, 10e-6));
  }
}

/// The spacers of one post, all in one step; nothing where none is fitted.
void add_spacer_step(ValveWork& work) {
  const document::PostResult& post = *work.valve.post;
  std::vector<PartRef> parts;
  std::string words;
  for (std::size_t i = 0; i < post.ledger.size(); ++i) {
    const document::LedgerLine& line = post.ledger[i];
    if (line.part != document::LinePart::Spacers) continue;
    parts.push_back({PartKind::Spacers, work.valve.place, {}, static_cast<int>(i)});
    words += fmt::format("{}{} x {}", words.empty() ? "" : ", ", line.count,
                         work.draft.phrase.thickness(line.height / std::max(line.count, 1)));
  }
  if (parts.empty()) return;
  document::BuildStep& step = work.add("Spacers: " + words + ".", post.spacer_advice);
  step.picture = {work.valve.place, std::nullopt};
  work.put_on(step, std::move(parts));
}

void add_height_step(ValveWork& work) {
  const document::ThreadResult& thread = *work.valve.post->thread;
  document::BuildStep& step = work.add("Measure from the shoulder to the face on which the nut will sit.",
                                       "This height decides how many turns of the nut are engaged.");
  step.picture = {work.valve.place, std::nullopt};
  step.needs_parts = work.on_post;
  step.hold =
      length_hold("shoulder to the nut's seat", thread.stack_height, std::max(thread.stack_tolerance, 20e-6));
}

/// What carries the rest of the work: this valve is tight.
UnitState tight_state(ValvePlace place) {
  return place == ValvePlace::Piston ? UnitState::PistonValveTight : UnitState::FootValveTight;
}

void add_nut_on_step(ValveWork& work) {
  const document::PostResult& post = *work.valve.post;
  const document::ThreadResult& thread = *post.thread;
  const bool locked = post.torque && document::is_threadlocker(post.torque->on_the_thread);
  std::string start_words = "Turn the nut on by hand. Count the turns.";
  if (locked)
    start_words =
        fmt::format("Put {} on the clean, dry thread, and turn the nut on by hand. Count the turns.",
                    word(post.torque->on_the_thread));
  document::BuildStep& start = work.add(
      start_words,
      "If the nut goes on by hand, it is not cross-threaded. The number of turns shows that it holds.");
  if (const document::DirectionNote* note = note_for(post, post.ledger.back()))
    start.text += fmt::format(" {}.", document::sentence_case(note->words));
  if (locked) start.caution = "Keep threadlocker off the shims: one drop glues them together.";
  // from the first bite at the end of the post down to the pile; where a turn begins is one turn's doubt
  const double n_turns = std::max(0.0, (thread.post_length - thread.stack_height) / thread.pitch);
  document::HoldPoint turns;
  turns.what = "turns until the nut touches the pile";
  turns.expected = document::counted_value(n_turns, "turns");
  turns.low = document::counted_value(std::max(0.0, n_turns - 1.0), "turns");
  turns.high = document::counted_value(n_turns + 1.0, "turns");
  start.hold = turns;
  start.picture = {work.valve.place, std::nullopt};
  std::vector<PartRef> before = work.on_post;
  work.put_on(start,
              {{PartKind::Nut, work.valve.place, {}, static_cast<int>(work.valve.post->ledger.size()) - 1}});
  start.needs_parts = std::move(before);
}

std::string where_from(const document::TorqueResult& torque) {
  if (!torque.estimate) return "Published: " + torque.torque_source + ".";
  if (!torque.asked)
    return "An estimate: nobody published this torque. Above, under this post, stands how it is calculated.";
  return "The job asks for this torque and names no source. Above, under this post, stands what the program "
         "says "
         "of it.";
}

/// The one torque, and how far the hand may be from it. Nothing where the thread cannot carry it.
void add_torque_step(ValveWork& work) {
  const auto& torque = work.valve.post->torque;
  if (!torque || torque->refused || !torque->to_use) return;
  const double aim = torque->to_use->si;
  document::BuildStep& tighten = work.add(
      fmt::format("Tighten the nut to {}.", work.draft.phrase.torque_both(aim)), where_from(*torque));
  tighten.caution =
      "One foot-pound is twelve inch-pounds. Read the unit on the wrench twice before you pull.";
  tighten.torque = *torque->to_use;
  document::HoldPoint hold;
  hold.what = "torque";
  hold.expected = *tighten.torque;
  hold.low = document::computed(aim * (1.0 - kWrench), units::Kind::Torque);
  hold.high = document::computed(aim * (1.0 + kWrench), units::Kind::Torque);
  tighten.hold = hold;
  tighten.needs_parts = work.on_post;
}

void add_nut_steps(ValveWork& work) {
  const document::ThreadResult& thread = *work.valve.post->thread;
  add_nut_on_step(work);
  add_torque_step(work);
  const bool out = thread.protrusion >= 0.0;
  document::BuildStep& end = work.add(out ? "Measure how far the post sticks out of the nut."
                                          : "Measure how deep the end of the post is inside the nut.",
                                      "This shows whether the nut went on all the way.");
  end.hold = length_hold(out ? "post beyond the nut" : "post below the nut's face",
                         std::abs(thread.protrusion), std::max(thread.stack_tolerance, 0.1e-3));
  end.needs_parts = work.on_post;
  document::BuildStep& again = work.add(
      "Check every stack again: the shims are centred and free, and the preload or the float is as before.",
      "The tight nut shows what you could not feel by hand.");
  again.hold = look_hold("unchanged after tightening");
  again.needs_parts = work.on_post;
  again.makes = {tight_state(work.valve.place)};
}

void add_post_steps(ValveWork& work) {
  const document::PostResult& post = *work.valve.post;
  const auto piston =
      std::ranges::find(post.ledger, document::PieceShape::Piston, &document::LedgerLine::shape);
  bool spacers_done = false;
  for (auto line = post.ledger.begin(); line != post.ledger.end(); ++line) {
    const Side side = piston != post.ledger.end() && line < piston ? Side::BeforePiston : Side::BehindPiston;
    switch (line->part) {
      case document::LinePart::Piece:
        add_piece_step(work, *line, static_cast<int>(line - post.ledger.begin()));
        break;
      case document::LinePart::CompressionStack:
        add_stack_step(work, Stroke::Compression, side, line->tolerance);
        break;
      case document::LinePart::ReboundStack:
        add_stack_step(work, Stroke::Rebound, side, line->tolerance);
        break;
      case document::LinePart::Spacers:
        if (!spacers_done) add_spacer_step(work);
        spacers_done = true;
        break;
      case document::LinePart::Nut:
        break;
    }
    work.make_checks(false);
  }
  work.make_checks(true);
  if (!post.thread) return;
  add_height_step(work);
  add_nut_steps(work);
}

/// A valve of which only the stacks are known: what can be said of it, and whom to ask for the rest.
void add_stack_only_steps(ValveWork& work) {
  for (const Stroke stroke : {Stroke::Compression, Stroke::Rebound})
    add_stack_step(work, stroke, Side::BehindPiston, 0.0);
  if (work.on_post.empty()) return;
  work.make_checks(true);
  document::BuildStep& tight = work.add(
      "Fasten the valve as the maker's manual says, with its torque and what goes on the thread. Check every "
      "stack "
      "again: centred, free and on its seat.",
      "The job does not give the post of this valve: spacers, turns and torque are not calculated.");
  tight.hold = look_hold("valve tight, stacks unchanged");
  tight.needs_parts = work.on_post;
  tight.makes = {tight_state(work.valve.place)};
}

}  // namespace

void add_valve_steps(PlanDraft& draft, const document::ValveResult& valve) {
  draft.section = document::sentence_case(word(valve.place));
  ValveWork work{draft, valve, {}, {}};
  if (valve.post) {
    add_post_steps(work);
  } else {
    add_stack_only_steps(work);
  }
}

}  // namespace shimwright::job::internal
