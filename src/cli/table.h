#pragma once
#include <string>
#include <vector>

namespace shimwright::cli {

/// One column's heading in two lines, name over unit, as a table needs it to stay inside 80 columns.
struct Column {
  std::string name;
  std::string unit;    // plain; empty for words
  bool words = false;  // left-aligned
};

/// What a reader sees; of a number also all that a script needs.
struct Cell {
  std::string text;
  std::string digits;  // the number with all its digits, in the unit of its column; empty: as the text

  Cell(std::string words) : text(std::move(words)) {}
  Cell(const char* words) : text(words) {}
  Cell(std::string shown, double value);
};

/// A result as rows of cells, for the terminal and as CSV.
struct Table {
  std::string title;
  std::vector<Column> columns;
  std::vector<std::vector<Cell>> rows;  // each as long as columns
  std::string note;                     // one sentence below; may be empty
  std::string name = {};                // for scripts, where the title holds a number; empty: from the title
};

/// For a terminal: columns as wide as their cells, numbers to the right, two blanks between.
std::string to_text(const Table& table);

/// RFC 4180: one heading row "name [unit]", CRLF, numbers with all digits, quoted where a cell needs it. A
/// cell of words that begins like a formula is set off by an apostrophe, so that a spreadsheet does not run
/// it.
std::string to_csv(const Table& table);

/// The name of each table, for scripts: "fork leg: rebound" -> "fork-leg-rebound"; no two alike.
std::vector<std::string> names_of(const std::vector<Table>& tables);

/// Words broken to `width` columns, each line with `indent` blanks before it.
std::string paragraph(const std::string& text, std::size_t width = 80, std::size_t indent = 0);

}  // namespace shimwright::cli
