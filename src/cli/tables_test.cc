// What the tables choose and how they word it, from documents made by hand: the limits, the plurals, the
// rows.
#include "cli/tables.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>
#include <utility>
#include <vector>

namespace shimwright::cli {

// what a person sees of a cell
static bool operator==(const Cell& a, const Cell& b) {
  return a.text == b.text;
}

namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
constexpr auto kMetric = units::System::Metric;

Table titled(const std::vector<Table>& tables, const std::string& part) {
  for (const Table& table : tables)
    if (table.title.find(part) != std::string::npos) return table;
  ADD_FAILURE() << "no table is called " << part;
  return {};
}

document::ResultDocument with_stack(document::StackResult stack) {
  document::ResultDocument document;
  document.stack = std::move(stack);
  return document;
}

TEST(StackTables, AnErrorOfTheLiftIsNamedFromOneInTenThousand) {
  const auto note = [](double mesh, double iteration) {
    document::StackResult stack;
    stack.points.resize(3);
    stack.points[1].mesh_error = mesh;
    stack.points[2].iteration_error = iteration;
    return titled(stack_tables(with_stack(stack), kMetric), "lift and stress").note;
  };
  EXPECT_THAT(note(0, 0), HasSubstr("below 0.01 % from the mesh, below 0.01 % from the iteration"));
  EXPECT_THAT(note(0.9999e-4, 1.0001e-4), HasSubstr("below 0.01 % from the mesh, 0.01 % from the iteration"));
  EXPECT_THAT(note(1.0001e-4, 0.9999e-4), HasSubstr("0.01 % from the mesh, below 0.01 % from the iteration"));
  EXPECT_THAT(note(0.0123, 0.5), HasSubstr("1.2 % from the mesh, 50 % from the iteration"));
}

TEST(StackTables, AStatusIsConvergedOutOfRangeOrStalled) {
  const auto row = [](Status status) {
    document::StackResult stack;
    if (status == Status::Stalled) {
      stack.unsolved = {1e5};
    } else {
      stack.points.resize(1);
      stack.points[0].outcome.status = status;
    }
    stack.outcome.status = status;
    stack.outcome.note = "Why.";
    const Table table = titled(stack_tables(with_stack(stack), kMetric), "lift and stress");
    return table.rows.at(0).back().text + ": " + table.note.substr(table.note.find("status: "));
  };
  EXPECT_EQ(row(Status::Converged), "converged: status: converged.");
  EXPECT_EQ(row(Status::OutOfRange), "range: status: outside the range of the model. Why.");
  EXPECT_EQ(row(Status::Stalled), "stalled: status: not converged. Why.");
}

TEST(StackTables, ContactsOfOnePairAreOneRowOverTheirWidth) {
  document::StackResult stack;
  stack.name = "S";
  stack.geometry.discs.resize(2);
  stack.points.resize(2);
  stack.points[0].pressure = 1e5;
  stack.points[0].contacts = {
      {0, 1, 0.010, 5.0}, {0, 1, 0.008, 6.0}, {0, 1, 0.009, 7.0}, {1, 2, 0.007, 2.0}, {2, 3, 0.006, 1.0}};
  stack.points[1].pressure = 2e5;
  stack.points[1].contacts = {{0, 1, 0.010, 50.0}};
  const Table table = titled(stack_tables(with_stack(stack), kMetric), "contact forces");
  ASSERT_EQ(table.rows.size(), 4u);
  EXPECT_THAT(table.rows[0], ElementsAre("1.00", "seat and disc 1", "8.0000", "10.0000", "18.0"));
  EXPECT_THAT(table.rows[1], ElementsAre("1.00", "disc 1 and disc 2", "7.0000", "7.0000", "2.00"));
  EXPECT_THAT(table.rows[2], ElementsAre("1.00", "disc 2 and stop", "6.0000", "6.0000", "1.00"));
  EXPECT_THAT(table.rows[3], ElementsAre("2.00", "seat and disc 1", "10.0000", "10.0000", "50.0"));
}

TEST(StackTables, StepsOfThePathThatMeanNothingAreCounted) {
  const auto note = [](int n_steps) {
    document::StackResult stack;
    stack.path.resize(static_cast<std::size_t>(n_steps) + 2);
    for (int i = 0; i < n_steps; ++i) stack.path[static_cast<std::size_t>(i)].physical = false;
    const Table table = titled(stack_tables(with_stack(stack), kMetric), "linear path");
    EXPECT_EQ(table.rows.size(), 2u);
    return table.note;
  };
  EXPECT_EQ(note(0), "");
  EXPECT_EQ(note(1), "1 more change not shown: the point of contact only moves on.");
  EXPECT_EQ(note(2), "2 more changes not shown: the point of contact only moves on.");
}

document::ResultDocument with_springs(std::size_t n_points) {
  document::ResultDocument document;
  document.units.emplace_back();
  document.units[0].springs.emplace();
  document::SpringResult& springs = *document.units[0].springs;
  springs.names = {"main spring", "air"};
  springs.points.resize(n_points);
  for (std::size_t i = 0; i < n_points; ++i) {
    springs.points[i].travel = 0.001 * static_cast<double>(i);
    springs.points[i].shares = {1.0};
  }
  return document;
}

TEST(SpringTables, ShowSomeThirteenRowsFromTheFirstOn) {
  for (const auto& [n_points, n_rows] : std::vector<std::pair<std::size_t, std::size_t>>{
           {1, 1}, {2, 2}, {13, 13}, {24, 24}, {25, 13}, {36, 18}, {37, 13}, {121, 13}}) {
    const Table table = titled(spring_tables(with_springs(n_points), kMetric), "springs over travel");
    EXPECT_EQ(table.rows.size(), n_rows) << n_points;
    EXPECT_EQ(table.rows.at(0).at(0), "0");
    EXPECT_EQ(table.columns.size(), 5u);
    EXPECT_THAT(table.rows[0], ElementsAre("0", "0", testing::_, "1.00", "-")) << "a spring without a share";
    EXPECT_EQ(table.rows.back().at(0).text == "1.00", n_points == 2) << "the stride";
  }
}

TEST(SpringTables, SagSaysWhereItEndsAndWithoutSagThereIsNoTable) {
  document::ResultDocument document = with_springs(2);
  EXPECT_EQ(spring_tables(document, kMetric).size(), 1u);
  auto& sag = document.units[0].springs->sag;
  sag.resize(3);
  sag[1].topped_out = true;
  sag[2].bottomed = true;
  const Table table = titled(spring_tables(document, kMetric), ": sag");
  EXPECT_EQ(table.rows.at(0).back(), "");
  EXPECT_EQ(table.rows.at(1).back(), "topped out");
  EXPECT_EQ(table.rows.at(2).back(), "bottomed out");
}

TEST(OilTables, ASwapSaysHowFarToTurnAndWhichWay) {
  document::ResultDocument document;
  document::OilSwap swap;
  swap.forces = {{}};
  swap.forces[0].before = 10;
  swap.forces[0].after = 12;
  swap.clicks = {{"a", 0}, {"b", 1}, {"c", -1}, {"d", 3}, {"e", -2}};
  document.oil_swaps = {swap};
  const Table table = oil_tables(document, kMetric).at(0);
  for (const char* words : {"Do not change the a. ", "Turn the b 1 click out to", "Turn the c 1 click in to",
                            "Turn the d 3 clicks out to", "Turn the e 2 clicks in to"})
    EXPECT_THAT(table.note, HasSubstr(words));
  EXPECT_EQ(table.rows.at(0).back(), "+2.00");
}

TEST(KeyFigureTables, SayInWhichStrokeTheOilDrawsAir) {
  document::ResultDocument document;
  document.units.resize(2);  // the first has no force
  document.units[1].force.emplace();
  auto& forces = document.units[1].force->key_forces;
  forces.resize(4);
  forces[1].compression_cavitated = forces[3].compression_cavitated = true;
  forces[2].rebound_cavitated = forces[3].rebound_cavitated = true;
  const std::vector<Table> tables = key_figure_tables(document, kMetric);
  ASSERT_EQ(tables.size(), 1u);
  std::vector<std::string> air;
  for (const auto& row : tables[0].rows) air.push_back(row.back().text);
  EXPECT_THAT(air, ElementsAre("", "compression", "rebound", "compression, rebound"));
}

TEST(FindingsText, CountsEachKindAndLeavesOutWhatIsNotSaid) {
  EXPECT_EQ(findings_text(std::vector<document::Finding>{}, kMetric), "No findings.\n");
  std::vector<document::Finding> findings(6);
  for (const std::size_t i : {0u, 1u, 2u}) findings[i].severity = Severity::Stop;
  for (const std::size_t i : {3u, 4u}) findings[i].severity = Severity::Look;
  findings[5].severity = Severity::Note;
  findings[5].title = "Title.";
  findings[5].code = "F1";
  EXPECT_THAT(findings_text(findings, kMetric), testing::EndsWith("\n3 stop, 2 look, 1 fine.\n"));
  const auto printed = [&](const auto& change) {
    std::vector<document::Finding> one = {findings[5]};
    change(one[0]);
    const std::string text = findings_text(one, kMetric);
    return text.substr(0, text.find("0 stop"));
  };
  const std::string head = printed([](document::Finding&) {});
  EXPECT_THAT(head, testing::EndsWith("[F1] \n  Title.\n\n"));
  EXPECT_THAT(printed([](document::Finding& f) {
                f.place.line = 1;
                f.place.file = "a";
                f.place.path = "b";
              }),
              HasSubstr("\n  a:1\n  b\n"));
  EXPECT_THAT(printed([](document::Finding& f) {
                f.place.unit = "u";
                f.place.stroke = "s";
              }),
              HasSubstr("[F1] u, s\n"));
  EXPECT_THAT(printed([](document::Finding& f) {
                f.place.valve = "v";
                f.place.stroke = "s";
              }),
              HasSubstr("[F1] v, s\n"));
  EXPECT_THAT(printed([](document::Finding& f) { f.rule = "rule"; }), HasSubstr("\n    rule\n"));
  EXPECT_THAT(printed([](document::Finding& f) {
                f.rule = "rule";
                f.source = "src";
              }),
              HasSubstr("\n    rule (src)\n"));
  EXPECT_THAT(printed([](document::Finding& f) {
                f.remedy = "turn";
                f.in_file = "x = 1";
              }),
              HasSubstr("\n  -> turn\n  -> x = 1\n"));
}

}  // namespace
}  // namespace shimwright::cli
