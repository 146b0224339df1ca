#include "server/router.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <exception>
#include <optional>
#include <string_view>

#include "server/decode.h"
#include "server/encode.h"
#include "server/login.h"
#include "server/openapi.h"
#include "server/paper.h"
#include "server/target.h"

namespace shimwright::server {
namespace {

/// What the page may load: its own files and nothing else, and no script or style inside the page.
constexpr const char* kPagePolicy =
    "default-src 'self'; img-src 'self' data: blob:; object-src 'none'; base-uri 'none'; form-action 'self'; "
    "frame-ancestors 'none'";
/// The printed page has its styles and its typeface inside, no script, and may be shown inside the page.
constexpr const char* kPaperPolicy =
    "default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:; base-uri 'none'; "
    "form-action 'none'; frame-ancestors 'self'";
/// A browser's own viewer of PDF is a page of its kind: only who may frame it is said.
constexpr const char* kPdfPolicy = "frame-ancestors 'self'";
constexpr const char* kDataPolicy = "default-src 'none'; frame-ancestors 'none'";

// limits of the slider for a stack: well beyond any damper, but where the solver still has an answer
constexpr double kMostSpeed = 20.0;      // [m/s]
constexpr double kMostPressure = 100e6;  // [Pa]

Response json(std::string body) {
  return {200, "application/json", std::move(body)};
}

template <typename View>
Response json_of(const Answer<View>& view) {
  return view ? json(to_json(*view)) : answer_of(view.error());
}

Response attached(Answer<Attachment> attachment) {
  if (!attachment) return answer_of(attachment.error());
  Response response{200, attachment->mime, std::move(attachment->bytes)};
  response.headers.emplace_back("Content-Disposition",
                                fmt::format("inline; filename=\"{}\"", attachment->name));
  return response;
}

/// A request on its way: what the path and the query said.
struct Call {
  Workbench& workbench;
  const Request& request;
  std::string id;    // {id} or {run} of the path
  std::string file;  // {file} of the path
  std::map<std::string, std::string> query;

