#include "cli/commands.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <filesystem>
#include <optional>

#include "cli/asked.h"
#include "cli/bench.h"
#include "cli/completion.h"
#include "cli/disk.h"
#include "cli/figure_file.h"
#include "cli/open.h"
#include "cli/tables.h"
#include "document/document_json.h"
#include "file/load.h"
#include "job/compare.h"
#include "job/run.h"
#include "job/version.h"
#include "report/packet.h"
#include "units/quantity.h"

namespace shimwright::cli {
namespace {

struct Computed {
  file::JobSpec spec;
  document::ResultDocument document;
};

/// Reads and computes one job; nothing when it cannot, with the exit code in `code`.
std::optional<Computed> compute(const Streams& s, const std::string& name, const job::RunOptions& options,
                                int& code) {
  file::DiskFiles disk;
  file::LoadResult loaded = file::load_job(disk, name);
  if (!loaded.diagnostics.empty()) print_faults(s, loaded.diagnostics, loaded.job.files);
  if (!loaded.ok()) {
    code = kFaults;
    return std::nullopt;
  }
  auto document = job::run_job(loaded.job, options);
  if (!document) {
    print_faults(s, document.error().diagnostics, loaded.job.files);
    code = kFaults;
    return std::nullopt;
  }
  return Computed{std::move(loaded.job), std::move(*document)};
}

int exit_code_of(const document::ResultDocument& document) {
  return document::fit_to_build(document) ? kFine : kStopFindings;
}

void print_tables(const Streams& s, const std::vector<Table>& tables, bool csv) {
  for (std::size_t k = 0; k < tables.size(); ++k)
    s.out << (k ? (csv ? "\r\n" : "\n") : "") << (csv ? to_csv(tables[k]) : to_text(tables[k]));
}

/// Options that several verbs share, from their text to what run_job takes; false after a fault was printed.
bool fill_options(const Streams& s, const Asked& asked, job::RunOptions& options) {
  options.system = asked.system();
  options.theory = asked.theory == "linear" ? Theory::Linear : Theory::Large;
  const auto list = [&](const char* option, const std::string& text, units::Kind kind,
                        std::vector<double>& target) {
    if (text.empty()) return true;
    const auto values = quantities(s, option, text, kind);
    if (values) target = *values;
    return values.has_value();
  };
  bool good = list("--pressures", asked.pressures, units::Kind::PressureDifference, options.pressures);
  good = list("--speeds", asked.speeds, units::Kind::Speed, options.speeds) && good;
  good =
      list("--temperatures", asked.temperatures, units::Kind::Temperature, options.oil_temperatures) && good;
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
    print_tables(s, tables_of(computed->document, asked.system()), asked.csv);
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
  print_tables(s, key_figure_tables(computed->document, asked.system()), false);
  s.out << '\n' << findings_text(computed->document, asked.system());
  return exit_code_of(computed->document);
}

int packet(const Streams& s, const Asked& asked, const BenchAsked& bench_asked) {
  job::RunOptions options;
  if (!fill_options(s, asked, options)) return kFaults;
  int code = kFine;
  const auto computed = compute(s, asked.job, options, code);
  if (!computed) return code;

  std::optional<document::BenchDocument> bench;
  if (bench_asked.in_packet) {
    bench = computed_bench(s, asked, bench_asked, computed->spec);
    if (!bench) return kFaults;
  }
  auto files = report::packet_files(
      computed->document,
      {asked.paper == "letter" ? report::Paper::Letter : report::Paper::A4, asked.system()},
      bench ? &*bench : nullptr);
  if (bench) files.push_back({"bench.json", document::to_json(*bench) + "\n"});
  files.push_back({"result.json", document::to_json(computed->document) + "\n"});
  if (const auto made = make_folder(asked.out); !made) {
    s.err << made.error() << '\n';
    return kEnvironment;
  }
  for (const report::PacketFile& file : files) {
    const std::string path = (std::filesystem::path(asked.out) / file.name).string();
    if (const auto written = write_file(path, file.bytes); !written) {
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
  job::RunOptions options;
  if (!fill_options(s, asked, options)) return kFaults;
  int code = kFine;
  const auto first = compute(s, asked.job, options, code);
  const auto second = compute(s, asked.second, options, code);
  if (!first || !second) return code;
  const document::Comparison comparison =
      job::compare_jobs(first->spec, first->document, second->spec, second->document);
  if (asked.json)
    s.out << document::to_json(comparison) << '\n';
  else
    print_tables(s, comparison_tables(comparison, asked.system()), asked.csv);
  return std::max(exit_code_of(first->document), exit_code_of(second->document));
}

/// The options of one verb; each verb shows an example of itself.
struct Verbs {
  CLI::App& app;
  Asked& asked;
  BenchAsked& bench;

  CLI::App* add(const std::string& name, const std::string& what, const std::string& example) {
    CLI::App* verb = app.add_subcommand(name, what);
    verb->footer("Example:\n  shimwright " + example);
    verb->add_option("JOB", asked.job, "the job file")->required();
    verb->add_option("--units", asked.units, "units of the output: metric or imperial")
        ->check(CLI::IsMember({"metric", "imperial"}))
        ->capture_default_str();
    verb->add_option("--theory", asked.theory, "plate theory: large (large deflection) or linear")
        ->check(CLI::IsMember({"large", "linear"}))
        ->capture_default_str();
    return verb;
  }
  void add_json(CLI::App* verb) {
    verb->add_flag("--json", asked.json, "the result document as JSON, SI units (docs/result-document.md)");
  }
  void add_table_forms(CLI::App* verb) {
    add_json(verb);
    verb->add_flag("--csv", asked.csv, "the tables as CSV")->excludes("--json");
  }
  void add_plot(CLI::App* verb) {
    verb->add_option("--plot", asked.plot, "also draw a figure: a file name that ends in .svg or .png");
  }
  void add_clicks(CLI::App* verb) {
    verb->add_option("--clicks", asked.clicks,
                     "another setting: \"compression needle = 8\"; you can repeat this option")
        ->expected(1)
        ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
  }
};

void add_verbs(Verbs verbs) {
  Asked& asked = verbs.asked;
  CLI::App* v =
      verbs.add("check", "all findings; exit code 0 only if no finding says stop", "check fork.job.toml");
  verbs.add_json(v);
  verbs.add_clicks(v);

  v = verbs.add("stack", "lift, opening, stress and contact forces of each stack over pressure",
                "stack fork.job.toml --pressures \"0.2 MPa, 0.5 MPa\"");
  v->add_option("--pressures", asked.pressures, "pressure drops across the face shim, \"0.2 MPa, 0.5 MPa\"");
  verbs.add_table_forms(v);
  verbs.add_plot(v);

  v = verbs.add("force", "damping force, pressures and margins over shaft speed",
                "force fork.job.toml --speeds \"0.05 m/s, 0.5 m/s, 3 m/s\"");
  v->add_option("--speeds", asked.speeds, "shaft speeds, \"0.05 m/s, 0.5 m/s\"");
  verbs.add_table_forms(v);
  verbs.add_plot(v);
  verbs.add_clicks(v);

  v = verbs.add("spring", "force and rate of the springs over travel, the share of each spring, and sag",
                "spring fork.job.toml");
  verbs.add_table_forms(v);
  verbs.add_plot(v);

  v = verbs.add("oil", "viscosity and density over temperature",
                "oil fork.job.toml --temperatures \"20 degC, 60 degC\"");
  v->add_option("--temperatures", asked.temperatures, "\"20 degC, 60 degC\"");
  verbs.add_table_forms(v);

  v = verbs.add("bench", "the damper in motion: loops, pressures, heat, and the hand test",
                "bench fork.job.toml --air \"2 mL\" --plot loops.svg");
  v->add_option("--air", verbs.bench.air,
                "air left in the rod chamber, instead of the value in the job, \"2 mL\"");
  v->add_option("--oil-temperature", verbs.bench.oil_temperature,
                "oil temperature at the start, instead of the value in the job, \"60 degC\"");
  v->add_option(
       "--springs", verbs.bench.springs,
       "with (in) or without (out) main spring, air spring and stops, instead of the value in the job")
      ->check(CLI::IsMember({"in", "out"}));
  v->add_option("--threads", verbs.bench.threads, "number of threads; 0: one per core")
      ->check(CLI::Range(0, 256))
      ->capture_default_str();
  v->add_flag("--json", asked.json, "the bench document as JSON, SI units (docs/bench-document.md)");
  v->add_flag("--csv", asked.csv, "the tables and every loop as CSV")->excludes("--json");
  v->add_option("--plot", asked.plot, "also draw a figure: a file name that ends in .svg or .png");
  verbs.add_clicks(v);

  v = verbs.add("assemble", "what fits on each post: heights, thread, spacers, torque; and the fill",
                "assemble fork.job.toml");
  verbs.add_table_forms(v);

  v = verbs.add("packet", "everything to print: build sheet, settings guide, and both as one HTML page",
                "packet fork.job.toml --out packet");
  v->add_option("--out", asked.out, "the folder for the files")->default_str("packet");
  v->add_option("--paper", asked.paper, "a4 or letter")
      ->check(CLI::IsMember({"a4", "letter"}))
      ->capture_default_str();
  v->add_flag("--bench", verbs.bench.in_packet, "also the damper in motion: a bench sheet with plots");
  verbs.add_clicks(v);

  v = verbs.add("compare", "the differences between two jobs, and their effect",
                "compare old.job.toml new.job.toml");
  v->add_option("SECOND", asked.second, "the other job file")->required();
  verbs.add_table_forms(v);
}

/// `open` takes no job's options: it is about the page, and each job has its own.
CLI::App* add_open(CLI::App& app, OpenRequest& open) {
  CLI::App* verb = app.add_subcommand("open", "the workbench: a live page in the browser");
  verb->footer("Example:\n  shimwright open fork.job.toml");
  verb->add_option("JOB|FOLDER", open.what,
                   "a job file, or a folder with job files (default: the current folder)");
  verb->add_option("--port", open.port, "the port (default: a free port)")->check(CLI::Range(1, 65535));
  verb->add_flag("--no-browser", open.no_browser, "only print the address");
  verb->add_option("--journal", open.journal,
                   "the file that keeps what you type, instead of the usual one in your data folder");
  CLI::Option* lan =
      verb->add_flag("--lan", open.lan, "allow a tablet on this network to connect, with a passphrase");
  verb->add_option("--passphrase-file", open.passphrase_file,
                   "a file whose first line is the passphrase (default: the program asks for it)")
      ->needs(lan);
  return verb;
}

int run_verb(const Streams& s, const std::string& verb, Asked asked, const BenchAsked& bench) {
  if (asked.out.empty()) asked.out = "packet";
  if (verb == "check") return check(s, asked);
  if (verb == "packet") return packet(s, asked, bench);
  if (verb == "compare") return compare(s, asked);
  if (verb == "bench") return run_bench(s, asked, bench);
  if (verb == "stack") return show(s, asked, {.stacks = true}, stack_tables, FigureKind::Stack);
  if (verb == "force")
    return show(s, asked, {.valves = true, .force = true}, force_tables, FigureKind::Force);
  if (verb == "spring") return show(s, asked, {.springs = true}, spring_tables, FigureKind::Spring);
  if (verb == "oil") return show(s, asked, {.oils = true}, oil_tables, FigureKind::None);
  return show(s, asked, {.assembly = true, .fill = true}, assembly_tables, FigureKind::None);
}

}  // namespace

int run_command(const std::vector<std::string>& arguments, std::ostream& out, std::ostream& err,
                std::span<const server::Asset> page) {
  CLI::App app{"Shimwright: from the parts in the drawer to the force at the wheel."};
  app.name("shimwright");
  app.set_version_flag("--version", std::string("shimwright ") + job::kProgramVersion);
  app.require_subcommand(1);
  app.footer(
      "shimwright COMMAND --help shows the options of a command with an example.\n"
      "docs/job-file.md describes the job file.\n"
      "Exit codes: 0 fine, 1 a finding says stop, 2 a fault in a file or in the command line,\n"
      "3 a file cannot be read or written, 4 a fault in the program, 5 stopped by the user.");
  Asked asked;
  BenchAsked bench;
  add_verbs({app, asked, bench});
  OpenRequest open;
  CLI::App* opening = add_open(app, open);
  CLI::App* completion = app.add_subcommand("completion", "prints completions for bash");
  completion->footer(
      "Example:\n  shimwright completion > ~/.local/share/bash-completion/completions/shimwright");

  try {
    // CLI11 takes the words from the back
    app.parse(std::vector<std::string>(arguments.rbegin(), arguments.rend()));
  } catch (const CLI::ParseError& e) {
    const int code = app.exit(e, out, err);
    return code == 0 ? kFine : kFaults;
  }
  if (opening->parsed()) return open_workbench(open, page, out, err);
  if (completion->parsed()) {
    out << bash_completion(app);
    return kFine;
  }
  return run_verb({out, err}, app.get_subcommands().front()->get_name(), asked, bench);
}

}  // namespace shimwright::cli
