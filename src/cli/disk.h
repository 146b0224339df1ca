#pragma once
#include <string>
#include <string_view>

#include "base/result.h"

namespace shimwright::cli {

/// The whole file, or one sentence why not. At most `limit` bytes: a job file is small, and a mistyped name
/// of something huge must not fill the memory.
Result<std::string, std::string> read_file(const std::string& path, std::size_t limit = 4u << 20);

/// Written beside its place and moved there in one step: a crash leaves the old file or the new one, never
/// half.
Result<void, std::string> write_file(const std::string& path, std::string_view bytes);

/// The folder and those above it; one sentence why not.
Result<void, std::string> make_folder(const std::string& path);

}  // namespace shimwright::cli
