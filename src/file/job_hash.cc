#include "file/job_hash.h"

#include <fmt/core.h>

namespace shimwright::file {

std::string hash_text(std::uint64_t hash) {
  return fmt::format("{:016x}", hash);
}

}  // namespace shimwright::file
