#pragma once
#include <cstdint>
#include <string>

#include "base/descriptor.h"

namespace shimwright::store {

/// How many changes a journal has acknowledged, in a small file beside it: a journal that holds fewer when it
/// is opened again has lost some. SQLite cannot tell: without its log, or cut short and empty, a database is
/// as sound as before.
///
/// Model:  written after the change is on the disk, and not synced itself: it never runs ahead of the
/// journal. Errors: none; where it cannot be written a loss goes unnoticed. Tested: journal_test.cc,
/// test/durability
class Tally {
 public:
  Tally() = default;
  explicit Tally(const std::string& file);

  /// What was written last; 0 when there is nothing that can be read.
  static std::int64_t in(const std::string& file);
  void write(std::int64_t n_changes);

 private:
  Descriptor file_;
};

}  // namespace shimwright::store
