#include "file/load_reading.h"

#include <fmt/core.h>

#include <algorithm>

#include "base/utf8.h"

namespace shimwright::file {
namespace {

constexpr std::size_t kLongestTyped = 80;  // bytes of a value shown again in a message

/// The span to underline for a node: its value, or the header of a table.
toml::Span span_of(const toml::Node& node) {
  return node.header.empty() ? node.span : node.header;
}

Origin origin_at(const Reading& reading, toml::Span span, std::string path) {
  Origin origin;
  origin.file = reading.file;
  origin.begin = span.begin;
  origin.end = span.end;
  origin.path = std::move(path);
  if (span.empty()) return origin;

  const toml::LineColumn place = reading.document->place(span.begin);
  origin.line = place.line;
  origin.column = place.column;
  std::string_view first_line = reading.document->slice(span);
  first_line = first_line.substr(0, first_line.find('\n'));
  origin.length = std::max(1, static_cast<int>(n_code_points(first_line)));
  return origin;
}

/// Byte offset of the character number `n_characters` of a text.
std::size_t byte_offset(std::string_view text, int n_characters) {
  std::size_t at = 0;
  for (int i = 0; i < n_characters && at < text.size(); ++i)
    at += std::max<std::size_t>(1, code_point_at(text, at).n_bytes);
  return at;
}

}  // namespace

Origin origin_of(const Reading& reading, const toml::Node& node) {
  return origin_at(reading, span_of(node), toml::path_of(node));
}

Origin origin_of_key(const Reading& reading, const toml::Node& node) {
  return origin_at(reading, node.key_span.empty() ? span_of(node) : node.key_span, toml::path_of(node));
}

Origin origin_within(const Reading& reading, const toml::Node& node, int offset, int length) {
  const std::string_view raw = reading.document->slice(node.span);
  const bool plain = raw.size() == node.text.size() + 2 && raw.substr(1, node.text.size()) == node.text;
  if (!plain) return origin_of(reading, node);
  const std::size_t begin = byte_offset(node.text, offset);
  const std::size_t end = std::max(begin + 1, byte_offset(node.text, offset + length));
  const std::size_t start = node.span.begin + 1;
  return origin_at(reading, {start + begin, std::min(start + end, node.span.end)}, toml::path_of(node));
}

std::string typed(const Reading& reading, const toml::Node& node) {
  std::string_view text = reading.document->slice(span_of(node));
  const std::string_view line = text.substr(0, text.find_first_of("\r\n"));
  if (line.size() == text.size() && line.size() <= kLongestTyped) return std::string(line);
  return std::string(line.substr(0, kLongestTyped)) + " ...";
}

Diagnostic diagnostic_at(const JobSpec& job, const Origin& origin, std::string code) {
  Diagnostic diagnostic;
  diagnostic.code = std::move(code);
  if (origin.file >= 0 && static_cast<std::size_t>(origin.file) < job.files.size())
    diagnostic.file = job.files[static_cast<std::size_t>(origin.file)].name;
  diagnostic.line = origin.line;
  diagnostic.column = origin.column;
  diagnostic.length = origin.length;
  diagnostic.path = origin.path;
  return diagnostic;
}

void report(Reading& reading, Code code, const Origin& origin, FaultText words) {
  Diagnostic diagnostic = diagnostic_at(*reading.job, origin, std::string(facts_of(code).id));
  diagnostic.what = std::move(words.what);
  diagnostic.got = std::move(words.got);
  diagnostic.expected = std::move(words.expected);
  diagnostic.remedy = std::move(words.remedy);
  reading.diagnostics->push_back(std::move(diagnostic));
}

std::string suggestion(std::string_view word, const std::vector<std::string>& known, std::string fallback) {
  const std::string nearest = nearest_name(word, known);
  return nearest.empty() ? fallback : fmt::format("write \"{}\" if you mean that", nearest);
}

void report_unknown_part(Reading& reading, std::string_view group, const std::string& name,
                         const std::vector<std::string>& known, const Origin& origin) {
  // with a parts file missing, every name in it would be reported: the missing file is the news
  if (!reading.parts_complete) return;
  const std::string add =
      fmt::format("add [{}.\"{}\"] to a parts file, or give its values here", group, name);
  report(reading, Code::UnknownPart, origin,
         {fmt::format("there is no {} with this name", group), fmt::format("\"{}\"", name),
          known.empty() ? fmt::format("no parts file of this job lists any {}", group)
                        : "a name from a parts file",
          suggestion(name, known, add)});
}

}  // namespace shimwright::file
