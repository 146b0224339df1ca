// Real answers held to the schemas that the server itself gives out.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <set>
#include <sstream>
#include <thread>
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wshadow"
#pragma GCC diagnostic ignored "-Wconversion"
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>
#pragma GCC diagnostic pop

#include "server/encode.h"
#include "server/openapi.h"
#include "server/paper.h"
#include "server/test_bench.h"

namespace shimwright::server {
namespace {

using Json = nlohmann::json;

const Json& api() {
  static const Json json = Json::parse(openapi_text());
  return json;
}

/// The same schema with every member that it names demanded to be known: an answer with an undescribed member
/// is as wrong as one that lacks one.
Json strict(Json schema) {
  if (schema.is_object() && schema.contains("properties") && !schema.contains("additionalProperties"))
    schema["additionalProperties"] = false;
  for (auto& inner : schema)
    if (inner.is_structured()) inner = strict(inner);
  return schema;
}

std::string faults(const std::string& name, const std::string& answer) {
  static const Json components = strict(api()["components"]);
  const Json schema_json = {{"components", components}, {"$ref", "#/components/schemas/" + name}};
  valijson::Schema schema;
  valijson::SchemaParser parser;
  const valijson::adapters::NlohmannJsonAdapter schema_adapter(schema_json);
  parser.populateSchema(schema_adapter, schema);
  const Json document = Json::parse(answer, nullptr, false);
  if (document.is_discarded()) return "no JSON";
  valijson::Validator validator;
  valijson::ValidationResults results;
  const valijson::adapters::NlohmannJsonAdapter adapter(document);
  if (validator.validate(schema, adapter, &results)) return "";
  std::ostringstream text;
  valijson::ValidationResults::Error error;
  for (int n = 0; n < 5 && results.popError(error); ++n) {
    for (const std::string& step : error.context) text << step;
    text << ": " << error.description << '\n';
  }
  return text.str();
}

struct Conversation : Bench {
  std::unique_ptr<Router> router;

