#pragma once
#include <optional>
#include <string>
#include <utility>

#include "base/descriptor.h"

namespace shimwright::store {

/// A file that one process at a time holds; the system lets go of it when the process ends, however it ends.
class LockFile {
 public:
  /// The lock, or nothing when another process has it or the file cannot be made.
  static std::optional<LockFile> take(const std::string& file);
  /// What the holder wrote into it.
  static std::string text_of(const std::string& file);

  /// For other processes to read.
  void write(const std::string& text);

 private:
  explicit LockFile(Descriptor file) : file_(std::move(file)) {}
  Descriptor file_;
};

}  // namespace shimwright::store
