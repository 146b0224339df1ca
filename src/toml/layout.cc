#include "toml/layout.h"

#include <algorithm>

namespace shimwright::toml {
namespace {

template <typename Visit>
void visit_below(const Node& node, Visit&& visit) {
  visit(node);
  for (const auto& child : node.children) visit_below(*child, visit);
}

}  // namespace

std::string spliced(std::string_view text, std::vector<Splice> splices) {
  std::stable_sort(splices.begin(), splices.end(),
                   [](const Splice& a, const Splice& b) { return a.span.begin < b.span.begin; });
  std::string out;
  std::size_t at = 0;
  for (const Splice& splice : splices) {
    if (splice.span.begin > at) out += text.substr(at, splice.span.begin - at);
    out += splice.with;
    at = std::max(at, splice.span.end);
  }
  return out + std::string(text.substr(at));
}

Layout::Layout(const Document& document) : document_(document), text_(document.text) {
  const std::size_t first = text_.find('\n');
  newline_ = first != std::string_view::npos && first > 0 && text_[first - 1] == '\r' ? "\r\n" : "\n";
  visit_below(*document.root, [&](const Node& node) {
    if (!node.header.empty()) headers_.push_back(&node);
    if (!node.header.empty()) code_ends_.push_back(node.header.end);
    if (!node.statement.empty()) code_ends_.push_back(node.statement.end);
  });
  std::sort(headers_.begin(), headers_.end(),
            [](const Node* a, const Node* b) { return a->header.begin < b->header.begin; });
  std::sort(code_ends_.begin(), code_ends_.end());
}

std::size_t Layout::line_start(std::size_t at) const {
  const auto next = std::upper_bound(document_.line_starts.begin(), document_.line_starts.end(), at);
  const std::size_t start = *(next - 1);
  return start == 0 && text_.substr(0, 3) == "\xEF\xBB\xBF" ? 3 : start;
}

std::size_t Layout::next_line(std::size_t at) const {
  const std::size_t newline = text_.find('\n', at);
  return newline == std::string_view::npos ? text_.size() : newline + 1;
}

std::string Layout::indent_at(std::size_t at) const {
  const std::size_t begin = line_start(at);
  const std::size_t end = std::min(text_.find_first_not_of(" \t", begin), text_.size());
  return std::string(text_.substr(begin, end - begin));
}

std::vector<const Node*> Layout::entries_of(const Node& table) const {
  std::vector<const Node*> entries;
  std::vector<const Node*> open = {&table};
  while (!open.empty()) {
    const Node* at = open.back();
    open.pop_back();
    for (const auto& child : at->children) {
      if (child->origin == Origin::DottedKey) open.push_back(child.get());
      if (!child->statement.empty()) entries.push_back(child.get());
    }
  }
  std::sort(entries.begin(), entries.end(),
            [](const Node* a, const Node* b) { return a->statement.begin < b->statement.begin; });
  return entries;
}

std::vector<const Node*> Layout::headers_of(const Node& node) const {
  std::vector<const Node*> headers;
  visit_below(node, [&](const Node& below) {
    if (!below.header.empty()) headers.push_back(&below);
  });
  std::sort(headers.begin(), headers.end(),
            [](const Node* a, const Node* b) { return a->header.begin < b->header.begin; });
  return headers;
}

std::size_t Layout::section_begin(const Node& table) const {
  // no higher than the code before it: what looks like a remark there may be part of a text
  const auto after = std::lower_bound(code_ends_.begin(), code_ends_.end(), table.header.end);
  const std::size_t floor = after == code_ends_.begin() ? 0 : *(after - 1);
  std::size_t begin = line_start(table.header.begin);
  while (begin > 0) {
    const std::size_t above = line_start(begin - 1);
    if (above < floor || above >= begin || indent_at(above).size() + above >= text_.size()) break;
    if (text_[above + indent_at(above).size()] != '#') break;
    // remarks that open the file speak of the file
    if (above == line_start(0)) return line_start(table.header.begin);
    begin = above;
  }
  return begin;
}

std::size_t Layout::section_end(std::size_t at) const {
  for (const Node* header : headers_) {
    if (header->header.begin > at) return section_begin(*header);
  }
  return text_.size();
}

std::size_t Layout::region_end(const Node& node) const {
  const auto headers = headers_of(node);
  if (node.origin == Origin::Root) return text_.size();
  return headers.empty() ? text_.size() : section_end(headers.back()->header.begin);
}

std::size_t Layout::next_token(std::size_t at) const {
  while (at < text_.size()) {
    if (text_[at] == '#') {
      at = next_line(at);
    } else if (std::string_view(" \t\r\n").find(text_[at]) != std::string_view::npos) {
      ++at;
    } else {
      break;
    }
  }
  return at;
}

}  // namespace shimwright::toml
