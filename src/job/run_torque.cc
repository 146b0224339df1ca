#include "job/run_post.h"

#include <fmt/core.h>

#include <algorithm>

#include "job/run_header.h"

namespace shimwright::job {
namespace {

units::Kind step_kind(assembly::StepUnit unit) {
  switch (unit) {
    case assembly::StepUnit::Length:
      return units::Kind::Length;
    case assembly::StepUnit::Area:
      return units::Kind::Area;
    case assembly::StepUnit::Stress:
      return units::Kind::Stress;
    case assembly::StepUnit::Force:
      return units::Kind::Force;
    case assembly::StepUnit::Torque:
      return units::Kind::Torque;
    case assembly::StepUnit::Ratio:
      break;
  }
  return units::Kind::Number;
}

/// A measured nut factor as a change of scale: the torque that would do the same by the friction of the
/// table.
double torque_scale(const resolve::TorqueModel& model) {
  if (!(model.measured_factor > 0.0)) return 1.0;
  const double mu = assembly::friction_of(model.torque_case.state).coefficient.typical;
  return assembly::nut_factor(model.torque_case.joint, {mu, mu}) / model.measured_factor;
}

std::string limit_words(const assembly::TorqueAcceptance& judged) {
  switch (judged.limit) {
    case assembly::TorqueLimit::PostYield:
      return "the post stretches";
    case assembly::TorqueLimit::Stripping:
      return judged.weaker == assembly::Member::Nut ? "the nut's thread strips" : "the post's thread strips";
    case assembly::TorqueLimit::FacePressure:
      break;
  }
  return "the face under the nut is crushed";
}

std::string verdict_words(const document::TorqueResult& result, const assembly::TorqueAcceptance& judged,
                          double scale, const document::Phrase& phrase) {
  const std::string least = phrase.torque_both(judged.least_torque / scale);
  const std::string greatest = phrase.torque_both(judged.greatest_torque / scale);
  switch (judged.verdict) {
    case assembly::TorqueVerdict::TooHigh:
      if (result.slip_torque > 0.0) {
        return fmt::format(
            "Refused: probably inch-pounds were meant, not foot-pounds. {} is right. Above {} {}.",
            phrase.torque_both(result.slip_torque), greatest, result.gives_way);
      }
      return fmt::format("Refused: above {} {}.", greatest, result.gives_way);
    case assembly::TorqueVerdict::TooLow:
      if (result.slip_torque > 0.0) {
        return fmt::format("Too low: probably foot-pounds were meant, not inch-pounds. {} is right.",
                           phrase.torque_both(result.slip_torque));
      }
      return fmt::format("Too low: below {} the pile can come loose.", least);
    case assembly::TorqueVerdict::Holds:
      break;
  }
  if (judged.tight) {
    return fmt::format(
        "It holds with the usual friction, but the lowest friction of this thread is too slippery for it. "
        "With the "
        "usual friction the pile can come loose below {}, and above {} {}.",
        least, greatest, result.gives_way);
  }
  return fmt::format("It holds. Below {} the pile can come loose. Above {} {}.", least, greatest,
                     result.gives_way);
}

void judge_asked(const resolve::TorqueModel& model, const assembly::TorqueCase& torque_case,
                 const document::Phrase& phrase, document::TorqueResult& result) {
  const double scale = torque_scale(model);
  const assembly::TorqueAcceptance judged = assembly::judge_torque(torque_case, model.asked.si * scale);
  result.asked = typed_value(model.asked);
  result.preload_low = judged.preload.low;
  result.preload_high = judged.preload.high;
  result.post_stress = judged.utilisation.high * torque_case.post.yield;
  result.stretch_margin = judged.utilisation.high > 0.0 ? 1.0 / judged.utilisation.high : 0.0;
  result.strip_margin = judged.preload.high > 0.0 ? judged.stripping_force / judged.preload.high : 0.0;
  result.limit = judged.greatest_torque / scale;
  result.gives_way = limit_words(judged);
  result.refused = judged.verdict == assembly::TorqueVerdict::TooHigh;
  result.too_low = judged.verdict == assembly::TorqueVerdict::TooLow;
  result.tight = judged.tight;
  if (judged.slip != assembly::UnitSlip::None) result.slip_torque = judged.slip_torque / scale;
  if (!result.refused) result.to_use = result.asked;
  result.verdict = verdict_words(result, judged, scale, phrase);
}

void derive_range(const resolve::TorqueModel& model, const assembly::TorqueCase& torque_case,
                  const document::Phrase& phrase, document::TorqueResult& result) {
  const double scale = torque_scale(model);
  const assembly::TorqueRange range = assembly::estimated_torque_range(torque_case);
  result.range_low = range.least / scale;
  result.range_high = range.greatest / scale;
  result.derivation = fmt::format(
      "No published torque is known. The target, {}, brings the post to half of its yield with the usual "
      "friction of this thread ({}). At the top of the range a slippery thread brings the post to three "
      "quarters of yield, or the thread to half of its stripping force. At the bottom a rough thread leaves "
      "one fifth of yield (common practice, no source).",
      phrase.torque_both(range.target / scale), word(result.on_the_thread));
  for (const assembly::DerivationStep& step : range.steps) {
    result.derivation_steps.push_back(
        {std::string(step.what), document::computed(step.value, step_kind(step.unit))});
  }
  if (result.asked) return;
  if (range.feasible) result.to_use = document::computed(range.target / scale, units::Kind::Torque);

  // no stated torque: the numbers at the target
  const assembly::TorqueAcceptance judged = assembly::judge_torque(torque_case, range.target);
  result.preload_low = judged.preload.low;
  result.preload_high = judged.preload.high;
  result.post_stress = judged.utilisation.high * torque_case.post.yield;
  result.stretch_margin = judged.utilisation.high > 0.0 ? 1.0 / judged.utilisation.high : 0.0;
  result.strip_margin = judged.preload.high > 0.0 ? judged.stripping_force / judged.preload.high : 0.0;
  result.limit = judged.greatest_torque / scale;
  result.gives_way = limit_words(judged);
  result.verdict = range.feasible ? fmt::format("The job states no torque: {} is an estimate.",
                                                phrase.torque_both(range.target / scale))
                                  : "No torque is both tight enough and safe for this thread.";
}

// the two list the same coats in the same order
static_assert(static_cast<int>(file::OnThread::Dry) == static_cast<int>(document::ThreadCoat::Dry));
static_assert(static_cast<int>(file::OnThread::AntiSeize) ==
              static_cast<int>(document::ThreadCoat::AntiSeize));
static_assert(static_cast<int>(file::OnThread::HighStrengthThreadlocker) ==
              static_cast<int>(document::ThreadCoat::HighStrengthThreadlocker));

}  // namespace

document::TorqueResult torque_result(const resolve::TorqueModel& model, double engaged_length,
                                     const document::Phrase& phrase) {
  assembly::TorqueCase torque_case = model.torque_case;
  torque_case.engaged_length = engaged_length;

  document::TorqueResult result;
  result.on_the_thread = static_cast<document::ThreadCoat>(model.on_the_thread);
  const assembly::Band& mu = assembly::friction_of(torque_case.state).coefficient;
  result.friction_low = mu.low;
  result.friction_high = mu.high;
  result.torque_source = model.source;
  result.estimate = model.source.empty();
  if (model.asked) judge_asked(model, torque_case, phrase, result);
  derive_range(model, torque_case, phrase, result);
  return result;
}

}  // namespace shimwright::job
