#include <algorithm>
#include <array>
#include <cctype>

#include <fmt/core.h>

#include "base/utf8.h"

#include "toml/bare_value.h"

namespace shimwright::toml {
namespace {

/// `[+-]?` and a digit, a point before it allowed; also the signs people put before a measure.
bool starts_like_number(std::string_view run) {
  static constexpr std::array<std::string_view, 8> kSigns = {"+",      "-",      "~",      "\u00b1",
                                                             "\u2248", "\u00d8", "\u2205", "\u2300"};
  for (const std::string_view sign : kSigns) {
    if (run.substr(0, sign.size()) == sign) {
      run.remove_prefix(sign.size());
      break;
    }
  }
  while (!run.empty() && run[0] == ' ') run.remove_prefix(1);
  if (!run.empty() && run[0] == '.') run.remove_prefix(1);
  return !run.empty() && is_digit(run[0]);
}

/// 2024-02-... or 07:32...: four or two digits and their separator.
bool starts_like_date(std::string_view run) {
  const auto digits = [&](std::size_t n) {
    return run.size() > n + 1 &&
           std::all_of(run.begin(), run.begin() + static_cast<std::ptrdiff_t>(n), is_digit) &&
           is_digit(run[n + 1]);
  };
  return (digits(4) && run[4] == '-') || (digits(2) && run[2] == ':');
}

bool has_only(std::string_view run, std::string_view allowed) {
  return run.find_first_not_of(allowed) == std::string_view::npos;
}

std::string offer_quoted(std::string_view run) {
  if (run.size() > 60) return "put it in double quotes";
  return "write " + quote(run);
}

/// A number with a slip in it: digits, signs, points, underscores, an exponent, or a base prefix.
Complaint advice_on_number(std::string_view run, Span span) {
  Complaint c{span, fmt::format("{} is not a number", run), "a number such as 24, 0.15 or 1.5e5",
              "correct the number"};
  std::string_view body = run;
  if (body[0] == '+' || body[0] == '-') body.remove_prefix(1);
  if (body.find("__") != std::string_view::npos || body.starts_with('_') || body.ends_with('_') ||
      body.find("_.") != std::string_view::npos || body.find("._") != std::string_view::npos) {
    c.what = fmt::format("an underscore in {} is not between two digits", run);
    c.remedy = "leave the underscore out";
  } else if (body.starts_with('.')) {
    c.what = fmt::format("{} has no digit before the point", run);
    c.remedy = fmt::format("write {}0{}", run.substr(0, run.size() - body.size()), body);
  } else if (body.ends_with('.')) {
    c.what = fmt::format("{} has no digit after the point", run);
    c.remedy = fmt::format("write {}0", run);
  } else if (has_only(body, "0123456789_") && body.size() > 1 && body.starts_with('0')) {
    c.what = fmt::format("{} has leading zeros", run);
    c.remedy = "leave the leading zeros out, or quote it if it is a part number";
  } else if (has_only(body, "0123456789_")) {
    c.what = fmt::format("{} does not fit in 64 bits", run);
    c.expected = "a whole number of up to 18 digits";
    c.remedy = "write it as a decimal number, or quote it if it is a part number";
  } else if (body.find('-') != std::string_view::npos && body.find_first_of("eE") == std::string_view::npos) {
    c.what = fmt::format("{} is not a single number", run);
    c.remedy = offer_quoted(run);
  }
  return c;
}

std::string lower(std::string_view word) {
  std::string out(word);
  std::transform(out.begin(), out.end(), out.begin(),
                 [](unsigned char c) { return static_cast<char>(c < 128 ? std::tolower(c) : c); });
  return out;
}

/// Words that other formats know and TOML does not.
bool advice_on_word(std::string_view run, Complaint& c) {
  const std::string word = lower(run);
  const std::string bare =
      word.substr(word.find_first_not_of("+-") == 0 ? 0 : std::min<std::size_t>(1, word.size()));
  const auto is_one_of = [&](std::initializer_list<std::string_view> words) {
    return std::find(words.begin(), words.end(), word) != words.end();
  };
  if (is_one_of({"true", "yes", "on"}) || is_one_of({"false", "no", "off"})) {
    c.what = fmt::format("TOML does not know {}", run);
    c.expected = "true or false, in small letters";
    c.remedy = is_one_of({"true", "yes", "on"}) ? "write true" : "write false";
  } else if (bare == "inf" || bare == "infinity" || bare == "nan") {
    c.what = fmt::format("TOML does not know {}", run);
    c.expected = "inf or nan, in small letters";
    c.remedy = bare == "nan" ? "write nan" : word[0] == '-' ? "write -inf" : "write inf";
  } else if (is_one_of({"null", "nil", "none"})) {
    c.what = fmt::format("{} is not a value", run);
    c.expected = "a value, or no key at all";
    c.remedy = "remove the whole line";
  } else {
    return false;
  }
  return true;
}

}  // namespace

Complaint advice_on_bare(std::string_view run, Span span) {
  Complaint c{span, "text without quotes",
              "a value: \"text\", a number, true, false, a date, [list] or {table}", ""};
  if (advice_on_word(run, c)) return c;
  const std::size_t equals = run.find('=');
  if (equals != std::string_view::npos && run.find_first_of("\"'") > equals) {
    c.what = "an = inside a value";
    c.expected = "one key = value on a line";
    c.remedy = "put each key on its own line; put a text with an = in quotes";
  } else if (starts_like_date(run)) {
    c.what = fmt::format("no such date or time: {}", run);
    c.expected =
        "a date such as 2024-02-29, a time such as 07:32:00, or both as 2024-02-29T07:32:00Z, with possible "
        "values";
    c.remedy = "correct the date; if it is not a date, " + offer_quoted(run);
  } else if (has_only(run, "0123456789+-._eE") && run.find_first_of("0123456789") != std::string_view::npos) {
    return advice_on_number(run, span);
  } else if (run.size() > 1 && run[0] == '0' && std::isalpha(static_cast<unsigned char>(run[1])) &&
             std::string_view("xobXOB").find(run[1]) != std::string_view::npos) {
    c.what = fmt::format("{} is not a number", run);
    c.expected =
        "0x and hexadecimal digits, 0o and octal digits, or 0b and binary digits, up to 63 bits, no sign";
    c.remedy = "correct the number, or quote it if it is a part number";
  } else if (run.back() == '"' || run.back() == '\'') {
    const char mark = run.back();
    c.what = "the quote before the text is missing";
    c.expected = "a text between two quotes";
    c.remedy = run.size() > 60 ? fmt::format("put {} where the text begins", mark)
                               : fmt::format("write {}{}", mark, run);
  } else if (starts_like_number(run)) {
    c.what = "a quantity without quotes";
    c.expected = "quantities in quotes, like \"0.15 mm\"";
    c.remedy = offer_quoted(run);
  } else {
    c.remedy = offer_quoted(run);
  }
  return c;
}

}  // namespace shimwright::toml
