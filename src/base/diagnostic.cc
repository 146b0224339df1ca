#include "base/diagnostic.h"

#include <fmt/core.h>

#include <algorithm>
#include <cstddef>
#include <tuple>

#include "base/utf8.h"

namespace shimwright {
namespace {

constexpr std::size_t kLongestSourceShown =
    160;                                // characters of a source line; longer ones are cut around the place
constexpr std::size_t kLeadShown = 60;  // characters kept before the place in a line that was cut
constexpr std::size_t kLongestFoundShown = 60;  // characters of what was found

std::string_view heading_of(Severity severity) {
  switch (severity) {
    case Severity::Note:
      return "note";
    case Severity::Look:
      return "look";
    case Severity::Stop:
      return "error";
  }
  return "error";
}

std::string_view line_of(std::string_view source, int line) {
  for (int skipped = 1; skipped < line; ++skipped) {
    const std::size_t end = source.find('\n');
    if (end == std::string_view::npos) return {};
    source.remove_prefix(end + 1);
  }
  source = source.substr(0, source.find('\n'));
  if (source.ends_with('\r')) source.remove_suffix(1);
  return source;
}

std::vector<char32_t> code_points(std::string_view text) {
  std::vector<char32_t> points;
  for (std::size_t at = 0; at < text.size();) {
    const CodePoint point = code_point_at(text, at);
    points.push_back(point.value);
    at += point.n_bytes;
  }
  return points;
}

std::string shown(std::span<const char32_t> points) {
  std::string text;
  for (const char32_t point : points) {
    std::string one;
    append_utf8(one, point);
    text += point == U'\t' ? one : printable(one, 1);
  }
  return text;
}

/// The source line and the caret line under it, without the words behind the caret.
struct Excerpt {
  std::string source;
  std::string caret;
};

Excerpt excerpt_at(std::string_view line, int column, int length) {
  const std::vector<char32_t> points = code_points(line);
  const std::size_t place =
      std::min<std::size_t>(static_cast<std::size_t>(std::max(column, 1)) - 1, points.size());

  // cut a very long line around the place
  const bool cut = points.size() > kLongestSourceShown;
  const std::size_t begin = cut && place > kLeadShown ? place - kLeadShown : 0;
  const std::size_t end = cut ? std::min(points.size(), begin + kLongestSourceShown) : points.size();

  Excerpt excerpt;
  if (begin > 0) excerpt.source += "…", excerpt.caret += ' ';
  excerpt.source += shown(std::span(points).subspan(begin, end - begin));
  if (end < points.size()) excerpt.source += "…";

  // a tab above stays a tab below, so that both lines shift by the same
  for (std::size_t i = begin; i < place; ++i) excerpt.caret += points[i] == U'\t' ? '\t' : ' ';
  const std::size_t room = std::max<std::size_t>(end - place, 1);
  excerpt.caret.append(std::clamp<std::size_t>(static_cast<std::size_t>(std::max(length, 1)), 1, room), '^');
  return excerpt;
}

std::string what_and_got(const Diagnostic& diagnostic) {
  if (diagnostic.got.empty()) return diagnostic.what;
  const std::string got = printable(diagnostic.got, kLongestFoundShown);
  return diagnostic.what.empty() ? "got " + got : diagnostic.what + ", got " + got;
}

std::string heading(const Diagnostic& diagnostic) {
  std::string text = fmt::format("{}[{}]", heading_of(diagnostic.severity), diagnostic.code);
  if (!diagnostic.file.empty()) text += ' ' + printable(diagnostic.file, 200);
  if (diagnostic.line > 0)
    text += fmt::format("{}{}:{}", diagnostic.file.empty() ? " " : ":", diagnostic.line, diagnostic.column);
  if (!diagnostic.path.empty()) text += "  " + printable(diagnostic.path, 200);
  return text + '\n';
}

/// Optimal string alignment distance: insert, delete, replace a letter, or swap two neighbours.
std::size_t n_wrong_letters(std::span<const char32_t> a, std::span<const char32_t> b) {
  std::vector<std::size_t> before_last(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1)});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], before_last[j - 2] + 1);
    }
    std::swap(before_last, last);
    std::swap(last, row);
  }
  return last[b.size()];
}

std::vector<char32_t> folded(std::string_view word) {
  std::vector<char32_t> points = code_points(word);
  for (char32_t& point : points) {
    if (point >= U'A' && point <= U'Z') point += U'a' - U'A';
  }
  return points;
}

}  // namespace

std::string word(Severity severity) {
  return kSeverityWords.at(static_cast<std::size_t>(severity));
}

bool has_stop(std::span<const Diagnostic> diagnostics) {
  return std::ranges::any_of(diagnostics, [](const Diagnostic& d) { return d.severity == Severity::Stop; });
}

void sort_by_place(Diagnostics& diagnostics) {
  std::ranges::stable_sort(diagnostics, {}, [](const Diagnostic& d) {
    return std::tuple<std::string_view, int, int, std::string_view>(d.file, d.line, d.column, d.code);
  });
}

std::string render(const Diagnostic& diagnostic, std::string_view source) {
  std::string text = heading(diagnostic);
  const std::string found = what_and_got(diagnostic);

  if (diagnostic.line > 0 && !source.empty()) {
    const Excerpt excerpt =
        excerpt_at(line_of(source, diagnostic.line), diagnostic.column, diagnostic.length);
    const std::string number = fmt::format("{:>6}", diagnostic.line);
    text += fmt::format("{} | {}\n", number, excerpt.source);
    text += fmt::format("{:{}}{} {}\n", "", number.size() + 3, excerpt.caret, found);
  } else if (!found.empty()) {
    text += "    " + found + '\n';
  }
  if (!diagnostic.expected.empty()) text += "    accepted: " + diagnostic.expected + '\n';
  if (!diagnostic.remedy.empty()) text += "    " + diagnostic.remedy + '\n';
  return text;
}

std::string nearest_name(std::string_view word, std::span<const std::string> known) {
  constexpr std::size_t kLongestWord = 80;  // beyond it no key or unit has its name
  const std::vector<char32_t> wanted = folded(word.substr(0, kLongestWord + 1));
  if (wanted.empty() || wanted.size() > kLongestWord) return "";

  const std::string* nearest = nullptr;
  std::size_t fewest = 0;
  for (const std::string& name : known) {
    const std::vector<char32_t> candidate = folded(name);
    const std::size_t n_wrong = n_wrong_letters(wanted, candidate);
    if (3 * n_wrong > std::max(wanted.size(), candidate.size())) continue;
    if (nearest == nullptr || n_wrong < fewest) nearest = &name, fewest = n_wrong;
  }
  return nearest == nullptr ? "" : *nearest;
}

}  // namespace shimwright
