// The statements of a text, one after the other, and the values in them.
#include <algorithm>
#include <set>

#include <fmt/core.h>

#include "toml/bare_value.h"
#include "toml/encoding.h"
#include "toml/tree_rules.h"

namespace shimwright::toml {
namespace {

/// Place of a value; it decides what may follow.
enum class Context { Line, Array, Inline };

class Parser {
 public:
  Parser(Document& document, const Limits& limits)
      : document_(document),
        text_(document.text),
        limits_(limits),
        complain_([this](Complaint c) { note(std::move(c)); }),
        rules_(document, limits, complain_) {}

  void run() {
    section_ = document_.root.get();
    const bool readable = check_encoding(text_, [this](Complaint c) {
      faulty_lines_.insert(document_.place(c.span.begin).line);
      note(std::move(c), true);
    });
    at_ = readable ? first_offset(text_) : text_.size();
    while (!at_end() && !stopped_) statement();
    for (Fault& fault : document_.faults) {
      const LineColumn place = document_.place(fault.begin);
      fault.line = place.line;
      fault.column = place.column;
    }
    std::stable_sort(document_.faults.begin(), document_.faults.end(),
                     [](const Fault& a, const Fault& b) { return a.begin < b.begin; });
  }

 private:
  // --- faults ---

  void note(Complaint c, bool about_bytes = false) {
    if (muted_ || document_.faults.size() >= limits_.max_faults) return;
    // bytes that are wrong in themselves make the rest of their line hard to judge
    if (!about_bytes && faulty_lines_.count(document_.place(c.span.begin).line) > 0) return;
    document_.faults.push_back(
        {c.span.begin, c.span.end, 0, 0, std::move(c.what), std::move(c.expected), std::move(c.remedy)});
    // nobody reads more faults than that: skip the rest
    stopped_ = document_.faults.size() >= limits_.max_faults;
  }

  void complain(std::size_t begin, std::size_t end, std::string what, std::string expected,
                std::string remedy) {
    complain_(
        {{begin, std::min(end, text_.size())}, std::move(what), std::move(expected), std::move(remedy)});
  }

  // --- moving over the text ---

  bool at_end() const { return at_ >= text_.size(); }
  char char_at(std::size_t i) const { return i < text_.size() ? text_[i] : '\0'; }
  char peek(std::size_t ahead = 0) const { return char_at(at_ + ahead); }
  bool is_newline(std::size_t i) const {
    return char_at(i) == '\n' || (char_at(i) == '\r' && char_at(i + 1) == '\n');
  }
  bool at_line_end() const { return at_end() || is_newline(at_) || peek() == '#'; }

  void skip_blanks() {
    while (peek() == ' ' || peek() == '\t') ++at_;
  }

  void skip_line() {
    const std::size_t newline = text_.find('\n', std::min(at_, text_.size()));
    at_ = newline == std::string_view::npos ? text_.size() : newline + 1;
  }

  /// Over blanks, newlines and comments; true when a newline was among them.
  bool skip_blank_lines() {
    bool over_newline = false;
    for (skip_blanks(); !at_end() && at_line_end(); skip_blanks()) {
      const std::size_t before = at_;
      skip_line();
      over_newline = over_newline || text_.substr(before, at_ - before).back() == '\n';
    }
    return over_newline;
  }

  std::size_t line_end() const {
    std::size_t end = std::min(text_.find('\n', at_), text_.size());
    if (end > at_ && text_[end - 1] == '\r') --end;
    return end;
  }

  /// The text from here to the end of what could be meant as one value, blanks at its end left out.
  Span run_from(std::size_t begin, Context context) const {
    const std::string_view stops = context == Context::Line ? "\r\n#" : "\r\n#,]}";
    std::size_t end = std::min(text_.find_first_of(stops, begin), text_.size());
    while (end > begin && (text_[end - 1] == ' ' || text_[end - 1] == '\t')) --end;
    return {begin, end};
  }

  // --- statements ---

  void statement() {
    skip_blanks();
    if (at_line_end()) return skip_line();
    const std::size_t begin = at_;
    const bool done = peek() == '[' ? header() : key_value();
    if (done && expect_line_end()) return skip_line();
    // a list that was never closed stops at the start of the line that shows it
    const bool at_fresh_line = at_ > begin && !at_end() && text_[at_ - 1] == '\n';
    if (!at_fresh_line) skip_line();
  }

