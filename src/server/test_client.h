#pragma once
// What the tests of the HTTP server share: a client over a real loopback socket, and a server for it.
#include <arpa/inet.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <netinet/in.h>
#include <poll.h>
#include <signal.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <thread>
#include <vector>

#include "server/http.h"

namespace shimwright::server {

using Clock = std::chrono::steady_clock;

/// A client that sends exactly what the test says, byte by byte if needed.
class Client {
 public:
  explicit Client(std::uint16_t port) : socket_(::socket(AF_INET, SOCK_STREAM, 0)) {
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(port);
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    connected_ = ::connect(socket_, reinterpret_cast<const sockaddr*>(&address), sizeof address) == 0;
  }
  ~Client() { ::close(socket_); }
  Client(const Client&) = delete;

  bool connected() const { return connected_; }
  bool send(std::string_view bytes) {
    while (!bytes.empty()) {
      const ssize_t n = ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL);
      if (n <= 0) return false;
      bytes.remove_prefix(static_cast<std::size_t>(n));
    }
    return true;
  }
  /// What arrives until it contains `enough`, the other side closes, or the time is up.
  std::string read_until(std::string_view enough, int within_ms = 3000) {
    const auto end = Clock::now() + std::chrono::milliseconds(within_ms);
    while (got_.find(enough) == std::string::npos) {
      pollfd ready{socket_, POLLIN, 0};
      const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(end - Clock::now()).count();
      if (left <= 0 || ::poll(&ready, 1, static_cast<int>(left)) <= 0) break;
      char part[4096];
      const ssize_t n = ::recv(socket_, part, sizeof part, 0);
      if (n <= 0) {
        closed_ = true;
        break;
      }
      got_.append(part, static_cast<std::size_t>(n));
    }
    return std::exchange(got_, {});
  }
  std::string read_to_end(int within_ms = 3000) { return read_until("\x01\x02 never", within_ms); }
  bool closed() const { return closed_; }
  /// Says that nothing more will come, and still listens.
  void end_sending() { ::shutdown(socket_, SHUT_WR); }

 private:
  int socket_;
  bool connected_ = false;
  bool closed_ = false;
  std::string got_;
};

inline constexpr const char* kGet = "GET / HTTP/1.1\r\nHost: here\r\n\r\n";

inline HttpServer started(HttpSettings settings = {}, HttpService service = {}) {
  if (!service.handle) {
    service.handle = [](const Request& request) {
      if (request.target == "/stream") return Response{200, "text/event-stream", "", {}, "jobs"};
      if (request.target == "/slow") std::this_thread::sleep_for(std::chrono::milliseconds(1200));
      if (request.target == "/large") return Response{200, "text/plain", std::string(8u << 20, 'x')};
      return Response{200, "text/plain", request.method + " " + request.body, {{"X-Host", request.host}}};
    };
  }
  auto server = HttpServer::listen(std::move(settings));
  if (!server) throw std::runtime_error(server.error());
  server->serve(std::move(service));
  return std::move(*server);
}

/// How long an honest client waits for its answer now [ms].
inline double answer_ms(std::uint16_t port) {
  const auto begin = Clock::now();
  Client client(port);
  client.send(kGet);
  EXPECT_THAT(client.read_until("GET "), ::testing::HasSubstr("200 OK"));
  return std::chrono::duration<double, std::milli>(Clock::now() - begin).count();
}

}  // namespace shimwright::server
