#include "resolve/resolve_places.h"

#include <utility>

namespace shimwright::resolve {
void FieldPlaces::bind(std::string field, double& member, const file::Quantity& written, double scale) {
  if (!written) return;
  member = written.si / scale;
  add(std::move(field), written, scale);
}

void FieldPlaces::add(std::string field, const file::Quantity& written, double scale) {
  if (written) places_.push_back({std::move(field), written.origin, written.kind, scale});
}

void FieldPlaces::add(std::string field, const file::Origin& origin, units::Kind kind, double scale) {
  places_.push_back({std::move(field), origin, kind, scale});
}

void FieldPlaces::add_all(const std::string& prefix, const FieldPlaces& inner) {
  for (FieldPlace place : inner.places_) {
    place.field = place.field.empty() ? prefix : prefix + "." + place.field;
    places_.push_back(std::move(place));
  }
}

const FieldPlace* FieldPlaces::find(std::string_view field) const {
  // from the whole field outwards, one name or index at a time
  while (true) {
    for (const FieldPlace& place : places_) {
      if (place.field == field) return &place;
    }
    const auto cut = field.find_last_of(".[");
    if (cut == std::string_view::npos) return nullptr;
    field = field.substr(0, cut);
  }
}

}  // namespace shimwright::resolve
