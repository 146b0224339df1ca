#include "server/http.h"

#include <arpa/inet.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <netinet/in.h>
#include <poll.h>
#include <signal.h>
#include <sys/resource.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cstring>
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
  /// Says that nothing more will come, and still listens.
  void end_sending() { ::shutdown(socket_, SHUT_WR); }

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

TEST(HttpServer, AnAnswerWithoutABodySaysItsLengthOnlyWhereItHasOne) {
  HttpService service;
  service.handle = [](const Request& request) {
    if (request.target == "/same") return Response{304, "text/plain", "unseen", {{"ETag", "\"a\""}}};
    if (request.target == "/stream") return Response{200, "text/event-stream", "", {}, "jobs"};
    return Response{200, "text/plain", "seven b", {{"X-One", "1"}, {"X-Two", "2"}}};
  };
  const HttpServer server = started({}, std::move(service));
  Client client(server.port());
  const auto said = [&](const std::string& method, const std::string& target, std::string_view last) {
    client.send(method + " " + target + " HTTP/1.1\r\nHost: here\r\n\r\n");
    return client.read_until(last);
  };
  const std::string head =
      "HTTP/1.1 200 OK\r\nContent-Type: text/plain\r\nX-One: 1\r\nX-Two: 2\r\nContent-Length: 7\r\n\r\n";
  EXPECT_EQ(said("GET", "/", "seven b"), head + "seven b");
  EXPECT_EQ(said("HEAD", "/", "\r\n\r\n"), head);
  EXPECT_EQ(said("GET", "/same", "\r\n\r\n"),
            "HTTP/1.1 304 Not Modified\r\nContent-Type: text/plain\r\nETag: \"a\"\r\n\r\n");
  EXPECT_EQ(said("HEAD", "/stream", "\r\n\r\n"),
            "HTTP/1.1 200 OK\r\nContent-Type: text/event-stream\r\nContent-Length: 0\r\n\r\n")
      << "a look at a stream begins none";
  EXPECT_EQ(said("GET", "/", "seven b"), head + "seven b") << "nothing was left over";
}

TEST(HttpServer, AConnectionStaysOpenUnlessTheClientWantsItClosed) {
  const HttpServer server = started();
  for (const auto& [asked, closes] :
       {std::pair{"GET / HTTP/1.1\r\nHost: here\r\nConnection: close\r\n\r\n", true},
        {"GET / HTTP/1.0\r\n\r\n", true},
        {"GET / HTTP/1.0\r\nConnection: keep-alive\r\n\r\n", false},
        {kGet, false}}) {
    Client client(server.port());
    client.send(asked);
    const std::string answer = client.read_until("GET ");
    EXPECT_EQ(answer.find("Connection: close\r\n") != std::string::npos, closes) << asked;
    client.send(kGet);
    EXPECT_EQ(client.read_until("GET ", closes ? 3000 : 20000).empty(), closes) << asked;
  }
}

TEST(HttpServer, ABodyOfExactlyTheLimitIsTaken) {
  HttpSettings settings;
  settings.limits.body_bytes = 10;
  const HttpServer server = started(std::move(settings));
  const auto answer = [&](const std::string& body, bool in_parts) {
    Client client(server.port());
    client.send("POST / HTTP/1.1\r\nHost: here\r\nContent-Length: " + std::to_string(body.size()) +
                "\r\n\r\n");
    if (in_parts)
      for (const char c : body) client.send(std::string(1, c));
    else
      client.send(body);
    return client.read_until(body.size() > 10 ? "}}" : body);
  };
  for (const bool in_parts : {false, true}) {
    EXPECT_THAT(answer("0123456789", in_parts),
                testing::AllOf(StartsWith("HTTP/1.1 200 "), HasSubstr("POST 0123456789")));
    EXPECT_THAT(answer("0123456789a", in_parts),
                testing::AllOf(StartsWith("HTTP/1.1 413 "), HasSubstr("The body is too large.")));
  }
}

