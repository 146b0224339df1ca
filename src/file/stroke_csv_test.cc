#include "file/stroke_csv.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "file/load.h"

namespace shimwright::file {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

TEST(StrokeCsv, TimeBeginsAtZeroWhateverTheLoggersClockSays) {
  const StrokeResult read = read_stroke("Time [ms],Travel [mm]\n1000,10\n1010,12\n1020,11\n", {});
  ASSERT_TRUE(read.faults.empty());
  EXPECT_THAT(read.stroke.time,
              ElementsAre(testing::DoubleEq(0.0), testing::DoubleNear(0.01, 1e-12),
                          testing::DoubleNear(0.02, 1e-12)));  // 1e-12: a millionth of a step
  EXPECT_EQ(read.stroke.travel.size(), 3u);
}

TEST(StrokeCsv, AFileWithoutTimeGoesByItsRate) {
  const StrokeResult read = read_stroke("travel [mm]\n10\n12\n", {"", "", "", 500.0});
  ASSERT_TRUE(read.faults.empty());
  EXPECT_THAT(read.stroke.time, ElementsAre(0.0, 0.002));
}

TEST(StrokeCsv, ColumnsAreFoundByTheNameAskedFor) {
  const StrokeResult read =
      read_stroke("lap time [s],front [mm],rear [mm]\n0,1,2\n1,3,4\n", {"Lap Time", "REAR", "", 0.0});
  ASSERT_TRUE(read.faults.empty());
  EXPECT_DOUBLE_EQ(read.stroke.travel[1], 4e-3);
}

TEST(StrokeCsv, WhatIsMissingIsToldWithTheColumnsThereAre) {
  const StrokeResult read = read_stroke("when [s],front [mm]\n0,1\n1,2\n", {});
  ASSERT_EQ(read.faults.size(), 2u);
  EXPECT_THAT(read.faults[0].got, HasSubstr("\"front\""));
  EXPECT_THAT(read.faults[0].remedy, HasSubstr("travel_column"));
  EXPECT_THAT(read.faults[1].remedy, HasSubstr("sample_rate"));
}

TEST(StrokeCsv, TimeThatStandsStillIsToldWithItsLine) {
  const StrokeResult read = read_stroke("t [s],x [mm]\n0,1\n1,2\n1,3\n", {});
  ASSERT_EQ(read.faults.size(), 1u);
  EXPECT_EQ(read.faults[0].line, 4);
}

TEST(StrokeCsv, AMeasuredForceComesAlongWhenItIsAskedFor) {
  const StrokeResult read = read_stroke("t [s],x [mm],load [kN]\n0,1,0.2\n1,2,-0.1\n", {"", "", "load", 0.0});
  ASSERT_TRUE(read.faults.empty());
  EXPECT_THAT(read.stroke.force, ElementsAre(200.0, -100.0));
}

TEST(StrokeCsv, OneSampleIsNoStroke) {
  EXPECT_EQ(read_stroke("t [s],x [mm]\n0,1\n", {}).faults.size(), 1u);
}

TEST(RecordedDrive, IsReadBesideTheJobAndTurnedToTheTravelOfTheUnit) {
  MemoryFiles files({{"jobs/a.toml",
                      "[[bench.drive]]\nkind = \"recorded\"\nfile = \"lap.csv\"\noutwards = true\nzero_at = "
                      "\"100 mm\"\n"},
                     {"jobs/lap.csv", "t [s],x [mm]\n0,0\n1,20\n"}});
  const LoadResult loaded = load_job(files, "jobs/a.toml");
  for (const Diagnostic& diagnostic : loaded.diagnostics) ADD_FAILURE() << render(diagnostic, "");
  const DriveSpec& drive = loaded.job.bench->drives.at(0);
  EXPECT_THAT(drive.record.travel, ElementsAre(0.1, testing::DoubleNear(0.08, 1e-15)));
  EXPECT_EQ(loaded.job.files.back().name, "jobs/lap.csv");
}

}  // namespace
}  // namespace shimwright::file
