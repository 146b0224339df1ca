#include "file/table_csv.h"

#include <algorithm>
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace shimwright::file {
namespace {

using testing::DoubleNear;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::Pointwise;
using units::Kind;

std::vector<double> column(std::string_view text, std::size_t index, Kind kind) {
  const CsvResult read = read_csv(text);
  for (const CsvFault& fault : read.faults) ADD_FAILURE() << fault.line << ": " << fault.what;
  std::vector<CsvFault> faults;
  const std::vector<double> values = csv_numbers(read.table, index, kind, faults);
  for (const CsvFault& fault : faults) ADD_FAILURE() << fault.line << ": " << fault.what;
  return values;
}

CsvFault only_fault(std::string_view text) {
  const CsvResult read = read_csv(text);
  EXPECT_EQ(read.faults.size(), 1u);
  return read.faults.empty() ? CsvFault{} : read.faults.front();
}

MATCHER(IsAlmost, "") {
  return std::abs(std::get<0>(arg) - std::get<1>(arg)) < 1e-15;  // a number read and scaled once
}

const std::vector<double> kMillimetres = {0.0, 1.5e-3, -2.25e-3};

TEST(TableCsv, EveryHabitOfLoggersAndSpreadsheetsReadsToTheSameNumbers) {
  for (const char* text : {
           "t [s],x [mm]\n0,0\n1,1.5\n2,-2.25\n",              // plain
           "t [s],x [mm]\r\n0,0\r\n1,1.5\r\n2,-2.25",          // of another system, no last end
           "\xEF\xBB\xBFt [s];x [mm]\n0;0\n1;1,5\n2;-2,25\n",  // byte order mark, decimal comma
           "t (s)\tx (mm)\n0\t0\n1\t1.5\n2\t-2.25\n",          // tabs
           "sep=;\nt/s;x/mm\n0;0\n1;1.5\n2;-2.25\n",           // a spreadsheet's first line
           "\"t [s]\",\"x [mm]\"\n\"0\",\"0\"\n\"1\",\"1,5\"\n\"2\",\"-2,25\"\n",  // quoted, decimal comma
           "# a comment\n\nt,x\ns,mm\n0,0\n1,1.5\n# another\n2,-2.25\n\n",         // a row of units
           "t,x\n[s],[mm]\n0,+0\n1,0.15e1\n2,\xE2\x88\x92"
           "2.25\n",                                       // the minus of print
           "t [s], x [mm],\n0, 0,\n1, 1.5,\n2, -2.25,\n",  // a comma at each end
           "t [s],x [m]\n0,0\n1,0.0015\n2,-0.00225\n",     // another unit
       }) {
    EXPECT_THAT(column(text, 1, Kind::Length), Pointwise(IsAlmost(), kMillimetres)) << text;
    EXPECT_THAT(column(text, 0, Kind::Time), ElementsAre(0.0, 1.0, 2.0)) << text;
  }
}

TEST(TableCsv, AColumnThatIsNotAskedForMayHoldAnything) {
  EXPECT_THAT(column("t [s],note,x [mm]\n0,\"a, \"\"b\"\"\",1\n1,,2\n", 2, Kind::Length),
              Pointwise(IsAlmost(), std::vector<double>{1e-3, 2e-3}));
}

TEST(TableCsv, ARowOfTheWrongLengthIsToldWithItsLine) {
  const CsvFault fault = only_fault("t [s],x [mm]\n0,1\n1,2,5\n");
  EXPECT_EQ(fault.line, 3);
  EXPECT_THAT(fault.remedy, HasSubstr("decimal points"));
}

TEST(TableCsv, HeadingsAndTextAreAskedFor) {
  EXPECT_THAT(only_fault("0,1\n1,2\n").remedy, HasSubstr("headings"));
  EXPECT_THAT(only_fault("").what, HasSubstr("empty"));
  EXPECT_THAT(only_fault("\xFF\xFEt").remedy, HasSubstr("UTF-8"));
  EXPECT_THAT(only_fault(std::string("t\0x", 3)).remedy, HasSubstr("UTF-8"));
  EXPECT_THAT(only_fault("t [s],x\n0,\"1\n").what, HasSubstr("not closed"));
}

TEST(TableCsv, CellsThatAreNoNumberAreToldAtTheirPlace) {
  const CsvResult read = read_csv("t [s],x [mm]\n0,1\n1,n/a\n2,\n3,nan\n4,\"1,234\"\n");
  ASSERT_TRUE(read.faults.empty());
  std::vector<CsvFault> faults;
  csv_numbers(read.table, 1, Kind::Length, faults);
  ASSERT_EQ(faults.size(), 4u);
  EXPECT_EQ(faults[0].line, 3);
  EXPECT_EQ(faults[0].column, 3);
  EXPECT_EQ(faults[0].length, 3);
  EXPECT_EQ(faults[3].line, 6);  // a thousand to some, one and a bit to others
}

TEST(TableCsv, AUnitThatIsMissingOrOfAnotherKindIsToldWithWhatToWrite) {
  for (const char* text : {"t [s],x\n0,1\n", "t [s],x [kg]\n0,1\n", "t [s],x [hands]\n0,1\n"}) {
    const CsvResult read = read_csv(text);
    std::vector<CsvFault> faults;
    csv_numbers(read.table, 1, Kind::Length, faults);
    ASSERT_EQ(faults.size(), 1u) << text;
    EXPECT_EQ(faults[0].remedy, "write \"x [mm]\"") << text;
    EXPECT_EQ(faults[0].line, 1) << text;
  }
}

TEST(TableCsv, FaultsAreCappedSoThatAWrongFileIsNoFlood) {
  std::string text = "t [s],x [mm]\n";
  for (int i = 0; i < 1000; ++i) text += "1\n";
  EXPECT_EQ(read_csv(text).faults.size(), kMostCsvFaults);
}

RC_GTEST_PROP(TableCsvProperty, NumbersWrittenByAnyHabitReadBack, (const std::vector<double>& raw)) {
  std::vector<double> values;
  for (const double value : raw)
    if (std::isfinite(value) && std::abs(value) < 1e12) values.push_back(value);
  for (const bool comma : {false, true}) {
    std::string text = comma ? "x [m];y [m]\n" : "x [m],y [m]\n";
    for (const double value : values) {
      char number[64];
      std::snprintf(number, sizeof number, "%.17g", value);
      std::string cell(number);
      if (comma) std::ranges::replace(cell, '.', ',');
      text += cell + (comma ? ";" : ",") + cell + "\n";
    }
    const CsvResult read = read_csv(text);
    RC_ASSERT(read.faults.empty());
    std::vector<CsvFault> faults;
    RC_ASSERT(csv_numbers(read.table, 1, Kind::Length, faults) == values);
    RC_ASSERT(faults.empty());
  }
}

}  // namespace
}  // namespace shimwright::file