  bool expect_line_end() {
    skip_blanks();
    if (at_line_end()) return true;
    const Span rest = run_from(at_, Context::Line);
    const std::string_view more = text_.substr(rest.begin, rest.end - rest.begin);
    const std::string_view value = text_.substr(value_.begin, rest.end - value_.begin);
    if (more.starts_with(',') && value_is_number_ && more.size() > 1 && more[1] >= '0' && more[1] <= '9') {
      std::string with_point(value);
      with_point[at_ - value_.begin] = '.';
      const bool has_unit = with_point.find(' ') != std::string::npos;
      complain(value_.begin, rest.end, "a comma inside a number",
               "a decimal point; quantities in quotes, like \"0.15 mm\"",
               "write " + (has_unit ? quote(with_point) : with_point));
    } else if (more.starts_with(',')) {
      complain(at_, at_ + 1, "a stray comma", "the end of the line",
               "delete the comma; a list of values needs [ and ]");
    } else if (value_is_number_) {
      complain(value_.begin, rest.end, "more than one value", "quantities in quotes, like \"0.15 mm\"",
               value.size() > 60 ? "put it in double quotes" : "write " + quote(value));
    } else {
      complain(at_, rest.end,
               fmt::format("there is more text where the line should end: {}", more.substr(0, 40)),
               "the end of the line, or a # comment", "delete it, or move it to its own line");
    }
    return false;
  }

  /// [table] or [[array of tables]].
  bool header() {
    const std::size_t begin = at_;
    const bool of_array = peek(1) == '[';
    at_ += of_array ? 2 : 1;
    value_ = {begin, begin};
    value_is_number_ = false;
    section_ = &loose_root();  // until the header proves sound; keeps what follows from clashing
    skip_blanks();
    const auto key = read_key();
    if (!key) return false;
    skip_blanks();
    const std::string_view closing = of_array ? "]]" : "]";
    if (text_.substr(at_, closing.size()) != closing) {
      complain(begin, line_end(), "this header is not closed",
               fmt::format("{} after the name of the table", closing),
               fmt::format("put {} after the name", closing));
      return false;
    }
    at_ += closing.size();
    const Span span{begin, at_};
    Node& root = *document_.root;
    Node* table = of_array ? rules_.append_table(root, *key, span) : rules_.open_table(root, *key, span);
    if (table) section_ = table;
    return true;
  }

  bool key_value() {
    const std::size_t begin = at_;
    auto key = read_key();
    if (!key) return false;
    skip_blanks();
    bool muted_here = false;
    if (peek() == ':') {
      complain(at_, at_ + 1, "a colon after the key", "an = between key and value", colon_remedy(*key));
      muted_here = true;  // what is wrong behind it has been said
    } else if (peek() != '=') {
      complain_no_equals(begin, *key);
      return false;
    }
    ++at_;
    skip_blanks();
    muted_ = muted_here;
    Node* entry = rules_.define_entry(*section_, *key);
    const bool done = value(entry ? *entry : loose_value(), Context::Line);
    muted_ = false;
    finish_entry(entry, begin);
    if (muted_here) {
      skip_blanks();
      at_ = std::max(at_, run_from(at_, Context::Line).end);
    }
    return done;
  }

  void finish_entry(Node* entry, std::size_t begin) {
    if (!entry) return;
    entry->statement = {begin, std::max(entry->span.end, entry->key_span.end)};
    if (!section_->header.empty() && section_->span.end < entry->statement.end)
      section_->span.end = entry->statement.end;
  }

  std::string colon_remedy(const std::vector<KeyPart>& key) const {
    const Span run = run_from(at_ + 1, Context::Line);
    std::string_view rest = text_.substr(run.begin, run.end - run.begin);
    rest.remove_prefix(std::min(rest.find_first_not_of(" \t"), rest.size()));
    if (rest.empty() || rest.size() > 60) return "write = instead of the colon";
    Node trial;
    const bool is_value =
        std::string_view("\"'[{").find(rest[0]) != std::string_view::npos || read_bare_value(rest, trial);
    const std::string_view name =
        text_.substr(key.front().span.begin, key.back().span.end - key.front().span.begin);
    return fmt::format("write {} = {}", name, is_value ? std::string(rest) : quote(rest));
  }

