#include "toml/edit.h"

#include <algorithm>

#include <fmt/core.h>

#include "base/check.h"
#include "toml/layout.h"
#include "toml/quoted.h"

namespace shimwright::toml {
namespace {

using Way = std::vector<Step>;

Fault refusal(std::string what, std::string expected, std::string remedy) {
  Fault fault;
  fault.what = std::move(what);
  fault.expected = std::move(expected);
  fault.remedy = std::move(remedy);
  return fault;
}

/// Without the blanks around it.
std::string_view trimmed(std::string_view text) {
  text.remove_prefix(std::min(text.find_first_not_of(" \t\r\n"), text.size()));
  return text.substr(0, text.find_last_not_of(" \t\r\n") + 1);
}

// --- the tree that is wanted ---

std::unique_ptr<Node> copy_of(const Node& node) {
  auto copy = std::make_unique<Node>();
  copy->kind = node.kind;
  copy->origin = node.origin;
  copy->key = node.key;
  copy->text = node.text;
  copy->integer = node.integer;
  copy->number = node.number;
  copy->boolean = node.boolean;
  for (const auto& child : node.children) copy->adopt(copy_of(*child));
  return copy;
}

Node* walk(Node& root, const Way& way, std::size_t n_steps) {
  Node* at = &root;
  for (std::size_t i = 0; at && i < n_steps; ++i) {
    if (!way[i].index) {
      at = at->find(way[i].key);
    } else {
      const bool inside = at->is_array() && *way[i].index < at->children.size();
      at = inside ? at->children[*way[i].index].get() : nullptr;
    }
  }
  return at;
}

void take_out(Node& node) {
  Node& parent = *node.parent;
  parent.by_key.erase(node.key);
  const auto is_node = [&](const auto& child) { return child.get() == &node; };
  parent.children.erase(std::find_if(parent.children.begin(), parent.children.end(), is_node));
  // a table that was only implied by a removed key is removed too
  const bool implied = parent.origin == Origin::DottedKey || parent.origin == Origin::SuperTable ||
                       (parent.is_array() && parent.origin == Origin::TableArray);
  if (implied && parent.children.empty() && parent.parent) take_out(parent);
}

// --- one edit from request to checked text ---

class Edit {
 public:
  Edit(const Document& document, std::string_view path)
      : document_(document), path_(path), layout_(document) {}

  Edited set(std::string_view written) {
    if (auto fault = prepare(written, false)) return failure(*fault);
    const Node* old = walk(*document_.root, way_, way_.size());
    if (!old) return add_key();
    const bool spread = old->origin != Origin::Value && old->origin != Origin::Inline;
    if (spread) {
      return failure(
          refusal(fmt::format("{} is a table with a header or dotted keys, not a single value", path_),
                  "the path of a value", "set the entries of the table one by one, or remove it first"));
    }
    Node* wanted = walk(*wanted_, way_, way_.size());
    auto value = copy_of(*value_);
    wanted->children.clear();
    wanted->by_key.clear();
    wanted->kind = value->kind;
    wanted->origin = value->origin;
    wanted->text = value->text;
    wanted->integer = value->integer;
    wanted->number = value->number;
    wanted->boolean = value->boolean;
    for (auto& child : value->children) wanted->adopt(std::move(child));
    return checked({{old->span, value_text_}});
  }

  Edited remove(bool of_list) {
    if (auto fault = prepare({}, true)) return failure(*fault);
    const Node* old = walk(*document_.root, way_, way_.size());
    if (!old || way_.empty()) return failure(no_such("nothing to remove"));
    if (of_list != way_.back().index.has_value()) {
      return failure(refusal(
          fmt::format("{} is {}", path_, of_list ? "not an element of a list" : "an element of a list"),
          of_list ? "a path that ends in an index" : "a path that ends in a key",
          of_list ? "use remove_key" : "use remove_element"));
    }
    take_out(*walk(*wanted_, way_, way_.size()));
    std::vector<Splice> splices;
    if (old->parent->is_array() && old->parent->origin == Origin::Value) {
      splices.push_back({element_span(*old), ""});
    } else {
      erase_statements(*old, splices);
      for (const Span& section : section_spans(*old)) splices.push_back({section, ""});
    }
    return checked(std::move(splices));
  }

