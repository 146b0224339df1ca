#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>

#include "server/test_bench.h"

namespace shimwright::server {
namespace {

using ::testing::HasSubstr;

const std::string kOther =
    "format = 1\ntitle = \"From elsewhere\"\n[stack]\nseat = \"18 mm\"\nclamp = \"9 mm\"\n"
    "discs = [\"3 x 19 x 0.15 mm\"]\n";

Answer<Workbench::MaybeConflict> saved(Bench& bench, bool over = false) {
  return bench.workbench->save(bench.id, {"tab-1", bench.view().track.disk_hash, over}, kMetric);
}

TEST(Disk, ASaveWritesTheTextAndKeepsThePermissions) {
  Bench bench;
  ::chmod(bench.file().c_str(), 0640);
  bench.edit({set("title", "Second")});
  const auto answer = saved(bench);
  ASSERT_TRUE(answer.has_value());
  EXPECT_FALSE(std::get<JobView>(*answer).unsaved);
  EXPECT_THAT(text_of_file(bench.file()), HasSubstr("\"Second\"   # keep me"));
  struct stat facts{};
  ::stat(bench.file().c_str(), &facts);
  EXPECT_EQ(facts.st_mode & 0777, 0640u);
}

TEST(Disk, AFileThatChangedUnderneathIsNotWrittenOver) {
  Bench bench;
  bench.edit({set("title", "Mine")});
  write_text(bench.file(), kOther);
  const auto answer = saved(bench);
  ASSERT_TRUE(answer.has_value());
  const auto* conflict = std::get_if<DiskConflict>(&*answer);
  ASSERT_NE(conflict, nullptr);
  EXPECT_EQ(conflict->text, kOther);
  EXPECT_EQ(text_of_file(bench.file()), kOther);
  EXPECT_TRUE(bench.view().disk_changed);

  // the user has seen it and saves with its hash: that is meant
  const auto meant = bench.workbench->save(bench.id, {"tab-1", conflict->hash, false}, kMetric);
  EXPECT_FALSE(std::get<JobView>(*meant).disk_changed);
  EXPECT_THAT(text_of_file(bench.file()), HasSubstr("\"Mine\""));
}

TEST(Disk, TheDisksTextCanBeTakenAndUndoBringsTheOwnBack) {
  Bench bench;
  bench.edit({set("title", "Mine")});
  write_text(bench.file(), kOther);
  const auto taken = bench.workbench->reload(bench.id, "tab-1", kMetric);
  EXPECT_EQ(taken->text, kOther);
  EXPECT_FALSE(taken->unsaved);
  EXPECT_THAT(bench.workbench->undo(bench.id, "tab-1", kMetric)->text, HasSubstr("\"Mine\""));
}

TEST(Disk, AChangeUnderneathIsNoticedAndTakenWhenNothingIsUnsaved) {
  Bench bench;
  bench.view();
  std::vector<JobEvent> events;
  bench.workbench->on_job_event([&](const JobEvent& event) { events.push_back(event); });
  bench.workbench->look_at_disk();
  EXPECT_TRUE(events.empty());
  write_text(bench.file(), kOther);
  bench.workbench->look_at_disk();
  ASSERT_EQ(events.size(), 1u);
  EXPECT_EQ(events[0].client, "");
  EXPECT_FALSE(events[0].disk_changed);
  EXPECT_EQ(bench.view().text, kOther);
}

TEST(Disk, AChangeUnderneathIsOnlyToldWhenSomethingIsUnsaved) {
  Bench bench;
  bench.edit({set("title", "Mine")});
  std::vector<JobEvent> events;
  bench.workbench->on_job_event([&](const JobEvent& event) { events.push_back(event); });
  write_text(bench.file(), kOther);
  bench.workbench->look_at_disk();
  bench.workbench->look_at_disk();
  ASSERT_EQ(events.size(), 1u) << "told once";
  EXPECT_TRUE(events[0].disk_changed);
  EXPECT_THAT(bench.view().text, HasSubstr("\"Mine\""));
}

TEST(Disk, AFileWrittenWhileTheWorkbenchWasOffIsTakenOrToldTheSameWay) {
  Bench bench;
  bench.view();
  write_text(bench.file(), kOther);
  bench.start();
  EXPECT_EQ(bench.view().text, kOther);
  bench.edit({set("title", "Mine")});
  write_text(bench.file(), kStackJob);
  bench.start();
  const JobView view = bench.view();
  EXPECT_THAT(view.text, HasSubstr("\"Mine\""));
  EXPECT_TRUE(view.disk_changed);
}

TEST(Disk, AFileThatIsGoneIsToldAndSavedAgain) {
  Bench bench;
  bench.view();
  std::filesystem::remove(bench.file());
  bench.workbench->look_at_disk();
  EXPECT_TRUE(bench.view().disk_changed);
  EXPECT_TRUE(std::holds_alternative<DiskConflict>(*saved(bench)));
  EXPECT_TRUE(std::holds_alternative<JobView>(*saved(bench, true)));
  EXPECT_EQ(text_of_file(bench.file()), kStackJob);
}

TEST(Disk, AFolderThatCannotBeWrittenToIsSaidSoAndNothingIsLost) {
  Bench bench;
  bench.edit({set("title", "Mine")});
  std::filesystem::remove(bench.file());
  std::filesystem::create_directories(bench.file());  // even root cannot put a file in the place of a folder
  const auto answer = saved(bench, true);
  ASSERT_FALSE(answer.has_value());
  EXPECT_EQ(answer.error().code, "disk");
  EXPECT_THAT(bench.view().text, HasSubstr("\"Mine\""));
  for (const auto& left : std::filesystem::directory_iterator(bench.folder / "shop"))
    EXPECT_EQ(left.path(), bench.file()) << "nothing half written lies about";
}

TEST(Disk, ASecondWorkbenchOnTheSameJournalOnlyLooksButSeesWhatTheFirstDoes) {
  Bench bench;
  bench.edit({set("title", "Mine")});
  WorkbenchSettings settings = bench.workbench->settings();
  Workbench second(settings, store::Journal::open((bench.folder / "journal.db").string()));
  EXPECT_TRUE(second.session().read_only);
  EXPECT_THAT(second.session().notice, HasSubstr("only read"));
  EXPECT_THAT(second.job(bench.id, kMetric)->text, HasSubstr("\"Mine\""));
  EXPECT_EQ(second.edit(bench.id, {1, "tab-2", "", {set("title", "x")}}, kMetric).error().code, "read_only");
  EXPECT_EQ(second.undo(bench.id, "tab-2", kMetric).error().code, "read_only");
  EXPECT_EQ(second.save(bench.id, {"tab-2", "", true}, kMetric).error().code, "read_only");
  EXPECT_TRUE(second.attempt(bench.id, {set("title", "x")}, kMetric).has_value())
      << "trying needs no journal";
  std::vector<JobEvent> events;
  second.on_job_event([&](const JobEvent& event) { events.push_back(event); });
  second.look_at_disk();
  EXPECT_TRUE(events.empty()) << "nothing has happened";
  const JobView typed = bench.edit({set("title", "Mine too")});
  second.look_at_disk();
  EXPECT_THAT(second.job(bench.id, kMetric)->text, HasSubstr("\"Mine too\""));
  ASSERT_EQ(events.size(), 1u);
  EXPECT_EQ(events[0].job, bench.id);
  EXPECT_EQ(events[0].serial, typed.track.serial);
  EXPECT_EQ(events[0].revision, typed.track.position);
  EXPECT_EQ(events[0].client, "");
  second.look_at_disk();
  EXPECT_EQ(events.size(), 1u);
  // the file itself: told, but never taken by one who may only read
  write_text(bench.file(), kOther);
  second.look_at_disk();
  ASSERT_EQ(events.size(), 2u);
  EXPECT_TRUE(events[1].disk_changed);
  EXPECT_THAT(second.job(bench.id, kMetric)->text, HasSubstr("\"Mine too\""));
}

TEST(Disk, ASecondWorkbenchTakesNothingFromTheDiskEvenWithNothingUnsaved) {
  Bench bench;
  bench.view();
  Workbench second(bench.workbench->settings(), store::Journal::open((bench.folder / "journal.db").string()));
  EXPECT_EQ(second.job(bench.id, kMetric)->text, kStackJob);
  write_text(bench.file(), kOther);
  second.look_at_disk();
  EXPECT_EQ(second.job(bench.id, kMetric)->text, kStackJob);
  EXPECT_TRUE(second.job(bench.id, kMetric)->disk_changed);
  // one that begins now finds the same
  Workbench third(bench.workbench->settings(), store::Journal::open((bench.folder / "journal.db").string()));
  EXPECT_EQ(third.job(bench.id, kMetric)->text, kStackJob);
  EXPECT_TRUE(third.job(bench.id, kMetric)->disk_changed);
}

TEST(Disk, ASecondWorkbenchShowsAJobThatTheFirstHasNeverSeen) {
  Bench bench;
  Workbench second(bench.workbench->settings(), store::Journal::open((bench.folder / "journal.db").string()));
  const auto seen = second.job(bench.id, kMetric);
  ASSERT_TRUE(seen.has_value());
  EXPECT_EQ(seen->text, kStackJob);
  EXPECT_EQ(seen->track.position, 0);
  EXPECT_FALSE(seen->unsaved);
  EXPECT_FALSE(seen->disk_changed);
}

TEST(Disk, OthersAreToldWhereTheFirstWorkbenchIs) {
  Bench bench;
  bench.workbench->announce_address("http://127.0.0.1:8417/");
  const auto other = store::Journal::open((bench.folder / "journal.db").string());
  EXPECT_EQ(other.other_address(), "http://127.0.0.1:8417/");
}

TEST(Disk, AFileThatCameBackAsItWasIsNoLongerChanged) {
  Bench bench;
  bench.edit({set("title", "Mine")});
  std::vector<JobEvent> events;
  bench.workbench->on_job_event([&](const JobEvent& event) { events.push_back(event); });
  write_text(bench.file(), kOther);
  bench.workbench->look_at_disk();
  write_text(bench.file(), kStackJob);
  bench.workbench->look_at_disk();
  ASSERT_EQ(events.size(), 2u);
  EXPECT_TRUE(events[0].disk_changed);
  EXPECT_FALSE(events[1].disk_changed);
  EXPECT_FALSE(bench.view().disk_changed);
}

TEST(Disk, AFileThatIsGoneIsNeverTakenForAnEmptyOne) {
  Bench bench;
  bench.view();
  std::vector<JobEvent> events;
  bench.workbench->on_job_event([&](const JobEvent& event) { events.push_back(event); });
  std::filesystem::remove(bench.file());
  bench.workbench->look_at_disk();
  ASSERT_EQ(events.size(), 1u);
  EXPECT_TRUE(events[0].disk_changed);
  EXPECT_EQ(bench.view().text, kStackJob);
  bench.start();  // it is not in the list now
  EXPECT_EQ(bench.id, "");
}

TEST(Disk, EachSaveAndReloadTellsTheStateItLeaves) {
  Bench bench;
  const JobView typed = bench.edit({set("title", "Mine")});
  std::vector<JobEvent> events;
  bench.workbench->on_job_event([&](const JobEvent& event) { events.push_back(event); });
  EXPECT_TRUE(std::holds_alternative<JobView>(*saved(bench)));
  ASSERT_EQ(events.size(), 1u);
  EXPECT_EQ(events[0].revision, typed.track.position);
  EXPECT_GT(events[0].serial, typed.track.serial);
  EXPECT_FALSE(events[0].disk_changed);
  bench.workbench->look_at_disk();
  EXPECT_EQ(events.size(), 1u) << "an own save is no change underneath";
  write_text(bench.file(), kOther);
  const auto loaded = bench.workbench->reload(bench.id, "tab-1", kMetric);
  ASSERT_EQ(events.size(), 2u);
  EXPECT_EQ(events[1].revision, loaded->track.position);
  EXPECT_EQ(loaded->track.undo_note, "load the text of the file");
  bench.workbench->look_at_disk();
  EXPECT_EQ(events.size(), 2u) << "nor what was just loaded";
}

TEST(Disk, ASaveThatExpectsTheFileAsItIsNeedsNoForce) {
  Bench bench;
  const std::string hash = bench.edit({set("title", "Mine")}).track.disk_hash;
  const auto save = [&](const std::string& expected, bool over) {
    const auto answer = bench.workbench->save(bench.id, {"tab-1", expected, over}, kMetric);
    return std::holds_alternative<JobView>(*answer);
  };
  EXPECT_FALSE(save("", false));
  EXPECT_EQ(text_of_file(bench.file()), kStackJob);
  EXPECT_TRUE(save(hash, false));
  EXPECT_THAT(text_of_file(bench.file()), HasSubstr("\"Mine\""));
  EXPECT_FALSE(save(hash, false)) << "that was the text before";
  EXPECT_TRUE(save(hash, true));
}

TEST(Disk, WhatIsWrittenOverIsInTheJournalFirst) {
  Bench bench;
  const std::string mine = bench.edit({set("title", "Mine")}).text;
  write_text(bench.file(), kOther);
  const auto outside = bench.workbench->disk(bench.id);
  EXPECT_EQ(outside->text, kOther);
  EXPECT_FALSE(outside->missing);
  EXPECT_TRUE(std::holds_alternative<JobView>(*saved(bench, true)));
  EXPECT_EQ(text_of_file(bench.file()), mine);
  EXPECT_EQ(bench.view().text, mine);
  const auto undone = bench.workbench->undo(bench.id, "tab-1", kMetric);
  EXPECT_EQ(undone->text, kOther);
  EXPECT_EQ(text_of_file(bench.file()), mine) << "the file changes by saving only";
  EXPECT_EQ(bench.workbench->undo(bench.id, "tab-1", kMetric)->text, mine);
}

TEST(Disk, AFileThatIsGoneIsNotToldAsChanged) {
  Bench bench;
  bench.edit({set("title", "Mine")});
  write_text(bench.file(), kOther);
  bench.workbench->look_at_disk();
  EXPECT_FALSE(bench.view().disk_missing);
  std::filesystem::remove(bench.file());
  bench.workbench->look_at_disk();
  EXPECT_TRUE(bench.view().disk_missing);
  EXPECT_TRUE(bench.workbench->disk(bench.id)->missing);
  EXPECT_TRUE(std::holds_alternative<JobView>(*saved(bench, true)));
  EXPECT_FALSE(bench.view().disk_missing);
}

TEST(Disk, APartsFileThatChangesIsNoticed) {
  Bench bench(std::string("parts = [\"drawer.parts.toml\"]\n") + kStackJob);
  const auto drawer = bench.file().parent_path() / "drawer.parts.toml";
  EXPECT_FALSE(bench.view().diagnostics.empty()) << "it is not there yet";
  std::vector<JobEvent> events;
  bench.workbench->on_job_event([&](const JobEvent& event) { events.push_back(event); });
  bench.workbench->look_at_disk();
  EXPECT_TRUE(events.empty());
  write_text(drawer, "format = 1\n");
  bench.workbench->look_at_disk();
  bench.workbench->look_at_disk();
  ASSERT_EQ(events.size(), 1u);
  EXPECT_TRUE(events[0].parts_changed);
  EXPECT_EQ(events[0].job, bench.id);
  bench.view();
  std::filesystem::remove(drawer);
  bench.workbench->look_at_disk();
  EXPECT_EQ(events.size(), 2u);
}

TEST(Disk, ASecondWorkbenchTakesOverWhenTheFirstEnds) {
  Bench bench;
  bench.edit({set("title", "Mine")});
  Workbench second(bench.workbench->settings(), store::Journal::open((bench.folder / "journal.db").string()));
  EXPECT_THAT(second.job(bench.id, kMetric)->text, HasSubstr("\"Mine\""));
  EXPECT_EQ(second.session().journal, store::Journal::Standing::OtherWrites);
  std::vector<JobEvent> events;
  second.on_job_event([&](const JobEvent& event) { events.push_back(event); });
  second.look_at_disk();
  EXPECT_TRUE(events.empty());
  bench.workbench.reset();
  second.look_at_disk();
  ASSERT_EQ(events.size(), 1u);
  EXPECT_EQ(events[0].job, "");
  EXPECT_FALSE(second.session().read_only);
  const auto view = second.job(bench.id, kMetric);
  EXPECT_TRUE(second.edit(bench.id, {view->track.position, "tab-2", "", {set("title", "Ours")}}, kMetric)
                  .has_value());
  EXPECT_THAT(second.undo(bench.id, "tab-2", kMetric)->text, HasSubstr("\"Mine\""));
}

TEST(Disk, WhatIsOpenOutlivesTheLossOfTheJournal) {
  Bench bench;
  bench.edit({set("title", "Mine")});
  bench.edit({set("stack.seat", "18 wt")});  // a draft
  std::vector<JobEvent> events;
  bench.workbench->on_job_event([&](const JobEvent& event) { events.push_back(event); });
  std::filesystem::remove(bench.folder / "journal.db");
  bench.workbench->look_at_disk();
  ASSERT_EQ(events.size(), 1u);
  EXPECT_EQ(events[0].job, "");
  EXPECT_EQ(bench.workbench->session().journal, store::Journal::Standing::Renewed);
  bench.start();
  const JobView view = bench.view();
  EXPECT_THAT(view.text, HasSubstr("\"Mine\""));
  ASSERT_EQ(view.drafts.size(), 1u);
  EXPECT_EQ(view.drafts[0].draft.typed, "18 wt");
  EXPECT_TRUE(view.unsaved);
}

TEST(Disk, AnEditWhoseAnswerWasLostIsDoneOnce) {
  Bench bench;
  const EditRequest once{
      bench.view().track.position, "tab-1.7", "", {insert("stack.discs[0]", "1 x 20 x 0.10 mm")}, false};
  EditRequest again = once;
  again.again = true;
  ASSERT_TRUE(bench.workbench->edit(bench.id, once, kMetric).has_value());
  bench.edit({set("title", "Another hand")});
  bench.start();
  const std::string before = bench.view().text;
  const auto answer = bench.workbench->edit(bench.id, again, kMetric);
  EXPECT_EQ(std::get<JobView>(*answer).text, before);
  again.client = "tab-1.8";
  again.base = bench.view().track.position;
  EXPECT_NE(std::get<JobView>(*bench.workbench->edit(bench.id, again, kMetric)).text, before)
      << "the first request never came";
}

}  // namespace
}  // namespace shimwright::server
