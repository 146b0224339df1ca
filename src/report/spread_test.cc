#include "report/spread.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

namespace shimwright::report {
namespace {

using ::testing::ElementsAre;

TEST(Spread, LeavesLabelsAloneThatHaveRoom) {
  EXPECT_THAT(spread({50, 10, 90}, 10, 0, 100), ElementsAre(50, 10, 90));
}

TEST(Spread, MovesAPairApartBothWays) {
  EXPECT_THAT(spread({50, 52}, 10, 0, 100), ElementsAre(46, 56));
}

TEST(Spread, StaysInsideTheEdges) {
  EXPECT_THAT(spread({99, 99, 99}, 10, 0, 100), ElementsAre(80, 90, 100));
}

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