  void complain_no_equals(std::size_t begin, const std::vector<KeyPart>& key) {
    const std::string_view written = text_.substr(begin, key.back().span.end - begin);
    const std::size_t end = line_end();
    const std::string_view rest = text_.substr(at_, end - at_);
    const std::size_t equals = rest.find('=');
    if (at_line_end()) {
      complain(begin, key.back().span.end, fmt::format("{} has no value", written), "key = value",
               fmt::format("write {} = and a value, or put # before it if it is a comment", written));
    } else if (equals != std::string_view::npos &&
               rest.substr(0, equals).find_first_of("\"'#[{") == std::string_view::npos) {
      std::string_view name = text_.substr(begin, at_ + equals - begin);
      while (!name.empty() && (name.back() == ' ' || name.back() == '\t')) name.remove_suffix(1);
      complain(begin, begin + name.size(), fmt::format("{} is not a plain key", name),
               "a key of letters a-z, digits, - and _; any other key in quotes",
               fmt::format("join the words with _, or write {} =", quote(name)));
    } else {
      complain(at_, end, fmt::format("no = after {}", written), "key = value",
               fmt::format("put = after {}, or # before the line if it is a comment", written));
    }
  }

  // --- keys ---

  std::optional<std::vector<KeyPart>> read_key() {
    std::vector<KeyPart> key;
    while (true) {
      auto part = read_key_part(key.empty());
      if (!part) return std::nullopt;
      key.push_back(std::move(*part));
      const std::size_t end = at_;
      skip_blanks();
      if (peek() != '.') {
        at_ = end;
        return key;
      }
      ++at_;
      skip_blanks();
    }
  }

  std::optional<KeyPart> read_key_part(bool is_first) {
    const std::size_t begin = at_;
    if (peek() == '"' || peek() == '\'') {
      Quoted quoted = read_quoted(text_, at_, false, complain_);
      at_ = quoted.end;
      if (!quoted.closed) return std::nullopt;
      return KeyPart{std::move(quoted.text), {begin, at_}};
    }
    while (is_bare_key_char(peek())) ++at_;
    if (at_ > begin) return KeyPart{std::string(text_.substr(begin, at_ - begin)), {begin, at_}};
    complain_no_key(is_first);
    return std::nullopt;
  }

  void complain_no_key(bool is_first) {
    const std::string_view expected = "a key of letters a-z, digits, - and _; any other key in quotes";
    if (at_line_end() || peek() == '=' || peek() == ']' || peek() == '.') {
      complain(at_, at_ + 1, is_first ? "the key is missing" : "a dot without a key after it",
               std::string(expected),
               is_first ? "write a key here" : "delete the dot, or write the key after it");
      return;
    }
    const std::size_t stop = std::min(text_.find_first_of(" \t\r\n=:#.]}", at_), text_.size());
    const std::string_view word = text_.substr(at_, std::max(stop, at_ + 1) - at_);
    complain(at_, at_ + word.size(), fmt::format("{} is not a plain key", word.substr(0, 40)),
             std::string(expected),
             word.size() > 60 ? "put the key in double quotes" : fmt::format("write {}", quote(word)));
  }

  // --- values ---

  /// Reads a value into `node`. False when the text behind it makes no sense any more and the statement is
  /// given up.
  bool value(Node& node, Context context) {
    const std::size_t begin = at_;
    value_ = {begin, begin};
    value_is_number_ = false;
    node.kind = Kind::Faulty;
    bool done = true;
    if (at_line_end()) {
      complain(begin, begin + 1, "no value",
               "a value: \"text\", a number, true, false, a date, [list] or {table}",
               "write the value after the =, or delete the line");
    } else if (peek() == '"' || peek() == '\'') {
      quoted_value(node);
    } else if (peek() == '[') {
      done = array(node);
    } else if (peek() == '{') {
      done = inline_table(node);
    } else {
      bare_value(node, context);
    }
    node.span = {begin, at_};
    value_ = {begin, at_};
    return done;
  }

  void quoted_value(Node& node) {
    Quoted quoted = read_quoted(text_, at_, true, complain_);
    at_ = quoted.end;
    if (quoted.closed) node.kind = Kind::String;
    node.text = std::move(quoted.text);
  }

  void bare_value(Node& node, Context context) {
    const std::size_t begin = at_;
    const std::size_t stop = std::min(text_.find_first_of(" \t\r\n,]}#", at_), text_.size());
    std::string_view word = text_.substr(begin, stop - begin);
    // a space is allowed between date and time
    if (is_date(word) && char_at(stop) == ' ' && char_at(stop + 3) == ':') {
      const std::size_t end = std::min(text_.find_first_of(" \t\r\n,]}#", stop + 1), text_.size());
      word = text_.substr(begin, end - begin);
    }
    const bool is_value = read_bare_value(word, node);
    at_ = begin + word.size();
    skip_blanks();
    if (is_value && follows_value(context)) {
      at_ = begin + word.size();
      value_is_number_ = node.kind == Kind::Integer || node.kind == Kind::Float;
      return;
    }
    fail_bare_value(node, begin, context);
  }

