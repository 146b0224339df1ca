#pragma once
#include <span>
#include <string>
#include <variant>

#include "base/problem.h"
#include "flow/flow_point.h"
#include "flow/laminar.h"
#include "flow/needle.h"
#include "flow/notch.h"
#include "flow/orifice.h"
#include "oil/liquid.h"

namespace shimwright::flow {

/// Any passage whose opening does not move with pressure.
using Passage = std::variant<Orifice, Needle, Notches, AnnularGap, Capillary, Slot>;

/// Flow for a drop, either sign.
FlowPoint flow_through(const Passage& passage, const oil::Liquid& liquid, double drop);

/// Drop for a flow [Pa]: the inverse of flow_through to rounding; infinite for a flow through a closed
/// passage.
double drop_through(const Passage& passage, const oil::Liquid& liquid, double q);

/// Side by side: the same drop, flows add.
FlowPoint parallel_flow(std::span<const Passage> passages, const oil::Liquid& liquid, double drop);

/// In a row: the same flow, drops add; solved exactly for nonlinear laws.
FlowPoint series_flow(std::span<const Passage> passages, const oil::Liquid& liquid, double drop);

/// The same passage with its geometry worked out (a needle at its clicks, notches as one opening): same flow,
/// quicker to evaluate.
Passage settled(const Passage& passage);

void find_problems(const Passage& passage, const std::string& field, Problems& problems);

}  // namespace shimwright::flow
