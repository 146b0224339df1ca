#pragma once
// What the tests of this module share: a folder with jobs, and a workbench on it.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <memory>
#include <sstream>
#include <string>

#include "base/test_folder.h"
#include "server/router.h"
#include "server/workbench.h"
#include "store/journal.h"

namespace shimwright::server {

inline constexpr auto kMetric = units::System::Metric;
inline constexpr const char* kHost = "127.0.0.1:8417";

inline std::string header(const Response& response, const std::string& name) {
  for (const auto& [key, value] : response.headers)
    if (key == name) return value;
  return "";
}

/// A stack alone: computed in a few milliseconds.
inline constexpr const char* kStackJob = R"(# a stack of mine
format = 1
title  = "Stack"   # keep me

[stack]
seat      = "18 mm"
clamp     = "9 mm"
discs     = [
  "3 x 19 x 0.15 mm",   # face
  "1 x 14 x 0.20 mm",
]
pressures = "0.2 MPa, 0.5 MPa"
)";

inline std::string text_of_file(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

inline void write_text(const std::filesystem::path& path, const std::string& text) {
  std::ofstream(path, std::ios::binary) << text;
}

/// A folder with one job, that goes with the test.
struct Bench {
  TestFolder own;
  std::filesystem::path folder = own.path;
  std::int64_t now_ms = 1000;
  std::unique_ptr<Workbench> workbench;
  std::string id;

  explicit Bench(const std::string& text = kStackJob) {
    std::filesystem::create_directories(folder / "shop");
    write_text(file(), text);
    start();
  }
  std::filesystem::path file() const { return folder / "shop" / "stack.job.toml"; }

  /// Begins, or begins again as after a crash.
  void start() {
    workbench.reset();
    WorkbenchSettings settings;
    settings.folder = (folder / "shop").string();
    settings.open_job = file().string();
    settings.program_version = "0.0.0";
    settings.token = "0123456789abcdef";
    settings.now_ms = [this] { return now_ms++; };
    settings.csv = [](const document::ResultDocument& document, const std::string& which, units::System) {
      return which == "stacks" ? "title\r\n" + document.header.title + "\r\n" : std::string();
    };
    workbench = std::make_unique<Workbench>(std::move(settings),
                                            store::Journal::open((folder / "journal.db").string()));
    id = workbench->session().open;
  }

  JobView view() { return *workbench->job(id, units::System::Metric); }

  JobView edit(const std::vector<Edit>& edits, const std::string& note = "") {
    auto answer = workbench->edit(id, {view().track.position, "tab-1", note, edits}, units::System::Metric);
    EXPECT_TRUE(answer.has_value()) << (answer ? "" : answer.error().message);
    return std::get<JobView>(*answer);
  }
};

/// What a page of this workbench sends: a write is JSON with the token.
inline Request request_to(const std::string& host, const std::string& method, const std::string& target,
                          const std::string& body) {
  Request request;
  request.method = method;
  request.target = target;
  request.host = host;
  request.body = body;
  if (method == "POST") {
    request.content_type = "application/json";
    request.token = "0123456789abcdef";
  }
  return request;
}

inline Edit set(const std::string& path, const std::string& typed) {
  return {Edit::Kind::Set, path, typed, 0};
}
inline Edit insert(const std::string& path, const std::string& typed) {
  return {Edit::Kind::Insert, path, typed, 0};
}
inline Edit take_out(const std::string& path) {
  return {Edit::Kind::Remove, path, "", 0};
}

inline std::string typed_at(const JobView& view, const std::string& path) {
  for (const file::TypedValue& value : file::typed_values(view.text))
    if (value.path == path) return value.typed;
  return "";
}

}  // namespace shimwright::server
