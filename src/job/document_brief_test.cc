#include "document/document_brief.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <nlohmann/json.hpp>

#include "document/document_json.h"
#include "file/load.h"
#include "job/run.h"

namespace shimwright::job {
namespace {

using Json = nlohmann::json;

/// Where two documents differ by more than the digits that are left out; "" nowhere.
std::string difference(const Json& brief, const Json& whole, const std::string& path) {
  if (brief.is_number_float() || whole.is_number_float()) {
    const double a = brief.get<double>(), b = whole.get<double>();
    // half a unit in the last of 24 bits for the nearest float, and as much again for its shortest text
    return std::abs(a - b) <= 1.2e-7 * std::abs(b) + 1e-38 ? "" : path;
  }
  if (brief.type() != whole.type() || brief.size() != whole.size()) return path;
  if (!whole.is_structured()) return brief == whole ? "" : path;
  for (auto at = whole.begin(); at != whole.end(); ++at) {
    const std::string step = whole.is_object() ? at.key() : std::to_string(at - whole.begin());
    if (whole.is_object() && !brief.contains(step)) return path + "." + step;
    const Json& other = whole.is_object() ? brief[step] : brief[static_cast<std::size_t>(at - whole.begin())];
    if (const std::string found = difference(other, *at, path + "." + step); !found.empty()) return found;
  }
  return "";
}

TEST(DocumentBrief, SaysTheSameAsTheWholeJsonToSevenDigits) {
  for (const char* name : {"enduro-fork/enduro-fork", "enduro-shock/enduro-shock", "stack-only/two-stage"}) {
    file::DiskFiles disk;
    const file::LoadResult loaded =
        file::load_job(disk, std::string(SW_SOURCE_DIR) + "/examples/" + name + ".job.toml");
    const auto document = run_job(loaded.job, {});
    ASSERT_TRUE(document.has_value());
    const std::string brief = document::to_brief_json(*document), whole = document::to_json(*document, -1);
    EXPECT_EQ(difference(Json::parse(brief), Json::parse(whole), ""), "") << name;
    EXPECT_LT(brief.size(), whole.size());
  }
}

TEST(DocumentBrief, KeepsWordsSignsAndNumbersThatAreNone) {
  document::ResultDocument document;
  document.header.title = "a \"title\" with µ,\na new line and a stray \xff byte";
  document.conditions.ambient_pressure = std::numeric_limits<double>::quiet_NaN();
  document.rider.emplace().mass = document::Value{1e300};
  EXPECT_EQ(difference(Json::parse(document::to_brief_json(document)),
                       Json::parse(document::to_json(document)), ""),
            "");
}

}  // namespace
}  // namespace shimwright::job
