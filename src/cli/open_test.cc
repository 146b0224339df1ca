#include "cli/open.h"

#include <arpa/inet.h>
#include <fcntl.h>
#include <fmt/core.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <netinet/in.h>
#include <stdlib.h>
#include <sys/socket.h>
#include <sys/time.h>
#include <sys/wait.h>
#include <termios.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <cerrno>
#include <chrono>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iostream>
#include <optional>
#include <ostream>
#include <sstream>
#include <streambuf>
#include <string>
#include <thread>
#include <utility>
#include <vector>

#include "base/test_folder.h"
#include "cli/commands.h"
#include "store/journal.h"

namespace shimwright::cli {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::StartsWith;

struct Folder : TestFolder {
  OpenRequest request() const {
    return {.what = path.string(), .no_browser = true, .journal = (path / "journal.db").string()};
  }
};

/// A socket on the loopback, connected or bound.
class Socket {
 public:
  Socket() : id_(::socket(AF_INET, SOCK_STREAM, 0)) {}
  ~Socket() { ::close(id_); }
  Socket(const Socket&) = delete;

  bool connect(int port) {
    const sockaddr_in address = loopback(port);
    return ::connect(id_, reinterpret_cast<const sockaddr*>(&address), sizeof address) == 0;
  }
  /// Takes a free port for itself; which.
  int take_port() {
    sockaddr_in address = loopback(0);
    socklen_t size = sizeof address;
    if (::bind(id_, reinterpret_cast<const sockaddr*>(&address), size) != 0 || ::listen(id_, 1) != 0 ||
        ::getsockname(id_, reinterpret_cast<sockaddr*>(&address), &size) != 0)
      return 0;
    return ntohs(address.sin_port);
  }
  void ask(const std::string& request) { ::send(id_, request.data(), request.size(), MSG_NOSIGNAL); }
  /// What arrives until it contains `enough`, or for so long that it never will.
  std::string heard(const std::string& enough) {
    std::string text;
    char part[4096];
    timeval patience{60, 0};
    ::setsockopt(id_, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
    for (ssize_t n = 0;
         text.find(enough) == std::string::npos && (n = ::recv(id_, part, sizeof part, 0)) > 0;)
      text.append(part, static_cast<std::size_t>(n));
    return text;
  }
  std::string answer_to(const std::string& request) {
    ask(request);
    std::string answer;
    char part[4096];
    for (ssize_t n = 0; (n = ::recv(id_, part, sizeof part, 0)) > 0;)
      answer.append(part, static_cast<std::size_t>(n));
    return answer;
  }

 private:
  static sockaddr_in loopback(int port) {
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(static_cast<std::uint16_t>(port));
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    return address;
  }
  int id_;
};

/// Text that calls `look` with all of it each time it is flushed: what a reader of the pipe does then.
class Watched : public std::stringbuf {
 public:
  explicit Watched(std::function<void(const std::string&)> look) : look_(std::move(look)) {}
  int sync() override {
    look_(str());
    return 0;
  }

