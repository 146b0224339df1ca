#pragma once
#include <string>
#include <utility>

#include "base/problem.h"

namespace shimwright::num {

/// Collects the fields of a model that lie outside their bounds. A value that is not a number lies outside.
class Bounds {
 public:
  void check(std::string field, double got, double low, double high, const char* allowed) {
    if (got >= low && got <= high) return;
    problems_.push_back({std::move(field), got, got > high ? high : low, allowed});
  }
  void check_positive(std::string field, double got, const char* allowed) {
    if (!(got > 0.0)) problems_.push_back({std::move(field), got, 0.0, allowed});
  }
  void add(Problem problem) { problems_.push_back(std::move(problem)); }
  Problems take() { return std::move(problems_); }

 private:
  Problems problems_;
};

}  // namespace shimwright::num
