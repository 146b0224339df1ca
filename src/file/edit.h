#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.h"
#include "base/result.h"

namespace shimwright::file {

/// The text of a job file with one value changed: order, comments and every other byte stay as they were
/// typed.
///
/// Model:  `path` as in Origin::path, "unit[0].piston_valve.rebound.stack[1]"; a key that is missing is added
/// at the
///         end of its table. `value` is a TOML value, or a text without its quotes where the key takes one:
///         0.20 mm.
/// Errors: what the loader would say of the new value, at its place in the new text; faults elsewhere in the
/// file do
///         not stop the change. Names of parts are not looked up: that needs the parts files.
/// Tested: edit_test.cc
Result<std::string, Diagnostics> set_key(const std::string& text, std::string_view path,
                                         std::string_view value);

/// The same with an element put before the one at `path`, "unit[0].x.stack[2]"; the index one behind the last
/// adds at the end, and index 0 begins a list that is not there yet. A list of [[tables]] takes lines of
/// `key = value`. Errors and tests: as set_key.
Result<std::string, Diagnostics> insert_item(const std::string& text, std::string_view path,
                                             std::string_view value);

/// The same without a key, a table or an element. Errors: when it does not exist, or the file is not TOML.
Result<std::string, Diagnostics> remove_item(const std::string& text, std::string_view path);

/// The same with one element of a list in another place of it; `to` is its index afterwards. The remark
/// behind an element stays on its line. Errors: as remove_item; also for [[tables]], whose order is changed
/// in the text itself.
Result<std::string, Diagnostics> move_item(const std::string& text, std::string_view path, std::size_t to);

/// One value of a file as a person typed it, a text without its quotes.
struct TypedValue {
  std::string path;
  std::string typed;
};

/// Every value of a file, in file order: the value of each key, and each element of a list. Of a text
/// that is no TOML what could be read.
std::vector<TypedValue> typed_values(const std::string& text);

}  // namespace shimwright::file
