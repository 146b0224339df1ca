#include "server/http.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <atomic>

#include "server/test_client.h"

namespace shimwright::server {
namespace {

using ::testing::HasSubstr;
using ::testing::StartsWith;

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
