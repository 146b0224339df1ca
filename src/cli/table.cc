#include "cli/table.h"

#include <fmt/core.h>

#include <algorithm>

#include "base/check.h"

namespace shimwright::cli {
namespace {

/// Columns a text takes on a terminal: code points, which is right for all that the program prints itself.
std::size_t columns_of(const std::string& text) {
  return static_cast<std::size_t>(std::count_if(
      text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

std::string padded(const std::string& text, std::size_t width, bool left) {
  const std::string blanks(width - std::min(width, columns_of(text)), ' ');
  return left ? text + blanks : blanks + text;
}

void trim_right(std::string& line) {
  while (!line.empty() && line.back() == ' ') line.pop_back();
}

std::string csv_cell(const Cell& shown, bool words) {
  std::string cell = shown.digits.empty() ? shown.text : shown.digits;
  if (words && !cell.empty() && std::string("=+-@").find(cell[0]) != std::string::npos) cell.insert(0, "'");
  if (cell.find_first_of(",\"\r\n") == std::string::npos) return cell;
  std::string quoted = "\"";
  for (const char c : cell) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

}  // namespace

// fifteen digits give a decimal number back as it was; more would show how it is kept
Cell::Cell(std::string shown, double value) : text(std::move(shown)), digits(fmt::format("{:.15g}", value)) {}

std::string to_text(const Table& table) {
  std::vector<std::size_t> width;
  for (std::size_t k = 0; k < table.columns.size(); ++k) {
    std::size_t w = std::max(columns_of(table.columns[k].name), columns_of(table.columns[k].unit));
    for (const auto& row : table.rows) {
      SW_CHECK(row.size() == table.columns.size(), row.size(), table.columns.size());
      w = std::max(w, columns_of(row[k].text));
    }
    width.push_back(w);
  }
  const auto line = [&](auto&& cell) {
    std::string out;
    for (std::size_t k = 0; k < table.columns.size(); ++k)
      out += (k ? "  " : "") + padded(cell(k), width[k], table.columns[k].words);
    trim_right(out);
    return out + '\n';
  };

  std::string out;
  if (!table.title.empty()) out += table.title + '\n';
  out += line([&](std::size_t k) { return table.columns[k].name; });
  const bool has_units = std::any_of(table.columns.begin(), table.columns.end(),
                                     [](const Column& c) { return !c.unit.empty(); });
  if (has_units) out += line([&](std::size_t k) { return table.columns[k].unit; });
  out += line([&](std::size_t k) { return std::string(width[k], '-'); });
  for (const auto& row : table.rows) out += line([&](std::size_t k) { return row[k].text; });
  if (!table.note.empty()) out += paragraph(table.note);
  return out;
}

std::string to_csv(const Table& table) {
  std::string out;
  for (std::size_t k = 0; k < table.columns.size(); ++k) {
    const Column& c = table.columns[k];
    out += (k ? "," : "") + csv_cell(c.unit.empty() ? c.name : fmt::format("{} [{}]", c.name, c.unit), true);
  }
  out += "\r\n";
  for (const auto& row : table.rows) {
    for (std::size_t k = 0; k < row.size(); ++k)
      out += (k ? "," : "") + csv_cell(row[k], table.columns[k].words);
    out += "\r\n";
  }
  return out;
}

std::vector<std::string> names_of(const std::vector<Table>& tables) {
  std::vector<std::string> names;
  for (const Table& table : tables) {
    std::string name;
    for (const char c : table.name.empty() ? table.title : table.name) {
      const bool other = static_cast<unsigned char>(c) >= 0x80;  // a letter of another language stays
      if (other || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'))
        name += c;
      else if (c >= 'A' && c <= 'Z')
        name += static_cast<char>(c - 'A' + 'a');
      else if (!name.empty() && name.back() != '-')
        name += '-';
    }
    while (name.ends_with('-')) name.pop_back();
    const std::string first = name;
    for (int n = 2; std::ranges::find(names, name) != names.end(); ++n) name = fmt::format("{}-{}", first, n);
    names.push_back(std::move(name));
  }
  return names;
}

std::string paragraph(const std::string& text, std::size_t width, std::size_t indent) {
  std::string out, line(indent, ' ');
  std::size_t used = indent, at = 0;
  while (at < text.size()) {
    const std::size_t end = std::min(text.find_first_of(" \n", at), text.size());
    const std::string word = text.substr(at, end - at);
    if (used > indent && used + 1 + columns_of(word) > width) {
      out += line + '\n';
      line.assign(indent, ' ');
      used = indent;
    }
    if (used > indent) {
      line += ' ';
      ++used;
    }
    line += word;
    used += columns_of(word);
    at = end + 1;
  }
  if (used > indent) out += line + '\n';
  return out;
}

}  // namespace shimwright::cli
