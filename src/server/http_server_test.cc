#include "server/http.h"

#include <arpa/inet.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <netinet/in.h>
#include <poll.h>
#include <signal.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <thread>
#include <vector>

namespace shimwright::server {
namespace {

using ::testing::HasSubstr;
using ::testing::StartsWith;
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

 private:
  int socket_;
  bool connected_ = false;
  bool closed_ = false;
  std::string got_;
};

constexpr const char* kGet = "GET / HTTP/1.1\r\nHost: here\r\n\r\n";

HttpServer started(HttpSettings settings = {}, HttpService service = {}) {
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
double answer_ms(std::uint16_t port) {
  const auto begin = Clock::now();
  Client client(port);
  client.send(kGet);
  EXPECT_THAT(client.read_until("GET "), HasSubstr("200 OK"));
  return std::chrono::duration<double, std::milli>(Clock::now() - begin).count();
}

TEST(HttpServer, AnswersSeveralRequestsOverOneConnection) {
  const HttpServer server = started();
  Client client(server.port());
  for (int i = 0; i < 3; ++i) {
    client.send("POST /x HTTP/1.1\r\nHost: here\r\nContent-Length: 5\r\n\r\nhello");
    const std::string answer = client.read_until("hello");
    EXPECT_THAT(answer, StartsWith("HTTP/1.1 200 OK"));
    EXPECT_THAT(answer, HasSubstr("X-Host: here"));
  }
  client.send(std::string(kGet) + kGet);
  EXPECT_THAT(client.read_until("GET \x01", 500), HasSubstr("GET HTTP/1.1 200 OK")) << "sent in one go";
}

TEST(HttpServer, ListensOnTheLoopbackAloneAndOnAFreePort) {
  const HttpServer first = started(), second = started();
  EXPECT_NE(first.port(), second.port());
  HttpSettings taken;
  taken.port = first.port();
  const auto refused = HttpServer::listen(taken);
  ASSERT_FALSE(refused.has_value());
  EXPECT_THAT(refused.error(), HasSubstr("cannot be used"));
}

TEST(HttpServer, AClientThatComesBeforeItServesIsAnsweredThen) {
  auto server = HttpServer::listen({});
  ASSERT_TRUE(server.has_value());
  Client client(server->port());
  ASSERT_TRUE(client.connected()) << "the port is bound";
  client.send(kGet);
  server->serve({.handle = [](const Request&) { return Response{200, "text/plain", "here you are"}; }});
  EXPECT_THAT(client.read_until("here you are"), HasSubstr("200 OK"));
}

TEST(HttpServer, EndsWithoutHavingServed) {
  const auto server = HttpServer::listen({});
  EXPECT_TRUE(server.has_value());
}

TEST(HttpServer, AHeadAndAnUnchangedFileComeWithoutABody) {
  const HttpServer server = started();
  Client client(server.port());
  client.send("HEAD / HTTP/1.1\r\nHost: here\r\nConnection: close\r\n\r\n");
  EXPECT_THAT(client.read_to_end(), testing::EndsWith("\r\n\r\n"));
}

TEST(HttpServer, ATooLargeBodyIsRefused) {
  const HttpServer server = started();
  Client stated(server.port());
  stated.send("POST / HTTP/1.1\r\nHost: here\r\nContent-Length: 2000000\r\n\r\n");
  EXPECT_THAT(stated.read_until("}}"), HasSubstr(" 413 "));
  Client chunked(server.port());
  chunked.send("POST / HTTP/1.1\r\nHost: here\r\nTransfer-Encoding: chunked\r\n\r\n");
  const std::string chunk = "10000\r\n" + std::string(0x10000, 'x') + "\r\n";
  for (int i = 0; i < 40 && chunked.send(chunk); ++i) {
  }
  EXPECT_THAT(chunked.read_until("}}"), HasSubstr(" 413 "));
  EXPECT_LT(answer_ms(server.port()), 1000);
}

TEST(HttpServer, TooLargeHeadersAreRefused) {
  const HttpServer server = started();
  Client client(server.port());
  client.send("GET / HTTP/1.1\r\nHost: here\r\nX-Long: " + std::string(60000, 'x') + "\r\n\r\n");
  EXPECT_THAT(client.read_until("}}"), HasSubstr(" 431 "));
}

TEST(HttpServer, WhatIsNoHttpIsRefusedAndLetGo) {
  const HttpServer server = started();
  for (const char* bytes :
       {"hello\r\n\r\n", "GET\r\n\r\n", "\x16\x03\x01\x02\x00\x01\x00\x01", "GET / HTTP/9.9\r\n\r\n",
        "GET / HTTP/1.1\r\nHost : x\r\n\r\n", "POST / HTTP/1.1\r\nContent-Length: -1\r\n\r\n",
        "POST / HTTP/1.1\r\nContent-Length: 99999999999999999999\r\n\r\n",
        "GET / HTTP/1.1\r\nHost: a\r\nHost: b\r\n\r\n"}) {
    Client client(server.port());
    client.send(bytes);
    const std::string answer = client.read_to_end(7000);
    EXPECT_TRUE(client.closed()) << bytes;
    EXPECT_THAT(answer, testing::Not(HasSubstr("200 OK"))) << bytes;
  }
  EXPECT_LT(answer_ms(server.port()), 1000);
}

TEST(HttpServer, ADrippingClientIsCutOffAndHoldsNobodyUp) {
  HttpSettings settings;
  settings.limits.request_ms = 1500;  // five seconds in earnest
  const HttpServer server = started(std::move(settings));
  std::vector<std::unique_ptr<Client>> slow;
  for (int i = 0; i < 20; ++i) slow.push_back(std::make_unique<Client>(server.port()));
  const auto begin = Clock::now();
  double worst = 0;
  for (int step = 0; step < 10; ++step) {
    for (auto& client : slow) client->send("G");
    worst = std::max(worst, answer_ms(server.port()));
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
  }
  EXPECT_LT(worst, 1000) << "an honest client does not wait for them; on a busy machine too";
  for (auto& client : slow) {
    const std::string why = client->read_to_end(3000);
    EXPECT_TRUE(client->closed());
    EXPECT_THAT(why, StartsWith("HTTP/1.1 408 "));
  }
  EXPECT_GT(Clock::now() - begin, std::chrono::milliseconds(1490)) << "but not before its time is up";
}

TEST(HttpServer, TwoHundredIdleConnectionsHarmNobody) {
  const HttpServer server = started();
  std::vector<std::unique_ptr<Client>> idle;
  for (int i = 0; i < 200; ++i) {
    idle.push_back(std::make_unique<Client>(server.port()));
    ASSERT_TRUE(idle.back()->connected());
  }
  for (int i = 0; i < 5; ++i) EXPECT_LT(answer_ms(server.port()), 1000);
  idle.front()->send(kGet);
  EXPECT_THAT(idle.front()->read_until("GET "), HasSubstr("200 OK")) << "each of them may still ask";
}

TEST(HttpServer, MoreConnectionsThanItTakesAreLetGoUntilOneIsFree) {
  HttpSettings settings;
  settings.limits.n_connections = 8;
  const HttpServer server = started(std::move(settings));
  std::vector<std::unique_ptr<Client>> held;
  for (int i = 0; i < 8; ++i) held.push_back(std::make_unique<Client>(server.port()));
  std::this_thread::sleep_for(std::chrono::milliseconds(100));
  Client ninth(server.port());
  ninth.send(kGet);
  ninth.read_to_end();
  EXPECT_TRUE(ninth.closed());
  held.clear();
  std::this_thread::sleep_for(std::chrono::milliseconds(100));
  EXPECT_LT(answer_ms(server.port()), 1000);
}

TEST(HttpServer, AnIdleConnectionIsLetGoAfterAWhile) {
  HttpSettings settings;
  settings.limits.idle_ms = 100;
  const HttpServer server = started(std::move(settings));
  Client client(server.port());
  client.read_to_end(2000);
  EXPECT_TRUE(client.closed());
}

TEST(HttpServer, AClientThatDoesNotReadIsLetGo) {
  HttpSettings settings;
  settings.limits.write_ms = 200;
  const HttpServer server = started(std::move(settings));
  Client client(server.port());
  client.send("GET /large HTTP/1.1\r\nHost: here\r\n\r\n");
  std::this_thread::sleep_for(std::chrono::milliseconds(600));
  EXPECT_LT(client.read_to_end(2000).size(), 8u << 20);
  EXPECT_TRUE(client.closed());
}

TEST(HttpServer, ASlowAnswerKeepsNoOtherWaiting) {
  const HttpServer server = started();
  Client slow(server.port());
  slow.send("GET /slow HTTP/1.1\r\nHost: here\r\n\r\n");
  EXPECT_LT(answer_ms(server.port()), 1000) << "another worker is free";
  EXPECT_THAT(slow.read_until("GET "), HasSubstr("200 OK"));
}

TEST(HttpServer, EventsReachEveryOpenStreamAndABeatKeepsThemOpen) {
  HttpSettings settings;
  settings.limits.beat_ms = 50;
  HttpServer server = started(std::move(settings));
  Client first(server.port()), second(server.port());
  for (Client* client : {&first, &second}) {
    client->send("GET /stream HTTP/1.1\r\nHost: here\r\n\r\n");
    EXPECT_THAT(client->read_until(": here"), HasSubstr("text/event-stream"));
  }
  server.publish("other", "", "not for you");
  server.publish("jobs", "edit", "{\"a\":1}\nsecond line");
  for (Client* client : {&first, &second}) {
    const std::string got = client->read_until("second line\n\n");
    EXPECT_THAT(got, HasSubstr("event: edit\ndata: {\"a\":1}\ndata: second line\n\n"));
    EXPECT_THAT(got, testing::Not(HasSubstr("not for you")));
  }
  EXPECT_THAT(first.read_until(": still here"), HasSubstr(": still here"));
}

TEST(HttpServer, AStreamWithAPastSendsItAllOnceAndEndsWithIt) {
  std::atomic<std::size_t> n_events = 2;
  HttpService service;
  service.handle = [&](const Request&) {
    return Response{200, "text/event-stream", "", {}, "run", [&](std::size_t& cursor) {
                      Pulled pulled;
                      for (; cursor < n_events; ++cursor)
                        pulled.text += event_text("", std::to_string(cursor));
                      pulled.ended = n_events == 4;
                      return pulled;
                    }};
  };
  HttpServer server = started({}, std::move(service));
  Client early(server.port());
  early.send(kGet);
  EXPECT_THAT(early.read_until("data: 1\n\n"), HasSubstr("data: 0\n\ndata: 1\n\n"));
  n_events = 3;
  server.wake("other");
  server.wake("run");
  EXPECT_EQ(early.read_until("data: 2\n\n"), "data: 2\n\n");
  n_events = 4;
  server.wake("run");
  EXPECT_EQ(early.read_to_end(), "data: 3\n\n");
  EXPECT_TRUE(early.closed());
  Client late(server.port());
  late.send(kGet);
  EXPECT_THAT(late.read_to_end(), testing::EndsWith("data: 0\n\ndata: 1\n\ndata: 2\n\ndata: 3\n\n"));
  EXPECT_TRUE(late.closed());
}

TEST(HttpServer, TheTickComesAgainAndAgain) {
  EXPECT_EQ(HttpLimits{}.tick_ms, 1000);
  std::atomic<int> n = 0;
  HttpSettings settings;
  settings.limits.tick_ms = 20;
  HttpService service;
  service.tick = [&] { ++n; };
  const auto begin = Clock::now();
  const HttpServer server = started(std::move(settings), std::move(service));
  while (n < 4 && Clock::now() - begin < std::chrono::seconds(20)) std::this_thread::yield();
  EXPECT_EQ(n, 4);
  EXPECT_GE(Clock::now() - begin, std::chrono::milliseconds(79));
}

TEST(HttpServer, AStreamOutlivesTheTimeOfAnAnswer) {
  HttpSettings settings;
  settings.limits.write_ms = settings.limits.idle_ms = settings.limits.request_ms = 150;
  HttpServer server = started(std::move(settings));
  Client client(server.port());
  client.send("GET /stream HTTP/1.1\r\nHost: here\r\n\r\n");
  client.read_until(": here\n\n");
  std::this_thread::sleep_for(std::chrono::milliseconds(400));
  server.publish("jobs", "", "still open");
  EXPECT_EQ(client.read_until("\n\n"), "data: still open\n\n");
}

TEST(HttpServer, EndsAtEachSignalThatAsksIt) {
  for (const int signal : {SIGINT, SIGTERM}) {
    auto server = HttpServer::listen({});
    server->serve({.handle = [](const Request&) { return Response{}; }, .end_at_signal = true});
    ::raise(signal);  // without the server it would end the test
    server->wait();
  }
}

TEST(HttpServer, ARefusedClientHasTimeToReadWhyButNotForEver) {
  HttpSettings settings;
  settings.limits.linger_ms = 200;
  const HttpServer server = started(std::move(settings));
  Client client(server.port());
  client.send("hello\r\n\r\n");
  EXPECT_THAT(client.read_to_end(), HasSubstr(" 400 "));
  EXPECT_TRUE(client.closed());
}

TEST(HttpServer, EndsWithStreamsAndRequestsOpen) {
  HttpServer server = started();
  Client stream(server.port()), slow(server.port());
  stream.send("GET /stream HTTP/1.1\r\nHost: here\r\n\r\n");
  stream.read_until(": here");
  slow.send("GET /slow HTTP/1.1\r\nHost: here\r\n\r\n");
  server.stop();
  server.wait();
}

}  // namespace
}  // namespace shimwright::server
