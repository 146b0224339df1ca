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
  const std::string events = waited_for(runs, *run);
  EXPECT_THAT(events, HasSubstr("event: failed"));
  EXPECT_THAT(events, HasSubstr("\"code\":\"bug\""));
  EXPECT_THAT(events, HasSubstr("broken"));
  EXPECT_TRUE(runs.start("job", patient).has_value());
}

TEST(Runs, ProgressIsToldAtOnceAndThenEveryTenthOfASecond) {
  Runs::Clock::time_point now{};
  Runs runs([](const std::string&) {}, [&] { return now; });
  const auto run = runs.start("job", [&](const Runs::Progress& progress) {
    for (const int at_ms : {0, 99, 100, 101, 199, 200, 250, 300, 1000}) {
      now = Runs::Clock::time_point{} + std::chrono::milliseconds(at_ms);
      EXPECT_TRUE(progress(at_ms, "next"));
    }
    return Runs::Event{"result", "{}"};
  });
  std::string told;
  for (const int at_ms : {0, 100, 200, 300, 1000})
    told += event_text("progress", "{\"done\":" + std::to_string(at_ms) + ",\"next\":\"next\"}");
  EXPECT_EQ(waited_for(runs, *run), told + event_text("result", "{}"));
}

TEST(Runs, TheIdHasItsOwnerAndNoTwoAreAlike) {
  Runs runs([](const std::string&) {});
  const auto first = runs.start("a", patient), second = runs.start("b", patient);
  EXPECT_EQ(*first, "a-1");
  EXPECT_EQ(*second, "b-2");
  EXPECT_TRUE(runs.knows(*first));
  EXPECT_FALSE(runs.knows("a-2"));
  EXPECT_TRUE(runs.stop(*second));
  EXPECT_FALSE(runs.stop("a-2"));
  std::size_t cursor = 0;
  EXPECT_TRUE(runs.pull("a-2", cursor).ended) << "who asks for nothing does not wait";
}

TEST(Runs, AfterTheEndNothingBegins) {
  Runs runs([](const std::string&) {});
  const auto run = runs.start("a", patient);
  runs.end();
  std::size_t cursor = 0;
  EXPECT_TRUE(runs.pull(*run, cursor).ended) << "it was waited for";
  const auto late = runs.start("b", patient);
  ASSERT_FALSE(late.has_value());
  EXPECT_EQ(late.error().status, 503);
  EXPECT_EQ(late.error().code, "too_many");
}

TEST(Runs, OneThatStillWorksIsNotForgotten) {
  Runs runs([](const std::string&) {});
  const auto working = runs.start("slow", patient);
  for (int i = 0; i < 12; ++i)
    waited_for(runs, *runs.start("job", [](const Runs::Progress&) { return Runs::Event{"result", "{}"}; }));
  EXPECT_TRUE(runs.knows(*working));
  runs.stop(*working);
  EXPECT_THAT(waited_for(runs, *working), HasSubstr("event: stopped"));
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
