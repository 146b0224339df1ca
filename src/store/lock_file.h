#pragma once
#include <optional>
#include <string>

namespace shimwright::store {

/// A file that one process at a time holds; the system lets go of it when the process ends, however it ends.
class LockFile {
 public:
  /// The lock, or nothing when another process has it or the file cannot be made.
  static std::optional<LockFile> take(const std::string& file);
  /// What the holder wrote into it.
  static std::string text_of(const std::string& file);

  ~LockFile();
  LockFile(LockFile&& other) noexcept;
  LockFile& operator=(LockFile&& other) noexcept;

  /// For other processes to read.
  void write(const std::string& text);

 private:
  explicit LockFile(int descriptor) : descriptor_(descriptor) {}
  int descriptor_ = -1;
};

}  // namespace shimwright::store
