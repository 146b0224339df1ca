#include "job/build_plan.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "document/document_phrase.h"
#include "resolve/resolve_post.h"
#include "units/stack_text.h"

namespace shimwright::job {
namespace {

using document::PartKind;
using document::PartRef;

/// Where a stack stands: what its shims must fit.
struct StackPlace {
  const file::DirectionSpec& direction;
  const file::ValveSpec* valve = nullptr;  // null: the lone stack
};

/// Whether a shim's bore is the one that an entry needs, as far as the job says: the entry's own, else that
/// of the post. A stack that floats runs on a collar of any size.
bool bore_fits(const file::DiscSpec& shim, const file::DiscSpec& entry, const StackPlace& place) {
  constexpr double kSame = 1e-6;
  constexpr double kMostPlay = 1e-3;  // more, and the shim does not centre (common practice, no source)
  if (!shim.bore) return true;
  if (entry.bore) return std::abs(shim.bore.si - entry.bore.si) < kSame;
  if (place.direction.floating || place.valve == nullptr || !place.valve->post) return true;
  const double play = shim.bore.si - place.valve->post->thread.size.diameter;
  return play > -kSame && play < kMostPlay;
}

/// The shim of a parts file with these sizes: by name, else by its measures.
const file::DiscSpec* find_shim(const file::JobSpec& job, const file::DiscSpec& entry,
                                const StackPlace& place) {
  for (const file::DiscSpec& shim : job.parts.shims) {
    if (entry.part && shim.name == entry.part.value) return &shim;
  }
  constexpr double kSame = 1e-6;  // a micrometre: the same shim written twice
  for (const file::DiscSpec& shim : job.parts.shims) {
    if (std::abs(shim.outer_diameter.si - entry.outer_diameter.si) < kSame &&
        std::abs(shim.thickness.si - entry.thickness.si) < kSame && bore_fits(shim, entry, place)) {
      return &shim;
    }
  }
  return nullptr;
}

void price_line(const file::Count& in_hand, const file::Number& price, document::PickLine& line) {
  if (in_hand) line.in_hand = in_hand.value;
  if (price) line.price = price.value;
  if (line.price) line.cost = *line.price * line.count;
}

/// Where the lines of one unit go.
struct Picking {
  document::PickList& list;
  std::vector<std::string>& stocks;  // of each line: what it takes from in the drawer
  std::string unit;                  // "" of the lone stack
  int n_units = 1;
  units::System system = units::System::Metric;

