#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "damper/motion_elements.h"
#include "damper/motion_model.h"
#include "damper/motion_system.h"
#include "num/root.h"

namespace shimwright::damper {
namespace {

constexpr double kLeastPressure = 1.0;  // where the search for rest stops pulling [Pa]
constexpr double kPastStop = 0.05;      // how far the search may press into a stop [m]

/// Oil and air of the whole damper, and room for them.
struct Contents {
  double volume = 0.0;      // of all chambers, rod fully out [m^3]
  double compliance = 0.0;  // [m^3/Pa]
  double oil = 0.0;         // at one atmosphere [m^3]
  double air = 0.0;         // likewise, trapped; bubbles are in the oil
};

Contents contents_of(const MotionModel& model) {
  Contents all;
  for (const MotionChamber* chamber : {&model.compression, &model.rod, &model.reservoir.oil}) {
    all.volume += chamber->volume;
    all.compliance += chamber->compliance;
    all.air += chamber->trapped_air;
  }
  const double pressure = motion::holding_pressure(model.reservoir, 0.0, 0.0).value;
  const double room = all.volume + all.compliance * (pressure - oil::kAtmosphere);
  // the bubbles were in the oil when the reservoir was set: with them it fills the room at that pressure
  all.oil = room / motion::squeezed_at(model.oil, pressure).oil - all.air;
  return all;
}

/// Room left over when the reservoir has taken a volume; negative where contents want more.
double room_left(const MotionModel& model, const Contents& all, double travel, double taken,
                 double held_back) {
  const double pressure =
      std::max(kLeastPressure, motion::holding_pressure(model.reservoir, taken, travel).value - held_back);
  const motion::Squeezed s = motion::squeezed_at(model.oil, pressure);
  return all.volume - model.rod_area * travel + taken + all.compliance * (pressure - oil::kAtmosphere) -
         all.oil * s.oil - all.air * s.air;
}

}  // namespace

double tube_compliance(double volume, double bore, double wall, double youngs_modulus) {
  SW_CHECK(wall > 0.0 && youngs_modulus > 0.0, wall, youngs_modulus);
  return volume * bore / (youngs_modulus * wall);
}

RestPoint rest_at(const MotionModel& model, double travel, double held_back) {
  const Contents all = contents_of(model);
  const MotionReservoir& reservoir = model.reservoir;

  // room rises with what the reservoir takes, as its pressure does
  double high = all.volume;
  if (reservoir.piston)
    high = std::min(high, reservoir.piston->area * (reservoir.piston->travel_out + kPastStop));
  if (reservoir.gas)
    high = std::min(high, (1.0 - 1e-9) * (reservoir.gas->volume - reservoir.gas->travel_area * travel));
  const num::Root root =
      num::root_between([&](double taken) { return room_left(model, all, travel, taken, held_back); },
                        -all.volume, high, {.x_tolerance = 1e-15});

  RestPoint rest;
  rest.reservoir_taken = root.x;
  const motion::HoldingPressure holding = motion::holding_pressure(reservoir, root.x, travel);
  rest.pressure = std::max(kLeastPressure, holding.value - held_back);
  const motion::Squeezed s = motion::squeezed_at(model.oil, rest.pressure);
  rest.gas_volume = all.air * s.air + all.oil * s.bubbles;
  rest.force = (rest.pressure - model.atmospheric_pressure) * model.rod_area;
  if (reservoir.gas)
    rest.force += (holding.gas_pressure - model.atmospheric_pressure) * reservoir.gas->travel_area;
  if (model.outer_air)
    rest.force += motion::outer_air_force(*model.outer_air, model.atmospheric_pressure, travel).value;
  if (model.springs)
    rest.force += spring::force_at(model.springs->unit, model.springs->conditions, travel).force;
  if (reservoir.piston) {
    rest.piston_travel = root.x / reservoir.piston->area;
    constexpr double kTouch = 1e-9;  // less is rounding [m]
    if (rest.piston_travel > reservoir.piston->travel_out + kTouch ||
        rest.piston_travel < -reservoir.piston->travel_in - kTouch)
      rest.outcome = {.status = Status::OutOfRange, .note = "the free piston is at its stop"};
  }
  if (!root.ok())
    rest.outcome = {.status = Status::Stalled,
                    .residual = std::abs(root.value) / all.volume,
                    .note = "at this travel the reservoir has no room for the oil that the rod displaces"};
  return rest;
}

}  // namespace shimwright::damper