  std::string asked(const char* name) const {
    const auto found = query.find(name);
    return found == query.end() ? "" : found->second;
  }
  units::System system() const {
    return asked("system") == "imperial" ? units::System::Imperial : units::System::Metric;
  }
  /// The load on a stack: a speed or a pressure, one of the two; nothing when it is no such number.
  std::optional<job::StackViewRequest> loaded(const char* path) const;
  ClientContext context() const {
    return {system(), request.result_tag, query.contains("bend") ? loaded("bend") : std::nullopt};
  }
};

std::optional<std::int64_t> whole_number(const std::string& text) {
  std::int64_t value{};
  const char* const last = text.data() + text.size();
  const auto [end, fault] = std::from_chars(text.data(), last, value);
  if (fault != std::errc() || end != last || value < 0) return std::nullopt;
  return value;
}

/// A finite number from 0.
std::optional<double> number(const std::string& text, double most) {
  double value{};
  const char* const last = text.data() + text.size();
  const auto [end, fault] = std::from_chars(text.data(), last, value);
  if (fault != std::errc() || end != last || !(value >= 0 && value <= most)) return std::nullopt;
  return value;
}

Response bad_query(const char* name) {
  return answer_of({400, "bad_request", fmt::format("\"{}\" in the query is not a possible number.", name),
                    "/api/openapi.json describes this request."});
}

// ---- one function for each way

Response get_openapi(const Call&) {
  return json(openapi_text());
}

Response get_session(const Call& call) {
  return json(to_json(call.workbench.session()));
}

Response get_schema(const Call&) {
  static const std::string text = schema_json();
  return json(text);
}

Response get_events(const Call&) {
  return {200, "text/event-stream", "", {}, kJobsTopic};
}

Response get_job(const Call& call) {
  return json_of(call.workbench.job(call.id, call.context()));
}

Response get_disk(const Call& call) {
  return json_of(call.workbench.disk(call.id));
}

Response get_result(const Call& call) {
  const auto revision = call.query.contains("revision") ? whole_number(call.asked("revision")) : 0;
  if (!revision) return bad_query("revision");
  const auto result =
      call.workbench.result(call.id, *revision, {call.system(), call.asked("parts") != "live"});
  return result ? json((*result)->json()) : answer_of(result.error());
}

std::optional<job::StackViewRequest> Call::loaded(const char* path) const {
  job::StackViewRequest load{asked(path), {}, {}, system()};
  if (query.contains("speed")) load.speed = number(asked("speed"), kMostSpeed);
  if (query.contains("pressure")) load.pressure = number(asked("pressure"), kMostPressure);
  if (load.speed.has_value() == load.pressure.has_value()) return std::nullopt;
  return load;
}

/// Why the load of the query bends no stack; nothing when it does.
std::optional<Response> bad_load(const Call& call) {
  const bool by_speed = call.query.contains("speed");
  if (by_speed == call.query.contains("pressure"))
    return answer_of({400, "bad_request", "A stack needs a pressure or a speed.", "Give one of the two."});
  if (!number(call.asked(by_speed ? "speed" : "pressure"), by_speed ? kMostSpeed : kMostPressure))
    return bad_query(by_speed ? "speed" : "pressure");
  return std::nullopt;
}

Response get_stack(const Call& call) {
  if (auto bad = bad_load(call)) return std::move(*bad);
  return json_of(call.workbench.stack(call.id, call.loaded("path").value()));
}

Response get_parts(const Call& call) {
  return json_of(call.workbench.parts(call.id));
}

Response get_packet(const Call& call) {
  const auto result = call.workbench.result(call.id, 0, {call.system(), true});
  if (!result) return answer_of(result.error());
  return attached(
      packet_file((*result)->document, call.file, call.asked("paper") == "letter", call.system()));
}

Response get_figure(const Call& call) {
  FigureRequest request{call.asked("which"), 0, call.asked("valve") == "foot",
                        call.asked("stroke") == "compression"};
  if (call.query.contains("unit")) {
    const auto unit = whole_number(call.asked("unit"));
    if (!unit) return bad_query("unit");
    request.unit = static_cast<std::size_t>(*unit);
  }
  // what the page holds has no drawings of its stacks
  const auto result = call.workbench.result(call.id, 0, {call.system(), true});
  if (!result) return answer_of(result.error());
  return attached(figure((*result)->document, request, call.system()));
}

Response get_table(const Call& call) {
  const auto result = call.workbench.result(call.id, 0, {call.system(), true});
  if (!result) return answer_of(result.error());
  const auto& csv = call.workbench.settings().csv;
  std::string text = csv ? csv((*result)->document, call.asked("which"), call.system()) : "";
  if (text.empty())
    return answer_of({404, "no_such_table", "This job has no such table.",
                      "/api/openapi.json lists the names of the tables."});
  return attached(Attachment{"text/csv; charset=utf-8", call.asked("which") + ".csv", std::move(text)});
}

Response post_job(const Call& call) {
  const auto request = new_job_request(call.request.body);
  if (!request) return answer_of(request.error());
  return json_of(call.workbench.new_job(*request, call.context()));
}

Response post_edit(const Call& call) {
  const auto request = edit_request(call.request.body);
  if (!request) return answer_of(request.error());
  const auto answer = call.workbench.edit(call.id, *request, call.context());
  if (!answer) return answer_of(answer.error());
  if (const auto* view = std::get_if<JobView>(&*answer)) return json(to_json(*view));
  const ApiFault fault{409, "conflict", "The job has changed since you began this edit.",
                       "This answer has the present state. Check it and edit again."};
  return {fault.status, "application/json",
          conflict_json(fault, std::get<Workbench::EditConflict>(*answer).present)};
}

Response post_try(const Call& call) {
  const auto edits = try_request(call.request.body);
  if (!edits) return answer_of(edits.error());
  return json_of(call.workbench.attempt(call.id, *edits, call.context()));
}

Response post_save(const Call& call) {
  const auto request = save_request(call.request.body);
  if (!request) return answer_of(request.error());
  const auto answer = call.workbench.save(call.id, *request, call.context());
  if (!answer) return answer_of(answer.error());
  if (const auto* view = std::get_if<JobView>(&*answer)) return json(to_json(*view));
  const ApiFault fault{409, "disk_changed", "Another program has changed the file. Nothing was written.",
                       "Check its text. Then load it, or save over it."};
  return {fault.status, "application/json", conflict_json(fault, std::get<DiskConflict>(*answer))};
}

Response post_bench(const Call& call) {
  const auto request = bench_request(call.request.body);
  if (!request) return answer_of(request.error());
  const auto run = call.workbench.bench(call.id, *request, call.system());
  return run ? json(run_json(*run)) : answer_of(run.error());
}

ApiFault no_such_run() {
  return {404, "no_such_run", "There is no such run, or it ended long ago.", "Start it again."};
}

Response get_run_events(const Call& call) {
  Runs& runs = call.workbench.runs();
  if (!runs.knows(call.id)) return answer_of(no_such_run());
  Response response{200, "text/event-stream", "", {}, call.id};
  response.pull = [&runs, run = call.id](std::size_t& cursor) { return runs.pull(run, cursor); };
  return response;
}

Response post_stop(const Call& call) {
  if (const auto client = client_request(call.request.body); !client) return answer_of(client.error());
  return call.workbench.runs().stop(call.id) ? json(run_json(call.id)) : answer_of(no_such_run());
}

using Change = Answer<JobView> (Workbench::*)(const std::string&, const std::string&, const ClientContext&);

template <Change change>
Response post_change(const Call& call) {
  const auto client = client_request(call.request.body);
  if (!client) return answer_of(client.error());
  return json_of((call.workbench.*change)(call.id, *client, call.context()));
}

struct Route {
  const char* method;
  const char* path;
  Response (*answer)(const Call&);
};

constexpr std::array kRoutes = {
    Route{"GET", "/api/openapi.json", get_openapi},
    Route{"GET", "/api/session", get_session},
    Route{"GET", "/api/schema", get_schema},
    Route{"GET", "/api/events", get_events},
    Route{"POST", "/api/jobs", post_job},
    Route{"GET", "/api/jobs/{id}", get_job},
    Route{"POST", "/api/jobs/{id}/edit", post_edit},
    Route{"POST", "/api/jobs/{id}/try", post_try},
    Route{"POST", "/api/jobs/{id}/undo", post_change<&Workbench::undo>},
    Route{"POST", "/api/jobs/{id}/redo", post_change<&Workbench::redo>},
    Route{"POST", "/api/jobs/{id}/save", post_save},
    Route{"POST", "/api/jobs/{id}/reload", post_change<&Workbench::reload>},
    Route{"POST", "/api/jobs/{id}/bench", post_bench},
    Route{"GET", "/api/runs/{run}/events", get_run_events},
    Route{"POST", "/api/runs/{run}/stop", post_stop},
    Route{"GET", "/api/jobs/{id}/disk", get_disk},
    Route{"GET", "/api/jobs/{id}/result", get_result},
    Route{"GET", "/api/jobs/{id}/stack", get_stack},
    Route{"GET", "/api/jobs/{id}/parts", get_parts},
    Route{"GET", "/api/jobs/{id}/packet/{file}", get_packet},
    Route{"GET", "/api/jobs/{id}/figure.svg", get_figure},
    Route{"GET", "/api/jobs/{id}/table.csv", get_table},
};

ApiFault no_such_route() {
  return {404, "no_such_route", "There is nothing at this path.", "/api/openapi.json lists all requests."};
}

/// Fills {id}, {run} and {file} of a pattern from a path; false when they do not agree.
bool agrees(std::string_view pattern, std::string_view path, Call& call) {
  const auto step = [](std::string_view& way) {
    way.remove_prefix(1);  // its slash
    const std::string_view name = way.substr(0, way.find('/'));
    way.remove_prefix(name.size());
    return name;
  };
  while (!pattern.empty() && !path.empty()) {
    const std::string_view wanted = step(pattern), given = step(path);
    if (given.empty()) return false;
    if (wanted == "{id}" || wanted == "{run}")
      call.id = given;
    else if (wanted == "{file}")
      call.file = given;
    else if (wanted != given)
      return false;
  }
  return pattern.size() == path.size();
}

bool is_json_type(std::string_view type) {
  type = type.substr(0, type.find(';'));
  while (type.ends_with(' ')) type.remove_suffix(1);
  constexpr std::string_view kJson = "application/json";
  return std::ranges::equal(type, kJson,
                            [](char a, char b) { return std::tolower(static_cast<unsigned char>(a)) == b; });
}

}  // namespace

struct Router::Impl {
  RouterSettings settings;
  Workbench& workbench;
  Login login;

