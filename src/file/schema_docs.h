#pragma once
#include <string>

namespace shimwright::file {

/// docs/job-file.md, whole: how a job file is written, then every table and key of the schema.
std::string job_file_page();

}  // namespace shimwright::file