  Edited insert(std::string_view written) {
    if (auto fault = prepare(written, false)) return failure(*fault);
    const Node* list = list_to_fill();
    if (!list || list->origin != Origin::Value)
      return failure(no_such("there is no list of values to insert into"));
    const std::size_t index = *way_.back().index;
    Node* wanted = walk(*wanted_, way_, way_.size() - 1);
    put(*wanted, index, copy_of(*value_));
    return checked(element_splices(*list, index));
  }

  Edited insert_table(std::string_view entries) {
    if (auto fault = prepare({}, true)) return failure(*fault);
    Document body = parse(std::string(entries));
    if (!body.ok()) return failure(of_request(body.faults.front(), "these entries cannot be read"));
    if (!Layout(body).headers_of(*body.root).empty()) {
      return failure(
          refusal("the entries contain a header", "lines of key = value", "write inner tables as { ... }"));
    }
    const Node* list = list_to_fill();
    if (list && list->origin != Origin::TableArray) return failure(no_such("no list of [[...]] tables"));
    if (!list && !can_begin_list())
      return failure(no_such("there is no list of [[...]] tables to insert into"));
    const std::size_t index = *way_.back().index;
    put_table(index, *body.root);
    // where, and under which header
    std::string header;
    std::size_t at = 0;
    if (list) {
      const auto& tables = list->children;
      header = document_.slice(tables.front()->header);
      at = index < tables.size() ? layout_.section_begin(*tables[index]) : layout_.region_end(*tables.back());
    } else {
      header = "[[" + header_name(way_.size() - 1) + "]]";
      at = layout_.region_end(*deepest(way_.size() - 1).first);
    }
    return checked({section_splice(at, header, lines_of(entries))});
  }

 private:
  // --- request ---

  /// Reads the path and the value; sets the tree that is wanted to a copy of what is there.
  std::optional<Fault> prepare(std::string_view written, bool without_value) {
    if (!document_.ok()) {
      Fault fault = document_.faults.front();
      fault.remedy += "; only a file without faults can be edited";
      return fault;
    }
    auto way = parse_path(path_);
    if (!way || way->empty())
      return refusal(fmt::format("\"{}\" is not a path", path_), "keys with dots, such as piston.stack[2]",
                     "correct the path");
    way_ = std::move(*way);
    wanted_ = copy_of(*document_.root);
    if (without_value) return std::nullopt;
    written = trimmed(written);
    value_document_ = parse("v = " + std::string(written));
    if (!value_document_.ok()) return of_request(value_document_.faults.front(), "this is not a value");
    value_ = value_document_.root->find("v");
    const bool alone =
        value_document_.root->children.size() == 1 && value_->span.end == value_document_.text.size();
    if (!alone) return refusal("more than one value", "one value in TOML form", "give only the value");
    value_text_ = written;
    return std::nullopt;
  }

  static Fault of_request(const Fault& inner, std::string_view head) {
    return refusal(fmt::format("{}: {}", head, inner.what), inner.expected, inner.remedy);
  }

  Fault no_such(std::string_view what) const {
    return refusal(fmt::format("{}: {} is not in the file, or is not of that kind", what, path_),
                   "the path of something in the file", "correct the path");
  }

  /// The list that the last step indexes, with room at that index; null when there is none.
  const Node* list_to_fill() const {
    if (!way_.back().index) return nullptr;
    const Node* list = walk(*document_.root, way_, way_.size() - 1);
    return list && list->is_array() && *way_.back().index <= list->children.size() ? list : nullptr;
  }

