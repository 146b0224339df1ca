// Each bound of what may come in, from both of its sides.
#include <fmt/core.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "server/decode.h"
#include "server/target.h"
#include "server/test_bench.h"

namespace shimwright::server {
namespace {

using Json = nlohmann::json;

/// "taken", or the code with which it is refused.
template <typename Asked>
std::string said(const Answer<Asked>& answer) {
  if (answer) return "taken";
  EXPECT_EQ(answer.error().status, 400);
  EXPECT_FALSE(answer.error().message.empty());
  EXPECT_FALSE(answer.error().remedy.empty());
  return answer.error().code;
}

std::string edits(int n) {
  Json list = Json::array();
  for (int i = 0; i < n; ++i) list.push_back({{"drop", "title"}});
  return Json{{"client", "t"}, {"base", 1}, {"edits", list}}.dump();
}

TEST(Limits, OneRequestHasTwoHundredEdits) {
  const auto most = edit_request(edits(200));
  ASSERT_TRUE(most.has_value());
  EXPECT_EQ(most->edits.size(), 200u);
  EXPECT_EQ(said(edit_request(edits(201))), "bad_request");
  EXPECT_EQ(edit_request(edits(201)).error().message, "More than 200 edits in one request.");
}

TEST(Limits, AWholeNumberGoesFromZeroToFarBeyondAnyRevision) {
  const auto based = [](const std::string& base) {
    return said(edit_request(R"({"client":"t","edits":[],"base":)" + base + "}"));
  };
  const auto moved = [](const std::string& to) {
    return said(try_request(R"({"edits":[{"move":"a[1]","to":)" + to + "}]}"));
  };
  const std::string most = std::to_string(std::int64_t{1} << 50),
                    more = std::to_string((std::int64_t{1} << 50) + 1);
  for (const std::string& good : {std::string("0"), std::string("1"), most}) {
    EXPECT_EQ(based(good), "taken") << good;
    EXPECT_EQ(moved(good), "taken") << good;
  }
  for (const std::string& bad : {std::string("-1"), more, std::string("0.5"), std::string("\"1\"")}) {
    EXPECT_EQ(based(bad), "bad_request") << bad;
    EXPECT_EQ(moved(bad), "bad_request") << bad;
  }
}

TEST(Limits, ANumberOfABenchGoesFromZeroToAThousandMillion) {
  for (const std::string key : {"air_in_rod_chamber", "oil_temperature"}) {
    const auto asked = [&](const std::string& number) {
      return said(bench_request(fmt::format(R"({{"client":"t","{}":{}}})", key, number)));
    };
    for (const char* good : {"0", "1e-9", "313.15", "0.999e9"})
      EXPECT_EQ(asked(good), "taken") << key << good;
    for (const char* bad : {"-1e-9", "1e9", "1.05e9", "true"})
      EXPECT_EQ(asked(bad), "bad_request") << key << bad;
  }
  const auto both = bench_request(R"({"client":"t","air_in_rod_chamber":2,"oil_temperature":3})");
  EXPECT_EQ(both->air_in_rod_chamber, 2.0);
  EXPECT_EQ(both->oil_temperature, 3.0);
  EXPECT_EQ(said(bench_request(R"({"client":"t"})")), "taken") << "each may be left out";
}

TEST(Limits, ClicksAreCutOffAtAThousandAndTwoHundredAdjustersAreTaken) {
  const auto clicked = [](const std::string& clicks) {
    return bench_request(R"({"client":"t","clicks":[{"adjuster":"a","clicks":)" + clicks + "}]}");
  };
  for (const auto& [typed, taken] :
       {std::pair{"0", 0}, {"999", 999}, {"1000", 1000}, {"1001", 1000}, {"5000000000", 1000}}) {
    const auto request = clicked(typed);
    ASSERT_TRUE(request && request->clicks.size() == 1) << typed;
    EXPECT_EQ(request->clicks[0].clicks, taken) << typed;
    EXPECT_EQ(request->clicks[0].adjuster, "a");
  }
  EXPECT_EQ(said(clicked("-1")), "bad_request");
  const auto many = [](int n) {
    Json list = Json::array();
    for (int i = 0; i < n; ++i) list.push_back({{"adjuster", "a"}, {"clicks", i}});
    return bench_request(Json{{"client", "t"}, {"clicks", list}}.dump());
  };
  EXPECT_EQ(many(200)->clicks.size(), 200u);
  EXPECT_EQ(said(many(201)), "bad_request");
}

TEST(Limits, AClientHasANameOfTwoHundredBytes) {
  const auto named = [](std::size_t n) {
    return client_request(Json{{"client", std::string(n, 'c')}}.dump());
  };
  EXPECT_EQ(named(200).value(), std::string(200, 'c'));
  EXPECT_EQ(said(named(0)), "taken");
  EXPECT_EQ(said(named(201)), "bad_request");
}

TEST(Limits, ABodyHasEightListsInsideEachOtherAtMost) {
  const auto nested = [](std::size_t n) {
    return client_request(R"({"client":"t","x":)" + std::string(n, '[') + std::string(n, ']') + "}");
  };
  EXPECT_EQ(said(nested(8)), "taken") << "what nobody knows is passed over";
  EXPECT_EQ(said(nested(9)), "bad_request");
  EXPECT_EQ(nested(9).error().message, "The body: It has too many nested levels.");
}

TEST(Limits, WhatIsWrongWithABodyIsSaidByItsPlace) {
  EXPECT_EQ(client_request("[1]").error().message, "The body: It is not a JSON object.");
  EXPECT_EQ(said(client_request("{")), "not_json");
  EXPECT_EQ(client_request("{").error().message, "The body is not JSON.");
  const auto fault = edit_request(R"({"client":"t","base":1,"edits":[{"set":3,"typed":"b"}]})");
  EXPECT_TRUE(fault.error().message.starts_with("\"edits[0].set\": ")) << fault.error().message;
}

TEST(Limits, AQueryHasThirtyTwoNames) {
  const auto asked = [](int n) {
    std::string target = "/a?";
    for (int i = 0; i < n; ++i) target += fmt::format("k{}=1&", i);
    return parse_target(target).has_value();
  };
  EXPECT_TRUE(asked(32));
  EXPECT_FALSE(asked(33));
}

/// A router over a bench, as a page of its own sees it.
struct Asked : Bench {
  RouterSettings settings;
  std::unique_ptr<Router> router;

