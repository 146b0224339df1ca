#include "cli/command_line.h"

#include <fmt/core.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <map>
#include <sstream>

#include "base/diagnostic.h"
#include "cli/build_identity.h"
#include "cli/usage.h"
#include "job/version.h"

// CLI11 is seen here alone: it costs more to compile than all that the verbs do.

namespace shimwright::cli {
namespace {

template <typename Text>
CLI::Option* word_option(CLI::App* verb, const char* name, Text& value, const char* what) {
  return verb->add_option(name, value, what);
}

CLI::Option* flag(CLI::App* verb, const char* name, bool& value, const char* what) {
  return verb->add_flag(name, value, what);
}

using Choices = std::map<const CLI::Option*, std::vector<std::string>>;

/// The options of one verb; each verb shows an example of itself.
struct Verbs {
  CLI::App& app;
  Asked& asked;
  BenchAsked& bench;
  Choices& choices;

  /// One of a few words.
  CLI::Option* one_of(CLI::App* verb, const char* name, std::string& value, const char* what,
                      const std::vector<std::string>& words) {
    CLI::Option* option = word_option(verb, name, value, what)->check(CLI::IsMember(words));
    choices[option] = words;
    return option;
  }
  /// The same; the present value is the default.
  void choice(CLI::App* verb, const char* name, std::string& value, const char* what,
              const std::vector<std::string>& words) {
    one_of(verb, name, value, what, words)->capture_default_str();
  }
  CLI::App* add(const char* name, const char* what, const std::string& example) {
    CLI::App* verb = app.add_subcommand(name, what);
    verb->footer("Example:\n  shimwright " + example);
    word_option(verb, "JOB", asked.job, "the job file; - is standard input")->required();
    choice(verb, "--units", asked.units, "units of the output: metric or imperial", {"metric", "imperial"});
    choice(verb, "--theory", asked.theory, "plate theory: large (large deflection) or linear",
           {"large", "linear"});
    return verb;
  }
  void add_json(CLI::App* verb) {
    flag(verb, "--json", asked.json, "the result document as JSON, SI units (docs/result-document.md)");
  }
  void add_table_forms(CLI::App* verb) {
    add_json(verb);
    add_csv(verb, "the tables as CSV, numbers with all digits");
  }
  void add_csv(CLI::App* verb, const char* what) {
    CLI::Option* csv = flag(verb, "--csv", asked.csv, what)->excludes("--json");
    word_option(verb, "--table", asked.table,
                "with --csv: only the table with this name; a wrong name lists the names")
        ->needs(csv);
  }
  void add_oil_temperature(CLI::App* verb) {
    word_option(verb, "--oil-temperature", asked.oil_temperature,
                "oil temperature, instead of the value in the job, \"60 degC\"");
  }
  void add_air_temperature(CLI::App* verb) {
    word_option(verb, "--air-temperature", asked.air_temperature,
                "temperature of air springs, instead of the value in the job, \"30 degC\"");
  }
  /// What a whole job can be asked with another setting.
  void add_settings(CLI::App* verb) {
    add_clicks(verb);
    add_oil_temperature(verb);
    add_air_temperature(verb);
  }
  /// Of the damper in motion; in a packet only with its bench sheet.
  void add_bench(CLI::App* verb, CLI::Option* needed) {
    CLI::Option* air = word_option(verb, "--air", bench.air,
                                   "air left in the rod chamber, instead of the value in the job, \"2 mL\"");
    CLI::Option* springs = one_of(
        verb, "--springs", bench.springs,
        "with (in) or without (out) main spring, air spring and stops, instead of the value in the job",
        {"in", "out"});
    CLI::Option* threads = verb->add_option("--threads", bench.threads, "number of threads; 0: one per core")
                               ->check(CLI::Range(0, 256))
                               ->capture_default_str();
    if (needed == nullptr) return;
    for (CLI::Option* option : {air, springs, threads}) option->needs(needed);
  }
  void add_plot(CLI::App* verb) {
    word_option(verb, "--plot", asked.plot, "also draw a figure: a file name that ends in .svg or .png");
  }
  void add_clicks(CLI::App* verb) {
    verb->add_option("--clicks", asked.clicks,
                     "another setting: \"compression needle = 8\", or \"rear shock: rebound needle = 8\" of "
                     "one unit alone; "
                     "you can repeat this option")
        ->expected(1)
        ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
  }
};

void add_verbs(Verbs verbs) {
  Asked& asked = verbs.asked;
  CLI::App* v =
      verbs.add("check", "all findings; exit code 0 only if no finding says stop", "check fork.job.toml");
  verbs.add_json(v);
  verbs.add_settings(v);

  v = verbs.add("stack", "lift, opening, stress and contact forces of each stack over pressure",
                "stack fork.job.toml --pressures \"0.2 MPa, 0.5 MPa\"");
  word_option(v, "--pressures", asked.pressures, "pressure drops across the face shim, \"0.2 MPa, 0.5 MPa\"");
  verbs.add_table_forms(v);
  verbs.add_plot(v);
  verbs.add_clicks(v);
  verbs.add_oil_temperature(v);

  v = verbs.add("force", "damping force, pressures and margins over shaft speed",
                "force fork.job.toml --speeds \"0.05 m/s, 0.5 m/s, 3 m/s\"");
  word_option(v, "--speeds", asked.speeds, "shaft speeds, \"0.05 m/s, 0.5 m/s\"");
  verbs.add_table_forms(v);
  verbs.add_plot(v);
  verbs.add_clicks(v);
  verbs.add_oil_temperature(v);

  v = verbs.add("spring", "force and rate of the springs over travel, the share of each spring, and sag",
                "spring fork.job.toml");
  verbs.add_table_forms(v);
  verbs.add_plot(v);
  verbs.add_air_temperature(v);

  v = verbs.add("oil", "viscosity and density over temperature",
                "oil fork.job.toml --temperatures \"20 degC, 60 degC\"");
  word_option(v, "--temperatures", asked.temperatures, "\"20 degC, 60 degC\"");
  verbs.add_table_forms(v);
  verbs.add_clicks(v);
  verbs.add_oil_temperature(v);

  v = verbs.add("bench", "the damper in motion: loops, pressures, heat, and the hand test",
                "bench fork.job.toml --air \"2 mL\" --plot loops.svg");
  word_option(v, "--oil-temperature", asked.oil_temperature,
              "oil temperature at the start, instead of the value in the job, \"60 degC\"");
  verbs.add_bench(v, nullptr);
  flag(v, "--json", asked.json, "the bench document as JSON, SI units (docs/bench-document.md)");
  verbs.add_csv(v, "the tables and every loop as CSV, numbers with all digits");
  word_option(v, "--plot", asked.plot, "also draw a figure: a file name that ends in .svg or .png");
  verbs.add_clicks(v);

  v = verbs.add("assemble", "what fits on each post: heights, thread, spacers, torque; and the fill",
                "assemble fork.job.toml");
  verbs.add_table_forms(v);
  verbs.add_plot(v);
  verbs.add_oil_temperature(v);

  v = verbs.add("packet", "everything to print: build sheet, settings guide, and both as one HTML page",
                "packet fork.job.toml --out packet");
  word_option(v, "--out", asked.out, "the folder for the files")->default_str("packet");
  verbs.choice(v, "--paper", asked.paper, "a4 or letter", {"a4", "letter"});
  verbs.add_bench(
      v, flag(v, "--bench", verbs.bench.in_packet, "also the damper in motion: a bench sheet with plots"));
  verbs.add_settings(v);

  v = verbs.add("compare", "the differences between two jobs, and their effect",
                "compare old.job.toml new.job.toml");
  word_option(v, "SECOND", asked.second, "the other job file; only one of the two can be -")->required();
  verbs.add_table_forms(v);
  verbs.add_settings(v);
}

/// `open` takes no job's options: it is about the page, and each job has its own.
void add_open(CLI::App& app, OpenRequest& open) {
  CLI::App* verb = app.add_subcommand("open", "the workbench: a live page in the browser");
  verb->footer("Example:\n  shimwright open fork.job.toml");
  word_option(verb, "JOB|FOLDER", open.what,
              "a job file, or a folder with job files (default: the current folder)");
  verb->add_option("--port", open.port, "the port (default: a free port)")->check(CLI::Range(1, 65535));
  flag(verb, "--no-browser", open.no_browser, "only print the address");
  word_option(verb, "--journal", open.journal,
              "the file that keeps what you type, instead of the usual one in your data folder");
  CLI::Option* lan =
      flag(verb, "--lan", open.lan, "allow a tablet on this network to connect, with a passphrase");
  word_option(verb, "--passphrase-file", open.passphrase_file,
              "a file whose first line is the passphrase (default: the program asks for it)")
      ->needs(lan);
}

/// What a word that is no verb or no option was perhaps meant to be, as a line to add; "" when nothing is
/// near.
std::string near_miss(const CLI::App& app, const std::vector<std::string>& arguments) {
  std::vector<std::string> verbs;
  for (const CLI::App* verb : app.get_subcommands([](const CLI::App*) { return true; }))
    verbs.push_back(verb->get_name());
  const std::string first = arguments.empty() ? "" : arguments.front();
  const bool is_verb = std::ranges::find(verbs, first) != verbs.end();
  const auto meant = [](const std::string& word, const std::vector<std::string>& known) {
    const std::string near = nearest_name(word, known);
    return near.empty() ? std::string() : fmt::format("Did you mean {}?\n", near);
  };
  if (!is_verb) return first.starts_with('-') ? "" : meant(first, verbs);
  std::vector<std::string> names;
  for (const CLI::Option* option :
       app.get_subcommand(first)->get_options([](const CLI::Option*) { return true; }))
    for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
  for (std::string word : arguments) {
    word = word.substr(0, word.find('='));
    if (word.starts_with("--") && std::ranges::find(names, word) == names.end())
      if (std::string line = meant(word, names); !line.empty()) return line;
  }
  return "";
}

ProgramUsage usage_of(const CLI::App& app, const Choices& choices) {
  ProgramUsage usage;
  usage.what = app.get_description();
  std::istringstream notes(app.get_footer());
  for (std::string note; std::getline(notes, note);) usage.notes.push_back(note);
  for (const CLI::App* verb : app.get_subcommands([](const CLI::App*) { return true; })) {
    VerbUsage one{verb->get_name(), verb->get_description(), "", {}};
    const std::string footer = verb->get_footer();
    if (const std::size_t at = footer.find("\n  "); at != std::string::npos)
      one.example = footer.substr(at + 3);
    for (const CLI::Option* option : verb->get_options([](const CLI::Option*) { return true; })) {
      if (option == verb->get_help_ptr()) continue;
      const bool is_place = option->get_positional();
      const auto found = choices.find(option);
      one.options.push_back({is_place ? option->get_name(true) : option->get_name(),
                             option->get_items_expected_max() > 0, is_place, option->get_description(),
                             option->get_default_str(),
                             found == choices.end() ? std::vector<std::string>() : found->second});
    }
    usage.verbs.push_back(std::move(one));
  }
  return usage;
}

std::string version_line() {
  const std::string identity = build_identity();
  return fmt::format("shimwright {}{}", job::kProgramVersion, identity.empty() ? "" : ", commit " + identity);
}

}  // namespace

CommandLine read_command_line(const std::vector<std::string>& arguments, std::ostream& out,
                              std::ostream& err) {
  CommandLine line;
  CLI::App app{"Shimwright: from the parts in the drawer to the force at the wheel."};
  app.name("shimwright");
  app.set_version_flag("--version", version_line());
  app.require_subcommand(1);
  app.footer(
      "shimwright COMMAND --help shows the options of a command with an example.\n"
      "docs/job-file.md describes the job file.\n"
      "Exit codes: 0 fine, 1 a finding says stop, 2 a fault in a file or in the command line,\n"
      "3 a file cannot be read or written, 4 a fault in the program, 5 stopped by the user.");
  Choices choices;
  Verbs verbs{app, line.asked, line.bench, choices};
  add_verbs(verbs);
  add_open(app, line.open);
  CLI::App* start = app.add_subcommand("start", "prints a plain job file to begin your own with");
  verbs.choice(start, "KIND", line.start, "what it is for", {"fork", "shock", "stack"});
  start->footer("Example:\n  shimwright start fork > my-fork.job.toml");
  std::string shell = "bash";
  CLI::App* completion = app.add_subcommand("completion", "prints completions for a shell");
  verbs.choice(completion, "SHELL", shell, "the shell", {"bash", "zsh", "fish"});
  completion->footer(
      "Example:\n  shimwright completion bash > ~/.local/share/bash-completion/completions/shimwright");
  CLI::App* manual = app.add_subcommand("manual", "the manual as a PDF; or the page for the program man");
  CLI::Option* pdf =
      word_option(manual, "--pdf", line.manual_pdf,
                  "write the manual for the technician to this file, instead of the page for man");
  verbs.one_of(manual, "--paper", line.asked.paper, "a4 or letter", {"a4", "letter"})
      ->capture_default_str()
      ->needs(pdf);
  manual->footer("Example:\n  shimwright manual --pdf manual.pdf");

  try {
    // CLI11 takes the words from the back
    app.parse(std::vector<std::string>(arguments.rbegin(), arguments.rend()));
  } catch (const CLI::ParseError& e) {
    line.exit_code = app.exit(e, out, err) == 0 ? kFine : kFaults;
    if (line.exit_code != kFine) err << near_miss(app, arguments);
    return line;
  }
  if (completion->parsed()) {
    out << completion_script(usage_of(app, choices), shell);
    return line;
  }
  if (manual->parsed() && line.manual_pdf.empty()) {
    out << manual_page(usage_of(app, choices), job::kProgramVersion);
    return line;
  }
  if (line.asked.out.empty()) line.asked.out = "packet";
  line.verb = app.get_subcommands().front()->get_name();
  return line;
}

}  // namespace shimwright::cli
