#include "job/stack_view.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <utility>

#include "job/run_stack.h"

namespace shimwright::job {
namespace {

/// What a path leads to.
struct Found {
  const file::DirectionSpec* direction = nullptr;
  resolve::StackContext context;
  const document::DirectionResult* result = nullptr;  // in the document; null for a lone stack
};

const document::DirectionResult* result_of(const document::ResultDocument& document, std::size_t unit,
                                           ValvePlace place, Stroke stroke) {
  if (unit >= document.units.size()) return nullptr;
  const auto& valves = document.units[unit].valves;
  const auto valve = std::ranges::find(valves, place, &document::ValveResult::place);
  if (valve == valves.end()) return nullptr;
  const auto direction = std::ranges::find(valve->directions, stroke, &document::DirectionResult::stroke);
  return direction == valve->directions.end() ? nullptr : &*direction;
}

/// The index of "unit[3].": 3; a file with one [unit] says "unit." .
std::optional<std::size_t> take_unit(std::string_view& path) {
  if (!path.starts_with("unit")) return std::nullopt;
  path.remove_prefix(4);
  std::size_t index = 0;
  if (path.starts_with('[')) {
    const auto [end, fault] = std::from_chars(path.data() + 1, path.data() + path.size(), index);
    const auto n = static_cast<std::size_t>(end - path.data());
    if (fault != std::errc() || n >= path.size() || path[n] != ']') return std::nullopt;
    path.remove_prefix(n + 1);
  }
  if (!path.starts_with('.')) return std::nullopt;
  path.remove_prefix(1);
  return index;
}

std::optional<Found> find(const file::JobSpec& spec, const document::ResultDocument& document,
                          std::string_view path) {
  if (path == "stack") {
    if (!spec.stack) return std::nullopt;
    return Found{&*spec.stack, {"stack", 0.0}, nullptr};
  }
  const auto unit = take_unit(path);
  if (!unit || *unit >= spec.units.size()) return std::nullopt;
  const bool foot = path.starts_with("foot_valve.");
  if (!foot && !path.starts_with("piston_valve.")) return std::nullopt;
  const auto& valve = foot ? spec.units[*unit].foot_valve : spec.units[*unit].piston_valve;
  path.remove_prefix(path.find('.') + 1);
  const bool compression = path == "compression";
  if (!valve || (!compression && path != "rebound")) return std::nullopt;
  const auto& direction = compression ? valve->compression : valve->rebound;
  if (!direction || direction->stack.empty()) return std::nullopt;
  const double post = valve->post && valve->post->thread ? valve->post->thread.size.diameter : 0.0;
  return Found{&*direction,
               {"stack", post},
               result_of(document, *unit, foot ? ValvePlace::Foot : ValvePlace::Piston,
                         compression ? Stroke::Compression : Stroke::Rebound)};
}

/// Drop over the stack itself in a row of the law.
double pocket_of(const document::LawPoint& point) {
  return std::max(0.0, point.drop - point.port_drop);
}

/// The row of the law where `value_of` is `value`: straight between two rows, from nothing at rest, and the
/// last one beyond the end.
template <typename ValueOf>
document::LawPoint row_at(const std::vector<document::LawPoint>& law, double value, ValueOf&& value_of) {
  document::LawPoint below;
  for (const document::LawPoint& above : law) {
    const double high = value_of(above), low = value_of(below);
    if (value > high || high <= low) {
      below = above;
      continue;
    }
    const double share = (value - low) / (high - low);
    const auto between = [&](double document::LawPoint::* member) {
      return below.*member + share * (above.*member - below.*member);
    };
    document::LawPoint row;
    row.speed = between(&document::LawPoint::speed);
    row.flow = between(&document::LawPoint::flow);
    row.drop = between(&document::LawPoint::drop);
    row.port_drop = between(&document::LawPoint::port_drop);
    row.bleed_flow = between(&document::LawPoint::bleed_flow);
    row.stack_flow = between(&document::LawPoint::stack_flow);
    return row;
  }
  return below;
}

StackView view_of(const StackState& state) {
  StackView view;
  view.pressure = state.point.pressure;
  view.lift_at_seat = state.point.lift_at_seat;
  view.lift_at_rim = state.point.lift_at_rim;
  view.float_used = state.point.float_used;
  view.opening_area = state.point.opening_area;
  view.contacts = state.point.contacts;
  view.outcome = state.point.outcome;
  for (std::size_t i = 0; i < state.geometry.discs.size(); ++i) {
    const document::DiscDrawing& drawing = state.geometry.discs[i];
    const document::DiscStress& stress = state.point.discs[i];
    const document::DiscShape& shape = state.shape.discs[i];
    view.discs.push_back({drawing.number, drawing.label, drawing.thickness, shape.radius, shape.height,
                          drawing.height, shape.stress, stress.stress, stress.yield_margin,
                          stress.fatigue_margin, drawing.carries});
  }
  return view;
}

}  // namespace

struct StackViewer::Impl {
  plate::Workspace workspace;
};

StackViewer::StackViewer() : impl_(std::make_unique<Impl>()) {}
StackViewer::~StackViewer() = default;

Result<StackView, StackViewFault> StackViewer::view(const file::JobSpec& spec,
                                                    const document::ResultDocument& document,
                                                    const StackViewRequest& request) {
  const auto found = find(spec, document, request.path);
  if (!found) return failure(StackViewFault{"The job has no stack at this path.", {}});
  resolve::ResolveReport report;
  const auto model = resolve::resolve_stack(spec, *found->direction, found->context, report);
  if (!model)
    return failure(StackViewFault{"This stack cannot be calculated.", std::move(report.diagnostics)});

  // pressure and speed belong together by the law of the valve
  const std::vector<document::LawPoint> none;
  const std::vector<document::LawPoint>& law = found->result ? found->result->law : none;
  if (!request.pressure && law.empty())
    return failure(StackViewFault{"A stack alone has no shaft speed. Choose a pressure.", {}});
  std::optional<document::LawPoint> row;
  if (!law.empty()) {
    row = request.pressure
              ? row_at(law, *request.pressure, pocket_of)
              : row_at(law, *request.speed, [](const document::LawPoint& point) { return point.speed; });
  }
  const double pressure = request.pressure ? *request.pressure : pocket_of(*row);

  const StackState state =
      stack_state(*model, pressure, document.header.theory, request.system, impl_->workspace);
  if (state.point.outcome.status == Status::Stalled)
    return failure(StackViewFault{"The stack could not be solved at this pressure. " +
                                      document::sentence_case(state.point.outcome.note) + ".",
                                  {}});
  StackView view = view_of(state);
  view.path = request.path;
  if (row) {
    view.speed = row->speed;
    view.flow = row->flow;
    view.bleed_flow = row->bleed_flow;
    view.stack_flow = row->stack_flow;
  }
  return view;
}

}  // namespace shimwright::job