  /// The deepest node on the way that is there, and how many steps lead to it.
  std::pair<const Node*, std::size_t> deepest(std::size_t n_steps) const {
    for (std::size_t n = n_steps; n > 0; --n) {
      if (const Node* node = walk(*document_.root, way_, n)) return {node, n};
    }
    return {document_.root.get(), 0};
  }

  bool can_begin_list() const {
    if (way_.back().index != std::optional<std::size_t>(0)) return false;
    const auto [holder, n] = deepest(way_.size() - 1);
    const bool only_keys = std::all_of(way_.begin() + static_cast<std::ptrdiff_t>(n), way_.end() - 1,
                                       [](const Step& s) { return !s.index; });
    return only_keys && n + 1 < way_.size() && holder->is_table() && holder->origin != Origin::Inline;
  }

  /// The keys of the first steps as a header names them: without indices.
  std::string header_name(std::size_t n_steps) const {
    std::string name;
    for (std::size_t i = 0; i < n_steps; ++i) {
      if (way_[i].index) continue;
      if (!name.empty()) name += '.';
      name += is_bare_key(way_[i].key) ? way_[i].key : quote(way_[i].key);
    }
    return name;
  }

  // --- the tree that is wanted ---

  static void put(Node& list, std::size_t index, std::unique_ptr<Node> child) {
    list.adopt(std::move(child));
    std::rotate(list.children.begin() + static_cast<std::ptrdiff_t>(index), list.children.end() - 1,
                list.children.end());
  }

  /// The node at the first steps of the way, with the tables made that are missing.
  Node& wanted_table(std::size_t n_steps) {
    Node* at = wanted_.get();
    for (std::size_t i = 0; i < n_steps; ++i) {
      Node* next = walk(*wanted_, way_, i + 1);
      if (!next) {
        auto table = std::make_unique<Node>();
        table->kind = Kind::Table;
        table->key = way_[i].key;
        next = &at->adopt(std::move(table));
      }
      at = next;
    }
    return *at;
  }

  void put_table(std::size_t index, const Node& body) {
    Node* list = walk(*wanted_, way_, way_.size() - 1);
    if (!list) {
      auto made = std::make_unique<Node>();
      made->kind = Kind::Array;
      made->key = way_[way_.size() - 2].key;
      list = &wanted_table(way_.size() - 2).adopt(std::move(made));
    }
    put(*list, index, copy_of(body));
  }

  // --- adding a key ---

  Edited add_key() {
    const auto [holder, n] = deepest(way_.size() - 1);
    const bool only_keys = std::all_of(way_.begin() + static_cast<std::ptrdiff_t>(n), way_.end(),
                                       [](const Step& s) { return !s.index; });
    if (!only_keys || !holder->is_table()) return failure(no_such("there is no place for a value"));
    auto child = copy_of(*value_);
    child->key = way_.back().key;
    wanted_table(way_.size() - 1).adopt(std::move(child));
    // a table that keys can be written in: with braces, under a header, or in dotted keys
    const Node* written_in = holder;
    std::size_t n_kept = n;
    while (written_in->origin == Origin::DottedKey) {
      written_in = written_in->parent;
      --n_kept;
    }
    const std::string entry = header_name_from(n_kept);
    if (written_in->origin == Origin::Inline) return checked({inline_splice(*written_in, entry)});
    const bool new_table = n + 1 < way_.size() && holder->origin != Origin::DottedKey;
    if (new_table) {
      const std::string header = "[" + header_name(way_.size() - 1) + "]";
      return checked(
          {section_splice(layout_.region_end(*holder), header,
                          header_name_from(way_.size() - 1) + " = " + value_text_ + layout_.newline())});
    }
    if (written_in->origin == Origin::SuperTable) {
      const std::string header = "[" + header_name(n_kept) + "]";
      const std::size_t at = layout_.section_begin(*layout_.headers_of(*written_in).front());
      return checked({section_splice(at, header, entry + " = " + value_text_ + layout_.newline())});
    }
    return checked({line_splice(*written_in, *holder, entry)});
  }

