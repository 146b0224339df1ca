#include "report/text_metrics.h"

#include <algorithm>

#include "report/typeface.h"

namespace shimwright::report {

double text_width(std::string_view text, double size, Weight weight) {
  return internal::text_layout(text, size, weight)->get_logical_extents().get_width() / double(Pango::SCALE);
}

std::string fitting_start(std::string_view text, double width, double size, Weight weight) {
  // four bytes a character and a fifth of the size wide at least: no need to measure beyond that
  std::size_t end = std::min(text.size(), static_cast<std::size_t>(20.0 * std::max(0.0, width) / size) + 8);
  while (end > 0 && end < text.size() && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) --end;
  while (end > 0 && text_width(text.substr(0, end), size, weight) > width) {
    --end;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) --end;  // inside a character
  }
  return std::string(text.substr(0, end));
}

std::vector<std::string> wrapped(std::string_view text, double width, double size, Weight weight) {
  std::vector<std::string> lines;
  std::string current;
  std::size_t at = 0;
  while (at <= text.size()) {
    // one word at a time; a line feed in the text is kept
    const std::size_t end = std::min(text.find_first_of(" \n", at), text.size());
    const std::string word(text.substr(at, end - at));
    const std::string candidate = current.empty() ? word : current + ' ' + word;
    if (!current.empty() && text_width(candidate, size, weight) > width) {
      lines.push_back(current);
      current = word;
    } else {
      current = candidate;
    }
    // a word longer than the line is cut; one character always goes on
    while (text_width(current, size, weight) > width) {
      const std::string start = fitting_start(current, width, size, weight);
      if (start.empty() || start.size() == current.size()) break;
      lines.push_back(start);
      current.erase(0, start.size());
    }
    if (end < text.size() && text[end] == '\n') {
      lines.push_back(current);
      current.clear();
    }
    at = end + 1;
  }
  if (!current.empty()) lines.push_back(current);
  return lines;
}

std::string missing_glyphs(std::string_view text) {
  std::string missing;
  const Glib::ustring characters{std::string(text)};
  for (const gunichar c : characters) {
    const Glib::ustring one(1, c);
    if (internal::text_layout(one.raw(), kBody, Weight::Regular)->get_unknown_glyphs_count() > 0)
      missing += one.raw();
  }
  return missing;
}

}  // namespace shimwright::report
