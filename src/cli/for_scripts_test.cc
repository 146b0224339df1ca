// What docs/scripts.md promises to a script.
#include <gmock/gmock.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "base/disk.h"
#include "base/test_folder.h"
#include "cli/commands.h"
#include "cli/test_command.h"

namespace shimwright::cli {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

const std::string kFork = std::string(SW_SOURCE_DIR) + "/examples/enduro-fork/enduro-fork.job.toml";
const std::string kShock = std::string(SW_SOURCE_DIR) + "/examples/enduro-shock/enduro-shock.job.toml";
const std::string kLeg = std::string(SW_SOURCE_DIR) + "/docs/lessons/02-two-millilitres-of-air/fork.job.toml";
const std::string kStack = std::string(SW_SOURCE_DIR) + "/examples/stack-only/tapered.job.toml";

std::vector<std::vector<std::string>> cells_of(const std::string& csv) {
  std::vector<std::vector<std::string>> rows;
  std::istringstream lines(csv);
  for (std::string line; std::getline(lines, line);) {
    while (line.ends_with('\r')) line.pop_back();
    std::vector<std::string>& row = rows.emplace_back();
    std::istringstream cells(line);
    for (std::string cell; std::getline(cells, cell, ',');) row.push_back(cell);
  }
  return rows;
}

/// The verbs that have tables, each on a job.
const std::vector<std::vector<std::string>> kTables = {
    {"stack", kFork},    {"force", kFork}, {"spring", kFork},         {"oil", kFork},
    {"assemble", kFork}, {"bench", kLeg},  {"compare", kFork, kShock}};

std::vector<std::string> with(std::vector<std::string> command, const std::vector<std::string>& more) {
  command.insert(command.end(), more.begin(), more.end());
  return command;
}

/// The names that are listed after a wrong one.
std::vector<std::string> listed(const Ran& ran) {
  std::vector<std::string> names;
  std::istringstream lines(ran.err);
  for (std::string line; std::getline(lines, line);)
    if (line.starts_with("  ")) names.push_back(line.substr(2));
  return names;
}

TEST(OneTable, EachNameThatIsListedGivesOneTableOfRfc4180) {
  for (const auto& command : kTables) {
    const Ran wrong = run(with(command, {"--csv", "--table", "no such table"}));
    EXPECT_EQ(wrong.code, kFaults) << command[0];
    EXPECT_THAT(wrong.out, IsEmpty()) << command[0];
    const std::vector<std::string> names = listed(wrong);
    ASSERT_THAT(names, Not(IsEmpty())) << wrong.err;
    std::string joined;
    for (const std::string& name : names) {
      EXPECT_EQ(name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-"), std::string::npos) << name;
      if (command[0] == "bench" && name != names.front() && name != names.back())
        continue;  // each run takes seconds
      const Ran one = run(with(command, {"--csv", "--table", name}));
      EXPECT_LE(one.code, kStopFindings) << name << one.err;
      EXPECT_THAT(one.out, Not(HasSubstr("\r\n\r\n"))) << name;
      EXPECT_TRUE(one.out.ends_with("\r\n")) << name;
      joined += (joined.empty() ? "" : "\r\n") + one.out;
    }
    if (command[0] == "bench") continue;
    EXPECT_EQ(run(with(command, {"--csv"})).out, joined) << command[0];
  }
}

TEST(OneTable, TheNamesAreTheSameInBothUnits) {
  for (const auto& command : kTables) {
    const auto names = [&](const char* units) {
      return listed(run(with(command, {"--units", units, "--csv", "--table", "?"})));
    };
    EXPECT_EQ(names("metric"), names("imperial")) << command[0];
  }
}

TEST(OneTable, IsForCsvAlone) {
  EXPECT_EQ(run({"force", kFork, "--table", "fork-leg-rebound"}).code, kFaults);
  EXPECT_EQ(run({"force", kFork, "--json", "--table", "fork-leg-rebound"}).code, kFaults);
}

// the two forms of one result: fifteen digits apart at most
TEST(Csv, HasTheDigitsOfTheDocument) {
  const auto document = nlohmann::json::parse(run({"force", kFork, "--json"}).out);
  const auto rows = cells_of(run({"force", kFork, "--csv", "--table", "fork-leg-rebound"}).out);
  for (const auto& curve : document.at("units").at(0).at("force").at("curves")) {
    if (curve.at("stroke") != "rebound") continue;
    const auto& points = curve.at("points");
    ASSERT_EQ(rows.size(), points.size() + 1);
    for (std::size_t i = 0; i < points.size(); ++i) {
      const double speed = points[i].at("speed"), force = points[i].at("force");
      EXPECT_NEAR(std::stod(rows[i + 1][0]), speed, 5e-15 * speed);
      EXPECT_NEAR(std::stod(rows[i + 1][1]), force, 1e-14 * force);
    }
    return;
  }
  FAIL() << "no curve in rebound";
}

TEST(StandardInput, IsTheJobForEveryVerbThatReadsOne) {
  const std::string text = *file_text(kStack, 1u << 20);
  EXPECT_EQ(run({"stack", "-"}, text).out, run({"stack", kStack}).out);

  // the parts file is looked up from the current folder
  const std::filesystem::path here = std::filesystem::current_path();
  std::filesystem::current_path(std::filesystem::path(kFork).parent_path());
  const std::string fork = *file_text(kFork, 1u << 20);
  const TestFolder folder;
  for (const std::string verb : {"check", "stack", "force", "spring", "oil", "assemble"}) {
    const Ran r = run({verb, "-"}, fork);
    EXPECT_EQ(r.code, kFine) << verb << r.err;
    if (verb == "check") continue;  // its findings name the file
    EXPECT_EQ(r.out, run({verb, "enduro-fork.job.toml"}).out) << verb;
  }
  EXPECT_LE(run({"bench", "-"}, fork).code, kStopFindings);
  EXPECT_EQ(run({"packet", "-", "--out", folder.path.string()}, fork).code, kFine);
  EXPECT_EQ(run({"compare", "-", "enduro-fork.job.toml"}, fork).out,
            run({"compare", "enduro-fork.job.toml", "-"}, fork).out);
  std::filesystem::current_path(here);
}

TEST(StandardInput, NamesItselfInAFaultAndIsReadOnce) {
  const Ran r = run({"check", "-"}, "format = 1\ntitel = \"x\"\n");
  EXPECT_EQ(r.code, kFaults);
  EXPECT_THAT(r.err, HasSubstr("standard input:2:1"));
  EXPECT_EQ(run({"compare", "-", "-"}, "format = 1\n").code, kFaults);
  EXPECT_THAT(run({"open", "-"}).err, HasSubstr("open needs a job file or a folder"));
}

/// A setting on the command line does what the same value in the job does.
void same_as_in_the_file(const std::string& verb, const std::string& job, const std::string& was,
                         const std::string& now, const std::vector<std::string>& option) {
  const TestFolder folder;
  std::filesystem::copy(std::filesystem::path(job).parent_path(), folder.path / "job",
                        std::filesystem::copy_options::recursive);
  const std::string changed = folder.file("job/" + std::filesystem::path(job).filename().string());
  const std::string plain = run({verb, changed}).out;
  const std::string asked = run(with({verb, changed}, option)).out;
  std::string text = *file_text(changed, 1u << 20);
  ASSERT_NE(text.find(was), std::string::npos) << was;
  text.replace(text.find(was), was.size(), now);
  ASSERT_TRUE(replace_file(changed, text));
  EXPECT_TRUE(asked != plain) << verb << ": the option does nothing";
  EXPECT_EQ(asked, run({verb, changed}).out) << verb;
}

TEST(Override, OfATemperatureOrAClickIsAsInTheJob) {
  const std::string oil = "oil_temperature  = \"45 degC\"", hot = "oil_temperature  = \"80 degC\"";
  for (const std::string verb : {"check", "stack", "force", "oil", "assemble"})
    same_as_in_the_file(verb, kFork, oil, hot, {"--oil-temperature", "80 degC"});
  same_as_in_the_file("spring", kFork, "air_temperature  = \"30 degC\"", "air_temperature  = \"5 degC\"",
                      {"--air-temperature", "5 degC"});
  const std::string clicks = "clicks     = 12", more = "clicks     = 3";
  for (const std::string verb : {"check", "stack", "force", "oil"})
    same_as_in_the_file(verb, kFork, clicks, more, {"--clicks", "compression needle = 3"});
}

TEST(Override, HoldsForBothJobsOfACompareAndForThePacket) {
  const auto differs = [](const std::vector<std::string>& command, const std::vector<std::string>& option) {
    const Ran asked = run(with(command, option));
    EXPECT_LE(asked.code, kStopFindings) << asked.err;
    return asked.out != run(command).out;
  };
  const std::vector<std::string> compare = {"compare", kFork, kShock};
  EXPECT_TRUE(differs(compare, {"--oil-temperature", "80 degC"}));
  EXPECT_TRUE(differs(compare, {"--air-temperature", "5 degC"}));
  EXPECT_TRUE(differs({"check", kFork, "--json"}, {"--air-temperature", "5 degC"}));
  EXPECT_EQ(run(with(compare, {"--clicks", "no such needle = 3"})).code, kFaults);

  const TestFolder folder;
  const auto result = [&](const std::vector<std::string>& option) {
    run(with({"packet", kFork, "--out", folder.path.string()}, option));
    return file_text(folder.file("result.json"), 64u << 20).value_or("");
  };
  const std::string plain = result({});
  EXPECT_TRUE(result({"--oil-temperature", "80 degC"}) != plain);
  EXPECT_TRUE(result({"--air-temperature", "5 degC"}) != plain);
  EXPECT_TRUE(result({}) == plain);
}

TEST(Override, OfTheBenchSheetNeedsTheBench) {
  const TestFolder folder;
  const std::vector<std::string> packet = {"packet", kLeg, "--out", folder.path.string(), "--air", "3 mL"};
  EXPECT_EQ(run(packet).code, kFaults);
  EXPECT_LE(run(with(packet, {"--bench"})).code, kStopFindings);
  const auto bench = nlohmann::json::parse(file_text(folder.file("bench.json"), 64u << 20).value_or("{}"));
  EXPECT_DOUBLE_EQ(bench.at("units").at(0).at("air_rod"), 3e-6);
}

TEST(Override, IsJudgedAsInTheJob) {
  for (const char* verb : {"check", "stack", "force", "oil", "assemble", "bench", "packet"}) {
    EXPECT_EQ(run({verb, kFork, "--oil-temperature", "900 degC"}).code, kFaults) << verb;
    EXPECT_EQ(run({verb, kFork, "--oil-temperature", "45"}).code, kFaults) << verb;
    EXPECT_EQ(run({verb, kFork, "--oil-temperature", "45 degC, 50 degC"}).code, kFaults) << verb;
  }
  for (const char* verb : {"check", "spring", "packet"})
    EXPECT_EQ(run({verb, kFork, "--air-temperature", "900 degC"}).code, kFaults) << verb;
}

TEST(Output, HasNoColourAndNoWidthOfATerminal) {
  for (const auto& command : kTables) {
    const Ran r = run(command);
    EXPECT_THAT(r.out + r.err, Not(HasSubstr("\x1b"))) << command[0];
  }
}

TEST(Manual, IsWrittenAsAPdfOnBothPapers) {
  const TestFolder folder;
  const std::string a4 = folder.file("a4.pdf"), letter = folder.file("letter.pdf");
  EXPECT_EQ(run({"manual", "--pdf", a4}).code, kFine);
  EXPECT_EQ(run({"manual", "--pdf", letter, "--paper", "letter"}).code, kFine);
  EXPECT_TRUE(file_text(a4, 64u << 20)->starts_with("%PDF-"));
  EXPECT_TRUE(file_text(a4, 64u << 20) != file_text(letter, 64u << 20));
  EXPECT_EQ(run({"manual", "--paper", "letter"}).code, kFaults);
  EXPECT_EQ(run({"manual", "--pdf", folder.file("no/such/folder.pdf")}).code, kEnvironment);
  EXPECT_TRUE(run({"manual"}).out.starts_with(".TH SHIMWRIGHT 1"));
}

TEST(Plot, OfAssembleDrawsEachPost) {
  const TestFolder folder;
  EXPECT_EQ(run({"assemble", kFork, "--plot", folder.file("post.svg")}).code, kFine);
  for (const char* name : {"post.svg", "post-2.svg"})
    EXPECT_THAT(file_text(folder.file(name), 8u << 20).value_or(""), HasSubstr("<svg")) << name;
}

// an empty answer that says "no findings" would read as leave to build
TEST(ForScripts, AJobWithNothingInItIsAFaultForEachVerb) {
  for (const char* text : {"", "format = 1\n", "format = 1\n[rider]\nmass = \"80 kg\"\n"})
    for (const char* verb : {"check", "force", "stack", "spring", "assemble"}) {
      const Ran ran = run({verb, "-"}, text);
      EXPECT_EQ(ran.code, kFaults) << verb;
      EXPECT_THAT(ran.err, testing::HasSubstr("E0902")) << verb;
      EXPECT_EQ(ran.out, "") << verb;
    }
}

}  // namespace
}  // namespace shimwright::cli
