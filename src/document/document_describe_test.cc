// Holds the descriptions of the documents to what a reader needs, and shows with one struct that a list of
// members is all that the walkers need.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cctype>
#include <nlohmann/json.hpp>
#include <set>

#include "document/document_describe_list.h"
#include "document/document_pages.h"
#include "document/document_schema.h"
#include "document/document_walk.h"

namespace shimwright::document {
namespace {

using Json = nlohmann::ordered_json;
using testing::HasSubstr;
using units::Kind;

/// All structs of all documents.
std::set<const StructInfo*> all_structs() {
  std::set<const StructInfo*> all;
  for (const StructInfo* root :
       {&describe<ResultDocument>(), &describe<BenchDocument>(), &describe<Comparison>()})
    for (const StructInfo* structure : structs_within(*root)) all.insert(structure);
  return all;
}

bool holds_numbers(const TypeInfo& type) {
  return type.shape == Shape::Number || (type.shape == Shape::List && holds_numbers(*type.item));
}

/// A sentence: begins with a capital, a digit or a quote, ends with a full stop.
bool is_sentence(std::string_view text) {
  const auto first = static_cast<unsigned char>(text.empty() ? ' ' : text.front());
  return text.size() > 3 && text.ends_with('.') && !text.ends_with(" .") && !std::islower(first);
}

TEST(Descriptions, EveryStructAndEveryMemberSaysWhatItMeans) {
  for (const StructInfo* structure : all_structs()) {
    EXPECT_TRUE(is_sentence(structure->doc)) << structure->name << ": " << structure->doc;
    for (const FieldInfo& field : structure->fields)
      EXPECT_TRUE(is_sentence(field.doc)) << structure->name << "." << field.key << ": " << field.doc;
  }
}

TEST(Descriptions, EveryNumberHasAUnitOrSaysThatItHasNone) {
  for (const StructInfo* structure : all_structs())
    for (const FieldInfo& field : structure->fields) {
      const std::string name = std::string(structure->name) + "." + std::string(field.key);
      EXPECT_EQ(field.unit.stated(), holds_numbers(*field.type)) << name;
      const bool pressure = field.unit.kind == Kind::Pressure;
      EXPECT_EQ(field.unit.reference != units::Reference::None, pressure)
          << name << ": a pressure counts from vacuum or from the air outside, nothing else does";
    }
}

TEST(Descriptions, EveryKeyAndEveryStructHasANameOfItsOwn) {
  std::set<std::string_view> names;
  for (const StructInfo* structure : all_structs()) {
    EXPECT_TRUE(names.insert(structure->name).second) << structure->name;
    std::set<std::string_view> keys = {"schema"};
    for (const FieldInfo& field : structure->fields) {
      EXPECT_TRUE(keys.insert(field.key).second) << structure->name << "." << field.key;
      EXPECT_THAT(std::string(field.key), testing::MatchesRegex("[a-z][a-z0-9_]*"));
    }
  }
  EXPECT_GT(names.size(), 80u);
}

// one struct with everything that a document may hold

struct DemoPoint {
  double travel = 0;
  std::vector<bool> marks;
};

struct Demo {
  double ratio = 0;
  int count = 0;
  bool done = false;
  std::string name;
  Stroke stroke = Stroke::Compression;
  std::vector<double> pressure;
  std::optional<double> limit;
  std::optional<DemoPoint> best;
  std::vector<DemoPoint> points;
};

}  // namespace

template <>
const StructInfo& describe<DemoPoint>() {
  static constexpr FieldInfo fields[] = {
      field<&DemoPoint::travel>("travel", Kind::Length, "How far."),
      field<&DemoPoint::marks>("marks", "What was ticked."),
  };
  static constexpr auto info = structure<DemoPoint>("DemoPoint", "A point.", fields);
  return info;
}

template <>
const StructInfo& describe<Demo>() {
  static constexpr FieldInfo fields[] = {
      field<&Demo::ratio>("ratio", kNoUnit, "One over the other."),
      field<&Demo::count>("count", "How many."),
      field<&Demo::done>("done", "Nothing is left."),
      field<&Demo::name>("name", "What it is called."),
      field<&Demo::stroke>("stroke", "Which way."),
      field<&Demo::pressure>("pressure", kAbsolute, "Pressures."),
      field<&Demo::limit>("limit", Unit("J/K"), "Up to here."),
      field<&Demo::best>("best", "The best point."),
      field<&Demo::points>("points", "All points."),
  };
  static constexpr auto info = structure<Demo>("Demo", "Shows everything.", fields);
  return info;
}

namespace {

Demo demo() {
  Demo demo{0.1, 3, true, "a \"name\"", Stroke::Rebound, {1.5, 2e5}, {}, {}, {}};
  demo.best = DemoPoint{0.01, {true, false}};
  demo.points.resize(1);
  return demo;
}

TEST(Demonstration, OneListOfMembersGivesTheJsonInBothForms) {
  EXPECT_EQ(
      written_json(described(demo()), -1),
      R"({"ratio":0.1,"count":3,"done":true,"name":"a \"name\"","stroke":"rebound","pressure":[1.5,200000.0],)"
      R"("best":{"travel":0.01,"marks":[true,false]},"points":[{"travel":0.0,"marks":[]}]})");
  EXPECT_EQ(
      brief_json(described(demo())),
      R"({"ratio":0.1,"count":3,"done":true,"name":"a \"name\"","stroke":"rebound","pressure":[1.5,2e+05],)"
      R"("best":{"travel":0.01,"marks":[true,false]},"points":[{"travel":0,"marks":[]}]})");
}

