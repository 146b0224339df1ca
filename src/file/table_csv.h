#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "units/kind.h"

namespace shimwright::file {

/// A fault in a table, with its place.
struct CsvFault {
  int line = 0;    // 1-based; 0: the whole file
  int column = 1;  // 1-based, in characters
  int length = 1;  // in characters
  std::string what;
  std::string got;
  std::string expected;
  std::string remedy;
};

struct CsvCell {
  std::string_view text;  // inside its quotes, without blanks around it
  int column = 1;         // 1-based, in characters
};

/// Heading of one column, "fork travel [mm]".
struct CsvHead {
  std::string name;  // "fork travel"
  std::string unit;  // "mm"; empty when none is stated
  int line = 0;
  int column = 1;
};

struct CsvRow {
  int line = 0;
  std::vector<CsvCell> cells;  // as the heads
};

/// Rows of text under headings. The cells point into the text that was read.
struct CsvTable {
  char delimiter = ',';
  std::vector<CsvHead> heads;
  std::vector<CsvRow> rows;
};

struct CsvResult {
  CsvTable table;
  std::vector<CsvFault> faults;  // at most kMostCsvFaults; then the table is not to be used
};

inline constexpr std::size_t kMostCsvFaults = 12;

/// Reads a table as loggers, benches and spreadsheets write it.
///
/// Model:  comma, semicolon or tab between cells, whichever the heading row holds (a tab before a semicolon
///         before a comma); quoted cells; a byte order mark, a first line "sep=;", empty lines and lines that
///         begin with # are passed over; a comma within a number is a decimal comma; in a table parted by
///         commas it stands in quotes and is refused where it could mark thousands. The first row is the
///         heading; a second one that holds only units adds them. Units stand in [brackets], (parentheses) or
///         behind a slash.
/// Errors: never throws for data.
/// Tested: table_csv_test.cc, fuzz/table_csv_fuzz.cc
CsvResult read_csv(std::string_view text);

/// One column as numbers in SI of `kind`, by the unit in its heading; faults are appended.
std::vector<double> csv_numbers(const CsvTable& table, std::size_t column, units::Kind kind,
                                std::vector<CsvFault>& faults);

}  // namespace shimwright::file
