#pragma once
#include <cstdlib>
#include <filesystem>
#include <stdexcept>
#include <string>

// For the tests of every module.

namespace shimwright {

/// A new folder of a test's own, that goes with it; two runs side by side never meet in one.
struct TestFolder {
  std::filesystem::path path;

  TestFolder() {
    std::string name = (std::filesystem::temp_directory_path() / "shimwright-XXXXXX").string();
    if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no folder for a test: " + name);
    path = std::filesystem::canonical(name);
  }
  ~TestFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path, ignored);
  }
  TestFolder(const TestFolder&) = delete;
  TestFolder& operator=(const TestFolder&) = delete;

  std::string file(const std::string& name) const { return (path / name).string(); }
};

}  // namespace shimwright
