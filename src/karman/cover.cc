#include "karman/cover.h"

#include "karman/pile.h"

namespace shimwright::karman {

Cover covers(const DiscTable& table, const plate::Stack& stack) {
  const Valve& valve = table.valve;
  if (stack.slide.travel > 0.0) return Cover::Float;
  if (stack.back_spring.present) return Cover::BackSpring;
  if (stack.clamp_slips) return Cover::SlippingClamp;
  if (stack.washer_radius > 0.0 && stack.washer_radius != stack.clamp_radius) return Cover::Washer;
  if (stack.clamp_radius != valve.clamp_radius || !(stack.load == valve.load) ||
      stack.seat.radius != valve.seat_radius)
    return Cover::OtherValve;

  int n_layers = 0;
  const plate::Disc* face = nullptr;
  const plate::Disc* before = nullptr;
  for (const plate::Disc& disc : stack.discs) {
    if (disc.bore_radius > valve.clamp_radius) return Cover::Ring;
    if (is_spacer(valve, disc)) {
      before = nullptr;
      continue;
    }
    if (disc.notches.count > 0) return Cover::Notches;
    if (disc.youngs_modulus != valve.youngs_modulus || disc.poisson_ratio != valve.poisson_ratio)
      return Cover::Material;
    if (before == nullptr || !are_equal(*before, disc)) {
      ++n_layers;
      if (find_disc(table, disc.outer_radius) == nullptr) return Cover::Rim;
    }
    before = &disc;
    if (face == nullptr) face = &disc;
  }
  if (n_layers == 0 || n_layers > kMostLayers) return Cover::Layers;
  if (face->outer_radius < valve.seat_radius * (1.0 - kSameRadius)) return Cover::Rim;
  return Cover::Covered;
}

std::string_view word(Cover cover) {
  switch (cover) {
    case Cover::Covered:
      return "covered";
    case Cover::Ring:
      return "a ring that nothing clamps";
    case Cover::Float:
      return "a stack that floats";
    case Cover::BackSpring:
      return "a back spring";
    case Cover::Notches:
      return "a notched rim";
    case Cover::SlippingClamp:
      return "a clamp that slips";
    case Cover::Washer:
      return "a washer of another radius than the boss";
    case Cover::OtherValve:
      return "another clamp, pocket or seat";
    case Cover::Material:
      return "another material";
    case Cover::Rim:
      return "a rim that the table has not, or a face disc that ends inside the seat";
    case Cover::Layers:
      return "no disc beyond the clamp, or too many different ones";
  }
  return "";
}

}  // namespace shimwright::karman
