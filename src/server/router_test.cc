#include "server/router.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>
#include <stdexcept>
#include <utility>
#include <vector>

#include "job/run.h"
#include "server/openapi.h"
#include "server/paper.h"
#include "server/test_bench.h"

namespace shimwright::server {
namespace {

using Json = nlohmann::json;
using ::testing::HasSubstr;
using ::testing::Not;

constexpr unsigned char kIndex[] = {'<', 'p', '>'};
constexpr unsigned char kScript[] = {'l', 'e', 't'};
constexpr Asset kAssets[] = {{"/", "text/html; charset=utf-8", "\"aa\"", kIndex},
                             {"/assets/workbench.js", "text/javascript; charset=utf-8", "\"bb\"", kScript}};

struct Served : Bench {
  std::int64_t clock_ms = 0;
  std::unique_ptr<Router> router;

  explicit Served(const std::string& passphrase = "") {
    RouterSettings settings;
    settings.hosts = {kHost, "localhost:8417"};
    settings.assets = kAssets;
    settings.passphrase = passphrase;
    settings.cookie = "c00k1e";
    settings.now_ms = [this] { return clock_ms; };
    router = std::make_unique<Router>(std::move(settings), *workbench);
  }

  Request request(const std::string& method, const std::string& target, const std::string& body = "") const {
    Request request = request_to(kHost, method, target, body);
    if (method == "POST") request.origin = std::string("http://") + kHost;
    return request;
  }
  Response get(const std::string& target) { return router->handle(request("GET", target)); }
  Response post(const std::string& target, const Json& body) {
    return router->handle(request("POST", target, body.dump()));
  }
  std::string job() const { return "/api/jobs/" + id; }
};

std::string code_of(const Response& response) {
  const Json json = Json::parse(response.body, nullptr, false);
  return json.is_object() && json.contains("error") ? json["error"]["code"].get<std::string>() : "";
}

TEST(Router, EveryWayIsDescribedAndNothingElseIs) {
  std::set<std::string> described, served;
  const Json api = Json::parse(openapi_text());
  for (const auto& [path, methods] : api["paths"].items()) {
    for (const auto& [method, what] : methods.items()) {
      std::string name = method;
      std::ranges::transform(name, name.begin(), [](unsigned char c) { return std::toupper(c); });
      described.insert(name + " " + path);
    }
  }
  for (const Way& way : Router::ways()) served.insert(way.method + " " + way.path);
  EXPECT_EQ(served, described);
}

TEST(Router, ThePageAndItsFilesComeWithTheirTypesAndAnEtag) {
  Served served;
  const Response page = served.get("/");
  EXPECT_EQ(page.status, 200);
  EXPECT_EQ(page.type, "text/html; charset=utf-8");
  EXPECT_EQ(page.body, "<p>");
  EXPECT_EQ(header(page, "ETag"), "\"aa\"");
  EXPECT_EQ(header(page, "Cache-Control"), "no-cache");
  EXPECT_EQ(header(served.get("/api/session"), "Cache-Control"), "no-store");
  EXPECT_EQ(served.get("/assets/workbench.js").type, "text/javascript; charset=utf-8");
  Request again = served.request("GET", "/");
  again.if_none_match = "\"aa\"";
  const Response unchanged = served.router->handle(again);
  EXPECT_EQ(unchanged.status, 304);
  EXPECT_EQ(unchanged.body, "");
  EXPECT_EQ(header(unchanged, "ETag"), "\"aa\"");
  again.if_none_match = "\"bb\"";
  EXPECT_EQ(served.router->handle(again).body, "<p>");
}

TEST(Router, NoPageMayBeFramedSniffedOrScriptedFromElsewhere) {
  Served served;
  for (const std::string& target : {std::string("/"), std::string("/api/session"), std::string("/nowhere"),
                                    served.job() + "/figure.svg?which=stack"}) {
    const Response response = served.get(target);
    const std::string policy = header(response, "Content-Security-Policy");
    EXPECT_THAT(policy, HasSubstr("default-src '")) << target;
    EXPECT_THAT(policy, HasSubstr("frame-ancestors '")) << target;
    EXPECT_THAT(policy, Not(HasSubstr("unsafe-eval"))) << target;
    EXPECT_THAT(policy, Not(HasSubstr("script-src 'unsafe"))) << target;
    EXPECT_EQ(header(response, "X-Content-Type-Options"), "nosniff") << target;
    EXPECT_EQ(header(response, "Referrer-Policy"), "no-referrer") << target;
  }
  EXPECT_THAT(header(served.get("/"), "Content-Security-Policy"), Not(HasSubstr("unsafe-inline")));
}

TEST(Router, AForeignHostIsRefusedWhateverItAsks) {
  Served served;
  for (const char* host :
       {"", "evil.example", "evil.example:8417", "127.0.0.1", "127.0.0.1:80", "127.0.0.1:8417.evil"}) {
    Request request = served.request("GET", "/");
    request.host = host;
    EXPECT_EQ(served.router->handle(request).status, 421) << host;
  }
}

TEST(Router, AForeignPageMayAskNothing) {
  Served served;
  for (const char* origin : {"http://evil.example", "null", "https://127.0.0.1:8417",
                             "http://127.0.0.1:8417.evil", "http://127.0.0.1:9000"}) {
    for (const char* method : {"GET", "POST"}) {
      Request request =
          served.request(method, method[0] == 'G' ? "/api/session" : served.job() + "/undo", "{}");
      request.origin = origin;
      EXPECT_EQ(code_of(served.router->handle(request)), "bad_origin") << method << ' ' << origin;
    }
  }
}

TEST(Router, AWriteNeedsTheTokenAndTheContentType) {
  Served served;
  Request request = served.request("POST", served.job() + "/undo", R"({"client":"t"})");
  request.token = "";
  EXPECT_EQ(code_of(served.router->handle(request)), "bad_token");
  request.token = "0123456789abcdeg";
  EXPECT_EQ(code_of(served.router->handle(request)), "bad_token");
  for (const char* type :
       {"", "text/plain", "application/x-www-form-urlencoded", "application/jsonx", "multipart/form-data"}) {
    Request other = served.request("POST", served.job() + "/undo", R"({"client":"t"})");
    other.content_type = type;
    EXPECT_EQ(served.router->handle(other).status, 415) << type;
  }
  Request good = served.request("POST", served.job() + "/undo", R"({"client":"t"})");
  good.content_type = "Application/JSON; charset=utf-8";
  EXPECT_EQ(served.router->handle(good).status, 200);
  good.content_type = "application/json ; charset=utf-8";
  EXPECT_EQ(served.router->handle(good).status, 200);
  good.origin = "";  // no browser sends a write without it; a script with the token may
  EXPECT_EQ(served.router->handle(good).status, 200);
}

/// From a request that everything is wrong with to a good one, one fault mended after the other.
TEST(Router, TheDoorsComeInTheirOrder) {
  Served served("correct horse");
  Request asked;
  asked.method = "PUT";
  asked.target = "/../x";
  asked.host = "evil.example";
  asked.origin = "http://evil.example";
  asked.content_type = "text/plain";
  asked.body = "x";
  const auto said = [&] {
    const Response response = served.router->handle(asked);
    return std::to_string(response.status) + " " + code_of(response);
  };
  EXPECT_EQ(said(), "421 bad_host");
  asked.host = kHost;
  EXPECT_EQ(said(), "403 bad_origin");
  asked.origin = std::string("http://") + kHost;
  EXPECT_EQ(said(), "401 ") << "the page that asks";
  asked.cookie = "shimwright=c00k1e";
  EXPECT_EQ(said(), "404 no_such_route");
  asked.target = served.job() + "/undo";
  EXPECT_EQ(said(), "405 bad_method");
  asked.method = "POST";
  EXPECT_EQ(said(), "415 not_json");
  asked.content_type = "application/json";
  EXPECT_EQ(said(), "403 bad_token");
  asked.token = "0123456789abcdef";
  EXPECT_EQ(said(), "400 not_json");
  asked.body = R"({"client":"t"})";
  EXPECT_EQ(said(), "200 ");
}

TEST(Router, AReadNeedsNoTokenAndNoTypeAndAHeadIsARead) {
  Served served;
  for (const Way& way : Router::ways()) {
    if (way.method != "GET") continue;
    std::string target = way.path;
    for (const auto& [name, value] : {std::pair<std::string, std::string>{"{id}", served.id},
                                      {"{run}", "none"},
                                      {"{file}", "packet.html"}})
      if (const auto at = target.find(name); at != std::string::npos) target.replace(at, name.size(), value);
    const Response got = served.get(target), head = served.router->handle(served.request("HEAD", target));
    EXPECT_EQ(head.status, got.status) << target;
    EXPECT_EQ(head.type, got.type) << target;
    EXPECT_NE(got.status, 405) << target;
  }
}

/// What each kind of answer lets a browser do with it.
TEST(Router, EachKindOfAnswerHasItsHeaders) {
  Served served;
  struct Kind {
    std::string target, policy, cache, disposition;
  };
  const std::string data = "default-src 'none'; frame-ancestors 'none'";
  const std::string paper =
      "default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:; base-uri 'none'; "
      "form-action 'none'; frame-ancestors 'self'";
  const std::string page =
      "default-src 'self'; img-src 'self' data: blob:; object-src 'none'; base-uri 'none'; form-action "
      "'self'; "
      "frame-ancestors 'none'";
  const std::string job = served.job();
  for (const Kind& kind :
       {Kind{"/", page, "no-cache", ""}, Kind{"/assets/workbench.js", data, "no-cache", ""},
        Kind{"/api/session", data, "no-store", ""}, Kind{"/nowhere", data, "no-store", ""},
        Kind{"/api/events", data, "no-store", ""},
        Kind{job + "/packet/packet.html", paper, "no-store", "inline; filename=\"packet.html\""},
        Kind{job + "/packet/build-sheet.pdf", "frame-ancestors 'self'", "no-store",
             "inline; filename=\"build-sheet.pdf\""},
        Kind{job + "/figure.svg?which=stack", paper, "no-store", "inline; filename=\"stack.svg\""},
        Kind{job + "/table.csv?which=stacks", paper, "no-store", "inline; filename=\"stacks.csv\""}}) {
    const Response response = served.get(kind.target);
    EXPECT_EQ(header(response, "Content-Security-Policy"), kind.policy) << kind.target;
    EXPECT_EQ(header(response, "Cache-Control"), kind.cache) << kind.target;
    EXPECT_EQ(header(response, "Content-Disposition"), kind.disposition) << kind.target;
    EXPECT_EQ(header(response, "X-Content-Type-Options"), "nosniff") << kind.target;
    EXPECT_EQ(header(response, "Referrer-Policy"), "no-referrer") << kind.target;
    EXPECT_EQ(header(response, "Cross-Origin-Resource-Policy"), "same-origin") << kind.target;
    std::set<std::string> names;
    for (const auto& [name, value] : response.headers) EXPECT_TRUE(names.insert(name).second) << name;
  }
}

TEST(Router, EventsGoOutOnTheirTopics) {
  Served served;
  const Response events = served.get("/api/events");
  EXPECT_EQ(events.status, 200);
  EXPECT_EQ(events.type, "text/event-stream");
  EXPECT_EQ(events.topic, kJobsTopic);
  EXPECT_FALSE(events.pull) << "these events have no past";
  const std::string run = Json::parse(served.post(served.job() + "/bench", {{"client", "t"}}).body)["run"];
  const Response past = served.get("/api/runs/" + run + "/events");
  EXPECT_EQ(past.status, 200);
  EXPECT_EQ(past.type, "text/event-stream");
  EXPECT_EQ(past.topic, run);
  EXPECT_TRUE(past.pull);
  EXPECT_EQ(served.get("/").topic, "");
}

TEST(Router, AFaultOfOursIsAnAnswerToo) {
  Served served;
  WorkbenchSettings settings = served.workbench->settings();
  settings.csv = [](const document::ResultDocument&, const std::string&, units::System) -> std::string {
    throw std::runtime_error("broken");
  };
  Workbench faulty(settings, store::Journal::in_memory());
  RouterSettings routes;
  routes.hosts = {kHost};
  routes.now_ms = [] { return 0; };
  Router router(routes, faulty);
  const Response response = router.handle(served.request("GET", served.job() + "/table.csv?which=stacks"));
  EXPECT_EQ(response.status, 500);
  EXPECT_EQ(response.type, "application/json");
  EXPECT_EQ(code_of(response), "bug");
  EXPECT_THAT(response.body, HasSubstr("broken"));
  EXPECT_EQ(header(response, "X-Content-Type-Options"), "nosniff");
}

TEST(Router, ThePartsAndTheUnitsOfAResultAreThoseThatAreAskedFor) {
  Served served;
  const auto got = [&](const std::string& query) {
    return served.get(served.job() + "/result" + query).body;
  };
  EXPECT_GT(got("").size(), got("?parts=live").size());
  EXPECT_EQ(got(""), got("?parts=all"));
  EXPECT_NE(got("?system=imperial"), got("?system=metric"));
  EXPECT_EQ(got("?system=metric"), got(""));
  EXPECT_EQ(got("?system=furlong"), got(""));
  EXPECT_EQ(Json::parse(got("?revision=0")), Json::parse(got(""))) << "nought stands for the last good one";
}

TEST(Router, FilesAreOfTheNewestGoodRevision) {
  Served served;
  const std::string job = served.job();
  const std::string ways[] = {"/table.csv?which=stacks", "/packet/packet.html", "/figure.svg?which=stack",
                              "/result"};
  std::vector<std::string> before, after, faulty;
  for (const std::string& way : ways) before.push_back(served.get(job + way).body);
  served.edit({set("title", "Another"), set("stack.discs[0]", "5 x 19 x 0.15 mm")});
  for (const std::string& way : ways) after.push_back(served.get(job + way).body);
  served.edit({{Edit::Kind::Text, "", "title = \"open\n", 0}});
  for (const std::string& way : ways) faulty.push_back(served.get(job + way).body);
  for (std::size_t i = 0; i < std::size(ways); ++i) EXPECT_NE(after[i], before[i]) << ways[i];
  EXPECT_EQ(after[0], "title\r\nAnother\r\n");
  EXPECT_EQ(faulty, after) << "the last good one stands";
}

TEST(Router, PathsThatAreNoneOfOursLeadNowhere) {
  Served served;
  for (const char* target : {"/../../etc/passwd", "/assets/../index.html", "/%2e%2e/%2e%2e/etc/passwd",
                             "/assets/", "/assets/nothing.js", "/api", "/api/jobs", "/api/jobs/",
                             "/api/jobs/x/y/z", "//evil.example/", "/api//session", "/index.html"})
    EXPECT_THAT(served.get(target).status, testing::AnyOf(404, 405)) << target;
  for (const std::string& target :
       {served.job() + "/", served.job() + "/packet", served.job() + "/packet/", served.job() + "/parts/",
        served.job() + "/parts/x", served.job() + "/part", std::string("/api/session/")})
    EXPECT_EQ(code_of(served.get(target)), "no_such_route") << target;
  for (const char* id : {"x", "xy"}) {
    EXPECT_EQ(code_of(served.get(std::string("/api/jobs/") + id)), "no_such_job") << id;
    EXPECT_EQ(code_of(served.get(std::string("/api/runs/") + id + "/events")), "no_such_run") << id;
    EXPECT_EQ(code_of(served.get(served.job() + "/packet/" + id)), "no_such_file") << id;
  }
  EXPECT_EQ(served.get(served.job() + "/packet/../../../x").status, 404);
  EXPECT_EQ(served.get(served.job() + "/packet/result.json").status, 404);
}

TEST(Router, TheWrongMethodIsToldWhichIsRight) {
  Served served;
  EXPECT_EQ(header(served.get(served.job() + "/edit"), "Allow"), "POST");
  for (const char* method : {"PUT", "DELETE", "OPTIONS", "TRACE", "PATCH", "CONNECT", ""})
    EXPECT_EQ(served.router->handle(served.request(method, "/api/session")).status, 405) << method;
}

TEST(Router, ABodyThatIsNoRequestIsRefusedByName) {
  Served served;
  for (const char* body :
       {"", "{", "[]", "null", "{\"base\":-1}", "{\"base\":1}", "{\"base\":1,\"client\":3,\"edits\":[]}",
        "{\"base\":1,\"client\":\"t\",\"edits\":[{}]}",
        "{\"base\":1,\"client\":\"t\",\"edits\":[{\"set\":\"a\"}]}",
        "{\"base\":1,\"client\":\"t\",\"edits\":[{\"set\":\"a\",\"typed\":\"b\",\"to\":1}]}"})
    EXPECT_EQ(served.router->handle(served.request("POST", served.job() + "/edit", body)).status, 400)
        << body;
  const std::string deep(100000, '[');
  EXPECT_EQ(served.router->handle(served.request("POST", served.job() + "/edit", deep)).status, 400);
}

TEST(Router, ABenchRequestMayOnlyHoldWhatABenchCouldBe) {
  Served served;
  for (const char* body :
       {"{}", R"({"client":"t","oil_temperature":"hot"})", R"({"client":"t","air_in_rod_chamber":-1})",
        R"({"client":"t","oil_temperature":1.05e9})", R"({"client":"t","clicks":3})",
        R"({"client":"t","clicks":[3]})", R"({"client":"t","clicks":[{"adjuster":"x"}]})"})
    EXPECT_EQ(served.router->handle(served.request("POST", served.job() + "/bench", body)).status, 400)
        << body;
}

TEST(Router, AConversationGoesFromTheListToAnEditAndBack) {
  Served served;
  const Json session = Json::parse(served.get("/api/session").body);
  EXPECT_EQ(session["token"], "0123456789abcdef");
  const Json job = Json::parse(served.get(served.job()).body);
  const Json edited = Json::parse(
      served
          .post(served.job() + "/edit", {{"base", job["revision"]},
                                         {"client", "t"},
                                         {"edits", {{{"set", "stack.seat"}, {"typed", "17 mm"}}}}})
          .body);
  EXPECT_EQ(edited["values"]["stack.seat"], "17 mm");
  EXPECT_TRUE(edited["result"].is_object());
  const std::string newest = served.get(served.job() + "/result").body;
  EXPECT_EQ(newest, served.get(served.job() + "/result?revision=2").body);
  EXPECT_NE(newest, served.get(served.job() + "/result?revision=1").body);
  const Response text =
      served.post(served.job() + "/edit",
                  {{"base", job["revision"]}, {"client", "t"}, {"edits", {{{"text", "format = 1\n"}}}}});
  EXPECT_EQ(text.status, 409);
  EXPECT_EQ(Json::parse(text.body)["job"]["revision"], edited["revision"]);
  EXPECT_EQ(job["can_undo"], false);
  EXPECT_EQ(edited["can_undo"], true);
  EXPECT_EQ(edited["can_redo"], false);
  const Json undone = Json::parse(served.post(served.job() + "/undo", {{"client", "t"}}).body);
  EXPECT_EQ(undone["can_undo"], false);
  EXPECT_EQ(undone["can_redo"], true);
  EXPECT_EQ(undone["text"], kStackJob);
}

TEST(Router, FiguresTablesAndThePacketAreFilesOfTheirType) {
  Served served;
  EXPECT_EQ(served.get(served.job() + "/figure.svg?which=stack").type, "image/svg+xml");
  EXPECT_EQ(served.get(served.job() + "/figure.svg?which=lift").status, 200);
  EXPECT_EQ(served.get(served.job() + "/figure.svg?which=force").status, 404) << "a stack alone has no force";
  EXPECT_EQ(served.get(served.job() + "/figure.svg?which=stack&unit=x").status, 400);
  const Response table = served.get(served.job() + "/table.csv?which=stacks");
  EXPECT_EQ(table.type, "text/csv; charset=utf-8");
  EXPECT_EQ(table.body, "title\r\nStack\r\n");
  EXPECT_EQ(served.get(served.job() + "/table.csv?which=none").status, 404);
  const Response page = served.get(served.job() + "/packet/packet.html");
  EXPECT_EQ(page.status, 200);
  EXPECT_THAT(header(page, "Content-Security-Policy"), HasSubstr("frame-ancestors 'self'"));
}

TEST(Router, AFigureIsDrawnFromTheWholeResultNotFromWhatThePageHolds) {
  Served served;
  file::JobFiles files("stack.job.toml", kStackJob);
  const auto whole = job::run_job(file::load_job(files, "stack.job.toml").job, {});
  ASSERT_TRUE(whole.has_value());
  for (const char* which : {"stack", "lift"}) {
    const auto drawn = figure(*whole, {which}, units::System::Metric);
    ASSERT_TRUE(drawn.has_value());
    EXPECT_EQ(served.get(served.job() + "/figure.svg?which=" + which).body, drawn->bytes);
  }
}

TEST(Router, APassphraseIsAskedOfEverybodyAndTriesAreLimited) {
  Served served("correct horse");
  EXPECT_EQ(served.get("/").status, 401);
  EXPECT_THAT(served.get("/").body, HasSubstr("passphrase"));
  EXPECT_EQ(header(served.get("/"), "Referrer-Policy"), "same-origin") << "else its form comes from nowhere";
  EXPECT_EQ(code_of(served.get("/api/session")), "no_passphrase");
  EXPECT_EQ(served.get("/api/session").status, 401);
  for (int i = 0; i < 20; ++i) EXPECT_EQ(served.get("/login").status, 401) << "looking is no try";

  Request login = served.request("POST", "/login", "passphrase=wrong");
  login.content_type = "application/x-www-form-urlencoded";
  EXPECT_EQ(served.router->handle(login).status, 401);
  login.body = "passphrase=correct+horse";
  const Response in = served.router->handle(login);
  EXPECT_EQ(in.status, 303);
  const std::string cookie = header(in, "Set-Cookie");
  EXPECT_THAT(cookie, HasSubstr("HttpOnly"));
  EXPECT_THAT(cookie, HasSubstr("SameSite=Strict"));

  Request known = served.request("GET", "/api/session");
  known.cookie = "theme=dark; " + cookie.substr(0, cookie.find(';'));
  EXPECT_EQ(served.router->handle(known).status, 200);
  known.target = "/login";
  EXPECT_EQ(served.router->handle(known).status, 303) << "who is in goes on to the page";
  EXPECT_EQ(header(served.router->handle(known), "Location"), "/");
  known.target = "/api/session";
  known.cookie = "shimwright=c00k1f";
  EXPECT_EQ(served.router->handle(known).status, 401);

  for (int i = 0; i < 3; ++i) served.router->handle(login);
  EXPECT_EQ(served.router->handle(login).status, 429) << "the right one too: a guess must not be told";
  served.clock_ms += 60000;
  EXPECT_EQ(served.router->handle(login).status, 429);
  served.clock_ms += 1;
  EXPECT_EQ(served.router->handle(login).status, 303);
  login.host = "evil.example";
  EXPECT_EQ(served.router->handle(login).status, 421);
}

}  // namespace
}  // namespace shimwright::server
