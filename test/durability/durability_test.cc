// A writer that dies or whose disk fails at each of its operations in turn, each time in a process of its
// own: what it was told is written must be there afterwards, and nothing half done.
#include <SQLiteCpp/Database.h>
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "base/disk.h"
#include "base/test_folder.h"
#include "faulty_disk.h"
#include "store/journal.h"

namespace shimwright::durability {
namespace {

namespace fs = std::filesystem;
using store::Journal;

constexpr const char* kJob = "/shop/fork.job.toml";
constexpr int kEdits = 3;
constexpr long kMostOperations = 2000;  // a loop that does not end by itself is a failure

/// The text after the n-th edit; large enough to take several pages.
std::string text_after(int n) {
  std::string text = "title = \"after " + std::to_string(n) + "\"\n";
  for (int line = 0; line < 200; ++line) text += "# line " + std::to_string(line * (n % 3 + 1)) + "\n";
  return text;
}

store::Entry entry_of(int n) {
  return {text_after(n), {{"unit[0].travel", "draft " + std::to_string(n), false}}, "edit", "tab", n, {}};
}

struct Folder : TestFolder {
  void anew() const {
    fs::remove_all(path);
    fs::create_directories(path);
  }
};

/// What a child did before it ended.
struct Ended {
  std::vector<int> acknowledged;  // numbers of edits, in order
  bool normally = false;
};

/// Runs `work` in a child. It is handed a function that tells the parent what is acknowledged.
Ended in_child(const std::function<void(const std::function<void(int)>&)>& work) {
  std::array<int, 2> pipe{};
  EXPECT_EQ(::pipe(pipe.data()), 0);
  const pid_t child = ::fork();
  if (child == 0) {
    ::close(pipe[0]);
    const auto tell = [&](int n) {
      if (::write(pipe[1], &n, sizeof n) != sizeof n) ::_exit(2);
    };
    work(tell);
    ::_exit(0);
  }
  ::close(pipe[1]);
  Ended ended;
  int n = 0;
  while (::read(pipe[0], &n, sizeof n) == sizeof n) ended.acknowledged.push_back(n);
  ::close(pipe[0]);
  int status = 0;
  ::waitpid(child, &status, 0);
  ended.normally = WIFEXITED(status) && WEXITSTATUS(status) == 0;
  EXPECT_TRUE(ended.normally || (WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL)) << "status " << status;
  return ended;
}

/// Opens the journal and writes the edits that are not there yet, each of them told when it is acknowledged.
void write_edits(const std::string& file, const std::function<void(int)>& tell) {
  Journal journal = Journal::open(file);
  if (journal.is_in_memory()) return;  // it says so, and nobody is promised anything
  const auto track = journal.track(kJob);
  if (!track) return;
  int n = *track ? static_cast<int>((*track)->position) : 0;
  for (int attempt = 0; n < kEdits && attempt < 2 * kEdits; ++attempt) {
    if (!journal.append(kJob, entry_of(n + 1))) continue;  // as a person does: try again
    tell(++n);
  }
}

/// The journal holds every acknowledged edit, at most one more, each of them whole, and is sound.
void expect_kept(const std::string& file, const std::vector<int>& acknowledged) {
  {
    const Journal journal = Journal::open(file);
    ASSERT_EQ(journal.notice(), "");
    const auto track = journal.track(kJob);
    ASSERT_TRUE(track.has_value());
    const int last = *track ? static_cast<int>((*track)->position) : 0;
    const int promised = acknowledged.empty() ? 0 : acknowledged.back();
    ASSERT_GE(last, promised);
    ASSERT_LE(last, promised + 1) << "one may be written and not yet told";
    for (int n = 1; n <= last; ++n) {
      const auto revision = journal.revision(kJob, n);
      ASSERT_TRUE(revision.has_value());
      ASSERT_EQ(revision->text, text_after(n));
      ASSERT_EQ(revision->drafts, entry_of(n).drafts);
    }
  }
  ASSERT_FALSE(fs::exists(file + ".damaged-1"));
  if (!fs::exists(file)) return;
  SQLite::Database database(file, SQLite::OPEN_READONLY);
  ASSERT_EQ(database.execAndGet("PRAGMA integrity_check").getString(), "ok");
}

/// The accident at the first operation, the second, and so on, until a writer comes through without it.
void at_every_operation(Accident accident) {
  const Folder folder;
  const std::string file = folder.file("journal.db");
  long n = 1;
  bool met = true;
  for (; met && n < kMostOperations; ++n) {
    folder.anew();
    std::array<int, 2> seen{};
    ASSERT_EQ(::pipe(seen.data()), 0);
    const Ended ended = in_child([&](const auto& tell) {
      use_faulty_disk(accident, n);
      write_edits(file, tell);
      const long count = n_operations();
      if (::write(seen[1], &count, sizeof count) != sizeof count) ::_exit(2);
    });
    ::close(seen[1]);
    long count = kMostOperations;
    if (::read(seen[0], &count, sizeof count) != sizeof count) count = kMostOperations;
    ::close(seen[0]);
    met = count >= n;  // a child that was killed tells nothing: it met the accident
    if (accident == Accident::PowerCut && !ended.normally) restore_synced(folder.path.string());
    expect_kept(file, ended.acknowledged);
    if (testing::Test::HasFatalFailure()) FAIL() << "at operation " << n;

    // and the next one goes on from there
    const Ended next = in_child([&](const auto& tell) { write_edits(file, tell); });
    std::vector<int> all = ended.acknowledged;
    all.insert(all.end(), next.acknowledged.begin(), next.acknowledged.end());
    expect_kept(file, all);
    if (testing::Test::HasFatalFailure()) FAIL() << "after operation " << n;
    const Journal journal = Journal::open(file);
    ASSERT_EQ((*journal.track(kJob))->position, kEdits) << "the next writer had nothing in its way";
  }
  EXPECT_FALSE(met) << "it never came through";
  EXPECT_GT(n, 15) << "the disk was hardly asked: is the faulty one in use?";
}

TEST(Durability, AWriterKilledAtAnyWriteLosesNothingAcknowledged) {
  at_every_operation(Accident::Kill);
}

TEST(Durability, APowerCutAtAnyWriteLosesNothingAcknowledged) {
  at_every_operation(Accident::PowerCut);
}

TEST(Durability, ADiskThatFailsOnceAtAnyWriteLosesNothingAcknowledged) {
  at_every_operation(Accident::FailOnce);
}

TEST(Durability, ADiskThatFailsFromAnyWriteOnLosesNothingAcknowledged) {
  at_every_operation(Accident::FailAlways);
}

TEST(Durability, ADiskThatFillsUpAtAnyWriteLosesNothingAcknowledged) {
  at_every_operation(Accident::Full);
}

TEST(Durability, AFullDiskIsSaidSo) {
  const Folder folder;
  const Ended ended = in_child([&](const auto& tell) {
    Journal journal = [&] {
      use_faulty_disk(Accident::None, 0);
      return Journal::open(folder.file("journal.db"));
    }();
    use_faulty_disk(Accident::Full, 1);
    const auto answer = journal.append(kJob, entry_of(1));
    tell(!answer && answer.error().kind == store::Fault::Kind::Full ? 1 : 0);
  });
  EXPECT_EQ(ended.acknowledged, std::vector<int>{1});
}

TEST(Durability, AFileThatIsBeingReplacedIsTheOldOneOrTheNewOneWheneverTheWriterDies) {
  const Folder folder;
  const std::string file = folder.file("fork.job.toml");
  for (int round = 0; round < 40; ++round) {
    folder.anew();
    ASSERT_TRUE(create_file(file, text_after(0)).has_value());
    std::array<int, 2> pipe{};
    ASSERT_EQ(::pipe(pipe.data()), 0);
    const pid_t child = ::fork();
    if (child == 0) {
      for (int n = 1; n < 100000; ++n) {
        if (!replace_file(file, text_after(n))) ::_exit(2);
        if (::write(pipe[1], &n, sizeof n) != sizeof n) ::_exit(2);
      }
      ::_exit(3);
    }
    ::usleep(static_cast<useconds_t>(500 + 731 * round));
    ::kill(child, SIGKILL);
    ::waitpid(child, nullptr, 0);
    ::close(pipe[1]);
    int last = 0;
    while (::read(pipe[0], &last, sizeof last) == sizeof last) {
    }
    ::close(pipe[0]);
    const auto text = file_text(file);
    ASSERT_TRUE(text.has_value()) << text.error();
    EXPECT_TRUE(*text == text_after(last) || *text == text_after(last + 1)) << "after " << last;
  }
}

}  // namespace
}  // namespace shimwright::durability
