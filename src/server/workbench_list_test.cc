// The list of jobs, what is remembered of each over a restart, and how a fault of the journal is told.
#include <fmt/core.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <functional>
#include <map>
#include <thread>

#include "server/test_bench.h"
#include "server/workbench_state.h"

namespace shimwright::server {
namespace {

using ::testing::HasSubstr;

JobEntry entry(Bench& bench, const std::string& name) {
  for (const JobEntry& one : bench.workbench->session().jobs)
    if (one.name == name) return one;
  ADD_FAILURE() << name << " is not in the list";
  return {};
}

TEST(List, TellsTheKindTheTitleAndTheFaultsOfEachJob) {
  Bench bench;
  const auto put = [&](const std::string& name, const std::string& text) {
    write_text(bench.folder / "shop" / (name + ".job.toml"), text);
  };
  const std::string fork = "[[unit]]\nname = \"a\"\nkind = \"fork leg\"\n",
                    shock = "[[unit]]\nname = \"b\"\nkind = \"shock\"\n";
  const std::string head = "format = 1\ntitle = \"T\"\n";
  put("none", head);
  put("fork", head + fork);
  put("forks", head + fork + "[[unit]]\nname = \"c\"\n");
  put("shock", head + shock);
  put("both", head + fork + shock);
  put("kinds", head + shock + fork);
  put("open", "format = 1\ntitle = \"open\n");
  put("wheels", std::string(kStackJob) + "wheel = 1\nspoke = 2\n");
  std::map<std::string, std::string> kinds;
  for (const JobEntry& one : bench.workbench->session().jobs) kinds[one.name] = one.kind;
  EXPECT_EQ(kinds, (std::map<std::string, std::string>{{"both.job.toml", "both"},
                                                       {"fork.job.toml", "fork"},
                                                       {"forks.job.toml", "fork"},
                                                       {"kinds.job.toml", "both"},
                                                       {"none.job.toml", ""},
                                                       {"open.job.toml", ""},
                                                       {"shock.job.toml", "shock"},
                                                       {"stack.job.toml", "stack"},
                                                       {"wheels.job.toml", "stack"}}));
  EXPECT_EQ(entry(bench, "stack.job.toml").faults, 0);
  EXPECT_EQ(entry(bench, "wheels.job.toml").faults, 2);
  EXPECT_EQ(entry(bench, "stack.job.toml").title, "Stack");
  EXPECT_EQ(entry(bench, "stack.job.toml").id, bench.id);
}

TEST(List, OpensTheJobThatWasAskedForAndNoOther) {
  Bench bench;
  write_text(bench.folder / "shop" / "another.job.toml", kStackJob);
  EXPECT_EQ(bench.workbench->session().open, entry(bench, "stack.job.toml").id);
  WorkbenchSettings settings = bench.workbench->settings();
  settings.open_job.clear();
  EXPECT_EQ(Workbench(settings, store::Journal::in_memory()).session().open, "");
}

TEST(List, FollowsWhatIsTypedAndWhatIsWritten) {
  Bench bench;
  const std::string name = "stack.job.toml";
  EXPECT_EQ(entry(bench, name).title, "Stack");
  write_text(bench.file(), "format = 1\ntitle = \"Written\"\n");
  EXPECT_EQ(entry(bench, name).title, "Written") << "nobody has opened it yet";
  EXPECT_FALSE(entry(bench, name).unsaved);
  bench.view();
  EXPECT_FALSE(entry(bench, name).unsaved);
  bench.edit({set("title", "Typed")});
  EXPECT_EQ(entry(bench, name).title, "Typed");
  EXPECT_TRUE(entry(bench, name).unsaved);
  EXPECT_EQ(entry(bench, name).title, "Typed") << "the second look too";
  bench.workbench->save(bench.id, {"t", "", true}, kMetric);
  EXPECT_FALSE(entry(bench, name).unsaved);
}

TEST(List, KnowsWhatWasTypedBeforeARestartWithoutOpeningIt) {
  for (const bool is_saved : {false, true}) {
    Bench bench;
    bench.edit({set("title", "Typed")});
    if (is_saved) bench.workbench->save(bench.id, {"t", "", true}, kMetric);
    bench.start();
    EXPECT_EQ(entry(bench, "stack.job.toml").title, "Typed");
    EXPECT_EQ(entry(bench, "stack.job.toml").unsaved, !is_saved);
    bench.edit({set("title", "Typed again")});
    EXPECT_EQ(entry(bench, "stack.job.toml").title, "Typed again");
    EXPECT_TRUE(entry(bench, "stack.job.toml").unsaved);
  }
}

TEST(List, AJobThatIsGoneFromTheDiskIsNoLongerInIt) {
  Bench bench;
  std::filesystem::remove(bench.file());
  EXPECT_TRUE(bench.workbench->session().jobs.empty());
  EXPECT_EQ(bench.workbench->session().open, "");
  EXPECT_EQ(bench.workbench->job(bench.id, kMetric).error().status, 404);
}

/// A bench with one good revision and so many faulty ones after it, begun again.
JobView after_faults(int n) {
  Bench bench;
  bench.view();
  for (int i = 0; i < n; ++i)
    bench.edit({{Edit::Kind::Text, "", fmt::format("format = 1\ntitle = \"open {}\n", i), 0}});
  bench.start();
  return bench.view();
}

TEST(LastGood, IsFoundUpToAHundredStepsBackAfterARestart) {
  for (const int n : {1, 3, 100}) {
    const JobView view = after_faults(n);
    EXPECT_EQ(view.track.position, n + 1);
    EXPECT_EQ(view.result_revision, 1) << n;
    EXPECT_TRUE(view.result) << n;
  }
  const JobView far = after_faults(101);
  EXPECT_EQ(far.result_revision, 0);
  EXPECT_FALSE(far.result);
}

TEST(LastGood, IsTheNewestAndGoesWithItsPartsFile) {
  Bench bench(std::string("parts = [\"shop.parts.toml\"]\n") + kStackJob);
  const auto parts = bench.folder / "shop" / "shop.parts.toml";
  write_text(parts, "format = 1\n");
  bench.view();
  const JobView second = bench.edit({set("stack.seat", "17 mm")});
  ASSERT_TRUE(second.result);
  const JobView faulty = bench.edit({{Edit::Kind::Text, "", "title = \"open\n", 0}});
  EXPECT_EQ(faulty.result_revision, second.track.position);
  EXPECT_EQ(faulty.result, second.result);
  bench.start();
  EXPECT_EQ(bench.view().result_revision, second.track.position);
  std::filesystem::remove(parts);
  bench.view();
  EXPECT_EQ(bench.view().result_revision, 0);
  EXPECT_FALSE(bench.view().result);
}

TEST(Undo, ANoteHasTwoHundredCharactersAtMost) {
  Bench bench;
  EXPECT_EQ(bench.edit({set("title", "A")}, std::string(200, 'n')).track.undo_note, std::string(200, 'n'));
  const std::string cut = bench.edit({set("title", "B")}, std::string(201, 'n')).track.undo_note;
  EXPECT_EQ(cut, std::string(200, 'n') + "…");
  EXPECT_EQ(bench.edit({set("title", "C")}).track.undo_note, "title to C") << "named after what was done";
  EXPECT_EQ(bench.edit({set("title", "D")}, "a\tb").track.undo_note,
            "a\xEF\xBF\xBD"
            "b");
}

TEST(Faults, OfTheJournalAreToldWithTheirStatus) {
  using Kind = store::Fault::Kind;
  struct Told {
    Kind kind;
    int status;
    const char* code;
  };
  for (const Told& told :
       {Told{Kind::ReadOnly, 403, "read_only"}, Told{Kind::NotThere, 404, "no_such_revision"},
        Told{Kind::Full, 507, "journal_full"}, Told{Kind::Disk, 500, "journal"},
        Told{Kind::Damaged, 500, "journal"}}) {
    const ApiFault fault = fault_of(store::Fault{told.kind, "what", "remedy"});
    EXPECT_EQ(fault.status, told.status);
    EXPECT_EQ(fault.code, told.code);
    EXPECT_EQ(fault.message, "what");
    EXPECT_EQ(fault.remedy, "remedy");
  }
}

TEST(List, AnEmptyFileIsAJobThatHasNothing) {
  Bench bench("");
  const JobView view = bench.view();
  EXPECT_EQ(view.text, "");
  EXPECT_EQ(view.track.position, 1);
  EXPECT_EQ(view.result_revision, 1);
  EXPECT_EQ(entry(bench, "stack.job.toml").kind, "");
}

TEST(Times, AreThoseOfThisAnswer) {
  Bench bench;
  const auto begin = std::chrono::steady_clock::now();
  const JobView view = bench.edit({set("stack.seat", "17 mm")});
  const auto trial = bench.workbench->attempt(bench.id, {set("stack.seat", "16 mm")}, kMetric);
  const double all_ms =
      std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count();
  for (const Timing& timing : {view.timing, trial->timing}) {
    EXPECT_GT(timing.compute_ms, 0);
    EXPECT_GE(timing.encode_ms, 0);
  }
  EXPECT_LE(
      view.timing.compute_ms + view.timing.encode_ms + trial->timing.compute_ms + trial->timing.encode_ms,
      all_ms);
}

/// A job that takes a while.
struct ForkBench : Bench {
  ForkBench() : Bench(text_of_file(SW_SOURCE_DIR "/examples/enduro-fork/enduro-fork.job.toml")) {
    write_text(folder / "shop" / "shop.parts.toml",
               text_of_file(SW_SOURCE_DIR "/examples/enduro-fork/shop.parts.toml"));
    view();
  }
};

/// Whether a trial of this job is ever given up while this change comes again and again.
bool gives_up_trials(ForkBench& bench, const std::function<void(int)>& change) {
  std::atomic<bool> was_given_up = false, has_ended = false;
  std::thread hand([&] {
    for (int i = 0; i < 100 && !was_given_up; ++i) {
      const std::string typed = fmt::format("{} x 20 x 0.1{} mm", 1 + i % 9, i / 9);
      if (!bench.workbench->attempt(bench.id, {set("unit[0].piston_valve.rebound.stack[0]", typed)}, kMetric))
        was_given_up = true;
    }
    has_ended = true;
  });
  for (int i = 0; !was_given_up && !has_ended; ++i) change(i);
  hand.join();
  return was_given_up;
}

TEST(Trials, AreGivenUpWhenTheJobChanges) {
  ForkBench bench;
  const std::string text = bench.view().text;
  const auto titled = [&](int i) { return text + fmt::format("# {}\n", i); };
  EXPECT_TRUE(gives_up_trials(bench, [&](int i) { bench.edit({set("title", i % 2 ? "A" : "B")}); }))
      << "edit";
  EXPECT_TRUE(gives_up_trials(bench, [&](int) {
    bench.workbench->undo(bench.id, "t", kMetric);
    bench.workbench->redo(bench.id, "t", kMetric);
  })) << "undo";
  EXPECT_TRUE(gives_up_trials(bench, [&](int i) {
    write_text(bench.file(), titled(i));
    bench.workbench->reload(bench.id, "t", kMetric);
  })) << "load";
  EXPECT_TRUE(gives_up_trials(bench, [&](int i) {
    write_text(bench.file(), titled(1000 + i));
    bench.workbench->look_at_disk();
  })) << "a change underneath";
}

TEST(Trials, AnOlderOneIsGivenUpForANewerOne) {
  ForkBench bench;
  std::atomic<bool> was_given_up = false;
  const auto drag = [&](const std::string& key) {
    for (int i = 0; i < 400 && !was_given_up; ++i) {
      const auto trial = bench.workbench->attempt(
          bench.id, {set(key, fmt::format("{} x 20 x 0.1{} mm", 1 + i % 9, i % 7))}, kMetric);
      if (trial) continue;
      EXPECT_EQ(trial.error().status, 409);
      EXPECT_EQ(trial.error().code, "superseded");
      was_given_up = true;
    }
  };
  std::thread other([&] { drag("unit[0].piston_valve.rebound.stack[0]"); });
  drag("unit[0].piston_valve.compression.stack[0]");
  other.join();
  EXPECT_TRUE(was_given_up);
}

}  // namespace
}  // namespace shimwright::server
