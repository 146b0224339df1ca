#pragma once
#include <map>
#include <string>
#include <utility>

#include "base/diagnostic.h"
#include "base/result.h"
#include "file/spec.h"

namespace shimwright::file {

/// Where files come from: the disk in a program, memory in a test, a fuzzer or a server.
class FileSource {
 public:
  virtual ~FileSource() = default;

  /// The whole text, or the reason why it cannot be read, in words: "no such file".
  virtual Result<std::string, std::string> read(const std::string& name) = 0;
};

class MemoryFiles : public FileSource {
 public:
  explicit MemoryFiles(std::map<std::string, std::string> texts) : texts_(std::move(texts)) {}
  Result<std::string, std::string> read(const std::string& name) override;

 private:
  std::map<std::string, std::string> texts_;
};

/// Files larger than a job can be are refused unread.
class DiskFiles : public FileSource {
 public:
  Result<std::string, std::string> read(const std::string& name) override;
};

/// A job whose own text is at hand, as it would be when saved; its parts files lie on the disk beside it.
class JobFiles : public FileSource {
 public:
  JobFiles(std::string path, std::string text) : path_(std::move(path)), text_(std::move(text)) {}
  Result<std::string, std::string> read(const std::string& name) override;

 private:
  std::string path_;
  std::string text_;
  DiskFiles disk_;
};

/// A job as it was read, with all that is wrong in it and in its parts files.
struct LoadResult {
  JobSpec job;  // with a stop among the diagnostics: only what could be read, never to be computed
  Diagnostics diagnostics;  // by place, each place once

  bool ok() const { return !has_stop(diagnostics); }
};

/// Reads a job file and the parts files it names.
///
/// Model:  all faults of all files are found in one go: TOML, keys, quantities, names, and parts that cannot
/// belong
///         together. A parts file is looked up from the folder of the file that names it.
/// Errors: never throws for data.
/// Tested: load_test.cc, load_broken_test.cc (each code by its place), load_examples_test.cc,
/// fuzz/job_fuzz.cc
LoadResult load_job(FileSource& files, const std::string& name);

}  // namespace shimwright::file
