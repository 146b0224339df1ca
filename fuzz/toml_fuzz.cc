// Any bytes are read without a crash; what reads without a fault can be edited at every node, and back.
#include <cstddef>
#include <cstdint>
#include <string>

#include "base/check.h"
#include "toml/edit.h"
#include "toml/quoted.h"

namespace {

using namespace shimwright;

void check_faults(const toml::Document& document) {
  std::size_t last = 0;
  for (const toml::Fault& fault : document.faults) {
    SW_CHECK(last <= fault.begin && fault.begin <= fault.end, fault.begin, fault.end);
    SW_CHECK(fault.end <= document.text.size(), fault.end);
    SW_CHECK(fault.line >= 1 && fault.column >= 1, fault.line, fault.column);
    last = fault.begin;
  }
}

void edit_at(const toml::Document& document, const toml::Node& node) {
  const std::string path = toml::path_of(node);
  SW_CHECK(document.at(path) == &node, path);
  const bool of_list = node.parent->is_array();
  (void)toml::set_value(document, path, "[1, 2]");
  (void)(of_list ? toml::remove_element(document, path) : toml::remove_key(document, path));
  if (node.is_table()) (void)toml::set_value(document, path + ".fresh", "'x'");
  if (of_list) (void)toml::insert_element(document, path, "3");
  if (of_list) (void)toml::insert_table(document, path, "n = 3\n");
}

/// Edits at up to `n_left` nodes: each reads the whole text again.
void edit_below(const toml::Document& document, const toml::Node& node, int& n_left) {
  for (const auto& child : node.children) {
    if (n_left-- <= 0) return;
    edit_at(document, *child);
    edit_below(document, *child, n_left);
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  const toml::Document document = toml::parse(text);
  check_faults(document);
  if (document.ok()) {
    int n_left = 8;
    edit_below(document, *document.root, n_left);
  }
  const toml::Document quoted = toml::parse("v = " + toml::quote(text));
  SW_CHECK(quoted.ok() && quoted.root->find("v"), text.size());
  return 0;
}
