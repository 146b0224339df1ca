#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/outcome.h"
#include "base/problem.h"
#include "flow/curtain.h"
#include "flow/laminar.h"
#include "flow/passage.h"
#include "oil/liquid.h"
#include "plate/lift_curve.h"
#include "plate/stack.h"

namespace shimwright::valve {

/// The two ways through a valve. A positive drop drives compression flow, a negative one rebound flow.
enum class Way { Compression, Rebound };

/// What opens for one way of flow: ports through the piston, and the stack that covers them.
///
/// With neither, this way passes only bleeds and leakage. With ports and no stack, the ports are open.
struct DirectionModel {
  std::optional<flow::Orifice> ports = {};  // all of this way's ports together, in a row with the stack
  std::optional<plate::Stack> stack = {};   // also a check plate: a stack that floats on a spring

  /// Of the edge under the lifted face disc.
  flow::Discharge curtain_discharge = flow::sharp_discharge(0.7, flow::Discharge::Laminar::WuestSlot);
  double land_width = 0.0;  // of the seat: its film acts in a row with the edge [m]; 0: edge alone

  /// Always open, behind these ports and beside the stack: notches in the face disc, holes through it.
  /// They pass both ways. The opening that a low seat leaves at rest counts among them by itself.
  std::vector<flow::Passage> face_bleeds = {};
};

/// A passage across the whole valve.
struct Bleed {
  flow::Passage passage = {};
  bool compression = true;  // passes compression flow
  bool rebound = true;      // passes rebound flow; false behind a check
};

struct ValveModel {
  DirectionModel compression = {};
  DirectionModel rebound = {};
  std::vector<Bleed> bleeds = {};                // bored, needle, jets: across both ways
  std::optional<flow::AnnularGap> leakage = {};  // past the piston band
};

/// What makes the valve one that cannot be computed; stacks and passages included. Empty when there is
/// nothing.
Problems validate(const ValveModel& model);

/// The lift of both stacks over their pocket pressure: the dear part, independent of oil and clicks.
struct ValveStacks {
  std::optional<plate::LiftCurve> compression = {};
  std::optional<plate::LiftCurve> rebound = {};
};

/// Units:  pressure_max: largest pocket pressure wanted [Pa].
ValveStacks solve_stacks(const ValveModel& model, double pressure_max, const plate::Options& options,
                         plate::Workspace& workspace);

struct LawOptions {
  double tolerance = 1e-7;  // relative misfit of flow between the table's points, from 1 mm^3/s up
  double drop_max = 50e6;   // no table goes far beyond this drop [Pa]
};

/// One point of a valve's law: everything at one drop, in flow order. Flows are positive in this way.
struct LawNode {
  double root_drop =
      0.0;  // sqrt(drop) [Pa^(1/2)]: in it every opening is a polynomial of degree three or less

