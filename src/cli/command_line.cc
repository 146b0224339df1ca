#include "cli/command_line.h"

#include <fmt/core.h>

#include <CLI/CLI.hpp>

#include "job/version.h"

// CLI11 is seen here alone: it costs more to compile than all that the verbs do.

namespace shimwright::cli {
namespace {

CLI::Option* text(CLI::App* verb, const char* name, std::string& value, const char* what) {
  return verb->add_option(name, value, what);
}

CLI::Option* flag(CLI::App* verb, const char* name, bool& value, const char* what) {
  return verb->add_flag(name, value, what);
}

CLI::Validator one_of(const std::vector<std::string>& words) {
  return CLI::IsMember(words);
}

/// One of a few words; the present value is the default.
CLI::Option* choice(CLI::App* verb, const char* name, std::string& value, const char* what,
                    const std::vector<std::string>& words) {
  return text(verb, name, value, what)->check(one_of(words))->capture_default_str();
}

/// The options of one verb; each verb shows an example of itself.
struct Verbs {
  CLI::App& app;
  Asked& asked;
  BenchAsked& bench;

  CLI::App* add(const char* name, const char* what, const std::string& example) {
    CLI::App* verb = app.add_subcommand(name, what);
    verb->footer("Example:\n  shimwright " + example);
    text(verb, "JOB", asked.job, "the job file")->required();
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
    flag(verb, "--csv", asked.csv, "the tables as CSV")->excludes("--json");
  }
  void add_plot(CLI::App* verb) {
    text(verb, "--plot", asked.plot, "also draw a figure: a file name that ends in .svg or .png");
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
  text(v, "--pressures", asked.pressures, "pressure drops across the face shim, \"0.2 MPa, 0.5 MPa\"");
  verbs.add_table_forms(v);
  verbs.add_plot(v);

  v = verbs.add("force", "damping force, pressures and margins over shaft speed",
                "force fork.job.toml --speeds \"0.05 m/s, 0.5 m/s, 3 m/s\"");
  text(v, "--speeds", asked.speeds, "shaft speeds, \"0.05 m/s, 0.5 m/s\"");
  verbs.add_table_forms(v);
  verbs.add_plot(v);
  verbs.add_clicks(v);

  v = verbs.add("spring", "force and rate of the springs over travel, the share of each spring, and sag",
                "spring fork.job.toml");
  verbs.add_table_forms(v);
  verbs.add_plot(v);

  v = verbs.add("oil", "viscosity and density over temperature",
                "oil fork.job.toml --temperatures \"20 degC, 60 degC\"");
  text(v, "--temperatures", asked.temperatures, "\"20 degC, 60 degC\"");
  verbs.add_table_forms(v);

  v = verbs.add("bench", "the damper in motion: loops, pressures, heat, and the hand test",
                "bench fork.job.toml --air \"2 mL\" --plot loops.svg");
  text(v, "--air", verbs.bench.air, "air left in the rod chamber, instead of the value in the job, \"2 mL\"");
  text(v, "--oil-temperature", verbs.bench.oil_temperature,
       "oil temperature at the start, instead of the value in the job, \"60 degC\"");
  text(v, "--springs", verbs.bench.springs,
       "with (in) or without (out) main spring, air spring and stops, instead of the value in the job")
      ->check(one_of({"in", "out"}));
  v->add_option("--threads", verbs.bench.threads, "number of threads; 0: one per core")
      ->check(CLI::Range(0, 256))
      ->capture_default_str();
  flag(v, "--json", asked.json, "the bench document as JSON, SI units (docs/bench-document.md)");
  flag(v, "--csv", asked.csv, "the tables and every loop as CSV")->excludes("--json");
  text(v, "--plot", asked.plot, "also draw a figure: a file name that ends in .svg or .png");
  verbs.add_clicks(v);

  v = verbs.add("assemble", "what fits on each post: heights, thread, spacers, torque; and the fill",
                "assemble fork.job.toml");
  verbs.add_table_forms(v);

  v = verbs.add("packet", "everything to print: build sheet, settings guide, and both as one HTML page",
                "packet fork.job.toml --out packet");
  text(v, "--out", asked.out, "the folder for the files")->default_str("packet");
  choice(v, "--paper", asked.paper, "a4 or letter", {"a4", "letter"});
  flag(v, "--bench", verbs.bench.in_packet, "also the damper in motion: a bench sheet with plots");
  verbs.add_clicks(v);

  v = verbs.add("compare", "the differences between two jobs, and their effect",
                "compare old.job.toml new.job.toml");
  text(v, "SECOND", asked.second, "the other job file")->required();
  verbs.add_table_forms(v);
}

/// `open` takes no job's options: it is about the page, and each job has its own.
void add_open(CLI::App& app, OpenRequest& open) {
  CLI::App* verb = app.add_subcommand("open", "the workbench: a live page in the browser");
  verb->footer("Example:\n  shimwright open fork.job.toml");
  text(verb, "JOB|FOLDER", open.what, "a job file, or a folder with job files (default: the current folder)");
  verb->add_option("--port", open.port, "the port (default: a free port)")->check(CLI::Range(1, 65535));
  flag(verb, "--no-browser", open.no_browser, "only print the address");
  text(verb, "--journal", open.journal,
       "the file that keeps what you type, instead of the usual one in your data folder");
  CLI::Option* lan =
      flag(verb, "--lan", open.lan, "allow a tablet on this network to connect, with a passphrase");
  text(verb, "--passphrase-file", open.passphrase_file,
       "a file whose first line is the passphrase (default: the program asks for it)")
      ->needs(lan);
}

/// A bash completion script made from the verbs and options that the program has, so that it cannot fall
/// behind them.
std::string bash_completion(const CLI::App& app) {
  std::string verbs, cases;
  for (const CLI::App* verb : app.get_subcommands([](const CLI::App*) { return true; })) {
    verbs += (verbs.empty() ? "" : " ") + verb->get_name();
    std::string options;
    for (const CLI::Option* option : verb->get_options([](const CLI::Option*) { return true; }))
      for (const std::string& name : option->get_lnames()) options += (options.empty() ? "--" : " --") + name;
    cases += fmt::format("    {}) options=\"{}\" ;;\n", verb->get_name(), options);
  }
  return fmt::format(R"(# completions of shimwright for bash
_shimwright() {{
  local word=${{COMP_WORDS[COMP_CWORD]}} options=""
  if [ "$COMP_CWORD" -eq 1 ]; then
    COMPREPLY=($(compgen -W "{}" -- "$word"))
    return
  fi
  case ${{COMP_WORDS[COMP_CWORD-1]}} in
    --units) COMPREPLY=($(compgen -W "metric imperial" -- "$word")); return ;;
    --theory) COMPREPLY=($(compgen -W "large linear" -- "$word")); return ;;
    --paper) COMPREPLY=($(compgen -W "a4 letter" -- "$word")); return ;;
  esac
  case ${{COMP_WORDS[1]}} in
{}  esac
  case $word in
    -*) COMPREPLY=($(compgen -W "$options" -- "$word")) ;;
    *) COMPREPLY=($(compgen -f -X '!*.toml' -- "$word") $(compgen -d -S / -- "$word")) ;;
  esac
}}
complete -o nospace -F _shimwright shimwright
)",
                     verbs, cases);
}

}  // namespace

