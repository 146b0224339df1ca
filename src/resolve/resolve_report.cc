#include "resolve/resolve_report.h"

#include <fmt/core.h>

#include "units/format.h"

namespace shimwright::resolve {
namespace {

std::string in_user_unit(double si, const FieldPlace* place) {
  if (place == nullptr) return fmt::format("{:.6g} (SI)", si);
  return units::format_plain(si * place->scale, place->kind, units::System::Metric);
}

}  // namespace

Diagnostics located(const file::JobSpec& job, const Problems& problems, const FieldPlaces& places,
                    const file::Origin& around) {
  Diagnostics diagnostics;
  for (const Problem& problem : problems) {
    const FieldPlace* place = places.find(problem.field);
    const file::Origin& origin = place != nullptr ? place->origin : around;
    const bool asked = !origin.asked.empty();
    Diagnostic diagnostic = file::diagnostic_at(job, origin, asked ? "E0905" : "E0901");
    diagnostic.what =
        fmt::format("{}: it must be {}", asked ? origin.asked + " does not fit" : "this cannot be built",
                    problem.allowed);
    diagnostic.got = in_user_unit(problem.got, place);
    diagnostic.expected = fmt::format("{} ({})", problem.allowed, in_user_unit(problem.limit, place));
    diagnostic.remedy =
        asked ? "check the number and its unit" : "Measure this part again and correct the value here.";
    diagnostics.push_back(std::move(diagnostic));
  }
  return diagnostics;
}

Diagnostic missing_fault(const file::JobSpec& job, const file::Missing& missing) {
  Diagnostic diagnostic = file::diagnostic_at(job, missing.origin, "E0902");
  diagnostic.what = fmt::format("{} needs {}", missing.part, missing.what);
  diagnostic.got = "nothing";
  diagnostic.expected = missing.what;
  diagnostic.remedy = fmt::format("Add the key `{}` here.", missing.key);
  return diagnostic;
}

void ResolveReport::add(const ResolveReport& other) {
  diagnostics.insert(diagnostics.end(), other.diagnostics.begin(), other.diagnostics.end());
  missing.insert(missing.end(), other.missing.begin(), other.missing.end());
}

void ResolveReport::add_refused(const file::JobSpec& job, const Problems& problems, const FieldPlaces& places,
                                const file::Origin& around) {
  const Diagnostics refused = located(job, problems, places, around);
  diagnostics.insert(diagnostics.end(), refused.begin(), refused.end());
}

}  // namespace shimwright::resolve