  Impl(RouterSettings given, Workbench& bench)
      : settings(std::move(given)),
        workbench(bench),
        login(settings.passphrase, settings.cookie, settings.now_ms) {}

  bool is_own_host(std::string_view host) const {
    return std::ranges::find(settings.hosts, host) != settings.hosts.end();
  }
  bool is_own_origin(std::string_view origin) const {
    return origin.starts_with("http://") && is_own_host(origin.substr(7));
  }

  Response asset(const Asset& found, const Request& request) const {
    Response response{200, std::string(found.mime), ""};
    response.headers.emplace_back("ETag", std::string(found.etag));
    response.headers.emplace_back("Cache-Control", "no-cache");  // kept, but checked again: it may be newer
    if (request.if_none_match.find(found.etag) != std::string::npos) {
      response.status = 304;
      return response;
    }
    response.body.assign(found.bytes.begin(), found.bytes.end());
    return response;
  }

  /// Requests that are refused, whatever they are.
  std::optional<Response> refusal(const Request& request) const {
    if (!is_own_host(request.host)) {
      return answer_of({421, "bad_host", "This workbench does not answer for that host name.",
                        "Open the address that the workbench printed."});
    }
    if (!request.origin.empty() && !is_own_origin(request.origin)) {
      return answer_of({403, "bad_origin", "This workbench does not answer requests from other pages.",
                        "Open the address that the workbench printed."});
    }
    return std::nullopt;
  }