CommandLine read_command_line(const std::vector<std::string>& arguments, std::ostream& out,
                              std::ostream& err) {
  CommandLine line;
  CLI::App app{"Shimwright: from the parts in the drawer to the force at the wheel."};
  app.name("shimwright");
  app.set_version_flag("--version", std::string("shimwright ") + job::kProgramVersion);
  app.require_subcommand(1);
  app.footer(
      "shimwright COMMAND --help shows the options of a command with an example.\n"
      "docs/job-file.md describes the job file.\n"
      "Exit codes: 0 fine, 1 a finding says stop, 2 a fault in a file or in the command line,\n"
      "3 a file cannot be read or written, 4 a fault in the program, 5 stopped by the user.");
  add_verbs({app, line.asked, line.bench});
  add_open(app, line.open);
  CLI::App* completion = app.add_subcommand("completion", "prints completions for bash");
  completion->footer(
      "Example:\n  shimwright completion > ~/.local/share/bash-completion/completions/shimwright");

  try {
    // CLI11 takes the words from the back
    app.parse(std::vector<std::string>(arguments.rbegin(), arguments.rend()));
  } catch (const CLI::ParseError& e) {
    line.exit_code = app.exit(e, out, err) == 0 ? kFine : kFaults;
    return line;
  }
  if (completion->parsed()) {
    out << bash_completion(app);
    return line;
  }
  if (line.asked.out.empty()) line.asked.out = "packet";
  line.verb = app.get_subcommands().front()->get_name();
  return line;
}

}  // namespace shimwright::cli
