#include "base/disk.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <system_error>

#include "base/descriptor.h"

namespace shimwright {
namespace {

namespace fs = std::filesystem;

std::string reason() {
  return std::strerror(errno);
}

bool write_all(int descriptor, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t n = ::write(descriptor, bytes.data(), bytes.size());
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(n));
  }
  return true;
}

/// Where a link leads; the path itself when it is not a link.
fs::path target_of(const std::string& path) {
  std::error_code code;
  const fs::path target = fs::canonical(path, code);
  return code ? fs::path(path) : target;
}

}  // namespace

bool sync_folder_of(const std::string& path) {
  const fs::path named(path);
  const fs::path folder = named.has_parent_path() ? named.parent_path() : fs::path(".");
  const Descriptor descriptor(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  return descriptor.is_open() && ::fsync(descriptor.value()) == 0;
}

Result<std::string, std::string> file_text(const std::string& path, std::size_t limit) {
  const Descriptor file(::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC));  // a pipe must not keep us
  struct stat facts{};
  if (!file.is_open() || ::fstat(file.value(), &facts) != 0)
    return failure(path + " cannot be opened: " + reason());
  if (!S_ISREG(facts.st_mode)) return failure(path + " is not an ordinary file");
  std::string bytes;
  char part[65536];
  while (true) {
    const ssize_t n = ::read(file.value(), part, sizeof part);
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return failure(path + " cannot be read: " + reason());
    if (n == 0) return bytes;
    bytes.append(part, static_cast<std::size_t>(n));
    if (bytes.size() > limit) return failure(path + " is larger than " + std::to_string(limit) + " bytes");
  }
}

Result<void, std::string> replace_file(const std::string& path, std::string_view bytes) {
  const fs::path target = target_of(path);
  const std::string beside = target.string() + "." + std::to_string(::getpid()) + ".part";
  struct stat facts{};
  const bool was_there = ::stat(target.c_str(), &facts) == 0;
  const auto give_up = [&](const std::string& why) {
    ::unlink(beside.c_str());
    return failure(path + " cannot be written: " + why);
  };
  {
    const Descriptor file(::open(beside.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666));
    if (!file.is_open()) return give_up(reason());
    if (was_there && ::fchmod(file.value(), facts.st_mode & 07777) != 0) return give_up(reason());
    if (!write_all(file.value(), bytes) || ::fsync(file.value()) != 0) return give_up(reason());
  }
  if (::rename(beside.c_str(), target.c_str()) != 0) return give_up(reason());
  if (!sync_folder_of(target))
    return failure(path + " was written, but a power cut may still destroy it: " + reason());
  return {};
}

Result<void, std::string> create_file(const std::string& path, std::string_view bytes) {
  const Descriptor file(::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666));
  if (!file.is_open()) return failure(path + " cannot be created: " + reason());
  if (!write_all(file.value(), bytes) || ::fsync(file.value()) != 0 || !sync_folder_of(path)) {
    const std::string why = reason();
    ::unlink(path.c_str());
    return failure(path + " cannot be written: " + why);
  }
  return {};
}

Result<void, std::string> make_folder(const std::string& path) {
  std::error_code code;
  if (path.empty() || fs::is_directory(path, code)) return {};
  if (auto above = make_folder(fs::path(path).parent_path().string()); !above) return above;
  // another process may have made it since
  if (!fs::create_directory(path, code) && !fs::is_directory(path))
    return failure("the folder " + path + " cannot be created: " + code.message());
  sync_folder_of(path);
  return {};
}

}  // namespace shimwright
