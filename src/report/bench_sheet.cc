#include "report/bench_sheet.h"

#include <fmt/format.h>

#include "report/bench_figures.h"
#include "report/phrases.h"

namespace shimwright::report {
namespace {

using units::Kind;
using units::System;

struct Writer {
  Article article;
  System system;
  double width;

  void add(Element element) { article.elements.push_back(std::move(element)); }
  std::string text(double si, Kind kind) const { return units::format(si, kind, system); }
};

void add_head(Writer& w, const job::BenchDocument& d) {
  std::string below =
      d.header.revision.empty() ? "Bench sheet" : "Bench sheet, revision " + d.header.revision;
  if (!d.header.date.empty()) below += ", " + d.header.date;
  if (!d.header.scenario.empty()) below += ". " + d.header.scenario;
  w.add(Title{d.header.title.empty() ? "Bench sheet" : d.header.title, below});
  if (!d.header.outcome.ok()) w.add(Paragraph{status_words(d.header.outcome), Token::Stop});
  for (const std::string& warning : d.header.warnings) w.add(Paragraph{warning, Token::Steel});
  for (const job::Finding& f : d.findings) {
    if (f.severity == Severity::Note) continue;
    const bool stop = f.severity == Severity::Stop;
    w.add(Paragraph{fmt::format("{} {}: {} {}", stop ? "\xE2\x96\xA0 STOP" : "\xE2\x96\xB2 LOOK", f.code,
                                f.title, f.remedy),
                    stop ? Token::Stop : Token::Look});
  }
}

void add_runs(Writer& w, const job::BenchUnit& unit) {
  Rows rows{{"Run", "Compression", "Rebound", "A cycle", "Lowest pressure", "Oil"},
            {0.36, 0.14, 0.12, 0.12, 0.16, 0.1},
            {false, true, true, true, true, true},
            {}};
  for (const job::BenchRun& run : unit.runs) {
    if (run.cycles.empty()) continue;
    const job::BenchCycle& last = run.cycles.back();
    rows.rows.push_back({run.name + (run.finished ? "" : " (stopped)"),
                         w.text(last.compression_force, Kind::Force), w.text(last.rebound_force, Kind::Force),
                         w.text(last.energy_in, Kind::Energy),
                         units::format(last.lowest_pressure, Kind::Pressure, w.system,
                                       {.reference = units::Reference::Absolute}),
                         w.text(last.temperature_end, Kind::Temperature)});
  }
  if (!rows.rows.empty()) w.add(std::move(rows));
}

void add_air(Writer& w, const job::BenchUnit& unit) {
  const double air = unit.air_compression + unit.air_rod + unit.air_reservoir;
  if (air > 0.0)
    w.add(Paragraph{fmt::format("Computed with {} of air left by the bleed.", w.text(air, Kind::Volume)),
                    Token::Ink});
}

void add_plots(Writer& w, const job::BenchUnit& unit) {
  for (Plot& plot : bench_plots(unit, w.system)) {
    plot.width = w.width;
    plot.height = 210;
    w.add(Figure{plot_scene(plot), plot.caption});
  }
}

}  // namespace

Article bench_sheet(const job::BenchDocument& document, System system, double width) {
  Writer w{{"bench-sheet",
            {document.header.title.empty() ? "Shimwright" : document.header.title, document.header.revision,
             document.header.date},
            1.0,
            {}},
           system,
           width};
  add_head(w, document);
  for (const job::BenchUnit& unit : document.units) {
    w.add(Heading{capitalised(unit.name) + " on the bench"});
    add_air(w, unit);
    add_runs(w, unit);
    if (unit.release) w.add(Paragraph{unit.release->words, Token::Ink});
    add_plots(w, unit);
  }
  w.add(Paragraph{fmt::format("Computed by Shimwright {} from job {}; each step in time good to {:.0e}.",
                              document.header.program_version, document.header.job_hash, document.tolerance),
                  Token::Steel});
  return std::move(w.article);
}

}  // namespace shimwright::report
