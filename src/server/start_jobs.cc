#include "server/start_jobs.h"

#include "server_assets.h"

namespace shimwright::server {

std::string start_job(const std::string& kind) {
  const auto bytes = asset("start-" + kind + ".job.toml");
  return {bytes.begin(), bytes.end()};
}

}  // namespace shimwright::server
