#include "flow/passage.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/check.h"

namespace shimwright::flow {
namespace {

using oil::Liquid;

// one overload per kind of passage; the variant finds it
FlowPoint flow_of(const Orifice& orifice, const Liquid& liquid, double drop) {
  return orifice_flow(orifice, liquid, drop);
}
FlowPoint flow_of(const Needle& needle, const Liquid& liquid, double drop) {
  return orifice_flow(needle_opening(needle), liquid, drop);
}
FlowPoint flow_of(const Notches& notches, const Liquid& liquid, double drop) {
  return orifice_flow(notch_opening(notches), liquid, drop);
}
FlowPoint flow_of(const AnnularGap& gap, const Liquid& liquid, double drop) {
  return gap_flow(gap, liquid, drop);
}
FlowPoint flow_of(const Capillary& capillary, const Liquid& liquid, double drop) {
  return capillary_flow(capillary, liquid, drop);
}
FlowPoint flow_of(const Slot& slot, const Liquid& liquid, double drop) {
  return slot_flow(slot, liquid, drop);
}

double drop_of(const Orifice& orifice, const Liquid& liquid, double q) {
  return orifice_drop(orifice, liquid, q);
}
double drop_of(const Needle& needle, const Liquid& liquid, double q) {
  return orifice_drop(needle_opening(needle), liquid, q);
}
double drop_of(const Notches& notches, const Liquid& liquid, double q) {
  return orifice_drop(notch_opening(notches), liquid, q);
}
template <typename Laminar>
double drop_of(const Laminar& laminar, const Liquid& liquid, double q) {
  if (q == 0.0) return 0.0;
  const double conductance = flow_of(laminar, liquid, 1.0).dq_ddp;
  return conductance > 0.0 ? q / conductance : std::copysign(std::numeric_limits<double>::infinity(), q);
}

}  // namespace

FlowPoint flow_through(const Passage& passage, const Liquid& liquid, double drop) {
  return std::visit([&](const auto& kind) { return flow_of(kind, liquid, drop); }, passage);
}

double drop_through(const Passage& passage, const Liquid& liquid, double q) {
  return std::visit([&](const auto& kind) { return drop_of(kind, liquid, q); }, passage);
}

FlowPoint parallel_flow(std::span<const Passage> passages, const Liquid& liquid, double drop) {
  FlowPoint sum;
  for (const Passage& passage : passages) {
    const FlowPoint point = flow_through(passage, liquid, drop);
    sum.q += point.q;
    sum.dq_ddp += point.dq_ddp;
  }
  return sum;
}

namespace {
/// Conductance of a row at zero drop; a closed passage closes the row.
double series_slope_at_rest(std::span<const Passage> passages, const Liquid& liquid) {
  double resistance = 0.0;
  for (const Passage& passage : passages) resistance += 1.0 / flow_through(passage, liquid, 0.0).dq_ddp;
  return 1.0 / resistance;
}
}  // namespace

FlowPoint series_flow(std::span<const Passage> passages, const Liquid& liquid, double drop) {
  SW_CHECK(!passages.empty());
  const double size = std::abs(drop);

  // no more can pass than through the tightest one alone
  FlowPoint tightest{std::numeric_limits<double>::infinity(), 0.0};
  for (const Passage& passage : passages) {
    const FlowPoint alone = flow_through(passage, liquid, size);
    if (alone.q < tightest.q) tightest = alone;
  }
  if (tightest.q == 0.0) return {0.0, series_slope_at_rest(passages, liquid)};

  // drops add up to the whole: Newton in logarithms, kept inside the bracket
  double low = 0.0;
  double high = tightest.q;
  double q = tightest.q;
  double resistance = 0.0;
  for (int i = 0; i < 200; ++i) {
    double sum = 0.0;
    resistance = 0.0;
    for (const Passage& passage : passages) {
      const double part = drop_through(passage, liquid, q);
      sum += part;
      resistance += 1.0 / flow_through(passage, liquid, part).dq_ddp;
    }
    (sum > size ? high : low) = q;
    double next = q * std::exp(std::log(size / sum) * sum / (q * resistance));
    if (!(next >= low && next <= high)) next = 0.5 * (low + high);
    const double moved = std::abs(next - q);
    q = next;
    if (moved <= 1e-15 * q) break;
  }
  return {std::copysign(q, drop), 1.0 / resistance};
}

Passage settled(const Passage& passage) {
  if (const auto* needle = std::get_if<Needle>(&passage)) return needle_opening(*needle);
  if (const auto* notches = std::get_if<Notches>(&passage)) return notch_opening(*notches);
  return passage;
}

void find_problems(const Passage& passage, const std::string& field, Problems& problems) {
  std::visit([&](const auto& kind) { find_problems(kind, field, problems); }, passage);
}

}  // namespace shimwright::flow
