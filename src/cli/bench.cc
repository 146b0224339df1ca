#include "cli/bench.h"

#include <fmt/core.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <csignal>
#include <iostream>

#include "cli/commands.h"
#include "cli/cores.h"
#include "cli/figure_file.h"
#include "cli/tables.h"
#include "document/document_json.h"

namespace shimwright::cli {

namespace {

std::atomic<bool> g_stop_bench{false};
std::atomic<bool> g_listens{false};

extern "C" void stop_bench(int) {
  g_stop_bench = true;
  // a second one ends the program
  std::signal(SIGINT, SIG_DFL);
}

/// Ctrl-C stops the bench while this lives, and the program again afterwards.
class StopByHand {
 public:
  StopByHand() : before_(std::signal(SIGINT, stop_bench)) {
    g_stop_bench = false;
    g_listens = true;
  }
  ~StopByHand() {
    g_listens = false;
    std::signal(SIGINT, before_);
  }
  StopByHand(const StopByHand&) = delete;
  StopByHand& operator=(const StopByHand&) = delete;

 private:
  void (*before_)(int);
};

/// One line that is written over, only where somebody watches.
class ProgressLine {
 public:
  explicit ProgressLine(std::ostream& err) : err_(err), shown_(&err == &std::cerr && isatty(STDERR_FILENO)) {}
  ~ProgressLine() {
    if (shown_ && begun_) err_ << "\r\x1b[K" << std::flush;
  }
  void show(double done, std::string_view what) {
    if (!shown_) return;
    const int percent = static_cast<int>(100.0 * done);
    if (begun_ && percent == percent_) return;
    percent_ = percent;
    begun_ = true;
    err_ << fmt::format("\r\x1b[K{:3d} %  {}", percent, what) << std::flush;
  }

 private:
  std::ostream& err_;
  bool shown_;
  bool begun_ = false;
  int percent_{};  // when begun
};

}  // namespace

bool bench_listens() {
  return g_listens;
}

std::optional<job::BenchOptions> bench_options(const Streams& s, const Asked& asked,
                                               const BenchAsked& bench) {
  job::BenchOptions options;
  options.system = asked.system();
  options.theory = asked.theory == "linear" ? Theory::Linear : Theory::Large;
  bool good = true;
  for (const std::string& text : asked.clicks) {
    const auto setting = click_setting(s, text);
    if (setting) options.clicks.push_back(*setting);
    good = setting.has_value() && good;
  }
  good = one_quantity(s, "--air", bench.air, units::Kind::Volume, options.air_in_rod_chamber) && good;
  good = one_quantity(s, "--oil-temperature", asked.oil_temperature, units::Kind::Temperature,
                      options.oil_temperature) &&
         good;
  if (!bench.springs.empty()) options.with_springs = bench.springs == "in";
  options.run_all = on_cores(bench.threads);
  if (!good) return std::nullopt;
  return options;
}

std::optional<document::BenchDocument> computed_bench(const Streams& s, const Asked& asked,
                                                      const BenchAsked& bench, const job::JobFile& file) {
  auto options = bench_options(s, asked, bench);
  if (!options) return std::nullopt;
  const StopByHand stop;
  Result<document::BenchDocument, job::RunFault> document = [&] {
    ProgressLine line(s.err);
    options->progress = [&](double done, std::string_view what) {
      line.show(done, what);
      return !g_stop_bench;
    };
    return job::run_bench_job(file.job, *options);
  }();
  if (document) return std::move(*document);
  print_faults(s, document.error().diagnostics, file);
  return std::nullopt;
}

int run_bench(const Streams& s, const Asked& asked, const BenchAsked& bench) {
  const job::JobFile loaded = read_job(s, asked.job);
  if (!loaded.diagnostics.empty()) print_faults(s, loaded.diagnostics, loaded);
  if (!loaded.ok()) return kFaults;
  const auto document = computed_bench(s, asked, bench, loaded);
  if (!document) return kFaults;

  if (asked.json) {
    s.out << document::to_json(*document) << '\n';
  } else {
    if (!asked.csv) s.out << heading_text(document->header) << '\n';
    if (!print_tables(s, bench_tables(*document, asked.system(), asked.csv), asked)) return kFaults;
    if (!asked.csv) s.out << '\n' << findings_text(document->findings, asked.system());
  }
  if (!asked.plot.empty()) {
    const auto written = write_bench_figures(asked.plot, *document, asked.system());
    if (!written) {
      s.err << written.error() << '\n';
      return kEnvironment;
    }
    for (const std::string& name : *written) s.err << "wrote " << name << '\n';
  }
  if (document->stopped) {
    s.err << fmt::format("stopped: {} of {} runs finished\n", document->n_finished, document->n_runs);
    return kStopped;
  }
  const bool stop_found =
      std::any_of(document->findings.begin(), document->findings.end(),
                  [](const document::Finding& finding) { return finding.severity == Severity::Stop; });
  return stop_found ? kStopFindings : kFine;
}

}  // namespace shimwright::cli
