#include "store/lock_file.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>

#include "base/disk.h"

namespace shimwright::store {

Result<LockFile, LockFile::Fault> LockFile::take(const std::string& file) {
  Descriptor opened(::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600));
  if (!opened.is_open()) return failure(Fault::Unusable);
  // the file stays when its holder ends: only the lock on it tells that somebody is there
  if (::flock(opened.value(), LOCK_EX | LOCK_NB) != 0)
    return failure(errno == EWOULDBLOCK ? Fault::Held : Fault::Unusable);
  return LockFile(std::move(opened));
}

std::string LockFile::text_of(const std::string& file) {
  return file_text(file).value_or("");
}

void LockFile::write(const std::string& text) {
  // only a help to the process that comes second: the lock holds whether or not this can be written
  if (::ftruncate(file_.value(), 0) != 0) return;
  [[maybe_unused]] const ssize_t n = ::pwrite(file_.value(), text.data(), text.size(), 0);
}

}  // namespace shimwright::store
