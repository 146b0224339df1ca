#pragma once
#include <cstdint>
#include <deque>
#include <functional>
#include <mutex>
#include <optional>
#include <string>

#include "server/http.h"

namespace shimwright::server {

/// The passphrase of a workbench that others on the net can reach: a page that asks for it, a cookie for who
/// knows it, and a pause after a few wrong ones.
/// Tested: router_test.cc
class Login {
 public:
  /// `cookie` is what a browser gets for the passphrase; with an empty passphrase everybody may enter.
  Login(std::string passphrase, std::string cookie, std::function<std::int64_t()> now_ms);

  bool asked_for() const { return !passphrase_.empty(); }

  /// The answer to a client without the cookie, and to the page that asks; nothing when the request may go
  /// on. `path` is empty when the target was not a path.
  std::optional<Response> answer(const Request& request, const std::string& path);

 private:
  Response tried(const Request& request);
  bool may_try();

  std::string passphrase_;
  std::string cookie_;
  std::function<std::int64_t()> now_ms_;
  std::mutex mutex_;
  std::deque<std::int64_t> tries_;  // when the last few came in
};

}  // namespace shimwright::server
