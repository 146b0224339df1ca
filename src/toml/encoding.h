#pragma once
#include <cstddef>
#include <string_view>
#include <vector>

#include "toml/quoted.h"

namespace shimwright::toml {

/// Reports bytes that are not allowed in a TOML text: not UTF-8, control characters, a bare carriage
/// return; the first of each line. False when the text is so far off (UTF-16) that reading on would only
/// mislead.
bool check_encoding(std::string_view text, const Complain& complain);

/// Byte offset of each line; lines end at a newline.
std::vector<std::size_t> line_starts_of(std::string_view text);

/// Where reading begins: behind a byte order mark, which TOML 1.0 lets a text carry at its very start.
std::size_t first_offset(std::string_view text);

}  // namespace shimwright::toml
