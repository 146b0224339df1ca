// What is printed for a technician with oily gloves, a rider and a home builder, for every whole job at hand.
#include <gtest/gtest.h>

#include <map>
#include <regex>
#include <set>

#include "job/job_texts_test.h"
#include "report/drawings.h"
#include "report/packet.h"
#include "report/sheets.h"

namespace shimwright {
namespace {

using report::Article;

/// All words of an article, one text for each place where words stand.
std::vector<std::string> words_of(const Article& article) {
  std::vector<std::string> all;
  const auto figure = [&](const report::Figure& one) {
    all.push_back(one.caption);
    for (const report::Item& item : one.scene.items)
      if (const auto* label = std::get_if<report::Label>(&item)) all.push_back(label->text);
  };
  for (const report::Element& element : article.elements) {
    if (const auto* one = std::get_if<report::Title>(&element))
      all.insert(all.end(), {one->text, one->below});
    if (const auto* one = std::get_if<report::Heading>(&element)) all.push_back(one->text);
    if (const auto* one = std::get_if<report::Paragraph>(&element)) all.push_back(one->text);
    if (const auto* one = std::get_if<report::Caution>(&element)) all.push_back(one->text);
    if (const auto* one = std::get_if<report::Figure>(&element)) figure(*one);
    if (const auto* one = std::get_if<report::FigureRow>(&element))
      for (const report::Figure& each : one->figures) figure(each);
    if (const auto* one = std::get_if<report::BigNumbers>(&element))
      for (const report::BigNumber& number : one->numbers) all.insert(all.end(), {number.name, number.value});
    if (const auto* one = std::get_if<report::Step>(&element)) {
      all.insert(all.end(), {one->text, one->why, one->big});
      if (one->box) all.insert(all.end(), {one->box->what, one->box->expected, one->box->range});
      if (one->picture) figure(*one->picture);
    }
    if (const auto* one = std::get_if<report::Rows>(&element)) {
      all.insert(all.end(), one->heads.begin(), one->heads.end());
      for (const auto& row : one->rows) all.insert(all.end(), row.begin(), row.end());
    }
  }
  return all;
}

/// What no page may say: each with the reason.
void check_words(const std::string& words) {
  SCOPED_TRACE(words);
  static const std::regex key("[a-z]+_[a-z0-9_]+");                     // a key of the file
  static const std::regex code("\\b[EF][0-9]{3,4}\\b");                 // a code of the program
  static const std::regex no_name("[0-9] (x|\xC3\x97) *(,|$)");         // "1 x , 2 x"
  static const std::regex nothing("\\(\\)|: *,|, *,|\\(, |^, |: \\.");  // an empty name between signs
  static const std::regex doubled("\\b([A-Za-z][A-Za-z ]{4,}) \\(\\1\\b");
  EXPECT_EQ(words.find('`'), std::string::npos);
  EXPECT_FALSE(std::regex_search(words, key));
  EXPECT_FALSE(std::regex_search(words, code));
  EXPECT_FALSE(std::regex_search(words, no_name));
  EXPECT_FALSE(std::regex_search(words, nothing));
  EXPECT_FALSE(std::regex_search(words, doubled));
  EXPECT_EQ(words.find("nan"), words.find("nanomet"));
}

/// Each piece on each post is named once in its drawing, and each picture stands once on the sheet.
void check_drawings(const document::UnitResult& unit, const Article& sheet) {
  std::multiset<std::string> titles;
  for (const report::Element& element : sheet.elements) {
    if (const auto* step = std::get_if<report::Step>(&element); step != nullptr && step->picture)
      titles.insert(step->picture->scene.title);
    if (const auto* figure = std::get_if<report::Figure>(&element)) titles.insert(figure->scene.title);
    if (const auto* row = std::get_if<report::FigureRow>(&element))
      for (const report::Figure& figure : row->figures) titles.insert(figure.scene.title);
  }
  for (const document::ValveResult& valve : unit.valves) {
    for (const document::DirectionResult& side : valve.directions)
      if (side.stack && !side.stack->geometry.discs.empty()) {
        EXPECT_EQ(titles.count(side.stack->name), 1u) << side.stack->name;
      }
    if (!valve.post) continue;
    EXPECT_EQ(titles.count(valve.post->name), 1u) << valve.post->name;
    const report::Scene scene = report::post_scene(*valve.post, 480.0, units::System::Metric);
    std::size_t boxes = 0;
    for (const report::Item& item : scene.items)
      if (const auto* label = std::get_if<report::Label>(&item)) {
        for (const document::LedgerLine& line : valve.post->ledger)
          boxes += label->text.find(line.name) != std::string::npos;
      }
    EXPECT_GE(boxes, valve.post->ledger.size());
  }
}

/// A torque that stands large is the same wherever it stands.
void check_torques(const Article& sheet) {
  std::set<std::string> at_the_head, at_the_step;
  for (const report::Element& element : sheet.elements) {
    if (const auto* big = std::get_if<report::BigNumbers>(&element))
      for (const report::BigNumber& number : big->numbers)
        if (number.name.find("torque") != std::string::npos &&
            number.name.find("REFUSED") == std::string::npos)
          at_the_head.insert(number.value);
    if (const auto* step = std::get_if<report::Step>(&element); step != nullptr && !step->big.empty())
      at_the_step.insert(step->big);
  }
  EXPECT_EQ(at_the_head, at_the_step);
}

class Sheets : public ::testing::TestWithParam<std::string> {};

TEST_P(Sheets, SayNothingThatHandsCannotUse) {
  for (const units::System system : {units::System::Metric, units::System::Imperial}) {
    job::RunOptions options;
    options.system = system;
    const job::testing_jobs::RunJob run = job::testing_jobs::run_path(GetParam(), options);
    const Article sheet = report::build_sheet(run.document, system, 500.0);
    const Article guide = report::settings_guide(run.document, system, 500.0);
    for (const Article* article : {&sheet, &guide})
      for (const std::string& words : words_of(*article)) check_words(words);
    for (const document::UnitResult& unit : run.document.units) check_drawings(unit, sheet);
    check_torques(sheet);
  }
}

std::string name_of(const ::testing::TestParamInfo<std::string>& info) {
  std::string name =
      std::filesystem::path(info.param).stem().stem().string() + "_" + std::to_string(info.index);
  for (char& c : name)
    if (!std::isalnum(static_cast<unsigned char>(c))) c = '_';
  return name;
}

INSTANTIATE_TEST_SUITE_P(Jobs, Sheets, ::testing::ValuesIn(job::testing_jobs::whole_jobs()), name_of);

// a shim that carries nothing has no margin, and that is no failure of the calculation
TEST(SheetsOfAnIdleShim, AreNotMarkedAsNotCalculated) {
  const std::string text = R"(
[stack]
seat = "17 mm"
clamp = "9 mm"
material = { yield_strength = "1500 MPa", strength = "1800 MPa", fatigue_strength = "650 MPa" }
discs = ["3 x 19 x 0.15 mm", "1 x 16 x 0.15 mm", "1 x 12 x 0.20 mm"]
back_spring = { force = "60 N", rate = "30 N/mm", diameter = "14 mm" }
)";
  file::MemoryFiles files({{"idle.job.toml", "format = 1\n" + text}});
  const file::LoadResult loaded = file::load_job(files, "idle.job.toml");
  ASSERT_TRUE(loaded.ok());
  const auto document = job::run_job(loaded.job, {});
  ASSERT_TRUE(document.has_value());
  // the last disc begins to carry between 0.2 and 0.5 MPa
  EXPECT_FALSE(document->stack->points.front().discs.back().fatigue_margin);
  EXPECT_TRUE(document->stack->points.back().discs.back().fatigue_margin);
  EXPECT_TRUE(document->header.outcome.ok()) << document->header.outcome.note;
  EXPECT_TRUE(document->header.warnings.empty());
}

}  // namespace
}  // namespace shimwright
