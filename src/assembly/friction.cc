#include <algorithm>
#include <array>

#include "assembly/torque.h"

// The friction states: nut factors as trade tables give them, and the coefficients behind them.

namespace shimwright::assembly {
namespace {

/// The screw that trade tables of nut factors are about: M8 x 1.25, hexagon nut.
NutJoint table_joint() {
  return {.thread = nominal_thread(8e-3, 1.25e-3), .face_outer = 11.63e-3, .face_inner = 9e-3};
}

FrictionState state_of(ThreadState state, std::string_view id, std::string_view label, const Band& nut_factor,
                       std::string_view source) {
  const NutJoint joint = table_joint();
  return {state,
          id,
          label,
          nut_factor,
          {friction_at_nut_factor(joint, nut_factor.low), friction_at_nut_factor(joint, nut_factor.typical),
           friction_at_nut_factor(joint, nut_factor.high)},
          source};
}

/// The tables' own scatter is +/-25 % of the typical value, 30 % where one single value is all there is;
/// widened to the range where they give one.
const std::array<FrictionState, 4>& states() {
  static const std::array kStates = {
      state_of(ThreadState::Dry, "dry", "clean and dry", {0.15, 0.20, 0.25},
               "trade tables: plain dry steel K 0.20 to 0.25, scatter 25-30 %"),
      state_of(ThreadState::Oiled, "oiled", "wetted with oil", {0.124, 0.165, 0.22},
               "trade tables: oiled K 0.15 to 0.18, zinc with light oil to 0.22, scatter 25-30 %"),
      state_of(ThreadState::Threadlocker, "threadlocker", "liquid anaerobic threadlocker",
               {0.098, 0.14, 0.182},
               "trade tables: anaerobic adhesive on steel K about 0.14 while wet, scatter 30 %"),
      state_of(ThreadState::AntiSeize, "anti-seize", "anti-seize paste or wax", {0.09, 0.12, 0.15},
               "trade tables: K 0.10 to 0.14, scatter 25-30 %"),
  };
  return kStates;
}

}  // namespace

std::span<const FrictionState> friction_states() {
  return states();
}

const FrictionState& friction_of(ThreadState state) {
  return *std::ranges::find(states(), state, &FrictionState::state);
}

const FrictionState* find_friction(std::string_view id) {
  const auto found = std::ranges::find(states(), id, &FrictionState::id);
  return found == states().end() ? nullptr : &*found;
}

}  // namespace shimwright::assembly
