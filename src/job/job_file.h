#pragma once
#include <string>

#include "file/load.h"

namespace shimwright::job {

/// A job file read from the disk with its parts files, and all that is wrong in them. The command line runs
/// it and does not look into it. With a stop among the diagnostics it is never run.
using JobFile = file::LoadResult;

JobFile read_job_file(const std::string& path);

/// The same of a text at hand; its parts files are looked up from the folder of `path`.
JobFile read_job_text(const std::string& path, std::string text);

}  // namespace shimwright::job
