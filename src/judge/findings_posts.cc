#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "judge/findings_rules.h"

namespace shimwright::judge::internal {
namespace {

/// How well a float is measured with a feeler gauge [m] (common practice, no source).
constexpr double kFloatMeasured = 0.05e-3;

document::Value torque(double si) {
  return document::computed(si, units::Kind::Torque);
}
document::Value turns(double count) {
  return document::counted_value(count, "turns");
}

const file::Origin& post_origin(const JudgedValve& valve) {
  return valve.spec != nullptr && valve.spec->post ? valve.spec->post->origin : valve.unit_spec.origin;
}

const file::Origin& nut_origin(const JudgedValve& valve) {
  if (valve.spec == nullptr || !valve.spec->nut) return valve.unit_spec.origin;
  return valve.spec->nut->torque ? valve.spec->nut->torque.origin : valve.spec->nut->origin;
}

void add_thread_numbers(const document::ThreadResult& thread, document::Finding& finding) {
  finding.numbers.push_back({"turns engaged", turns(thread.engaged_turns)});
  finding.numbers.push_back({"turns of the nut", turns(thread.nut_turns)});
  finding.numbers.push_back({"turns engaged at least", turns(thread.least_turns)});
  finding.numbers.push_back({"height of the pile", length(thread.stack_height)});
  finding.numbers.push_back({"protrusion", length(thread.protrusion)});
}

std::string how_to_fit(const document::PostResult& post, const document::Phrase& phrase) {
  if (!post.spacer_advice.empty()) return post.spacer_advice;
  const document::ThreadResult& thread = *post.thread;
  if (thread.unthreaded_gap < 0.0) {
    return fmt::format("Put {} more under the nut: then it sits on full thread.",
                       phrase.length(-thread.unthreaded_gap));
  }
  return fmt::format("Take {} out of the pile: then all turns of the nut are engaged.",
                     phrase.length(std::max(0.0, (thread.nut_turns - thread.engaged_turns) * thread.pitch)));
}

/// The nut meets the end of the thread, the bottom of its own bore, or no thread at all.
void nut_clamps_nothing(const Judging& judging, const JudgedValve& valve, const document::PostResult& post) {
  for (const document::PostFlag& flag : post.flags) {
    if (!flag.serious || flag.kind == document::PostFault::TooFewTurns) continue;
    document::Finding finding = begin_finding(judging, "F101", flag.sure ? Severity::Stop : Severity::Look,
                                              valve, post_origin(valve));
    finding.title = flag.sure ? document::sentence_case(flag.what) + "."
                              : "With the worst tolerances, " + flag.what + ".";
    add_thread_numbers(*post.thread, finding);
    finding.remedy = how_to_fit(post, judging.phrase);
    judging.findings.push_back(std::move(finding));
  }
}

void nut_on_too_few_turns(const Judging& judging, const JudgedValve& valve,
                          const document::PostResult& post) {
  for (const document::PostFlag& flag : post.flags) {
    if (flag.kind != document::PostFault::TooFewTurns) continue;
    const document::ThreadResult& thread = *post.thread;
    document::Finding finding = begin_finding(judging, "F102", flag.sure ? Severity::Stop : Severity::Look,
                                              valve, post_origin(valve));
    finding.title =
        flag.sure
            ? fmt::format("Only {:.1f} of the {:.1f} turns of the nut are engaged.", thread.engaged_turns,
                          thread.nut_turns)
            : fmt::format("With the worst tolerances only {:.1f} of the {:.1f} turns of the nut are engaged.",
                          thread.least_turns, thread.nut_turns);
    add_thread_numbers(thread, finding);
    finding.remedy = how_to_fit(post, judging.phrase);
    judging.findings.push_back(std::move(finding));
  }
}

void post_end_stands_wrong(const Judging& judging, const JudgedValve& valve,
                           const document::PostResult& post) {
  for (const document::PostFlag& flag : post.flags) {
    if (flag.serious || !flag.sure) continue;
    document::Finding finding = begin_finding(judging, "F103", Severity::Look, valve, post_origin(valve));
    finding.title = document::sentence_case(flag.what) + ".";
    finding.numbers = {{"found", length(flag.value)}, {"limit", length(flag.limit)}};
    finding.remedy = how_to_fit(post, judging.phrase);
    judging.findings.push_back(std::move(finding));
  }
}

void spacers_to_change(const Judging& judging, const JudgedValve& valve, const document::PostResult& post) {
  if (post.spacer_advice.empty()) return;
  // with nothing written, choosing them is the answer and no finding
  const bool any_written = std::ranges::any_of(
      post.spacers, [](const document::SpacerLine& spacer) { return spacer.written > 0; });
  document::Finding finding = begin_finding(judging, "F104", any_written ? Severity::Look : Severity::Note,
                                            valve, post_origin(valve));
  finding.title = any_written ? "Other spacers than those in the job fit this post better."
                              : "The program chose the spacers for this post from those in hand.";
  add_thread_numbers(*post.thread, finding);
  finding.numbers.push_back(
      {"combinations tried", document::counted_value(static_cast<double>(post.choices_examined), "")});
  finding.remedy = post.spacer_advice;
  judging.findings.push_back(std::move(finding));
}

bool any_is(const std::vector<file::PieceSpec>& pieces, file::PieceRole role) {
  return std::ranges::any_of(
      pieces, [&](const file::PieceSpec& piece) { return piece.role && piece.role.value == role; });
}

bool floats(const std::optional<file::DirectionSpec>& direction) {
  return direction && direction->floating && direction->floating->travel.value_or(0.0) > 0.0;
}

/// The collar's length is the float; what the job states must be what is built.
void float_that_is_not_built(const Judging& judging, const JudgedValve& valve,
                             const document::PostResult& post) {
  for (const document::CollarFloat& one : post.floats) {
    const bool pinched = one.left <= one.tolerance;
    if (!pinched && std::abs(one.left - one.stated) <= one.tolerance + kFloatMeasured) continue;
    const file::PieceKind kind =
        one.stack == Stroke::Compression ? file::PieceKind::CompressionStack : file::PieceKind::ReboundStack;
    const file::PieceSpec* collar = file::collar_of(*valve.spec, kind);
    document::Finding finding = begin_finding(judging, "F115", pinched ? Severity::Stop : Severity::Look,
                                              valve, collar != nullptr ? collar->origin : post_origin(valve));
    const std::string stated = judging.phrase.length(one.stated);
    finding.title =
        pinched ? fmt::format("The {} stack is as high as its collar: it cannot float.", word(one.stack))
                : fmt::format("The {} leaves the {} stack a float of {}, not the {} of the job.", one.collar,
                              word(one.stack), judging.phrase.length(one.left), stated);
    finding.numbers = {{"float that is built", length(one.left)},
                       {"stated float", length(one.stated)},
                       {"tolerance", length(one.tolerance)}};
    finding.remedy = fmt::format("Use a collar that is {} {}, or correct the float or the stack.",
                                 judging.phrase.length(std::abs(one.stated - one.left)),
                                 one.stated > one.left ? "longer" : "shorter");
    judging.findings.push_back(std::move(finding));
  }
}

void float_without_collar(const Judging& judging, const JudgedValve& valve) {
  const file::ValveSpec& spec = *valve.spec;
  for (const Stroke stroke : {Stroke::Compression, Stroke::Rebound}) {
    const auto& direction = stroke == Stroke::Compression ? spec.compression : spec.rebound;
    const file::PieceKind kind =
        stroke == Stroke::Compression ? file::PieceKind::CompressionStack : file::PieceKind::ReboundStack;
    if (!floats(direction) || file::collar_of(spec, kind) != nullptr) continue;
    document::Finding finding =
        begin_finding(judging, "F112", Severity::Look, valve, spec.pieces.front().origin);
    finding.title = fmt::format(
        "The {} stack floats, but the piece beside it on the post is no collar. So the float counts in the "
        "height "
        "of the pile.",
        word(stroke));
    finding.numbers.push_back({"float", length(direction->floating->travel.si)});
    finding.remedy = "Say which piece beside the stack it slides on.";
    finding.in_file =
        "Write `role = \"collar\"` for the piece on which the stack slides, and list it beside the stack.";
    judging.findings.push_back(std::move(finding));
  }
}

void post_without_piston(const Judging& judging, const JudgedValve& valve) {
  const std::vector<file::PieceSpec>& pieces = valve.spec->pieces;
  if (any_is(pieces, file::PieceRole::Piston)) return;
  document::Finding finding = begin_finding(judging, "F113", Severity::Look, valve, pieces.front().origin);
  finding.title =
      "No piece on the post is the piston. So the build sheet lists every stack with its face shim first.";
  finding.remedy = "Say which piece is the piston.";
  finding.in_file = "Write `role = \"piston\"` for the piston.";
  judging.findings.push_back(std::move(finding));
}

/// Without a post the sheet knows neither spacers nor torque.
void valve_without_post(const Judging& judging, const JudgedValve& valve) {
  if (valve.spec == nullptr || valve.result.post) return;
  const bool has_stack = std::ranges::any_of(
      valve.result.directions, [](const document::DirectionResult& side) { return side.stack.has_value(); });
  if (!has_stack) return;
  document::Finding finding = begin_finding(judging, "F114", Severity::Look, valve, valve.spec->origin);
  finding.title = fmt::format(
      "The job does not give the post of the {}. So the build sheet has its stacks, but no spacers, no turns "
      "and "
      "no torque.",
      word(valve.result.place));
  finding.remedy =
      "Measure the post, its nut and the pieces on it, or fasten this valve as the maker's manual says.";
  finding.in_file = "Write `post`, `nut` and `pieces`.";
  judging.findings.push_back(std::move(finding));
}

void add_torque_numbers(const document::TorqueResult& result, document::Finding& finding) {
  if (result.asked) finding.numbers.push_back({"stated torque", *result.asked});
  finding.numbers.push_back({"highest safe torque", torque(result.limit)});
  finding.numbers.push_back({"range from", torque(result.range_low)});
  finding.numbers.push_back({"range to", torque(result.range_high)});
  finding.numbers.push_back({"lowest preload", document::computed(result.preload_low, units::Kind::Force)});
  finding.numbers.push_back({"highest preload", document::computed(result.preload_high, units::Kind::Force)});
  finding.numbers.push_back(
      {"stretch margin, lowest friction", document::counted_value(result.stretch_margin, "")});
  finding.numbers.push_back(
      {"stripping margin, lowest friction", document::counted_value(result.strip_margin, "")});
}

std::string asked_words(const document::TorqueResult& result, const document::Phrase& phrase) {
  return phrase.torque_both(result.asked->si);
}

void torque_refused(const Judging& judging, const JudgedValve& valve, const document::TorqueResult& result) {
  if (!result.refused) return;
  const bool slip = result.slip_torque > 0.0;
  document::Finding finding =
      begin_finding(judging, slip ? "F106" : "F105", Severity::Stop, valve, nut_origin(valve));
  add_torque_numbers(result, finding);
  if (slip) {
    finding.title = fmt::format(
        "{} is twelve times what this thread can carry: probably inch-pounds were meant, not foot-pounds.",
        asked_words(result, judging.phrase));
    finding.numbers.push_back({"probably meant", torque(result.slip_torque)});
    finding.remedy =
        fmt::format("Write {}: that leaves {} in reserve.", judging.phrase.torque_both(result.slip_torque),
                    judging.phrase.torque(result.limit - result.slip_torque));
  } else {
    finding.title = fmt::format("{} is more than this thread can carry: {}.",
                                asked_words(result, judging.phrase), result.gives_way);
    finding.remedy = fmt::format("Stay between {} and {}.", judging.phrase.torque_both(result.range_low),
                                 judging.phrase.torque_both(result.range_high));
  }
  judging.findings.push_back(std::move(finding));
}

void torque_too_low(const Judging& judging, const JudgedValve& valve, const document::TorqueResult& result) {
  if (!result.too_low) return;
  const bool slip = result.slip_torque > 0.0;
  document::Finding finding = begin_finding(judging, "F107", Severity::Stop, valve, nut_origin(valve));
  finding.title =
      fmt::format("{} is too little: the pile stays loose{}.", asked_words(result, judging.phrase),
                  slip ? ". Probably foot-pounds were meant, not inch-pounds" : "");
  add_torque_numbers(result, finding);
  finding.remedy = fmt::format("Tighten to between {} and {}: shims that shift lose their preload.",
                               judging.phrase.torque_both(result.range_low),
                               judging.phrase.torque_both(result.range_high));
  judging.findings.push_back(std::move(finding));
}

void torque_tight(const Judging& judging, const JudgedValve& valve, const document::TorqueResult& result) {
  if (!result.tight) return;
  document::Finding finding = begin_finding(judging, "F108", Severity::Look, valve, nut_origin(valve));
  finding.title = fmt::format(
      "{} is right for the usual friction, but too much for the lowest friction of {}.",
      asked_words(result, judging.phrase),
      result.on_the_thread == document::ThreadCoat::Dry ? "a dry thread"
                                                        : "a thread with " + word(result.on_the_thread));
  add_torque_numbers(result, finding);
  finding.remedy = fmt::format("Clean the thread to bare metal and stay between {} and {}.",
                               judging.phrase.torque_both(result.range_low),
                               judging.phrase.torque_both(result.range_high));
  judging.findings.push_back(std::move(finding));
}

void torque_is_estimate(const Judging& judging, const JudgedValve& valve,
                        const document::TorqueResult& result) {
  if (!result.estimate || result.refused || result.too_low) return;
  if (result.range_low > result.range_high) {
    document::Finding finding = begin_finding(judging, "F110", Severity::Stop, valve, nut_origin(valve));
    finding.title = "No torque is both tight enough and safe for this thread.";
    add_torque_numbers(result, finding);
    finding.remedy =
        "Use a post or nut of stronger material, or measure the nut factor: the friction is too uncertain to "
        "leave a safe range.";
    judging.findings.push_back(std::move(finding));
    return;
  }
  const bool outside =
      result.asked && (result.asked->si < result.range_low || result.asked->si > result.range_high);
  document::Finding finding =
      begin_finding(judging, "F109", outside ? Severity::Look : Severity::Note, valve, nut_origin(valve));
  const std::string range = fmt::format("{} to {}", judging.phrase.torque_both(result.range_low),
                                        judging.phrase.torque_both(result.range_high));
  finding.title = result.asked
                      ? fmt::format("The job names no source for the torque of {}. The estimate is {}.",
                                    asked_words(result, judging.phrase), range)
                      : fmt::format("The job states no torque. The estimate is {}.", range);
  add_torque_numbers(result, finding);
  finding.remedy = "If the maker's manual gives a torque for this nut, use that torque.";
  finding.in_file = "Write it as `torque`, and name the manual as `torque_source`.";
  judging.findings.push_back(std::move(finding));
}

void nut_without_threadlocker(const Judging& judging, const JudgedValve& valve,
                              const document::TorqueResult& result) {
  if (document::is_threadlocker(result.on_the_thread)) return;
  document::Finding finding = begin_finding(judging, "F111", Severity::Look, valve, nut_origin(valve));
  finding.title =
      valve.spec != nullptr && valve.spec->nut && valve.spec->nut->on_the_thread
          ? fmt::format("Nothing on the thread keeps the nut tight: {}.", word(result.on_the_thread))
          : "The job does not say what is on the thread. The program assumes a dry thread.";
  finding.remedy = "Use high-strength threadlocker: if the nut comes loose, the whole pile comes loose.";
  finding.in_file = "Write it as `on_the_thread`.";
  judging.findings.push_back(std::move(finding));
}

}  // namespace

void judge_posts(const Judging& judging) {
  for_each_valve(judging, [&](const JudgedValve& valve) {
    valve_without_post(judging, valve);
    if (!valve.result.post || !valve.result.post->thread) return;
    nut_clamps_nothing(judging, valve, *valve.result.post);
    nut_on_too_few_turns(judging, valve, *valve.result.post);
    post_end_stands_wrong(judging, valve, *valve.result.post);
    spacers_to_change(judging, valve, *valve.result.post);
    if (valve.spec == nullptr || valve.spec->pieces.empty()) return;
    float_without_collar(judging, valve);
    float_that_is_not_built(judging, valve, *valve.result.post);
    post_without_piston(judging, valve);
  });
}

void judge_torques(const Judging& judging) {
  for_each_valve(judging, [&](const JudgedValve& valve) {
    if (!valve.result.post || !valve.result.post->torque) return;
    const document::TorqueResult& result = *valve.result.post->torque;
    torque_refused(judging, valve, result);
    torque_too_low(judging, valve, result);
    torque_tight(judging, valve, result);
    torque_is_estimate(judging, valve, result);
    nut_without_threadlocker(judging, valve, result);
  });
}

}  // namespace shimwright::judge::internal
