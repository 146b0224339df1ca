#include "report/spread.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

namespace shimwright::report {
namespace {

RC_GTEST_PROP(Spread, NeverOverlapsAndKeepsTheOrder, (std::vector<unsigned char> raw)) {
  const std::vector<double> wanted(raw.begin(), raw.end());
  const auto places = spread(wanted, 7.0, 0.0, 300.0);
  RC_ASSERT(places.size() == wanted.size());
  for (std::size_t i = 0; i < wanted.size(); ++i)
    for (std::size_t j = 0; j < wanted.size(); ++j)
      if (wanted[i] < wanted[j]) RC_ASSERT(places[i] + 7.0 <= places[j] + 1e-9);
}

}  // namespace
}  // namespace shimwright::report
