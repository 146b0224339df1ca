#include "cli/open.h"

#include <arpa/inet.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>

#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <functional>
#include <ostream>
#include <sstream>
#include <streambuf>
#include <string>

#include "cli/commands.h"

namespace shimwright::cli {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::StartsWith;

/// An empty folder of its own that goes with the test.
struct Folder {
  std::filesystem::path path =
      std::filesystem::path(testing::TempDir()) / ("shimwright-open-" + std::to_string(::getpid()));
  Folder() {
    std::filesystem::remove_all(path);
    std::filesystem::create_directories(path);
  }
  ~Folder() { std::filesystem::remove_all(path); }

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
