#pragma once
#include "job/document_fields.h"

namespace shimwright::job::internal {

/// The second half of the list in document_fields.h: springs, fill, plan, oils, comparison and the whole
/// document.

template <>
struct Fields<SpringPoint> {
  static constexpr auto list =
      std::make_tuple(field("travel", &SpringPoint::travel), field("force", &SpringPoint::force),
                      field("rate", &SpringPoint::rate), field("shares", &SpringPoint::shares));
};

template <>
struct Fields<SpringEffect> {
  static constexpr auto list =
      std::make_tuple(field("what", &SpringEffect::what), field("change", &SpringEffect::change),
                      field("at_sag", &SpringEffect::at_sag), field("at_middle", &SpringEffect::at_middle),
                      field("at_end", &SpringEffect::at_end));
};

template <>
struct Fields<SagResult> {
  static constexpr auto list = std::make_tuple(
      field("name", &SagResult::name), field("load", &SagResult::load), field("travel", &SagResult::travel),
      field("wheel_travel", &SagResult::wheel_travel), field("share", &SagResult::share),
      field("low", &SagResult::low), field("high", &SagResult::high),
      field("usual_target", &SagResult::usual_target), field("topped_out", &SagResult::topped_out),
      field("bottomed", &SagResult::bottomed), field("knob", &SagResult::knob),
      field("change", &SagResult::change), field("outcome", &SagResult::outcome));
};

template <>
struct Fields<SpringResult> {
  static constexpr auto list = std::make_tuple(
      field("names", &SpringResult::names), field("travel", &SpringResult::travel),
      field("points", &SpringResult::points), field("effects", &SpringResult::effects),
      field("sag", &SpringResult::sag), field("air_end_travel", &SpringResult::air_end_travel),
      field("coil_bind_travel", &SpringResult::coil_bind_travel),
      field("positive_pressure", &SpringResult::positive_pressure),
      field("preload_force", &SpringResult::preload_force), field("end_force", &SpringResult::end_force),
      field("outcome", &SpringResult::outcome));
};

template <>
struct Fields<OilPoint> {
  static constexpr auto list =
      std::make_tuple(field("temperature", &OilPoint::temperature),
                      field("kinematic_viscosity", &OilPoint::kinematic_viscosity),
                      field("dynamic_viscosity", &OilPoint::dynamic_viscosity),
                      field("density", &OilPoint::density), field("extrapolated", &OilPoint::extrapolated));
};

template <>
struct Fields<OilResult> {
  static constexpr auto list = std::make_tuple(
      field("name", &OilResult::name), field("used_in", &OilResult::used_in),
      field("working", &OilResult::working), field("table", &OilResult::table),
      field("viscosity_index", &OilResult::viscosity_index), field("bulk_modulus", &OilResult::bulk_modulus),
      field("bulk_pressure", &OilResult::bulk_pressure),
      field("air_release_pressure", &OilResult::air_release_pressure), field("outcome", &OilResult::outcome));
};

template <>
struct Fields<OilSwapForce> {
  static constexpr auto list =
      std::make_tuple(field("stroke", &OilSwapForce::stroke), field("speed", &OilSwapForce::speed),
                      field("before", &OilSwapForce::before), field("after", &OilSwapForce::after));
};

template <>
struct Fields<OilSwapClicks> {
  static constexpr auto list =
      std::make_tuple(field("adjuster", &OilSwapClicks::adjuster), field("change", &OilSwapClicks::change));
};

template <>
struct Fields<OilSwap> {
  static constexpr auto list = std::make_tuple(
      field("unit", &OilSwap::unit), field("from", &OilSwap::from), field("to", &OilSwap::to),
      field("kinematic_ratio", &OilSwap::kinematic_ratio), field("density_ratio", &OilSwap::density_ratio),
      field("same_viscosity_at", &OilSwap::same_viscosity_at), field("forces", &OilSwap::forces),
      field("clicks", &OilSwap::clicks), field("outcome", &OilSwap::outcome));
};

template <>
struct Fields<FillChamber> {
  static constexpr auto list =
      std::make_tuple(field("name", &FillChamber::name), field("stated", &FillChamber::stated),
                      field("volume", &FillChamber::volume), field("growth", &FillChamber::growth),
                      field("purge", &FillChamber::purge));
};

template <>
struct Fields<LikelyCause> {
  static constexpr auto list =
      std::make_tuple(field("cause", &LikelyCause::cause), field("evidence", &LikelyCause::evidence),
                      field("remedy", &LikelyCause::remedy), field("volume", &LikelyCause::volume));
};

template <>
struct Fields<Symptom> {
  static constexpr auto list =
      std::make_tuple(field("seen", &Symptom::seen), field("observed", &Symptom::observed),
                      field("causes", &Symptom::causes));
};

template <>
struct Fields<ReleaseCase> {
  static constexpr auto list = std::make_tuple(
      field("name", &ReleaseCase::name), field("air", &ReleaseCase::air),
      field("seal_friction", &ReleaseCase::seal_friction), field("push_force", &ReleaseCase::push_force),
      field("fully_out", &ReleaseCase::fully_out), field("rest_travel", &ReleaseCase::rest_travel),
      field("time", &ReleaseCase::time), field("half_time", &ReleaseCase::half_time),
      field("top_speed", &ReleaseCase::top_speed), field("reads_as", &ReleaseCase::reads_as),
      field("outcome", &ReleaseCase::outcome));
};

template <>
struct Fields<ReleaseTest> {
  static constexpr auto list = std::make_tuple(
      field("pushed_to", &ReleaseTest::pushed_to), field("moving_mass", &ReleaseTest::moving_mass),
      field("rod_area", &ReleaseTest::rod_area), field("springs_in", &ReleaseTest::springs_in),
      field("balance_travel", &ReleaseTest::balance_travel), field("cases", &ReleaseTest::cases),
      field("words", &ReleaseTest::words), field("outcome", &ReleaseTest::outcome));
};

template <>
struct Fields<FillResult> {
  static constexpr auto list = std::make_tuple(
      field("rod_at", &FillResult::rod_at), field("fill_temperature", &FillResult::fill_temperature),
      field("working_temperature", &FillResult::working_temperature),
      field("chambers", &FillResult::chambers), field("level", &FillResult::level),
      field("spare_capacity", &FillResult::spare_capacity),
      field("capacity_known", &FillResult::capacity_known), field("accepted", &FillResult::accepted),
      field("bleed_stroke_low", &FillResult::bleed_stroke_low),
      field("bleed_stroke_high", &FillResult::bleed_stroke_high),
      field("bleed_time_low", &FillResult::bleed_time_low),
      field("bleed_time_high", &FillResult::bleed_time_high),
      field("purge_accepted", &FillResult::purge_accepted), field("rod_area", &FillResult::rod_area),
      field("short_stop_volume", &FillResult::short_stop_volume), field("symptoms", &FillResult::symptoms),
      field("release", &FillResult::release));
};

template <>
struct Fields<HoldPoint> {
  static constexpr auto list =
      std::make_tuple(field("what", &HoldPoint::what), field("yes_or_no", &HoldPoint::yes_or_no),
                      field("expected", &HoldPoint::expected), field("low", &HoldPoint::low),
                      field("high", &HoldPoint::high));
};

template <>
struct Fields<BuildStep> {
  static constexpr auto list =
      std::make_tuple(field("number", &BuildStep::number), field("section", &BuildStep::section),
                      field("text", &BuildStep::text), field("why", &BuildStep::why),
                      field("caution", &BuildStep::caution), field("hold", &BuildStep::hold),
                      field("torque", &BuildStep::torque), field("picture", &BuildStep::picture));
};

template <>
struct Fields<BuildPlan> {
  static constexpr auto list =
      std::make_tuple(field("unit", &BuildPlan::unit), field("before", &BuildPlan::before),
                      field("steps", &BuildPlan::steps));
};

template <>
struct Fields<PickLine> {
  static constexpr auto list =
      std::make_tuple(field("part", &PickLine::part), field("where", &PickLine::where),
                      field("count", &PickLine::count), field("volume", &PickLine::volume),
                      field("in_hand", &PickLine::in_hand), field("short_by", &PickLine::short_by),
                      field("price", &PickLine::price), field("cost", &PickLine::cost));
};

template <>
struct Fields<PickList> {
  static constexpr auto list =
      std::make_tuple(field("lines", &PickList::lines), field("total", &PickList::total),
                      field("n_without_price", &PickList::n_without_price));
};

template <>
struct Fields<Setting> {
  static constexpr auto list =
      std::make_tuple(field("name", &Setting::name), field("where", &Setting::where),
                      field("value", &Setting::value), field("words", &Setting::words));
};

template <>
struct Fields<ForceChange> {
  static constexpr auto list =
      std::make_tuple(field("stroke", &ForceChange::stroke), field("speed", &ForceChange::speed),
                      field("before", &ForceChange::before), field("after", &ForceChange::after));
};

template <>
struct Fields<FeelAdvice> {
  static constexpr auto list = std::make_tuple(
      field("feel", &FeelAdvice::feel), field("turn", &FeelAdvice::turn), field("why", &FeelAdvice::why),
      field("adjuster", &FeelAdvice::adjuster), field("clicks_change", &FeelAdvice::clicks_change),
      field("effect", &FeelAdvice::effect), field("complaint", &FeelAdvice::complaint));
};

template <>
struct Fields<OtherCondition> {
  static constexpr auto list = std::make_tuple(
      field("condition", &OtherCondition::condition), field("effect", &OtherCondition::effect),
      field("action", &OtherCondition::action), field("numbers", &OtherCondition::numbers));
};

template <>
struct Fields<ClickEffect> {
  static constexpr auto list = std::make_tuple(field("adjuster", &ClickEffect::adjuster),
                                               field("clicks_change", &ClickEffect::clicks_change),
                                               field("effect", &ClickEffect::effect));
};

template <>
struct Fields<SettingsGuide> {
  static constexpr auto list =
      std::make_tuple(field("unit", &SettingsGuide::unit), field("settings", &SettingsGuide::settings),
                      field("advice", &SettingsGuide::advice), field("per_click", &SettingsGuide::per_click),
                      field("other", &SettingsGuide::other));
};

template <>
struct Fields<KeyDifference> {
  static constexpr auto list =
      std::make_tuple(field("path", &KeyDifference::path), field("first", &KeyDifference::first),
                      field("second", &KeyDifference::second));
};

template <>
struct Fields<NumberPair> {
  static constexpr auto list = std::make_tuple(
      field("unit", &NumberPair::unit), field("name", &NumberPair::name), field("kind", &NumberPair::kind),
      field("first", &NumberPair::first), field("second", &NumberPair::second));
};

template <>
struct Fields<Comparison> {
  static constexpr auto list = std::make_tuple(
      field("first_title", &Comparison::first_title), field("second_title", &Comparison::second_title),
      field("keys", &Comparison::keys), field("forces", &Comparison::forces),
      field("margins", &Comparison::margins), field("springs", &Comparison::springs),
      field("oils", &Comparison::oils), field("gone", &Comparison::gone), field("come", &Comparison::come));
};

template <>
struct Fields<FileHash> {
  static constexpr auto list =
      std::make_tuple(field("name", &FileHash::name), field("hash", &FileHash::hash));
};

template <>
struct Fields<Header> {
  static constexpr auto list = std::make_tuple(
      field("program_version", &Header::program_version), field("job_hash", &Header::job_hash),
      field("files", &Header::files), field("title", &Header::title), field("scenario", &Header::scenario),
      field("revision", &Header::revision), field("date", &Header::date), field("theory", &Header::theory),
      field("outcome", &Header::outcome), field("warnings", &Header::warnings));
};

template <>
struct Fields<RiderSummary> {
  static constexpr auto list =
      std::make_tuple(field("name", &RiderSummary::name), field("mass", &RiderSummary::mass),
                      field("pace", &RiderSummary::pace), field("terrain", &RiderSummary::terrain),
                      field("complaints", &RiderSummary::complaints));
};

template <>
struct Fields<MachineSummary> {
  static constexpr auto list =
      std::make_tuple(field("name", &MachineSummary::name), field("values", &MachineSummary::values));
};

template <>
struct Fields<ConditionSummary> {
  static constexpr auto list =
      std::make_tuple(field("oil_temperature", &ConditionSummary::oil_temperature),
                      field("fill_temperature", &ConditionSummary::fill_temperature),
                      field("air_temperature", &ConditionSummary::air_temperature),
                      field("altitude", &ConditionSummary::altitude),
                      field("ambient_pressure", &ConditionSummary::ambient_pressure));
};

template <>
struct Fields<UnitResult> {
  static constexpr auto list = std::make_tuple(
      field("name", &UnitResult::name), field("kind", &UnitResult::kind),
      field("layout", &UnitResult::layout), field("count", &UnitResult::count),
      field("travel", &UnitResult::travel), field("piston_radius", &UnitResult::piston_radius),
      field("rod_radius", &UnitResult::rod_radius), field("oil", &UnitResult::oil),
      field("valves", &UnitResult::valves), field("force", &UnitResult::force),
      field("springs", &UnitResult::springs), field("fill", &UnitResult::fill),
      field("plan", &UnitResult::plan), field("settings", &UnitResult::settings));
};

template <>
struct Fields<ResultDocument> {
  static constexpr auto list = std::make_tuple(
      field("header", &ResultDocument::header), field("rider", &ResultDocument::rider),
      field("machine", &ResultDocument::machine), field("conditions", &ResultDocument::conditions),
      field("findings", &ResultDocument::findings), field("units", &ResultDocument::units),
      field("stack", &ResultDocument::stack), field("oils", &ResultDocument::oils),
      field("oil_swaps", &ResultDocument::oil_swaps), field("pick_list", &ResultDocument::pick_list));
};

}  // namespace shimwright::job::internal
