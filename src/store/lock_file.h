#pragma once
#include <string>
#include <utility>

#include "base/descriptor.h"
#include "base/result.h"

namespace shimwright::store {

/// A file that one process at a time holds; the system lets go of it when the process ends, however it ends.
class LockFile {
 public:
  /// Why there is no lock: another process has it, or the file itself cannot be used.
  enum class Fault { Held, Unusable };
  static Result<LockFile, Fault> take(const std::string& file);
  /// What the holder wrote into it.
  static std::string text_of(const std::string& file);

  /// For other processes to read.
  void write(const std::string& text);

 private:
  explicit LockFile(Descriptor file) : file_(std::move(file)) {}
  Descriptor file_;
};

}  // namespace shimwright::store