  /// The keys behind the first steps, as a dotted key.
  std::string header_name_from(std::size_t n_steps) const {
    std::string name;
    for (std::size_t i = n_steps; i < way_.size(); ++i) {
      if (!name.empty()) name += '.';
      name += is_bare_key(way_[i].key) ? way_[i].key : quote(way_[i].key);
    }
    return name;
  }

  /// The text between key and value: as in the entry before, its = kept in the same column where it was
  /// set apart.
  std::string equals_like(const Node& model, std::size_t key_length) const {
    const std::string_view between = document_.slice({model.key_span.end, model.span.begin});
    const std::size_t before = between.find('=');
    std::string blanks(between.substr(0, before));
    const std::size_t model_length = model.key_span.end - model.statement.begin;
    const bool aligned = before > 1 && blanks.find('\t') == std::string::npos;
    if (aligned) {
      const std::size_t column = model_length + before;
      blanks.assign(column > key_length ? column - key_length : 1, ' ');
    }
    return blanks + std::string(between.substr(before));
  }

  Splice inline_splice(const Node& table, const std::string& key) const {
    const auto entries = layout_.entries_of(table);
    if (entries.empty())
      return {{table.span.begin + 1, table.span.end - 1}, " " + key + " = " + value_text_ + " "};
    const Node& last = *entries.back();
    const std::string comma =
        entries.size() > 1
            ? std::string(document_.slice({entries[entries.size() - 2]->statement.end, last.statement.begin}))
            : ", ";
    const std::size_t at = last.statement.end;
    return {{at, at}, comma + key + equals_like(last, key.size()) + value_text_};
  }

  /// A new line after the last entry of `near` that is in the section of `table`, or else after the
  /// header.
  Splice line_splice(const Node& table, const Node& near, const std::string& key) const {
    auto entries = layout_.entries_of(near);
    if (entries.empty()) entries = layout_.entries_of(table);
    if (entries.empty()) return first_line_splice(table, key);
    const Node& last = *entries.back();
    const std::string line =
        layout_.indent_at(last.statement.begin) + key + equals_like(last, key.size()) + value_text_;
    return own_line_splice(layout_.next_line(last.statement.end), line);
  }

  Splice first_line_splice(const Node& table, const std::string& key) const {
    const std::string line = key + " = " + value_text_;
    if (table.origin != Origin::Root) {
      return own_line_splice(layout_.next_line(table.header.end),
                             layout_.indent_at(table.header.begin) + line);
    }
    // the file has no entry before its first header: set the new one apart from it
    const std::size_t at = layout_.section_end(0);
    const auto headers = layout_.headers_of(table);
    if (headers.empty()) return own_line_splice(document_.text.size(), line);
    const std::size_t before =
        headers.front()->header.begin == layout_.line_start(0) ? layout_.line_start(0) : at;
    return {{before, before}, line + layout_.newline() + layout_.newline()};
  }

  /// `line` at `at`, which is the begin of a line or the end of the text.
  Splice own_line_splice(std::size_t at, const std::string& line) const {
    const bool after_open_line = at == document_.text.size() && layout_.line_start(at) < at;
    return {{at, at}, after_open_line ? layout_.newline() + line : line + layout_.newline()};
  }

  std::string lines_of(std::string_view entries) const {
    std::string lines;
    for (std::size_t i = 0; i < entries.size(); ++i) {
      if (entries[i] == '\r' && i + 1 < entries.size() && entries[i + 1] == '\n') continue;
      lines += entries[i] == '\n' ? layout_.newline() : std::string(1, entries[i]);
    }
    if (!lines.empty() && lines.back() != '\n') lines += layout_.newline();
    return lines;
  }

