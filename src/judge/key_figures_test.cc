#include "judge/key_figures.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

namespace shimwright::judge {
namespace {

using document::KeyFigure;

document::Finding finding(const char* code, Severity severity, const char* title, const char* valve = "",
                          const char* stroke = "") {
  document::Finding one;
  one.code = code;
  one.severity = severity;
  one.title = title;
  one.place.unit = "leg";
  one.place.valve = valve;
  one.place.stroke = stroke;
  return one;
}

document::ValveResult valve(ValvePlace place, double fatigue_margin, double engaged_turns) {
  document::ValveResult one;
  one.place = place;
  document::DirectionResult& direction = one.directions.emplace_back();
  direction.stroke = Stroke::Compression;
  direction.stack.emplace().fatigue_margin = fatigue_margin;
  direction.stack->worst_disc = 2;
  one.post.emplace().thread.emplace().engaged_turns = engaged_turns;
  one.post->thread->nut_turns = 7;
  return one;
}

/// A leg whose foot valve is worse than its piston valve in all.
document::ResultDocument leg(std::vector<document::Finding> findings = {}) {
  document::ResultDocument document;
  document.findings = std::move(findings);
  document::UnitResult& unit = document.units.emplace_back();
  unit.name = "leg";
  unit.valves = {valve(ValvePlace::Piston, 1.8, 7), valve(ValvePlace::Foot, 1.2, 6.5)};
  document::ForceResult& force = unit.force.emplace();
  force.key_forces = {{0.5, 100, 200, false, true}};
  document::CavitationResult& cavitation = force.cavitation.emplace_back();
  cavitation.stroke = Stroke::Compression;
  cavitation.chamber = "rod chamber";
  cavitation.margin_at_working_speed = 5e5;
  return document;
}

KeyFigure margin(document::ResultDocument document, const std::string& key) {
  add_key_figures(document);
  const auto& figures = document.units.empty() ? document.key_figures : document.units[0].key_figures;
  const auto found = std::ranges::find(figures->margins, key, &KeyFigure::key);
  return found == figures->margins.end() ? KeyFigure{} : *found;
}

TEST(KeyFigures, AreTheWorstOfAllPlacesWithThePlaceSaid) {
  const KeyFigure shim = margin(leg(), "worst shim");
  EXPECT_EQ(shim.value.si, 1.2);
  EXPECT_EQ(shim.label, "Worst shim, margin to fatigue");
  EXPECT_EQ(shim.where, "foot valve, compression, shim 2");
  EXPECT_EQ(shim.pointer, "/units/0/valves/1/directions/0/stack/fatigue_margin");
  EXPECT_EQ(shim.verdict, Severity::Note);
  EXPECT_EQ(shim.reason, "");
  const KeyFigure thread = margin(leg(), "engaged thread");
  EXPECT_EQ(thread.value.si, 6.5);
  EXPECT_EQ(thread.where, "foot valve, of 7.00");
}

TEST(KeyFigures, TakeTheirVerdictAndReasonFromTheGravestFinding) {
  const auto judged =
      leg({finding("F302", Severity::Stop, "It breaks."), finding("F303", Severity::Look, "It is near."),
           finding("F203", Severity::Look, "Little is left.", "", "compression")});
  EXPECT_EQ(margin(judged, "worst shim").verdict, Severity::Stop);
  EXPECT_EQ(margin(judged, "worst shim").reason, "It breaks.");
  EXPECT_EQ(margin(judged, "cavitation compression").verdict, Severity::Look);
  EXPECT_EQ(margin(judged, "cavitation compression").reason, "Little is left.");
}

TEST(KeyFigures, AreNotJudgedByFindingsOnAnotherStrokeValveOrUnit) {
  auto other = finding("F302", Severity::Stop, "Another leg breaks.");
  other.place.unit = "other leg";
  const auto judged = leg({other, finding("F203", Severity::Look, "Rebound.", "", "rebound"),
                           finding("F102", Severity::Stop, "Few turns.", "piston valve")});
  EXPECT_EQ(margin(judged, "worst shim").verdict, Severity::Note);
  EXPECT_EQ(margin(judged, "cavitation compression").verdict, Severity::Note);
  EXPECT_EQ(margin(judged, "engaged thread").verdict, Severity::Note);
}

TEST(KeyFigures, OfForcesSayWhichAreLostToCavitation) {
  auto document = leg({finding("F202", Severity::Stop, "The chamber runs dry.")});
  add_key_figures(document);
  const document::KeyForceFigures& row = document.units[0].key_figures->forces.at(0);
  EXPECT_EQ(row.speed, 0.5);
  EXPECT_EQ(row.compression.value.si, 100);
  EXPECT_EQ(row.compression.verdict, Severity::Note);
  EXPECT_EQ(row.rebound.verdict, Severity::Stop);
  EXPECT_EQ(row.rebound.where, "cavitation");
  EXPECT_EQ(row.rebound.reason, "The chamber runs dry.");
  EXPECT_EQ(row.rebound.pointer, "/units/0/force/key_forces/0/rebound");
}

TEST(KeyFigures, OfALoneStackAreItsLiftsAndItsStressWhereNoStrengthIsStated) {
  document::ResultDocument document;
  document::StackResult& stack = document.stack.emplace();
  for (const double lift : {0.9e-10, 1.1e-10, 1e-5}) {
    document::StackPoint& point = stack.points.emplace_back();
    point.pressure = 2e5;
    point.lift_at_seat = lift;
    point.highest_stress = 3e8;
    point.worst_disc = 3;
  }
  EXPECT_EQ(margin(document, "lift 0").value.si, 0);
  EXPECT_EQ(margin(document, "lift 1").value.si, 1.1e-10);
  EXPECT_EQ(margin(document, "lift 2").value.si, 1e-5);
  EXPECT_EQ(margin(document, "lift 2").pressure, 2e5);
  const KeyFigure shim = margin(document, "worst shim");
  EXPECT_EQ(shim.value.kind, units::Kind::Stress);
  EXPECT_EQ(shim.value.si, 3e8);
  EXPECT_EQ(shim.where, "shim 3");
  EXPECT_EQ(shim.pressure, 2e5);
  EXPECT_EQ(shim.pointer, "/stack/points/2/highest_stress");
}

TEST(KeyFigures, TellAMarginBeforeAStressWhereOneStackHasNoStrength) {
  auto document = leg();
  document::StackResult& without = *document.units[0].valves[0].directions[0].stack;
  without.fatigue_margin.reset();
  without.points.emplace_back().highest_stress = 9e9;
  EXPECT_EQ(margin(document, "worst shim").where, "foot valve, compression, shim 2");
}

}  // namespace
}  // namespace shimwright::judge
