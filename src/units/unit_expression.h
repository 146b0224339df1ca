#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "units/unit_table.h"

namespace shimwright::units {

/// One word of a unit with its exponent, negative below the slash.
struct UnitWord {
  std::string_view word;  // into the text
  std::size_t offset;     // of the word, in bytes from the start of the text
  int exponent;
};

/// Why a text is no unit; in bytes, as only the caller knows the whole text.
struct UnitTextFault {
  Fault fault = Fault::UnitMalformed;
  std::size_t offset = 0;
  std::size_t length = 1;
  std::string what;
  std::string remedy;
};

/// What a unit text is worth. SI value = (number + shift) * numerator / denominator.
struct UnitValue {
  double numerator = 1.0;
  double denominator = 1.0;
  double shift = 0.0;
  Dimension dimension;
  std::optional<Kind> only;  // the only kind that it can mean; a single unit such as J
  Reference reference = Reference::None;
  bool only_in_products = false;  // but it is used alone
};

/// Takes "lbf.s/in" apart. A name with a blank in it ("fl oz") is one word.
Result<std::vector<UnitWord>, UnitTextFault> unit_words(std::string_view text);

/// Worth of the words; a word that is no unit is a fault at its place.
Result<UnitValue, UnitTextFault> unit_value(const std::vector<UnitWord>& words);

/// Both steps, for a unit of our own tables.
Result<UnitValue, UnitTextFault> unit_value(std::string_view text);

}  // namespace shimwright::units
