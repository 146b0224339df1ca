// Any bytes are a quantity, a list, a run of shims, or a fault that lies inside the text and says what to do.
#include <cmath>
#include <cstddef>
#include <cstdint>

#include "base/check.h"
#include "base/utf8.h"
#include "units/format.h"
#include "units/quantity.h"
#include "units/stack_text.h"

namespace shimwright::units {
namespace {

void check_fault(std::string_view text, const UnitFault& fault) {
  SW_CHECK(fault.offset >= 0 && fault.length >= 1, fault.offset, fault.length);
  SW_CHECK(static_cast<std::size_t>(fault.offset) <= n_code_points(text), fault.offset);
  SW_CHECK(!fault.what.empty() && !fault.remedy.empty(), fault.what, fault.remedy);
}

/// What was read can be printed, and the print reads as the same kind.
void check_quantity(const Quantity& quantity) {
  SW_CHECK(std::isfinite(quantity.si), quantity.si);
  for (const System system : {System::Metric, System::Imperial}) {
    const std::string text =
        format_plain(quantity.si, quantity.kind, system, {.reference = quantity.reference});
    // a rounded print may fall below absolute zero; nothing else may stop it from being read
    const auto again = parse(text, quantity.kind);
    SW_CHECK(again.has_value() || again.error().fault == Fault::OutOfRange, text);
  }
}

void check_text(std::string_view text) {
  for (const KindFacts& one : all_kinds()) {
    if (const auto quantity = parse(text, one.kind)) {
      check_quantity(*quantity);
    } else {
      check_fault(text, quantity.error());
    }
    if (const auto list = parse_list(text, one.kind); !list) check_fault(text, list.error());
  }
  if (const auto run = parse_shims(text)) {
    SW_CHECK(run->count >= 1 && run->thickness > 0.0 && run->outer_diameter > run->thickness, run->text);
  } else {
    check_fault(text, run.error());
  }
}

}  // namespace
}  // namespace shimwright::units

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  shimwright::units::check_text({reinterpret_cast<const char*>(data), size});
  return 0;
}
