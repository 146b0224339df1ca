#include "server/runs.h"

#include <fmt/core.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <deque>
#include <exception>
#include <mutex>
#include <optional>
#include <thread>

#include "server/answers.h"
#include "server/encode.h"

namespace shimwright::server {
namespace {

constexpr std::ptrdiff_t kMostAtOnce = 2;
constexpr std::size_t kMostRuns = 8;
constexpr auto kBetweenProgress = std::chrono::milliseconds(100);  // an eye sees no more

}  // namespace

struct Runs::Run {
  std::string id;
  std::string owner;
  std::atomic<bool> stops = false;
  std::thread thread;

  mutable std::mutex mutex;  // of what follows
  std::vector<Event> events;
  bool has_ended = false;

  bool ended() const {
    const std::lock_guard lock(mutex);
    return has_ended;
  }
};

struct Runs::State {
  std::function<void(const std::string&)> wake;
  std::function<Clock::time_point()> now;
  mutable std::mutex mutex;               // of what follows
  std::deque<std::shared_ptr<Run>> runs;  // the newest last
  int n_begun = 0;
  bool has_ended = false;

  std::shared_ptr<Run> find(const std::string& id) const {
    const std::lock_guard lock(mutex);
    const auto found = std::ranges::find(runs, id, &Run::id);
    return found == runs.end() ? nullptr : *found;
  }
  void add(Run& run, Event event, bool last) const {
    {
      const std::lock_guard lock(run.mutex);
      run.events.push_back(std::move(event));
      run.has_ended = last;
    }
    wake(run.id);
  }
  void work_on(Run& run, const Work& work) const {
    std::optional<Clock::time_point> last_sent;
    const Progress progress = [&](double done, std::string_view next) {
      const auto at = now();
      if (!last_sent || at - *last_sent >= kBetweenProgress) {
        last_sent = at;
        add(run, {"progress", to_json(RunProgress{done, std::string(next)})}, false);
      }
      return !run.stops.load();
    };
    Event end;
    try {
      end = work(progress);
    } catch (const std::exception& fault) {
      end = {"failed", to_json(fault_of(fault))};
    }
    add(run, std::move(end), true);
  }
};

Runs::Runs(std::function<void(const std::string&)> wake, std::function<Clock::time_point()> now)
    : state_(std::make_unique<State>()) {
  state_->wake = std::move(wake);
  state_->now = std::move(now);
}

Runs::~Runs() {
  end();
}

void Runs::end() {
  std::deque<std::shared_ptr<Run>> runs;
  {
    const std::lock_guard lock(state_->mutex);
    state_->has_ended = true;
    runs = state_->runs;
  }
  for (const auto& run : runs) run->stops = true;
  for (const auto& run : runs)
    if (run->thread.joinable()) run->thread.join();
}

Answer<std::string> Runs::start(const std::string& owner, Work work) {
  const std::lock_guard lock(state_->mutex);
  if (state_->has_ended)
    return failure(ApiFault{503, "too_many", "The workbench is shutting down.", "Start it again."});
  auto& runs = state_->runs;
  for (const auto& run : runs)
    if (run->owner == owner) run->stops = true;
  const auto going =
      std::ranges::count_if(runs, [](const auto& run) { return !run->stops && !run->ended(); });
  if (going >= kMostAtOnce) {
    return failure(ApiFault{429, "too_many", "Two long calculations are already running.",
                            "Stop one of them, or wait until it ends."});
  }
  // of those that have ended the oldest are forgotten
  for (auto run = runs.begin(); run != runs.end() && runs.size() >= kMostRuns;) {
    if (!(*run)->ended()) {
      ++run;
      continue;
    }
    if ((*run)->thread.joinable()) (*run)->thread.join();
    run = runs.erase(run);
  }
  auto run = std::make_shared<Run>();
  run->id = fmt::format("{}-{}", owner, ++state_->n_begun);
  run->owner = owner;
  runs.push_back(run);
  run->thread = std::thread(
      [state = state_.get(), run = run.get(), work = std::move(work)] { state->work_on(*run, work); });
  return run->id;
}

bool Runs::stop(const std::string& id) {
  const auto run = state_->find(id);
  if (run) run->stops = true;
  return run != nullptr;
}

bool Runs::knows(const std::string& id) const {
  return state_->find(id) != nullptr;
}

Pulled Runs::pull(const std::string& id, std::size_t& cursor) const {
  const auto run = state_->find(id);
  if (!run) return {"", true};
  const std::lock_guard lock(run->mutex);
  Pulled pulled;
  for (; cursor < run->events.size(); ++cursor)
    pulled.text += event_text(run->events[cursor].name, run->events[cursor].data);
  pulled.ended = run->has_ended;
  return pulled;
}

}  // namespace shimwright::server