  /// A section of its own at `at`, set apart by a blank line.
  Splice section_splice(std::size_t at, const std::string& header, const std::string& lines) const {
    const std::string nl = layout_.newline();
    std::string section = header + nl + lines;
    const std::string_view text = document_.text;
    if (at < text.size()) return {{at, at}, section + nl};
    const bool empty = text.size() == layout_.line_start(0);
    const bool open_line = !empty && layout_.line_start(at) < at;
    const bool blank_above =
        !open_line &&
        (empty || at < 2 || text.substr(0, at - 1).find_last_not_of(" \t\r") == std::string_view::npos ||
         text[text.substr(0, at - 1).find_last_not_of(" \t\r")] == '\n');
    if (open_line) section = nl + nl + section;
    if (!open_line && !blank_above) section = nl + section;
    return {{at, at}, section};
  }

  // --- taking out ---

  /// The lines of all sections of `node` and below; with a blank line above them when they end the file.
  std::vector<Span> section_spans(const Node& node) const {
    std::vector<Span> spans;
    for (const Node* header : layout_.headers_of(node)) {
      const Span span{layout_.section_begin(*header), layout_.section_end(header->header.begin)};
      if (!spans.empty() && spans.back().end == span.begin) {
        spans.back().end = span.end;
      } else {
        spans.push_back(span);
      }
    }
    if (spans.empty() || spans.back().end < document_.text.size() || spans.back().begin == 0) return spans;
    const std::size_t begin = spans.back().begin;
    const std::size_t above = layout_.line_start(begin - 1);
    const bool blank = above < begin && trimmed(document_.slice({above, begin})).empty();
    if (blank) spans.back().begin = above;
    return spans;
  }

  /// Statements of `node` and below that are in a section or in braces outside of it.
  void erase_statements(const Node& node, std::vector<Splice>& splices) const {
    if (!node.statement.empty()) {
      splices.push_back({statement_span(node), ""});
    } else if (node.origin == Origin::DottedKey) {
      for (const Node* entry : layout_.entries_of(node)) splices.push_back({statement_span(*entry), ""});
    }
  }

  Span statement_span(const Node& node) const {
    const Node* table = node.parent;
    while (table->origin == Origin::DottedKey) table = table->parent;
    if (table->origin != Origin::Inline)
      return {layout_.line_start(node.statement.begin), layout_.next_line(node.statement.end)};
    const auto entries = layout_.entries_of(*table);
    const auto it = std::find(entries.begin(), entries.end(), &node);
    if (it + 1 != entries.end()) return {node.statement.begin, (*(it + 1))->statement.begin};
    if (it != entries.begin()) return {(*(it - 1))->statement.end, node.statement.end};
    return {table->span.begin + 1, node.statement.end};
  }

  /// What goes with one element of a list of values: its comma, and its line when it has one to itself.
  Span element_span(const Node& element) const {
    const Node& list = *element.parent;
    const std::string_view text = document_.text;
    const Span span = element.span;
    const bool is_last = list.children.back().get() == &element;
    const std::size_t token = layout_.next_token(span.end);
    const bool has_comma = text[token] == ',' && !layout_.holds_newline({span.end, token});
    const std::size_t end = has_comma ? token + 1 : span.end;
    const std::size_t start = layout_.line_start(span.begin);
    const std::size_t after = std::min(text.find_first_not_of(" \t\r", end), text.size());
    const bool own_line =
        start > list.span.begin &&
        text.substr(start, span.begin - start).find_first_not_of(" \t") == std::string_view::npos &&
        (text[after] == '\n' || text[after] == '#');
    if (own_line && (has_comma || is_last)) return {start, layout_.next_line(after)};
    if (!is_last) {
      // the next element moves up, unless there is a comment between them
      const std::size_t comma = text[token] == ',' ? token : layout_.next_token(span.end);
      const std::size_t next = std::min(text.find_first_not_of(" \t", comma + 1), text.size());
      return {span.begin, text[next] == '#' || text[next] == '\n' || text[next] == '\r' ? comma + 1 : next};
    }
    const std::size_t n = list.children.size();
    if (n == 1) return {span.begin, end};
    const std::size_t before = list.children[n - 2]->span.end;
    const bool remark = document_.slice({before, span.begin}).find('#') != std::string_view::npos;
    return {remark ? span.begin : before, remark ? end : span.end};
  }

