#include "server/decode.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>

namespace shimwright::server {
namespace {

using Json = nlohmann::json;

constexpr std::size_t kMostEdits = 200;  // of one request
constexpr std::int64_t kMostClicks = 1000;
constexpr int kDeepest = 8;                // of its JSON: ours go no deeper than 4, and a dump recurses
constexpr std::size_t kLongestName = 200;  // of a client

ApiFault bad(const std::string& what) {
  return {400, "bad_request", what, "/api/openapi.json describes this request."};
}

/// The object in a body, or why there is none.
Answer<Json> object_of(std::string_view body) {
  bool too_deep = false;
  const Json json = Json::parse(
      body,
      [&](int depth, Json::parse_event_t, Json&) {
        too_deep = too_deep || depth > kDeepest;
        return !too_deep;
      },
      false);
  if (too_deep) return failure(bad("The body has too many nested levels."));
  if (json.is_discarded())
    return failure(ApiFault{400, "not_json", "The body is not JSON.", "Send a JSON object."});
  if (!json.is_object()) return failure(bad("The body is not a JSON object."));
  return json;
}

/// Reads members one by one and keeps the first fault.
struct Reader {
  const Json& object;
  std::optional<ApiFault> fault{};

  void complain(const std::string& what) {
    if (!fault) fault = bad(what);
  }
  std::string text(const char* name, bool required = true) {
    const auto found = object.find(name);
    if (found == object.end()) {
      if (required) complain(fmt::format("\"{}\" is missing.", name));
      return {};
    }
    if (!found->is_string()) {
      complain(fmt::format("\"{}\" is not a text.", name));
      return {};
    }
    return found->get<std::string>();
  }
  std::int64_t number(const char* name) {
    const auto found = object.find(name);
    if (found == object.end() || !found->is_number_integer() || *found < 0 || *found > (1LL << 50)) {
      complain(fmt::format("\"{}\" is not a whole number, 0 or more.", name));
      return 0;
    }
    return found->get<std::int64_t>();
  }
  /// A number above 0; nothing where it is left out.
  std::optional<double> quantity(const char* name) {
    const auto found = object.find(name);
    if (found == object.end()) return std::nullopt;
    if (!found->is_number() || !(found->get<double>() >= 0 && found->get<double>() < 1e9)) {
      complain(fmt::format("\"{}\" is not a number, 0 or more.", name));
      return std::nullopt;
    }
    return found->get<double>();
  }
  bool flag(const char* name) {
    const auto found = object.find(name);
    if (found == object.end()) return false;
    if (!found->is_boolean()) complain(fmt::format("\"{}\" is neither true nor false.", name));
    return found->is_boolean() && found->get<bool>();
  }
  std::string client() {
    std::string name = text("client");
    if (name.size() > kLongestName) complain("\"client\" is longer than 200 bytes.");
    return name;
  }
};

/// The members that each kind of edit has, the first naming it.
struct Form {
  Edit::Kind kind;
  const char* name;
  const char* second;  // null: only one
};
constexpr std::array kForms = {
    Form{Edit::Kind::Set, "set", "typed"},       Form{Edit::Kind::Remove, "remove", nullptr},
    Form{Edit::Kind::Insert, "insert", "typed"}, Form{Edit::Kind::Move, "move", "to"},
    Form{Edit::Kind::Drop, "drop", nullptr},     Form{Edit::Kind::Text, "text", nullptr}};

Answer<Edit> edit_of(const Json& json) {
  if (!json.is_object()) return failure(bad("An edit is not an object."));
  for (const Form& form : kForms) {
    if (!json.contains(form.name)) continue;
    if (json.size() != (form.second ? 2u : 1u))
      return failure(bad(fmt::format("An edit with \"{}\" has too many or too few members.", form.name)));
    Reader reader{json};
    Edit edit{form.kind, {}, {}, 0};
    (form.kind == Edit::Kind::Text ? edit.typed : edit.path) = reader.text(form.name);
    if (form.kind == Edit::Kind::Move)
      edit.to = static_cast<std::size_t>(reader.number("to"));
    else if (form.second)
      edit.typed = reader.text("typed");
    if (reader.fault) return failure(*reader.fault);
    return edit;
  }
  return failure(bad("An edit has none of set, remove, insert, move, drop and text."));
}

Answer<std::vector<Edit>> edits_of(const Json& object) {
  const auto found = object.find("edits");
  if (found == object.end() || !found->is_array()) return failure(bad("\"edits\" is not a list."));
  if (found->size() > kMostEdits)
    return failure(bad(fmt::format("More than {} edits in one request.", kMostEdits)));
  std::vector<Edit> edits;
  for (const Json& json : *found) {
    auto edit = edit_of(json);
    if (!edit) return failure(std::move(edit.error()));
    edits.push_back(std::move(*edit));
  }
  return edits;
}

}  // namespace

Answer<EditRequest> edit_request(std::string_view body) {
  const auto object = object_of(body);
  if (!object) return failure(object.error());
  Reader reader{*object};
  EditRequest request{reader.number("base"), reader.client(), reader.text("note", false), {}};
  if (reader.fault) return failure(*reader.fault);
  auto edits = edits_of(*object);
  if (!edits) return failure(std::move(edits.error()));
  request.edits = std::move(*edits);
  return request;
}

Answer<std::vector<Edit>> try_request(std::string_view body) {
  const auto object = object_of(body);
  if (!object) return failure(object.error());
  return edits_of(*object);
}

Answer<std::string> client_request(std::string_view body) {
  const auto object = object_of(body);
  if (!object) return failure(object.error());
  Reader reader{*object};
  std::string client = reader.client();
  if (reader.fault) return failure(*reader.fault);
  return client;
}

Answer<SaveRequest> save_request(std::string_view body) {
  const auto object = object_of(body);
  if (!object) return failure(object.error());
  Reader reader{*object};
  SaveRequest request{reader.client(), reader.text("expect_disk"), reader.flag("over")};
  if (reader.fault) return failure(*reader.fault);
  return request;
}

Answer<NewJobRequest> new_job_request(std::string_view body) {
  const auto object = object_of(body);
  if (!object) return failure(object.error());
  Reader reader{*object};
  NewJobRequest request{reader.client(), reader.text("name"), reader.text("from")};
  if (reader.fault) return failure(*reader.fault);
  return request;
}

Answer<BenchRequest> bench_request(std::string_view body) {
  const auto object = object_of(body);
  if (!object) return failure(object.error());
  Reader reader{*object};
  BenchRequest request{
      reader.client(), reader.quantity("air_in_rod_chamber"), reader.quantity("oil_temperature"), {}};
  if (const auto clicks = object->find("clicks"); clicks != object->end()) {
    if (!clicks->is_array() || clicks->size() > kMostEdits) return failure(bad("\"clicks\" is not a list."));
    for (const Json& json : *clicks) {
      if (!json.is_object()) return failure(bad("A click setting is not an object."));
      Reader setting{json};
      request.clicks.push_back({setting.text("adjuster"), static_cast<int>(std::min<std::int64_t>(
                                                              setting.number("clicks"), kMostClicks))});
      if (setting.fault) return failure(*setting.fault);
    }
  }
  if (reader.fault) return failure(*reader.fault);
  return request;
}

}  // namespace shimwright::server
