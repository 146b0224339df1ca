// Stands in for libFuzzer in an ordinary build: runs every file of a corpus folder through the target once.
#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

int main(int n_arguments, char** arguments) {
  namespace fs = std::filesystem;
  if (n_arguments != 2 || !fs::is_directory(arguments[1])) {
    std::fprintf(stderr, "give the one folder that holds the corpus\n");
    return 2;
  }
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(arguments[1])) {
    if (entry.is_regular_file()) files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  for (const fs::path& file : files) {
    std::ifstream in(file, std::ios::binary);
    const std::string bytes((std::istreambuf_iterator<char>(in)), std::istreambuf_iterator<char>());
    try {
      LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size());
    } catch (const std::exception& fault) {
      std::fprintf(stderr, "%s: %s\n", file.string().c_str(), fault.what());
      return 1;
    }
  }
  std::printf("%zu files of the corpus ran\n", files.size());
  // an empty folder would prove nothing
  return files.empty() ? 1 : 0;
}