/// What is refused says why in the form of every other refusal, and forbids to be read as something else.
TEST(HttpServer, EachKindOfRefusalHasItsStatusAndCode) {
  HttpSettings settings;
  settings.limits.header_bytes = 200;
  settings.limits.body_bytes = 10;
  settings.limits.request_ms = 700;
  const HttpServer server = started(std::move(settings));
  struct Kind {
    std::string bytes;
    bool ends;
    std::string status, code;
  };
  const std::string host = "Host: here\r\n";
  for (const Kind& kind :
       {Kind{"hello\r\n\r\n", false, "400 Bad Request", "bad_request"},
        Kind{"GET / HTTP/1.1\r\n" + host + host + "\r\n", false, "400 Bad Request", "bad_request"},
        Kind{
            "POST / HTTP/1.1\r\n" + host + "Transfer-Encoding: chunked\r\nContent-Length: 5\r\n\r\n0\r\n\r\n",
            false, "400 Bad Request", "bad_request"},
        Kind{"POST / HTTP/1.1\r\n" + host + "Content-Length: 5\r\n\r\nhel", true, "400 Bad Request",
             "bad_request"},
        Kind{"GET / HT", true, "400 Bad Request", "bad_request"},
        Kind{"GET / HTTP/1.1\r\n" + host, false, "408 Request Timeout", "too_slow"},
        Kind{"POST / HTTP/1.1\r\n" + host + "Content-Length: 11\r\n\r\n", false, "413 Payload Too Large",
             "too_large"},
        Kind{"GET / HTTP/1.1\r\n" + host + "X: " + std::string(200, 'x') + "\r\n\r\n", false,
             "431 Request Header Fields Too Large", "too_large"}}) {
    Client client(server.port());
    client.send(kind.bytes);
    if (kind.ends) client.end_sending();
    const std::string answer = client.read_to_end(20000);
    EXPECT_TRUE(client.closed()) << kind.bytes;
    EXPECT_THAT(answer, StartsWith("HTTP/1.1 " + kind.status + "\r\n")) << kind.bytes;
    EXPECT_THAT(answer, HasSubstr("{\"error\":{\"code\":\"" + kind.code + "\",")) << kind.bytes;
    EXPECT_THAT(answer, HasSubstr("X-Content-Type-Options: nosniff\r\n")) << kind.bytes;
    EXPECT_THAT(answer, HasSubstr("Connection: close\r\n")) << kind.bytes;
  }
  EXPECT_THAT(
      [&] {
        Client client(server.port());
        client.send("POST / HTTP/1.1\r\n" + host +
                    "Transfer-Encoding: chunked\r\n\r\n5\r\nhello\r\n0\r\n\r\n");
        return client.read_until("hello");
      }(),
      HasSubstr("POST hello"))
      << "one end of a body is right";
}

TEST(HttpServer, AnAnswerMayTakeLongerThanAnyRequest) {
  HttpSettings settings;
  settings.limits.idle_ms = settings.limits.request_ms = settings.limits.write_ms = 300;
  const HttpServer server = started(std::move(settings));
  Client client(server.port());
  client.send("GET /slow HTTP/1.1\r\nHost: here\r\n\r\n");
  EXPECT_THAT(client.read_until("GET ", 20000), StartsWith("HTTP/1.1 200 OK"));
}

TEST(HttpServer, ARequestMayTakeLongerThanAnIdleConnection) {
  HttpSettings settings;
  settings.limits.idle_ms = 200;
  settings.limits.request_ms = 60000;
  const HttpServer server = started(std::move(settings));
  Client client(server.port());
  client.send("G");
  std::this_thread::sleep_for(std::chrono::milliseconds(500));
  client.send(std::string(kGet).substr(1));
  EXPECT_THAT(client.read_until("GET ", 20000), StartsWith("HTTP/1.1 200 OK"));
}

