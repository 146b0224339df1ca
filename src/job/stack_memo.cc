#include "job/stack_memo.h"

#include <algorithm>
#include <type_traits>
#include <utility>
#include <vector>

#include "job/document_members.h"

namespace shimwright::job {
namespace {

using internal::n_members;

/// Lift curves kept with each workspace: a fork asks for a dozen, so this holds some swaps back and forth.
constexpr int kMostCurves = 64;

// A member that these structs gain changes what a stack is: it must go into the key below.
static_assert(n_members<plate::Stack>() == 8 && n_members<plate::Disc>() == 9 &&
                  n_members<plate::RimNotches>() == 3 && n_members<plate::Load>() == 4 &&
                  n_members<plate::Seat>() == 3 && n_members<plate::Float>() == 3 &&
                  n_members<plate::BackSpring>() == 5 && n_members<StackRun>() == 7 &&
                  n_members<Phrase>() == 1,
              "StackMemo's key leaves out a member");

/// The bytes of everything that a result depends on. `places` and `origin` of a model only locate faults.
struct Key {
  std::string bytes;

  template <typename T>
  void add(const T& value)
    requires std::is_arithmetic_v<T> || std::is_enum_v<T>
  {
    bytes.append(reinterpret_cast<const char*>(&value), sizeof value);
  }
  void add(const std::string& text) {
    add(text.size());
    bytes += text;
  }
  template <typename T>
  void add(const std::vector<T>& list) {
    add(list.size());
    for (const T& item : list) add(item);
  }
  void add(const plate::RimNotches& notches) { all(notches.count, notches.width, notches.depth); }
  void add(const plate::Disc& disc) {
    all(disc.outer_radius, disc.bore_radius, disc.thickness, disc.youngs_modulus, disc.poisson_ratio,
        disc.yield_strength, disc.fatigue_strength, disc.ultimate_strength, disc.notches);
  }
  void add(const plate::Load& load) {
    all(load.inner_radius, load.outer_radius, load.arc_fraction, load.land_outer_radius);
  }
  void add(const plate::Seat& seat) { all(seat.present, seat.radius, seat.height); }
  void add(const plate::Float& slide) { all(slide.travel, slide.spring_force, slide.spring_rate); }
  void add(const plate::BackSpring& spring) {
    all(spring.present, spring.radius, spring.rate, spring.preload, spring.gap);
  }
  void add(const plate::Stack& stack) {
    all(stack.discs, stack.clamp_radius, stack.washer_radius, stack.clamp_slips, stack.load, stack.seat,
        stack.slide, stack.back_spring);
  }
  template <typename... Values>
  void all(const Values&... values) {
    (add(values), ...);
  }
};

std::string key_of(const StackModel& model, const StackRun& run) {
  Key key;
  key.all(model.name, model.stack, model.labels, model.entry);
  key.all(run.theory, run.phrase.system, run.pressures_assumed, run.pressures, run.working_pressure,
          run.greatest_pressure, run.details);
  return std::move(key.bytes);
}

}  // namespace

StackResult StackMemo::stack_result(const StackModel& model, const StackRun& run,
                                    plate::Workspace& workspace) {
  std::string key = key_of(model, run);
  {
    const std::lock_guard lock(mutex_);
    const auto found = std::ranges::find(kept_, key, &Kept::key);
    if (found != kept_.end()) {
      ++n_found_;
      kept_.splice(kept_.begin(), kept_, found);
      return found->result;
    }
  }
  StackResult result = job::stack_result(model, run, workspace);
  const std::lock_guard lock(mutex_);
  kept_.push_front({std::move(key), result});
  if (kept_.size() > most_) kept_.pop_back();
  return result;
}

std::unique_ptr<plate::Workspace> StackMemo::lend_workspace() {
  {
    const std::lock_guard lock(mutex_);
    if (!idle_.empty()) {
      std::unique_ptr<plate::Workspace> workspace = std::move(idle_.back());
      idle_.pop_back();
      return workspace;
    }
  }
  auto workspace = std::make_unique<plate::Workspace>();
  workspace->remember_curves(kMostCurves);
  return workspace;
}

void StackMemo::give_back(std::unique_ptr<plate::Workspace> workspace) {
  const std::lock_guard lock(mutex_);
  idle_.push_back(std::move(workspace));
}

std::size_t StackMemo::n_found() const {
  const std::lock_guard lock(mutex_);
  return n_found_;
}

}  // namespace shimwright::job
