#include "file/table_csv.h"

#include <fmt/core.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>
#include <utility>

#include "base/utf8.h"
#include "units/quantity.h"

namespace shimwright::file {
namespace {

constexpr std::size_t kMostColumns = 1000;

std::string_view trimmed(std::string_view text) {
  const auto blank = [](char c) { return c == ' ' || c == '\t' || c == '\r'; };
  while (!text.empty() && blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && blank(text.back())) text.remove_suffix(1);
  return text;
}

std::string shown(std::string_view text) {
  constexpr std::size_t kMost = 40;
  std::string words;
  for (const char c : text.substr(0, kMost)) words += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
  return "\"" + words + (text.size() > kMost ? "..." : "") + "\"";
}

/// A finite number with a decimal point or a decimal comma.
std::optional<double> number_in(std::string_view text) {
  text = trimmed(text);
  std::string plain;
  if (text.starts_with("\xE2\x88\x92")) {  // the minus of print
    plain = "-";
    text.remove_prefix(3);
  } else if (text.starts_with('+')) {
    text.remove_prefix(1);
  }
  plain += text;
  if (std::ranges::count(plain, ',') == 1 && plain.find('.') == std::string::npos) {
    std::ranges::replace(plain, ',', '.');
  }
  double value = 0.0;
  const auto [end, error] = std::from_chars(plain.data(), plain.data() + plain.size(), value);
  if (error != std::errc{} || end != plain.data() + plain.size() || !std::isfinite(value))
    return std::nullopt;
  return value;
}

/// "1,234" in a table of commas is a thousand to some and one and a bit to others.
bool could_be_thousands(char delimiter, std::string_view text) {
  const std::size_t comma = text.find(',');
  return delimiter == ',' && comma != std::string_view::npos && text.size() - comma == 4;
}

/// Reads line by line and keeps count of them.
struct Lines {
  std::string_view text;
  int line = 0;

  bool next(std::string_view& row) {
    if (text.empty()) return false;
    ++line;
    const std::size_t end = std::min(text.find('\n'), text.size());
    row = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (row.ends_with('\r')) row.remove_suffix(1);
    return true;
  }
};

bool says_nothing(std::string_view row) {
  const std::string_view words = trimmed(row);
  return words.empty() || words.front() == '#';
}

/// Number of times a character occurs outside quotes.
std::ptrdiff_t n_outside_quotes(std::string_view row, char sign) {
  std::ptrdiff_t count = 0;
  bool quoted = false;
  for (const char c : row) {
    if (c == '"') quoted = !quoted;
    if (c == sign && !quoted) ++count;
  }
  return count;
}

char delimiter_of(std::string_view heading) {
  for (const char sign : {'\t', ';'}) {
    if (n_outside_quotes(heading, sign) > 0) return sign;
  }
  return ',';
}

struct Reader {
  CsvResult result;

  void fault(int line, int column, std::string_view at, std::string what, std::string expected,
             std::string remedy) {
    if (result.faults.size() >= kMostCsvFaults) return;
    result.faults.push_back({line, column, std::max(1, static_cast<int>(n_code_points(at))), std::move(what),
                             at.empty() ? "" : shown(at), std::move(expected), std::move(remedy)});
  }

  /// The cells of one row; a quoted cell ends in the row it began in.
  std::vector<CsvCell> cells_of(std::string_view row, int line) {
    std::vector<CsvCell> cells;
    std::size_t at = 0;
    while (cells.size() <= kMostColumns) {
      std::size_t begin = at;
      while (begin < row.size() && row[begin] == ' ') ++begin;
      std::string_view text;
      std::size_t end = at;
      if (begin < row.size() && row[begin] == '"') {
        std::size_t close = begin + 1;
        while (close < row.size() && (row[close] != '"' || (close + 1 < row.size() && row[close + 1] == '"')))
          close += row[close] == '"' ? 2 : 1;
        if (close >= row.size()) {
          fault(line, 1 + static_cast<int>(n_code_points(row.substr(0, begin))), row.substr(begin),
                "a quote is not closed in its row", "", "close the quote, or remove it");
          return cells;
        }
        text = row.substr(begin + 1, close - begin - 1);
        end = std::min(row.find(result.table.delimiter, close), row.size());
      } else {
        end = std::min(row.find(result.table.delimiter, at), row.size());
        text = row.substr(at, end - at);
      }
      cells.push_back({trimmed(text), 1 + static_cast<int>(n_code_points(row.substr(0, begin)))});
      if (end >= row.size()) break;
      at = end + 1;
    }
    return cells;
  }