  /// True when what comes next ends a value, or is a value of its own (reading on finds the comma
  /// missing).
  bool follows_value(Context context) {
    if (at_line_end()) return true;
    if (context == Context::Line) return peek() == ',' || peek() == ']' || peek() == '}';
    if (std::string_view(",]}\"'[{").find(peek()) != std::string_view::npos) return true;
    const std::size_t stop = std::min(text_.find_first_of(" \t\r\n,]}#", at_), text_.size());
    Node trial;
    return read_bare_value(text_.substr(at_, stop - at_), trial);
  }

  void fail_bare_value(Node& node, std::size_t begin, Context context) {
    const Span run = run_from(begin, context);
    node.kind = Kind::Faulty;
    node.text = text_.substr(run.begin, run.end - run.begin);
    at_ = run.end;
    if (run.empty()) {
      const std::string_view mark = text_.substr(begin, 1);
      complain(begin, begin + 1,
               fmt::format("{} where a value should be", mark == "\r" ? "a line end" : mark),
               "a value: \"text\", a number, true, false, a date, [list] or {table}", "write the value here");
      const bool ends_entry = context == Context::Inline && (mark == "}" || mark == ",");
      at_ = ends_entry ? begin : begin + 1;
      return;
    }
    if (node.text == "=" || node.text.substr(0, 1) == "=") {
      complain(run.begin, run.begin + 1, "a second =", "one = between key and value", "delete it");
      return;
    }
    complain_(advice_on_bare(node.text, run));
  }

  /// True at the start of a line that reads `key =` or `[header]`: the list before it was never closed.
  bool looks_like_statement() const {
    std::size_t i = at_;
    const bool is_header = peek() == '[';
    while (char_at(i) == '[') ++i;
    const std::size_t begin = i;
    while (is_bare_key_char(char_at(i)) || char_at(i) == '.') ++i;
    if (i == begin) return false;
    if (!is_header) {
      while (char_at(i) == ' ' || char_at(i) == '\t') ++i;
      return char_at(i) == '=';
    }
    Node trial;
    const bool could_be_list = read_bare_value(text_.substr(begin, i - begin), trial);
    const std::size_t after = std::min(text_.find_first_not_of("] \t", i), text_.size());
    return !could_be_list && char_at(i) == ']' &&
           (after == text_.size() || is_newline(after) || text_[after] == '#');
  }

  bool too_deep(const Node& node) {
    if (node.depth < 2 * limits_.max_depth) return false;
    complain(at_, at_ + 1, "lists or tables nested too deep",
             fmt::format("at most {} inside each other", limits_.max_depth), "use fewer levels");
    at_ = text_.size();
    return true;
  }

  bool give_up_array(std::size_t open, bool over_newline) {
    const std::size_t here = std::min(at_, text_.size());
    if (at_end()) {
      complain(open, open + 1, "this list is not closed before the file ends", "a closing ]",
               "put ] where the list ends");
    } else {
      complain(open, open + 1,
               fmt::format("this list is not closed before line {}", document_.place(here).line),
               "a closing ]", "put ] where the list ends");
    }
    // the statement that shows it is read on its own
    if (over_newline && !at_end()) at_ = text_.rfind('\n', at_ - 1) + 1;
    return false;
  }

  bool array(Node& node) {
    if (too_deep(node)) return false;
    const std::size_t open = at_++;
    node.kind = Kind::Array;
    while (!stopped_) {
      const bool over_newline = skip_blank_lines();
      if (at_end() || (over_newline && looks_like_statement())) return give_up_array(open, over_newline);
      if (peek() == ']') {
        ++at_;
        return true;
      }
      if (peek() == ',') {
        complain(at_, at_ + 1, "a comma without a value before it", "one comma between two values",
                 "delete the comma");
        ++at_;
        continue;
      }
      auto element = std::make_unique<Node>();
      Node& child = node.adopt(std::move(element));
      if (!value(child, Context::Array)) return false;
      const std::size_t after_value = at_;
      const bool next_line = skip_blank_lines();
      if (peek() == ',') {
        ++at_;
      } else if (at_end() || (next_line && looks_like_statement())) {
        return give_up_array(open, next_line);
      } else if (peek() != ']') {
        complain(after_value, after_value + 1, "no comma between two values of a list",
                 "a comma after each value", "put a comma here");
      }
    }
    return false;
  }

