#include "base/check.h"

#include <gmock/gmock.h>

#include <string>

#include "base/outcome.h"

namespace shimwright {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::ThrowsMessage;

TEST(Check, NamesTheConditionThePlaceAndTheValues) {
  const int n_discs = 3, n_gaps = 5;
  EXPECT_NO_THROW(SW_CHECK(n_discs == 3));
  EXPECT_THAT([&] { SW_CHECK(n_gaps == n_discs - 1, n_gaps, n_discs); },
              ThrowsMessage<LogicFault>(AllOf(HasSubstr("check_test.cc"), HasSubstr("n_gaps == n_discs - 1"),
                                              HasSubstr("values: 5 3"))));
  const std::string name = "thickness";
  EXPECT_THAT([&] { SW_CHECK(name.empty(), name, 0.15e-3, "m", name.size(), -2L, true); },
              ThrowsMessage<LogicFault>(HasSubstr("values: thickness 0.00015 m 9 -2 1")));
}

TEST(Outcome, AChainInheritsTheWorseOfTwo) {
  const Outcome fine{}, far{.status = Status::OutOfRange, .note = "above 150 degC"},
      stuck{.status = Status::Stalled};
  EXPECT_EQ(worse(fine, far).note, "above 150 degC");
  EXPECT_EQ(worse(far, fine).note, "above 150 degC");
  EXPECT_EQ(worse(far, stuck).status, Status::Stalled);
  EXPECT_TRUE(worse(fine, fine).ok());
}

}  // namespace
}  // namespace shimwright