  void read_heads(const std::vector<CsvCell>& cells, int line);
  bool take_units(const std::vector<CsvCell>& cells);
  void read(std::string_view text);
};

/// "fork travel [mm]" -> name and unit.
CsvHead head_of(const CsvCell& cell, int line) {
  CsvHead head;
  head.line = line;
  head.column = cell.column;
  const std::string_view text = cell.text;
  for (const auto& [open, close] : {std::pair{'[', ']'}, std::pair{'(', ')'}}) {
    if (!text.ends_with(close)) continue;
    const std::size_t at = text.rfind(open);
    if (at == std::string_view::npos) continue;
    head.name = trimmed(text.substr(0, at));
    head.unit = trimmed(text.substr(at + 1, text.size() - at - 2));
    return head;
  }
  const std::size_t slash = text.find(" / ");
  const std::size_t at = slash != std::string_view::npos ? slash + 1 : text.find('/');
  if (at != std::string_view::npos && at > 0) {
    head.name = trimmed(text.substr(0, at));
    head.unit = trimmed(text.substr(at + 1));
    return head;
  }
  head.name = text;
  return head;
}

void Reader::read_heads(const std::vector<CsvCell>& cells, int line) {
  const bool has_words = std::ranges::any_of(
      cells, [](const CsvCell& cell) { return !cell.text.empty() && !number_in(cell.text); });
  if (!has_words) {
    fault(line, 1, cells.empty() ? std::string_view{} : cells.front().text, "the first row contains numbers",
          "headings with units, such as \"time [s]\" and \"travel [mm]\"",
          "write a row of headings above it");
    return;
  }
  for (const CsvCell& cell : cells) result.table.heads.push_back(head_of(cell, line));
}

/// A second heading row with only units, as some loggers write it.
bool Reader::take_units(const std::vector<CsvCell>& cells) {
  bool any = false;
  for (const CsvCell& cell : cells) {
    if (cell.text.empty()) continue;
    std::string_view unit = cell.text;
    if ((unit.starts_with('[') && unit.ends_with(']')) || (unit.starts_with('(') && unit.ends_with(')')))
      unit = unit.substr(1, unit.size() - 2);
    if (unit.size() > 8 || number_in(unit)) return false;
    any = true;
  }
  if (!any) return false;
  for (std::size_t i = 0; i < std::min(cells.size(), result.table.heads.size()); ++i) {
    std::string_view unit = cells[i].text;
    if (unit.size() > 2 && (unit.front() == '[' || unit.front() == '('))
      unit = unit.substr(1, unit.size() - 2);
    if (!unit.empty() && result.table.heads[i].unit.empty()) result.table.heads[i].unit = trimmed(unit);
  }
  return true;
}

void Reader::read(std::string_view text) {
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  if (text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF") ||
      text.find('\0') != std::string_view::npos) {
    fault(0, 1, {}, "the file is not text in UTF-8", "a text file", "save the table as CSV in UTF-8");
    return;
  }
  Lines lines{text, 0};
  std::string_view row;
  std::optional<char> told;
  bool second = true;
  while (lines.next(row) && result.faults.size() < kMostCsvFaults) {
    if (says_nothing(row)) continue;
    if (result.table.heads.empty()) {
      if (row.starts_with("sep=") && row.size() == 5) {
        told = row[4];
        continue;
      }
      result.table.delimiter = told.value_or(delimiter_of(row));
      read_heads(cells_of(row, lines.line), lines.line);
      if (result.table.heads.empty()) return;
      if (result.table.heads.size() > kMostColumns) {
        fault(lines.line, 1, {}, "too many columns", fmt::format("at most {}", kMostColumns),
              "keep only the columns that you need, such as time and travel");
        return;
      }
      continue;
    }
    const std::size_t n_faults = result.faults.size();
    std::vector<CsvCell> cells = cells_of(row, lines.line);
    if (result.faults.size() > n_faults) continue;
    // a delimiter at the end of each row is no cell
    while (cells.size() > result.table.heads.size() && cells.back().text.empty()) cells.pop_back();
    if (std::exchange(second, false) && take_units(cells)) continue;
    if (cells.size() != result.table.heads.size()) {
      fault(lines.line, 1, row,
            fmt::format("a row of {} cells under {} headings", cells.size(), result.table.heads.size()),
            fmt::format("{} cells", result.table.heads.size()),
            result.table.delimiter == ',' && cells.size() > result.table.heads.size()
                ? "write decimal points, or semicolons between the cells"
                : "complete the row, or remove it");
      continue;
    }
    result.table.rows.push_back({lines.line, std::move(cells)});
  }
  if (result.faults.empty() && result.table.heads.empty())
    fault(0, 1, {}, "the file is empty", "a row of headings and rows of numbers", "name another file");
}

}  // namespace

CsvResult read_csv(std::string_view text) {
  Reader reader;
  reader.read(text);
  return std::move(reader.result);
}

std::vector<double> csv_numbers(const CsvTable& table, std::size_t column, units::Kind kind,
                                std::vector<CsvFault>& faults) {
  std::vector<double> values;
  const CsvHead& head = table.heads[column];
  const auto add = [&](CsvFault fault) {
    if (faults.size() < kMostCsvFaults) faults.push_back(std::move(fault));
  };

  // the unit, as a factor: every kind of a record is measured from zero
  const std::string example = kind == units::Kind::Time ? "s" : kind == units::Kind::Force ? "N" : "mm";
  const std::string remedy = fmt::format("write \"{} [{}]\"", head.name, example);
  const int length = std::max(1, static_cast<int>(n_code_points(head.name)));
  if (head.unit.empty()) {
    add({head.line, head.column, length, "the column has no unit", shown(head.name),
         std::string(units::facts(kind).name), remedy});
    return values;
  }
  const auto one = units::parse("1 " + head.unit, kind);
  if (!one) {
    add({head.line, head.column, length, "the unit in the heading does not fit", shown(head.unit),
         std::string(units::facts(kind).name), remedy});
    return values;
  }
  for (const CsvRow& row : table.rows) {
    const CsvCell& cell = row.cells[column];
    const auto value = number_in(cell.text);
    if (value && !could_be_thousands(table.delimiter, cell.text)) {
      values.push_back(*value * one->si);
    } else {
      add({row.line, cell.column, std::max(1, static_cast<int>(n_code_points(cell.text))),
           cell.text.empty() ? "the cell has no number" : "the cell has no valid number", shown(cell.text),
           "a number, such as 12.5", "correct the cell, or remove the row"});
    }
  }
  return values;
}

}  // namespace shimwright::file
