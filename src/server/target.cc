#include "server/target.h"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <system_error>

namespace shimwright::server {
namespace {

constexpr std::size_t kMostParameters = 32;

std::optional<std::string> decoded(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '+') {
      out += ' ';
    } else if (text[i] != '%') {
      out += text[i];
    } else {
      const std::string_view digits = text.substr(i + 1, 2);
      unsigned char byte{};
      const auto [end, fault] = std::from_chars(digits.begin(), digits.end(), byte, 16);
      if (fault != std::errc() || end != text.data() + i + 3) return std::nullopt;
      out += static_cast<char>(byte);
      i += digits.size();
    }
  }
  return out;
}

bool may_stand_in_path(char c) {
  return std::isalnum(static_cast<unsigned char>(c)) || c == '/' || c == '.' || c == '-' || c == '_';
}

}  // namespace

std::optional<std::map<std::string, std::string>> parse_form(std::string_view text) {
  std::map<std::string, std::string> form;
  while (!text.empty()) {
    const std::string_view part = text.substr(0, text.find('&'));
    text.remove_prefix(std::min(part.size() + 1, text.size()));
    if (part.empty()) continue;
    const std::size_t equals = part.find('=');
    auto name = decoded(part.substr(0, equals));
    auto value = decoded(equals == std::string_view::npos ? "" : part.substr(equals + 1));
    if (!name || !value || form.size() >= kMostParameters) return std::nullopt;
    form.emplace(std::move(*name), std::move(*value));
  }
  return form;
}

std::optional<Target> parse_target(std::string_view target) {
  target = target.substr(0, target.find('#'));
  const std::size_t mark = target.find('?');
  const std::string_view path = target.substr(0, mark);
  if (!path.starts_with('/') || !std::ranges::all_of(path, may_stand_in_path)) return std::nullopt;
  if (path.find("//") != std::string_view::npos || path.find("/.") != std::string_view::npos)
    return std::nullopt;
  auto query = parse_form(mark == std::string_view::npos ? "" : target.substr(mark + 1));
  if (!query) return std::nullopt;
  return Target{std::string(path), std::move(*query)};
}

bool same_secret(std::string_view given, std::string_view secret) {
  if (secret.empty()) return false;
  unsigned difference = given.size() != secret.size();
  for (std::size_t i = 0; i < given.size(); ++i)
    difference |= static_cast<unsigned char>(given[i] ^ secret[i % secret.size()]);
  return difference == 0;
}

}  // namespace shimwright::server