  // --- putting an element into a list ---

  std::vector<Splice> element_splices(const Node& list, std::size_t index) const {
    const auto& all = list.children;
    const std::string_view text = document_.text;
    const std::size_t open = list.span.begin + 1;
    if (all.empty()) return {{{open, open}, value_text_}};
    const std::size_t first_begin = all.front()->span.begin;
    if (index == 0) {
      const bool own_line = layout_.holds_newline({open, first_begin});
      const std::string gap =
          own_line ? layout_.newline() + layout_.indent_at(first_begin) : std::string(gap_of(list));
      return {{{first_begin, first_begin}, value_text_ + "," + gap}};
    }
    const Span before = all[index - 1]->span;
    const std::size_t token = layout_.next_token(before.end);
    const bool has_comma = text[token] == ',';
    const std::size_t behind = has_comma ? token + 1 : before.end;
    const std::size_t after = std::min(text.find_first_not_of(" \t\r", behind), text.size());
    const std::size_t previous = index >= 2 ? all[index - 2]->span.end : open;
    const bool own_line =
        layout_.holds_newline({previous, before.begin}) && (text[after] == '\n' || text[after] == '#');
    std::vector<Splice> splices;
    if (own_line) {
      // behind the remark on the line before, so that it stays with its element
      if (!has_comma) splices.push_back({{before.end, before.end}, ","});
      const std::size_t line = layout_.next_line(after);
      splices.push_back(
          {{line, line},
           layout_.indent_at(before.begin) + value_text_ + (has_comma ? "," : "") + layout_.newline()});
    } else if (has_comma) {
      splices.push_back({{behind, behind}, std::string(gap_of(list)) + value_text_ + ","});
    } else {
      splices.push_back({{before.end, before.end}, "," + std::string(gap_of(list)) + value_text_});
    }
    return splices;
  }

  /// The blanks behind a comma of this list.
  std::string_view gap_of(const Node& list) const {
    if (list.children.size() < 2) return " ";
    const std::string_view between =
        document_.slice({list.children[0]->span.end, list.children[1]->span.begin});
    const std::string_view gap = between.substr(between.find(',') + 1);
    return gap.find_first_not_of(" \t") == std::string_view::npos ? gap : " ";
  }

  // --- the proof ---

  Edited checked(std::vector<Splice> splices) const {
    std::string text = spliced(document_.text, std::move(splices));
    const Document again = parse(text);
    if (!again.ok()) return failure(of_request(again.faults.front(), "the file could no longer be read"));
    if (!same_value(*again.root, *wanted_)) {
      return failure(refusal(fmt::format("{} cannot be changed here without changing something else", path_),
                             "a change of one thing", "make this change by hand"));
    }
    return text;
  }

  const Document& document_;
  std::string path_;
  Layout layout_;
  Way way_;
  std::unique_ptr<Node> wanted_;
  Document value_document_;
  const Node* value_ = nullptr;
  std::string value_text_;
};

}  // namespace

Edited set_value(const Document& document, std::string_view path, std::string_view toml_value) {
  return Edit(document, path).set(toml_value);
}
Edited remove_key(const Document& document, std::string_view path) {
  return Edit(document, path).remove(false);
}
Edited insert_element(const Document& document, std::string_view path, std::string_view toml_value) {
  return Edit(document, path).insert(toml_value);
}
Edited insert_table(const Document& document, std::string_view path, std::string_view entries) {
  return Edit(document, path).insert_table(entries);
}
Edited remove_element(const Document& document, std::string_view path) {
  return Edit(document, path).remove(true);
}

}  // namespace shimwright::toml