  std::optional<Response> refusal_to_write(const Request& request) const {
    if (!is_json_type(request.content_type)) {
      return answer_of({415, "not_json", "The body must be of the type application/json.",
                        "Send it with Content-Type: application/json."});
    }
    if (!same_secret(request.token, workbench.settings().token)) {
      return answer_of({403, "bad_token", "The header X-Shimwright-Token is not from this session.",
                        "Read /api/session again: the workbench has been restarted."});
    }
    return std::nullopt;
  }

  Response route(const Request& request, Target target) {
    const bool reads = request.method == "GET" || request.method == "HEAD";
    if (reads) {
      for (const Asset& found : settings.assets)
        if (found.path == target.path) return asset(found, request);
    }
    std::string allowed;
    for (const Route& candidate : kRoutes) {
      Call call{workbench, request, "", "", {}};
      if (!agrees(candidate.path, target.path, call)) continue;
      if (candidate.method != request.method && !(reads && std::string_view(candidate.method) == "GET")) {
        allowed = candidate.method;
        continue;
      }
      if (!reads)
        if (auto refused = refusal_to_write(request)) return std::move(*refused);
      call.query = std::move(target.query);
      if (call.query.contains("bend"))
        if (auto bad = bad_load(call)) return std::move(*bad);
      return candidate.answer(call);
    }
    if (!allowed.empty()) {
      Response response = answer_of({405, "bad_method", fmt::format("This path takes {} only.", allowed),
                                     "/api/openapi.json lists all requests."});
      response.headers.emplace_back("Allow", allowed);
      return response;
    }
    return answer_of(no_such_route());
  }

  Response answer(const Request& request) {
    if (auto refused = refusal(request)) return std::move(*refused);
    const auto target = parse_target(request.target);
    if (login.asked_for()) {
      if (auto response = login.answer(request, target ? target->path : "")) return std::move(*response);
    }
    if (!target) return answer_of(no_such_route());
    return route(request, *target);
  }
};

Router::Router(RouterSettings settings, Workbench& workbench)
    : impl_(std::make_unique<Impl>(std::move(settings), workbench)) {}
Router::~Router() = default;

Response Router::handle(const Request& request) noexcept {
  Response response;
  try {
    response = impl_->answer(request);
  } catch (const std::exception& fault) {
    response = answer_of(fault_of(fault));
  }
  const auto has = [&](const char* name) {
    return std::ranges::any_of(response.headers, [&](const auto& header) { return header.first == name; });
  };
  const auto add = [&](const char* name, const char* value) {
    if (!has(name)) response.headers.emplace_back(name, value);
  };
  const char* policy = kDataPolicy;
  if (response.type == "application/pdf")
    policy = kPdfPolicy;
  else if (has("Content-Disposition"))
    policy = kPaperPolicy;
  else if (response.type.starts_with("text/html"))
    policy = kPagePolicy;
  add("Content-Security-Policy", policy);
  add("X-Content-Type-Options", "nosniff");
  add("Referrer-Policy", "no-referrer");
  add("Cross-Origin-Resource-Policy", "same-origin");
  add("Cache-Control", "no-store");
  return response;
}

std::vector<Way> Router::ways() {
  std::vector<Way> ways = {{"GET", "/"}};
  for (const Route& route : kRoutes) ways.push_back({route.method, route.path});
  return ways;
}

}  // namespace shimwright::server
