#include "server/runs.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <stdexcept>
#include <thread>

namespace shimwright::server {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

/// All of a run's events, once it has ended.
std::string waited_for(const Runs& runs, const std::string& run) {
  for (int i = 0; i < 1000; ++i) {
    std::size_t cursor = 0;
    const Pulled pulled = runs.pull(run, cursor);
    if (pulled.ended) return pulled.text;
    std::this_thread::sleep_for(std::chrono::milliseconds(5));
  }
  return "it did not end";
}

/// Goes on until it is stopped.
Runs::Event patient(const Runs::Progress& progress) {
  while (progress(0.5, "more")) std::this_thread::sleep_for(std::chrono::milliseconds(1));
  return {"stopped", "{}"};
}

TEST(Runs, ItsEventsAreSeenByWhoComesLaterToo) {
  std::atomic<int> n_woken = 0;
  Runs runs([&](const std::string&) { ++n_woken; });
  const auto run = runs.start("job", [](const Runs::Progress& progress) {
    progress(0.25, "first");
    return Runs::Event{"result", "{\"a\":1}"};
  });
  ASSERT_TRUE(run.has_value());
  const std::string events = waited_for(runs, *run);
  EXPECT_EQ(
      events,
      "event: progress\ndata: {\"done\":0.25,\"next\":\"first\"}\n\nevent: result\ndata: {\"a\":1}\n\n");
  EXPECT_EQ(n_woken, 2);
  std::size_t cursor = 1;
  EXPECT_THAT(runs.pull(*run, cursor).text, Not(HasSubstr("progress"))) << "from the cursor on";
}

TEST(Runs, ARunEndsWhenItIsStoppedOrFollowedByANewerOneOfItsOwner) {
  Runs runs([](const std::string&) {});
  const auto first = runs.start("job", patient);
  ASSERT_TRUE(runs.stop(*first));
  EXPECT_THAT(waited_for(runs, *first), HasSubstr("event: stopped"));
  const auto second = runs.start("job", patient);
  const auto third = runs.start("job", patient);
  EXPECT_THAT(waited_for(runs, *second), HasSubstr("event: stopped"));
  EXPECT_NE(*second, *third);
  EXPECT_FALSE(runs.stop("nothing"));
}

TEST(Runs, AThirdAtOnceIsRefused) {
  Runs runs([](const std::string&) {});
  ASSERT_TRUE(runs.start("a", patient).has_value());
  ASSERT_TRUE(runs.start("b", patient).has_value());
  const auto third = runs.start("c", patient);
  ASSERT_FALSE(third.has_value());
  EXPECT_EQ(third.error().status, 429);
}

TEST(Runs, OneThatWasToldToStopLeavesRoomForTheNext) {
  std::atomic<bool> may_end = false;
  const auto slow_to_stop = [&](const Runs::Progress&) {
    while (!may_end) std::this_thread::yield();
    return Runs::Event{"stopped", "{}"};
  };
  Runs runs([](const std::string&) {});
  const auto first = runs.start("a", slow_to_stop);
  ASSERT_TRUE(runs.start("b", slow_to_stop).has_value());
  EXPECT_FALSE(runs.start("c", slow_to_stop).has_value());
  runs.stop(*first);
  EXPECT_TRUE(runs.start("c", slow_to_stop).has_value()) << "though the first has not ended yet";
  may_end = true;
}

TEST(Runs, AFaultInsideEndsTheRunAndNothingElse) {
  Runs runs([](const std::string&) {});
  const auto run =
      runs.start("job", [](const Runs::Progress&) -> Runs::Event { throw std::runtime_error("broken"); });
  EXPECT_THAT(waited_for(runs, *run), HasSubstr("event: failed"));
  EXPECT_TRUE(runs.start("job", patient).has_value());
}

TEST(Runs, OnlyTheLastFewThatEndedAreRemembered) {
  Runs runs([](const std::string&) {});
  std::vector<std::string> ids;
  for (int i = 0; i < 20; ++i) {
    ids.push_back(*runs.start("job", [](const Runs::Progress&) { return Runs::Event{"result", "{}"}; }));
    waited_for(runs, ids.back());
  }
  for (std::size_t i = 0; i < ids.size(); ++i) EXPECT_EQ(runs.knows(ids[i]), i >= ids.size() - 8) << i;
}

}  // namespace
}  // namespace shimwright::server
