#pragma once
#include <functional>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "server/assets.h"
#include "server/http.h"
#include "server/workbench.h"

namespace shimwright::server {

struct RouterSettings {
  std::vector<std::string> hosts;  // that this server answers to, "127.0.0.1:8417"
  std::span<const Asset> assets;
  std::string passphrase;                // of --lan; empty: no passphrase
  std::string cookie;                    // that a browser gets for it
  std::function<std::int64_t()> now_ms;  // since any moment
};

/// One way of the API, for the test that holds it to the description.
struct Way {
  std::string method;
  std::string path;  // "/api/jobs/{id}/edit"
};

/// From a request to its answer: who may ask, what is requested, the workbench's answer as JSON.
///
/// Model:  in this order: Host (421), Origin (403), passphrase (401), path (404), method (405), content type
///         (415), token (403), body (400). Every answer forbids to be framed, sniffed or scripted from
///         elsewhere.
/// Errors: never throws: a bug of ours is a 500 with a sentence.
/// Tested: router_test.cc
class Router {
 public:
  Router(RouterSettings settings, Workbench& workbench);
  ~Router();

  Response handle(const Request& request) noexcept;
  static std::vector<Way> ways();

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

/// The topic of /api/events.
inline constexpr const char* kJobsTopic = "jobs";

}  // namespace shimwright::server
