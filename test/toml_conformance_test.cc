// The public conformance suite for TOML 1.0, when it lies beside the checkout; and cases of our own, always.
#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "toml_typed_json.h"

namespace shimwright::toml {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

std::string bytes_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

/// The suite's folder: under the environment variable, else under a folder beside the checkout; empty when
/// absent.
fs::path suite_folder() {
  if (const char* reference = std::getenv("SHIMWRIGHT_REFERENCE")) {
    const fs::path folder = fs::path(reference) / "toml-test";
    return fs::is_directory(folder) ? folder : fs::path();
  }
  std::error_code error;
  std::vector<fs::path> found;
  for (const auto& beside : fs::directory_iterator(fs::path(SW_SOURCE_DIR) / "..", error)) {
    const fs::path folder = beside.path() / "reference" / "toml-test";
    if (fs::is_directory(folder, error)) found.push_back(folder);
  }
  return found.empty() ? fs::path() : *std::min_element(found.begin(), found.end());
}

std::vector<fs::path> toml_files(const fs::path& folder) {
  std::vector<fs::path> files;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (entry.path().extension() == ".toml") files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  return files;
}

/// Equal as the suite means it: floats by value, all else by text.
bool agrees(const json& got, const json& wanted) {
  if (got.is_array() != wanted.is_array() || got.size() != wanted.size()) return false;
  if (got.is_array()) return std::equal(got.begin(), got.end(), wanted.begin(), agrees);
  const bool is_leaf = wanted.contains("type") && wanted["type"].is_string();
  if (is_leaf && wanted["type"] == "float" && got.value("type", "") == "float") {
    const std::string a = got["value"], b = wanted["value"];
    return a == b || std::strtod(a.c_str(), nullptr) == std::strtod(b.c_str(), nullptr);
  }
  if (is_leaf) return got == wanted;
  return std::all_of(wanted.items().begin(), wanted.items().end(), [&](const auto& item) {
    return got.contains(item.key()) && agrees(got[item.key()], item.value());
  });
}

std::string faults_of(const Document& document) {
  std::string out;
  for (const Fault& f : document.faults)
    out += "\n  " + std::to_string(f.line) + ":" + std::to_string(f.column) + " " + f.what;
  return out;
}

void say_that_suite_is_absent() {
  std::cout << "The public TOML suite is not beside this checkout (reference/toml-test in a folder next to "
               "it, or in "
               "SHIMWRIGHT_REFERENCE). Only the built-in cases ran.\n";
}

TEST(TomlSuite, EveryValidFileReadsAsItsTypedJson) {
  const fs::path suite = suite_folder();
  if (suite.empty()) return say_that_suite_is_absent();
  const auto files = toml_files(suite / "valid");
  EXPECT_GT(files.size(), 0u);
  for (const fs::path& file : files) {
    const Document document = parse(bytes_of(file));
    EXPECT_TRUE(document.ok()) << file << faults_of(document);
    const json wanted = json::parse(bytes_of(fs::path(file).replace_extension(".json")));
    EXPECT_TRUE(agrees(typed_json(*document.root), wanted)) << file << "\n"
                                                            << typed_json(*document.root).dump(1);
  }
  std::cout << files.size() << " valid files of the public suite read\n";
}

TEST(TomlSuite, EveryInvalidFileIsRefused) {
  const fs::path suite = suite_folder();
  if (suite.empty()) return say_that_suite_is_absent();
  const auto files = toml_files(suite / "invalid");
  EXPECT_GT(files.size(), 0u);
  for (const fs::path& file : files) EXPECT_FALSE(parse(bytes_of(file)).ok()) << file;
  std::cout << files.size() << " invalid files of the public suite refused\n";
}

}  // namespace
}  // namespace shimwright::toml