  explicit Conversation(const std::string& text = kStackJob) : Bench(text) {
    RouterSettings settings;
    settings.hosts = {"here"};
    settings.now_ms = [] { return 0; };
    router = std::make_unique<Router>(std::move(settings), *workbench);
  }
  Response get(const std::string& target, const std::string& tag = "") {
    Request request;
    request.method = "GET";
    request.target = target;
    request.host = "here";
    request.result_tag = tag;
    return router->handle(request);
  }
  Response post(const std::string& target, const Json& body, const std::string& tag = "") {
    Request request;
    request.result_tag = tag;
    request.method = "POST";
    request.target = target;
    request.host = "here";
    request.content_type = "application/json";
    request.token = "0123456789abcdef";
    request.body = body.dump();
    return router->handle(request);
  }
  std::string job() const { return "/api/jobs/" + id; }
};

std::string example(const std::string& name) {
  return text_of_file(std::string(SW_SOURCE_DIR) + "/examples/" + name);
}

TEST(Answers, AWholeForkAnswersAsDescribed) {
  Conversation talk(example("enduro-fork/enduro-fork.job.toml"));
  write_text(talk.folder / "shop" / "shop.parts.toml", example("enduro-fork/shop.parts.toml"));
  EXPECT_EQ(faults("Session", talk.get("/api/session").body), "");
  const Response job = talk.get(talk.job());
  EXPECT_EQ(faults("JobState", job.body), "");
  EXPECT_TRUE(Json::parse(job.body)["result"].is_object());
  EXPECT_EQ(faults("ResultDocument", talk.get(talk.job() + "/result").body), "");
  EXPECT_EQ(faults("ResultDocument", talk.get(talk.job() + "/result?parts=live&system=imperial").body), "");
  EXPECT_EQ(faults("Drawer", talk.get(talk.job() + "/parts").body), "");
  EXPECT_EQ(
      faults("StackView", talk.get(talk.job() + "/stack?path=unit[0].piston_valve.rebound&speed=0.5").body),
      "");
}

TEST(Answers, ALoneStackAnswersAsDescribedThroughItsEdits) {
  Conversation talk;
  const Json first = Json::parse(talk.get(talk.job()).body);
  const Response drafted =
      talk.post(talk.job() + "/edit", {{"base", first["revision"]},
                                       {"client", "t"},
                                       {"edits", {{{"set", "stack.seat"}, {"typed", "5 wt"}}}}});
  EXPECT_EQ(faults("JobState", drafted.body), "");
  EXPECT_EQ(Json::parse(drafted.body)["drafts"].size(), 1u);
  EXPECT_EQ(
      faults("Trial", talk.post(talk.job() + "/try", {{"edits", {{{"remove", "stack.discs[1]"}}}}}).body),
      "");
  EXPECT_EQ(faults("StackView", talk.get(talk.job() + "/stack?path=stack&pressure=3e5").body), "");
  const Response conflict = talk.post(
      talk.job() + "/edit", {{"base", first["revision"]}, {"client", "t"}, {"edits", {{{"text", "x"}}}}});
  EXPECT_EQ(conflict.status, 409);
  EXPECT_EQ(faults("Conflict", conflict.body), "");
  write_text(talk.file(), "format = 1\n");
  const Response disk =
      talk.post(talk.job() + "/save", {{"client", "t"}, {"expect_disk", first["disk_hash"]}});
  EXPECT_EQ(disk.status, 409);
  EXPECT_EQ(faults("DiskConflict", disk.body), "");
  EXPECT_EQ(faults("JobState",
                   talk.post("/api/jobs", {{"client", "t"}, {"name", "a.job.toml"}, {"from", "fork"}}).body),
            "");
  EXPECT_EQ(faults("JobEvent", to_json(JobEvent{"00", 1, 2, "t", true, false})), "");
}

/// An edit of the present revision that sets one key.
Json edit_of(const Json& present, const std::string& key, const std::string& typed) {
  return {{"base", present["revision"]}, {"client", "t"}, {"edits", {{{"set", key}, {"typed", typed}}}}};
}

TEST(Answers, WhoHoldsAResultIsToldOnlyWhatChanged) {
  Conversation talk(example("enduro-fork/enduro-fork.job.toml"));
  write_text(talk.folder / "shop" / "shop.parts.toml", example("enduro-fork/shop.parts.toml"));
  const Json first = Json::parse(talk.get(talk.job()).body);
  const std::string tag = first["result_tag"];
  const Json body = edit_of(first, "unit[0].piston_valve.rebound.stack[0]", "8 x 20 x 0.11 mm");

  const Response trial = talk.post(talk.job() + "/try", {{"edits", body["edits"]}}, tag);
  EXPECT_EQ(faults("Trial", trial.body), "");
  const Response edited = talk.post(talk.job() + "/edit", body, tag);
  EXPECT_EQ(faults("JobState", edited.body), "");
  EXPECT_LT(edited.body.size(), 100'000u);
  const Json state = Json::parse(edited.body);
  EXPECT_FALSE(state.contains("result"));
  EXPECT_EQ(state["result_patch"], Json::parse(trial.body)["result_patch"]);
  EXPECT_EQ(state["result_tag"], Json::parse(trial.body)["result_tag"]);

  const Json whole = Json::parse(talk.get(talk.job()).body);
  EXPECT_EQ(whole["result_tag"], state["result_tag"]);
  EXPECT_EQ(first["result"].patch(state["result_patch"]).dump(), whole["result"].dump());
  // and back again
  const Json undone =
      Json::parse(talk.post(talk.job() + "/undo", {{"client", "t"}}, state["result_tag"]).body);
  EXPECT_EQ(undone["result_tag"], tag);
  EXPECT_EQ(whole["result"].patch(undone["result_patch"]).dump(), first["result"].dump());
}

TEST(Answers, AKeyThatATextHasTwiceHasOneValue) {
  Conversation talk(std::string(kStackJob) + "\n[machine]\nname = \"µ\"\nname = \"b \\\"c\\\"\"\n");
  const std::string body = talk.get(talk.job()).body;
  EXPECT_EQ(faults("JobState", body), "");
  std::set<std::string> seen;
  const auto note_twins = [&](int depth, Json::parse_event_t event, Json& parsed) {
    if (depth == 2 && event == Json::parse_event_t::key) {
      EXPECT_TRUE(seen.insert(parsed.get<std::string>()).second) << parsed;
    }
    return true;
  };
  const Json state = Json::parse(body, note_twins);
  EXPECT_TRUE(state["values"].contains("machine.name"));
  EXPECT_EQ(state["values"]["format"], "1");
  EXPECT_EQ(state["values"]["stack.discs[1]"], "1 x 14 x 0.20 mm");
  EXPECT_EQ(state["values"]["title"], "Stack");
}

TEST(Answers, AnUnknownTagBringsTheWholeResult) {
  Conversation talk;
  const Json first = Json::parse(talk.get(talk.job(), "0123456789abcdef").body);
  EXPECT_TRUE(first["result"].is_object());
  EXPECT_FALSE(first.contains("result_patch"));
  // a known one brings nothing again
  const Json again = Json::parse(talk.get(talk.job(), first["result_tag"]).body);
  EXPECT_EQ(again["result_patch"], Json::array());
  // a conflict has the present state, in the same way
  const Response edited = talk.post(talk.job() + "/edit", edit_of(first, "stack.seat", "17 mm"));
  ASSERT_EQ(edited.status, 200);
  const Response conflict =
      talk.post(talk.job() + "/edit", {{"base", 1}, {"client", "t"}, {"edits", {{{"text", "x"}}}}},
                Json::parse(edited.body)["result_tag"]);
  EXPECT_EQ(conflict.status, 409);
  EXPECT_EQ(faults("Conflict", conflict.body), "");
  EXPECT_EQ(Json::parse(conflict.body)["job"]["result_patch"], Json::array());
}

TEST(Answers, AnotherStartOfTheServerKnowsNoOlderTag) {
  Conversation talk;
  const std::string tag = Json::parse(talk.get(talk.job()).body)["result_tag"];
  Conversation again;
  EXPECT_NE(Json::parse(again.get(again.job()).body)["result_tag"], tag);
}

TEST(Answers, AStackThatIsShownBentComesWithEachNewState) {
  Conversation talk;
  const std::string bend = "?bend=stack&pressure=3e5";
  const auto by_itself = [&] {
    return Json::parse(talk.get(talk.job() + "/stack?path=stack&pressure=3e5").body);
  };
  const Json first = Json::parse(talk.get(talk.job() + bend).body);
  EXPECT_EQ(first["stack_view"], by_itself());
  const Json body = edit_of(first, "stack.discs[0]", "5 x 19 x 0.15 mm");

  const Response trial = talk.post(talk.job() + "/try" + bend, {{"edits", body["edits"]}});
  EXPECT_EQ(faults("Trial", trial.body), "");
  EXPECT_EQ(by_itself(), first["stack_view"]) << "a trial keeps nothing";
  const Response edited = talk.post(talk.job() + "/edit" + bend, body);
  EXPECT_EQ(faults("JobState", edited.body), "");
  const Json state = Json::parse(edited.body);
  EXPECT_EQ(state["stack_view"], by_itself());
  EXPECT_EQ(state["stack_view"], Json::parse(trial.body)["stack_view"]);
  EXPECT_NE(state["stack_view"], first["stack_view"]);
  const Json undone = Json::parse(talk.post(talk.job() + "/undo" + bend, {{"client", "t"}}).body);
  EXPECT_EQ(undone["stack_view"], first["stack_view"]);
}

TEST(Answers, AStackThatCannotBeBentIsLeftOutAndALoadThatIsNoneIsRefused) {
  Conversation talk;
  const Json first = Json::parse(talk.get(talk.job()).body);
  EXPECT_FALSE(first.contains("stack_view"));
  const Response elsewhere = talk.get(talk.job() + "?bend=unit[0].foot_valve.rebound&speed=1");
  EXPECT_EQ(elsewhere.status, 200);
  EXPECT_FALSE(Json::parse(elsewhere.body).contains("stack_view"));
  for (const std::string load : {"", "&speed=1&pressure=3e5", "&speed=nan", "&pressure=-1"}) {
    const Response refused = talk.post(talk.job() + "/edit?bend=stack" + load,
                                       edit_of(first, "stack.discs[0]", "5 x 19 x 0.15 mm"));
    EXPECT_EQ(refused.status, 400) << load;
  }
  EXPECT_EQ(Json::parse(talk.get(talk.job()).body)["revision"], first["revision"]) << "nothing was done";
}

/// The events of a run, once it has ended: name and data.
std::vector<std::pair<std::string, std::string>> events_of(Conversation& talk, const std::string& run) {
  const Response stream = talk.get("/api/runs/" + run + "/events");
  EXPECT_EQ(stream.type, "text/event-stream");
  std::string text;
  std::size_t cursor = 0;
  for (bool ended = !stream.pull; !ended; std::this_thread::sleep_for(std::chrono::milliseconds(5))) {
    Pulled pulled = stream.pull(cursor);
    text += pulled.text;
    ended = pulled.ended;
  }
  std::vector<std::pair<std::string, std::string>> events;
  for (std::size_t at = 0; at < text.size(); at = text.find("\n\n", at) + 2) {
    const std::size_t name = at + 7, data = text.find("\ndata: ", at);
    events.emplace_back(text.substr(name, data - name),
                        text.substr(data + 7, text.find("\n\n", data) - data - 7));
  }
  return events;
}

TEST(Answers, ABenchRunTellsItsProgressAndGivesItsDocument) {
  Conversation talk(example("enduro-fork/enduro-fork.job.toml"));
  write_text(talk.folder / "shop" / "shop.parts.toml", example("enduro-fork/shop.parts.toml"));
  const Response begun =
      talk.post(talk.job() + "/bench",
                {{"client", "t"}, {"clicks", {{{"adjuster", "rebound needle"}, {"clicks", 8}}}}});
  ASSERT_EQ(faults("RunBegun", begun.body), "");
  const std::string run = Json::parse(begun.body)["run"];
  const auto events = events_of(talk, run);
  ASSERT_FALSE(events.empty());
  EXPECT_EQ(events.back().first, "result");
  EXPECT_EQ(faults("BenchDocument", events.back().second), "");
  EXPECT_EQ(events.front().first, "progress");
  EXPECT_EQ(faults("RunProgress", events.front().second), "");
  EXPECT_EQ(events_of(talk, run), events) << "who comes later sees the same";

  const std::string usual = Json::parse(talk.post(talk.job() + "/bench", {{"client", "t"}}).body)["run"];
  EXPECT_NE(events_of(talk, usual).back().second, events.back().second) << "the clicks count";
}

TEST(Answers, TheLastGoodRevisionGoesOnTheBench) {
  Conversation talk;  // which has no damper
  const auto end_of_bench = [&] {
    const std::string run = Json::parse(talk.post(talk.job() + "/bench", {{"client", "t"}}).body)["run"];
    return events_of(talk, run).back().first;
  };
  EXPECT_EQ(end_of_bench(), "failed");
  const auto typed = [&](const std::string& text) {
    return talk
        .post(talk.job() + "/edit", {{"base", Json::parse(talk.get(talk.job()).body)["revision"]},
                                     {"client", "t"},
                                     {"edits", {{{"text", text}}}}})
        .status;
  };
  write_text(talk.folder / "shop" / "shop.parts.toml", example("enduro-fork/shop.parts.toml"));
  EXPECT_EQ(typed(example("enduro-fork/enduro-fork.job.toml")), 200);
  EXPECT_EQ(end_of_bench(), "result");
  EXPECT_EQ(typed("title = \"open\n"), 200);
  EXPECT_EQ(end_of_bench(), "result");
}

TEST(Answers, ABenchRunStopsWhenAskedAndAJobWithoutADamperFails) {
  Conversation talk(example("enduro-fork/enduro-fork.job.toml"));
  write_text(talk.folder / "shop" / "shop.parts.toml", example("enduro-fork/shop.parts.toml"));
  const std::string run = Json::parse(talk.post(talk.job() + "/bench", {{"client", "t"}}).body)["run"];
  EXPECT_EQ(faults("RunBegun", talk.post("/api/runs/" + run + "/stop", {{"client", "t"}}).body), "");
  EXPECT_EQ(events_of(talk, run).back().first, "stopped");
  EXPECT_EQ(talk.post("/api/runs/nothing/stop", {{"client", "t"}}).status, 404);
  EXPECT_EQ(talk.get("/api/runs/nothing/events").status, 404);

  Conversation stack;
  const std::string other = Json::parse(stack.post(stack.job() + "/bench", {{"client", "t"}}).body)["run"];
  EXPECT_EQ(events_of(stack, other).back().first, "failed");
  EXPECT_EQ(faults("Faulty", events_of(stack, other).back().second), "");
}

TEST(Answers, AFigureIsTheOneThatIsAskedFor) {
  Conversation talk(example("enduro-fork/enduro-fork.job.toml"));
  write_text(talk.folder / "shop" / "shop.parts.toml", example("enduro-fork/shop.parts.toml"));
  const auto whole = *talk.workbench->result(talk.id, 0, {units::System::Metric, true});
  int n_drawn = 0;
  for (const std::string which : {"force", "pressures", "springs", "lift", "stack", "post"})
    for (const bool foot : {false, true})
      for (const bool compression : {false, true}) {
        const auto drawn = figure(whole->document, {which, 0, foot, compression}, units::System::Metric);
        const Response asked = talk.get(talk.job() + "/figure.svg?which=" + which +
                                        "&unit=0&valve=" + (foot ? "foot" : "piston") +
                                        "&stroke=" + (compression ? "compression" : "rebound"));
        EXPECT_EQ(asked.status, drawn ? 200 : 404) << which << foot << compression;
        EXPECT_TRUE(!drawn || asked.body == drawn->bytes) << which << foot << compression;
        n_drawn += drawn ? 1 : 0;
      }
  EXPECT_GE(n_drawn, 16);
  EXPECT_EQ(talk.get(talk.job() + "/figure.svg?which=force&unit=1").status, 404);
  EXPECT_EQ(talk.get(talk.job() + "/figure.svg?which=force").body,
            talk.get(talk.job() + "/figure.svg?which=force&unit=0").body);
}

TEST(Answers, AJobWithoutAnyResultAnswersAsDescribed) {
  Conversation talk("format = 1\ntitle = \"open\n");
  const Response job = talk.get(talk.job());
  EXPECT_EQ(faults("JobState", job.body), "");
  EXPECT_FALSE(Json::parse(job.body).contains("result"));
  const Response result = talk.get(talk.job() + "/result");
  EXPECT_EQ(result.status, 422);
  EXPECT_EQ(faults("Faulty", result.body), "");
}

TEST(Answers, TheListOfKeysIsAsDescribedAndHoldsEveryTable) {
  Conversation talk;
  const Json list = Json::parse(talk.get("/api/schema").body);
  std::set<std::string> paths;
  for (const Json& key : list) {
    ASSERT_EQ(faults("SchemaKey", key.dump()), "") << key.dump();
    EXPECT_TRUE(paths.insert(key["path"].get<std::string>()).second) << "twice: " << key["path"];
  }
  for (const char* path : {"title", "unit[].piston_valve.rebound.clamp", "unit[].piston_valve.rebound.stack",
                           "unit[].foot_valve.bleed[].per_click", "rider.mass", "shim.*.thickness"})
    EXPECT_TRUE(paths.contains(path)) << path;
}

/// What the page needs to know of a key before anybody has typed it: one key of each sort, as the technician
/// would describe it.
TEST(Answers, EachSortOfKeyIsDescribedByWhatItTakes) {
  Conversation talk;
  const Json list = Json::parse(talk.get("/api/schema").body);
  const auto row = [&](const std::string& path) {
    for (const Json& key : list)
      if (key["path"] == path) return key;
    ADD_FAILURE() << path;
    return Json{{"unit", ""}};
  };
  for (const auto& [path, unit] : std::vector<std::pair<const char*, const char*>>{
           {"stack.seat", "length"},                    // one quantity
           {"stack.pressures", "pressure difference"},  // a list of them
           {"machine.front_sag.static", "length"},      // a range of them, in a table
           {"rider.mass", "mass"},
           {"conditions.oil_temperature", "temperature"},
           {"unit[].piston_valve.rebound.clamp", "length"},
           {"shim.*.thickness", "length"},
           {"title", ""},
           {"format", ""},
           {"stack.discs", ""},
           {"unit[].kind", ""},
           {"unit", ""}})
    EXPECT_EQ(row(path)["unit"], unit) << path;
  EXPECT_THAT(row("unit[].kind")["words"], testing::Contains("shock"));
  EXPECT_EQ(list.front()["path"], "format") << "in the order of the schema";
}

TEST(Answers, WhatIsRefusedSaysWhyAndWhatToDo) {
  Conversation talk;
  for (const std::string& target :
       {std::string("/nowhere"), std::string("/api/jobs/0000000000000000"),
        talk.job() + "/stack?path=unit[0].x", talk.job() + "/stack?path=stack&pressure=-1",
        talk.job() + "/stack?path=stack&pressure=nan", talk.job() + "/stack?path=stack",
        talk.job() + "/result?revision=77"}) {
    const Response response = talk.get(target);
    EXPECT_GE(response.status, 400) << target;
    EXPECT_EQ(faults("Error", response.body), "") << target;
    EXPECT_FALSE(Json::parse(response.body)["error"]["remedy"].get<std::string>().empty()) << target;
  }
}

TEST(Answers, TheCheckItselfSeesAMissingAndAnUndescribedMember) {
  EXPECT_NE(faults("JobEvent", R"({"job":"","serial":1,"revision":1,"client":""})"), "");
  EXPECT_NE(
      faults(
          "JobEvent",
          R"({"job":"","serial":1,"revision":1,"client":"","disk_changed":true,"parts_changed":true,"x":1})"),
      "");
  EXPECT_NE(
      faults("JobEvent",
             R"({"job":"","serial":"1","revision":1,"client":"","disk_changed":true,"parts_changed":true})"),
      "");
}

}  // namespace
}  // namespace shimwright::server
