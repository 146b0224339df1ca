#include "report/text_metrics.h"

#include "report/typeface.h"

namespace shimwright::report {

double text_width(std::string_view text, double size, Weight weight) {
  return internal::text_layout(text, size, weight)->get_logical_extents().get_width() / double(Pango::SCALE);
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
