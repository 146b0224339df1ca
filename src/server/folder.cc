#include "server/folder.h"

#include <sys/stat.h>

#include <algorithm>
#include <filesystem>
#include <system_error>

#include "file/job_hash.h"

namespace shimwright::server {
namespace {

namespace fs = std::filesystem;

constexpr int kDeepestFolder = 4;
constexpr std::size_t kMostJobs = 500;
constexpr std::size_t kMostEntries = 20000;  // looked at: a workbench opened on a home folder must start too

}  // namespace

std::string absolute_path(const std::string& path) {
  std::error_code code;
  const fs::path found = fs::weakly_canonical(path, code);
  return (code ? fs::absolute(path, code) : found).string();
}

std::string id_of(const std::string& absolute_path) {
  return file::hash_text(file::hash_of(absolute_path));
}

std::vector<JobFile> job_files(const std::string& folder) {
  std::vector<JobFile> files;
  std::error_code code;
  std::size_t n_seen = 0;
  fs::recursive_directory_iterator at(folder, fs::directory_options::skip_permission_denied, code);
  for (; !code && at != fs::recursive_directory_iterator(); at.increment(code)) {
    if (++n_seen > kMostEntries || files.size() >= kMostJobs) break;
    const std::string name = at->path().filename().string();
    std::error_code unreadable;
    if (at->is_directory(unreadable)) {
      if (name.starts_with('.') || at.depth() + 1 >= kDeepestFolder) at.disable_recursion_pending();
      continue;
    }
    if (!name.ends_with(".job.toml") || name.starts_with('.') || !at->is_regular_file(unreadable)) continue;
    const std::string path = absolute_path(at->path().string());
    files.push_back({id_of(path), path, fs::relative(at->path(), folder, unreadable).generic_string()});
  }
  std::ranges::sort(files, {}, &JobFile::name);
  return files;
}

Stamp stamp_of(const std::string& path) {
  struct stat facts{};
  if (::stat(path.c_str(), &facts) != 0) return {};
  return {static_cast<std::int64_t>(facts.st_mtim.tv_sec), static_cast<std::int64_t>(facts.st_mtim.tv_nsec),
          static_cast<std::int64_t>(facts.st_size), static_cast<std::uint64_t>(facts.st_ino)};
}

}  // namespace shimwright::server
