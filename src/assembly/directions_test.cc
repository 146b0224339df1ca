#include "assembly/directions.h"

#include <gtest/gtest.h>

#include <set>

namespace shimwright::assembly {
namespace {

TEST(Directions, EveryPartSaysItsSideWhereItFacesAndWhatHappensOtherwise) {
  std::set<std::string_view> ids;
  for (const Direction& each : directions()) {
    EXPECT_TRUE(ids.insert(each.id).second) << each.id << " stands twice";
    EXPECT_EQ(find_direction(each.id), &each);
    for (std::string_view words : {each.part, each.side, each.toward, each.how_to_tell, each.if_reversed}) {
      EXPECT_FALSE(words.empty()) << each.id;
    }
  }
}

TEST(Directions, ThePartsOfADamperAreThere) {
  for (const char* id : {"piston", "check-plate", "dished-washer", "rod-seal", "nut", "collar", "needle"}) {
    EXPECT_NE(find_direction(id), nullptr) << id;
  }
  EXPECT_EQ(find_direction("teapot"), nullptr);
}

}  // namespace
}  // namespace shimwright::assembly
