#include "cli/figure_file.h"

#include <fmt/core.h>

#include "base/disk.h"
#include "document/document_plots.h"
#include "report/drawings.h"
#include "report/paint.h"
#include "report/plot.h"

namespace shimwright::cli {
namespace {

constexpr double kPostWidth = 480.0;  // [pt]

report::Scene bent_scene(const document::StackResult& stack, units::System system) {
  const document::StackShape* bent = stack.shapes.empty() ? nullptr : &stack.shapes.back();
  return report::stack_scene(stack, {460, 260, bent, nullptr, system});
}

std::vector<report::Scene> scenes_of(const document::ResultDocument& document, FigureKind kind,
                                     units::System system) {
  std::vector<report::Scene> scenes;
  if (kind == FigureKind::Stack && document.stack) scenes.push_back(bent_scene(*document.stack, system));
  for (const document::UnitResult& unit : document.units) {
    if (kind == FigureKind::Force || kind == FigureKind::Spring) {
      const auto id =
          kind == FigureKind::Force ? document::PlotId::ForceOverSpeed : document::PlotId::SpringsOverTravel;
      if (const document::PlotSpec* plot = document::find_plot(unit.plots, id))
        scenes.push_back(report::plot_scene(*plot, system));
      continue;
    }
    for (const document::ValveResult& valve : unit.valves) {
      if (kind == FigureKind::Post && valve.post && !valve.post->ledger.empty())
        scenes.push_back(report::post_scene(*valve.post, kPostWidth, system));
      for (const document::DirectionResult& direction : valve.directions)
        if (kind == FigureKind::Stack && direction.stack)
          scenes.push_back(bent_scene(*direction.stack, system));
    }
  }
  return scenes;
}

using Written = Result<std::vector<std::string>, std::string>;

/// Each scene to a file of its own, "-2", "-3" before the ending from the second on.
Written write_scenes(const std::string& path, const std::vector<report::Scene>& scenes) {
  const std::size_t dot = path.rfind('.');
  const std::string ending = dot == std::string::npos ? "" : path.substr(dot);
  if (ending != ".svg" && ending != ".png")
    return failure(fmt::format("--plot {}: the name must end in .svg or .png", path));
  std::vector<std::string> names;
  for (const report::Scene& scene : scenes) {
    const std::string name =
        names.empty() ? path : fmt::format("{}-{}{}", path.substr(0, dot), names.size() + 1, ending);
    const std::string bytes =
        ending == ".svg" ? to_svg(scene, true) : report::png_bytes(scene, report::kPictureDpi);
    if (const auto written = replace_file(name, bytes); !written)
      return failure(std::string(written.error()));
    names.push_back(name);
  }
  if (names.empty()) return failure(std::string("--plot: this job has nothing to draw for this command"));
  return names;
}

}  // namespace

Written write_figures(const std::string& path, const document::ResultDocument& document, FigureKind kind,
                      units::System system) {
  return write_scenes(path, scenes_of(document, kind, system));
}

Written write_bench_figures(const std::string& path, const document::BenchDocument& document,
                            units::System system) {
  std::vector<report::Scene> scenes;
  for (const document::BenchUnit& unit : document.units)
    for (const document::PlotSpec& plot : unit.plots) scenes.push_back(report::plot_scene(plot, system));
  return write_scenes(path, scenes);
}

}  // namespace shimwright::cli
