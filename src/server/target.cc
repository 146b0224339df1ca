#include "server/target.h"

#include <algorithm>
#include <cctype>

namespace shimwright::server {
namespace {

constexpr std::size_t kMostParameters = 32;

int hex_value(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

std::optional<std::string> decoded(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '+') {
      out += ' ';
    } else if (text[i] != '%') {
      out += text[i];
    } else {
      if (i + 2 >= text.size()) return std::nullopt;
      const int high = hex_value(text[i + 1]), low = hex_value(text[i + 2]);
      if (high < 0 || low < 0) return std::nullopt;
      out += static_cast<char>(high * 16 + low);
      i += 2;
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
  unsigned difference = given.size() == secret.size() ? 0 : 1;
  for (std::size_t i = 0; i < given.size(); ++i)
    difference |= static_cast<unsigned char>(given[i] ^ secret[i % secret.size()]);
  return difference == 0;
}

}  // namespace shimwright::server
