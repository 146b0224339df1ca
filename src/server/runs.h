#pragma once
#include <chrono>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "server/api_fault.h"
#include "server/http.h"

namespace shimwright::server {

/// Long work: each piece in a thread of its own, followed by its events, stopped on request.
///
/// Model:  a run's events are kept, so that who comes later sees them all: some "progress", then one of
///         "result", "stopped" and "failed". A new run of the same owner stops the older one; two run at
///         once, a third is refused; the last few that have ended are remembered.
/// Threads: any function from any thread.
/// Tested: runs_test.cc
class Runs {
 public:
  struct Event {
    std::string name;
    std::string data;  // JSON
  };
  /// Told the fraction done and what is next; false: stop.
  using Progress = std::function<bool(double done, std::string_view next)>;
  using Work = std::function<Event(const Progress& progress)>;

  using Clock = std::chrono::steady_clock;

  /// `wake` is called after each event, from the run's thread; `now` is the clock that spaces out progress.
  explicit Runs(std::function<void(const std::string& run)> wake,
                std::function<Clock::time_point()> now = Clock::now);
  ~Runs();

  /// Its id, or why it was not started.
  Answer<std::string> start(const std::string& owner, Work work);
  /// False: there is no such run. One that has ended stays as it is.
  bool stop(const std::string& run);
  bool knows(const std::string& run) const;
  /// Stops all runs and waits for their ends; no run starts afterwards.
  void end();
  /// The events from `cursor` on, as they go over the wire.
  Pulled pull(const std::string& run, std::size_t& cursor) const;

 private:
  struct Run;
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace shimwright::server
