#include "cli/open.h"

#include <arpa/inet.h>
#include <fcntl.h>
#include <fmt/core.h>
#include <ifaddrs.h>
#include <netinet/in.h>
#include <spawn.h>
#include <sys/wait.h>
#include <termios.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <map>
#include <optional>
#include <string_view>
#include <thread>
#include <vector>

#include "cli/commands.h"
#include "cli/cores.h"
#include "cli/tables.h"
#include "job/version.h"
#include "server/encode.h"
#include "server/http.h"
#include "server/router.h"
#include "server/workbench.h"
#include "store/journal.h"

extern char** environ;

namespace shimwright::cli {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kShortestPassphrase = 8;  // characters; tries are limited to five a minute

std::string random_hex() {
  std::array<unsigned char, 16> bytes{};
  // waits until the kernel has gathered enough
  if (::getentropy(bytes.data(), bytes.size()) != 0) return {};
  std::string text;
  for (const unsigned char byte : bytes) text += fmt::format("{:02x}", byte);
  return text;
}

std::string environment(const char* name) {
  const char* value = std::getenv(name);
  return value ? value : "";
}

std::string usual_journal() {
  const std::string data = environment("XDG_DATA_HOME");
  if (data.starts_with('/')) return data + "/shimwright/journal.db";
  const std::string home = environment("HOME");
  return (home.empty() ? std::string(".") : home + "/.local/share") + "/shimwright/journal.db";
}

/// The addresses by which others on the net reach this machine.
std::vector<std::string> net_addresses() {
  std::vector<std::string> addresses;
  ifaddrs* list = nullptr;
  if (::getifaddrs(&list) != 0) return addresses;
  for (const ifaddrs* at = list; at; at = at->ifa_next) {
    if (!at->ifa_addr || at->ifa_addr->sa_family != AF_INET) continue;
    const auto* address = reinterpret_cast<const sockaddr_in*>(at->ifa_addr);
    std::array<char, INET_ADDRSTRLEN> text{};
    ::inet_ntop(AF_INET, &address->sin_addr, text.data(), text.size());
    if (!std::string_view(text.data()).starts_with("127.")) addresses.emplace_back(text.data());
  }
  ::freeifaddrs(list);
  return addresses;
}

/// One line from the terminal, unseen.
std::string asked_passphrase(std::ostream& err) {
  err << "Choose a passphrase for people who open the workbench over the network: " << std::flush;
  termios before{};
  const bool is_terminal = ::tcgetattr(STDIN_FILENO, &before) == 0;
  if (is_terminal) {
    termios unseen = before;
    unseen.c_lflag &= ~static_cast<tcflag_t>(ECHO);
    ::tcsetattr(STDIN_FILENO, TCSANOW, &unseen);
  }
  std::string line;
  std::getline(std::cin, line);
  if (is_terminal) ::tcsetattr(STDIN_FILENO, TCSANOW, &before);
  err << '\n';
  return line;
}

/// The passphrase of --lan, or nothing after a sentence on `err`.
std::optional<std::string> passphrase_of(const OpenRequest& request, std::ostream& err) {
  std::string passphrase;
  if (!request.passphrase_file.empty()) {
    std::ifstream file(request.passphrase_file);  // a pipe does as well
    if (!std::getline(file, passphrase)) {
      err << fmt::format("{} cannot be read, or it is empty.\n", request.passphrase_file);
      return std::nullopt;
    }
  } else {
    passphrase = asked_passphrase(err);
  }
  while (passphrase.ends_with('\r')) passphrase.pop_back();
  if (passphrase.size() >= kShortestPassphrase) return passphrase;
  err << fmt::format(
      "--lan needs a passphrase of at least {} characters: anybody who knows it can change your jobs.\n",
      kShortestPassphrase);
  return std::nullopt;
}

void open_browser(const std::string& address) {
  if (environment("DISPLAY").empty() && environment("WAYLAND_DISPLAY").empty()) return;
  posix_spawn_file_actions_t quiet;
  ::posix_spawn_file_actions_init(&quiet);
  for (const int descriptor : {STDOUT_FILENO, STDERR_FILENO})
    ::posix_spawn_file_actions_addopen(&quiet, descriptor, "/dev/null", O_WRONLY, 0);
  std::string name = "xdg-open", argument = address;
  std::array arguments = {name.data(), argument.data(), static_cast<char*>(nullptr)};
  pid_t child{};
  if (::posix_spawnp(&child, name.c_str(), &quiet, nullptr, arguments.data(), environ) == 0)
    std::thread([child] { ::waitpid(child, nullptr, 0); }).detach();
  ::posix_spawn_file_actions_destroy(&quiet);
}

std::string csv_of(const document::ResultDocument& document, const std::string& which, units::System system) {
  using Tables = std::vector<Table> (*)(const document::ResultDocument&, units::System);
  static const std::map<std::string, Tables> kTables = {
      {"figures", key_figure_tables}, {"force", force_tables}, {"springs", spring_tables},
      {"stacks", stack_tables},       {"oils", oil_tables},    {"assembly", assembly_tables}};
  const auto found = kTables.find(which);
  if (found == kTables.end()) return {};
  std::string text;
  for (const Table& table : found->second(document, system))
    text += (text.empty() ? "" : "\r\n") + to_csv(table);
  return text;
}

std::int64_t since_1970_ms() {
  return std::chrono::duration_cast<std::chrono::milliseconds>(
             std::chrono::system_clock::now().time_since_epoch())
      .count();
}

std::int64_t steady_ms() {
  return std::chrono::duration_cast<std::chrono::milliseconds>(
             std::chrono::steady_clock::now().time_since_epoch())
      .count();
}

/// The port of an address as this program announces it; 0 when there is none.
int port_of(std::string_view address) {
  const std::size_t colon = address.rfind(':');
  if (colon == std::string_view::npos) return 0;
  std::uint16_t port{};
  const auto [end, fault] =
      std::from_chars(address.data() + colon + 1, address.data() + address.size(), port);
  return fault == std::errc() ? port : 0;
}

/// A server on the port that was asked for. Where any will do, at the address of the last time if nobody has
/// it now: there a page that is still open looks for it, with what it could not send.
Result<server::HttpServer, std::string> listening(server::HttpSettings http, const std::string& earlier) {
  if (const int port = port_of(earlier); http.port == 0 && port != 0) {
    http.port = static_cast<std::uint16_t>(port);
    if (auto server = server::HttpServer::listen(http)) return server;
    http.port = 0;
  }
  return server::HttpServer::listen(std::move(http));
}

/// Folder and job of what was named; a sentence when it is neither.
Result<server::WorkbenchSettings, std::string> settings_for(const std::string& what) {
  server::WorkbenchSettings settings;
  std::error_code code;
  if (what.empty() || fs::is_directory(what, code)) {
    settings.folder = what.empty() ? "." : what;
    return settings;
  }
  if (what == kStandardInput)
    return failure(std::string("open needs a job file or a folder: it saves what you type"));
  if (!fs::is_regular_file(what, code))
    return failure(fmt::format("{} is neither a job file nor a folder", what));
  if (!what.ends_with(".job.toml"))
    return failure(fmt::format("{} is not a job file: its name does not end in .job.toml", what));
  settings.open_job = what;
  settings.folder = fs::path(what).has_parent_path() ? fs::path(what).parent_path().string() : ".";
  return settings;
}

}  // namespace

