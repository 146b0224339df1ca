#pragma once
#include <string>
#include <string_view>

#include "base/diagnostic.h"
#include "base/result.h"

namespace shimwright::job {

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

}  // namespace shimwright::job
