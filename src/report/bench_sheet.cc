#include "report/sheets.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "document/document_plots_bench.h"
#include "report/phrases.h"
#include "report/plot.h"

namespace shimwright::report {
namespace {

using units::Kind;
using units::System;

struct BenchWriter {
  Article article;
  System system;
  double width;

  void add(Element element) { article.elements.push_back(std::move(element)); }
  std::string text(double si, Kind kind) const { return units::format(si, kind, system); }
};

void add_head(BenchWriter& w, const document::BenchDocument& d) {
  std::string below =
      d.header.revision.empty() ? "Bench sheet" : "Bench sheet, revision " + d.header.revision;
  if (!d.header.date.empty()) below += ", " + d.header.date;
  if (!d.header.scenario.empty()) below += ". " + d.header.scenario;
  w.add(Title{d.header.title.empty() ? "Bench sheet" : d.header.title, below});
  if (!d.header.outcome.ok()) w.add(Paragraph{document::status_words(d.header.outcome), Token::Stop});
  for (const std::string& warning : d.header.warnings) w.add(Paragraph{warning, Token::Steel});
  for (const document::Finding& f : d.findings) {
    if (f.severity == Severity::Note) continue;
    const bool stop = f.severity == Severity::Stop;
    w.add(Paragraph{
        fmt::format("{}: {} {}", stop ? "\xE2\x96\xA0 STOP" : "\xE2\x96\xB2 LOOK", f.title, f.remedy),
        stop ? Token::Stop : Token::Look});
  }
}

/// The last cycle of each run; with the springs in, the damper alone beside the whole.
void add_runs(BenchWriter& w, const document::BenchUnit& unit) {
  const bool springs = unit.springs.in;
  Rows rows;
  if (springs) {
    rows = {{"Run", "Compression", "Damper alone", "Rebound", "Damper alone", "Energy per cycle",
             "Lowest pressure", "Oil"},
            {0.28, 0.11, 0.11, 0.09, 0.11, 0.09, 0.13, 0.08},
            {false, true, true, true, true, true, true, true},
            {}};
  } else {
    rows = {{"Run", "Compression", "Rebound", "Energy per cycle", "Lowest pressure", "Oil"},
            {0.36, 0.14, 0.12, 0.12, 0.16, 0.1},
            {false, true, true, true, true, true},
            {}};
  }
  for (const document::BenchRun& run : unit.runs) {
    if (run.cycles.empty()) continue;
    const document::BenchCycle& last = run.cycles.back();
    std::vector<std::string> row{run.name + (run.finished ? "" : " (stopped)"),
                                 w.text(last.compression_force, Kind::Force)};
    if (springs) row.push_back(w.text(last.damper_compression_force, Kind::Force));
    row.push_back(w.text(last.rebound_force, Kind::Force));
    if (springs) row.push_back(w.text(last.damper_rebound_force, Kind::Force));
    row.push_back(w.text(last.energy_in, Kind::Energy));
    row.push_back(units::format(last.lowest_pressure, Kind::Pressure, w.system,
                                {.reference = units::Reference::Absolute}));
    row.push_back(w.text(last.temperature_end, Kind::Temperature));
    rows.rows.push_back(std::move(row));
  }
  if (!rows.rows.empty()) w.add(std::move(rows));
}

void add_air(BenchWriter& w, const document::BenchUnit& unit) {
  const double air = unit.air_compression + unit.air_rod + unit.air_reservoir;
  if (air > 0.0)
    w.add(Paragraph{fmt::format("Calculated with {} of air left after bleeding.", w.text(air, Kind::Volume)),
                    Token::Ink});
}

/// What the numbers in a plot over time stand for.
void add_events(BenchWriter& w, const std::vector<document::BenchEvent>& events, double begin) {
  if (events.empty()) return;
  Rows rows{{"No.", "Time", "Travel", "Force", "What happens"},
            {0.06, 0.12, 0.14, 0.14, 0.54},
            {true, true, true, true, false},
            {}};
  constexpr double kNothing = 0.05;  // a force that no load cell shows [N]
  for (std::size_t i = 0; i < std::min(events.size(), document::kMostMarks); ++i) {
    const document::BenchEvent& event = events[i];
    const double force = std::abs(event.force) < kNothing ? 0.0 : event.force;
    rows.rows.push_back({std::to_string(i + 1), fmt::format("{:.4f} s", event.time - begin),
                         w.text(event.travel, Kind::Length), w.text(force, Kind::Force), event.what});
  }
  w.add(std::move(rows));
  if (events.size() > document::kMostMarks)
    w.add(Paragraph{fmt::format("{} more events are not shown.", events.size() - document::kMostMarks),
                    Token::Steel});
}

/// What the marks of a plot stand for.
void add_events_of(BenchWriter& w, const document::BenchUnit& unit, const document::PlotSpec& plot) {
  if (plot.events_of.empty()) return;
  for (const document::BenchRun& run : unit.runs)
    if (run.name == plot.events_of && !run.loop.time.empty())
      return add_events(w, run.events, run.loop.time.front());
  for (const document::ReleaseTrace& trace : unit.release_traces)
    if (trace.name == plot.events_of) return add_events(w, trace.events, 0.0);
}

/// Every plot with its events; what the try by hand shows stands before its plots.
void add_plots(BenchWriter& w, const document::BenchUnit& unit) {
  bool told = !unit.release;
  for (const document::PlotSpec& plot : unit.plots) {
    if (!told && plot.id == document::PlotId::LetGoTravelOverTime) {
      w.add(Paragraph{unit.release->words, Token::Ink, true});
      told = true;
    }
    w.add(Figure{plot_scene(plot, w.system, {w.width, 210}), plot.caption});
    add_events_of(w, unit, plot);
  }
  if (!told) w.add(Paragraph{unit.release->words, Token::Ink});
}

}  // namespace

Article bench_sheet(const document::BenchDocument& document, System system, double width) {
  BenchWriter w{{"bench-sheet",
                 {document.header.title.empty() ? "Shimwright" : document.header.title,
                  document.header.revision, document.header.date},
                 1.0,
                 {}},
                system,
                width};
  add_head(w, document);
  for (const document::BenchUnit& unit : document.units) {
    w.add(Heading{capitalised(unit.name) + " on the bench"});
    add_air(w, unit);
    if (!unit.springs.words.empty()) w.add(Paragraph{unit.springs.words, Token::Ink});
    add_runs(w, unit);
    add_plots(w, unit);
  }
  w.add(Paragraph{fmt::format("Calculated by Shimwright {} from job {}. Error of each time step: {:.0e}.",
                              document.header.program_version, document.header.job_hash, document.tolerance),
                  Token::Steel});
  return std::move(w.article);
}

}  // namespace shimwright::report