int open_workbench(const OpenRequest& request, std::span<const server::Asset> page, std::ostream& out,
                   std::ostream& err) {
  auto settings = settings_for(request.what);
  if (!settings) {
    err << settings.error() << '\n';
    return kEnvironment;
  }
  std::string passphrase;
  if (request.lan) {
    auto given = passphrase_of(request, err);
    if (!given) return kFaults;
    passphrase = std::move(*given);
  }
  settings->program_version = job::kProgramVersion;
  settings->token = random_hex();
  settings->lan = request.lan;
  settings->now_ms = since_1970_ms;
  settings->csv = csv_of;
  // one core stays free to answer while the bench runs
  settings->run_all = on_cores(std::max(2u, std::thread::hardware_concurrency()) - 1);
  const std::string cookie = random_hex();
  if (settings->token.empty() || cookie.empty()) {
    err << "This machine gives no random numbers. The workbench needs them to protect itself.\n";
    return kEnvironment;
  }

  store::Journal journal = store::Journal::open(request.journal.empty() ? usual_journal() : request.journal);
  if (!journal.notice().empty()) err << journal.notice() << '\n';
  const bool is_kept = !journal.is_in_memory();
  server::Workbench workbench(std::move(*settings), std::move(journal));

  std::optional<server::Router> router;  // outlives the server, whose workers call it
  // the port is bound first: the router needs it, and nobody may see the address before it can be reached
  server::HttpSettings http;
  http.address = request.lan ? "0.0.0.0" : "127.0.0.1";
  http.port = static_cast<std::uint16_t>(request.port);
  auto server = listening(std::move(http), workbench.earlier_address());
  if (!server) {
    err << server.error() << '\n';
    return kEnvironment;
  }
  server::RouterSettings routes;
  routes.assets = page;
  routes.passphrase = passphrase;
  routes.cookie = cookie;
  routes.now_ms = steady_ms;
  const std::vector<std::string> others = request.lan ? net_addresses() : std::vector<std::string>();
  for (const std::string& name : {std::string("127.0.0.1"), std::string("localhost")})
    routes.hosts.push_back(fmt::format("{}:{}", name, server->port()));
  for (const std::string& other : others) routes.hosts.push_back(fmt::format("{}:{}", other, server->port()));
  router.emplace(std::move(routes), workbench);
  workbench.on_job_event([&server](const server::JobEvent& event) {
    server->publish(server::kJobsTopic, "", server::to_json(event));
  });
  workbench.on_run_progress([&server](const std::string& run) { server->wake(run); });
  std::signal(SIGPIPE, SIG_IGN);  // a client that goes is no reason to end
  server->serve({.handle = [&router](const server::Request& wanted) { return router->handle(wanted); },
                 .tick = [&workbench] { workbench.look_at_disk(); },
                 .end_at_signal = true});

  const std::string address = fmt::format("http://127.0.0.1:{}/", server->port());
  workbench.announce_address(address);
  out << address << '\n';
  if (request.lan) {
    err << "Open to this network: anybody who can reach it and knows the passphrase can read and change the "
           "jobs in\n"
        << workbench.settings().folder << ". The connection is not encrypted.\n";
    for (const std::string& other : others) err << fmt::format("  http://{}:{}/\n", other, server->port());
  }
  err << "Press Ctrl-C to end it. "
      << (is_kept ? "What you typed is kept.\n" : "Save your jobs first: what you typed is not kept.\n");
  out.flush();
  if (!request.no_browser) open_browser(address);
  server->wait();
  workbench.runs().end();  // they tell the server of their progress, which ends after them
  return kFine;
}

}  // namespace shimwright::cli
