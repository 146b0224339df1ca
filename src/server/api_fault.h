#pragma once
#include <exception>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "base/result.h"

namespace shimwright::server {

/// Why a request was not done, as its answer says it.
struct ApiFault {
  int status = 400;     // of HTTP
  std::string code;     // stable, "no_such_job"; describe_answers.cc lists all
  std::string message;  // one sentence
  std::string remedy;   // one sentence

  Diagnostics diagnostics{};  // of a job that cannot be computed
};

/// Of a fault in the program.
ApiFault fault_of(const std::exception& fault);
/// Of a job whose diagnostics stop what was wanted of it; `message` is one sentence.
ApiFault faulty(std::string message, Diagnostics diagnostics);

template <typename T>
using Answer = Result<T, ApiFault>;

}  // namespace shimwright::server
