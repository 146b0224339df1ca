#include "server/encode.h"

#include <algorithm>
#include <charconv>
#include <nlohmann/json.hpp>
#include <string_view>
#include <unordered_map>

#include "units/stack_text.h"

namespace shimwright::server {
namespace {

using Json = nlohmann::ordered_json;

std::string dumped(const Json& json) {
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

/// The object with one more member, whose JSON is known as text: a result is written once and sent often.
std::string with_member(std::string object, std::string_view name, std::string_view json) {
  object.pop_back();
  object += object.size() > 1 ? ",\"" : "\"";
  object += name;
  object += "\":";
  object += json;
  object += '}';
  return object;
}

/// A text in its quotes.
void append_quoted(std::string_view text, std::string& json) {
  const bool plain =
      std::ranges::all_of(text, [](char c) { return c >= ' ' && c < '\x7f' && c != '"' && c != '\\'; });
  json += plain ? '"' + std::string(text) + '"' : dumped(Json(text));
}

/// Some hundred members: a JSON object of the library looks for each among all before it, which takes longer
/// than to read the job. Of a path that a faulty text has twice the last value counts.
std::string values_json(const std::vector<file::TypedValue>& values) {
  std::unordered_map<std::string_view, std::size_t> last;
  for (std::size_t i = 0; i < values.size(); ++i) last[values[i].path] = i;
  std::string json = "{";
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (last[values[i].path] != i) continue;
    if (json.size() > 1) json += ',';
    append_quoted(values[i].path, json);
    json += ':';
    append_quoted(values[i].typed, json);
  }
  return json + '}';
}

/// The object with a result and its tag, or with what makes it of the result that the client holds; and with
/// the stack that it shows bent.
template <class View>
std::string with_result(std::string object, const View& view) {
  const auto& result = view.result;
  const auto& patch = view.result_patch;
  if (!result) return object;
  if (view.bent) object = with_member(std::move(object), "stack_view", to_json(*view.bent));
  object = with_member(std::move(object), "result_tag", '"' + result->tag + '"');
  return patch ? with_member(std::move(object), "result_patch", *patch)
               : with_member(std::move(object), "result", result->json());
}

Json json_of(const Diagnostic& diagnostic) {
  return {{"code", diagnostic.code},     {"severity", word(diagnostic.severity)},
          {"file", diagnostic.file},     {"line", diagnostic.line},
          {"column", diagnostic.column}, {"length", diagnostic.length},
          {"path", diagnostic.path},     {"what", diagnostic.what},
          {"got", diagnostic.got},       {"expected", diagnostic.expected},
          {"remedy", diagnostic.remedy}};
}

Json json_of(const Diagnostics& diagnostics) {
  Json list = Json::array();
  for (const Diagnostic& diagnostic : diagnostics) list.push_back(json_of(diagnostic));
  return list;
}

Json json_of(const std::vector<FaultyDraft>& drafts) {
  Json list = Json::array();
  for (const FaultyDraft& faulty : drafts) {
    list.push_back({{"path", faulty.draft.path},
                    {"typed", faulty.draft.typed},
                    {"insert", faulty.draft.insert},
                    {"diagnostic", json_of(faulty.diagnostic)}});
  }
  return list;
}

Json error_of(const ApiFault& fault) {
  return {{"code", fault.code}, {"message", fault.message}, {"remedy", fault.remedy}};
}

Json json_of(const Timing& timing) {
  return {{"compute_ms", timing.compute_ms}, {"encode_ms", timing.encode_ms}};
}

const char* word(Status status) {
  switch (status) {
    case Status::Converged:
      return "converged";
    case Status::OutOfRange:
      return "out of range";
    case Status::Stalled:
      return "stalled";
  }
  return "stalled";
}

/// For eyes: to seven digits, as results on the page are.
double brief(double value) {
  char text[32];
  const auto end = std::to_chars(text, text + sizeof text, value, std::chars_format::general, 7).ptr;
  double rounded = value;
  std::from_chars(text, end, rounded);
  return rounded;
}
Json brief(const std::vector<double>& values) {
  Json list = Json::array();
  for (const double value : values) list.push_back(brief(value));
  return list;
}

/// A member that is there only when it was given.
void put(Json& object, const char* name, const std::optional<double>& value) {
  if (value) object[name] = *value;
}
void put(Json& object, const char* name, const file::Quantity& quantity) {
  if (quantity) object[name] = quantity.si;
}
void put(Json& object, const char* name, const file::Count& count) {
  if (count) object[name] = count.value;
}

}  // namespace

std::string to_json(const ApiFault& fault) {
  Json json = {{"error", error_of(fault)}};
  if (fault.code == "faulty") json["diagnostics"] = json_of(fault.diagnostics);
  return dumped(json);
}

std::string to_json(const Session& session) {
  Json jobs = Json::array();
  for (const JobEntry& entry : session.jobs) {
    jobs.push_back({{"id", entry.id},
                    {"name", entry.name},
                    {"title", entry.title},
                    {"kind", entry.kind},
                    {"unsaved", entry.unsaved},
                    {"faults", entry.faults}});
  }
  return dumped({{"program_version", session.program_version},
                 {"token", session.token},
                 {"folder", session.folder},
                 {"lan", session.lan},
                 {"read_only", session.read_only},
                 {"notice", session.notice},
                 {"open", session.open},
                 {"jobs", std::move(jobs)}});
}

std::string to_json(const JobView& view) {
  const std::string head = dumped({{"id", view.id},
                                   {"name", view.name},
                                   {"path", view.path},
                                   {"serial", view.track.serial},
                                   {"revision", view.track.position},
                                   {"disk_hash", view.track.disk_hash},
                                   {"unsaved", view.unsaved},
                                   {"disk_changed", view.disk_changed},
                                   {"text", view.text},
                                   {"drafts", json_of(view.drafts)},
                                   {"diagnostics", json_of(view.diagnostics)},
                                   {"can_undo", view.track.undo_to > 0},
                                   {"can_redo", view.track.redo_to > 0},
                                   {"undo_note", view.track.undo_note},
                                   {"redo_note", view.track.redo_note},
                                   {"result_revision", view.result_revision},
                                   {"timing", json_of(view.timing)}});
  return with_result(with_member(head, "values", values_json(view.values)), view);
}

std::string to_json(const Trial& trial) {
  const std::string head = dumped({{"drafts", json_of(trial.drafts)},
                                   {"diagnostics", json_of(trial.diagnostics)},
                                   {"timing", json_of(trial.timing)}});
  return with_result(head, trial);
}

std::string to_json(const JobEvent& event) {
  return dumped({{"job", event.job},
                 {"serial", event.serial},
                 {"revision", event.revision},
                 {"client", event.client},
                 {"disk_changed", event.disk_changed}});
}

std::string to_json(const file::PartsSpec& parts) {
  const auto list = [](const auto& items, auto&& fill) {
    Json array = Json::array();
    for (const auto& item : items) {
      Json object = {{"name", item.name}};
      fill(item, object);
      array.push_back(std::move(object));
    }
    return array;
  };
  Json drawer;
  drawer["shims"] = list(parts.shims, [](const file::DiscSpec& shim, Json& object) {
    object["label"] = shim.name;
    if (shim.outer_diameter && shim.thickness) {
      const bool inches = units::is_imperial(shim.thickness.text);
      object["label"] = units::shim_text_plain(1, shim.outer_diameter.si, shim.thickness.si,
                                               inches ? units::System::Imperial : units::System::Metric);
    }
    put(object, "outer_diameter", shim.outer_diameter);
    put(object, "thickness", shim.thickness);
    put(object, "bore", shim.bore);
    put(object, "in_hand", shim.in_hand);
  });
  drawer["springs"] = list(parts.springs, [](const file::CoilSpringSpec& spring, Json& object) {
    put(object, "rate", spring.rate);
    put(object, "free_length", spring.free_length);
    put(object, "in_hand", spring.in_hand);
  });
  drawer["oils"] = list(parts.oils, [](const file::OilSpec& oil, Json& object) {
    for (const file::ViscosityPoint& point : oil.viscosity) {
      if (!point.at || !point.value) continue;
      if (std::abs(point.at.si - 313.15) < 0.5) object["kinematic_viscosity_40"] = point.value.si;
      if (std::abs(point.at.si - 373.15) < 0.5) object["kinematic_viscosity_100"] = point.value.si;
    }
  });
  drawer["spacers"] = list(parts.spacers, [](const file::SpacerSpec& spacer, Json& object) {
    put(object, "thickness", spacer.thickness);
    put(object, "bore", spacer.bore);
    put(object, "in_hand", spacer.in_hand);
  });
  const auto by_name = [](const auto&, Json&) {};
  drawer["materials"] = list(parts.materials, by_name);
  drawer["fasteners"] = list(parts.fasteners, by_name);
  return dumped(drawer);
}

std::string to_json(const job::StackView& view) {
  Json json = {{"path", view.path}, {"pressure", view.pressure}};
  put(json, "speed", view.speed);
  put(json, "flow", view.flow);
  put(json, "bleed_flow", view.bleed_flow);
  put(json, "stack_flow", view.stack_flow);
  json.update({{"lift_at_seat", view.lift_at_seat},
               {"lift_at_rim", view.lift_at_rim},
               {"float_used", view.float_used},
               {"opening_area", view.opening_area}});
  json["discs"] = Json::array();
  for (const job::DiscView& disc : view.discs) {
    Json row = {{"number", disc.number},
                {"label", disc.label},
                {"thickness", disc.thickness},
                {"radius", brief(disc.radius)},
                {"height", brief(disc.height)},
                {"rest_height", disc.rest_height},
                {"stress", brief(disc.stress)},
                {"carries", disc.carries},
                {"highest_stress", disc.highest_stress}};
    put(row, "yield_margin", disc.yield_margin);
    put(row, "fatigue_margin", disc.fatigue_margin);
    json["discs"].push_back(std::move(row));
  }
  json["contacts"] = Json::array();
  for (const document::ContactForce& contact : view.contacts) {
    json["contacts"].push_back({{"lower", contact.lower},
                                {"upper", contact.upper},
                                {"radius", brief(contact.radius)},
                                {"force", brief(contact.force)}});
  }
  json["outcome"] = {{"status", word(view.outcome.status)},
                     {"iterations", view.outcome.iterations},
                     {"residual", view.outcome.residual},
                     {"note", view.outcome.note}};
  return dumped(json);
}

std::string run_json(const std::string& run) {
  return dumped({{"run", run}});
}

std::string conflict_json(const ApiFault& fault, const JobView& present) {
  return with_member(dumped({{"error", error_of(fault)}}), "job", to_json(present));
}

std::string conflict_json(const ApiFault& fault, const DiskConflict& conflict) {
  return dumped({{"error", error_of(fault)}, {"disk_text", conflict.text}, {"disk_hash", conflict.hash}});
}

}  // namespace shimwright::server
