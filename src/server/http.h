#pragma once
#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.h"

namespace shimwright::server {

/// HTTP as the workbench sees it; what reads and writes it on a socket is in http_server.cc alone.

struct Request {
  std::string method;  // "GET"
  std::string target;  // path and query as sent
  std::string host, origin, content_type, token, cookie, if_none_match, result_tag;
  std::string body;
};

/// What a stream that has a past of its own gives: events as they go over the wire.
struct Pulled {
  std::string text;
  bool ended = false;  // nothing more will come
};

struct Response {
  int status = 200;
  std::string type = "application/json";
  std::string body;
  std::vector<std::pair<std::string, std::string>>
      headers{};  // in addition to those that every answer carries

  /// Not empty: the answer is a stream of server-sent events on this topic.
  std::string topic{};
  /// Asked at the begin of the stream and at each wake() of its topic, with a cursor that it moves on. Empty:
  /// what is published is all.
  std::function<Pulled(std::size_t& cursor)> pull{};
};

/// The bounds that keep a careless or hostile client from harming the others.
struct HttpLimits {
  std::size_t header_bytes = 8192;
  std::size_t body_bytes = 1u << 20;
  std::size_t lag_bytes = 32u << 20;  // that a client of an event stream may be behind
  int request_ms = 5000;              // from the first byte of a request to its last
  int idle_ms = 60000;                // between requests
  int write_ms = 30000;               // for one answer
  int beat_ms = 15000;                // a comment line in each event stream
  int tick_ms = 1000;                 // between two looks at the disk
  int linger_ms = 1000;               // for a refused client to read why
  int n_connections = 256;
  int n_workers = 4;  // a packet takes one of them for half a second
};

struct HttpSettings {
  std::string address = "127.0.0.1";
  std::uint16_t port = 0;  // 0: a free one
  HttpLimits limits{};
};

/// What a server does once its port is known.
struct HttpService {
  std::function<Response(const Request&)> handle;  // on a worker; may take its time; must not throw
  std::function<void()> tick{};                    // on a worker, at each tick of the limits
  bool end_at_signal = false;                      // SIGINT and SIGTERM end it, as stop() does
};

/// A small HTTP server: one thread for all sockets, a few workers for the answers.
///
/// Errors: listen() says why the port could not be had. After that no client can end it.
/// Tested: http_server_test.cc and http_streams_test.cc over a real loopback socket
class HttpServer {
 public:
  /// Binds the port and listens. From here on clients can connect; they wait until serve() answers them.
  static Result<HttpServer, std::string> listen(HttpSettings settings);
  ~HttpServer();
  HttpServer(HttpServer&&) noexcept;

  std::uint16_t port() const;
  /// Starts to answer; called once.
  void serve(HttpService service);
  /// Sends an event to every open stream of this topic; from any thread. An empty `event` is left out.
  void publish(const std::string& topic, const std::string& event, const std::string& data);
  /// Lets every open stream of this topic pull what is new; from any thread.
  void wake(const std::string& topic);
  /// Waits until the server has ended, by stop() or by a signal.
  void wait();
  void stop();

 private:
  struct Impl;
  explicit HttpServer(std::unique_ptr<Impl> impl);
  std::unique_ptr<Impl> impl_;
};

/// One event as it goes over the wire.
std::string event_text(std::string_view event, std::string_view data);

}  // namespace shimwright::server
