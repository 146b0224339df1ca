#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "report/plot.h"

namespace shimwright::report {

std::vector<double> ticks_125(double min, double max, int wanted) {
  SW_CHECK(max > min && wanted > 0, min, max, wanted);
  const double raw = (max - min) / wanted;
  const double decade = std::pow(10.0, std::floor(std::log10(raw)));
  double step = 10.0 * decade;
  for (const double factor : {1.0, 2.0, 5.0})
    if (factor * decade >= raw * (1.0 - 1e-9)) {
      step = factor * decade;
      break;
    }
  std::vector<double> ticks;
  const double first = std::ceil(min / step - 1e-9);
  const double last = std::floor(max / step + 1e-9);
  for (double k = first; k <= last; k += 1.0) ticks.push_back(k * step);
  return ticks;
}

std::string tick_text(double value, double step) {
  const int decimals = std::max(0, int(std::ceil(-std::log10(std::abs(step)) - 1e-9)));
  std::string text = fmt::format("{:.{}f}", std::abs(value), decimals);
  const bool is_zero = text.find_first_not_of("0.") == std::string::npos;
  return value < 0 && !is_zero ? "\xE2\x88\x92" + text : text;
}

}  // namespace shimwright::report
