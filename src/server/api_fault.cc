#include "server/api_fault.h"

#include <fmt/core.h>

#include <utility>

namespace shimwright::server {

ApiFault fault_of(const std::exception& fault) {
  return {500, "bug", fmt::format("This is a fault in the program: {}", fault.what()),
          "What you typed is kept. Report the fault together with this job."};
}

ApiFault faulty(std::string message, Diagnostics diagnostics) {
  return {422, "faulty", std::move(message), "Correct the faults that the diagnostics show.",
          std::move(diagnostics)};
}

}  // namespace shimwright::server
