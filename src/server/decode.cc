#include "server/decode.h"

#include <fmt/core.h>

#include <algorithm>
#include <string>

#include "document/document_walk.h"
#include "server/describe_list.h"
#include "server/requests.h"

namespace shimwright::server {
namespace {

constexpr std::size_t kMostEdits = 200;  // of one request
constexpr std::int64_t kMostClicks = 1000;
constexpr std::int64_t kMostWhole = 1LL << 50;  // of any whole number
constexpr double kMostNumber = 1e9;
constexpr int kDeepestJson = 8;              // of its JSON: ours go no deeper than 4
constexpr std::size_t kLongestClient = 200;  // of a client

ApiFault bad(const std::string& what) {
  return {400, "bad_request", what, "/api/openapi.json describes this request."};
}

ApiFault fault_of(const document::DocumentFault& fault) {
  if (fault.no_json) return {400, "not_json", "The body is not JSON.", "Send a JSON object."};
  if (fault.path.empty()) return bad("The body: " + fault.what);
  return bad(fmt::format("\"{}\": {}.", fault.path, fault.what));
}

/// The body as described, or why it is not; with the checks that every request has.
template <typename Body>
Answer<Body> body_of(std::string_view text) {
  Body body;
  if (const auto fault = document::read_json(text, kDeepestJson, document::describe<Body>(), &body))
    return failure(fault_of(*fault));
  if constexpr (requires { body.client; }) {
    if (body.client.size() > kLongestClient) return failure(bad("\"client\" is longer than 200 bytes."));
  }
  return body;
}

bool is_whole_from_zero(std::int64_t number) {
  return number >= 0 && number <= kMostWhole;
}

Edit edit_of(const EditForm& form) {
  const std::string typed = form.typed.value_or("");
  if (form.set) return {Edit::Kind::Set, *form.set, typed};
  if (form.remove) return {Edit::Kind::Remove, *form.remove};
  if (form.insert) return {Edit::Kind::Insert, *form.insert, typed};
  if (form.move) return {Edit::Kind::Move, *form.move, {}, static_cast<std::size_t>(form.to.value())};
  if (form.drop) return {Edit::Kind::Drop, *form.drop};
  return {Edit::Kind::Text, {}, form.text.value_or("")};
}

Answer<std::vector<Edit>> edits_of(const std::vector<EditForm>& forms) {
  if (forms.size() > kMostEdits)
    return failure(bad(fmt::format("More than {} edits in one request.", kMostEdits)));
  std::vector<Edit> edits;
  for (const EditForm& form : forms) {
    if (form.to && !is_whole_from_zero(*form.to))
      return failure(bad("\"to\" of an edit is not a whole number, 0 or more."));
    edits.push_back(edit_of(form));
  }
  return edits;
}

/// A number that was left out, or one from 0.
bool is_left_out_or_from_zero(const std::optional<double>& number) {
  return !number || (*number >= 0 && *number < kMostNumber);
}

}  // namespace

Answer<EditRequest> edit_request(std::string_view text) {
  auto body = body_of<EditBody>(text);
  if (!body) return failure(std::move(body.error()));
  if (!is_whole_from_zero(body->base)) return failure(bad("\"base\" is not a whole number, 0 or more."));
  auto edits = edits_of(body->edits);
  if (!edits) return failure(std::move(edits.error()));
  return EditRequest{body->base, body->client, body->note.value_or(""), std::move(*edits),
                     body->again.value_or(false)};
}

Answer<std::vector<Edit>> try_request(std::string_view text) {
  const auto body = body_of<TryBody>(text);
  if (!body) return failure(body.error());
  return edits_of(body->edits);
}

Answer<std::string> client_request(std::string_view text) {
  auto body = body_of<ClientBody>(text);
  if (!body) return failure(std::move(body.error()));
  return std::move(body->client);
}

Answer<SaveRequest> save_request(std::string_view text) {
  auto body = body_of<SaveBody>(text);
  if (!body) return failure(std::move(body.error()));
  return SaveRequest{body->client, body->expect_disk, body->over.value_or(false)};
}

Answer<NewJobRequest> new_job_request(std::string_view text) {
  return body_of<NewJobRequest>(text);
}

Answer<BenchRequest> bench_request(std::string_view text) {
  auto body = body_of<BenchBody>(text);
  if (!body) return failure(std::move(body.error()));
  if (!is_left_out_or_from_zero(body->air_in_rod_chamber))
    return failure(bad("\"air_in_rod_chamber\" is not a number, 0 or more."));
  if (!is_left_out_or_from_zero(body->oil_temperature))
    return failure(bad("\"oil_temperature\" is not a number, 0 or more."));
  BenchRequest request{body->client, body->air_in_rod_chamber, body->oil_temperature, {}};
  if (!body->clicks) return request;
  if (body->clicks->size() > kMostEdits) return failure(bad("\"clicks\" has too many entries."));
  for (const ClickForm& form : *body->clicks) {
    if (!is_whole_from_zero(form.clicks)) return failure(bad("\"clicks\" is not a whole number, 0 or more."));
    request.clicks.push_back({form.adjuster, static_cast<int>(std::min(form.clicks, kMostClicks))});
  }
  return request;
}

}  // namespace shimwright::server
