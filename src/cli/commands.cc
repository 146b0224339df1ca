#include "cli/commands.h"

#include <fmt/core.h>

#include <algorithm>
#include <filesystem>
#include <optional>

#include "base/disk.h"
#include "cli/asked.h"
#include "cli/bench.h"
#include "cli/command_line.h"
#include "cli/figure_file.h"
#include "cli/open.h"
#include "cli/tables.h"
#include "document/document_json.h"
#include "job/compare.h"
#include "job/run.h"
#include "job/version.h"
#include "report/manual.h"
#include "report/packet.h"
#include "server/start_jobs.h"
#include "units/quantity.h"

namespace shimwright::cli {
namespace {

struct Computed {
  job::JobFile file;
  document::ResultDocument document;
};

Diagnostic nothing_to_compute() {
  Diagnostic fault;
  fault.code = "E0902";
  fault.what = "this job holds nothing to compute";
  fault.got = "neither a unit nor a stack";
  fault.expected = "a unit, or a stack of discs";
  fault.remedy =
      "Write a `[[unit]]` or a `[stack]`. `shimwright start` writes a whole job that you can change.";
  return fault;
}

/// Reads and computes one job; nothing when it cannot, with the exit code in `code`.
std::optional<Computed> compute(const Streams& s, const std::string& name, const job::RunOptions& options,
                                int& code) {
  job::JobFile loaded = read_job(s, name);
  if (!loaded.diagnostics.empty()) print_faults(s, loaded.diagnostics, loaded);
  if (!loaded.ok()) {
    code = kFaults;
    return std::nullopt;
  }
  auto document = job::run_job(loaded.job, options);
  if (!document) {
    print_faults(s, document.error().diagnostics, loaded);
    code = kFaults;
    return std::nullopt;
  }
  if (document->units.empty() && !document->stack) {
    print_faults(s, {nothing_to_compute()}, loaded);
    code = kFaults;
    return std::nullopt;
  }
  return Computed{std::move(loaded), std::move(*document)};
}

int exit_code_of(const document::ResultDocument& document) {
  // a verb that makes no findings has numbers that nobody may build from all the same
  const bool stalled = document.header.outcome.status == Status::Stalled;
  return document::fit_to_build(document) && !stalled ? kFine : kStopFindings;
}

/// Options that several verbs share, from their text to what run_job takes; false after a fault was printed.
bool fill_options(const Streams& s, const Asked& asked, job::RunOptions& options) {
  options.system = asked.system();
  options.theory = asked.theory == "linear" ? Theory::Linear : Theory::Large;
  const auto list = [&](const char* option, const std::optional<std::string>& text, units::Kind kind,
                        std::vector<double>& target) {
    if (!text) return true;
    const auto values = quantities(s, option, *text, kind);
    if (values) target = *values;
    return values.has_value();
  };
  bool good = list("--pressures", asked.pressures, units::Kind::PressureDifference, options.pressures);
  good = list("--speeds", asked.speeds, units::Kind::Speed, options.speeds) && good;
  good =
      list("--temperatures", asked.temperatures, units::Kind::Temperature, options.oil_temperatures) && good;
  good = one_quantity(s, "--oil-temperature", asked.oil_temperature, units::Kind::Temperature,
                      options.oil_temperature) &&
         good;
  good = one_quantity(s, "--air-temperature", asked.air_temperature, units::Kind::Temperature,
                      options.air_temperature) &&
         good;
  for (const std::string& text : asked.clicks) {
    const auto setting = click_setting(s, text);
    if (setting) options.clicks.push_back(*setting);
    good = setting.has_value() && good;
  }
  return good;
}

using TablesOf = std::vector<Table> (*)(const document::ResultDocument&, units::System);

/// A verb whose result is tables: compute its sections, show them as asked.
int show(const Streams& s, const Asked& asked, const job::Sections& sections, TablesOf tables_of,
         FigureKind figure) {
  job::RunOptions options;
  options.sections = sections;
  options.must_have = true;
  if (!fill_options(s, asked, options)) return kFaults;
  int code = kFine;
  const auto computed = compute(s, asked.job, options, code);
  if (!computed) return code;

  if (asked.json) {
    s.out << document::to_json(computed->document) << '\n';
  } else {
    if (!asked.csv) s.out << heading_text(computed->document) << '\n';
    if (!print_tables(s, tables_of(computed->document, asked.system()), asked)) return kFaults;
  }
  if (!asked.plot.empty()) {
    const auto written = write_figures(asked.plot, computed->document, figure, asked.system());
    if (!written) {
      s.err << written.error() << '\n';
      return kEnvironment;
    }
    for (const std::string& name : *written) s.err << "wrote " << name << '\n';
  }
  return exit_code_of(computed->document);
}

int check(const Streams& s, const Asked& asked) {
  job::RunOptions options;
  if (!fill_options(s, asked, options)) return kFaults;
  int code = kFine;
  const auto computed = compute(s, asked.job, options, code);
  if (!computed) return code;
  if (asked.json) {
    s.out << document::to_json(computed->document) << '\n';
    return exit_code_of(computed->document);
  }
  s.out << heading_text(computed->document) << '\n';
  print_tables(s, key_figure_tables(computed->document, asked.system()), asked);
  s.out << '\n' << findings_text(computed->document, asked.system());
  return exit_code_of(computed->document);
}

report::Paper paper_of(const Asked& asked) {
  return asked.paper == "letter" ? report::Paper::Letter : report::Paper::A4;
}

int packet(const Streams& s, const Asked& asked, const BenchAsked& bench_asked) {
  job::RunOptions options;
  if (!fill_options(s, asked, options)) return kFaults;
  int code = kFine;
  const auto computed = compute(s, asked.job, options, code);
  if (!computed) return code;

  std::optional<document::BenchDocument> bench;
  if (bench_asked.in_packet) {
    bench = computed_bench(s, asked, bench_asked, computed->file);
    if (!bench) return kFaults;
  }
  auto files =
      report::packet_files(computed->document, {paper_of(asked), asked.system()}, bench ? &*bench : nullptr);
  if (bench) files.push_back({"bench.json", document::to_json(*bench) + "\n"});
  files.push_back({"result.json", document::to_json(computed->document) + "\n"});
  if (const auto made = make_folder(asked.out); !made) {
    s.err << made.error() << '\n';
    return kEnvironment;
  }
  for (const report::PacketFile& file : files) {
    const std::string path = (std::filesystem::path(asked.out) / file.name).string();
    if (const auto written = replace_file(path, file.bytes); !written) {
      s.err << written.error() << '\n';
      return kEnvironment;
    }
    s.out << path << '\n';
  }
  if (const std::string missing = report::unprintable(computed->document); !missing.empty())
    s.err << fmt::format("No font on this machine has these characters. They print as boxes: {}\n", missing);
  const int n = document::n_findings(computed->document, Severity::Stop);
  if (n > 0)
    s.err << fmt::format("{} finding{} say{} stop: read the first page.\n", n, n == 1 ? "" : "s",
                         n == 1 ? "s" : "");
  return exit_code_of(computed->document);
}

int compare(const Streams& s, const Asked& asked) {
  if (asked.job == kStandardInput && asked.second == kStandardInput) {
    s.err << "Only one of the two jobs can come from standard input.\n";
    return kFaults;
  }
  job::RunOptions options;
  if (!fill_options(s, asked, options)) return kFaults;
  int code = kFine;
  const auto first = compute(s, asked.job, options, code);
  const auto second = compute(s, asked.second, options, code);
  if (!first || !second) return code;
  const document::Comparison comparison =
      job::compare_jobs(first->file.job, first->document, second->file.job, second->document);
  if (asked.json)
    s.out << document::to_json(comparison) << '\n';
  else if (!print_tables(s, comparison_tables(comparison, asked.system()), asked))
    return kFaults;
  return std::max(exit_code_of(first->document), exit_code_of(second->document));
}

int write_manual(const Streams& s, const Asked& asked, const std::string& path) {
  const std::string pdf = report::manual_pdf(paper_of(asked), job::kProgramVersion);
  if (const auto written = replace_file(path, pdf); !written) {
    s.err << written.error() << '\n';
    return kEnvironment;
  }
  s.err << "wrote " << path << '\n';
  return kFine;
}

int run_verb(const Streams& s, const std::string& verb, const Asked& asked, const BenchAsked& bench) {
  if (verb == "check") return check(s, asked);
  if (verb == "packet") return packet(s, asked, bench);
  if (verb == "compare") return compare(s, asked);
  if (verb == "bench") return run_bench(s, asked, bench);
  if (verb == "stack") return show(s, asked, {.stacks = true}, stack_tables, FigureKind::Stack);
  if (verb == "force")
    return show(s, asked, {.valves = true, .force = true}, force_tables, FigureKind::Force);
  if (verb == "spring") return show(s, asked, {.springs = true}, spring_tables, FigureKind::Spring);
  if (verb == "oil") return show(s, asked, {.oils = true}, oil_tables, FigureKind::None);
  return show(s, asked, {.assembly = true, .fill = true}, assembly_tables, FigureKind::Post);
}

}  // namespace

int run_command(const std::vector<std::string>& arguments, std::ostream& out, std::ostream& err,
                std::span<const server::Asset> page, std::istream& in) {
  const CommandLine line = read_command_line(arguments, out, err);
  if (line.verb.empty()) return line.exit_code;
  if (line.verb == "start") {
    out << server::start_job(line.start);
    return kFine;
  }
  if (line.verb == "open") return open_workbench(line.open, page, out, err);
  if (line.verb == "manual") return write_manual({out, err, in}, line.asked, line.manual_pdf);
  return run_verb({out, err, in}, line.verb, line.asked, line.bench);
}

}  // namespace shimwright::cli
