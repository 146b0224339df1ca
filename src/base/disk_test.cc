#include "base/disk.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>

namespace shimwright {
namespace {

namespace fs = std::filesystem;
using ::testing::HasSubstr;

/// A folder of its own that goes with the test.
struct Folder {
  fs::path path = fs::path(testing::TempDir()) / ("shimwright-disk-" + std::to_string(::getpid()));
  Folder() {
    fs::remove_all(path);
    fs::create_directories(path);
  }
  ~Folder() { fs::remove_all(path); }
  std::string file(const std::string& name) const { return (path / name).string(); }
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

}  // namespace
}  // namespace shimwright
