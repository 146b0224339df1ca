#pragma once
#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace shimwright::server {

/// A request's target, taken apart.
struct Target {
  std::string path;                          // as sent: nothing in it is encoded
  std::map<std::string, std::string> query;  // decoded; of a name given twice the first
};

/// Nothing when it is not one of ours: a path with an escape, a dot segment or any other trick in it.
/// Tested: target_test.cc, fuzz/http_fuzz.cc
std::optional<Target> parse_target(std::string_view target);

/// "a=b&c=d", decoded.
std::optional<std::map<std::string, std::string>> parse_form(std::string_view text);

/// The same for any two texts, in a time that does not depend on how much of them agrees.
bool same_secret(std::string_view given, std::string_view secret);

}  // namespace shimwright::server