  Asked() {
    settings.hosts = {"here"};
    settings.now_ms = [] { return 0; };
    router = std::make_unique<Router>(settings, *workbench);
  }
  Response get(const std::string& rest) {
    return router->handle(request_to("here", "GET", "/api/jobs/" + id + rest, ""));
  }
};

TEST(Limits, AStackIsBentByTwentyMetresASecondOrAThousandBarAtMost) {
  Asked asked;
  const auto status = [&](const std::string& load) { return asked.get("/stack?path=stack&" + load).status; };
  for (const char* good : {"pressure=0", "pressure=1e5", "pressure=1e8"})
    EXPECT_NE(status(good), 400) << good;
  for (const char* bad : {"pressure=1.0001e8", "pressure=-1e-9", "pressure=", "pressure=inf", "pressure= 1"})
    EXPECT_EQ(status(bad), 400) << bad;
  // a stack alone has no shaft: a speed that can be is refused for that alone
  for (const char* good : {"speed=0", "speed=20"}) EXPECT_EQ(status(good), 422) << good;
  for (const char* bad : {"speed=20.001", "speed=-0.1", "speed=x"}) EXPECT_EQ(status(bad), 400) << bad;
}

TEST(Limits, AWholeNumberOfAQueryHasDigitsAlone) {
  Asked asked;
  for (const char* good : {"0", "1"})
    EXPECT_EQ(asked.get("/result?revision=" + std::string(good)).status, 200);
  for (const char* none : {"2", "9223372036854775807"})
    EXPECT_EQ(asked.get("/result?revision=" + std::string(none)).status, 404) << none;
  for (const char* bad : {"-1", "", "x", "1x", "1.0", "9223372036854775808"}) {
    EXPECT_EQ(asked.get("/result?revision=" + std::string(bad)).status, 400) << bad;
    EXPECT_EQ(asked.get("/figure.svg?which=stack&unit=" + std::string(bad)).status, 400) << bad;
  }
}

}  // namespace
}  // namespace shimwright::server
