#include "server/folder.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <filesystem>
#include <fstream>

#include "base/test_folder.h"

namespace shimwright::server {
namespace {

namespace fs = std::filesystem;
using ::testing::ElementsAre;

struct Shop : TestFolder {
  void put(const std::string& name) const {
    fs::create_directories((path / name).parent_path());
    std::ofstream(path / name) << "format = 1\n";
  }
  std::vector<std::string> names() const {
    std::vector<std::string> names;
    for (const JobFile& file : job_files(path.string())) names.push_back(file.name);
    return names;
  }
};

TEST(Folder, HoldsTheJobsOfItselfAndOfThreeFoldersBelow) {
  const Shop shop;
  for (const char* name :
       {"b.job.toml", "a.job.toml", "1/a.job.toml", "1/2/3/a.job.toml", "1/2/3/4/a.job.toml", "notes.txt",
        "parts.toml", ".hidden.job.toml", ".git/a.job.toml"})
    shop.put(name);
  fs::create_directories(shop.path / "folder.job.toml");
  EXPECT_THAT(shop.names(), ElementsAre("1/2/3/a.job.toml", "1/a.job.toml", "a.job.toml", "b.job.toml"));
  EXPECT_TRUE(job_files(shop.file("nowhere")).empty());
}

TEST(Folder, OnAHomeFolderStopsLookingAtFiveHundredJobs) {
  const Shop shop;
  for (int i = 0; i < 510; ++i) shop.put(std::to_string(i) + ".job.toml");
  EXPECT_EQ(shop.names().size(), 500u);
}

TEST(Folder, EachJobHasItsIdItsPathAndItsNameFromTheFolder) {
  const Shop shop;
  shop.put("1/a.job.toml");
  const std::vector<JobFile> files = job_files(shop.path.string());
  ASSERT_EQ(files.size(), 1u);
  EXPECT_EQ(files[0].path, shop.file("1/a.job.toml"));
  EXPECT_EQ(files[0].name, "1/a.job.toml");
  EXPECT_EQ(files[0].id, id_of(shop.file("1/a.job.toml")));
  EXPECT_EQ(files[0].id.size(), 16u);
}

TEST(Folder, AFileHasTheSameIdBySeveralWaysAndAnotherOneAnother) {
  const Shop shop;
  shop.put("a.job.toml");
  fs::create_directories(shop.path / "b");
  EXPECT_EQ(absolute_path(shop.file("b/../a.job.toml")), absolute_path(shop.file("a.job.toml")));
  EXPECT_EQ(id_of("/a.job.toml"), id_of("/a.job.toml"));
  EXPECT_NE(id_of("/a.job.toml"), id_of("/b.job.toml"));
}

TEST(Folder, AStampTellsWhenAFileChanges) {
  const Shop shop;
  shop.put("a");
  const Stamp before = stamp_of(shop.file("a"));
  EXPECT_TRUE(stamp_of(shop.file("a")) == before);
  const auto written = fs::last_write_time(shop.path / "a");
  fs::last_write_time(shop.path / "a", written + std::chrono::nanoseconds(1000));
  EXPECT_FALSE(stamp_of(shop.file("a")) == before) << "written a moment later";
  fs::last_write_time(shop.path / "a", written + std::chrono::seconds(1));
  EXPECT_FALSE(stamp_of(shop.file("a")) == before);
  std::ofstream(shop.path / "a") << "longer than it was";
  fs::last_write_time(shop.path / "a", written);
  EXPECT_FALSE(stamp_of(shop.file("a")) == before) << "another size";
  EXPECT_TRUE(stamp_of(shop.file("none")) == Stamp{});
  EXPECT_FALSE(before == Stamp{});
  shop.put("b");
  fs::last_write_time(shop.path / "b", written);
  Stamp here = stamp_of(shop.file("b"));
  EXPECT_EQ(here.size, 11) << "format = 1 and the end of its line";
  EXPECT_EQ(here.seconds, before.seconds);
  EXPECT_EQ(here.nanoseconds, before.nanoseconds);
  EXPECT_FALSE(here == before) << "another file of the same size and time";
}

}  // namespace
}  // namespace shimwright::server
