#include "file/load.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "file/load_codes.h"

namespace shimwright::file {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

LoadResult load(std::map<std::string, std::string> texts, const std::string& name = "job.toml") {
  MemoryFiles files(std::move(texts));
  return load_job(files, name);
}

LoadResult load_text(const std::string& text) {
  return load({{"job.toml", text}});
}

std::vector<std::string> codes(const LoadResult& result) {
  std::vector<std::string> found;
  for (const Diagnostic& diagnostic : result.diagnostics) found.push_back(diagnostic.code);
  return found;
}

TEST(Load, AFileThatIsNotThereIsSaidByName) {
  const LoadResult result = load({}, "nowhere.toml");
  ASSERT_THAT(codes(result), ElementsAre("E0101"));
  EXPECT_EQ(result.diagnostics[0].file, "nowhere.toml");
  EXPECT_FALSE(result.ok());
}

TEST(Load, AnEmptyFileIsAJobWithNothingInIt) {
  const LoadResult result = load_text("");
  EXPECT_TRUE(result.diagnostics.empty());
  EXPECT_TRUE(result.job.units.empty());
}

TEST(Load, AQuantityKeepsItsTextItsUnitAndItsPlace) {
  const LoadResult result = load_text("[[unit]]\nkind = \"shock\"\ntravel = \"4.25 in\"  # as drawn\n");
  ASSERT_TRUE(result.ok());
  const Quantity& travel = result.job.units.at(0).travel;
  EXPECT_DOUBLE_EQ(travel.si, 4.25 * 0.0254);  // an inch is exactly 25.4 mm
  EXPECT_EQ(travel.text, "4.25 in");
  EXPECT_EQ(travel.origin.line, 3);
  EXPECT_EQ(travel.origin.column, 10);
  EXPECT_EQ(travel.origin.length, 9);
  EXPECT_EQ(travel.origin.path, "unit[0].travel");
  EXPECT_EQ(result.job.files[0].text.substr(travel.origin.begin, travel.origin.end - travel.origin.begin),
            "\"4.25 in\"");
}

TEST(Load, APressureKeepsWhatItIsCountedFrom) {
  const LoadResult result = load_text(
      "[[unit]]\nkind=\"shock\"\n[unit.reservoir]\nkind=\"gas\"\nvolume=\"70 mL\"\npressure=\"10 bar(g)\"\n");
  ASSERT_TRUE(result.ok());
  const Quantity& pressure = result.job.units[0].reservoir->pressure;
  EXPECT_DOUBLE_EQ(pressure.si, 1e6);
  EXPECT_EQ(pressure.reference, units::Reference::Gauge);
}

TEST(Load, AStackReadsFromTextsTablesAndNames) {
  const LoadResult result = load_text(R"(
[shim."20x0.15"]
outer_diameter = "20 mm"
thickness = "0.15 mm"
bore = "6 mm"
[stack]
discs = ["3 x 24 x 0.15 mm", "0.9 x 0.006 in", "2 x shim 20x0.15", "20x0.15",
         { outer_diameter = "23 mm", bore = "18 mm", thickness = "0.1 mm", count = 4 }, { part = "20x0.15", bore = "8 mm" }]
)");
  ASSERT_TRUE(result.ok()) << render(result.diagnostics[0], "");
  const std::vector<DiscSpec>& discs = result.job.stack->stack;
  ASSERT_EQ(discs.size(), 6u);
  EXPECT_EQ(discs[0].count.value, 3);
  EXPECT_DOUBLE_EQ(discs[0].outer_diameter.si, 24e-3);
  EXPECT_DOUBLE_EQ(discs[0].thickness.si, 0.15e-3);
  EXPECT_EQ(discs[0].text, "3 x 24 x 0.15 mm");
  EXPECT_EQ(discs[1].count.value, 1);
  EXPECT_DOUBLE_EQ(discs[1].outer_diameter.si, 0.9 * 0.0254);
  EXPECT_EQ(discs[2].count.value, 2);
  EXPECT_DOUBLE_EQ(discs[2].bore.si, 6e-3);
  EXPECT_EQ(discs[2].part.value, "20x0.15");
  EXPECT_EQ(discs[3].count.value, 1);
  EXPECT_EQ(discs[4].count.value, 4);
  EXPECT_DOUBLE_EQ(discs[5].bore.si, 8e-3) << "a key beside `part` goes over the part's own";
  EXPECT_DOUBLE_EQ(discs[5].thickness.si, 0.15e-3);
}

TEST(Load, PiecesReadFromReservedWordsNamesTextsAndTables) {
  const LoadResult result = load_text(R"(
[spacer."6x0.3"]
thickness = "0.30 mm"
measured = "0.298 mm"
[[unit]]
kind = "fork leg"
[unit.foot_valve]
pieces = ["stop washer 2.0 mm", "compression stack", "2 x 6x0.3", { role = "piston", height = "12 mm" }, "spacers",
          "collar 1.3 mm"]
[unit.foot_valve.compression]
stack = ["1 x 19 x 0.15 mm"]
)");
  ASSERT_TRUE(result.ok()) << render(result.diagnostics[0], "");
  const std::vector<PieceSpec>& pieces = result.job.units[0].foot_valve->pieces;
  ASSERT_EQ(pieces.size(), 6u);
  EXPECT_EQ(pieces[0].name.value, "stop washer");
  EXPECT_FALSE(pieces[0].role) << "a name that speaks of a washer makes none";
  EXPECT_DOUBLE_EQ(pieces[0].height.si, 2e-3);
  EXPECT_EQ(pieces[1].kind.value, PieceKind::CompressionStack);
  EXPECT_EQ(pieces[2].count.value, 2);
  EXPECT_DOUBLE_EQ(pieces[2].measured.si, 0.298e-3);
  EXPECT_EQ(pieces[2].role.value, PieceRole::Spacer);
  EXPECT_EQ(pieces[3].role.value, PieceRole::Piston);
  EXPECT_EQ(piece_name(pieces[3]), "piston");
  EXPECT_EQ(pieces[4].kind.value, PieceKind::Spacers);
  EXPECT_EQ(pieces[5].role.value, PieceRole::Collar);
}

TEST(Load, ThreadsReadMetricCoarseAndUnified) {
  const auto thread = [](const std::string& text) {
    const LoadResult result = load_text("[fastener.n]\nthread = \"" + text + "\"\n");
    EXPECT_TRUE(result.ok()) << text;
    return result.job.parts.fasteners.at(0).thread.size;
  };
  EXPECT_DOUBLE_EQ(thread("M6 x 0.75").pitch, 0.75e-3);
  EXPECT_DOUBLE_EQ(thread("M6x0.75").diameter, 6e-3);
  EXPECT_DOUBLE_EQ(thread("M8").pitch, 1.25e-3);                   // ISO 261, coarse
  EXPECT_DOUBLE_EQ(thread("1/4-28").diameter, 0.25 * 0.0254);      // an inch is exactly 25.4 mm
  EXPECT_DOUBLE_EQ(thread("#10-32 UNF").diameter, 0.19 * 0.0254);  // ASME B1.1: 0.060 in + 10 x 0.013 in
  EXPECT_DOUBLE_EQ(thread("1/4-28").pitch, 0.0254 / 28);
}

TEST(Load, ARangeMayNameItsUnitOnce) {
  const LoadResult result =
      load_text("[machine]\nfront_sag = { static = \"25 to 40 mm\", rider = \"2.5 in to 80 mm\" }\n");
  ASSERT_TRUE(result.ok());
  EXPECT_DOUBLE_EQ(result.job.machine->front_sag->fixed.low.si, 25e-3);
  EXPECT_DOUBLE_EQ(result.job.machine->front_sag->fixed.high.si, 40e-3);
  EXPECT_DOUBLE_EQ(result.job.machine->front_sag->rider.low.si, 2.5 * 0.0254);
}

TEST(Load, APartsFileIsLookedUpBesideTheFileThatNamesIt) {
  const LoadResult result =
      load({{"jobs/a/job.toml", "parts = [\"../shop.toml\"]\n[[unit]]\nkind=\"shock\"\noil=\"thin\"\n"},
            {"jobs/shop.toml", "parts = [\"oils/thin.toml\"]\n"},
            {"jobs/oils/thin.toml", "[oil.thin]\ndensity_15 = \"850 kg/m3\"\n"}},
           "jobs/a/job.toml");
  ASSERT_TRUE(result.ok()) << render(result.diagnostics[0], "");
  const UnitSpec& unit = result.job.units[0];
  EXPECT_DOUBLE_EQ(unit.oil->density_15.si, 850.0);
  EXPECT_EQ(result.job.files[static_cast<std::size_t>(unit.oil->density_15.origin.file)].name,
            "jobs/oils/thin.toml");
}

TEST(Load, APartsFileNamedTwiceIsReadOnce) {
  const LoadResult result = load({{"job.toml", "parts = [\"a.toml\", \"b.toml\"]\n"},
                                  {"a.toml", "parts = [\"c.toml\"]\n"},
                                  {"b.toml", "parts = [\"c.toml\"]\n"},
                                  {"c.toml", "[oil.thin]\n"}});
  EXPECT_TRUE(result.ok());
  EXPECT_EQ(result.job.parts.oils.size(), 1u);
}

TEST(Load, AFileThatNamesItselfIsARing) {
  EXPECT_THAT(codes(load_text("parts = [\"job.toml\"]\n")), ElementsAre("E0104"));
}

TEST(Load, AMissingPartsFileIsTheOnlyNewsAboutItsParts) {
  const LoadResult result = load_text("parts = [\"gone.toml\"]\n[[unit]]\nkind=\"shock\"\noil=\"thin\"\n");
  EXPECT_THAT(codes(result), ElementsAre("E0103"));
}

TEST(Load, AWrongPartIsReportedOnceHoweverOftenItIsUsed) {
  const LoadResult result = load_text(R"(
[shim.odd]
outer_diameter = "20 mm"
thickness = "0.15 mm"
bore = "21 mm"
[stack]
discs = ["odd", "2 x odd"]
)");
  EXPECT_THAT(codes(result), ElementsAre("E0501"));
}

TEST(Load, AllFaultsOfAllFilesComeByPlace) {
  const LoadResult result =
      load({{"job.toml", "parts = [\"p.toml\"]\ntitle = 1\n[stack]\nclamp = 9\nseat = \"x\"\n"},
            {"p.toml", "[oil.thin]\ndensity = 850\n"}});
  EXPECT_THAT(codes(result), ElementsAre("E0202", "E0303", "E0301", "E0201"));
  EXPECT_EQ(result.diagnostics[3].file, "p.toml");
}

TEST(Load, AValueWithEscapesIsUnderlinedAsAWhole) {
  const LoadResult result = load_text("[stack]\nclamp = \"\\u0039 mn\"\n");
  ASSERT_EQ(result.diagnostics.size(), 1u);
  EXPECT_EQ(result.diagnostics[0].column, 9);
  EXPECT_EQ(result.diagnostics[0].length, 11);
}

TEST(Load, ColumnsCountCharactersNotBytes) {
  const LoadResult result =
      load_text("title = \"Gabel für Jörg\"\n[stack]\ndiscs = [\"3 × 24 × 0,15 mm\"]\n");
  ASSERT_EQ(result.diagnostics.size(), 1u);
  EXPECT_EQ(result.diagnostics[0].code, "E0302");
  EXPECT_EQ(result.diagnostics[0].column, 20);
}

TEST(Load, OneSpringMayStandWithoutTheSecondPairOfBrackets) {
  const LoadResult result = load_text("[unit]\nkind = \"shock\"\ncoil_spring = { rate = \"300 lbf/in\" }\n");
  ASSERT_TRUE(result.ok());
  ASSERT_EQ(result.job.units.size(), 1u);
  ASSERT_EQ(result.job.units[0].coil_springs.size(), 1u);
  // 1 lbf/in = 175.1268352 N/m, from exact factors
  EXPECT_NEAR(result.job.units[0].coil_springs[0].rate.si, 300 * 175.1268352, 1e-4);
}

TEST(Load, AnotherWordOfTheTradeIsAnsweredWithTheKey) {
  const LoadResult result = load_text(
      "[stack]\nshims = [\"1 x 19 x 0.15 mm\"]\n[[unit]]\nkind = \"fork leg\"\n[unit.base_valve]\n");
  ASSERT_THAT(codes(result), ElementsAre("E0201", "E0201"));
  EXPECT_THAT(result.diagnostics[0].remedy, HasSubstr("\"discs\""));
  EXPECT_THAT(result.diagnostics[1].remedy, HasSubstr("\"foot_valve\""));
}

TEST(Load, AWordThatMeansAnotherIsAnsweredWithThatAndNoneIsProposedAtRandom) {
  const auto remedy = [](const char* kind) {
    const LoadResult result = load_text("format = 1\n[[unit]]\nname = \"leg\"\n[unit.reservoir]\nkind = \"" +
                                        std::string(kind) + "\"\n");
    for (const Diagnostic& fault : result.diagnostics)
      if (fault.path == "unit[0].reservoir.kind") return fault.remedy;
    return std::string("none");
  };
  EXPECT_EQ(remedy("bladder"), "write \"gas\"");
  EXPECT_THAT(remedy("sprung pistn"), testing::HasSubstr("sprung piston"));
  EXPECT_THAT(remedy("membrane"), testing::Not(testing::HasSubstr("sprung piston")));
}

// a flow coefficient of 1.1 was refused as "1100 mm"
TEST(Load, ACoefficientAboveOneIsRefusedAsANumberAtItsKey) {
  const LoadResult result = load_text("format = 1\n[stack]\nstack_discharge = 1.1\n");
  const auto fault = std::ranges::find(result.diagnostics, "stack.stack_discharge", &Diagnostic::path);
  ASSERT_NE(fault, result.diagnostics.end());
  EXPECT_EQ(fault->code, "E0311");
  EXPECT_EQ(fault->got, "1.1");
  EXPECT_EQ(fault->expected.find("mm"), std::string::npos);
}

TEST(Load, AKeyInTheWrongTableIsShownItsOwn) {
  const LoadResult result = load_text("[machine]\nthickness = \"0.15 mm\"\n");
  ASSERT_THAT(codes(result), ElementsAre("E0201"));
  EXPECT_THAT(result.diagnostics[0].remedy, HasSubstr("shim"));
}

TEST(Load, ABareShareIsOfferedAsPercent) {
  const LoadResult result = load_text("[stack]\npocket = { arc = 0.75 }\n");
  ASSERT_THAT(codes(result), ElementsAre("E0303"));
  EXPECT_THAT(result.diagnostics[0].remedy, HasSubstr("\"75 %\""));
}

TEST(Load, AKeyThatIsRefusedIsNotAskedForAgain) {
  for (const char* drive : {"kind = \"sine\"\nstroke = \"50\"\nfrequency = \"1 Hz\"\n",
                            "kind = \"sine\"\nstroke = \"50 mm\"\nfrequency = \"1 mm\"\n",
                            "kind = \"step\"\nfrom = \"50\"\nto = \"60 mm\"\nrise_time = \"0.1 s\"\n"})
    EXPECT_EQ(load_text("[[bench.drive]]\n" + std::string(drive)).diagnostics.size(), 1u) << drive;
}

TEST(Load, UnitsThatStandTogetherEachHaveAName) {
  const std::string unit = "[[unit]]\nkind = \"fork leg\"\n";
  EXPECT_TRUE(load_text(unit).ok());
  const LoadResult two = load_text(unit + "name = \"left\"\n" + unit);
  ASSERT_EQ(two.diagnostics.size(), 1u);
  EXPECT_EQ(two.diagnostics[0].path, "unit[1].name");
}

TEST(Load, OilStandsWhereTheLayoutHasRoomForIt) {
  const auto places = [](const std::string& text) {
    std::vector<std::string> paths;
    for (const Diagnostic& fault : load_text(text).diagnostics)
      if (fault.code == "E0711") paths.push_back(fault.path);
    return paths;
  };
  const std::string bath = "[[unit]]\nkind = \"fork leg\"\nlayout = \"open bath\"\n";
  EXPECT_THAT(places(bath + "[unit.fill]\nouter = \"300 mL\"\n"), ElementsAre());
  EXPECT_THAT(places(bath + "[unit.fill]\ncartridge = \"200 mL\"\nreservoir = \"20 mL\"\n"),
              ElementsAre("unit[0].fill.cartridge", "unit[0].fill.reservoir"));
  EXPECT_THAT(places(bath + "[unit.reservoir]\nkind = \"gas\"\n"), ElementsAre("unit[0].reservoir.kind"));
  EXPECT_THAT(places("[[unit]]\nkind = \"shock\"\n[unit.fill]\nouter = \"300 mL\"\n"),
              ElementsAre("unit[0].fill.outer"));
}

TEST(Load, ADiagnosticPrintsWithItsLineAndCaret) {
  const LoadResult result = load_text("[stack]\nclamp = 10\n");
  ASSERT_EQ(result.diagnostics.size(), 1u);
  const std::string printed = render(result.diagnostics[0], result.job.files[0].text);
  EXPECT_THAT(printed, HasSubstr("job.toml:2:9"));
  EXPECT_THAT(printed, HasSubstr("clamp = 10"));
  EXPECT_THAT(printed, HasSubstr("\"10 mm\""));
}

TEST(Load, TheCodesRiseAndNoneStandsForTwoThings) {
  std::string before;
  for (const CodeFacts& facts : code_facts()) {
    EXPECT_LT(before, std::string(facts.id));
    EXPECT_EQ(facts_of(facts.code).id, facts.id);
    EXPECT_FALSE(facts.title.empty() || facts.cause.empty() || facts.remedy.empty()) << facts.id;
    before = facts.id;
  }
}

}  // namespace
}  // namespace shimwright::file
