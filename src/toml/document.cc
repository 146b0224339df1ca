#include "toml/document.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/check.h"
#include "base/utf8.h"
#include "toml/quoted.h"

namespace shimwright::toml {

const Node* Node::find(std::string_view name) const {
  const auto it = by_key.find(name);
  return it == by_key.end() ? nullptr : it->second;
}

Node* Node::find(std::string_view name) {
  return const_cast<Node*>(std::as_const(*this).find(name));
}

std::optional<double> Node::as_number() const {
  if (kind == Kind::Integer) return static_cast<double>(integer);
  if (kind == Kind::Float) return number;
  return std::nullopt;
}

Node& Node::adopt(std::unique_ptr<Node> child) {
  child->parent = this;
  child->depth = depth + 1;
  Node& kept = *children.emplace_back(std::move(child));
  if (is_table()) SW_CHECK(by_key.emplace(kept.key, &kept).second, kept.key);
  return kept;
}

LineColumn Document::place(std::size_t offset) const {
  offset = std::min(offset, text.size());
  const auto next = std::upper_bound(line_starts.begin(), line_starts.end(), offset);
  if (next == line_starts.begin()) return {};
  const std::size_t start = *(next - 1);
  const std::size_t n = n_code_points(std::string_view(text).substr(start, offset - start));
  return {static_cast<int>(next - line_starts.begin()), static_cast<int>(n) + 1};
}

const Node* Document::at(std::string_view path) const {
  const auto steps = parse_path(path);
  if (!steps) return nullptr;
  const Node* node = root.get();
  for (const Step& step : *steps) {
    if (!node) return nullptr;
    if (!step.index) {
      node = node->find(step.key);
    } else {
      const bool inside = node->is_array() && *step.index < node->children.size();
      node = inside ? node->children[*step.index].get() : nullptr;
    }
  }
  return node;
}

std::string path_of(const Node& node) {
  // from the root down, without recursion
  std::vector<const Node*> way;
  for (const Node* n = &node; n->parent; n = n->parent) way.push_back(n);
  std::string path;
  for (auto it = way.rbegin(); it != way.rend(); ++it) {
    const Node& step = **it;
    if (step.parent->is_array()) {
      const auto& all = step.parent->children;
      const auto found =
          std::find_if(all.begin(), all.end(), [&](const auto& c) { return c.get() == &step; });
      path += '[' + std::to_string(found - all.begin()) + ']';
    } else {
      if (!path.empty()) path += '.';
      path += is_bare_key(step.key) ? step.key : quote(step.key);
    }
  }
  return path;
}

namespace {

/// Reads `[12]` at `at`; moves `at` behind it.
std::optional<std::size_t> read_index(std::string_view path, std::size_t& at) {
  const std::size_t close = path.find(']', at);
  if (close == std::string_view::npos || close == at + 1 || close - at > 10) return std::nullopt;
  std::size_t index = 0;
  for (std::size_t i = at + 1; i < close; ++i) {
    if (path[i] < '0' || path[i] > '9') return std::nullopt;
    index = index * 10 + static_cast<std::size_t>(path[i] - '0');
  }
  at = close + 1;
  return index;
}

/// Reads a bare or quoted key at `at`; moves `at` behind it.
std::optional<std::string> read_path_key(std::string_view path, std::size_t& at) {
  if (at < path.size() && (path[at] == '"' || path[at] == '\'')) {
    bool clean = true;
    const Quoted key = read_quoted(path, at, false, [&](Complaint) { clean = false; });
    if (!clean) return std::nullopt;
    at = key.end;
    return key.text;
  }
  const std::size_t begin = at;
  while (at < path.size() && is_bare_key_char(path[at])) ++at;
  if (at == begin) return std::nullopt;
  return std::string(path.substr(begin, at - begin));
}

}  // namespace

std::optional<std::vector<Step>> parse_path(std::string_view path) {
  std::vector<Step> steps;
  std::size_t at = 0;
  while (at < path.size()) {
    if (path[at] == '[') {
      const auto index = read_index(path, at);
      if (!index || steps.empty()) return std::nullopt;
      steps.push_back({{}, index});
      continue;
    }
    if (!steps.empty()) {
      if (path[at] != '.') return std::nullopt;
      ++at;
    }
    auto key = read_path_key(path, at);
    if (!key) return std::nullopt;
    steps.push_back({std::move(*key), std::nullopt});
  }
  return steps;
}

bool same_value(const Node& a, const Node& b) {
  if (a.kind != b.kind || a.children.size() != b.children.size()) return false;
  if (a.text != b.text || a.integer != b.integer || a.boolean != b.boolean) return false;
  const bool both_nan = std::isnan(a.number) && std::isnan(b.number);
  if (!both_nan && (a.number != b.number || std::signbit(a.number) != std::signbit(b.number))) return false;
  for (std::size_t i = 0; i < a.children.size(); ++i) {
    const Node* other = a.is_table() ? b.find(a.children[i]->key) : b.children[i].get();
    if (!other || !same_value(*a.children[i], *other)) return false;
  }
  return true;
}

std::string_view name_of(Kind kind) {
  switch (kind) {
    case Kind::Table:
      return "table";
    case Kind::Array:
      return "list";
    case Kind::String:
      return "text";
    case Kind::Integer:
      return "whole number";
    case Kind::Float:
      return "number";
    case Kind::Boolean:
      return "true or false";
    case Kind::OffsetDateTime:
      return "date and time with offset";
    case Kind::LocalDateTime:
      return "date and time";
    case Kind::LocalDate:
      return "date";
    case Kind::LocalTime:
      return "time of day";
    case Kind::Faulty:
      return "unreadable value";
  }
  return "";
}

}  // namespace shimwright::toml
