// Each thing that the workbench refuses, with its status and its code: what a page or a script branches on.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "server/test_bench.h"

namespace shimwright::server {
namespace {

using Json = nlohmann::json;

struct ServedStack : Bench {
  std::unique_ptr<Router> router;

  explicit ServedStack(const std::string& text = kStackJob) : Bench(text) {
    RouterSettings settings;
    settings.hosts = {kHost};
    settings.now_ms = [] { return 0; };
    router = std::make_unique<Router>(std::move(settings), *workbench);
  }
  Request request(const std::string& method, const std::string& target, const std::string& body = "") const {
    return request_to(kHost, method, target, body);
  }
  std::string job() const { return "/api/jobs/" + id; }

  /// "404 no_such_job", or "200 " with nothing refused.
  std::string refused(const Request& asked) {
    const Response response = router->handle(asked);
    const Json json = Json::parse(response.body, nullptr, false);
    std::string code;
    if (json.is_object() && json.contains("error")) {
      code = json["error"]["code"];
      EXPECT_FALSE(json["error"]["message"].get<std::string>().empty()) << code;
      EXPECT_FALSE(json["error"]["remedy"].get<std::string>().empty()) << code;
    }
    return std::to_string(response.status) + " " + code;
  }
  std::string get(const std::string& target) { return refused(request("GET", target)); }
  std::string post(const std::string& target, const std::string& body) {
    return refused(request("POST", target, body));
  }
};

TEST(Refusals, AtTheDoor) {
  ServedStack served;
  Request asked = served.request("POST", served.job() + "/undo", R"({"client":"t"})");
  EXPECT_EQ(served.refused(asked), "200 ");
  asked.content_type = "application/json  ; charset=utf-8";
  EXPECT_EQ(served.refused(asked), "200 ");
  asked.content_type = "text/plain";
  EXPECT_EQ(served.refused(asked), "415 not_json");
  asked.token = "";
  asked.content_type = "application/json";
  EXPECT_EQ(served.refused(asked), "403 bad_token");
  asked.origin = "http://elsewhere.example";
  EXPECT_EQ(served.refused(asked), "403 bad_origin");
  asked.host = "elsewhere.example";
  EXPECT_EQ(served.refused(asked), "421 bad_host");
  EXPECT_EQ(served.get("/nowhere"), "404 no_such_route");
  EXPECT_EQ(served.get("/../x"), "404 no_such_route");
  EXPECT_EQ(served.get(served.job() + "/undo"), "405 bad_method");
  EXPECT_EQ(served.refused(served.request("PUT", "/api/session")), "405 bad_method");
}

TEST(Refusals, OfWhatIsNotThere) {
  ServedStack served;
  const std::string job = served.job();
  for (const char* way : {"", "/result", "/parts", "/packet/packet.html", "/figure.svg?which=stack",
                          "/table.csv?which=stacks", "/stack?path=stack&pressure=1e5"})
    EXPECT_EQ(served.get("/api/jobs/0000000000000000" + std::string(way)), "404 no_such_job") << way;
  EXPECT_EQ(served.get(job + "/packet/other.pdf"), "404 no_such_file");
  EXPECT_EQ(served.get(job + "/packet/settings-guide.pdf"), "404 no_such_file");
  EXPECT_EQ(served.get(job + "/figure.svg?which=force"), "404 no_such_figure");
  EXPECT_EQ(served.get(job + "/table.csv?which=none"), "404 no_such_table");
  EXPECT_EQ(served.get(job + "/result?revision=77"), "404 no_such_revision");
  EXPECT_EQ(served.get(job + "/result?revision=1"), "200 ");
  EXPECT_EQ(served.get(job + "/stack?path=unit[0].foot_valve.rebound&pressure=1e5"), "422 no_such_stack");
  EXPECT_EQ(served.get("/api/runs/none/events"), "404 no_such_run");
  EXPECT_EQ(served.post("/api/runs/none/stop", R"({"client":"t"})"), "404 no_such_run");
}

TEST(Refusals, OfNumbersThatCannotBe) {
  ServedStack served;
  const std::string job = served.job();
  EXPECT_EQ(served.get(job + "/result?revision=-1"), "400 bad_request");
  EXPECT_EQ(served.get(job + "/result?revision=1x"), "400 bad_request");
  EXPECT_EQ(served.get(job + "/result?revision="), "400 bad_request");
  EXPECT_EQ(served.get(job + "/figure.svg?which=stack&unit=-1"), "400 bad_request");
  const auto bent = [&](const std::string& load) { return served.get(job + "/stack?path=stack" + load); };
  EXPECT_EQ(bent(""), "400 bad_request");
  EXPECT_EQ(bent("&speed=1&pressure=1e5"), "400 bad_request");
  EXPECT_EQ(bent("&pressure=nan"), "400 bad_request");
  EXPECT_EQ(bent("&pressure=-1"), "400 bad_request");
  EXPECT_EQ(bent("&pressure=1e5x"), "400 bad_request");
  EXPECT_EQ(bent("&pressure=1.01e8"), "400 bad_request");
  EXPECT_EQ(bent("&pressure=0"), "200 ");
  EXPECT_EQ(bent("&speed=20.5"), "400 bad_request");
}

TEST(Refusals, OfEdits) {
  ServedStack served;
  const std::string edit = served.job() + "/edit";
  const auto sent = [&](const std::string& one) {
    const std::string base = std::to_string(served.view().track.position);
    return served.post(edit, R"({"client":"t","base":)" + base + R"(,"edits":[)" + one + "]}");
  };
  EXPECT_EQ(sent(R"({"set":"stack.wheel","typed":"1"})"), "422 no_such_key");
  EXPECT_EQ(sent(R"({"remove":"stack.discs[7]"})"), "422 no_such_key");
  EXPECT_EQ(sent(R"({"move":"stack.discs[1]","to":-1})"), "400 bad_request");
  EXPECT_EQ(sent(R"({"move":"stack.discs[1]","to":0.5})"), "400 bad_request");
  EXPECT_EQ(sent(R"({"set":"title","typed":"A","remove":"title"})"), "400 bad_request");
  EXPECT_EQ(sent(R"({"move":"stack.discs[1]"})"), "400 bad_request") << "nobody says where to";
  EXPECT_EQ(sent(R"({"move":"stack.discs[1]","to":0})"), "200 ");
  EXPECT_EQ(typed_at(served.view(), "stack.discs[0]"), "1 x 14 x 0.20 mm");
  EXPECT_EQ(sent(R"({"text":"format = 1\n"})"), "200 ");
  EXPECT_EQ(served.post(edit, R"({"client":"t","base":1,"edits":[{"text":"x"}]})"), "409 conflict");
  EXPECT_EQ(served.post(edit, R"({"client":"t","base":-1,"edits":[]})"), "400 bad_request");
  std::string many = R"({"client":"t","base":1,"edits":[)";
  for (int i = 0; i < 5000; ++i) many += (i ? "," : "") + std::string(R"({"drop":"title"})");
  EXPECT_EQ(served.post(edit, many + "]}"), "400 bad_request");
}

TEST(Refusals, OfFiles) {
  ServedStack served;
  const auto made = [&](const std::string& name, const std::string& from) {
    return served.post("/api/jobs", Json{{"client", "t"}, {"name", name}, {"from", from}}.dump());
  };
  const std::string longest = std::string(120 - 9, 'n') + ".job.toml";
  EXPECT_EQ(made(longest, "stack"), "200 ");
  EXPECT_EQ(made("n" + longest, "stack"), "422 bad_name");
  EXPECT_EQ(made("a\tb.job.toml", "stack"), "422 bad_name");
  EXPECT_EQ(made(".a.job.toml", "stack"), "422 bad_name");
  EXPECT_EQ(made("a/b.job.toml", "stack"), "422 bad_name");
  EXPECT_EQ(made("", "stack"), "422 bad_name");
  EXPECT_EQ(made("a.toml", "stack"), "422 bad_name");
  EXPECT_EQ(made("stack.job.toml", "stack"), "409 disk");
  EXPECT_EQ(made("b.job.toml", "unicycle"), "404 no_such_job");

  const std::string save = served.job() + "/save";
  EXPECT_EQ(served.post(save, R"({"client":"t","expect_disk":"0"})"), "409 disk_changed");
  EXPECT_EQ(served.post(save, R"({"client":"t","expect_disk":"0","over":true})"), "200 ");
  std::filesystem::remove(served.file());
  EXPECT_EQ(served.post(served.job() + "/reload", R"({"client":"t"})"), "404 disk");
  std::filesystem::create_directories(served.file());
  EXPECT_EQ(served.post(save, R"({"client":"t","expect_disk":"","over":true})"), "507 disk");
}

TEST(Refusals, OfAFileThatIsTooLargeToRead) {
  ServedStack served(std::string(kStackJob) + "# " + std::string(4u << 20, 'x'));
  EXPECT_EQ(served.get(served.job()), "404 disk");
  EXPECT_EQ(served.post(served.job() + "/undo", R"({"client":"t"})"), "404 disk");
}

TEST(Refusals, OfAFaultyJobAndASecondWorkbench) {
  ServedStack served("format = 1\ntitle = \"open\n");
  EXPECT_EQ(served.get(served.job() + "/result"), "422 faulty");
  EXPECT_EQ(served.get(served.job() + "/packet/packet.html"), "422 faulty");
  EXPECT_EQ(served.get(served.job() + "/figure.svg?which=stack"), "422 faulty");
  EXPECT_EQ(served.get(served.job() + "/table.csv?which=stacks"), "422 faulty");
  EXPECT_EQ(served.get(served.job() + "/stack?path=stack&pressure=1e5"), "422 faulty");
  EXPECT_EQ(served.post(served.job() + "/bench", R"({"client":"t"})"), "422 faulty");

  WorkbenchSettings settings = served.workbench->settings();
  Workbench second(settings, store::Journal::open((served.folder / "journal.db").string()));
  const auto looked = second.reload(served.id, "t", kMetric);
  ASSERT_FALSE(looked.has_value());
  EXPECT_EQ(looked.error().status, 403);
  EXPECT_EQ(looked.error().code, "read_only");
}

}  // namespace
}  // namespace shimwright::server
