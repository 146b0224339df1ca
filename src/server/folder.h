#pragma once
#include <cstdint>
#include <string>
#include <vector>

namespace shimwright::server {

/// A job file below the folder of the workbench.
struct JobFile {
  std::string id;    // 16 hex digits, the same for a path for ever
  std::string path;  // absolute
  std::string name;  // from the folder
};

/// All job files of a folder and the folders in it, by name. Hidden folders, links to folders and what lies
/// deeper than a shop's shelf are passed over.
std::vector<JobFile> job_files(const std::string& folder);

/// The absolute path without links and dots, of a file that may not be there.
std::string absolute_path(const std::string& path);

std::string id_of(const std::string& absolute_path);

/// What shows that a file has changed, without reading it.
struct Stamp {
  std::int64_t seconds = 0;
  std::int64_t nanoseconds = 0;
  std::int64_t size = -1;  // -1: no file
  std::uint64_t inode = 0;

  bool operator==(const Stamp&) const = default;
};
Stamp stamp_of(const std::string& path);

}  // namespace shimwright::server
