#include "file/argument.h"

#include <fmt/core.h>

#include <cmath>

#include "base/check.h"
#include "file/load_codes.h"
#include "file/schema.h"
#include "units/format.h"

namespace shimwright::file {

std::optional<Diagnostic> argument_fault(std::string_view path, double si) {
  const KeySchema* key = key_at(job_schema(), path);
  SW_CHECK(key != nullptr, std::string(path));
  if (si >= key->bounds.low && si <= key->bounds.high) return std::nullopt;
  Diagnostic diagnostic;
  diagnostic.code = std::string(facts_of(Code::OutsideSense).id);
  diagnostic.path = std::string(path);
  diagnostic.what = "this value makes no sense here";
  diagnostic.got =
      std::isfinite(si) ? units::format_plain(si, key->unit, units::System::Metric) : "not a number";
  diagnostic.expected = fmt::format("{}: {}", bounds_text(*key), key->bounds.reason);
  diagnostic.remedy = "Check the unit and the decimal point.";
  return diagnostic;
}

}  // namespace shimwright::file
