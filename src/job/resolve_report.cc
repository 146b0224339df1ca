#include "job/resolve_report.h"

#include <fmt/format.h>

#include "units/format.h"

namespace shimwright::job {
namespace {

std::string in_user_unit(double si, const FieldPlace* place) {
  if (place == nullptr) return fmt::format("{:.6g} (SI)", si);
  return units::format_plain(si * place->scale, place->kind, units::System::Metric);
}

}  // namespace

Diagnostics located(const JobSpec& job, const Problems& problems, const FieldPlaces& places,
                    const Origin& around) {
  Diagnostics diagnostics;
  for (const Problem& problem : problems) {
    const FieldPlace* place = places.find(problem.field);
    Diagnostic diagnostic = diagnostic_at(job, place != nullptr ? place->origin : around, "E0901");
    diagnostic.what = "this cannot be built: it must be " + problem.allowed;
    diagnostic.got = in_user_unit(problem.got, place);
    diagnostic.expected = fmt::format("{} ({})", problem.allowed, in_user_unit(problem.limit, place));
    diagnostic.remedy = "Measure this part again and correct the value here.";
    diagnostics.push_back(std::move(diagnostic));
  }
  return diagnostics;
}

Diagnostic missing_fault(const JobSpec& job, const Missing& missing) {
  Diagnostic diagnostic = diagnostic_at(job, missing.origin, "E0902");
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

void ResolveReport::add_refused(const JobSpec& job, const Problems& problems, const FieldPlaces& places,
                                const Origin& around) {
  const Diagnostics refused = located(job, problems, places, around);
  diagnostics.insert(diagnostics.end(), refused.begin(), refused.end());
}

}  // namespace shimwright::job
