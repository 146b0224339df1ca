#pragma once
#include <string>
#include <string_view>

#include "base/result.h"
#include "toml/document.h"

namespace shimwright::toml {

/// The text with one thing changed and every other byte as it was: comments, order, spacing, line endings.
///
/// Paths as in path_of(), indices from 0. The result has been read again and says what was requested and
/// nothing else; when that is not possible, the text does not change and the Fault says why. A document with
/// faults is not edited. Errors: Fault with line 0 when it is about the request, with a place when it is
/// about the document. Tested: edit_test.cc, toml_property_test.cc
using Edited = Result<std::string, Fault>;

/// Replaces the value at `path`, or adds the key behind the last entry of its table in that entry's style.
/// Tables on the way that are missing get a [header] behind the rest of the table they belong to.
Edited set_value(const Document& document, std::string_view path, std::string_view toml_value);

/// Takes the key out, with its whole line and the remark on that line; a table goes with its header, the
/// remark lines right above that, and all that is below it.
Edited remove_key(const Document& document, std::string_view path);

/// Puts a value before element `path`, as `stack[2]`; the index one behind the last adds at the end.
Edited insert_element(const Document& document, std::string_view path, std::string_view toml_value);

/// Puts a table [[...]] before the one at `path`, as `units[1]`; the index one behind the last adds at the
/// end, and index 0 begins a list that is not there yet. `entries` are lines of `key = value`, or nothing.
Edited insert_table(const Document& document, std::string_view path, std::string_view entries);

/// Takes one element out of a list, or one table out of a list of [[...]] tables.
Edited remove_element(const Document& document, std::string_view path);

}  // namespace shimwright::toml
