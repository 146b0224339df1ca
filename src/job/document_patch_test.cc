#include "document/document_patch.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cctype>
#include <limits>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "document/document_brief.h"
#include "file/edit.h"
#include "job/test_jobs.h"

namespace shimwright::job {
namespace {

using Json = nlohmann::json;

/// What the operations make of `from`, by a JSON library's own hand; the text of `to` when they were longer.
std::string patched(const document::ResultDocument& from, const document::ResultDocument& to) {
  const auto operations = document::brief_patch(from, to);
  if (!operations) return Json::parse(document::to_brief_json(to)).dump();
  return Json::parse(document::to_brief_json(from)).patch(Json::parse(*operations)).dump();
}

std::string plain(const document::ResultDocument& document) {
  return Json::parse(document::to_brief_json(document)).dump();
}

/// A job of the examples with its parts, in which values are changed.
struct Example {
  std::string name;
  std::string text;
  std::vector<std::string> numbers;  // paths of values that begin with a number

  explicit Example(const std::string& which)
      : name(std::string(SW_SOURCE_DIR) + "/examples/" + which + ".job.toml") {
    file::DiskFiles disk;
    text = *disk.read(name);
    for (const file::TypedValue& value : file::typed_values(text))
      if (!value.typed.empty() && std::isdigit(static_cast<unsigned char>(value.typed[0])))
        numbers.push_back(value.path);
  }

  std::optional<document::ResultDocument> run(const std::string& changed_text) const {
    file::JobFiles files(name, changed_text);
    const file::LoadResult loaded = file::load_job(files, name);
    if (!loaded.ok()) return std::nullopt;
    RunOptions options;
    options.sections = Sections::live();
    auto document = run_job(loaded.job, options);
    return document ? std::optional(std::move(*document)) : std::nullopt;
  }
};

const std::vector<Example>& examples() {
  static const std::vector<Example> all = [] {
    std::vector<Example> list;
    for (const char* which :
         {"enduro-fork/enduro-fork", "enduro-shock/enduro-shock", "trail-fork/trail-fork",
          "stack-only/two-stage", "stack-only/imperial", "stack-only/tapered", "stack-only/preloaded-ring"})
      list.emplace_back(which);
    return list;
  }();
  return all;
}

/// The first digit that is none of a 0 becomes another: a change that most values bear.
std::string turned(std::string typed, int step) {
  for (char& c : typed) {
    if (c < '1' || c > '9') continue;
    c = static_cast<char>('1' + (c - '1' + step) % 9);
    break;
  }
  return typed;
}

/// The text with one number of it turned, or with one list's element taken out.
std::string edited(const Example& example, const std::string& text) {
  const std::string path = *rc::gen::elementOf(example.numbers);
  if (*rc::gen::weightedElement<bool>({{1, true}, {4, false}}) && path.ends_with(']'))
    return file::remove_item(text, path).value_or(text);
  for (const file::TypedValue& value : file::typed_values(text))
    if (value.path == path)
      return file::set_key(text, path, turned(value.typed, *rc::gen::inRange(1, 9))).value_or(text);
  return text;
}

RC_GTEST_PROP(DocumentPatch, MakesOneResultOfAnother, ()) {
  const Example& example = examples()[*rc::gen::inRange<std::size_t>(0, examples().size())];
  const std::string before = edited(example, example.text);
  const std::string after = edited(example, *rc::gen::arbitrary<bool>() ? before : example.text);
  const auto from = example.run(before), to = example.run(after);
  RC_PRE(from && to);
  RC_ASSERT(patched(*from, *to) == plain(*to));
  RC_ASSERT(patched(*to, *from) == plain(*from));
}

TEST(DocumentPatch, MakesEveryExampleOfEveryOther) {
  std::vector<document::ResultDocument> documents;
  for (const Example& example : examples()) documents.push_back(example.run(example.text).value());
  for (const document::ResultDocument& from : documents)
    for (const document::ResultDocument& to : documents) EXPECT_EQ(patched(from, to), plain(to));
}

TEST(DocumentPatch, KnowsNumbersThatAreNoneAndNumbersBeyondAFloat) {
  document::ResultDocument from, to;
  const double none = std::numeric_limits<double>::quiet_NaN();
  from.conditions.ambient_pressure = none;
  EXPECT_EQ(patched(from, to), plain(to));
  EXPECT_EQ(patched(to, from), plain(from));
  to.conditions.ambient_pressure = std::numeric_limits<double>::infinity();
  EXPECT_EQ(document::brief_patch(from, to), "[]") << "both are written as null";
  from.conditions.ambient_pressure = 1e300;
  to.conditions.ambient_pressure = 1.0000000001e300;
  EXPECT_EQ(patched(from, to), plain(to));
  from.conditions.ambient_pressure = 0.0;
  to.conditions.ambient_pressure = -0.0;
  EXPECT_EQ(patched(from, to), plain(to));
}

TEST(DocumentPatch, SaysNothingOfWhatSevenDigitsDoNotShow) {
  document::ResultDocument from, to;
  from.conditions.ambient_pressure = 101325.0;
  to.conditions.ambient_pressure = 101325.0 * (1.0 + 1e-12);
  EXPECT_EQ(document::brief_patch(from, to), "[]");
}

TEST(DocumentPatch, AddsAndTakesAwayWhatMayBeAbsent) {
  document::ResultDocument from, to;
  to.rider.emplace().name = "a \"name\" with µ and a stray \xff byte";
  EXPECT_EQ(patched(from, to), plain(to));
  EXPECT_EQ(patched(to, from), plain(from));
  EXPECT_THAT(*document::brief_patch(to, from), testing::HasSubstr(R"({"op":"remove","path":"/rider"})"));
}

TEST(DocumentPatch, OfOneShimIsAThirdOfTheDocument) {
  const Example& fork = examples()[0];
  const auto from = fork.run(fork.text);
  const auto to =
      fork.run(*file::set_key(fork.text, "unit[0].piston_valve.rebound.stack[0]", "8 x 20 x 0.11 mm"));
  ASSERT_TRUE(from && to);
  const auto patch = document::brief_patch(*from, *to);
  ASSERT_TRUE(patch.has_value());
  EXPECT_LT(patch->size(), 100'000u);
  EXPECT_LT(3 * patch->size(), document::to_brief_json(*to).size());
}

TEST(DocumentPatch, IsEmptyWhereNothingChanged) {
  const auto document = examples()[0].run(examples()[0].text);
  ASSERT_TRUE(document.has_value());
  EXPECT_EQ(document::brief_patch(*document, *document), "[]");
}

}  // namespace
}  // namespace shimwright::job