  /// Over blanks in an inline table. Reports a newline once.
  void skip_inline_blanks(bool& said) {
    skip_blanks();
    const std::size_t newline = at_;
    if (at_end() || !at_line_end()) return;
    skip_blank_lines();
    if (!said) {
      complain(newline, newline + 1, "an inline table continues on the next line", "{ ... } on one line",
               "put it on one line, or give the table a [header] of its own");
      said = true;
    }
  }

  bool inline_table(Node& node) {
    if (too_deep(node)) return false;
    const std::size_t open = at_++;
    node.kind = Kind::Table;
    node.origin = Origin::Inline;
    bool said_newline = false;
    skip_inline_blanks(said_newline);
    while (peek() != '}') {
      if (stopped_) return false;
      if (at_end()) return give_up_inline(open);
      if (peek() == ',') {
        complain(at_, at_ + 1, "a comma without an entry before it", "one comma between two entries",
                 "delete the comma");
        ++at_;
        skip_inline_blanks(said_newline);
        continue;
      }
      if (!inline_entry(node)) return false;
      skip_blanks();
      const std::size_t after = at_;
      const bool next_line = !at_end() && at_line_end();
      if (next_line && !closes_or_goes_on()) return give_up_inline(open);
      skip_inline_blanks(said_newline);
      if (peek() == ',') {
        const std::size_t comma = at_++;
        skip_inline_blanks(said_newline);
        if (peek() == '}') {
          complain(comma, comma + 1, "a comma before the closing }", "no comma after the last entry",
                   "delete the comma");
        }
      } else if (at_end()) {
        return give_up_inline(open);
      } else if (peek() != '}') {
        complain(after, after + 1, "no comma between two entries", "a comma between the entries of { }",
                 "put a comma here");
        if (!is_bare_key_char(peek()) && peek() != '"' && peek() != '\'') return false;
      }
    }
    ++at_;
    return true;
  }

  /// At a newline in an inline table behind an entry: whether the next text still belongs to the table.
  bool closes_or_goes_on() {
    const std::size_t here = at_;
    skip_blank_lines();
    const bool belongs = peek() == '}' || peek() == ',';
    at_ = here;
    return belongs;
  }

  bool give_up_inline(std::size_t open) {
    complain(open, std::max(open + 1, at_), "this inline table is not closed", "a closing } on the same line",
             "put } where the table ends");
    return false;
  }

  bool inline_entry(Node& table) {
    const std::size_t begin = at_;
    auto key = read_key();
    if (!key) return false;
    skip_blanks();
    if (peek() == ':') {
      complain(at_, at_ + 1, "a colon after the key", "an = between key and value",
               "write = instead of the colon");
    } else if (peek() != '=') {
      complain(begin, key->back().span.end, "this entry has no value", "{ key = value }",
               "write = and a value after the key");
      return false;
    }
    ++at_;
    skip_blanks();
    Node* entry = rules_.define_entry(table, *key);
    const bool done = value(entry ? *entry : loose_value(), Context::Inline);
    if (entry) entry->statement = {begin, entry->span.end};
    return done;
  }

  // --- places for what has no place in the tree ---

  Node& loose_root() {
    loose_.push_back(std::make_unique<Node>());
    loose_.back()->kind = Kind::Table;
    return *loose_.back();
  }
  Node& loose_value() {
    loose_.push_back(std::make_unique<Node>());
    return *loose_.back();
  }

  Document& document_;
  std::string_view text_;
  const Limits& limits_;
  Complain complain_;
  TreeRules rules_;

  std::size_t at_ = 0;
  Node* section_ = nullptr;
  Span value_;                    // the last value read
  bool value_is_number_ = false;  // and whether it was one
  bool muted_ = false;            // faults of a stretch that has been complained of already
  bool stopped_ = false;          // enough faults
  std::set<int> faulty_lines_;
  std::vector<std::unique_ptr<Node>> loose_;
};

}  // namespace

Document parse(std::string text, const Limits& limits) {
  Document document;
  document.text = std::move(text);
  document.root = std::make_unique<Node>();
  document.root->kind = Kind::Table;
  document.root->origin = Origin::Root;
  document.root->span = {0, document.text.size()};
  if (document.text.size() > limits.max_bytes) {
    document.line_starts = {0};
    document.faults.push_back({0, 0, 1, 1, fmt::format("the file has {} bytes", document.text.size()),
                               fmt::format("at most {} bytes", limits.max_bytes), "split the file"});
    return document;
  }
  document.line_starts = line_starts_of(document.text);
  Parser(document, limits).run();
  return document;
}

}  // namespace shimwright::toml
