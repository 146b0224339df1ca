#include "base/disk.h"

#include <fcntl.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/ptrace.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <filesystem>
#include <fstream>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "base/test_folder.h"

namespace shimwright {
namespace {

namespace fs = std::filesystem;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

struct Folder : TestFolder {
  long n_entries() const { return std::distance(fs::directory_iterator(path), fs::directory_iterator()); }
};

TEST(Disk, WhatIsWrittenIsReadAgainByteForByte) {
  const Folder folder;
  const std::string bytes("a\0b\r\n\xff", 6);
  ASSERT_TRUE(create_file(folder.file("x"), bytes));
  EXPECT_EQ(*file_text(folder.file("x")), bytes);
  ASSERT_TRUE(replace_file(folder.file("x"), "short"));
  EXPECT_EQ(*file_text(folder.file("x")), "short");
  EXPECT_EQ(folder.n_entries(), 1) << "nothing lies beside it";
}

TEST(Disk, AFileThatIsThereIsNotMadeAnew) {
  const Folder folder;
  ASSERT_TRUE(create_file(folder.file("x"), "first"));
  const auto again = create_file(folder.file("x"), "second");
  ASSERT_FALSE(again);
  EXPECT_THAT(again.error(), HasSubstr("cannot be created"));
  EXPECT_EQ(*file_text(folder.file("x")), "first");
}

TEST(Disk, AFileReplacedKeepsItsPermissions) {
  const Folder folder;
  ASSERT_TRUE(create_file(folder.file("x"), "first"));
  ::chmod(folder.file("x").c_str(), 0604);
  ASSERT_TRUE(replace_file(folder.file("x"), "second"));
  struct stat facts{};
  ::stat(folder.file("x").c_str(), &facts);
  EXPECT_EQ(facts.st_mode & 07777, 0604u);
}

TEST(Disk, ThroughALinkTheFileThatItNamesIsReplaced) {
  const Folder folder;
  ASSERT_TRUE(create_file(folder.file("real"), "first"));
  fs::create_symlink("real", folder.path / "link");
  ASSERT_TRUE(replace_file(folder.file("link"), "second"));
  EXPECT_TRUE(fs::is_symlink(folder.path / "link"));
  EXPECT_EQ(*file_text(folder.file("real")), "second");
}

TEST(Disk, WhatCannotBeReadOrWrittenIsSaidWithItsName) {
  const Folder folder;
  EXPECT_THAT(file_text(folder.file("none")).error(), HasSubstr("none cannot be opened"));
  EXPECT_THAT(file_text(folder.path.string()).error(), HasSubstr("not an ordinary file"));
  EXPECT_THAT(file_text("/dev/zero").error(), HasSubstr("not an ordinary file"));
  ASSERT_TRUE(create_file(folder.file("x"), "0123456789"));
  EXPECT_THAT(file_text(folder.file("x"), 9).error(), HasSubstr("larger than 9 bytes"));
  EXPECT_TRUE(file_text(folder.file("x"), 10));
  EXPECT_FALSE(replace_file(folder.file("none/x"), "bytes"));
  fs::create_directories(folder.path / "d");
  EXPECT_FALSE(replace_file(folder.file("d"), "bytes")) << "a folder stands there";
  EXPECT_EQ(folder.n_entries(), 2) << "and nothing half done is left";
}

/// The system calls that say when something is on the disk, in the order in which `work` makes them, as a
/// tracer of the process sees them; a folder is told from a file by how it is opened.
std::vector<std::string> disk_calls_of(const std::function<void()>& work) {
  const pid_t child = ::fork();
  if (child == 0) {
    ::ptrace(PTRACE_TRACEME, 0, nullptr, nullptr);
    ::raise(SIGSTOP);
    work();
    ::_exit(0);
  }
  std::vector<std::string> calls;
  std::map<long long, std::string> opened;  // what a descriptor is
  std::string opening;
  int status = 0;
  ::waitpid(child, &status, 0);
  ::ptrace(PTRACE_SETOPTIONS, child, nullptr, PTRACE_O_TRACESYSGOOD | PTRACE_O_EXITKILL);
  while (true) {
    ::ptrace(PTRACE_SYSCALL, child, nullptr, nullptr);
    if (::waitpid(child, &status, 0) < 0 || WIFEXITED(status) || WIFSIGNALED(status)) break;
    if (!WIFSTOPPED(status) || WSTOPSIG(status) != (SIGTRAP | 0x80)) continue;
    __ptrace_syscall_info info{};
    ::ptrace(static_cast<__ptrace_request>(PTRACE_GET_SYSCALL_INFO), child, sizeof info, &info);
    if (info.op == PTRACE_SYSCALL_INFO_EXIT) {
      if (!opening.empty()) opened[info.exit.rval] = opening;
      opening.clear();
      continue;
    }
    switch (info.entry.nr) {
      case SYS_openat:
        opening = (info.entry.args[2] & O_DIRECTORY) != 0 ? "folder" : "file";
        break;
      case SYS_write:
        if (calls.empty() || calls.back() != "write") calls.push_back("write");
        break;
      case SYS_fsync:
      case SYS_fdatasync:
        calls.push_back("sync " + opened[static_cast<long long>(info.entry.args[0])]);
        break;
      case SYS_rename:
      case SYS_renameat:
      case SYS_renameat2:
        calls.push_back("rename");
        break;
      default:
        break;
    }
  }
  return calls;
}

TEST(Disk, AFileIsOnTheDiskBeforeItTakesItsPlaceAndThenItsNameIs) {
  const Folder folder;
  const std::string path = folder.file("job.toml");
  std::ofstream(path) << "old";
  EXPECT_THAT(disk_calls_of([&] { (void)replace_file(path, "new"); }),
              ElementsAre("write", "sync file", "rename", "sync folder"));
  EXPECT_THAT(disk_calls_of([&] { (void)create_file(folder.file("another"), "new"); }),
              ElementsAre("write", "sync file", "sync folder"));
}

TEST(Disk, AFolderIsMadeWithThoseAboveIt) {
  const TestFolder folder;
  EXPECT_TRUE(make_folder(folder.file("a/b/c")));
  EXPECT_TRUE(std::filesystem::is_directory(folder.path / "a/b/c"));
  EXPECT_TRUE(make_folder(folder.file("a/b/c"))) << "it is there already";
  EXPECT_TRUE(make_folder(""));
  std::ofstream(folder.path / "flat") << "a file";
  for (const char* name : {"flat", "flat/a", "flat/a/b"}) {
    const auto made = make_folder(folder.file(name));
    ASSERT_FALSE(made) << name;
    EXPECT_NE(made.error().find("flat"), std::string::npos);
  }
}

}  // namespace
}  // namespace shimwright
