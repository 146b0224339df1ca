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

/// A result as rows of text: the terminal and the CSV show the same cells.
struct Table {
  std::string title;
  std::vector<Column> columns;
  std::vector<std::vector<std::string>> rows;  // each as long as columns
  std::string note;                            // one sentence below; may be empty
};

/// For a terminal: columns as wide as their cells, numbers to the right, two blanks between.
std::string to_text(const Table& table);

/// RFC 4180: one heading row "name [unit]", CRLF, quoted where a cell needs it. A cell of words that begins
/// like a formula is set off by an apostrophe, so that a spreadsheet does not run it.
std::string to_csv(const Table& table);

/// Words broken to `width` columns, each line with `indent` blanks before it.
std::string paragraph(const std::string& text, std::size_t width = 80, std::size_t indent = 0);

}  // namespace shimwright::cli
