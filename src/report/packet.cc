#include "report/packet.h"

#include "report/build_sheet.h"
#include "report/figures.h"
#include "report/paint.h"
#include "report/post_drawing.h"
#include "report/settings_guide.h"
#include "report/stack_drawing.h"
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

void add_figures(std::vector<PacketFile>& files, const job::UnitResult& unit, units::System system) {
  const auto add = [&](const std::string& what, const Scene& scene) {
    files.push_back({file_stem(unit.name + " " + what) + ".svg", to_svg(scene, true)});
  };
  if (unit.force) {
    add("force", plot_scene(force_plot(unit, system)));
    add("pressures compression", plot_scene(pressure_plot(unit, job::Stroke::Compression, system)));
    add("pressures rebound", plot_scene(pressure_plot(unit, job::Stroke::Rebound, system)));
  }
  if (unit.springs) add("springs", plot_scene(spring_plot(unit, system)));
  for (const job::ValveResult& valve : unit.valves) {
    if (valve.post && !valve.post->ledger.empty())
      add(job::word(valve.place) + " post", post_scene(*valve.post, 480, system));
    for (const job::DirectionResult& direction : valve.directions) {
      if (!direction.stack) continue;
      const std::string which = job::word(valve.place) + " " + job::word(direction.stroke);
      add(which + " lift", plot_scene(lift_plot(*direction.stack, system)));
      for (const job::StackShape& shape : direction.stack->shapes)
        add(which + " " + shape.name, stack_scene(*direction.stack, {420, 230, &shape, nullptr, system}));
    }
  }
}

}  // namespace

std::vector<PacketFile> packet_files(const job::ResultDocument& document, const PacketOptions& options) {
  const double width = content_width(options.paper);
  const Article sheet = build_sheet(document, options.system, width);
  const Article guide = one_page_guide(document, options.system, options.paper);
  const Article sheet_html = build_sheet(document, options.system, kPhoneWidth);
  const Article guide_html = settings_guide(document, options.system, kPhoneWidth);
  const std::string& date = document.header.date;

  std::vector<PacketFile> files;
  files.push_back({"build-sheet.pdf", pdf_of(sheet, options.paper, date)});
  files.push_back({"settings-guide.pdf", pdf_of(guide, options.paper, date)});
  files.push_back({"packet.html", html_page(document.header.title, {sheet_html, guide_html})});
  for (const job::UnitResult& unit : document.units) add_figures(files, unit, options.system);
  return files;
}

std::string unprintable(const job::ResultDocument& document) {
  std::string words = document.header.title + document.header.scenario + document.header.revision;
  if (document.rider) {
    words += document.rider->name + document.rider->pace + document.rider->terrain;
    for (const std::string& complaint : document.rider->complaints) words += complaint;
  }
  if (document.machine) words += document.machine->name;
  for (const job::UnitResult& unit : document.units) words += unit.name + unit.oil;
  return missing_glyphs(words);
}

}  // namespace shimwright::report
