#include "server/workbench.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <thread>

#include "server/test_bench.h"

namespace shimwright::server {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

TEST(Workbench, ShowsTheJobsOfItsFolder) {
  Bench bench;
  write_text(bench.folder / "shop" / "broken.job.toml", "title = \"Broken\"\nformat = 1\nfork = 3\n");
  write_text(bench.folder / "shop" / "notes.txt", "no job");
  std::filesystem::create_directories(bench.folder / "shop" / ".hidden");
  write_text(bench.folder / "shop" / ".hidden" / "x.job.toml", kStackJob);
  const Session session = bench.workbench->session();
  ASSERT_EQ(session.jobs.size(), 2u);
  EXPECT_EQ(session.jobs[0].name, "broken.job.toml");
  EXPECT_GT(session.jobs[0].faults, 0);
  EXPECT_EQ(session.jobs[1].title, "Stack");
  EXPECT_EQ(session.jobs[1].kind, "stack");
  EXPECT_EQ(session.open, session.jobs[1].id);
  EXPECT_FALSE(session.jobs[1].unsaved);
}

TEST(Workbench, GivesAJobWithItsValuesAndItsResult) {
  Bench bench;
  const JobView view = bench.view();
  EXPECT_EQ(view.text, kStackJob);
  EXPECT_EQ(typed_at(view, "stack.discs[0]"), "3 x 19 x 0.15 mm");
  ASSERT_TRUE(view.result);
  EXPECT_EQ(view.result_revision, view.track.position);
  EXPECT_TRUE(view.result->document.stack.has_value());
  EXPECT_FALSE(view.unsaved);
  EXPECT_EQ(view.track.undo_to, 0);
}

TEST(Workbench, AnEditChangesTheResultAndCanBeTakenBackAndForth) {
  Bench bench;
  const double before = bench.view().result->document.stack->points.at(0).lift_at_seat;
  const JobView after = bench.edit({set("stack.discs[0]", "4 x 19 x 0.15 mm")}, "one more face shim");
  EXPECT_LT(after.result->document.stack->points.at(0).lift_at_seat, before);
  EXPECT_TRUE(after.unsaved);
  EXPECT_EQ(after.track.undo_note, "one more face shim");
  const auto back = bench.workbench->undo(bench.id, "tab-1", kMetric);
  EXPECT_EQ(back->text, kStackJob);
  EXPECT_EQ(back->result->document.stack->points.at(0).lift_at_seat, before) << "the same bits";
  EXPECT_FALSE(back->unsaved);
  EXPECT_EQ(bench.workbench->redo(bench.id, "tab-1", kMetric)->text, after.text);
  EXPECT_EQ(bench.workbench->redo(bench.id, "tab-1", kMetric)->text, after.text) << "nothing further to redo";
}

TEST(Workbench, WithAFaultInTheTextTheLastGoodResultStands) {
  Bench bench;
  const JobView good = bench.view();
  const JobView bad = bench.edit({{Edit::Kind::Text, "", "format = 1\ntitle = \"open\n", 0}});
  EXPECT_TRUE(has_stop(bad.diagnostics));
  EXPECT_EQ(bad.result, good.result);
  EXPECT_EQ(bad.result_revision, good.track.position);
  EXPECT_LT(bad.result_revision, bad.track.position);
  bench.start();
  const JobView again = bench.view();
  EXPECT_EQ(again.result_revision, good.track.position) << "found again after a restart";
  EXPECT_TRUE(again.result);
}

TEST(Workbench, NothingTypedIsLostOverARestart) {
  Bench bench;
  bench.edit({set("stack.seat", "18.5 mm")});
  bench.edit({set("stack.clamp", "5 wt"), insert("stack.discs[2]", "3 x 24")});
  const JobView before = bench.view();
  bench.start();
  const JobView after = bench.view();
  EXPECT_EQ(after.text, before.text);
  EXPECT_EQ(plain(after.drafts), plain(before.drafts));
  EXPECT_EQ(after.drafts.size(), 2u);
  EXPECT_TRUE(after.unsaved);
  EXPECT_TRUE(bench.workbench->session().jobs[0].unsaved);
  EXPECT_EQ(bench.workbench->undo(bench.id, "tab-1", kMetric)->drafts.size(), 0u);
  EXPECT_EQ(bench.workbench->undo(bench.id, "tab-1", kMetric)->text, kStackJob);
}

TEST(Workbench, ATrialIsKeptNowhere) {
  Bench bench;
  const JobView before = bench.view();
  const auto trial = bench.workbench->attempt(
      bench.id, {set("stack.discs[0]", "5 x 19 x 0.15 mm"), set("stack.seat", "5 wt")}, kMetric);
  ASSERT_TRUE(trial.has_value());
  EXPECT_TRUE(trial->result);
  EXPECT_NE(trial->result, before.result);
  EXPECT_EQ(trial->drafts.size(), 1u);
  const JobView after = bench.view();
  EXPECT_EQ(after.text, before.text);
  EXPECT_EQ(after.track.serial, before.track.serial);
  EXPECT_TRUE(after.drafts.empty());
}

TEST(Workbench, AnEditThatChangesNothingIsNoStepOfUndo) {
  Bench bench;
  const JobView before = bench.view();
  EXPECT_EQ(bench.edit({set("stack.seat", "18 mm")}).track.position, before.track.position);
  EXPECT_EQ(bench.edit({}).track.position, before.track.position);
}

TEST(Workbench, TwoTabsOnOneFileSeeEachOther) {
  Bench bench;
  std::vector<JobEvent> events;
  bench.workbench->on_job_event([&](const JobEvent& event) { events.push_back(event); });
  const auto base = bench.view().track.position;
  const auto first = bench.workbench->edit(bench.id, {base, "tab-1", "", {set("title", "A")}}, kMetric);
  const auto second =
      bench.workbench->edit(bench.id, {base, "tab-2", "", {set("stack.seat", "17 mm")}}, kMetric);
  ASSERT_TRUE(first.has_value());
  ASSERT_TRUE(second.has_value());
  const JobView& both = std::get<JobView>(*second);
  EXPECT_THAT(both.text, HasSubstr("\"A\""));
  EXPECT_THAT(both.text, HasSubstr("\"17 mm\""));
  ASSERT_EQ(events.size(), 2u);
  EXPECT_EQ(events[0].client, "tab-1");
  EXPECT_EQ(events[1].client, "tab-2");
  EXPECT_GT(events[1].serial, events[0].serial);
}

TEST(Workbench, EveryChangeIsAnnouncedOnceWithWhoMadeIt) {
  Bench bench;
  bench.view();
  std::vector<JobEvent> events;
  bench.workbench->on_job_event([&](const JobEvent& event) { events.push_back(event); });
  const auto told = [&](auto&& change) {
    events.clear();
    change();
    EXPECT_LE(events.size(), 1u);
    return events.empty() ? std::string("nobody") : events[0].client;
  };
  EXPECT_EQ(told([&] { bench.edit({set("title", "A")}); }), "tab-1");
  EXPECT_EQ(told([&] { bench.edit({set("title", "A")}); }), "nobody") << "nothing changed";
  EXPECT_EQ(told([&] { bench.workbench->undo(bench.id, "tab-2", kMetric); }), "tab-2");
  EXPECT_EQ(told([&] { bench.workbench->undo(bench.id, "tab-2", kMetric); }), "nobody");
  EXPECT_EQ(told([&] { bench.workbench->redo(bench.id, "tab-3", kMetric); }), "tab-3");
  EXPECT_EQ(told([&] { bench.workbench->save(bench.id, {"tab-4", "", true}, kMetric); }), "tab-4");
  EXPECT_EQ(told([&] { bench.workbench->reload(bench.id, "tab-5", kMetric); }), "tab-5");
  EXPECT_EQ(told([&] { bench.workbench->attempt(bench.id, {set("title", "B")}, kMetric); }), "nobody");
}

TEST(Workbench, AnEditOfAListThatAnotherTabChangedIsAConflict) {
  Bench bench;
  const auto base = bench.view().track.position;
  bench.edit({insert("stack.discs[0]", "19 x 0.15 mm")});
  const auto late =
      bench.workbench->edit(bench.id, {base, "tab-2", "", {set("stack.discs[1]", "16 x 0.15 mm")}}, kMetric);
  ASSERT_TRUE(late.has_value());
  ASSERT_TRUE(std::holds_alternative<Workbench::EditConflict>(*late));
  EXPECT_THAT(bench.view().text, Not(HasSubstr("16 x 0.15")));
  const auto whole = bench.workbench->edit(
      bench.id, {base, "tab-2", "", {{Edit::Kind::Text, "", "format = 1\n", 0}}}, kMetric);
  EXPECT_TRUE(std::holds_alternative<Workbench::EditConflict>(*whole));
}

TEST(Workbench, ManyTabsAtOnceLoseNothing) {
  Bench bench;
  const auto base = bench.view().track.position;
  std::vector<std::thread> tabs;
  for (int tab = 0; tab < 4; ++tab) {
    tabs.emplace_back([&, tab] {
      for (int i = 0; i < 5; ++i) {
        const std::string typed = "tab " + std::to_string(tab) + " title " + std::to_string(i);
        const auto answer = bench.workbench->edit(
            bench.id, {base, "tab-" + std::to_string(tab), typed, {set("title", typed)}}, kMetric);
        ASSERT_TRUE(answer.has_value());
      }
    });
  }
  for (std::thread& tab : tabs) tab.join();
  int n = 0;
  for (JobView view = bench.view(); view.track.undo_to > 0; ++n)
    view = *bench.workbench->undo(bench.id, "tab-1", kMetric);
  EXPECT_EQ(n, 20) << "every edit is a step of undo";
  EXPECT_EQ(bench.view().text, kStackJob);
}

TEST(Workbench, AnOlderRevisionIsStillComputedForAGhost) {
  Bench bench;
  const JobView before = bench.view();
  bench.edit({set("stack.discs[0]", "4 x 19 x 0.15 mm")});
  const auto ghost = bench.workbench->result(bench.id, before.track.position, {kMetric, false});
  ASSERT_TRUE(ghost.has_value());
  EXPECT_EQ((*ghost)->json(), before.result->json());
  EXPECT_EQ(bench.workbench->result(bench.id, 99, {kMetric, false}).error().status, 404);
}

TEST(Workbench, SentencesComeInTheUnitsAskedFor) {
  Bench bench;
  const auto imperial = bench.workbench->job(bench.id, units::System::Imperial);
  ASSERT_TRUE(imperial->result);
  EXPECT_NE(imperial->result->json(), bench.view().result->json());
}

TEST(Workbench, AJobThatIsNotThereIsSaidSo) {
  Bench bench;
  EXPECT_EQ(bench.workbench->job("0000000000000000", kMetric).error().code, "no_such_job");
  EXPECT_EQ(bench.workbench->job("../../etc/passwd", kMetric).error().code, "no_such_job");
}

class EveryStart : public testing::TestWithParam<const char*> {};
TEST_P(EveryStart, LoadsComputesAndNeedsNoOtherFile) {
  Bench bench;
  const auto made = bench.workbench->new_job(
      {"tab-1", std::string("new-") + GetParam() + ".job.toml", GetParam()}, kMetric);
  ASSERT_TRUE(made.has_value()) << made.error().message;
  EXPECT_FALSE(has_stop(made->diagnostics));
  ASSERT_TRUE(made->result);
  EXPECT_EQ(made->result_revision, made->track.position);
  EXPECT_TRUE(made->result->document.header.warnings.empty()) << made->result->document.header.warnings.at(0);
  EXPECT_EQ(bench.workbench->session().jobs.size(), 2u);
}
INSTANTIATE_TEST_SUITE_P(Starts, EveryStart, testing::Values("fork", "shock", "stack"),
                         [](const auto& start) { return std::string(start.param); });

TEST(Workbench, ACopyTakesTheTextAsItStands) {
  Bench bench;
  bench.edit({set("title", "Second")});
  const auto copy = bench.workbench->new_job({"tab-1", "copy.job.toml", bench.id}, kMetric);
  ASSERT_TRUE(copy.has_value());
  EXPECT_THAT(text_of_file(bench.folder / "shop" / "copy.job.toml"), HasSubstr("\"Second\""));
  EXPECT_FALSE(copy->unsaved);
}

TEST(Workbench, ANameThatLeadsElsewhereOrIsTakenMakesNoFile) {
  Bench bench;
  for (const char* name : {"", "x", "x.toml", "../x.job.toml", "/tmp/x.job.toml", ".x.job.toml",
                           "a\nb.job.toml", "a\\b.job.toml"})
    EXPECT_EQ(bench.workbench->new_job({"tab-1", name, "stack"}, kMetric).error().code, "bad_name") << name;
  EXPECT_EQ(bench.workbench->new_job({"tab-1", "stack.job.toml", "stack"}, kMetric).error().status, 409);
  EXPECT_EQ(text_of_file(bench.file()), kStackJob);
  EXPECT_EQ(bench.workbench->new_job({"tab-1", "y.job.toml", "unicycle"}, kMetric).error().code,
            "no_such_job");
}

}  // namespace
}  // namespace shimwright::server
