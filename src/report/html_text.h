#pragma once
#include <span>
#include <string>
#include <string_view>

namespace shimwright::report {

/// Text for an element or a quoted attribute of HTML, XML or SVG; a number stays on one line with its unit.
std::string escaped(std::string_view text);

/// RFC 4648 section 4.
std::string base64(std::span<const unsigned char> bytes);

}  // namespace shimwright::report
