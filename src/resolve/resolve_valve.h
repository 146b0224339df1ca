#pragma once
#include <optional>
#include <string>
#include <vector>

#include "file/spec.h"
#include "resolve/resolve_stack.h"
#include "valve/valve.h"

namespace shimwright::resolve {

/// One valve ready to be computed, with what its parts are called.
struct ValveParts {
  ValvePlace place = ValvePlace::Piston;
  std::string name;  // "fork leg, piston valve"
  valve::ValveModel model;
  std::optional<StackModel> compression_stack;
  std::optional<StackModel> rebound_stack;
  std::vector<std::optional<std::size_t>> spec_of_bleed;  // index into ValveSpec::bleeds (as model.bleeds)
  FieldPlaces places;
  const file::ValveSpec* spec = nullptr;
};

/// One valve of a unit.
///
/// Model:  a fixed discharge coefficient where one is written; else a port or bore that states its length is
/// a short
///         tube, any other opening a sharp edge of 0.7.
/// Tested: resolve_test.cc
std::optional<ValveParts> resolve_valve(const file::JobSpec& job, const file::ValveSpec& spec,
                                        ValvePlace place, const std::string& unit_name,
                                        const file::Quantity& piston, ResolveReport& report);

}  // namespace shimwright::resolve
