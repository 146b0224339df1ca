#pragma once
#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace shimwright::toml {

/// Bounds that keep a hostile or broken file from eating the machine.
struct Limits {
  std::size_t max_bytes = 16u << 20;  // a larger text is refused unread
  int max_depth = 100;                // tables and arrays inside each other, dotted keys included
  std::size_t max_faults = 100;       // reading stops there
};

/// Bytes [begin, end) of the document's text.
struct Span {
  std::size_t begin = 0;
  std::size_t end = 0;
  bool empty() const { return begin == end; }
};

/// Place of a byte for a reader: both 1-based, the column counted in code points.
struct LineColumn {
  int line = 1;
  int column = 1;
};

/// What is wrong at one place of the text, and what to do about it.
struct Fault {
  std::size_t begin =
      0;  // byte offsets into the text; of an edit: 0, 0 when no place of the text is to blame
  std::size_t end = 0;
  int line = 0;    // 1-based; 0 when there is no place
  int column = 0;  // 1-based, in code points
  std::string what;
  std::string expected;
  std::string remedy;  // one imperative sentence
};

enum class Kind {
  Table,
  Array,
  String,
  Integer,
  Float,
  Boolean,
  OffsetDateTime,
  LocalDateTime,
  LocalDate,
  LocalTime,
  Faulty,  // the key is there but its value could not be read; a fault says why
};

/// How a node came to be written; what may be added to it later hangs on this.
enum class Origin {
  Root,
  Value,       // any value written out, a static array included
  Inline,      // { ... }
  Header,      // [name]
  SuperTable,  // only implied, as `a` by [a.b]
  DottedKey,   // implied by a dotted key, as `a` by a.b = 1
  TableArray,  // the array behind [[name]], and each table in it
};

/// One table, array or value. Children of a table are in file order, those of an array in index order.
struct Node {
  Kind kind = Kind::Faulty;
  Origin origin = Origin::Value;

  std::string key;   // as meant, without quotes; empty for array elements and the root
  std::string text;  // the string; for dates, times and faulty values what was typed; else empty
  std::int64_t integer = 0;
  double number = 0.0;
  bool boolean = false;

  Span span;       // the value; of a table under a header: from its header to the last entry below it
  Span key_span;   // this node's own part of the key, quotes included
  Span statement;  // from the first part of the (dotted) key to the end of the value; empty where there is
                   // none
  Span header;     // [name] or [[name]] with its brackets; empty for tables without one

  Node* parent = nullptr;
  int depth = 0;
  std::vector<std::unique_ptr<Node>> children;
  std::unordered_map<std::string_view, Node*> by_key;  // into children; empty for arrays

  bool is_table() const { return kind == Kind::Table; }
  bool is_array() const { return kind == Kind::Array; }

  /// The entry of a table, or null.
  const Node* find(std::string_view name) const;
  Node* find(std::string_view name);
  /// The value if it is of that kind, or null.
  const std::string* as_string() const { return kind == Kind::String ? &text : nullptr; }
  const std::int64_t* as_integer() const { return kind == Kind::Integer ? &integer : nullptr; }
  const bool* as_boolean() const { return kind == Kind::Boolean ? &boolean : nullptr; }
  /// An integer or a float, as a number.
  std::optional<double> as_number() const;

  /// Takes `child` in; a table's child must carry a key that is still free.
  Node& adopt(std::unique_ptr<Node> child);
};

/// A text, what it says and all that is wrong with it. The tree of a text with faults holds what could be
/// read.
struct Document {
  std::string text;
  std::unique_ptr<Node> root;
  std::vector<Fault> faults;  // in file order

  bool ok() const { return faults.empty(); }
  LineColumn place(std::size_t offset) const;
  std::string_view slice(Span span) const {
    return std::string_view(text).substr(span.begin, span.end - span.begin);
  }
  /// The node at a path such as `piston.rebound.stack[2]` (indices from 0), or null.
  const Node* at(std::string_view path) const;

  std::vector<std::size_t> line_starts;  // byte offset of each line, for place()
};

/// Reads TOML 1.0. Goes on after a fault, so that all of them are found at once; never throws for data.
Document parse(std::string text, const Limits& limits = {});

/// The way to a node from the root: `piston.rebound.stack[2]`; keys that are not bare are quoted. Empty for
/// the root.
std::string path_of(const Node& node);

/// One step of a path: a key, or an index when `index` is set.
struct Step {
  std::string key;
  std::optional<std::size_t> index;
};
/// The steps of a path, or nothing when the text is no path.
std::optional<std::vector<Step>> parse_path(std::string_view path);

/// Same keys with same values, the order of keys and the way of writing do not matter. NaN equals NaN.
bool same_value(const Node& a, const Node& b);

std::string_view name_of(Kind kind);  // "table", "whole number", ...

}  // namespace shimwright::toml
