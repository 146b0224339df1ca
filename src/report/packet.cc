#include "report/packet.h"

#include <fmt/core.h>

#include <algorithm>

#include "report/drawings.h"
#include "report/paint.h"
#include "report/plot.h"
#include "report/sheets.h"
#include "report/text_metrics.h"

namespace shimwright::report {
namespace {

/// Figures of the HTML page are set this wide and scaled by it: their words stay readable on a phone [pt].
constexpr double kPhoneWidth = 320.0;

/// "fork leg, piston valve, compression" -> "fork-leg-piston-valve-compression"
std::string file_stem(const std::string& words) {
  std::string stem;
  for (const char c : words) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
    if (plain)
      stem += c;
    else if (!stem.empty() && stem.back() != '-')
      stem += '-';
  }
  while (!stem.empty() && stem.back() == '-') stem.pop_back();
  return stem.empty() ? "figure" : stem;
}

std::string pdf_of(const Article& article, Paper paper, const std::string& date) {
  const auto pages = article_pages(article, paper);
  return pdf_bytes(pages, {article.foot.job, article.name, date});
}

struct FigureFiles {
  std::vector<PacketFile>& files;
  units::System system;

  void add(const std::string& name, const Scene& scene) {
    files.push_back({file_stem(name) + ".svg", to_svg(scene, true)});
  }
  void add_stack(const std::string& name, const document::StackResult& stack) {
    if (stack.geometry.discs.empty()) return;
    for (const document::PlotSpec& plot : stack.plots) add(name + " " + plot.name, plot_scene(plot, system));
    for (const document::StackShape& shape : stack.shapes)
      add(name + " " + shape.name, stack_scene(stack, {420, 230, &shape, nullptr, system}));
  }
  void add_bench(const document::BenchUnit& unit) {
    int n = 0;
    for (const document::PlotSpec& plot : unit.plots)
      add(fmt::format("{} bench {}", unit.name, ++n), plot_scene(plot, system));
  }
  void add_unit(const document::UnitResult& unit) {
    for (const document::PlotSpec& plot : unit.plots)
      add(unit.name + " " + plot.name, plot_scene(plot, system));
    for (const document::ValveResult& valve : unit.valves) {
      const std::string name = unit.name + " " + word(valve.place) + " ";
      if (valve.post && !valve.post->ledger.empty()) add(name + "post", post_scene(*valve.post, 480, system));
      for (const document::DirectionResult& direction : valve.directions)
        if (direction.stack) add_stack(name + word(direction.stroke), *direction.stack);
    }
  }
};

/// A lone stack has nothing for a rider.
bool has_guide(const document::ResultDocument& document) {
  return std::any_of(document.units.begin(), document.units.end(),
                     [](const document::UnitResult& unit) { return unit.settings || unit.springs; });
}

}  // namespace

std::vector<PacketFile> packet_files(const document::ResultDocument& document, const PacketOptions& options,
                                     const document::BenchDocument* bench) {
  const std::string& date = document.header.date;
  std::vector<PacketFile> files;
  std::vector<Article> html = {build_sheet(document, options.system, kPhoneWidth)};
  const Article sheet = build_sheet(document, options.system, content_width(options.paper));
  files.push_back({"build-sheet.pdf", pdf_of(sheet, options.paper, date)});
  if (has_guide(document)) {
    const Article guide = one_page_guide(document, options.system, options.paper);
    files.push_back({"settings-guide.pdf", pdf_of(guide, options.paper, date)});
    html.push_back(settings_guide(document, options.system, kPhoneWidth));
  }
  if (bench != nullptr) {
    const Article on_bench = bench_sheet(*bench, options.system, content_width(options.paper));
    files.push_back({"bench-sheet.pdf", pdf_of(on_bench, options.paper, date)});
    html.push_back(bench_sheet(*bench, options.system, kPhoneWidth));
  }
  files.push_back({"packet.html", html_page(document.header.title, html)});

  FigureFiles figures{files, options.system};
  if (document.stack) figures.add_stack("stack", *document.stack);
  for (const document::UnitResult& unit : document.units) figures.add_unit(unit);
  if (bench != nullptr)
    for (const document::BenchUnit& unit : bench->units) figures.add_bench(unit);
  return files;
}

std::string unprintable(const document::ResultDocument& document) {
  std::string words = document.header.title + document.header.scenario + document.header.revision;
  if (document.rider) {
    words += document.rider->name + document.rider->pace + document.rider->terrain;
    for (const std::string& complaint : document.rider->complaints) words += complaint;
  }
  if (document.machine) words += document.machine->name;
  for (const document::UnitResult& unit : document.units) words += unit.name + unit.oil;
  return missing_glyphs(words);
}

}  // namespace shimwright::report
