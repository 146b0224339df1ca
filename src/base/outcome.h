#pragma once
#include <string>

namespace shimwright {

/// How a computation ended. Anything but Converged is shown on every screen and page that shows the number.
enum class Status {
  Converged,   // solved to its tolerance and inside the model's range
  OutOfRange,  // solved, but outside the range the model is good for; `note` says which limit, and by how
               // much
  Stalled,     // not solved; the value is the best so far and `residual` says how far off it is
};

/// The numerical outcome that travels with a result, all the way to plot, page and screen.
struct Outcome {
  Status status = Status::Converged;
  int iterations = 0;     // of the outermost loop
  double residual = 0.0;  // relative, as the module defines it
  std::string note;       // one sentence; empty when Converged

  bool ok() const { return status == Status::Converged; }
};

/// The worse of two, keeping the note of the worse one: how a chain of results inherits trouble.
inline const Outcome& worse(const Outcome& a, const Outcome& b) {
  return b.status > a.status ? b : a;
}

}  // namespace shimwright