 private:
  std::function<void(const std::string&)> look_;
};

TEST(Open, IsReachedAtItsAddressAsSoonAsTheAddressIsPrinted) {
  const Folder folder;
  std::string printed, answer;
  bool connected = false;
  Watched watched([&](const std::string& text) {
    printed = text;
    const int port = std::atoi(text.substr(text.rfind(':') + 1).c_str());
    Socket client;
    connected = client.connect(port);
    answer = client.answer_to("GET /api/session HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(port) +
                              "\r\nConnection: close\r\n\r\n");
    ::raise(SIGTERM);  // the server has taken this signal over before it prints
  });
  std::ostream out(&watched);
  std::ostringstream err;
  EXPECT_EQ(open_workbench(folder.request(), {}, out, err), kFine) << err.str();
  EXPECT_THAT(printed, StartsWith("http://127.0.0.1:"));
  EXPECT_TRUE(connected);
  EXPECT_THAT(answer, StartsWith("HTTP/1.1 "));
  EXPECT_THAT(err.str(), HasSubstr("Ctrl-C"));
}

/// The addresses at which this machine listens on a port, as the kernel lists them: "0100007F" is 127.0.0.1.
std::vector<std::string> listening_addresses(int port) {
  std::vector<std::string> addresses;
  const std::string end = fmt::format(":{:04X}", port);
  for (const char* table : {"/proc/self/net/tcp", "/proc/self/net/tcp6"}) {
    std::ifstream in(table);
    std::string row;
    while (std::getline(in, row)) {
      std::istringstream cells(row);
      std::string number, local, remote, state;
      cells >> number >> local >> remote >> state;
      if (state == "0A" && local.ends_with(end))
        addresses.push_back(local.substr(0, local.size() - end.size()));
    }
  }
  return addresses;
}

/// Where a workbench listens that was opened so.
std::vector<std::string> listening_of(const OpenRequest& request) {
  std::vector<std::string> addresses;
  Watched watched([&](const std::string& text) {
    const std::string first = text.substr(0, text.find('\n'));
    if (addresses.empty())
      addresses = listening_addresses(std::atoi(first.substr(first.rfind(':') + 1).c_str()));
    ::raise(SIGTERM);
  });
  std::ostream out(&watched);
  std::ostringstream err;
  EXPECT_EQ(open_workbench(request, {}, out, err), kFine) << err.str();
  return addresses;
}

TEST(Open, ListensToThisMachineAloneUntilTheNetworkIsAskedFor) {
  const Folder folder;
  OpenRequest request = folder.request();
  EXPECT_THAT(listening_of(request), ElementsAre("0100007F"));
  std::ofstream(folder.file("passphrase")) << "a long enough one\n";
  request.lan = true;
  request.passphrase_file = folder.file("passphrase");
  EXPECT_THAT(listening_of(request), ElementsAre("00000000"));
}

TEST(Open, GoesOnUntilItIsAskedToEnd) {
  const Folder folder;
  std::atomic<bool> is_open = false, was_asked = false;
  std::thread hand;
  Watched watched([&](const std::string&) {
    if (is_open.exchange(true)) return;
    hand = std::thread([&] {
      std::this_thread::sleep_for(std::chrono::milliseconds(150));
      was_asked = true;
      ::raise(SIGTERM);
    });
  });
  std::ostream out(&watched);
  std::ostringstream err;
  EXPECT_EQ(open_workbench(folder.request(), {}, out, err), kFine);
  EXPECT_TRUE(was_asked);
  hand.join();
}

TEST(Open, PrintsNoAddressWhenThePortIsTaken) {
  const Folder folder;
  Socket other;
  OpenRequest request = folder.request();
  request.port = other.take_port();
  ASSERT_NE(request.port, 0);
  std::ostringstream out, err;
  EXPECT_EQ(open_workbench(request, {}, out, err), kEnvironment);
  EXPECT_THAT(out.str(), IsEmpty());
  EXPECT_THAT(err.str(), HasSubstr("cannot be used"));
}

/// What a client that asks for `path` gets of a workbench on the example fork, and what the workbench said.
struct Answered {
  std::string answer, err;
};
Answered answered(OpenRequest request, const std::string& path_of_job) {
  Answered got;
  Watched watched([&](const std::string& text) {
    if (!got.answer.empty()) return;
    const std::string first = text.substr(0, text.find('\n'));
    const int port = std::atoi(first.substr(first.rfind(':') + 1).c_str());
    const auto get = [&](const std::string& path) {
      Socket client;
      client.connect(port);
      return client.answer_to("GET " + path + " HTTP/1.1\r\nHost: localhost:" + std::to_string(port) +
                              "\r\nConnection: close\r\n\r\n");
    };
    const std::string session = get("/api/session");
    const std::size_t id = session.find("\"id\":\"");
    const std::string job = id == std::string::npos ? "" : session.substr(id + 6, 16);
    got.answer = path_of_job.empty() ? session : get("/api/jobs/" + job + path_of_job);
    ::raise(SIGTERM);
  });
  std::ostream out(&watched);
  std::ostringstream err;
  EXPECT_EQ(open_workbench(request, {}, out, err), kFine) << err.str();
  got.err = err.str();
  return got;
}

TEST(Open, GivesEachTableOfTheJobAsCsv) {
  const Folder folder;
  OpenRequest request = folder.request();
  request.what = std::string(SW_SOURCE_DIR) + "/examples/enduro-fork/enduro-fork.job.toml";
  const std::vector<std::pair<std::string, std::string>> columns = {
      {"figures", "speed [m/s]"},   {"force", "rod ch. [bar(a)]"}, {"springs", "travel [mm]"},
      {"stacks", "seat lift [mm]"}, {"oils", "kinematic [mm2/s]"}, {"assembly", "torque"}};
  for (const auto& [table, column] : columns) {
    const Answered got = answered(request, "/table.csv?which=" + table);
    EXPECT_THAT(got.answer, StartsWith("HTTP/1.1 200 ")) << table;
    EXPECT_THAT(got.answer, HasSubstr(column)) << table;
  }
  EXPECT_THAT(answered(request, "/table.csv?which=wheels").answer, StartsWith("HTTP/1.1 404 "));
}

TEST(Open, TellsTheAddressesOfTheNetworkOnlyWhenItIsOpenToIt) {
  const Folder folder;
  OpenRequest request = folder.request();
  EXPECT_THAT(answered(request, "").err, testing::Not(HasSubstr("http://")));
  std::ofstream(folder.file("passphrase")) << "12345678\r\nnot this\n";
  request.lan = true;
  request.passphrase_file = folder.file("passphrase");
  const Answered open = answered(request, "");
  EXPECT_THAT(open.answer, StartsWith("HTTP/1.1 401 ")) << "the passphrase is asked for";
  EXPECT_THAT(open.err, HasSubstr("can read and change the jobs"));
  EXPECT_THAT(open.err, testing::Not(HasSubstr("http://127.")));
}

TEST(Open, TakesNoShortPassphrase) {
  const Folder folder;
  OpenRequest request = folder.request();
  request.lan = true;
  request.passphrase_file = folder.file("passphrase");
  std::ostringstream out, err;
  EXPECT_EQ(open_workbench(request, {}, out, err), kFaults);
  EXPECT_THAT(err.str(), HasSubstr("cannot be read"));
  std::ofstream(folder.file("passphrase")) << "1234567\r\n";
  EXPECT_EQ(open_workbench(request, {}, out, err), kFaults);
  EXPECT_THAT(err.str(), HasSubstr("at least 8 characters"));
  EXPECT_THAT(out.str(), IsEmpty());
}

TEST(Open, KeepsItsJournalInTheFolderForDataOfTheUser) {
  const Folder folder;
  OpenRequest request = folder.request();
  request.journal.clear();
  const char* const names[] = {"XDG_DATA_HOME", "HOME"};
  std::vector<std::optional<std::string>> before;
  for (const char* name : names) {
    const char* value = std::getenv(name);
    before.push_back(value ? std::optional<std::string>(value) : std::nullopt);
  }
  ::setenv("HOME", folder.file("home").c_str(), 1);
  ::setenv("XDG_DATA_HOME", folder.file("data").c_str(), 1);
  answered(request, "");
  EXPECT_TRUE(std::filesystem::exists(folder.path / "data/shimwright/journal.db"));
  ::setenv("XDG_DATA_HOME", "relative", 1);  // the standard says: of no meaning
  answered(request, "");
  EXPECT_TRUE(std::filesystem::exists(folder.path / "home/.local/share/shimwright/journal.db"));
  for (std::size_t i = 0; i < before.size(); ++i) {
    if (before[i])
      ::setenv(names[i], before[i]->c_str(), 1);
    else
      ::unsetenv(names[i]);
  }
}

/// A variable of the environment for as long as this lives.
class Variable {
 public:
  Variable(const char* name, const std::optional<std::string>& value) : name_(name) {
    const char* before = std::getenv(name);
    if (before) before_ = before;
    put(value);
  }
  ~Variable() { put(before_); }
  Variable(const Variable&) = delete;

