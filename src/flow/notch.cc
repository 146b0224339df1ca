#include "flow/notch.h"

namespace shimwright::flow {

Orifice notch_opening(const Notches& notches) {
  const double w = notches.width;
  const double t = notches.thickness;
  return {.area = notches.n_notches * w * t,
          .hydraulic_diameter = 2.0 * w * t / (w + t),
          .length = notches.length,
          .discharge = notches.discharge};
}

void find_problems(const Notches& notches, const std::string& field, Problems& problems) {
  const auto complain = [&](const char* name, double got, const char* allowed) {
    problems.push_back({field + "." + name, got, 0.0, allowed});
  };
  if (notches.n_notches < 1) complain("n_notches", notches.n_notches, "at least one");
  if (!(notches.width > 0.0)) complain("width", notches.width, "more than zero");
  if (!(notches.thickness > 0.0)) complain("thickness", notches.thickness, "more than zero");
  if (notches.n_notches >= 1 && notches.width > 0.0 && notches.thickness > 0.0)
    find_problems(notch_opening(notches), field, problems);
}

}  // namespace shimwright::flow
