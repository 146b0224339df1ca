#include "store/lock_file.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <array>
#include <utility>

namespace shimwright::store {

std::optional<LockFile> LockFile::take(const std::string& file) {
  const int descriptor = ::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
  if (descriptor < 0) return std::nullopt;
  LockFile lock(descriptor);
  if (::flock(descriptor, LOCK_EX | LOCK_NB) != 0) return std::nullopt;
  return lock;
}

std::string LockFile::text_of(const std::string& file) {
  const int descriptor = ::open(file.c_str(), O_RDONLY | O_CLOEXEC);
  if (descriptor < 0) return {};
  std::array<char, 256> bytes{};
  const ssize_t n = ::read(descriptor, bytes.data(), bytes.size());
  ::close(descriptor);
  return n > 0 ? std::string(bytes.data(), static_cast<std::size_t>(n)) : std::string();
}

LockFile::~LockFile() {
  if (descriptor_ >= 0) ::close(descriptor_);
}

LockFile::LockFile(LockFile&& other) noexcept : descriptor_(std::exchange(other.descriptor_, -1)) {}

LockFile& LockFile::operator=(LockFile&& other) noexcept {
  std::swap(descriptor_, other.descriptor_);
  return *this;
}

void LockFile::write(const std::string& text) {
  // only a help to the process that comes second: the lock holds whether or not this can be written
  if (::ftruncate(descriptor_, 0) != 0) return;
  [[maybe_unused]] const ssize_t n = ::pwrite(descriptor_, text.data(), text.size(), 0);
}

}  // namespace shimwright::store
