#include <fmt/core.h>

#include <algorithm>
#include <numbers>

#include "file/load_check.h"

namespace shimwright::file {
namespace {

constexpr int kMostDiscs = 200;  // in one stack; more is a mistyped count

/// A disc that the clamp does not hold.
bool is_ring(const DiscSpec& disc, const DirectionSpec& direction) {
  return disc.bore && direction.clamp && disc.bore.si > direction.clamp.si;
}

std::string named(const char* what, const Quantity& value) {
  return fmt::format("{} of {}", what, value.text);
}

void check_face(const Checks& checks, const DirectionSpec& direction) {
  const Quantity& face = direction.stack.front().outer_diameter;
  if (!face) return;
  if (direction.clamp && direction.clamp.si >= face.si)
    checks.fault(Code::ClampNotSmaller, direction.clamp.origin,
                 {"the clamp is not smaller than the face shim", direction.clamp.text,
                  "less than " + face.text, "correct the clamp, or put the face shim first in the stack"});
  const bool has_face_at_seat = direction.seat && direction.seat.si < face.si;
  if (direction.seat && !has_face_at_seat)
    checks.fault(Code::SeatOutsideFace, direction.seat.origin,
                 {"the seat is outside the face shim", direction.seat.text, "less than " + face.text,
                  "fit a larger face shim, or correct the seat"});
  if (direction.back_spring && direction.back_spring->diameter &&
      direction.back_spring->diameter.si >= face.si)
    checks.fault(Code::BackSpringOutside, direction.back_spring->diameter.origin,
                 {"the back spring is wider than the face shim", direction.back_spring->diameter.text,
                  "less than " + face.text, "correct its diameter"});
}

void check_seat_and_clamp(const Checks& checks, const DirectionSpec& direction) {
  const Quantity& clamp = direction.clamp;
  const Quantity& seat = direction.seat;
  if (clamp && seat && seat.si <= clamp.si)
    checks.fault(Code::SeatInsideClamp, seat.origin,
                 {"the seat is inside the clamp", seat.text, "more than " + clamp.text,
                  "correct the seat or the clamp"});
  if (direction.boss && seat && direction.boss.si >= seat.si)
    checks.fault(Code::BossNotSmaller, direction.boss.origin,
                 {"the boss is not smaller than the seat", direction.boss.text, "less than " + seat.text,
                  "correct it, or remove it"});
  if (clamp && direction.back_spring && direction.back_spring->diameter &&
      direction.back_spring->diameter.si <= clamp.si)
    checks.fault(Code::BackSpringOutside, direction.back_spring->diameter.origin,
                 {"the back spring presses inside the clamp", direction.back_spring->diameter.text,
                  "more than " + clamp.text, "correct its diameter"});
}

void check_pocket(const Checks& checks, const DirectionSpec& direction) {
  if (!direction.pocket) return;
  const PocketSpec& pocket = *direction.pocket;
  if (pocket.inner && pocket.outer && pocket.inner.si >= pocket.outer.si)
    checks.fault(Code::PocketReversed, pocket.inner.origin,
                 {"the pocket's inner edge is not smaller than its outer edge", pocket.inner.text,
                  "less than " + pocket.outer.text, "swap the two"});
  if (pocket.outer && direction.clamp && pocket.outer.si <= direction.clamp.si)
    checks.fault(Code::PocketInsideClamp, pocket.outer.origin,
                 {"the pocket is inside the clamp, where no shim can lift", pocket.outer.text,
                  "more than " + named("the clamp", direction.clamp), "correct the pocket or the clamp"});
  const Quantity& seat = direction.seat;
  const bool seals = direction.seat_support.value_or(true);
  for (const Quantity& edge : {pocket.inner, pocket.outer})
    if (seals && edge && seat && edge.si > seat.si)
      checks.fault(Code::PocketOutsideSeat, edge.origin,
                   {"the pocket extends beyond the seat", edge.text, "at most " + named("the seat", seat),
                    "correct the pocket or the seat; write seat_support = false when nothing supports the "
                    "disc there"});
}

/// A ring shim lies between two clamped discs that reach beyond its hole.
void check_ring(const Checks& checks, const DirectionSpec& direction, std::size_t index) {
  const DiscSpec& ring = direction.stack[index];
  const auto holds = [&](const DiscSpec& disc) {
    return !is_ring(disc, direction) && disc.outer_diameter && disc.outer_diameter.si > ring.bore.si;
  };
  const auto here = direction.stack.begin() + static_cast<std::ptrdiff_t>(index);
  const bool below = std::any_of(direction.stack.begin(), here, holds);
  const bool above = std::any_of(here + 1, direction.stack.end(), holds);
  if (below && above) return;
  checks.fault(
      Code::RingBesideNothing, ring.origin,
      {fmt::format("a ring shim with no shim to hold it {} it", below ? "behind" : "before"),
       named("a hole", ring.bore), fmt::format("a clamped shim wider than {} on both sides", ring.bore.text),
       "add one, or correct the bore"});
}

void check_notches(const Checks& checks, const DiscSpec& disc, const Quantity& clamp) {
  if (!disc.notches || !disc.outer_diameter) return;
  const NotchSpec& notch = *disc.notches;
  const double room = 0.5 * (disc.outer_diameter.si - clamp.value_or(0.0));
  if (notch.depth && notch.depth.si >= room)
    checks.fault(Code::NotchTooDeep, notch.depth.origin,
                 {"the notch reaches the clamp", notch.depth.text, "less than the free width of the disc",
                  "correct its depth"});
  const double rim = std::numbers::pi * (disc.outer_diameter.si - 2.0 * notch.depth.value_or(0.0));
  if (notch.count && notch.width && notch.count.value * notch.width.si >= 0.9 * rim)
    checks.fault(Code::NotchTooDeep, notch.width.origin,
                 {"the notches leave almost no rim", notch.width.text, "together less than 90 % of the rim",
                  "correct their number or width"});
}

void check_float(const Checks& checks, const DirectionSpec& direction) {
  if (!direction.floating || direction.floating->travel.si == 0.0) return;
  const auto refuse = [&](const Origin& origin, const std::string& got) {
    checks.fault(
        Code::FloatAndPreload, origin,
        {"a floating stack cannot have a preload", got, "one of the two", "remove this key or the float"});
  };
  if (direction.seat_height && direction.seat_height.si != 0.0)
    refuse(direction.seat_height.origin, direction.seat_height.text);
  if (direction.back_spring) refuse(direction.back_spring->origin, "back_spring");
}

}  // namespace

void check_disc(const Checks& checks, const DiscSpec& disc) {
  if (disc.bore && disc.outer_diameter && disc.bore.si >= disc.outer_diameter.si)
    checks.fault(Code::BoreNotSmaller, disc.bore.origin,
                 {"the hole is not smaller than the disc", disc.bore.text,
                  "less than " + disc.outer_diameter.text, "correct bore or outer_diameter"});
}

void check_stack(const Checks& checks, const DirectionSpec& direction) {
  check_seat_and_clamp(checks, direction);
  check_pocket(checks, direction);
  check_float(checks, direction);
  if (direction.port_area && direction.port_bore)
    checks.fault(Code::StatedTwice, direction.port_bore.origin,
                 {"a port is given by its area and by its bore", direction.port_bore.text, "one of the two",
                  "remove port_area or port_bore"});
  if (direction.stack.empty()) return;

  check_face(checks, direction);
  int n_discs = 0;
  for (std::size_t i = 0; i < direction.stack.size(); ++i) {
    const DiscSpec& disc = direction.stack[i];
    n_discs += disc.count.value_or(1);
    check_disc(checks, disc);
    check_notches(checks, disc, direction.clamp);
    if (is_ring(disc, direction)) check_ring(checks, direction, i);
  }
  if (n_discs > kMostDiscs)
    checks.fault(Code::TooMany, direction.stack.front().origin,
                 {"too many shims for one stack", fmt::format("{}", n_discs),
                  fmt::format("at most {}", kMostDiscs), "check the counts"});
}

}  // namespace shimwright::file
