#include "job/build_plan.h"

#include <algorithm>
#include <cmath>

#include "document/document_phrase.h"
#include "units/stack_text.h"

namespace shimwright::job {
namespace {

/// The shim of a parts file with these sizes: by name, else by its measures.
const file::DiscSpec* find_shim(const file::JobSpec& job, const file::DiscSpec& entry) {
  for (const file::DiscSpec& shim : job.parts.shims) {
    if (entry.part && shim.name == entry.part.value) return &shim;
  }
  constexpr double kSame = 1e-6;  // a micrometre: the same shim written twice
  for (const file::DiscSpec& shim : job.parts.shims) {
    if (std::abs(shim.outer_diameter.si - entry.outer_diameter.si) < kSame &&
        std::abs(shim.thickness.si - entry.thickness.si) < kSame) {
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
  int n_units = 1;
  units::System system = units::System::Metric;
};

void add_stack(const file::JobSpec& job, const file::DirectionSpec& direction, const std::string& where,
               const Picking& to) {
  for (const file::DiscSpec& entry : direction.stack) {
    document::PickLine line;
    line.part = "shim " + units::shim_text_plain(1, entry.outer_diameter.si, entry.thickness.si, to.system);
    line.where = where;
    line.count = to.n_units * entry.count.value_or(1);
    const file::DiscSpec* shim = find_shim(job, entry);
    price_line(entry.in_hand ? entry.in_hand : (shim != nullptr ? shim->in_hand : file::Count{}),
               entry.price ? entry.price : (shim != nullptr ? shim->price : file::Number{}), line);
    to.list.lines.push_back(std::move(line));
  }
}

void add_post(const file::JobSpec& job, const file::ValveSpec& valve, const document::PostResult& post,
              int n_units, document::PickList& list) {
  for (const document::SpacerLine& spacer : post.spacers) {
    if (spacer.used == 0) continue;
    document::PickLine line;
    line.part = "spacer " + spacer.name;
    line.where = post.name;
    line.count = n_units * spacer.used;
    const auto& stock = valve.spacers.empty() ? job.parts.spacers : valve.spacers;
    const auto found = std::ranges::find(stock, spacer.name, &file::SpacerSpec::name);
    if (found != stock.end()) price_line(found->in_hand, found->price, line);
    list.lines.push_back(std::move(line));
  }
  if (valve.nut) {
    document::PickLine line;
    line.part = valve.nut->part ? document::readable(valve.nut->part.value) : "nut";
    line.where = post.name;
    line.count = n_units;
    price_line(valve.nut->in_hand, valve.nut->price, line);
    list.lines.push_back(std::move(line));
  }
}

void add_springs(const file::UnitSpec& unit, int n_units, document::PickList& list) {
  for (const file::CoilSpringSpec& spring : unit.coil_springs) {
    document::PickLine line;
    line.part = "spring " + (spring.part ? document::readable(spring.part.value) : spring.rate.text);
    line.where = unit.name.value;
    line.count = n_units;
    price_line(spring.in_hand, spring.price, line);
    list.lines.push_back(std::move(line));
  }
}

void add_oil(const file::UnitSpec& unit, const document::UnitResult& result, int n_units,
             document::PickList& list) {
  if (!unit.oil || !result.fill) return;
  for (const document::FillChamber& chamber : result.fill->chambers) {
    const double volume = chamber.stated ? chamber.stated->si : chamber.volume.value_or(0.0);
    if (!(volume > 0.0)) continue;
    document::PickLine line;
    line.part = document::readable(unit.oil->name);
    line.where = unit.name.value + ", " + word(chamber.room);
    line.volume = n_units * volume;
    if (unit.oil->price) {
      line.price = unit.oil->price.value;
      line.cost = *line.price * *line.volume * 1e3;  // the price is for a litre
    }
    list.lines.push_back(std::move(line));
  }
}

/// What all lines of one part take together against what is in hand.
void mark_short(document::PickList& list) {
  for (document::PickLine& line : list.lines) {
    if (!line.in_hand) continue;
    double taken = 0.0;
    for (const document::PickLine& other : list.lines) taken += other.part == line.part ? other.count : 0.0;
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
  for (std::size_t i = 0; i < job.units.size(); ++i) {
    const file::UnitSpec& unit = job.units[i];
    const int n_units = unit.count.value_or(1);
    const Picking to{list, n_units, system};
    const auto add_valve = [&](const std::optional<file::ValveSpec>& valve, ValvePlace place) {
      if (!valve) return;
      const std::string name = unit.name.value + ", " + word(place);
      if (valve->compression) add_stack(job, *valve->compression, name + ", compression", to);
      if (valve->rebound) add_stack(job, *valve->rebound, name + ", rebound", to);
      for (const document::ValveResult& result : document.units[i].valves) {
        if (result.place == place && result.post) add_post(job, *valve, *result.post, n_units, list);
      }
    };
    add_valve(unit.piston_valve, ValvePlace::Piston);
    add_valve(unit.foot_valve, ValvePlace::Foot);
    add_springs(unit, n_units, list);
    add_oil(unit, document.units[i], n_units, list);
  }
  if (job.stack) add_stack(job, *job.stack, "stack", {list, 1, system});
  mark_short(list);
  add_up(list);
  return list;
}

}  // namespace shimwright::job
