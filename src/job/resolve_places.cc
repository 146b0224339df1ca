#include "job/resolve_places.h"

#include <fmt/format.h>

#include "units/format.h"

namespace shimwright::job {
namespace {

std::string in_user_unit(double si, const FieldPlaces::Place* place) {
  if (place == nullptr) return fmt::format("{:.6g} (SI)", si);
  return units::format_plain(si * place->scale, place->kind, units::System::Metric);
}

}  // namespace

void FieldPlaces::add(std::string field, const Quantity& written, double scale) {
  if (written) places_.push_back({std::move(field), written.origin, written.kind, scale});
}

void FieldPlaces::add(std::string field, const Origin& origin, units::Kind kind, double scale) {
  places_.push_back({std::move(field), origin, kind, scale});
}

void FieldPlaces::add_all(const std::string& prefix, const FieldPlaces& inner) {
  for (Place place : inner.places_) {
    place.field = place.field.empty() ? prefix : prefix + "." + place.field;
    places_.push_back(std::move(place));
  }
}

const FieldPlaces::Place* FieldPlaces::find(std::string_view field) const {
  // from the whole field outwards, one name or index at a time
  while (true) {
    for (const Place& place : places_) {
      if (place.field == field) return &place;
    }
    const auto cut = field.find_last_of(".[");
    if (cut == std::string_view::npos) return nullptr;
    field = field.substr(0, cut);
  }
}

Diagnostics located(const JobSpec& job, const Problems& problems, const FieldPlaces& places,
                    const Origin& around) {
  Diagnostics diagnostics;
  for (const Problem& problem : problems) {
    const FieldPlaces::Place* place = places.find(problem.field);
    Diagnostic diagnostic = diagnostic_at(job, place != nullptr ? place->origin : around, "E0901");
    diagnostic.what = "this cannot be built: expected it " + problem.allowed;
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
  diagnostic.remedy = fmt::format("Write the key `{}` here.", missing.key);
  return diagnostic;
}

}  // namespace shimwright::job
