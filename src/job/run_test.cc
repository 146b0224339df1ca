#include "job/run.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <thread>
#include <vector>

#include "document/document_json.h"
#include "job/test_jobs.h"

namespace shimwright::job {
namespace {

using testing_jobs::changed;
using testing_jobs::job_text;
using testing_jobs::n_of;
using testing_jobs::read;
using testing_jobs::refused;
using testing_jobs::run;

TEST(Run, AWholeForkGivesEveryPart) {
  const document::ResultDocument document = run(job_text("fork"));
  ASSERT_EQ(document.units.size(), 1u);
  const document::UnitResult& leg = document.units[0];
  EXPECT_EQ(leg.name, "fork leg");
  EXPECT_EQ(leg.count, 2);
  ASSERT_EQ(leg.valves.size(), 2u);
  for (const document::ValveResult& valve : leg.valves) {
    ASSERT_EQ(valve.directions.size(), 2u);
    EXPECT_TRUE(valve.directions[0].stack.has_value());
    EXPECT_TRUE(valve.directions[1].stack.has_value());
    EXPECT_TRUE(valve.post.has_value());
  }
  EXPECT_TRUE(leg.force && leg.springs && leg.fill && leg.plan && leg.settings);
  EXPECT_EQ(document.oils.size(), 1u);
  EXPECT_FALSE(document.pick_list.lines.empty());
  EXPECT_EQ(document.header.outcome.status, Status::Converged) << document.header.outcome.note;
  EXPECT_THAT(document.header.warnings, testing::IsEmpty());
}

TEST(Run, EveryNumberOfTheDocumentIsOne) {
  for (const char* name : {"fork", "shock", "lone-stack"}) {
    EXPECT_THAT(document::non_finite_paths(run(job_text(name))), testing::IsEmpty()) << name;
  }
}

TEST(Run, ARealDocumentSurvivesTheRoundTripThroughJson) {
  const std::string text = document::to_json(run(job_text("fork")));
  const auto back = document::from_json(text);
  ASSERT_TRUE(back.has_value()) << back.error().path << " " << back.error().what;
  EXPECT_EQ(document::to_json(*back), text);
}

TEST(Run, TheSameJobGivesTheSameBits) {
  EXPECT_EQ(document::to_json(run(job_text("fork"))), document::to_json(run(job_text("fork"))));
}

TEST(Run, TheForceRisesWithSpeedAndTheClicksSpreadIt) {
  const document::ResultDocument document = run(job_text("fork"));
  const document::ForceResult& force = *document.units[0].force;
  for (const document::ForceCurve& curve : force.curves) {
    for (std::size_t i = 1; i < curve.points.size(); ++i) {
      // a valve never passes less for more drop; once a chamber has run short the force may fall off the
      // curve
      if (curve.points[i].cavitated) break;
      EXPECT_GE(curve.points[i].force, curve.points[i - 1].force);
    }
  }
  ASSERT_EQ(force.families.size(), 2u);
  for (const document::ClickFamily& family : force.families) {
    for (std::size_t k = 1; k < family.members.size(); ++k) {
      for (std::size_t i = 0; i < family.speed.size(); ++i) {
        if (family.members[k].cavitated[i] || family.members[k - 1].cavitated[i]) continue;
        // further out is never firmer; 1e-6 is what the law's table may be off by
        EXPECT_LE(family.members[k].force[i], family.members[k - 1].force[i] * (1.0 + 1e-6));
      }
    }
  }
}

TEST(Run, ThePresentMemberOfAFamilyIsTheCurve) {
  const document::ResultDocument document = run(job_text("fork"));
  const document::ForceResult& force = *document.units[0].force;
  for (const document::ClickFamily& family : force.families) {
    const document::ForceCurve& curve = force.curves[family.stroke == Stroke::Compression ? 0 : 1];
    int n_present = 0;
    for (const document::FamilyMember& member : family.members) {
      if (!member.present) continue;
      ++n_present;
      for (std::size_t i = 0; i < family.speed.size(); ++i)
        EXPECT_DOUBLE_EQ(member.force[i], curve.points[i].force);
    }
    EXPECT_EQ(n_present, 1);
  }
}

TEST(Run, ClicksOfTheOptionsTakeThePlaceOfTheJobs) {
  RunOptions options;
  options.sections = {.force = true};
  options.clicks = {{"rebound needle", 2}};
  const document::ResultDocument firm = run(job_text("fork"), options);
  const document::ResultDocument written =
      run(changed(job_text("fork"), "clicks     = 10", "clicks     = 2 "), {.sections = {.force = true}});
  EXPECT_DOUBLE_EQ(firm.units[0].force->key_forces[0].rebound, written.units[0].force->key_forces[0].rebound);
}

TEST(Run, AForceDoesNotChangeWithTheSpeedsAskedBesideIt) {
  RunOptions options;
  options.sections = {.force = true};
  const auto forces = [&](std::vector<double> speeds) {
    options.speeds = std::move(speeds);
    const document::ForceResult force = *run(job_text("fork"), options).units[0].force;
    std::vector<double> all = {force.cavitation[0].margin_at_working_speed,
                               force.cavitation[0].margin_at_top_speed};
    for (const document::ForceCurve& curve : force.curves) all.push_back(curve.points[0].force);
    for (const document::KeyForce& key : force.key_forces)
      all.insert(all.end(), {key.compression, key.rebound});
    return all;
  };
  const std::vector<double> alone = forces({0.05});
  for (const double beside : {0.06, 1.0, 5.0, 11.0}) {
    const std::vector<double> together = forces({0.05, beside});
    for (std::size_t i = 0; i < alone.size(); ++i)
      EXPECT_NEAR(together[i], alone[i], 1e-7 * std::abs(alone[i])) << i << ' ' << beside;  // the law's table
  }
}

TEST(Run, AShortHoleIsNearlyOneWithoutLength) {
  // the law of a tube ends below half a diameter; a hole of a twentieth of a millimetre is a sharp edge
  const auto force = [](const std::string& length) {
    const std::string text = changed(job_text("fork"), "port_length = \"6 mm\"", length);
    return run(text, {.sections = {.force = true}}).units[0].force->key_forces[3].compression;
  };
  const double sharp = force("");
  EXPECT_NEAR(force("port_length = \"0.1 mm\""), sharp, 0.01 * sharp);  // L / D is a fiftieth
  EXPECT_GT(std::abs(force("port_length = \"14 mm\"") - sharp), 0.001 * sharp);
}

TEST(Run, AnUnknownAdjusterIsAFaultWithTheNearestName) {
  RunOptions options;
  options.clicks = {{"rebound neeedle", 2}};
  const Diagnostics diagnostics = refused(job_text("fork"), options);
  ASSERT_EQ(diagnostics.size(), 1u);
  EXPECT_EQ(diagnostics[0].code, "E0904");
  EXPECT_THAT(diagnostics[0].remedy, testing::HasSubstr("\"rebound needle\""));
  const std::string with_unit = name_in_unit("fork leg", "rebound needle");
  options.clicks = {{name_in_unit("fork leg", "rebound neeedle"), 2}};
  EXPECT_THAT(refused(job_text("fork"), options).at(0).remedy, testing::HasSubstr(with_unit));
}

TEST(Run, AVerbIsToldWhatIsMissingForItsPart) {
  RunOptions options;
  options.sections = {.force = true};
  options.must_have = true;
  const Diagnostics diagnostics = refused(changed(job_text("fork"), "rod    = \"12 mm\"\n", ""), options);
  ASSERT_FALSE(diagnostics.empty());
  EXPECT_EQ(diagnostics[0].code, "E0902");
  EXPECT_GT(diagnostics[0].line, 0);
  EXPECT_THAT(diagnostics[0].what, testing::HasSubstr("diameter of the rod"));
}

// the curve of a spring needs no linkage: only the sag is left out, and the document says so
TEST(Run, AShockWithoutItsLinkageStillHasItsSpringCurve) {
  std::string text = job_text("shock");
  const auto from = text.find("[unit.linkage]");
  ASSERT_NE(from, std::string::npos);
  text.erase(from, text.find("\n[", from + 1) - from);
  text = changed(text, "rear_sag          = { static = \"25 to 45 mm\", rider = \"90 to 110 mm\" }\n", "");
  RunOptions options;
  options.sections = {.springs = true};
  options.must_have = true;
  const document::ResultDocument document = run(text, options);
  ASSERT_TRUE(document.units.at(0).springs.has_value());
  EXPECT_TRUE(document.units[0].springs->sag.empty());
  EXPECT_THAT(document.header.warnings, testing::Contains(testing::HasSubstr("linkage")));
}

TEST(Run, CheckOnlyNotesWhatIsMissing) {
  const document::ResultDocument document = run(changed(job_text("fork"), "rod    = \"12 mm\"\n", ""));
  EXPECT_FALSE(document.units[0].force.has_value());
  EXPECT_TRUE(document.units[0].springs.has_value());
  EXPECT_GE(n_of(document, "F901"), 1);
  EXPECT_TRUE(document::fit_to_build(document));
}

TEST(Run, ALoneStackIsEnoughForItsVerbAndNoMore) {
  RunOptions stack;
  stack.sections = {.stacks = true};
  stack.must_have = true;
  EXPECT_TRUE(run(job_text("lone-stack"), stack).stack.has_value());
  RunOptions force;
  force.sections = {.force = true};
  force.must_have = true;
  const Diagnostics diagnostics = refused(job_text("lone-stack"), force);
  ASSERT_FALSE(diagnostics.empty());
  EXPECT_EQ(diagnostics[0].code, "E0902");
}

TEST(Run, AskedSpeedsAndPressuresComeBackInOrder) {
  RunOptions options;
  options.speeds = {1.0, 0.1, 1.0};
  options.pressures = {2e5, 1e5};
  const document::ResultDocument document = run(job_text("fork"), options);
  const auto& points = document.units[0].force->curves[0].points;
  ASSERT_EQ(points.size(), 2u);
  EXPECT_EQ(points[0].speed, 0.1);
  EXPECT_EQ(points[1].speed, 1.0);
  const auto& stack = *document.units[0].valves[0].directions[0].stack;
  ASSERT_EQ(stack.points.size(), 2u);
  EXPECT_EQ(stack.points[0].pressure, 1e5);
}

TEST(Run, AnotherOilOfThePartsFileIsComparedInTheDamper) {
  const std::string thick = R"(
[oil.thick]
viscosity  = [{ at = "40 degC", value = "45 mm2/s" }, { at = "100 degC", value = "8 mm2/s" }]
density_15 = "860 kg/m3"
)";
  RunOptions options;
  options.sections = {.oils = true};
  const document::ResultDocument document = run(job_text("fork") + thick, options);
  ASSERT_EQ(document.oils.size(), 2u);
  ASSERT_EQ(document.oil_swaps.size(), 1u);
  const document::OilSwap& swap = document.oil_swaps[0];
  EXPECT_EQ(swap.from, "light-fork-fluid");
  EXPECT_EQ(swap.to, "thick");
  EXPECT_GT(swap.kinematic_ratio, 2.0);
  EXPECT_GT(swap.same_viscosity_at, 45.0 + 273.15);  // the thicker oil must be warmer to be as thin
  ASSERT_EQ(swap.forces.size(), 6u);
  for (const document::OilSwapForce& force : swap.forces) EXPECT_GE(force.after, force.before * 0.999);
  ASSERT_EQ(swap.clicks.size(), 2u);
  for (const document::OilSwapClicks& clicks : swap.clicks)
    EXPECT_GE(clicks.change, 0) << clicks.adjuster;  // out
}

TEST(Run, ASagOffItsTargetSaysWhatBringsAllSagsIntoTheirTargets) {
  const std::string text = changed(job_text("fork"), R"({ static = "25 to 40 mm", rider = "65 to 80 mm" })",
                                   R"({ static = "15 to 40 mm", rider = "55 to 62 mm" })");
  const document::ResultDocument document = run(text);
  const document::SagResult& rider = document.units[0].springs->sag.at(1);
  EXPECT_EQ(rider.knob, "positive pressure");
  ASSERT_TRUE(rider.change.has_value());
  EXPECT_GT(rider.change->si, 0.0);
  // the job with that pressure stands inside both targets, where the cure says
  const std::string set = std::to_string(4.1 + rider.change->si / 1e5) + " bar(g)";
  const document::ResultDocument after =
      run(changed(text, "positive = { pressure = \"4.1 bar(g)\"", "positive = { pressure = \"" + set + "\""));
  ASSERT_EQ(rider.cure->effects.size(), 2u);
  for (std::size_t i = 0; i < 2; ++i) {
    const document::SagResult& sag = after.units[0].springs->sag.at(i);
    EXPECT_GE(sag.wheel_travel, sag.low->si);
    EXPECT_LE(sag.wheel_travel, sag.high->si);
    EXPECT_NEAR(sag.wheel_travel, rider.cure->effects[i].after.si, 1e-6);  // the pressure has six decimals
  }
}

TEST(Run, WhereNoPressureSuitsBothSagsAnotherSpringIsNeeded) {
  // the machine alone may hardly sink less, the rider shall sink much less: each newton must move it less
  const document::ResultDocument document =
      run(changed(job_text("fork"), "rider = \"65 to 80 mm\"", "rider = \"41 to 45 mm\""));
  const document::SagResult& rider = document.units[0].springs->sag.at(1);
  EXPECT_FALSE(rider.change.has_value());
  EXPECT_FALSE(rider.cure.has_value());
  EXPECT_EQ(rider.need, document::SpringNeed::Stiffer);
}

TEST(Run, ItEndsWhenTheCallerSaysSo) {
  RunOptions options;
  options.progress = [](double done, std::string_view) { return done <= 0.0 ? false : true; };
  const Result<document::ResultDocument, RunFault> result = run_job(read(job_text("fork")), options);
  ASSERT_FALSE(result.has_value());
  EXPECT_TRUE(result.error().cancelled);
}

TEST(Run, ARingLiesOnTheDiscUnderItAndNotInTheDiscAboveIt) {
  const document::ResultDocument document = run(R"(
format = 1
[stack]
seat = "22 mm"
pocket = { inner = "13.5 mm", outer = "21 mm" }
clamp = "12 mm"
discs = ["2 x 24 x 0.15 mm", "1 x 14 x 0.10 mm", { outer_diameter = "23 mm", bore = "18 mm", thickness = "0.15 mm" }, "2 x 22 x 0.15 mm"]
pressures = "0.5 MPa"
)");
  ASSERT_TRUE(document.stack.has_value());
  const document::StackResult& stack = *document.stack;
  ASSERT_EQ(stack.geometry.discs.size(), 6u);
  ASSERT_TRUE(stack.geometry.discs[3].ring);
  EXPECT_NEAR(stack.geometry.discs[3].height, 0.30e-3, 1e-12);  // the gap shim is beside it, not under it
  // bent, no face of a disc may be inside another where both were computed
  const document::StackShape& bent = stack.shapes.back();
  for (const document::ContactForce& contact : stack.points.back().contacts) {
    if (contact.lower < 1 || contact.upper > 6) continue;
    const auto height_at = [&](int number) {
      const document::DiscShape& disc = bent.discs[static_cast<std::size_t>(number - 1)];
      for (std::size_t i = 0; i < disc.radius.size(); ++i)
        if (std::abs(disc.radius[i] - contact.radius) < 1e-9) return disc.height[i];
      return std::nan("");
    };
    const double top_of_lower = height_at(contact.lower) +
                                stack.geometry.discs[static_cast<std::size_t>(contact.lower - 1)].thickness;
    EXPECT_NEAR(top_of_lower, height_at(contact.upper), 1e-6)
        << contact.lower << " under " << contact.upper;  // 1 um: contact tolerance
  }
}

TEST(Run, TheLinearTheoryIsSofterThanTheLargeOne) {
  RunOptions options;
  options.sections = {.stacks = true};
  options.pressures = {5e5};
  const auto lift = [&](Theory theory) {
    options.theory = theory;
    return run(job_text("fork"), options).units[0].valves[0].directions[1].stack->points[0].lift_at_seat;
  };
  EXPECT_GT(lift(Theory::Linear), lift(Theory::Large));
}

TEST(Run, PartsAtOnceGiveTheSameBits) {
  RunOptions at_once;
  at_once.run_all = [](std::size_t n, const std::function<void(std::size_t)>& one) {
    std::vector<std::thread> threads;
    for (std::size_t i = 0; i < n; ++i) threads.emplace_back(one, i);
    for (std::thread& thread : threads) thread.join();
  };
  EXPECT_EQ(document::to_json(run(job_text("fork"), at_once)), document::to_json(run(job_text("fork"))));
}

TEST(Run, WithoutDetailsAStackIsTheSameButForThem) {
  // a gap shim no wider than the clamp carries nothing: of it a finding tells what it is there for
  const std::string text = changed(job_text("lone-stack"), "\"1 x 13 x 0.10 mm\"", "\"1 x 10 x 0.30 mm\"");
  RunOptions plain;
  plain.sections.stack_details = false;
  document::ResultDocument whole = run(text);
  ASSERT_TRUE(whole.stack && whole.stack->influence);
  EXPECT_EQ(whole.stack->shapes.size(), 3u);
  EXPECT_EQ(whole.stack->influence->discs.size(), whole.stack->geometry.discs.size());
  ASSERT_FALSE(whole.stack->idle_discs.empty());
  whole.stack->shapes.clear();
  std::erase_if(whole.stack->influence->discs, [&](const document::DiscInfluence& disc) {
    return std::ranges::find(whole.stack->idle_discs, disc.number) == whole.stack->idle_discs.end();
  });
  whole.stack->influence->outcome = {};
  document::ResultDocument brief = run(text, plain);
  brief.stack->influence->outcome = {};  // counts the solutions of all discs that were asked after
  EXPECT_EQ(document::to_json(brief), document::to_json(whole));
}

}  // namespace
}  // namespace shimwright::job
