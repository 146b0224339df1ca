#pragma once
#include <string>

namespace shimwright::server {

/// The text of the plain job to begin with: "fork", "shock" or "stack"; "" for no such kind.
std::string start_job(const std::string& kind);

}  // namespace shimwright::server
