// The decoder of the public conformance suite for TOML: a text on stdin, typed JSON on stdout.
// Exit 0; or 1 with every fault on stderr when the text is refused.
#include <cmath>
#include <iostream>
#include <iterator>
#include <string>

#include <nlohmann/json.hpp>

#include "toml_typed_json.h"

int main() {
  std::string text((std::istreambuf_iterator<char>(std::cin)), std::istreambuf_iterator<char>());
  const shimwright::toml::Document document = shimwright::toml::parse(std::move(text));
  for (const auto& fault : document.faults) {
    std::cerr << fault.line << ':' << fault.column << ": " << fault.what << "; expected " << fault.expected
              << "; " << fault.remedy << '\n';
  }
  if (!document.ok()) return 1;
  std::cout << shimwright::toml::typed_json(*document.root).dump(2) << '\n';
  return 0;
}
