#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "toml/document.h"

namespace shimwright::toml {

/// One replacement in a text: the bytes of `span` give way to `with`.
struct Splice {
  Span span;
  std::string with;
};

/// The text with all splices made; overlapping removals count once.
std::string spliced(std::string_view text, std::vector<Splice> splices);

/// How a fault-free document is laid out in lines: what belongs to which statement, section and list.
class Layout {
 public:
  explicit Layout(const Document& document);

  /// "\r\n" or "\n", as the first line ends.
  std::string newline() const { return newline_; }

  std::size_t line_start(std::size_t at) const;
  /// Behind the newline that ends the line at `at`, or the end of the text.
  std::size_t next_line(std::size_t at) const;
  /// The blanks a line begins with.
  std::string indent_at(std::size_t at) const;

  /// The entries written in the section or the braces of `table`, in file order; `a.b = 1` counts to where it
  /// stands.
  std::vector<const Node*> entries_of(const Node& table) const;
  /// The headers of `node` and all below it, in file order.
  std::vector<const Node*> headers_of(const Node& node) const;

  /// Where the section of a header begins: at the remark lines right above it, if any.
  std::size_t section_begin(const Node& table) const;
  /// Where the section of the header at or before `at` ends: the begin of the next section, or the end of the
  /// text.
  std::size_t section_end(std::size_t at) const;
  /// Behind the last section of `node` and all below it.
  std::size_t region_end(const Node& node) const;

  /// The offset behind blanks, newlines and remarks.
  std::size_t next_token(std::size_t at) const;
  bool holds_newline(Span span) const { return document_.slice(span).find('\n') != std::string_view::npos; }

 private:
  const Document& document_;
  std::string_view text_;
  std::string newline_;
  std::vector<const Node*> headers_;    // of the document, in file order
  std::vector<std::size_t> code_ends_;  // of each statement and header, rising
};

}  // namespace shimwright::toml
