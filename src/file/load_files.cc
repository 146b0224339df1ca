#include <filesystem>
#include <fstream>
#include <sstream>
#include <system_error>

#include "file/load.h"

namespace shimwright::file {
namespace {

constexpr std::uintmax_t kLargestFile = 16u << 20;  // bytes; a large job has some thousands

}  // namespace

Result<std::string, std::string> MemoryFiles::read(const std::string& name) {
  const auto found = texts_.find(name);
  if (found == texts_.end()) return failure(std::string("no such file"));
  return found->second;
}

Result<std::string, std::string> DiskFiles::read(const std::string& name) {
  namespace fs = std::filesystem;
  std::error_code error;
  const fs::file_status status = fs::status(name, error);
  if (status.type() == fs::file_type::not_found) return failure(std::string("no such file"));
  if (fs::is_directory(status)) return failure(std::string("it is a folder"));
  if (!fs::is_regular_file(status)) return failure(std::string("it is not an ordinary file"));
  if (fs::file_size(name, error) > kLargestFile) return failure(std::string("it is larger than 16 MB"));

  std::ifstream stream(name, std::ios::binary);
  std::ostringstream text;
  text << stream.rdbuf();
  if (!stream || !text) return failure(std::string("you have no permission to read it"));
  return text.str();
}

Result<std::string, std::string> JobFiles::read(const std::string& name) {
  if (name == path_) return text_;
  return disk_.read(name);
}

}  // namespace shimwright::file