 private:
  void put(const std::optional<std::string>& value) const {
    if (value)
      ::setenv(name_, value->c_str(), 1);
    else
      ::unsetenv(name_);
  }
  const char* name_;
  std::optional<std::string> before_;
};

/// True once `look` is, within some seconds.
bool comes_true(const std::function<bool()>& look) {
  for (int i = 0; i < 2000; ++i) {
    if (look()) return true;
    std::this_thread::sleep_for(std::chrono::milliseconds(10));
  }
  return false;
}

/// What the program for web pages was started with by a workbench on this kind of desktop.
std::string shown_by(const std::optional<std::string>& x11, const std::optional<std::string>& wayland,
                     bool no_browser) {
  const Folder folder;
  const std::string told = folder.file("told"), part = folder.file("part"), script = folder.file("xdg-open");
  std::ofstream(script) << "#!/bin/sh\necho noise\necho \"$#:$1\" > " << part << "\nmv " << part << " "
                        << told << "\n";
  std::filesystem::permissions(script, std::filesystem::perms::owner_all);
  const Variable path("PATH", folder.path.string() + ":" + std::getenv("PATH")), display("DISPLAY", x11),
      other_display("WAYLAND_DISPLAY", wayland);
  OpenRequest request = folder.request();
  request.no_browser = no_browser;
  std::thread hand;
  std::string address;
  Watched watched([&](const std::string& text) {
    if (!address.empty()) return;
    address = text.substr(0, text.find('\n'));
    const bool is_awaited = (x11 || wayland) && !no_browser;
    hand = std::thread([&told, is_awaited] {
      if (is_awaited) comes_true([&] { return std::filesystem::exists(told); });
      ::raise(SIGTERM);
    });
  });
  std::ostream out(&watched);
  std::ostringstream err;
  EXPECT_EQ(open_workbench(request, {}, out, err), kFine) << err.str();
  hand.join();
  // its end is awaited too: nothing of it is left among the processes
  EXPECT_TRUE(comes_true([] {
    siginfo_t about{};
    return ::waitid(P_ALL, 0, &about, WEXITED | WNOHANG | WNOWAIT) != 0 && errno == ECHILD;
  }));
  std::ifstream in(told);
  std::string line;
  std::getline(in, line);
  return line == "1:" + address ? "the address" : line;
}

TEST(Open, ShowsThePageWhereThereIsADesktop) {
  EXPECT_EQ(shown_by(":0", std::nullopt, false), "the address");
  EXPECT_EQ(shown_by(std::nullopt, "wayland-0", false), "the address");
  EXPECT_EQ(shown_by(":0", "wayland-0", true), "");
  EXPECT_EQ(shown_by(std::nullopt, std::nullopt, false), "");
}

TEST(Open, GivesEachSessionAHundredAndTwentyEightRandomBits) {
  const Folder folder;
  const auto token = [&] {
    const std::string session = answered(folder.request(), "").answer;
    const std::size_t at = session.find("\"token\":\"");
    return at == std::string::npos ? "" : session.substr(at + 9, session.find('"', at + 9) - at - 9);
  };
  const std::string first = token(), second = token();
  EXPECT_THAT(first, testing::MatchesRegex("[0-9a-f]+"));
  EXPECT_EQ(first.size(), 128u / 4);
  EXPECT_NE(first, second);
}

/// The addresses of this machine that are none of the loopback, as the kernel lists its routes to itself.
std::vector<std::string> own_addresses() {
  std::vector<std::string> addresses;
  std::ifstream in("/proc/net/fib_trie");
  std::string line, last;
  for (; std::getline(in, line); last = line) {
    if (line.find("/32 host LOCAL") == std::string::npos) continue;
    const std::string address = last.substr(last.rfind(' ') + 1);
    if (!address.starts_with("127.") && std::ranges::find(addresses, address) == addresses.end())
      addresses.push_back(address);
  }
  return addresses;
}

TEST(Open, TellsEachAddressOfTheNetworkAndAnswersByIt) {
  const Folder folder;
  OpenRequest request = folder.request();
  std::ofstream(folder.file("passphrase")) << "12345678\n";
  request.lan = true;
  request.passphrase_file = folder.file("passphrase");
  std::vector<std::string> expected, refused;
  Watched watched([&](const std::string& text) {
    if (!expected.empty()) return;
    const std::string first = text.substr(0, text.find('\n'));
    const std::string port = first.substr(first.rfind(':') + 1, first.size() - first.rfind(':') - 2);
    expected.push_back("");
    for (const std::string& address : own_addresses())
      expected.push_back("  http://" + address + ":" + port + "/\n");
    const auto status = [&](const std::string& host) {
      Socket client;
      client.connect(std::atoi(port.c_str()));
      return client
          .answer_to("GET / HTTP/1.1\r\nHost: " + host + ":" + port + "\r\nConnection: close\r\n\r\n")
          .substr(9, 3);
    };
    for (const std::string& address : own_addresses())
      if (status(address) != "401") refused.push_back(address);
    EXPECT_EQ(status("localhost"), "401");
    EXPECT_EQ(status("192.0.2.1"), "421") << "an address for documents alone (RFC 5737)";
    ::raise(SIGTERM);
  });
  std::ostream out(&watched);
  std::ostringstream err;
  EXPECT_EQ(open_workbench(request, {}, out, err), kFine);
  EXPECT_THAT(refused, IsEmpty());
  for (const std::string& line : expected) EXPECT_THAT(err.str(), HasSubstr(line));
  std::size_t n = 0;
  for (std::size_t at = 0; (at = err.str().find("http://", at)) != std::string::npos; ++at) ++n;
  EXPECT_EQ(n + 1, expected.size()) << err.str();
}

TEST(Open, AsksForThePassphraseWithoutShowingIt) {
  const Folder folder;
  const int terminal = ::posix_openpt(O_RDWR | O_NOCTTY);
  ASSERT_GE(terminal, 0);
  ASSERT_EQ(::grantpt(terminal), 0);
  ASSERT_EQ(::unlockpt(terminal), 0);
  const int hands = ::open(::ptsname(terminal), O_RDWR | O_NOCTTY), before = ::dup(STDIN_FILENO);
  ::dup2(hands, STDIN_FILENO);
  std::cin.clear();
  std::clearerr(stdin);
  OpenRequest request = folder.request();
  request.lan = true;
  const auto has_echo = [&] {
    termios now{};
    return ::tcgetattr(hands, &now) == 0 && (now.c_lflag & static_cast<tcflag_t>(ECHO)) != 0;
  };
  EXPECT_TRUE(has_echo());
  bool was_unseen = false;
  std::thread typist([&] {
    was_unseen = comes_true([&] { return !has_echo(); });
    EXPECT_GT(::write(terminal, "1234567\n", 8), 0);
  });
  std::ostringstream out, err;
  EXPECT_EQ(open_workbench(request, {}, out, err), kFaults) << "seven characters are too few";
  typist.join();
  EXPECT_TRUE(was_unseen);
  EXPECT_TRUE(has_echo()) << "as it was before";
  EXPECT_THAT(err.str(), StartsWith("Choose a passphrase"));
  EXPECT_THAT(err.str(), HasSubstr("at least 8 characters"));
  ::dup2(before, STDIN_FILENO);
  for (const int descriptor : {terminal, hands, before}) ::close(descriptor);
  std::cin.clear();
  std::clearerr(stdin);
}

/// One conversation with a workbench on a job of its own; `talk` gets the port, the token and the job's id.
void with_workbench(const OpenRequest& request,
                    const std::function<void(int, const std::string&, const std::string&)>& talk) {
  bool has_talked = false;
  Watched watched([&](const std::string& text) {
    if (std::exchange(has_talked, true)) return;
    const std::string first = text.substr(0, text.find('\n'));
    const int port = std::atoi(first.substr(first.rfind(':') + 1).c_str());
    Socket client;
    client.connect(port);
    const std::string session =
        client.answer_to("GET /api/session HTTP/1.1\r\nHost: localhost:" + std::to_string(port) +
                         "\r\nConnection: close\r\n\r\n");
    const auto value = [&](const std::string& key) {
      const std::size_t at = session.find("\"" + key + "\":\"") + key.size() + 4;
      return session.substr(at, session.find('"', at) - at);
    };
    talk(port, value("token"), value("open"));
    ::raise(SIGTERM);
  });
  std::ostream out(&watched);
  std::ostringstream err;
  EXPECT_EQ(open_workbench(request, {}, out, err), kFine) << err.str();
  EXPECT_TRUE(has_talked);
}

std::string posted(int port, const std::string& token, const std::string& path, const std::string& body) {
  Socket client;
  client.connect(port);
  return client.answer_to("POST " + path + " HTTP/1.1\r\nHost: localhost:" + std::to_string(port) +
                          "\r\nContent-Type: application/json\r\nX-Shimwright-Token: " + token +
                          "\r\nConnection: close\r\nContent-Length: " + std::to_string(body.size()) +
                          "\r\n\r\n" + body);
}

TEST(Open, TellsEverybodyOfEachChangeAndOtherProcessesWhereItIs) {
  const Folder folder;
  OpenRequest request = folder.request();
  request.what = folder.file("a.job.toml");
  std::ofstream(request.what) << "format = 1\ntitle = \"A\"\n";
  with_workbench(request, [&](int port, const std::string& token, const std::string& job) {
    Socket listener;
    listener.connect(port);
    const std::string host = "localhost:" + std::to_string(port);
    listener.ask("GET /api/events HTTP/1.1\r\nHost: " + host + "\r\n\r\n");
    EXPECT_THAT(listener.heard(": here\n\n"), HasSubstr("text/event-stream"));
    const std::string edited = posted(port, token, "/api/jobs/" + job + "/edit",
                                      R"({"client":"tab","base":1,"edits":[{"set":"title","typed":"B"}]})");
    EXPECT_THAT(edited, StartsWith("HTTP/1.1 200 "));
    EXPECT_THAT(listener.heard("}\n\n"), HasSubstr("data: {\"job\":\"" + job + "\""));
    EXPECT_EQ(store::Journal::open(request.journal).other_address(),
              "http://127.0.0.1:" + std::to_string(port) + "/");
  });
}

TEST(Open, FollowsARunOnTheBenchToItsEnd) {
  const Folder folder;
  OpenRequest request = folder.request();
  request.what = std::string(SW_SOURCE_DIR) + "/test/zoo/kit.job.toml";
  with_workbench(request, [&](int port, const std::string& token, const std::string& job) {
    const std::string begun = posted(port, token, "/api/jobs/" + job + "/bench", R"({"client":"tab"})");
    const std::size_t at = begun.find("\"run\":\"");
    ASSERT_NE(at, std::string::npos) << begun;
    const std::string run = begun.substr(at + 7, begun.find('"', at + 7) - at - 7);
    Socket listener;
    listener.connect(port);
    listener.ask("GET /api/runs/" + run + "/events HTTP/1.1\r\nHost: localhost:" + std::to_string(port) +
                 "\r\n\r\n");
    EXPECT_THAT(listener.heard("event: result"), HasSubstr("event: progress"));
  });
}

TEST(Open, PromisesToKeepWhatIsTypedOnlyWhereItCan) {
  const Folder folder;
  OpenRequest request = folder.request();
  EXPECT_THAT(answered(request, "").err, HasSubstr("What you typed is kept."));
  std::ofstream(folder.file("flat")) << "a file";
  request.journal = folder.file("flat/journal.db");
  const std::string err = answered(request, "").err;
  EXPECT_THAT(err, testing::Not(HasSubstr("is kept.")));
  EXPECT_THAT(err, HasSubstr("not kept"));
}

}  // namespace
}  // namespace shimwright::cli
