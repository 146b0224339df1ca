#include "zoo.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

namespace shimwright::laws {

std::vector<std::string> zoo_jobs() {
  std::vector<std::string> paths;
  for (const auto& entry : std::filesystem::directory_iterator(SW_SOURCE_DIR "/test/zoo"))
    if (entry.path().string().ends_with(".job.toml")) paths.push_back(entry.path().string());
  std::ranges::sort(paths);
  return paths;
}

std::string text_of_file(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

}  // namespace shimwright::laws