  document::PickLine& add(std::string part, std::string where, double count, PartRef ref) const {
    document::PickLine& line = list.lines.emplace_back();
    line.part = std::move(part);
    line.unit = unit;
    line.where = std::move(where);
    line.count = n_units * count;
    line.parts = {ref};
    stocks.push_back(line.part);
    return line;
  }
};

void add_stack(const file::JobSpec& job, const StackPlace& place, bool has_slide_spring,
               const std::string& where, PartRef ref, const Picking& to) {
  const file::DirectionSpec& direction = place.direction;
  for (std::size_t i = 0; i < direction.stack.size(); ++i) {
    const file::DiscSpec& entry = direction.stack[i];
    ref.kind = PartKind::Shims;
    ref.index = static_cast<int>(i);
    document::PickLine& line =
        to.add("shim " + units::shim_text_plain(1, entry.outer_diameter.si, entry.thickness.si, to.system),
               where, entry.count.value_or(1), ref);
    const file::DiscSpec* shim = find_shim(job, entry, place);
    if (shim != nullptr && shim->bore) to.stocks.back() += ", bore " + shim->bore.text;
    price_line(entry.in_hand ? entry.in_hand : (shim != nullptr ? shim->in_hand : file::Count{}),
               entry.price ? entry.price : (shim != nullptr ? shim->price : file::Number{}), line);
  }
  if (direction.stack.empty()) return;  // a spring without shims presses on nothing
  ref.index = 0;
  if (has_slide_spring) {
    ref.kind = PartKind::SlideSpring;
    to.add(resolve::is_check(direction) ? "spring of the check plate" : "spring of the float", where, 1, ref);
  }
  if (direction.back_spring) {
    ref.kind = PartKind::BackSpring;
    to.add("back spring", where, 1, ref);
  }
}

const file::SpacerSpec* find_spacer(const file::JobSpec& job, const file::ValveSpec& valve,
                                    const std::string& label) {
  const auto& stock = valve.spacers.empty() ? job.parts.spacers : valve.spacers;
  const auto found = std::ranges::find(stock, label, &resolve::spacer_label);
  return found == stock.end() ? nullptr : &*found;
}

/// Everything on one post but its stacks.
void add_post(const file::JobSpec& job, const file::ValveSpec& valve, const document::PostResult& post,
              ValvePlace place, const Picking& to) {
  const document::Phrase phrase{to.system};
  for (std::size_t i = 0; i < post.ledger.size(); ++i) {
    const document::LedgerLine& on = post.ledger[i];
    PartRef ref{PartKind::Piece, place, {}, static_cast<int>(i)};
    switch (on.part) {
      case document::LinePart::Piece:
        to.add(on.height > 0.0
                   ? fmt::format("{}, {}", on.name, phrase.thickness(on.height / std::max(on.count, 1)))
                   : on.name,
               post.name, on.count, ref);
        break;
      case document::LinePart::Spacers: {
        ref.kind = PartKind::Spacers;
        document::PickLine& line = to.add("spacer " + on.name, post.name, on.count, ref);
        if (const file::SpacerSpec* spacer = find_spacer(job, valve, on.name))
          price_line(spacer->in_hand, spacer->price, line);
        // stated for this post alone
        if (!valve.spacers.empty()) to.stocks.back() += ", " + post.name;
        break;
      }
      case document::LinePart::Nut: {
        if (!valve.nut) break;
        ref.kind = PartKind::Nut;
        document::PickLine& line =
            to.add(valve.nut->part ? document::readable(valve.nut->part.value) : "nut", post.name, 1, ref);
        price_line(valve.nut->in_hand, valve.nut->price, line);
        if (!valve.nut->part) to.stocks.back() += ", " + post.name;
        break;
      }
      case document::LinePart::CompressionStack:
      case document::LinePart::ReboundStack:
        break;
    }
  }
}

bool has_damper(const file::UnitSpec& unit) {
  return unit.piston_valve || unit.foot_valve;
}

/// What the unit has beside its valves.
void add_springs(const file::UnitSpec& unit, const Picking& to) {
  const std::string& where = unit.name.value;
  for (std::size_t i = 0; i < unit.coil_springs.size(); ++i) {
    const file::CoilSpringSpec& spring = unit.coil_springs[i];
    const std::string name = spring.part   ? document::readable(spring.part.value)
                             : spring.rate ? spring.rate.text
                                           : spring.wire.text + " wire";
    document::PickLine& line =
        to.add("spring " + name, where, 1, {PartKind::MainSpring, {}, {}, static_cast<int>(i)});
    price_line(spring.in_hand, spring.price, line);
  }
  // these go on the rod of a damper
  if (unit.piston_valve && unit.top_out)
    to.add("top-out spring", where, 1, {PartKind::TopOutSpring, {}, {}, 0});
  if (unit.piston_valve && unit.bump_stop) to.add("bump stop", where, 1, {PartKind::BumpStop, {}, {}, 0});
  if (!has_damper(unit) || !unit.reservoir || !unit.reservoir->kind) return;
  const file::ReservoirSpec& reservoir = *unit.reservoir;
  if (reservoir.kind.value == file::ReservoirKind::SprungPiston) {
    to.add("free piston", where, 1, {PartKind::FreePiston, {}, {}, 0});
    to.add("spring of the free piston", where, 1, {PartKind::CompensatorSpring, {}, {}, 0});
  } else if (reservoir.kind.value == file::ReservoirKind::Gas) {
    const bool piston = bool(reservoir.piston);
    to.add(piston ? "free piston" : "bladder", where, 1,
           {piston ? PartKind::FreePiston : PartKind::Bladder, {}, {}, 0});
  }
}

void add_oil(const file::UnitSpec& unit, const document::UnitResult& result, const Picking& to) {
  if (unit.air_spring) {
    const auto add = [&](const std::optional<file::AirChamberSpec>& chamber, const char* name, int index) {
      if (!chamber || !(chamber->oil.value_or(0.0) > 0.0)) return;
      document::PickLine& line = to.add("oil for the seals of the air spring", unit.name.value + ", " + name,
                                        0, {PartKind::AirOil, {}, {}, index});
      line.volume = to.n_units * chamber->oil.si;
    };
    add(unit.air_spring->positive, "positive chamber", 0);
    add(unit.air_spring->negative, "negative chamber", 1);
  }
  if (!result.fill) return;
  const auto& chambers = result.fill->chambers;
  for (std::size_t i = 0; i < chambers.size(); ++i) {
    const document::FillChamber& chamber = chambers[i];
    if (!(chamber.pour > 0.0)) continue;
    if (chamber.room != document::FillRoom::Outer && !has_damper(unit)) continue;  // nobody opens it here
    document::PickLine& line = to.add(oil_words(result), unit.name.value + ", " + word(chamber.room), 0,
                                      {PartKind::Oil, {}, {}, static_cast<int>(i)});
    line.volume = to.n_units * chamber.pour;
    if (unit.oil && unit.oil->price) {
      line.price = unit.oil->price.value;
      line.cost = *line.price * *line.volume * 1e3;  // the price is for a litre
    }
  }
}

/// What all lines of one stock take together against what is in hand.
void mark_short(const std::vector<std::string>& stocks, document::PickList& list) {
  for (std::size_t i = 0; i < stocks.size(); ++i) {
    document::PickLine& line = list.lines[i];
    if (!line.in_hand) continue;
    double taken = 0.0;
    for (std::size_t k = 0; k < stocks.size(); ++k)
      taken += stocks[k] == stocks[i] ? list.lines[k].count : 0.0;
    line.short_by = std::max(0.0, taken - *line.in_hand);
  }
}

void add_up(document::PickList& list) {
  for (const document::PickLine& line : list.lines) {
    if (line.cost) {
      list.total = list.total.value_or(0.0) + *line.cost;
    } else {
      ++list.n_without_price;
    }
  }
}

}  // namespace

document::PickList pick_list(const file::JobSpec& job, const document::ResultDocument& document,
                             units::System system) {
  document::PickList list;
  std::vector<std::string> stocks;
  for (std::size_t i = 0; i < job.units.size(); ++i) {
    const file::UnitSpec& unit = job.units[i];
    const Picking to{list, stocks, unit.name.value, unit.count.value_or(1), system};
    const auto add_valve = [&](const std::optional<file::ValveSpec>& valve, ValvePlace place) {
      if (!valve) return;
      const std::string name = unit.name.value + ", " + word(place);
      for (const Stroke stroke : {Stroke::Compression, Stroke::Rebound}) {
        const auto& direction = stroke == Stroke::Compression ? valve->compression : valve->rebound;
        if (direction)
          add_stack(job, {*direction, &*valve}, resolve::has_slide_spring(*valve, stroke),
                    name + ", " + word(stroke), {{}, place, stroke, 0}, to);
      }
      for (const document::ValveResult& result : document.units[i].valves) {
        if (result.place == place && result.post) add_post(job, *valve, *result.post, place, to);
      }
    };
    add_valve(unit.piston_valve, ValvePlace::Piston);
    add_valve(unit.foot_valve, ValvePlace::Foot);
    add_springs(unit, to);
    add_oil(unit, document.units[i], to);
  }
  if (job.stack)
    add_stack(job, {*job.stack}, resolve::has_slide_spring(*job.stack), "stack", {},
              {list, stocks, "", 1, system});
  mark_short(stocks, list);
  add_up(list);
  return list;
}

}  // namespace shimwright::job
