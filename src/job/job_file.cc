#include "job/job_file.h"

namespace shimwright::job {

JobFile read_job_file(const std::string& path) {
  file::DiskFiles disk;
  return file::load_job(disk, path);
}

JobFile read_job_text(const std::string& path, std::string text) {
  file::JobFiles files(path, std::move(text));
  return file::load_job(files, path);
}

}  // namespace shimwright::job