TEST(HttpServer, WithoutAFreeDescriptorAClientWaitsForOne) {
  const HttpServer server = started();
  const int waiting = ::socket(AF_INET, SOCK_STREAM, 0), lowest_free = ::dup(waiting);
  ::close(lowest_free);
  rlimit before{};
  ::getrlimit(RLIMIT_NOFILE, &before);
  rlimit none = before;
  none.rlim_cur = static_cast<rlim_t>(lowest_free);
  ::setrlimit(RLIMIT_NOFILE, &none);
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_port = htons(server.port());
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  EXPECT_EQ(::connect(waiting, reinterpret_cast<const sockaddr*>(&address), sizeof address), 0);
  EXPECT_GT(::send(waiting, kGet, std::strlen(kGet), MSG_NOSIGNAL), 0);
  pollfd ready{waiting, POLLIN, 0};
  EXPECT_EQ(::poll(&ready, 1, 300), 0) << "nobody can take it up";
  ::setrlimit(RLIMIT_NOFILE, &before);
  EXPECT_EQ(::poll(&ready, 1, 20000), 1);
  char answer[64] = {};
  EXPECT_GT(::recv(waiting, answer, sizeof answer - 1, 0), 0);
  EXPECT_THAT(std::string(answer), StartsWith("HTTP/1.1 200 OK"));
  ::close(waiting);
}

TEST(HttpServer, AfterItsEndNobodyCanConnect) {
  HttpServer server = started();
  const std::uint16_t port = server.port();
  EXPECT_TRUE(Client(port).connected());
  server.stop();
  server.wait();
  EXPECT_FALSE(Client(port).connected());
}

TEST(HttpServer, AnEventHasOneLineForEachLineOfItsData) {
  EXPECT_EQ(event_text("", ""), "data: \n\n");
  EXPECT_EQ(event_text("edit", "a"), "event: edit\ndata: a\n\n");
  EXPECT_EQ(event_text("", "a\nbc\n\nd"), "data: a\ndata: bc\ndata: \ndata: d\n\n");
  EXPECT_EQ(event_text("", "a\n"), "data: a\ndata: \n\n");
}

TEST(HttpServer, AStreamThatLagsTooFarIsLetGo) {
  HttpSettings settings;
  settings.limits.lag_bytes = 1000;
  HttpServer server = started(std::move(settings));
  Client client(server.port()), other(server.port());
  for (Client* one : {&client, &other}) {
    one->send("GET /stream HTTP/1.1\r\nHost: here\r\n\r\n");
    one->read_until(": here\n\n");
  }
  for (int i = 0; i < 10; ++i) {  // each goes out before the next but one comes: that is no lag
    server.publish("jobs", "", std::string(300, 'x'));
    EXPECT_EQ(client.read_until("\n\n"), "data: " + std::string(300, 'x') + "\n\n");
  }
  server.publish("jobs", "", std::string(1000, 'x'));
  EXPECT_EQ(client.read_to_end(20000), "");
  EXPECT_TRUE(client.closed());
  server.publish("jobs", "", "nobody is here");  // who was let go is not written to
  EXPECT_LT(answer_ms(server.port()), 20000);
}

