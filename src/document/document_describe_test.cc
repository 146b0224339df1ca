// Holds the descriptions of the documents to what a reader needs, and shows with one struct that a list of
// members is all that the walkers need.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include <limits>

#include "document/document_check.h"
#include "document/document_describe_list.h"
#include "document/document_pages.h"
#include "document/document_schema.h"
#include "document/document_walk.h"

namespace shimwright::document {
namespace {

using Json = nlohmann::ordered_json;
using testing::HasSubstr;
using units::Kind;

TEST(Descriptions, EveryMemberOfEveryDocumentHasAKeyAMeaningAndAUnit) {
  const std::vector<const StructInfo*> roots = {&describe<ResultDocument>(), &describe<BenchDocument>(),
                                                &describe<Comparison>()};
  EXPECT_THAT(description_faults(roots), testing::IsEmpty());
}

TEST(Descriptions, TheCheckSeesWhatIsMissing) {
  static constexpr TypeInfo number{.shape = Shape::Number};
  static constexpr FieldInfo fields[] = {{"a", Kind::Length, "How long.", &number},
                                         {"a", Kind::Length, "How long.", &number},
                                         {"b", Kind::Length, "", &number},
                                         {"c", {}, "How long.", &number},
                                         {"d", Kind::Pressure, "How high.", &number},
                                         {"", Kind::Length, "How long.", &number}};
  static constexpr StructInfo broken{"Broken", "no sentence", fields};
  EXPECT_THAT(description_faults({&broken}), testing::SizeIs(6));
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
