#pragma once
#include <string_view>

#include "toml/document.h"
#include "toml/quoted.h"

namespace shimwright::toml {

/// Reads a number, boolean, date or time and sets kind and value of `node`; false when the word is not one of
/// them.
///
/// A leap second (:60) is accepted in any minute. A float too large for a double becomes an infinity.
/// Source: TOML 1.0.0, sections Integer to Local Time; RFC 3339 section 5.6 for the ranges.
bool read_bare_value(std::string_view word, Node& node);

/// True for a date that exists, as 2024-02-29.
bool is_date(std::string_view word);

/// What to say about an unquoted `run` that is no value: the likeliest slip and how to mend it.
Complaint advice_on_bare(std::string_view run, Span span);

}  // namespace shimwright::toml
