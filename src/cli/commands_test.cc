#include "cli/commands.h"

#include <fcntl.h>
#include <gmock/gmock.h>
#include <stdlib.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iostream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <thread>

#include "base/disk.h"
#include "base/test_folder.h"
#include "cli/bench.h"
#include "cli/test_command.h"

namespace shimwright::cli {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::StartsWith;

std::string in_source(const std::string& name) {
  return std::string(SW_SOURCE_DIR) + "/" + name;
}

std::vector<std::string> whole_examples() {
  std::vector<std::string> found;
  for (const auto& folder : std::filesystem::directory_iterator(in_source("examples"))) {
    if (folder.path().filename() == "broken" || folder.path().filename() == "stack-only") continue;
    for (const auto& file : std::filesystem::directory_iterator(folder))
      if (file.path().string().ends_with(".job.toml")) found.push_back(file.path().string());
  }
  std::sort(found.begin(), found.end());
  return found;
}

std::size_t widest_line(const std::string& text) {
  std::size_t widest = 0, columns = 0;
  for (const char c : text) {
    if (c == '\n')
      columns = 0;
    else if ((static_cast<unsigned char>(c) & 0xC0) != 0x80)
      widest = std::max(widest, ++columns);
  }
  return widest;
}

TEST(Examples, ThereAreThreeWholeJobs) {
  EXPECT_GE(whole_examples().size(), 3u);
}

TEST(Examples, EveryVerbWorksOnEveryWholeJobInsideEightyColumns) {
  for (const std::string& job : whole_examples())
    for (const std::string verb : {"check", "stack", "force", "spring", "oil", "assemble"})
      for (const std::string units : {"metric", "imperial"}) {
        const Ran r = run({verb, job, "--units", units});
        EXPECT_EQ(r.code, kFine) << verb << ' ' << job << '\n' << r.err;
        EXPECT_LE(widest_line(r.out), 80u) << verb << ' ' << job << ' ' << units << '\n' << r.out;
        EXPECT_THAT(r.out, HasSubstr("status: ")) << verb << ' ' << job;
      }
}

TEST(Examples, APacketHoldsItsSheetsAndTheDocument) {
  const TestFolder folder;
  for (const std::string& job : whole_examples()) {
    const Ran r = run({"packet", job, "--out", folder.path.string()});
    EXPECT_EQ(r.code, kFine) << job << '\n' << r.err;
    for (const std::string name : {"build-sheet.pdf", "settings-guide.pdf", "packet.html", "result.json"}) {
      const auto bytes = file_text((folder.path / name).string(), 64u << 20);
      ASSERT_TRUE(bytes) << name;
      EXPECT_GT(bytes->size(), 1000u) << name;
    }
  }
}

TEST(Examples, ALoneStackShowsItsLiftAndContacts) {
  const TestFolder folder;
  const std::string figure = (folder.path / "stack.svg").string();
  const Ran r = run({"stack", in_source("examples/stack-only/tapered.job.toml"), "--pressures",
                     "0.2 MPa, 0.5 MPa", "--plot", figure});
  EXPECT_EQ(r.code, kFine) << r.err;
  EXPECT_THAT(r.out, HasSubstr("lift and stress"));
  EXPECT_THAT(r.out, HasSubstr("contact forces"));
  EXPECT_THAT(file_text(figure).value_or(""), HasSubstr("<svg"));
}

TEST(Examples, AnotherOilInTheDrawerIsCompared) {
  const Ran r = run({"oil", in_source("examples/enduro-fork/enduro-fork.job.toml")});
  EXPECT_EQ(r.code, kFine) << r.err;
  EXPECT_THAT(r.out, HasSubstr("medium fork fluid instead of light fork fluid"));
  EXPECT_THAT(r.out, HasSubstr("Turn the rebound needle"));
}

TEST(ExitCode, SaysThatAFindingSaysStop) {
  const TestFolder folder;
  std::filesystem::copy(in_source("examples/enduro-fork"), folder.path / "shop");
  const std::string job = folder.file("shop/enduro-fork.job.toml");
  std::string text = *file_text(job, 1u << 20);
  const std::string fine = "torque = \"4.5 N.m\"";
  ASSERT_NE(text.find(fine), std::string::npos);
  text.replace(text.find(fine), fine.size(), "torque = \"40 ft.lbf\"");
  ASSERT_TRUE(replace_file(job, text));
  EXPECT_EQ(run({"check", job}).code, kStopFindings);
  EXPECT_EQ(run({"check", job, "--json"}).code, kStopFindings);
  EXPECT_EQ(run({"packet", job, "--out", folder.file("packet")}).code, kStopFindings);
  EXPECT_EQ(run({"compare", in_source("examples/enduro-fork/enduro-fork.job.toml"), job}).code,
            kStopFindings);
  EXPECT_EQ(run({"check", in_source("examples/enduro-fork/enduro-fork.job.toml")}).code, kFine);
}

TEST(BenchVerb, RunsEveryWholeJobInsideEightyColumns) {
  for (const std::string& job : whole_examples())
    for (const std::string units : {"metric", "imperial"}) {
      const Ran r = run({"bench", job, "--units", units});
      EXPECT_NE(r.code, kFaults) << job << '\n' << r.err;
      EXPECT_LE(widest_line(r.out), 80u) << job << ' ' << units << '\n' << r.out;
      EXPECT_THAT(r.out, HasSubstr("pushed in")) << job;
    }
}

TEST(BenchVerb, GivesTheSameDocumentOnOneThreadAndOnSeveral) {
  const std::string job = in_source("examples/enduro-fork/enduro-fork.job.toml");
  const Ran one = run({"bench", job, "--json", "--threads", "1"});
  const Ran three = run({"bench", job, "--json", "--threads", "3"});
  EXPECT_EQ(one.out, three.out);
  EXPECT_EQ(nlohmann::json::parse(one.out).at("schema"), "shimwright.bench/1");
}

TEST(BenchVerb, EveryOptionDoesSomething) {
  const std::string job = in_source("docs/lessons/02-two-millilitres-of-air/fork.job.toml");
  const Ran plain = run({"bench", job});
  const Ran air = run({"bench", job, "--air", "2 mL"});
  EXPECT_THAT(air.out, HasSubstr("mL in the rod chamber"));
  EXPECT_NE(run({"bench", job, "--oil-temperature", "60 degC"}).out, plain.out);
  EXPECT_NE(run({"bench", job, "--theory", "linear"}).out, plain.out);
  EXPECT_THAT(plain.out, HasSubstr("springs"));
  EXPECT_EQ(run({"bench", job, "--springs", "half"}).code, kFaults);
  EXPECT_THAT(run({"bench", job, "--csv"}).out, HasSubstr("travel [mm],speed [m/s],force [N]"));
  EXPECT_EQ(run({"bench", job, "--air", "two"}).code, kFaults);
  EXPECT_EQ(run({"bench", job, "--air", "1 mL, 2 mL"}).code, kFaults);
  const std::string fork = in_source("examples/enduro-fork/enduro-fork.job.toml");
  EXPECT_NE(run({"bench", fork, "--clicks", "rebound needle = 2"}).out, run({"bench", fork}).out);
  EXPECT_EQ(run({"bench", fork, "--clicks", "no such needle = 2"}).code, kFaults);
  EXPECT_THAT(run({"bench", fork, "--springs", "in"}).out,
              HasSubstr("The springs are fitted (air and top-out)"));
  EXPECT_EQ(run({"bench", fork, "--springs", "out"}).out, run({"bench", fork}).out);
  const std::string csv = run({"bench", fork, "--csv"}).out;
  EXPECT_THAT(csv, HasSubstr("the foot valve opens in compression"));
  EXPECT_THAT(csv, HasSubstr("\r\ndragging seal,0,"));
}

TEST(BenchVerb, DrawsItsFiguresAndGoesIntoThePacket) {
  const TestFolder folder;
  const std::string job = in_source("examples/enduro-fork/enduro-fork.job.toml");
  EXPECT_NE(run({"bench", job, "--plot", (folder.path / "b.svg").string()}).code, kEnvironment);
  for (const char* name : {"b.svg", "b-2.svg", "b-3.svg", "b-4.svg", "b-5.svg"})
    EXPECT_THAT(file_text((folder.path / name).string()).value_or(""), HasSubstr("<svg")) << name;
  EXPECT_EQ(run({"packet", job, "--bench", "--out", folder.path.string()}).code, kFine);
  for (const char* name : {"bench-sheet.pdf", "bench.json", "packet.html"})
    EXPECT_TRUE(std::filesystem::exists(folder.path / name)) << name;
  EXPECT_THAT(file_text((folder.path / "packet.html").string(), 64u << 20).value_or(""),
              HasSubstr("on the bench"));
}

TEST(BenchVerb, CtrlCKeepsWhatIsFinishedAndSaysSo) {
  const std::string job = in_source("examples/enduro-fork/enduro-fork.job.toml");
  void (*const mine)(int) = [](int) {};
  void (*const before)(int) = std::signal(SIGINT, mine);
  bool a_second_ends_the_program = false;
  std::thread hand([&] {
    // as soon as the bench listens
    while (!bench_listens()) std::this_thread::yield();
    std::raise(SIGINT);
    struct sigaction now{};
    a_second_ends_the_program = ::sigaction(SIGINT, nullptr, &now) == 0 && now.sa_handler == SIG_DFL;
  });
  const Ran r = run({"bench", job, "--threads", "1"});
  hand.join();
  EXPECT_TRUE(a_second_ends_the_program);
  EXPECT_EQ(std::signal(SIGINT, before), mine) << "as it was before";
  EXPECT_EQ(r.code, kStopped);
  EXPECT_THAT(r.err, HasSubstr("stopped: "));
  EXPECT_THAT(r.out, HasSubstr("F710"));
}

/// What is written to the standard error stream meanwhile, where that is a terminal or a pipe.
std::string on_standard_error(bool is_terminal, const std::function<void()>& work) {
  int reads = -1, writes = -1;
  if (is_terminal) {
    reads = ::posix_openpt(O_RDWR | O_NOCTTY);
    EXPECT_TRUE(::grantpt(reads) == 0 && ::unlockpt(reads) == 0);
    writes = ::open(::ptsname(reads), O_RDWR | O_NOCTTY);
  } else {
    int ends[2] = {};
    EXPECT_EQ(::pipe(ends), 0);
    reads = ends[0];
    writes = ends[1];
  }
  const int before = ::dup(STDERR_FILENO);
  ::dup2(writes, STDERR_FILENO);
  ::close(writes);
  std::string text;
  std::thread reader([&] {
    char part[4096];
    for (ssize_t n = 0; (n = ::read(reads, part, sizeof part)) > 0;)
      text.append(part, static_cast<std::size_t>(n));
  });
  work();
  std::cerr.flush();
  ::dup2(before, STDERR_FILENO);  // the last one that wrote: the reader ends
  reader.join();
  ::close(before);
  ::close(reads);
  return text;
}

TEST(BenchVerb, ShowsItsProgressToWhoWatchesAndTakesItAwayAtTheEnd) {
  const std::vector<std::string> bench = {"bench", in_source("test/zoo/kit.job.toml"), "--threads", "1"};
  std::ostringstream out;
  const std::string shown = on_standard_error(true, [&] { run_command(bench, out, std::cerr); });
  const std::string wipe = "\r\x1b[K";
  std::vector<std::string> lines;
  for (std::size_t at = shown.find(wipe); at != std::string::npos;) {
    const std::size_t next = shown.find(wipe, at + wipe.size());
    lines.push_back(
        shown.substr(at + wipe.size(), next == std::string::npos ? next : next - at - wipe.size()));
    at = next;
  }
  ASSERT_GT(lines.size(), 3u) << shown;
  EXPECT_EQ(lines.back(), "") << "the line is free again";
  lines.pop_back();
  int last = -1;
  for (const std::string& line : lines) {
    EXPECT_EQ(line.substr(3, 4), " %  ") << line;
    const int percent = std::stoi(line);
    EXPECT_GT(percent, last) << "no line twice";
    last = percent;
  }
  EXPECT_LE(last, 100);
  EXPECT_GT(last, 91);
  // nobody watches a pipe, nor what a test reads
  EXPECT_EQ(on_standard_error(false, [&] { run_command(bench, out, std::cerr); }).find('\r'),
            std::string::npos);
  std::ostringstream err;
  EXPECT_EQ(on_standard_error(true, [&] { run_command(bench, out, err); }), "");
  EXPECT_EQ(err.str().find('\r'), std::string::npos);
}

TEST(Json, IsTheVersionedDocument) {
  const Ran r = run({"force", whole_examples().front(), "--speeds", "0.5 m/s", "--json"});
  ASSERT_EQ(r.code, kFine) << r.err;
  const auto document = nlohmann::json::parse(r.out);
  EXPECT_EQ(document.at("schema"), "shimwright.result/1");
  EXPECT_EQ(document.at("units").at(0).at("force").at("curves").at(0).at("points").size(), 1u);
}

TEST(Csv, HoldsUnitsInItsHeading) {
  const Ran r = run({"force", whole_examples().front(), "--speeds", "0.5 m/s", "--csv"});
  ASSERT_EQ(r.code, kFine) << r.err;
  EXPECT_THAT(r.out, StartsWith("speed [m/s],force [N]"));
}

TEST(Options, ABareNumberIsRefusedWithItsRemedy) {
  const Ran r = run({"stack", whole_examples().front(), "--pressures", "0.2, 0.5"});
  EXPECT_EQ(r.code, kFaults);
  EXPECT_THAT(r.out, IsEmpty());
  EXPECT_THAT(r.err, HasSubstr("--pressures"));
}

TEST(Options, APressureIsJudgedLikeOneInTheFile) {
  const std::string job = in_source("examples/stack-only/tapered.job.toml");
  for (const char* pressures : {"-1 bar", "0 bar", "", "40 GPa"}) {
    const Ran r = run({"stack", job, "--pressures", pressures});
    EXPECT_EQ(r.code, kFaults) << pressures;
    EXPECT_THAT(r.out, IsEmpty()) << pressures;
    EXPECT_THAT(r.err, HasSubstr("pressure")) << pressures;
  }
}

TEST(Stalled, EveryVerbSaysThatTheNumbersAreMissing) {
  // a ring without filler close to the clamp
  const TestFolder folder;
  const std::string job = folder.file("stalls.job.toml");
  std::ofstream(job) << R"(format = 1
[stack]
seat = "21.408 mm"
clamp = "13.594 mm"
pocket = { inner = "14.295 mm", outer = "20.632 mm" }
discs = [{ outer_diameter = "23.223 mm", thickness = "0.08 mm" },
  { outer_diameter = "19.246 mm", thickness = "0.5 mm" }, { outer_diameter = "17.421 mm", thickness = "0.3 mm" },
  { outer_diameter = "20.675 mm", thickness = "0.15 mm", bore = "14.942 mm" },
  { outer_diameter = "23.047 mm", thickness = "0.15 mm" }, { outer_diameter = "16.896 mm", thickness = "0.3 mm" },
  { outer_diameter = "15.196 mm", thickness = "0.3 mm" }]
)";
  const Ran stack = run({"stack", job});
  EXPECT_EQ(stack.code, kStopFindings);
  EXPECT_THAT(stack.out, HasSubstr("status: not converged"));
  EXPECT_THAT(stack.out, HasSubstr("stalled"));
  EXPECT_LT(std::count(stack.out.begin(), stack.out.end(), '\n'), 60);
  EXPECT_EQ(run({"stack", job, "--csv"}).code, kStopFindings);
  EXPECT_EQ(run({"stack", job, "--json"}).code, kStopFindings);
  EXPECT_EQ(run({"stack", job, "--plot", (folder.path / "stack.svg").string()}).code, kStopFindings);
  EXPECT_EQ(run({"check", job}).code, kStopFindings);
  EXPECT_EQ(run({"packet", job, "--out", (folder.path / "packet").string()}).code, kStopFindings);
}

