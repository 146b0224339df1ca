#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/check.h"
#include "plate/limits.h"
#include "plate/workspace.h"

namespace shimwright::plate {
namespace {

constexpr double kSmallestShare =
    0.05;                           // the error is relative to no less than this share of the largest lift
constexpr double kMeshShare = 1.5;  // halving the mesh takes two thirds of its error or more
// where discs lie on each other the place of a contact may fall between the points of both meshes
constexpr double kContactPlace = 3e-4;
constexpr double kMeshTolerance = 1e-5;  // of that second run, and where discs lie on each other:
constexpr double kMeshContactTolerance = 1e-4;
constexpr double kNoLift = 1e-12;  // [m]
constexpr double kNoForce = 1e-9;  // [N]
// Equal discs that lie on each other are one layer: exact to the second power of height over radius of bend.
// Against the same discs one by one, 2 to 30 of them, the lift was within this share of that power.
constexpr double kLumpShare = 0.2;
constexpr double kCarries = 1e-4;  // a disc that takes less than this share of the energy could be left out

/// Square of the von Mises stress at the worse surface, from membrane and bending stress, of a disc that lies
/// `height` above the middle of its layer.
double worse_surface(const Section& section, double thickness, double height) {
  const double over = 1.0 / thickness;
  const double bend = 6.0 * over * over;
  const double moment_r = section.moment_radial + height * section.moment_radial_by_height;
  const double moment_t = section.moment_hoop + height * section.moment_hoop_by_height;
  const double side_r[] = {over * section.force_radial + bend * moment_r,
                           over * section.force_radial - bend * moment_r};
  const double side_t[] = {over * section.force_hoop + bend * moment_t,
                           over * section.force_hoop - bend * moment_t};
  const auto square = [&](int side) {
    return side_r[side] * side_r[side] - side_r[side] * side_t[side] + side_t[side] * side_t[side];
  };
  return std::max(square(0), square(1));
}

DiscShape shape_of(const StackSolver& solver, int l, double height, const std::vector<Section>& sections) {
  const Layer& layer = solver.layout().layers[l];
  DiscShape shape;
  for (std::size_t k = 0; k < sections.size(); ++k) {
    shape.radius.push_back(solver.layout().radius[layer.begin + k]);
    shape.deflection.push_back(solver.lift_of_disc(l, static_cast<int>(k), height));
    shape.slope.push_back(sections[k].slope);
    shape.stress.push_back(std::sqrt(worse_surface(sections[k], layer.thickness, height)));
  }
  return shape;
}

/// The largest stress of a disc that lies `height` above the middle of its layer, and where.
void find_stress(const Layout& layout, const Layer& layer, double height,
                 const std::vector<Section>& sections, DiscResult& result) {
  double largest = 0.0;
  std::size_t where = 0;
  for (std::size_t k = 0; k < sections.size(); ++k) {
    const double square = worse_surface(sections[k], layer.thickness, height);
    if (square <= largest) continue;
    largest = square;
    where = k;
  }
  if (largest == 0.0) return;
  result.max_stress = std::sqrt(largest);
  result.max_stress_radius = layout.radius[layer.begin + where];
}

/// Largest square of the mean height of the layer's discs over the radius that they bend to.
double lump_bend(const Layer& layer, const std::vector<Section>& sections) {
  const double t = layer.thickness;
  const double nu = layer.poisson_ratio;
  const double stiffness = layer.youngs_modulus * t * t * t / (12.0 * (1.0 - nu * nu));
  double largest = 0.0;
  for (const Section& section : sections) largest = std::max(largest, section.moment_radial_by_height);
  return layer.spread() * largest / stiffness;
}

void collect_layer(const Stack& stack, StackSolver& solver, int l, CollectScratch& scratch,
                   StackPoint& point) {
  const Layout& layout = solver.layout();
  const Layer& layer = layout.layers[l];
  std::vector<Section>& sections = scratch.sections;
  double energy = 0.0;
  solver.sections(l, sections, energy);

  DiscResult result;
  find_stress(layout, layer, 0.0, sections, result);
  result.rim_deflection = solver.contact().lift[l].back();
  result.force_share = energy / layer.n_equal;
  const double buckling = scratch.rims[l].ratio(sections);
  if (layer.n_equal > 1)
    point.mesh_error = std::max(point.mesh_error, kLumpShare * lump_bend(layer, sections));
  const double offset = solver.offset(l);
  for (int i = 0; i < layer.n_equal; ++i) {
    const int disc = layer.first_disc + i;
    const double height = offset > 0.0 ? i * layer.thickness - offset : 0.0;
    if (offset > 0.0) {
      find_stress(layout, layer, height, sections, result);
      result.rim_deflection = solver.lift_of_disc(l, layer.n_stations() - 1, height);
    }
    point.discs[disc] = result;
    if (solver.options().shapes) point.shapes[disc] = shape_of(solver, l, height, sections);
    judge_disc(stack.discs[disc], disc, sections, buckling, point);
  }
}

void collect_contacts(const StackSolver& solver, StackPoint& point) {
  const Layout& layout = solver.layout();
  const int n_layers = layout.n_layers();
  const int n_discs = static_cast<int>(point.discs.size());
  const ContactState& contact = solver.contact();
  double penetration = 0.0;
  double tension = 0.0;
  double largest_lift = 0.0;
  for (const std::vector<double>& lifts : contact.lift)
    for (double lift : lifts) largest_lift = std::max(largest_lift, std::abs(lift));
  double largest_force = point.pressure * layout.load_force;
  std::size_t n_press = 0;
  for (double force : contact.force) {
    largest_force = std::max(largest_force, std::abs(force));
    n_press += force != 0.0 ? 1 : 0;
  }
  point.contacts.reserve(n_press);

  for (std::size_t p = 0; p < layout.points.size(); ++p) {
    const ContactPoint& at = layout.points[p];
    const double force = contact.force[p];
    penetration = std::max(penetration, -contact.gap[p]);
    tension = std::max(tension, -force);
    if (force == 0.0) continue;
    Contact found;
    found.lower = -1;
    if (at.lower != kBelow)
      found.lower = layout.layers[at.lower].first_disc + layout.layers[at.lower].n_equal - 1;
    found.upper = at.upper < n_layers ? layout.layers[at.upper].first_disc : n_discs + at.upper - n_layers;
    found.radius = layout.radius[at.station];
    found.force = force;
    point.contacts.push_back(found);
    if (at.lower == kBelow && at.station == layout.seat_station) point.seat_force += force;
    if (at.upper == n_layers + 1) point.spring_force += force;
  }
  // at rest both are rounding, and so is their ratio
  point.complementarity_error =
      std::max(penetration / std::max(largest_lift, kNoLift), tension / std::max(largest_force, kNoForce));
}

}  // namespace

void begin_collecting(const Stack& stack, const StackSolver& solver, CollectScratch& scratch) {
  const Layout& layout = solver.layout();
  scratch.rims.resize(std::max(scratch.rims.size(), layout.layers.size()));
  for (int l = 0; l < layout.n_layers(); ++l) {
    const Layer& layer = layout.layers[l];
    const std::span<const double> radius(&layout.radius[layer.begin], layer.n_stations());
    scratch.rims[l].set_up(radius, stack.discs[layer.first_disc], layer.ring);
  }
}

void collect_point(const Stack& stack, StackSolver& solver, CollectScratch& scratch, StackPoint& point) {
  const int n_discs = static_cast<int>(stack.discs.size());
  point.pressure = solver.pressure();
  point.discs.assign(n_discs, DiscResult{});
  if (solver.options().shapes) point.shapes.assign(n_discs, DiscShape{});
  solver.load_sections();
  for (int l = 0; l < solver.layout().n_layers(); ++l) collect_layer(stack, solver, l, scratch, point);

  double energy = 0.0;
  for (const DiscResult& disc : point.discs) energy += disc.force_share;
  for (int i = 0; i < n_discs; ++i) {
    DiscResult& disc = point.discs[i];
    disc.force_share = energy > 0.0 ? std::max(disc.force_share / energy, 0.0) : 0.0;
    disc.carries_load = disc.force_share > kCarries;
    if (disc.max_stress > point.max_stress) {
      point.max_stress = disc.max_stress;
      point.worst_disc = i;
    }
  }
  point.face_stress = point.discs[0].max_stress;
  collect_contacts(solver, point);
  const double height = stack.seat.height;
  point.lift_seat = solver.seat_lift() - height;
  point.lift_rim = solver.rim_lift() - height;
  point.slope = solver.find_seat_slope();
}

double slide_end(const Stack& stack, double load_force) {
  const Float& slide = stack.slide;
  return (slide.spring_force + slide.spring_rate * slide.travel) / load_force;
}

Lifted floated(const Stack& stack, double load_force, double pressure, double bend) {
  const Float& slide = stack.slide;
  const double pushed = (pressure * load_force - slide.spring_force) / slide.spring_rate;
  const double centre = std::min(pushed, slide.travel);
  if (centre + bend <= 0.0) return {};
  return {centre + bend, centre, pushed < slide.travel ? load_force / slide.spring_rate : 0.0};
}

Stack bending_stack(const Stack& stack) {
  Stack bending = stack;
  if (stack.slide.travel > 0.0) bending.seat.present = false;
  return bending;
}

namespace {

void set_outcome(const StackSolver& solver, StackPoint& point) {
  point.outcome.iterations = solver.n_newton();
  point.outcome.residual = std::max(solver.newton_change(), point.complementarity_error);
}

/// What is left between a disc and the seat that it presses on is rounding.
double without_noise(const Stack& stack, double lift) {
  return stack.seat.present && std::abs(lift) < kNoLift ? 0.0 : lift;
}

bool is_finite(const StackPoint& point) {
  return std::isfinite(point.lift_seat + point.lift_rim + point.slope + point.max_stress);
}

/// A pressure at which nothing settled has no numbers: what the solver came to is no state of the stack.
StackPoint stalled_point(double pressure, std::size_t n_discs, bool shapes) {
  StackPoint point;
  point.pressure = pressure;
  point.discs.assign(n_discs, DiscResult{});
  if (shapes) point.shapes.assign(n_discs, DiscShape{});
  point.mesh_error = 1.0;
  point.outcome = {.status = Status::Stalled,
                   .residual = 1.0,
                   .note = "the contact and the deflection did not settle at this pressure"};
  return point;
}

/// A floating stack: its slide comes to what it bends.
void add_slide(const Stack& stack, double load_force, StackPoint& point) {
  const Lifted lifted = floated(stack, load_force, point.pressure, point.lift_seat);
  const bool off_seat = lifted.lift > 0.0;
  point.float_travel = std::max(0.0, lifted.centre);
  point.lift_rim = off_seat ? lifted.centre + point.lift_rim : 0.0;
  point.slope = off_seat ? lifted.slope + point.slope : 0.0;
  point.lift_seat = lifted.lift;
  point.seat_force = off_seat ? 0.0 : std::max(stack.slide.spring_force - point.pressure * load_force, 0.0);
}

/// The lift at the last pressure on a mesh twice as fine, and what that says of all. The truth was within
/// this estimate in 89, and within twice of it in 98 of 100 runs of random stacks.
void estimate_mesh_error(const Stack& bending, const StackSolver& solved, StackSolver& solver,
                         StackResult& result) {
  const Options& options = solved.options();
  Options fine = options;
  fine.refinement = 2 * options.refinement;
  const bool touches = solved.layout().points.size() > 1;
  fine.tolerance = std::max(options.tolerance, touches ? kMeshContactTolerance : kMeshTolerance);
  solver.set_up(bending, fine);
  const bool near = options.theory == Theory::Large;
  if (near) solver.begin_like(solved);
  bool ended = solver.solve(solved.pressure());
  if (near && !ended) {
    solver.set_up(bending, fine);
    ended = solver.solve(solved.pressure());
  }
  const double off = kMeshShare * std::abs(solver.seat_lift() - solved.seat_lift());
  const bool lies_on_equals =
      std::ranges::any_of(solved.layout().layers, [](const Layer& layer) { return layer.n_equal > 1; });
  const double least = touches || lies_on_equals ? kContactPlace : 0.0;
  double largest = 0.0;
  for (const StackPoint& point : result.points) largest = std::max(largest, std::abs(point.lift_seat));
  for (StackPoint& point : result.points) {
    if (point.outcome.status == Status::Stalled) continue;
    const double of = std::max(std::abs(point.lift_seat), kSmallestShare * largest);
    point.mesh_error = !ended ? 1.0 : point.mesh_error + std::max(least, of > 0.0 ? off / of : 0.0);
  }
}

}  // namespace

namespace {

constexpr int kStallsBorne = 2;  // pressures that stall before those above are not tried any more

/// Visits each pressure, from low to high and each from those before, with the solver there; `visit` gets its
/// place among them and whether it settled. One that is given twice is visited once: `again` gets both
/// places.
template <typename Visit, typename Again>
void follow_pressures(std::span<const double> pressures, Workspace::Impl& work, Visit&& visit,
                      Again&& again) {
  work.order.resize(pressures.size());
  for (std::size_t i = 0; i < pressures.size(); ++i) {
    SW_CHECK(std::isfinite(pressures[i]) && pressures[i] >= 0.0, pressures[i]);
    work.order[i] = static_cast<int>(i);
  }
  std::stable_sort(work.order.begin(), work.order.end(),
                   [&](int a, int b) { return pressures[a] < pressures[b]; });
  int before = -1;
  int n_stalled = 0;  // one after the other
  for (const int i : work.order) {
    if (before >= 0 && pressures[before] == pressures[i]) {
      again(before, i);
      continue;
    }
    const bool ended = n_stalled < kStallsBorne && work.solver.follow(pressures[i]);
    n_stalled = ended ? 0 : n_stalled + 1;
    visit(i, ended);
    before = i;
  }
}

void check(const Stack& stack) {
  const Problems problems = validate(stack);
  SW_CHECK(problems.empty(), problems.empty() ? "" : problems[0].field);
}

}  // namespace

StackResult stack_response(const Stack& stack, std::span<const double> pressures, const Options& options,
                           Workspace& workspace) {
  check(stack);
  Workspace::Impl& work = workspace.impl();
  const Stack bending = bending_stack(stack);
  work.solver.set_up(bending, options);
  const double load_force = work.solver.layout().load_force;
  begin_collecting(bending, work.solver, work.scratch);

  StackResult result;
  result.points.resize(pressures.size());
  bool any_ended = false;
  const auto collect = [&](int i, bool ended) {
    StackPoint& point = result.points[i];
    if (ended) {
      collect_point(bending, work.solver, work.scratch, point);
      set_outcome(work.solver, point);
    }
    if (!ended || !is_finite(point)) {
      point = stalled_point(pressures[i], stack.discs.size(), options.shapes);
      result.outcome = worse(result.outcome, point.outcome);
      return;
    }
    any_ended = true;
    if (stack.slide.travel > 0.0) add_slide(stack, load_force, point);
    point.lift_seat = without_noise(stack, point.lift_seat);
    const double round = 2.0 * std::numbers::pi * stack.seat.radius * stack.load.arc_fraction;
    point.opening_area = round * std::max(point.lift_seat, 0.0);
    judge_point(stack, options, point);
    result.outcome = worse(result.outcome, point.outcome);
  };
  follow_pressures(pressures, work, collect,
                   [&](int first, int twin) { result.points[twin] = result.points[first]; });
  if (options.estimate_mesh_error && any_ended) estimate_mesh_error(bending, work.solver, work.other, result);
  return result;
}

std::vector<Lift> stack_lifts(const Stack& stack, std::span<const double> pressures, const Options& options,
                              Workspace& workspace) {
  check(stack);
  Workspace::Impl& work = workspace.impl();
  work.solver.set_up(bending_stack(stack), options);
  const double load_force = work.solver.layout().load_force;

  std::vector<Lift> lifts(pressures.size());
  const auto collect = [&](int i, bool ended) {
    StackPoint point;
    point.pressure = pressures[i];
    if (ended) {
      point.lift_seat = work.solver.seat_lift() - stack.seat.height;
      point.lift_rim = work.solver.rim_lift() - stack.seat.height;
      set_outcome(work.solver, point);
    }
    if (!ended || !is_finite(point)) {
      lifts[i].outcome = stalled_point(pressures[i], 0, false).outcome;
      return;
    }
    if (stack.slide.travel > 0.0) add_slide(stack, load_force, point);
    lifts[i] = {without_noise(stack, point.lift_seat), point.lift_rim, std::move(point.outcome)};
  };
  follow_pressures(pressures, work, collect, [&](int first, int twin) { lifts[twin] = lifts[first]; });
  return lifts;
}

Workspace::Workspace() : impl_(std::make_unique<Impl>()) {}
Workspace::~Workspace() = default;
Workspace::Workspace(Workspace&&) noexcept = default;
Workspace& Workspace::operator=(Workspace&&) noexcept = default;

void Workspace::remember_curves(int most) {
  SW_CHECK(most >= 0, most);
  impl_->most_known_curves = most;
  while (static_cast<int>(impl_->known_curves.size()) > most) impl_->known_curves.pop_back();
}

}  // namespace shimwright::plate
