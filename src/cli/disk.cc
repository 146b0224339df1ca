#include "cli/disk.h"

#include <fmt/core.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <system_error>

namespace shimwright::cli {

Result<std::string, std::string> read_file(const std::string& path, std::size_t limit) {
  std::error_code code;
  if (std::filesystem::is_directory(path, code))
    return failure(fmt::format("{} is a folder, not a file", path));
  std::ifstream file(path, std::ios::binary);
  if (!file) return failure(fmt::format("{} cannot be opened: {}", path, std::strerror(errno)));
  std::string bytes(limit + 1, '\0');
  file.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  bytes.resize(static_cast<std::size_t>(file.gcount()));
  if (bytes.size() > limit)
    return failure(fmt::format("{} is larger than {} bytes, too large for a job file", path, limit));
  if (file.bad()) return failure(fmt::format("{} cannot be read: {}", path, std::strerror(errno)));
  return bytes;
}

Result<void, std::string> write_file(const std::string& path, std::string_view bytes) {
  const std::string beside = fmt::format("{}.{}.part", path, getpid());
  std::FILE* file = std::fopen(beside.c_str(), "wb");
  if (!file) return failure(fmt::format("{} cannot be written: {}", path, std::strerror(errno)));
  const bool written = std::fwrite(bytes.data(), 1, bytes.size(), file) == bytes.size() &&
                       std::fflush(file) == 0 && fsync(fileno(file)) == 0;
  const int why = errno;
  const bool closed = std::fclose(file) == 0;
  std::error_code code;
  if (written && closed) std::filesystem::rename(beside, path, code);
  if (written && closed && !code) return {};
  const std::string reason = code ? code.message() : std::strerror(why);
  std::filesystem::remove(beside, code);
  return failure(fmt::format("{} cannot be written: {}", path, reason));
}

Result<void, std::string> make_folder(const std::string& path) {
  std::error_code code;
  std::filesystem::create_directories(path, code);
  if (code) return failure(fmt::format("the folder {} cannot be created: {}", path, code.message()));
  return {};
}

}  // namespace shimwright::cli
