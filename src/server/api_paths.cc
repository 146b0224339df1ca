#include "server/api_paths.h"

#include "server/describe_list.h"

namespace shimwright::server {
namespace {

using document::describe;

const Parameter kId{.name = "id",
                    .in = "path",
                    .required = true,
                    .doc = "16 hex digits, the same for a path for ever.",
                    .pattern = "^[0-9a-f]{16}$",
                    .shared = "Id"};
const Parameter kRun{
    .name = "run", .in = "path", .required = true, .doc = "As RunBegun gives it.", .shared = "Run"};
const Parameter kSystem{.name = "system",
                        .in = "query",
                        .doc = "Units of the numbers inside sentences; metric when left out.",
                        .words = {"metric", "imperial"},
                        .shared = "System"};
const Parameter kHolds{
    .name = "X-Shimwright-Result",
    .in = "header",
    .doc =
        "The result_tag of a result that the client has. Where the server still has it too, "
        "the answer brings result_patch in place of result.",
    .shared = "Holds"};
const Parameter kBend{
    .name = "bend",
    .in = "query",
    .doc =
        "The direction of a stack (unit[0].piston_valve.rebound, or stack) whose bent shape "
        "the answer brings along as stack_view, at the speed or the pressure given.",
    .shared = "Bend"};
const Parameter kBendSpeed{.name = "speed",
                           .in = "query",
                           .doc = "With bend: speed of the shaft [m/s].",
                           .type = "number",
                           .shared = "BendSpeed"};
const Parameter kBendPressure{
    .name = "pressure",
    .in = "query",
    .doc = "With bend, instead of the speed: pressure drop over the face disc [Pa].",
    .type = "number",
    .shared = "BendPressure"};

const Parameter kRevision{.name = "revision",
                          .in = "query",
                          .doc = "An older one, for a ghost; the last good one when left out.",
                          .type = "integer"};
const Parameter kParts{
    .name = "parts",
    .in = "query",
    .doc =
        "live leaves out plan, settings, pick_list, oil_swaps and the details of stacks "
        "(shapes, what each disc that carries does), and gives numbers to seven digits; all "
        "when left out.",
    .words = {"live", "all"}};
const Parameter kDirection{.name = "path",
                           .in = "query",
                           .required = true,
                           .doc = "Of the direction: unit[0].piston_valve.rebound, or stack."};
const Parameter kPressure{
    .name = "pressure", .in = "query", .doc = "Pressure drop over the face disc [Pa].", .type = "number"};
const Parameter kSpeed{.name = "speed",
                       .in = "query",
                       .doc = "Speed of the shaft [m/s]; instead of the pressure.",
                       .type = "number"};
const Parameter kFile{.name = "file",
                      .in = "path",
                      .required = true,
                      .words = {"build-sheet.pdf", "settings-guide.pdf", "packet.html"}};
const Parameter kPaper{.name = "paper", .in = "query", .words = {"a4", "letter"}};
const Parameter kFigure{.name = "which",
                        .in = "query",
                        .required = true,
                        .words = {"force", "pressures", "springs", "lift", "stack", "post"}};
const Parameter kUnit{
    .name = "unit", .in = "query", .doc = "Index of the unit, 0 when left out.", .type = "integer"};
const Parameter kValve{.name = "valve",
                       .in = "query",
                       .doc = "Of a stack or post; the piston valve when left out.",
                       .words = {"piston", "foot"}};
const Parameter kStroke{.name = "stroke",
                        .in = "query",
                        .doc = "Of pressures and stacks; rebound when left out.",
                        .words = {"compression", "rebound"}};
const Parameter kTable{.name = "which",
                       .in = "query",
                       .required = true,
                       .words = {"figures", "force", "springs", "stacks", "oils", "assembly"}};

const std::vector<std::string_view> kEvents = {"text/event-stream"};

/// A job with its state as the answer.
AnswerForm state(std::string_view doc) {
  return {.status = "200", .doc = doc, .body = &describe<JobState>()};
}

std::vector<ApiPath> whole_workbench() {
  return {
      {.path = "/",
       .method = "get",
       .summary = "The page",
       .answers = {{.status = "200",
                    .doc = "HTML; everything it needs lies below /assets/",
                    .media = {"text/html"}}},
       .may_fail = false},
      {.path = "/api/openapi.json",
       .method = "get",
       .summary = "This description",
       .answers = {{.status = "200", .doc = "OpenAPI 3.1"}},
       .may_fail = false},
      {.path = "/api/session",
       .method = "get",
       .summary = "Who serves, and which jobs lie in the folder",
       .answers = {{.status = "200", .doc = "Session", .body = &describe<Session>()}},
       .may_fail = false},
      {.path = "/api/schema",
       .method = "get",
       .summary = "Every key of a job file: its unit, words, bounds, what it takes",
       .answers = {{.status = "200",
                    .doc = "Keys in the order of the schema",
                    .body = &describe<SchemaKey>(),
                    .is_list = true}},
       .may_fail = false},
      {.path = "/api/jobs",
       .method = "post",
       .summary = "A new job file in the folder: a copy, or a plain start",
       .parameters = {&kSystem, &kHolds},
       .request = &describe<NewJobRequest>(),
       .answers = {state("The new job")}},
  };
}

std::vector<ApiPath> one_job() {
  const std::vector<const Parameter*> shown = {&kId, &kSystem, &kHolds, &kBend, &kBendSpeed, &kBendPressure};
  return {
      {.path = "/api/jobs/{id}",
       .method = "get",
       .summary = "One job: its text, its values, what is wrong in it, and what it gives",
       .parameters = shown,
       .answers = {state("The job")}},
      {.path = "/api/jobs/{id}/edit",
       .method = "post",
       .summary = "Change values; what cannot be taken is kept as a draft, the rest goes on",
       .parameters = shown,
       .request = &describe<EditBody>(),
       .answers = {state("The job with the change; it is on the disk before this answer goes out"),
                   {.status = "409",
                    .doc = "`base` is not the present revision; nothing was changed",
                    .body = &describe<ConflictAnswer>()}}},
      {.path = "/api/jobs/{id}/try",
       .method = "post",
       .summary = "As edit, but nothing is kept: while a finger drags",
       .parameters = shown,
       .request = &describe<TryBody>(),
       .answers = {{.status = "200", .doc = "What the job would give", .body = &describe<TrialAnswer>()}}},
      {.path = "/api/jobs/{id}/undo",
       .method = "post",
       .summary = "One step back; without end, over restarts too",
       .parameters = shown,
       .request = &describe<ClientBody>(),
       .answers = {state("The job as it was; unchanged when there is no step back")}},
      {.path = "/api/jobs/{id}/redo",
       .method = "post",
       .summary = "One step forward again, along the newest branch",
       .parameters = shown,
       .request = &describe<ClientBody>(),
       .answers = {state("The job; unchanged when there is no step forward")}},
      {.path = "/api/jobs/{id}/save",
       .method = "post",
       .summary = "Write the text to its file, unless that changed underneath",
       .parameters = {&kId, &kSystem, &kHolds},
       .request = &describe<SaveBody>(),
       .answers = {state("Saved"),
                   {.status = "409",
                    .doc = "The file is not what it was; nothing was written",
                    .body = &describe<DiskConflictAnswer>()}}},
      {.path = "/api/jobs/{id}/reload",
       .method = "post",
       .summary = "Take the text on the disk as a new revision; undo brings the own text back",
       .parameters = {&kId, &kSystem, &kHolds},
       .request = &describe<ClientBody>(),
       .answers = {state("The job as the disk has it")}},
      {.path = "/api/jobs/{id}/disk",
       .method = "get",
       .summary = "What the job's file holds now, to be read beside the text of the job",
       .parameters = {&kId},
       .answers = {{.status = "200", .doc = "The file", .body = &describe<DiskText>()}}},
  };
}

std::vector<ApiPath> parts_of_a_job() {
  return {
      {.path = "/api/jobs/{id}/result",
       .method = "get",
       .summary = "The result document, as `shimwright check --json` prints it",
       .parameters = {&kId, &kSystem, &kRevision, &kParts},
       .answers = {{.status = "200", .doc = "The document", .body = &describe<document::ResultDocument>()},
                   {.status = "422",
                    .doc = "That revision has a fault; nothing was computed",
                    .body = &describe<FaultyAnswer>()}}},
      {.path = "/api/jobs/{id}/stack",
       .method = "get",
       .summary = "One stack bent by a pressure, or by the pressure at a shaft speed",
       .parameters = {&kId, &kSystem, &kDirection, &kPressure, &kSpeed},
       .answers = {{.status = "200", .doc = "For drawing", .body = &describe<job::StackView>()}}},
      {.path = "/api/jobs/{id}/parts",
       .method = "get",
       .summary = "What lies in the drawer: all parts of the job's parts files",
       .parameters = {&kId},
       .answers = {{.status = "200", .doc = "By kind, in file order", .body = &describe<Drawer>()}}},
      {.path = "/api/jobs/{id}/packet/{file}",
       .method = "get",
       .summary = "A file of the packet, of the last good revision",
       .parameters = {&kId, &kSystem, &kFile, &kPaper},
       .answers = {{.status = "200", .doc = "The file", .media = {"application/pdf", "text/html"}}}},
      {.path = "/api/jobs/{id}/figure.svg",
       .method = "get",
       .summary = "A figure of the packet, of the last good revision",
       .parameters = {&kId, &kSystem, &kFigure, &kUnit, &kValve, &kStroke},
       .answers = {{.status = "200", .doc = "SVG", .media = {"image/svg+xml"}}}},
      {.path = "/api/jobs/{id}/table.csv",
       .method = "get",
       .summary = "The tables of a verb as CSV, of the last good revision",
       .parameters = {&kId, &kSystem, &kTable},
       .answers = {{.status = "200", .doc = "CSV", .media = {"text/csv"}}}},
  };
}

std::vector<ApiPath> runs_and_events() {
  return {
      {.path = "/api/jobs/{id}/bench",
       .method = "post",
       .summary =
           "Put the last good revision on the bench: long work, followed by its events; a newer one of "
           "the same job stops it",
       .parameters = {&kId, &kSystem},
       .request = &describe<BenchBody>(),
       .answers = {{.status = "200", .doc = "Begun", .body = &describe<RunBegun>()}}},
      {.path = "/api/runs/{run}/events",
       .method = "get",
       .summary =
           "All events of a run, from its first on: `progress` with a RunProgress, then one of `result` "
           "or `stopped` with a BenchDocument, or `failed` with a Faulty; then the stream ends",
       .parameters = {&kRun},
       .answers = {{.status = "200",
                    .doc = "Server-sent events",
                    .media = kEvents,
                    .body = &describe<RunProgress>()}}},
      {.path = "/api/runs/{run}/stop",
       .method = "post",
       .summary = "Stop a run; what is finished comes with its `stopped` event",
       .parameters = {&kRun},
       .request = &describe<ClientBody>(),
       .answers = {{.status = "200", .doc = "It will stop", .body = &describe<RunBegun>()}}},
      {.path = "/api/events",
       .method = "get",
       .summary = "What happens to the jobs, as server-sent events: each data line is a JobEvent; a comment "
                  "every 15 s",
       .answers = {{.status = "200",
                    .doc = "A stream without end",
                    .media = kEvents,
                    .body = &describe<JobEvent>()}},
       .may_fail = false},
  };
}

}  // namespace

std::span<const ApiPath> api_paths() {
  static const std::vector<ApiPath> all = [] {
    std::vector<ApiPath> paths;
    for (auto* part : {whole_workbench, one_job, parts_of_a_job, runs_and_events})
      for (ApiPath& path : part()) paths.push_back(std::move(path));
    return paths;
  }();
  return all;
}

std::span<const Parameter* const> shared_parameters() {
  static const std::vector<const Parameter*> all = {&kId,   &kRun,       &kSystem,      &kHolds,
                                                    &kBend, &kBendSpeed, &kBendPressure};
  return all;
}

}  // namespace shimwright::server
