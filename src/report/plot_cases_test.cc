// Where ticks and names stand is worked out twice, here for paper and in web/src/charts for the page: both
// are held to the same cases.
#include <gmock/gmock.h>

#include <fstream>
#include <nlohmann/json.hpp>

#include "report/plot.h"
#include "report/spread.h"

namespace shimwright::report {
namespace {

using Json = nlohmann::json;

const Json& cases() {
  static const Json all = [] {
    std::ifstream file(SW_SOURCE_DIR "/src/report/plot_cases.json");
    return Json::parse(file);
  }();
  return all;
}

std::vector<double> numbers(const Json& list) {
  return list.get<std::vector<double>>();
}

TEST(PlotCases, LabelsThatTouchMoveApart) {
  for (const Json& one : cases().at("spread"))
    EXPECT_EQ(spread(numbers(one.at("wanted")), one.at("pitch"), one.at("min"), one.at("max")),
              numbers(one.at("places")))
        << one;
}

TEST(PlotCases, TicksStandAtOneTwoFive) {
  for (const Json& one : cases().at("ticks"))
    EXPECT_THAT(ticks_125(one.at("min"), one.at("max"), one.at("wanted")),
                testing::Pointwise(testing::DoubleNear(1e-9), numbers(one.at("ticks"))))
        << one;
}

TEST(PlotCases, ATickHasJustTheDigitsThatItsStepNeeds) {
  for (const Json& one : cases().at("digits"))
    EXPECT_EQ(tick_text(one.at("value"), one.at("step")), one.at("text")) << one;
}

}  // namespace
}  // namespace shimwright::report