TEST(Demonstration, ItGivesThePatch) {
  const Demo from = demo();
  Demo to = from;
  to.limit = 2.0;
  to.best.reset();
  to.points[0].travel = 1.0;
  EXPECT_EQ(brief_patch(described(from), described(to)),
            R"([{"op":"add","path":"/limit","value":2},)"
            R"({"op":"remove","path":"/best"},)"
            R"({"op":"replace","path":"/points/0/travel","value":1}])");
}

TEST(Demonstration, ItFindsNumbersThatAreNotFinite) {
  Demo broken = demo();
  EXPECT_THAT(non_finite_paths(described(broken)), testing::IsEmpty());
  broken.pressure[1] = std::numeric_limits<double>::infinity();
  broken.best->travel = std::numeric_limits<double>::quiet_NaN();
  EXPECT_THAT(non_finite_paths(described(broken)), testing::ElementsAre("pressure[1]", "best.travel"));
}

TEST(Demonstration, ItGivesTheSchemaWithMeaningAndUnit) {
  const std::array roots = {&describe<Demo>()};
  const Json schemas = Json::parse(schemas_of(roots, "#/"));
  const Json& demo = schemas["Demo"];
  EXPECT_EQ(demo["description"], "Shows everything.");
  EXPECT_EQ(
      demo["properties"]["pressure"],
      Json::parse(
          R"({"type": "array", "items": {"type": "number"}, "description": "Pressures [Pa, absolute]."})"));
  EXPECT_EQ(demo["properties"]["limit"]["description"], "Up to here [J/K].");
  EXPECT_EQ(demo["properties"]["stroke"]["enum"], Json({"compression", "rebound"}));
  EXPECT_EQ(demo["properties"]["best"]["$ref"], "#/DemoPoint");
  EXPECT_EQ(demo["required"], Json({"ratio", "count", "done", "name", "stroke", "pressure", "points"}));
  EXPECT_TRUE(schemas.contains("DemoPoint"));
}

TEST(Demonstration, ItGivesTheTableOfThePage) {
  const std::string section = page_section(describe<Demo>());
  EXPECT_THAT(section, HasSubstr("\n## Demo\n\nShows everything.\n"));
  EXPECT_THAT(section, HasSubstr("| `pressure` | list of number | Pa, absolute | Pressures. |\n"));
  EXPECT_THAT(section, HasSubstr("| `limit` | number (may be absent) | J/K | Up to here. |\n"));
  EXPECT_THAT(section, HasSubstr("| `points` | list of [DemoPoint](#demopoint) |  | All points. |\n"));
  EXPECT_THAT(section, HasSubstr("| `stroke` | word |  | Which way. Words: compression / rebound |\n"));
}

}  // namespace
}  // namespace shimwright::document
