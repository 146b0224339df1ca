#include "file/argument.h"

#include <gtest/gtest.h>

#include <cmath>

#include "file/schema.h"

namespace shimwright::file {
namespace {

// -50 to 200 degC and 0 to 1 L, both ends included, as in the job file
TEST(Argument, HasTheBoundsOfItsKeyOnBothSides) {
  for (const double fine : {223.15, 300.0, 473.15})
    EXPECT_FALSE(argument_fault("bench.oil_temperature", fine).has_value()) << fine;
  for (const double wrong : {223.0, 473.3, 73.15, 13.15, 1e9, 0.0, -5.0, std::nan("")}) {
    const auto fault = argument_fault("bench.oil_temperature", wrong);
    ASSERT_TRUE(fault.has_value()) << wrong;
    EXPECT_EQ(fault->code, "E0311");
    EXPECT_EQ(fault->path, "bench.oil_temperature");
  }
  EXPECT_FALSE(argument_fault("bench.air_left.rod", 2e-6).has_value());
  EXPECT_TRUE(argument_fault("bench.air_left.rod", -1e-9).has_value());
  EXPECT_TRUE(argument_fault("bench.air_left.rod", 1.1e-3).has_value());
}

}  // namespace
}  // namespace shimwright::file