  // values, each followed by its derivative with root_drop
  double q = 0.0, q_slope = 0.0;  // through the whole valve [m^3/s]
  double q_stack = 0.0,
         q_stack_slope = 0.0;               // under the lifted disc, or through ports that are open [m^3/s]
  double pocket = 0.0, pocket_slope = 0.0;  // pressure drop over the stack [Pa]
  double lift = 0.0, lift_slope = 0.0;      // [m]
};

/// Flow over drop for one way, as a table of cubics. The first node is zero drop.
struct DirectionLaw {
  std::vector<LawNode> nodes;
  double leakage_conductance = 0.0;  // of the band gap [m^3/(s.Pa)]
  bool has_stack = false;
  bool has_ports = false;
  double table_error =
      0.0;          // largest relative misfit of flow met between nodes, of sweep and bleeds together [-]
  Outcome outcome;  // inherited from the stack
};

/// Both ways of a valve as one monotone, passive law.
struct ValveLaw {
  DirectionLaw compression;
  DirectionLaw rebound;
};

/// Both ways of a valve in an oil without its bleeds and leakage: what no click changes, swept once.
struct ValveSweep {
  DirectionLaw compression;
  DirectionLaw rebound;
};

/// Sweeps the pocket pressure of both ways.
///
/// Valid:  a model without problems, its own stacks (SW_CHECK that each way has its curve).
ValveSweep sweep_valve(const ValveModel& model, const ValveStacks& stacks, const oil::Liquid& liquid,
                       const LawOptions& options = {});

/// The law of a valve in an oil.
///
/// Model:  sweep of the pocket pressure: lift, curtain flow, then the ports' own drop for that flow; bleeds
/// and
///         leakage beside it at the total drop. No iteration but the inverse of a port law that bends with
///         Re. Quasi-steady; the jet's own force on the disc is neglected.
/// Valid:  a model without problems (SW_CHECK). The table ends with the stack's curve or about
/// options.drop_max;
///         evaluating beyond goes on as an open orifice would and is marked.
/// Tested: valve_reference_test.cc, valve_property_test.cc
ValveLaw valve_law(const ValveModel& model, const ValveStacks& stacks, const oil::Liquid& liquid,
                   const LawOptions& options = {});

/// The same from a known sweep: only the model's bleeds and leakage are looked at, so every click is cheap.
ValveLaw valve_law_from_sweep(const ValveModel& model, const ValveSweep& sweep, const oil::Liquid& liquid,
                              const LawOptions& options = {});

/// The same for one way alone, with the same bits.
DirectionLaw sweep_way(const ValveModel& model, const ValveStacks& stacks, Way way, const oil::Liquid& liquid,
                       const LawOptions& options = {});
DirectionLaw way_law_from_sweep(const ValveModel& model, Way way, const DirectionLaw& sweep,
                                const oil::Liquid& liquid, const LawOptions& options = {});

/// Stacks and law together, the stacks solved as far as the flow needs.
struct SolvedValve {
  ValveStacks stacks;
  ValveLaw law;
  ValveSweep sweep;  // that the law was made from
};

/// Solves each stack a little further than the pocket pressure at which `q_max` passes its way.
///
/// Model:  the range is searched in the linear theory, which is quick, and checked in the requested theory;
/// both
///         curves are close to the range they are used in, so that their relative tolerance is worth
///         something.
/// Valid:  q_max > 0 [m^3/s]; a valve that would need more than options.drop_max ends there and marks what
/// lies beyond. Tested: solve_valve_test.cc
SolvedValve solve_valve(const ValveModel& model, const oil::Liquid& liquid, double q_max,
                        const plate::Options& plate_options, plate::Workspace& workspace,
                        const LawOptions& options = {});

/// Flow for a drop, both signed: positive in compression.
flow::FlowPoint flow_at(const ValveLaw& law, double drop);

/// Drop for a flow, both signed; infinite where the valve passes nothing.
double drop_at(const ValveLaw& law, double q);

enum class Carrier {
  Nothing,  // no flow
  Bleed,    // bleeds and leakage pass more than half
  Stack,    // the stack passes more, and resists more than its ports
  Port,     // the ports resist more than the stack in front of them: they choke it
};

/// What happens inside a valve at one drop. Flows and pressures carry the sign of the drop; lift does not.
struct ValveState {
  double drop = 0.0;       // [Pa]
  double q = 0.0;          // [m^3/s]
  double q_stack = 0.0;    // under the lifted disc, or through ports that are open [m^3/s]
  double q_bleed = 0.0;    // all that is always open, except leakage [m^3/s]
  double q_leakage = 0.0;  // past the band [m^3/s]
  double pocket = 0.0;     // drop over the stack [Pa]
  double port_drop = 0.0;  // drop over its ports [Pa]
  double lift = 0.0;       // [m]
  Carrier carrier = Carrier::Nothing;
  bool beyond_table = false;
};

ValveState state_at(const ValveLaw& law, double drop);

/// Smallest drop at which the ports resist more than the stack they feed [Pa]; infinite where they never do.
double choke_drop(const DirectionLaw& law);

/// Largest drop and flow of the table in this way, positive.
double largest_drop(const DirectionLaw& law);
double largest_flow(const DirectionLaw& law);

}  // namespace shimwright::valve
