#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "assembly/stripping.h"
#include "assembly/thread.h"
#include "file/load_check.h"

namespace shimwright::file {
namespace {

// how much a hole may miss the post it goes over; common practice, no source
constexpr double kTightest = -0.02e-3;  // [m] smaller than the thread's nominal diameter
constexpr double kLoosest = 0.5e-3;     // [m] larger: the shim is not centred any more

/// True when a hole of this size goes over the post and is still centred by it.
bool hole_fits(double bore, double post, bool may_be_loose) {
  return bore >= post + kTightest && (may_be_loose || bore <= post + kLoosest);
}

/// What centres the shims of a stack: the post, or the collar that a floating stack slides on.
struct Centre {
  double diameter = 0.0;  // [m]
  bool may_be_loose = false;
  std::string what;      // "the post, whose thread is M6 x 0.75"
  std::string expected;  // "a hole as wide as the post"
};

Centre centre_of(const ValveSpec& valve, const DirectionSpec& direction, PieceKind stack) {
  const Thread& thread = valve.post->thread;
  const bool floats = direction.floating && direction.floating->travel.value_or(0.0) > 0.0;
  const PieceSpec* collar = floats ? collar_of(valve, stack) : nullptr;
  if (collar != nullptr && collar->outer_diameter)
    return {collar->outer_diameter.si, false, "its collar, which is " + collar->outer_diameter.text + " wide",
            "a hole as wide as the collar"};
  return {thread.size.diameter, direction.floating.has_value(), "the post, whose thread is " + thread.text,
          "a hole as wide as the post"};
}

void check_shims_on_post(const Checks& checks, const DirectionSpec& direction, const Centre& centre) {
  for (const DiscSpec& disc : direction.stack) {
    const bool is_ring = disc.bore && direction.clamp && disc.bore.si > direction.clamp.si;
    if (!disc.bore || is_ring || hole_fits(disc.bore.si, centre.diameter, centre.may_be_loose)) continue;
    const bool from_part = disc.part.given && disc.bore.origin.file != disc.origin.file;
    checks.fault(Code::ShimDoesNotFitPost, from_part ? disc.origin : disc.bore.origin,
                 {"this shim does not fit " + centre.what, "a hole of " + disc.bore.text, centre.expected,
                  "use a shim with the right hole, or correct the bore here or what it goes over"});
  }
}

void check_spacers_on_post(const Checks& checks, const ValveSpec& valve, const Thread& thread) {
  const auto refuse = [&](const Quantity& bore) {
    checks.fault(Code::SpacerDoesNotFitPost, bore.origin,
                 {fmt::format("it does not fit over the post, whose thread is {}", thread.text),
                  "a hole of " + bore.text, "a hole at least as wide as the post",
                  "use another piece, or correct the bore or the thread"});
  };
  for (const PieceSpec& piece : valve.pieces)
    if (piece.bore && !hole_fits(piece.bore.si, thread.size.diameter, true)) refuse(piece.bore);
  for (const SpacerSpec& spacer : valve.spacers)
    if (spacer.bore && !hole_fits(spacer.bore.si, thread.size.diameter, true)) refuse(spacer.bore);
}

void check_post(const Checks& checks, const PostSpec& post) {
  check_strength_class(checks, post.strength_class);
  if (post.length && post.thread_length && post.thread_length.si > post.length.si)
    checks.fault(Code::ThreadLongerThanPost, post.thread_length.origin,
                 {"the thread is longer than the post", post.thread_length.text,
                  "at most " + post.length.text, "correct one of the two"});
  if (!post.thread || !post.bore) return;
  const double root = assembly::basic_sizes(post.thread.size).root_diameter;
  if (post.bore.si >= root)
    checks.fault(Code::PostTooHollow, post.bore.origin,
                 {fmt::format("the bore leaves no metal under a thread of {}", post.thread.text),
                  post.bore.text, fmt::format("less than the core of the thread, {:.3g} mm", root * 1e3),
                  "correct the bore or the thread"});
}

bool same_thread(const Thread& a, const Thread& b) {
  const double rounding = 1e-7;  // [m], a pitch in turns per inch is not round in millimetres
  return std::abs(a.size.diameter - b.size.diameter) < rounding &&
         std::abs(a.size.pitch - b.size.pitch) < rounding;
}

/// One reserved word among the pieces, and whether the valve has the stack that it means.
struct ReservedPiece {
  PieceKind kind;
  const char* name;
  const DirectionSpec* direction;  // null: the valve has no such stack
};

void check_reserved(const Checks& checks, const ValveSpec& valve, const ReservedPiece& reserved) {
  const bool is_spacers = reserved.kind == PieceKind::Spacers;
  const bool is_there = is_spacers || reserved.direction != nullptr;
  int n_found = 0;
  for (const PieceSpec& piece : valve.pieces) {
    if (piece.kind.value != reserved.kind) continue;
    ++n_found;
    if (is_there && n_found == 1) continue;
    checks.fault(Code::StackNotOnPost, piece.origin,
                 {n_found > 1 ? "it is on the post twice" : "this valve has no such stack", piece.text,
                  "each stack of the valve, once", "remove it, or add the stack"});
  }
  if (is_there && n_found == 0 && !is_spacers)
    checks.fault(Code::StackNotOnPost, reserved.direction->origin,
                 {fmt::format("the pieces on the post leave out the {}", reserved.name), "",
                  fmt::format("\"{}\" among the pieces", reserved.name),
                  fmt::format("add \"{}\" at its place", reserved.name)});
}

/// Each stack of the valve must be on the post once, if the pieces are listed.
void check_order(const Checks& checks, const ValveSpec& valve) {
  if (valve.pieces.empty()) return;
  const auto with_stack = [](const std::optional<DirectionSpec>& direction) {
    return direction && !direction->stack.empty() ? &*direction : nullptr;
  };
  check_reserved(checks, valve,
                 {PieceKind::CompressionStack, "compression stack", with_stack(valve.compression)});
  check_reserved(checks, valve, {PieceKind::ReboundStack, "rebound stack", with_stack(valve.rebound)});
  check_reserved(checks, valve, {PieceKind::Spacers, "spacers", nullptr});
}

void check_ports(const Checks& checks, const DirectionSpec& direction) {
  if (!direction.pocket || !direction.port_area || !direction.port_count) return;
  const PocketSpec& pocket = *direction.pocket;
  if (!pocket.inner || !pocket.outer) return;
  const double ring =
      0.25 * std::numbers::pi * (pocket.outer.si * pocket.outer.si - pocket.inner.si * pocket.inner.si);
  const double open = ring * pocket.arc.value_or(1.0);
  if (direction.port_area.si * direction.port_count.value <= open) return;
  checks.fault(Code::PortLargerThanPocket, direction.port_area.origin,
               {"all ports together are larger than the pocket they open into",
                fmt::format("{} x {}", direction.port_count.value, direction.port_area.text),
                fmt::format("at most {:.4g} mm2 together", open * 1e6),
                "write the area of one port, or correct the pocket"});
}

/// One key of a bleed: which kind it belongs to, and whether that kind needs it.
struct BleedKey {
  Quantity BleedSpec::* member;
  const char* name;
  const char* example;
  std::vector<BleedKind> needed_by;
  std::vector<BleedKind> allowed_for;
};

const std::vector<BleedKey>& bleed_keys() {
  using enum BleedKind;
  static const std::vector<BleedKey> keys = {
      {&BleedSpec::seat, "seat", "\"2.5 mm\"", {Needle}, {Needle}},
      {&BleedSpec::half_angle, "half_angle", "\"10 deg\"", {Needle}, {Needle}},
      {&BleedSpec::per_click, "per_click", "\"0.06 mm\"", {Needle}, {Needle}},
      {&BleedSpec::seated_clearance, "seated_clearance", "\"0.05 mm\"", {}, {Needle}},
      {&BleedSpec::diameter, "diameter", "\"1.2 mm\"", {Bored}, {Bored, Leakage}},
      {&BleedSpec::length, "length", "\"8 mm\"", {Leakage}, {Bored, Leakage, Notch}},
      {&BleedSpec::width, "width", "\"2.0 mm\"", {Notch}, {Notch}},
      {&BleedSpec::depth, "depth", "\"0.2 mm\"", {Notch}, {Notch}},
      {&BleedSpec::clearance, "clearance", "\"0.06 mm\"", {Leakage}, {Leakage}},
      {&BleedSpec::eccentricity, "eccentricity", "\"50 %\"", {}, {Leakage}},
  };
  return keys;
}

bool is_among(BleedKind kind, const std::vector<BleedKind>& kinds) {
  return std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
}

void check_bleed(const Checks& checks, const BleedSpec& bleed) {
  if (!bleed.kind) return;
  const auto refuse = [&](const Origin& origin, const char* name) {
    checks.fault(Code::BleedKeyOfOtherKind, origin,
                 {fmt::format("a bleed of the kind \"{}\" has no {}", bleed.kind.text, name), "", "",
                  fmt::format("remove {}, or change the kind", name)});
  };
  for (const BleedKey& key : bleed_keys()) {
    const Quantity& value = bleed.*key.member;
    if (value && !is_among(bleed.kind.value, key.allowed_for)) refuse(value.origin, key.name);
    if (!value && is_among(bleed.kind.value, key.needed_by))
      checks.missing(bleed.origin, key.name, key.example);
  }
  const bool is_needle = bleed.kind.value == BleedKind::Needle;
  if (is_needle && !bleed.clicks) checks.missing(bleed.origin, "clicks", "10");
  if (!is_needle && bleed.clicks) refuse(bleed.clicks.origin, "clicks");
  if (!is_needle && bleed.clicks_max) refuse(bleed.clicks_max.origin, "clicks_max");
  if (bleed.clicks && bleed.clicks_max && bleed.clicks.value > bleed.clicks_max.value)
    checks.fault(Code::ClicksBeyondLast, bleed.clicks.origin,
                 {"the setting is beyond the last click", fmt::format("{}", bleed.clicks.value),
                  fmt::format("0 to {}, counted outwards from seated", bleed.clicks_max.value),
                  "correct clicks or clicks_max"});
}

}  // namespace

void check_strength_class(const Checks& checks, const Text& strength_class) {
  if (!strength_class || assembly::find_strength(strength_class.value) != nullptr) return;
  std::vector<std::string> known;
  std::string listed;
  for (const assembly::NamedStrength& strength : assembly::named_strengths()) {
    known.emplace_back(strength.id);
    listed += (listed.empty() ? "" : ", ") + known.back();
  }
  checks.fault(Code::UnknownStrengthClass, strength_class.origin,
               {"its strength is not known", "\"" + strength_class.value + "\"", listed,
                suggestion(strength_class.value, known, "give yield_strength and strength instead")});
}

void check_nut(const Checks& checks, const NutSpec& nut) {
  check_strength_class(checks, nut.strength_class);
}

void check_valve(const Checks& checks, const ValveSpec& valve) {
  const auto check_direction = [&](const std::optional<DirectionSpec>& direction, PieceKind stack) {
    if (!direction) return;
    check_stack(checks, *direction);
    check_ports(checks, *direction);
    if (valve.post && valve.post->thread)
      check_shims_on_post(checks, *direction, centre_of(valve, *direction, stack));
  };
  check_direction(valve.compression, PieceKind::CompressionStack);
  check_direction(valve.rebound, PieceKind::ReboundStack);
  for (const BleedSpec& bleed : valve.bleeds) check_bleed(checks, bleed);
  if (valve.post) check_post(checks, *valve.post);
  if (valve.nut) check_nut(checks, *valve.nut);
  if (valve.post && valve.post->thread) check_spacers_on_post(checks, valve, valve.post->thread);
  check_order(checks, valve);

  const bool has_both = valve.nut && valve.post && valve.nut->thread && valve.post->thread;
  if (has_both && !same_thread(valve.nut->thread, valve.post->thread)) {
    const bool from_part = valve.nut->thread.origin.file != valve.nut->origin.file;
    checks.fault(Code::NutOnOtherThread, from_part ? valve.nut->origin : valve.nut->thread.origin,
                 {"the nut has another thread than its post", valve.nut->thread.text, valve.post->thread.text,
                  "use the right nut, or correct the thread"});
  }
}

}  // namespace shimwright::file
