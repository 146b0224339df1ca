#include "server/paper.h"

#include <algorithm>
#include <optional>

#include "document/document_plots.h"
#include "report/drawings.h"
#include "report/packet.h"
#include "report/plot.h"
#include "report/scene.h"

namespace shimwright::server {
namespace {

constexpr double kPostWidth = 460.0;  // [pt]

const document::ValveResult* valve_of(const document::UnitResult& unit, bool foot) {
  const auto place = foot ? ValvePlace::Foot : ValvePlace::Piston;
  const auto found = std::ranges::find(unit.valves, place, &document::ValveResult::place);
  return found == unit.valves.end() ? nullptr : &*found;
}

const document::StackResult* stack_of(const document::ResultDocument& document,
                                      const FigureRequest& request) {
  if (request.unit >= document.units.size()) return document.stack ? &*document.stack : nullptr;
  const document::ValveResult* valve = valve_of(document.units[request.unit], request.foot_valve);
  if (!valve) return nullptr;
  const auto stroke = request.compression ? Stroke::Compression : Stroke::Rebound;
  const auto found = std::ranges::find(valve->directions, stroke, &document::DirectionResult::stroke);
  return found != valve->directions.end() && found->stack ? &*found->stack : nullptr;
}

std::optional<report::Scene> scene_of(const document::ResultDocument& document, const FigureRequest& request,
                                      units::System system) {
  const document::UnitResult* unit =
      request.unit < document.units.size() ? &document.units[request.unit] : nullptr;
  const document::StackResult* stack = stack_of(document, request);
  const auto stroke = request.compression ? Stroke::Compression : Stroke::Rebound;
  const auto drawn = [&](const std::vector<document::PlotSpec>& plots,
                         document::PlotId id) -> std::optional<report::Scene> {
    const document::PlotSpec* plot = document::find_plot(plots, id);
    if (!plot) return std::nullopt;
    return report::plot_scene(*plot, system);
  };
  if (request.which == "force" && unit) return drawn(unit->plots, document::PlotId::ForceOverSpeed);
  if (request.which == "pressures" && unit) return drawn(unit->plots, document::pressure_plot_id(stroke));
  if (request.which == "springs" && unit) return drawn(unit->plots, document::PlotId::SpringsOverTravel);
  if (request.which == "lift" && stack) return drawn(stack->plots, document::PlotId::LiftOverPressure);
  if (request.which == "stack" && stack) {
    const document::StackShape* bent = stack->shapes.empty() ? nullptr : &stack->shapes.back();
    return report::stack_scene(*stack, {460, 260, bent, nullptr, system});
  }
  if (request.which == "post" && unit) {
    const document::ValveResult* valve = valve_of(*unit, request.foot_valve);
    if (valve && valve->post) return report::post_scene(*valve->post, kPostWidth, system);
  }
  return std::nullopt;
}

}  // namespace

Answer<Attachment> packet_file(const document::ResultDocument& document, const std::string& file, bool letter,
                               units::System system) {
  const report::PacketOptions options{letter ? report::Paper::Letter : report::Paper::A4, system};
  if (file == "build-sheet.pdf" || file == "settings-guide.pdf" || file == "packet.html") {
    for (report::PacketFile& made : report::packet_files(document, options)) {
      if (made.name == file)
        return Attachment{file.ends_with(".pdf") ? "application/pdf" : "text/html; charset=utf-8", file,
                          std::move(made.bytes)};
    }
  }
  return failure(ApiFault{404, "no_such_file", "The packet of this job has no such file.",
                          "There is a settings guide only if the job has something to set."});
}

Answer<Attachment> figure(const document::ResultDocument& document, const FigureRequest& request,
                          units::System system) {
  const auto scene = scene_of(document, request, system);
  if (!scene) {
    return failure(ApiFault{404, "no_such_figure", "This job has nothing to draw here.",
                            "Check which units, valves and strokes the result has."});
  }
  return Attachment{"image/svg+xml", request.which + ".svg", report::to_svg(*scene, true)};
}

}  // namespace shimwright::server
