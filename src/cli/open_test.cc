#include "cli/open.h"

#include <arpa/inet.h>
#include <fmt/core.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>

#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>
#include <ostream>
#include <sstream>
#include <streambuf>
#include <string>
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

}  // namespace
}  // namespace shimwright::cli
