#pragma once
#include <string>

namespace shimwright::durability {

/// What happens at the n-th write, cut, sync or removal of any SQLite file of this process.
enum class Accident {
  None,
  FailOnce,    // that one fails, as on a bad sector
  FailAlways,  // that one and all after it, as on a disk that was pulled out
  Full,        // writes fail from there on: no room
  Kill,        // half of the write is done, then the process is killed
  PowerCut,    // the same, and nothing outlives it but what was synced: see restore_synced
};

/// Puts a disk that has one accident under SQLite, for the rest of this process.
void use_faulty_disk(Accident accident, long n);

/// How many operations there have been.
long n_operations();

/// After a PowerCut: puts every SQLite file of the folder back to what it was when it was last synced.
void restore_synced(const std::string& folder);

}  // namespace shimwright::durability
