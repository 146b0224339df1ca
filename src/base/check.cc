#include "base/check.h"

#include <cstdio>

namespace shimwright::internal {

void fail_check(const char* condition, const char* file, int line, std::initializer_list<CheckValue> values) {
  std::string text = std::string(file) + ":" + std::to_string(line) + ": " + condition + " does not hold";
  if (values.size() > 0) text += "; values:";
  for (const CheckValue& value : values) {
    text += ' ';
    if (value.kind == CheckValue::Kind::Whole) {
      text += std::to_string(value.whole);
    } else if (value.kind == CheckValue::Kind::Text) {
      text += value.text;
    } else {
      char digits[32];
      std::snprintf(digits, sizeof digits, "%g", value.real);
      text += digits;
    }
  }
  throw LogicFault(text);
}

}  // namespace shimwright::internal
