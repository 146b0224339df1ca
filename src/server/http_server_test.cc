#include "server/http.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/resource.h>

#include <algorithm>
#include <atomic>
#include <cstring>

#include "server/test_client.h"

namespace shimwright::server {
namespace {

using ::testing::HasSubstr;
using ::testing::StartsWith;

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
#ifdef __SANITIZE_ADDRESS__
  // the sanitizer opens a pipe to see whether memory can be read, and takes it for broken when it gets none
  GTEST_SKIP() << "the sanitizer needs descriptors of its own";
#endif
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

TEST(HttpServer, ARefusedClientHasTimeToReadWhyButNotForEver) {
  const auto refused = [](const HttpServer& server) {
    auto client = std::make_unique<Client>(server.port());
    client->send("hello\r\n\r\n");
    EXPECT_THAT(client->read_to_end(20000), HasSubstr(" 400 "));
    EXPECT_TRUE(client->closed()) << "nothing more comes";
    return client;
  };
  HttpSettings patient, short_of_time;
  patient.limits.linger_ms = 20000;
  short_of_time.limits.linger_ms = 200;
  const HttpServer first = started(std::move(patient)), second = started(std::move(short_of_time));
  const std::string more(10000, 'x');
  const auto talkative = refused(first);
  for (int i = 0; i < 2000; ++i)
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

}  // namespace
}  // namespace shimwright::server
