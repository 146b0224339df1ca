#include "job/job_file.h"

namespace shimwright::job {

JobFile read_job_file(const std::string& path) {
  file::DiskFiles disk;
  return file::load_job(disk, path);
}

}  // namespace shimwright::job