TEST(HttpServer, WhoLeavesAStreamIsNoLongerOneOfThem) {
  HttpSettings settings;
  settings.limits.n_connections = 2;
  HttpServer server = started(std::move(settings));
  for (int i = 0; i < 20; ++i) {
    Client client(server.port());
    std::string head;
    for (const auto end = Clock::now() + std::chrono::seconds(20); head.empty() && Clock::now() < end;) {
      Client next(server.port());  // until the one before is seen to have gone
      next.send("GET /stream HTTP/1.1\r\nHost: here\r\n\r\n");
      head = next.read_until(": here\n\n");
    }
    EXPECT_THAT(head, HasSubstr("text/event-stream")) << i;
    server.publish("jobs", "", "to whoever is here");
    server.wake("jobs");
  }
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
  for (int i = 0; i < 3; ++i)
    for (Client* client : {&first, &second})
      EXPECT_THAT(client->read_until(": still here\n\n"), HasSubstr(": still here\n\n"));
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
  const auto refused = [](const HttpServer& server) {
    auto client = std::make_unique<Client>(server.port());
    client->send("hello\r\n\r\n");
    EXPECT_THAT(client->read_to_end(20000), HasSubstr(" 400 "));
    EXPECT_TRUE(client->closed()) << "nothing more comes";
    return client;
  };
  HttpSettings patient, short_of_time;
  patient.limits.linger_ms = 60000;
  short_of_time.limits.linger_ms = 200;
  const HttpServer first = started(std::move(patient)), second = started(std::move(short_of_time));
  const std::string more(10000, 'x');
  const auto talkative = refused(first);
  for (int i = 0; i < 100; ++i)
    ASSERT_TRUE(talkative->send(more)) << "it may still send: its data is thrown away";
  const auto cut_off = refused(second);
  const auto begin = Clock::now();
  while (cut_off->send(more) && Clock::now() - begin < std::chrono::seconds(20)) {
  }
  EXPECT_FALSE(cut_off->send(more));
}

TEST(HttpServer, TheTimeOfARequestEndsWithIt) {
  HttpSettings settings;
  settings.limits.request_ms = 300;
  const HttpServer server = started(std::move(settings));
  Client client(server.port());
  for (int i = 0; i < 2; ++i) {
    client.send(kGet);
    EXPECT_THAT(client.read_until("GET ", 20000), StartsWith("HTTP/1.1 200 OK"));
    std::this_thread::sleep_for(std::chrono::milliseconds(500));
  }
  client.send("G");
  EXPECT_THAT(client.read_to_end(20000), StartsWith("HTTP/1.1 408 "));
}

TEST(HttpServer, AStreamThatHasNothingNewStaysAndOneThatEndsWithNothingEnds) {
  std::atomic<int> n_pulled = 0;
  std::atomic<bool> ends = false;
  HttpService service;
  service.handle = [&](const Request&) {
    return Response{200, "text/event-stream", "", {}, "run", [&](std::size_t&) {
                      ++n_pulled;
                      return Pulled{"", ends};
                    }};
  };
  HttpServer server = started({}, std::move(service));
  Client client(server.port());
  client.send(kGet);
  client.read_until(": here\n\n", 20000);
  const auto woken = [&](int n) {
    server.wake("run");
    for (const auto end = Clock::now() + std::chrono::seconds(20); n_pulled < n && Clock::now() < end;)
      std::this_thread::yield();
  };
  woken(2);
  server.publish("run", "", "still open");
  EXPECT_EQ(client.read_until("\n\n", 20000), "data: still open\n\n");
  ends = true;
  woken(3);
  EXPECT_EQ(client.read_to_end(20000), "");
  EXPECT_TRUE(client.closed());
}

TEST(HttpServer, WhoSaysMoreThanHeMustIsStillSeenToLeave) {
  HttpSettings settings;
  settings.limits.n_connections = 1;
  HttpServer server = started(std::move(settings));
  {
    Client client(server.port());
    client.send("GET /stream HTTP/1.1\r\nHost: here\r\n\r\n");
    EXPECT_THAT(client.read_until(": here\n\n", 20000), HasSubstr("text/event-stream"));
    for (int i = 0; i < 3; ++i) {
      client.send("noise");
      server.publish("jobs", "", "hear");
      EXPECT_EQ(client.read_until("\n\n", 20000), "data: hear\n\n");
    }
  }
  std::string answer;
  for (const auto end = Clock::now() + std::chrono::seconds(20); answer.empty() && Clock::now() < end;) {
    Client next(server.port());
    next.send(kGet);
    answer = next.read_until("GET ");
  }
  EXPECT_THAT(answer, StartsWith("HTTP/1.1 200 OK"));
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
