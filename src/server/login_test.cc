#include "server/login.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <optional>
#include <string>

#include "server/target.h"

namespace shimwright::server {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

struct Door {
  std::int64_t now_ms = 5'000'000;  // a machine that has been on for a while
  Login login{"correct horse", "c00k1e", [this] { return now_ms; }};

  std::optional<Response> asked(const std::string& method, const std::string& path,
                                const std::string& cookie = "") {
    Request request;
    request.method = method;
    request.target = path;
    request.cookie = cookie;
    return login.answer(request, path);
  }
  Response tried(const std::string& body, const std::string& type = "application/x-www-form-urlencoded") {
    Request request;
    request.method = "POST";
    request.target = "/login";
    request.body = body;
    request.content_type = type;
    return login.answer(request, "/login").value();
  }
};

TEST(Login, WhoIsNotInGetsThePageOrAnAnswerForScripts) {
  Door door;
  for (const char* method : {"GET", "POST", "PUT"}) {
    for (const char* path : {"/", "/assets/workbench.js", ""}) {
      const auto page = door.asked(method, path);
      ASSERT_TRUE(page.has_value());
      EXPECT_EQ(page->status, 401);
      EXPECT_EQ(page->type, "text/html; charset=utf-8");
      EXPECT_EQ(header(*page, "Referrer-Policy"), "same-origin");
      EXPECT_THAT(page->body, HasSubstr("action=\"/login\""));
    }
    const auto script = door.asked(method, "/api/session");
    ASSERT_TRUE(script.has_value());
    EXPECT_EQ(script->status, 401);
    EXPECT_EQ(script->type, "application/json");
    EXPECT_THAT(script->body, HasSubstr("no_passphrase"));
  }
  EXPECT_EQ(door.asked("GET", "/login")->status, 401);
  EXPECT_EQ(door.asked("GET", "/login")->type, "text/html; charset=utf-8");
}

TEST(Login, ThePassphraseGivesACookieAndLeadsToThePage) {
  Door door;
  const Response in = door.tried("x=1&passphrase=correct+horse");
  EXPECT_EQ(in.status, 303);
  EXPECT_EQ(header(in, "Location"), "/");
  EXPECT_EQ(header(in, "Set-Cookie"), "shimwright=c00k1e; HttpOnly; SameSite=Strict; Path=/");
}

TEST(Login, WhatIsNotThePassphraseGivesNone) {
  for (const char* body : {"", "passphrase=", "passphrase=correct+hors", "passphrase=correct+horse+",
                           "pass=correct+horse", "passphrase=%", "passphrase", "%"}) {
    Door door;
    const Response out = door.tried(body);
    EXPECT_EQ(out.status, 401) << body;
    EXPECT_EQ(header(out, "Set-Cookie"), "") << body;
    EXPECT_THAT(out.body, HasSubstr("That is not the passphrase.")) << body;
  }
  Door door;
  for (const char* type : {"", "text/plain", "application/json"}) {
    const Response out = door.tried("passphrase=correct+horse", type);
    EXPECT_EQ(out.status, 415) << type;
    EXPECT_EQ(header(out, "Set-Cookie"), "") << type;
    EXPECT_THAT(out.body, HasSubstr("Use the form on this page.")) << type;
  }
  EXPECT_EQ(door.tried("passphrase=correct+horse", "application/x-www-form-urlencoded; charset=UTF-8").status,
            303);
}

TEST(Login, OnlyTheCookieOpensTheDoor) {
  Door door;
  for (const char* cookie :
       {"shimwright=c00k1e", "a=b; shimwright=c00k1e", "a=b;shimwright=c00k1e", "a; shimwright=c00k1e",
        "shimwright=old; shimwright=c00k1e", "shimwright=c00k1e; a=b", ";;   shimwright=c00k1e;"})
    EXPECT_FALSE(door.asked("GET", "/api/session", cookie)) << cookie;
  for (const char* cookie :
       {"", ";", "c00k1e", "=c00k1e", "shimwright", "shimwright=", "shimwright=c00k1", "shimwright=c00k1ee",
        "shimwright=c00k1e ", "xshimwright=c00k1e", "shimwrigh=c00k1e", "a=shimwright=c00k1e",
        "hshimwright==c00k1e", "shimwright==c00k1e"}) {
    const auto out = door.asked("GET", "/api/session", cookie);
    ASSERT_TRUE(out.has_value()) << cookie;
    EXPECT_EQ(out->status, 401) << cookie;
  }
}

TEST(Login, WhoIsInIsLedFromTheFormToThePage) {
  Door door;
  const auto on = door.asked("GET", "/login", "shimwright=c00k1e");
  ASSERT_TRUE(on.has_value());
  EXPECT_EQ(on->status, 303);
  EXPECT_EQ(header(*on, "Location"), "/");
  for (const char* method : {"GET", "POST"})
    EXPECT_FALSE(door.asked(method, "/api/jobs", "shimwright=c00k1e")) << method;
}

TEST(Login, FiveTriesAreTakenInAnyMinute) {
  Door door;
  const std::int64_t begin = door.now_ms;
  const auto status = [&](std::int64_t after_ms, const char* body) {
    door.now_ms = begin + after_ms;
    return door.tried(body).status;
  };
  for (int i = 0; i < 4; ++i) EXPECT_EQ(status(1000 * i, "passphrase=wrong"), 401) << i;
  EXPECT_EQ(status(4000, "passphrase=correct+horse"), 303) << "the fifth";
  EXPECT_EQ(status(4001, "passphrase=correct+horse"), 429);
  EXPECT_THAT(door.tried("passphrase=wrong").body, HasSubstr("Too many tries."));
  // asking for anything else, or in another way, is no try
  door.asked("POST", "/");
  door.asked("GET", "/login");
  door.tried("passphrase=wrong", "text/plain");
  EXPECT_EQ(status(60000, "passphrase=correct+horse"), 429) << "the first is just a minute old";
  EXPECT_EQ(status(60001, "passphrase=wrong"), 401) << "the first is forgotten";
  EXPECT_EQ(status(60002, "passphrase=correct+horse"), 429) << "the second is not";
  EXPECT_EQ(status(61001, "passphrase=correct+horse"), 303);
  EXPECT_EQ(status(61002, "passphrase=correct+horse"), 429);
  // refused tries do not lengthen the pause
  EXPECT_EQ(status(180000, "passphrase=correct+horse"), 303);
}

TEST(Login, IsAskedForWithAPassphraseAlone) {
  EXPECT_TRUE(Login("a", "b", [] { return 0; }).asked_for());
  EXPECT_FALSE(Login("", "b", [] { return 0; }).asked_for());
}

}  // namespace
}  // namespace shimwright::server
