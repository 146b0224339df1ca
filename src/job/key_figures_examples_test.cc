// The key figures of whole jobs: each points at its own number in the document.
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <string>

#include "document/document_json.h"
#include "job/test_jobs.h"

namespace shimwright::job {
namespace {

using Json = nlohmann::json;

void expect_at_its_place(const document::KeyFigure& figure, const Json& document) {
  SCOPED_TRACE(figure.key + " at " + figure.pointer);
  const Json& number = document.at(Json::json_pointer(figure.pointer));
  EXPECT_NEAR(number.get<double>(), figure.value.si, 1e-10);  // a lift below it is shown as none
  EXPECT_EQ(figure.verdict == Severity::Note, figure.reason.empty());
}

void expect_at_their_places(const document::KeyFigures& figures, const Json& document) {
  EXPECT_FALSE(figures.margins.empty());
  for (const document::KeyForceFigures& row : figures.forces) {
    expect_at_its_place(row.compression, document);
    expect_at_its_place(row.rebound, document);
  }
  for (const document::KeyFigure& figure : figures.margins) expect_at_its_place(figure, document);
}

TEST(KeyFiguresOfJobs, PointAtTheirNumbersAndSayWhyTheyAreFlagged) {
  const document::ResultDocument fork = testing_jobs::run(testing_jobs::job_text("fork"));
  ASSERT_TRUE(fork.units.at(0).key_figures);
  EXPECT_EQ(fork.units[0].key_figures->forces.size(), 4u);
  expect_at_their_places(*fork.units[0].key_figures, Json::parse(to_json(fork)));

  const document::ResultDocument stack = testing_jobs::run(testing_jobs::job_text("lone-stack"));
  ASSERT_TRUE(stack.key_figures);
  EXPECT_TRUE(stack.units.empty());
  expect_at_their_places(*stack.key_figures, Json::parse(to_json(stack)));
}

}  // namespace
}  // namespace shimwright::job
