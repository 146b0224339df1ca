#include "store/journal.h"

#include <SQLiteCpp/Database.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "base/test_folder.h"
#include "store/journal_database.h"
#include "store/lock_file.h"
#include "store/text_change.h"

namespace shimwright::store {
namespace {

namespace fs = std::filesystem;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

std::string contents(const std::string& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

Entry entry(const std::string& text, const std::string& note = "") {
  return {text, {}, note, "tab-1", 1000, std::nullopt};
}

std::string text_at(const Journal& journal, const std::string& job) {
  const auto track = journal.track(job);
  return journal.revision(job, (*track)->position)->text;
}

TEST(Journal, KnowsNothingOfAJobThatWasNeverWrittenDown) {
  const Journal journal = Journal::in_memory();
  EXPECT_FALSE(journal.track("/shop/fork.job.toml")->has_value());
  EXPECT_EQ(journal.revision("/shop/fork.job.toml", 1).error().kind, Fault::Kind::NotThere);
}

TEST(Journal, GivesBackARevisionAsItWasWritten) {
  Journal journal = Journal::in_memory();
  const Entry written{std::string("text with \0 and \xff in it", 24),
                      {{"unit[0].travel", "5 wt", false}, {"stack[2]", "?", true}},
                      "swap a shim",
                      "tab-1",
                      1764082740123,
                      "0123456789abcdef"};
  const auto track = journal.append("/a", written);
  ASSERT_TRUE(track.has_value());
  EXPECT_EQ(track->position, 1);
  EXPECT_EQ(track->disk_hash, "0123456789abcdef");
  const auto revision = journal.revision("/a", 1);
  ASSERT_TRUE(revision.has_value());
  EXPECT_EQ(revision->text, written.text);
  EXPECT_EQ(revision->drafts, written.drafts);
  EXPECT_EQ(revision->note, written.note);
  EXPECT_EQ(revision->client, written.client);
  EXPECT_EQ(revision->time, written.time);
}

TEST(Journal, UndoesAndRedoesWithTheirNames) {
  Journal journal = Journal::in_memory();
  for (const char* text : {"one", "two", "three"}) ASSERT_TRUE(journal.append("/a", entry(text, text)));
  const auto back = journal.undo("/a");
  EXPECT_EQ(back->position, 2);
  EXPECT_EQ(back->undo_note, "two");
  EXPECT_EQ(back->redo_note, "three");
  EXPECT_EQ(journal.undo("/a")->undo_to, 0);
  EXPECT_EQ(journal.undo("/a")->position, 1) << "the first revision has nothing before it";
  EXPECT_EQ(journal.redo("/a")->position, 2);
  EXPECT_EQ(journal.redo("/a")->position, 3);
  EXPECT_EQ(journal.redo("/a")->redo_to, 0);
  EXPECT_EQ(text_at(journal, "/a"), "three");
}

TEST(Journal, KeepsTheBranchThatAnEditAfterUndoLeaves) {
  Journal journal = Journal::in_memory();
  for (const char* text : {"one", "two"}) ASSERT_TRUE(journal.append("/a", entry(text)));
  ASSERT_TRUE(journal.undo("/a"));
  const auto track = journal.append("/a", entry("other"));
  EXPECT_EQ(track->position, 3);
  EXPECT_EQ(track->undo_to, 1);
  EXPECT_EQ(journal.revision("/a", 2)->text, "two");
  ASSERT_TRUE(journal.undo("/a"));
  EXPECT_EQ(journal.redo("/a")->position, 3) << "redo follows the newest branch";
}

TEST(Journal, CountsEveryChangeOfAJobSoThatTheNewerAnswerIsKnown) {
  Journal journal = Journal::in_memory();
  const auto first = journal.append("/a", entry("one"))->serial;
  EXPECT_EQ(first, 1);
  const auto second = journal.append("/a", entry("two"))->serial;
  const auto third = journal.undo("/a")->serial;
  const auto fourth = journal.set_disk_hash("/a", "00")->serial;
  EXPECT_LT(first, second);
  EXPECT_LT(second, third);
  EXPECT_LT(third, fourth);
}

TEST(Journal, KeepsJobsApart) {
  Journal journal = Journal::in_memory();
  ASSERT_TRUE(journal.append("/a", entry("one")));
  ASSERT_TRUE(journal.append("/b", entry("other")));
  EXPECT_EQ(text_at(journal, "/a"), "one");
  EXPECT_EQ(text_at(journal, "/b"), "other");
  EXPECT_EQ(journal.undo("/c").error().kind, Fault::Kind::NotThere);
}

TEST(Journal, RemembersOverARestart) {
  const TestFolder folder;
  {
    Journal journal = Journal::open(folder.file("deep/er/journal.db"));
    EXPECT_THAT(journal.notice(), IsEmpty());
    for (int i = 0; i < 200; ++i) ASSERT_TRUE(journal.append("/a", entry("text " + std::to_string(i))));
    for (int i = 0; i < 50; ++i) ASSERT_TRUE(journal.undo("/a"));
  }
  Journal journal = Journal::open(folder.file("deep/er/journal.db"));
  EXPECT_THAT(journal.notice(), IsEmpty());
  EXPECT_EQ(text_at(journal, "/a"), "text 149");
  for (int i = 0; i < 50; ++i) ASSERT_TRUE(journal.redo("/a"));
  EXPECT_EQ(text_at(journal, "/a"), "text 199");
  for (int i = 0; i < 199; ++i) ASSERT_TRUE(journal.undo("/a"));
  EXPECT_EQ(text_at(journal, "/a"), "text 0");
}

TEST(Journal, ASecondOneOnlyReadsAndSaysWhereTheFirstIs) {
  const TestFolder folder;
  Journal first = Journal::open(folder.file("journal.db"));
  first.announce_address("http://127.0.0.1:8417/");
  ASSERT_TRUE(first.append("/a", entry("one")));
  Journal second = Journal::open(folder.file("journal.db"));
  EXPECT_TRUE(second.read_only());
  EXPECT_EQ(second.other_address(), "http://127.0.0.1:8417/");
  EXPECT_THAT(second.notice(), HasSubstr("only read"));
  ASSERT_TRUE(first.append("/a", entry("two")));
  EXPECT_EQ(text_at(second, "/a"), "two");
  EXPECT_EQ(second.append("/a", entry("three")).error().kind, Fault::Kind::ReadOnly);
  EXPECT_EQ(text_at(first, "/a"), "two");
}

TEST(Journal, ASecondOneWritesWhenTheFirstHasEnded) {
  const TestFolder folder;
  auto first = std::make_unique<Journal>(Journal::open(folder.file("journal.db")));
  first->announce_address("http://127.0.0.1:8417/");
  ASSERT_TRUE(first->append("/a", entry("one")));
  Journal second = Journal::open(folder.file("journal.db"));
  EXPECT_EQ(second.standing(), Journal::Standing::OtherWrites);
  EXPECT_FALSE(second.try_to_write()) << "the first one is still there";
  first.reset();
  EXPECT_TRUE(second.try_to_write());
  EXPECT_EQ(second.standing(), Journal::Standing::Kept);
  EXPECT_THAT(second.notice(), IsEmpty());
  EXPECT_EQ(second.earlier_address(), "http://127.0.0.1:8417/");
  EXPECT_FALSE(second.try_to_write()) << "it does already";
  ASSERT_TRUE(second.append("/a", entry("two")));
  ASSERT_TRUE(second.undo("/a"));
  EXPECT_EQ(text_at(second, "/a"), "one");
}

TEST(Journal, ALockThatNobodyHoldsIsNotTakenForAnotherWorkbench) {
  const TestFolder folder;
  const std::string file = folder.file("journal.db");
  {
    Journal journal = Journal::open(file);
    ASSERT_TRUE(journal.append("/a", entry("one")));
  }
  std::ofstream(file + ".lock") << "http://127.0.0.1:1/";  // of one that was killed
  EXPECT_EQ(Journal::open(file).standing(), Journal::Standing::Kept);
  std::filesystem::remove(file + ".lock");
  std::filesystem::create_directory(file + ".lock");  // not even root can open it as a file
  Journal journal = Journal::open(file);
  EXPECT_EQ(journal.standing(), Journal::Standing::CannotWrite);
  EXPECT_TRUE(journal.read_only());
  EXPECT_THAT(journal.notice(), testing::Not(HasSubstr("nother workbench")));
  EXPECT_EQ(text_at(journal, "/a"), "one");
  std::filesystem::remove(file + ".lock");
  EXPECT_TRUE(journal.try_to_write());
  EXPECT_TRUE(journal.append("/a", entry("two")));
}

/// A journal with this many changes, closed again.
void write_changes(const std::string& file, int n) {
  Journal journal = Journal::open(file);
  for (int i = 0; i < n; ++i) ASSERT_TRUE(journal.append("/a", entry("text " + std::to_string(i))));
}

TEST(Journal, SaysThatItHasLostItsEnd) {
  const TestFolder folder;
  const std::string file = folder.file("journal.db"), copy = folder.file("copy.db");
  write_changes(file, 5);
  std::filesystem::copy_file(file, copy);
  write_changes(file, 3);
  EXPECT_EQ(Journal::open(file).standing(), Journal::Standing::Kept);

  std::filesystem::copy_file(copy, file, std::filesystem::copy_options::overwrite_existing);
  {
    Journal journal = Journal::open(file);
    EXPECT_EQ(journal.standing(), Journal::Standing::Shortened);
    EXPECT_THAT(journal.notice(), HasSubstr("of 8 changes it holds 5"));
    EXPECT_EQ(text_at(journal, "/a"), "text 4");
  }
  EXPECT_EQ(Journal::open(file).standing(), Journal::Standing::Kept) << "it is told once";
}

TEST(Journal, SaysThatItWasEmptiedOrTakenAway) {
  const TestFolder folder;
  const std::string file = folder.file("journal.db");
  write_changes(file, 5);
  std::ofstream(file, std::ios::trunc).flush();
  EXPECT_EQ(Journal::open(file).standing(), Journal::Standing::Shortened);
  write_changes(file, 5);
  std::filesystem::remove(file);
  EXPECT_EQ(Journal::open(file).standing(), Journal::Standing::Shortened);
}

TEST(Journal, SaysThatItHasLostItsLog) {
  const TestFolder folder;
  const std::string file = folder.file("journal.db"), killed = folder.file("killed.db");
  write_changes(file, 3);
  Journal journal = Journal::open(file);
  ASSERT_TRUE(journal.append("/a", entry("four")));
  // as a kill leaves it, and without its log
  std::filesystem::copy_file(file, killed);
  std::filesystem::copy_file(file + ".tally", killed + ".tally");
  Journal without = Journal::open(killed);
  EXPECT_EQ(without.standing(), Journal::Standing::Shortened);
  EXPECT_EQ(text_at(without, "/a"), "text 2");
}

TEST(Journal, ATallyThatCannotBeReadSaysNothing) {
  const TestFolder folder;
  const std::string file = folder.file("journal.db");
  for (const char* text : {"", "99", "99 ", "99 9", "many many", "99 98\n"}) {
    write_changes(file, 2);
    std::ofstream(file + ".tally", std::ios::trunc) << text;
    EXPECT_EQ(Journal::open(file).standing(), Journal::Standing::Kept) << text;
  }
}

TEST(Journal, BeginsAgainWhenItsFileWasTakenAway) {
  const TestFolder folder;
  const std::string file = folder.file("journal.db"), other = folder.file("other.db");
  write_changes(other, 3);
  Journal journal = Journal::open(file);
  journal.announce_address("http://127.0.0.1:8417/");
  ASSERT_TRUE(journal.append("/a", entry("one")));
  EXPECT_FALSE(journal.renew_if_displaced());
  std::filesystem::remove(file);
  EXPECT_TRUE(journal.renew_if_displaced());
  EXPECT_EQ(journal.standing(), Journal::Standing::Renewed);
  EXPECT_FALSE(journal.track("/a").value().has_value());
  ASSERT_TRUE(journal.append("/a", entry("two")));
  EXPECT_FALSE(journal.renew_if_displaced());
  std::filesystem::rename(other, file);
  EXPECT_TRUE(journal.renew_if_displaced());
  EXPECT_EQ(text_at(journal, "/a"), "text 2");
  EXPECT_EQ(Journal::open(file).other_address(), "http://127.0.0.1:8417/");
}

TEST(Journal, KnowsWhoMadeARevision) {
  Journal journal = Journal::in_memory();
  Entry made = entry("one");
  made.client = "tab 7";
  ASSERT_TRUE(journal.append("/a", made));
  ASSERT_TRUE(journal.append("/a", entry("two")));
  EXPECT_TRUE(journal.has_made("tab 7", "/a").value());
  EXPECT_FALSE(journal.has_made("tab 7", "/b").value());
  EXPECT_FALSE(journal.has_made("tab 8", "/a").value());
}

TEST(LockFile, TheShorterTextOfTheNextHolderStandsAlone) {
  const TestFolder folder;
  const std::string file = folder.file("held.lock");
  LockFile::take(file)->write("http://127.0.0.1:65535/");
  auto lock = LockFile::take(file);
  ASSERT_TRUE(lock.has_value());
  lock->write("http://[::1]:1/");
  EXPECT_EQ(LockFile::text_of(file), "http://[::1]:1/");
  EXPECT_FALSE(LockFile::take(file).has_value());
  LockFile taken_over = std::move(*lock);
  lock = shimwright::failure(LockFile::Fault::Held);
  EXPECT_FALSE(LockFile::take(file).has_value()) << "it moved with its holder";
  EXPECT_EQ(LockFile::text_of(folder.file("none.lock")), "");
  EXPECT_FALSE(LockFile::take(folder.file("none/held.lock")).has_value());
}

TEST(TextChange, ThatDoesNotFitIsAFaultOfTheProgram) {
  EXPECT_EQ(changed("abcd", {2, 2, "-"}), "ab-cd");
  EXPECT_ANY_THROW(changed("abcd", {2, 3, "-"}));
  EXPECT_ANY_THROW(changed("abcd", {5, 0, "-"}));
}

// A long history stays small and quick: revisions are kept as changes, whole at the first and at every 64th.
TEST(Journal, KeepsChangesAndEvery64thTextWhole) {
  const TestFolder folder;
  const std::string file = folder.file("journal.db"), long_text(1000, 'x');
  {
    Journal journal = Journal::open(file);
    for (int i = 0; i < 200; ++i)
      ASSERT_TRUE(journal.append("/a", entry(long_text + std::to_string(i) + long_text)));
    for (int i = 0; i < 200; ++i)
      EXPECT_EQ(journal.revision("/a", i + 1)->text, long_text + std::to_string(i) + long_text);
  }
  SQLite::Database db(file, SQLite::OPEN_READONLY);
  SQLite::Statement rows(db, "SELECT number, depth, length(text) FROM revision ORDER BY number");
  for (int i = 0; i < 200; ++i) {
    ASSERT_TRUE(rows.executeStep());
    EXPECT_EQ(rows.getColumn(0).getInt(), i + 1);
    EXPECT_EQ(rows.getColumn(1).getInt(), i % 64);
    if (i % 64 == 0)
      EXPECT_GT(rows.getColumn(2).getInt(), 2000);
    else
      EXPECT_LE(rows.getColumn(2).getInt(), 3);
  }
}

TEST(Journal, TakesOverWhenTheFirstHasGone) {
  const TestFolder folder;
  {
    const Journal first = Journal::open(folder.file("journal.db"));
  }
  EXPECT_FALSE(Journal::open(folder.file("journal.db")).read_only());
}

TEST(Journal, KeepsADamagedFileAsideAndBeginsANewOne) {
  const TestFolder folder;
  const std::string file = folder.file("journal.db");
  const std::string rubbish(5000, '#');
  for (int n = 1; n <= 2; ++n) {
    std::ofstream(file, std::ios::binary) << rubbish;
    Journal journal = Journal::open(file);
    EXPECT_THAT(journal.notice(), HasSubstr("damaged"));
    EXPECT_FALSE(journal.read_only());
    EXPECT_TRUE(journal.append("/a", entry("one")));
    EXPECT_EQ(contents(file + ".damaged-" + std::to_string(n)), rubbish);
  }
}

TEST(Journal, FindsDamageInTheMiddleOfAFile) {
  const TestFolder folder;
  const std::string file = folder.file("journal.db");
  {
    Journal journal = Journal::open(file);
    for (int i = 0; i < 300; ++i)
      ASSERT_TRUE(journal.append("/a", entry(std::string(500, static_cast<char>('a' + i % 26)))));
  }
  std::string bytes = contents(file);
  for (std::size_t at = 4096; at + 64 < bytes.size(); at += 4096) bytes.replace(at, 64, 64, '\x5a');
  std::ofstream(file, std::ios::binary) << bytes;
  const Journal journal = Journal::open(file);
  EXPECT_THAT(journal.notice(), HasSubstr("damaged"));
  EXPECT_EQ(contents(file + ".damaged-1"), bytes);
}

TEST(Journal, LeavesTheFileOfANewerProgramAsItIs) {
  const TestFolder folder;
  const std::string file = folder.file("journal.db");
  {
    SQLite::Database newer(file, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    newer.exec("CREATE TABLE thing (a); PRAGMA user_version = 900");
  }
  const std::string before = contents(file);
  {
    Journal journal = Journal::open(file);
    EXPECT_THAT(journal.notice(), HasSubstr("newer"));
    EXPECT_EQ(journal.file(), folder.file("journal.v1.db"));
    EXPECT_TRUE(journal.append("/a", entry("one")));
  }
  EXPECT_EQ(contents(file), before);
  EXPECT_EQ(text_at(Journal::open(file), "/a"), "one");
}

// A revision that does not fit the one it was made from is damage, not a text to show.
TEST(Journal, FindsARevisionThatDoesNotFitItsParent) {
  const TestFolder folder;
  const std::string file = folder.file("journal.db");
  {
    Journal journal = Journal::open(file);
    ASSERT_TRUE(journal.append("/a", entry("a text of thirty-one characters")));
    ASSERT_TRUE(journal.append("/a", entry("a text of thirty-two characters.")));
  }
  for (const char* change : {"head = 500, tail = 0", "head = 0, tail = 500", "head = 20, tail = 20"}) {
    {
      SQLite::Database db(file, SQLite::OPEN_READWRITE);
      db.exec(std::string("UPDATE revision SET ") + change + " WHERE number = 2");
    }
    const Journal journal = Journal::open(file);
    EXPECT_EQ(journal.revision("/a", 1)->text, "a text of thirty-one characters");
    ASSERT_FALSE(journal.revision("/a", 2)) << change;
    EXPECT_EQ(journal.revision("/a", 2).error().kind, Fault::Kind::Damaged) << change;
  }
}

TEST(Journal, FindsThatARevisionIsMissing) {
  const TestFolder folder;
  const std::string file = folder.file("journal.db");
  {
    Journal journal = Journal::open(file);
    ASSERT_TRUE(journal.append("/a", entry("one")));
    ASSERT_TRUE(journal.append("/a", entry("two")));
  }
  {
    SQLite::Database db(file, SQLite::OPEN_READWRITE);
    db.exec("DELETE FROM revision WHERE number = 1");
  }
  Journal journal = Journal::open(file);
  EXPECT_EQ(journal.revision("/a", 1).error().kind, Fault::Kind::NotThere);
  EXPECT_EQ(journal.revision("/a", 2).error().kind, Fault::Kind::Damaged);
  {
    SQLite::Database db(file, SQLite::OPEN_READWRITE);
    db.exec("DELETE FROM revision");
  }
  EXPECT_EQ(journal.append("/a", entry("three")).error().kind, Fault::Kind::Damaged)
      << "what it was typed on is gone";
}

TEST(Journal, IsKeptInMemoryWhereItsFolderCannotBe) {
  const TestFolder folder;
  std::ofstream(folder.file("flat")) << "a file";
  Journal journal = Journal::open(folder.file("flat/journal.db"));
  EXPECT_TRUE(journal.is_in_memory());
  EXPECT_THAT(journal.notice(), HasSubstr("save your jobs"));
  EXPECT_TRUE(journal.append("/a", entry("one")));
  EXPECT_TRUE(Journal::open(folder.path.string()).is_in_memory()) << "a folder is no journal";
}

// SQLite keeps to REFERENCES and to the disk only when it is told so on each opening (sqlite.org/pragma.html)
TEST(JournalDatabase, IsOpenedSoThatItKeepsWhatItAcknowledges) {
  const TestFolder folder;
  const OpenedDatabase opened = open_database(folder.file("journal.db"));
  ASSERT_NE(opened.db, nullptr);
  EXPECT_EQ(opened.db->execAndGet("PRAGMA foreign_keys").getInt(), 1);
  EXPECT_EQ(opened.db->execAndGet("PRAGMA synchronous").getInt(), 2);  // FULL
  EXPECT_EQ(opened.db->execAndGet("PRAGMA journal_mode").getString(), "wal");
  EXPECT_EQ(memory_database("").db->execAndGet("PRAGMA foreign_keys").getInt(), 1);
  EXPECT_EQ(std::filesystem::status(folder.path / "journal.db.lock").permissions(),
            fs::perms::owner_read | fs::perms::owner_write);
}

TEST(JournalSchema, EveryStoreThatWasEverReleasedOpensWithAllItHolds) {
  int n_stores = 0;
  for (const auto& kept : fs::directory_iterator(SW_SOURCE_DIR "/test/durability/stores")) {
    if (kept.path().extension() != ".db") continue;
    ++n_stores;
    const TestFolder folder;
    fs::copy_file(kept.path(), folder.file("journal.db"));
    Journal journal = Journal::open(folder.file("journal.db"));
    EXPECT_THAT(journal.notice(), IsEmpty()) << kept.path();
    EXPECT_EQ(text_at(journal, "/shop/kept.job.toml"), "title = \"kept, second\"\n");
    EXPECT_EQ(journal.revision("/shop/kept.job.toml", 3)->drafts,
              (std::vector<Draft>{{"unit[0].travel", "5 wt", false}}));
    EXPECT_EQ(journal.redo("/shop/kept.job.toml")->position, 3);
    EXPECT_TRUE(journal.append("/shop/kept.job.toml", entry("new")));
  }
  EXPECT_EQ(n_stores, schema_version()) << "each version of the schema leaves one file, vNNN.db";
}

}  // namespace
}  // namespace shimwright::store
