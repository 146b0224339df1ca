#include "cli/open.h"

#include <arpa/inet.h>
#include <fmt/core.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>

#include <atomic>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>
#include <optional>
#include <ostream>
#include <sstream>
#include <streambuf>
#include <string>
#include <thread>
#include <vector>

#include "base/test_folder.h"
#include "cli/commands.h"

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
  std::string answer_to(const std::string& request) {
    ::send(id_, request.data(), request.size(), MSG_NOSIGNAL);
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