TEST(Options, AnUnknownVerbOrFileIsAFault) {
  EXPECT_EQ(run({"polish", "x.toml"}).code, kFaults);
  EXPECT_EQ(run({}).code, kFaults);
  const Ran r = run({"check", in_source("examples/nowhere.job.toml")});
  EXPECT_EQ(r.code, kFaults);
  EXPECT_THAT(r.err, HasSubstr("nowhere.job.toml"));
}

TEST(Options, APlotIsWrittenByItsEnding) {
  const TestFolder folder;
  const std::string name = (folder.path / "force.svg").string();
  EXPECT_EQ(run({"force", whole_examples().front(), "--plot", name}).code, kFine);
  EXPECT_THAT(file_text(name).value_or(""), HasSubstr("<svg"));
  const Ran r = run({"force", whole_examples().front(), "--plot", (folder.path / "force.gif").string()});
  EXPECT_EQ(r.code, kEnvironment);
  EXPECT_THAT(r.err, HasSubstr(".svg or .png"));
}

TEST(Help, EveryVerbShowsAnExampleAndCompletes) {
  const std::string completion = run({"completion"}).out;
  for (const std::string verb :
       {"check", "stack", "force", "bench", "spring", "oil", "assemble", "packet", "compare"}) {
    const Ran r = run({verb, "--help"});
    EXPECT_EQ(r.code, kFine);
    EXPECT_THAT(r.out, HasSubstr("shimwright " + verb + " ")) << verb;
    EXPECT_THAT(completion, HasSubstr("    " + verb + ") options=\"")) << verb;
  }
}

TEST(Compare, AJobEqualsItself) {
  const std::string job = whole_examples().front();
  const Ran r = run({"compare", job, job, "--json"});
  ASSERT_EQ(r.code, kFine) << r.err;
  const auto comparison = nlohmann::json::parse(r.out);
  EXPECT_TRUE(comparison.at("keys").empty());
  EXPECT_TRUE(comparison.at("come").empty());
}

}  // namespace
}  // namespace shimwright::cli
