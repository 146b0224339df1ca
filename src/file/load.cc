#include "file/load.h"

#include <fmt/core.h>

#include <algorithm>
#include <filesystem>
#include <memory>

#include "base/utf8.h"
#include "file/default_names.h"
#include "file/load_check.h"
#include "file/load_reading.h"
#include "file/schema_build.h"
#include "file/schema_tables.h"
#include "file/stroke_csv.h"
#include "toml/document.h"

namespace shimwright::file {
namespace {

constexpr int kFormat = 1;              // that this program reads
constexpr std::size_t kMostFiles = 64;  // parts files of one job

/// All files of a job, as they are read.
struct Loading {
  FileSource& source;
  LoadResult result;
  std::vector<std::unique_ptr<toml::Document>> documents;  // as JobSpec::files
  std::vector<std::string> open;                           // files that led to the one being read
  bool parts_complete = true;
};

Reading reading_of(Loading& loading, std::size_t file) {
  return {&loading.result.job, static_cast<int>(file), loading.documents[file].get(),
          &loading.result.diagnostics, loading.parts_complete};
}

/// A parts file is named from the folder of the file that names it.
std::string beside(const std::string& file, const std::string& name) {
  const std::filesystem::path folder = std::filesystem::path(file).parent_path();
  return (folder / name).lexically_normal().generic_string();
}

/// The file's text, parsed, at its place in the list of files.
std::size_t add_file(Loading& loading, const std::string& name, std::string text) {
  const std::size_t file = loading.documents.size();
  loading.documents.push_back(std::make_unique<toml::Document>(toml::parse(text)));
  loading.result.job.files.push_back({name, std::move(text)});
  const toml::Document& document = *loading.documents.back();
  const toml::Node* parts = document.root ? document.root->find("parts") : nullptr;
  const bool may_lose_parts = file > 0 || parts == nullptr || parts->kind == toml::Kind::Faulty;
  if (!document.ok() && may_lose_parts) loading.parts_complete = false;

  for (const toml::Fault& fault : document.faults) {
    Diagnostic diagnostic;
    diagnostic.code = facts_of(Code::NotToml).id;
    diagnostic.file = name;
    diagnostic.line = fault.line;
    diagnostic.column = fault.column;
    const std::string_view words = document.slice({fault.begin, fault.end});
    diagnostic.length = std::max(1, static_cast<int>(n_code_points(words.substr(0, words.find('\n')))));
    diagnostic.what = fault.what;
    diagnostic.expected = fault.expected;
    diagnostic.remedy = fault.remedy;
    loading.result.diagnostics.push_back(std::move(diagnostic));
  }
  return file;
}

void read_parts_files(Loading& loading, std::size_t file);

void read_parts_file(Loading& loading, std::size_t from, const Text& text) {
  const std::string name = beside(loading.result.job.files[from].name, text.value);
  Reading reading = reading_of(loading, from);
  if (std::find(loading.open.begin(), loading.open.end(), name) != loading.open.end()) {
    report(
        reading, Code::PartsFileCycle, text.origin,
        {"this parts file leads back to itself", "\"" + text.value + "\"", "", "remove the name from parts"});
    return;
  }
  const auto is_it = [&](const SourceFile& known) { return known.name == name; };
  const std::vector<SourceFile>& files = loading.result.job.files;
  if (std::any_of(files.begin(), files.end(), is_it)) return;  // named twice, read once
  if (files.size() > kMostFiles) {
    report(
        reading, Code::TooMany, text.origin,
        {"too many parts files for one job", "", fmt::format("at most {}", kMostFiles), "join some of them"});
    return;
  }
  auto content = loading.source.read(name);
  if (!content) {
    loading.parts_complete = false;
    report(reading, Code::PartsFileUnreadable, text.origin,
           {"the parts file cannot be read: " + content.error(), "\"" + name + "\"",
            "a name relative to the folder of this file", "correct the name, or remove it from parts"});
    return;
  }
  const std::size_t added = add_file(loading, name, std::move(*content));
  loading.open.push_back(name);
  read_parts_files(loading, added);
  loading.open.pop_back();
}

/// Follows `parts` of one file, and of the files named there.
void read_parts_files(Loading& loading, std::size_t file) {
  const toml::Node* node =
      loading.documents[file]->root ? loading.documents[file]->root->find("parts") : nullptr;
  if (node == nullptr) return;
  // what is wrong with the list itself is reported when the file is read
  Diagnostics unheard;
  Reading reading = reading_of(loading, file);
  reading.diagnostics = &unheard;
  for (const Text& text : read_text_list(reading, *find_key(job_schema(), "parts"), *node))
    read_parts_file(loading, file, text);
}

/// Parts that others are made of come first: a shim names its material.
void read_parts(Loading& loading) {
  for (const char* group : {"material", "oil", "shim", "spring", "spacer", "fastener"}) {
    const KeySchema& key = *find_key(parts_schema(), group);
    for (std::size_t file = 0; file < loading.documents.size(); ++file) {
      const toml::Node* root = loading.documents[file]->root.get();
      const toml::Node* node = root ? root->find(group) : nullptr;
      Reading reading = reading_of(loading, file);
      if (node != nullptr) key.read(reading, key, *node, nullptr);
    }
  }
}

void check_format(Reading& reading, const Count& format) {
  if (!format || format.value == kFormat) return;
  report(reading, Code::FormatUnknown, format.origin,
         {"this program cannot read this format", fmt::format("{}", format.value), fmt::format("{}", kFormat),
          fmt::format("write format = {}, or use the version for which this file was written", kFormat)});
}

/// The schema without its parts by name, which were read before.
TableSchema without_parts(TableSchema schema) {
  for (KeySchema& key : schema.keys)
    if (key.kind == ValueKind::Parts) key.read = [](Reading&, const KeySchema&, const toml::Node&, void*) {};
  return schema;
}

void read_heads(Loading& loading) {
  static const TableSchema job_head = without_parts(job_schema());
  static const TableSchema parts_head = without_parts(parts_schema());
  for (std::size_t file = 0; file < loading.documents.size(); ++file) {
    if (!loading.documents[file]->root) continue;
    Reading reading = reading_of(loading, file);
    JobSpec unused;  // what a parts file says of itself
    JobSpec& into = file == 0 ? loading.result.job : unused;
    read_table(reading, file == 0 ? job_head : parts_head, *loading.documents[file]->root, &into);
    check_format(reading, into.format);
  }
}

/// Reads the record of one drive; its faults stand in the CSV file itself.
void read_record(Loading& loading, DriveSpec& drive) {
  LoadResult& result = loading.result;
  const std::string name = beside(result.job.files.front().name, drive.file.value);
  const Checks checks{result.job, result.diagnostics};
  auto text = loading.source.read(name);
  if (!text) {
    checks.fault(Code::RecordUnreadable, drive.file.origin,
                 {"the record cannot be read: " + text.error(), "\"" + name + "\"",
                  "a name relative to the folder of this file", "correct the name"});
    return;
  }
  StrokeResult read = read_stroke(*text, {drive.time_column.value, drive.travel_column.value,
                                          drive.force_column.value, drive.sample_rate.value_or(0.0)});
  for (CsvFault& fault : read.faults) {
    Diagnostic diagnostic;
    diagnostic.code = facts_of(Code::RecordFaulty).id;
    diagnostic.file = name;
    diagnostic.line = fault.line;
    diagnostic.column = fault.column;
    diagnostic.length = fault.length;
    diagnostic.what = std::move(fault.what);
    diagnostic.got = std::move(fault.got);
    diagnostic.expected = std::move(fault.expected);
    diagnostic.remedy = std::move(fault.remedy);
    result.diagnostics.push_back(std::move(diagnostic));
  }
  result.job.files.push_back({name, std::move(*text)});
  // from what the record counts to the travel of the unit
  const double sign = drive.outwards.value_or(false) ? -1.0 : 1.0;
  drive.record.time = std::move(read.stroke.time);
  drive.record.force = std::move(read.stroke.force);
  for (const double travel : read.stroke.travel)
    drive.record.travel.push_back(drive.zero_at.value_or(0.0) + sign * travel);
}

void read_records(Loading& loading) {
  if (!loading.result.job.bench) return;
  for (DriveSpec& drive : loading.result.job.bench->drives) {
    if (drive.kind && drive.kind.value == DriveKind::Recorded && drive.file) read_record(loading, drive);
  }
}

/// One fault, one place: a part used three times is wrong once.
void keep_once(Diagnostics& diagnostics) {
  sort_by_place(diagnostics);
  const auto same = [](const Diagnostic& a, const Diagnostic& b) {
    return a.code == b.code && a.file == b.file && a.line == b.line && a.column == b.column &&
           a.path == b.path;
  };
  diagnostics.erase(std::unique(diagnostics.begin(), diagnostics.end(), same), diagnostics.end());
}

}  // namespace

LoadResult load_job(FileSource& files, const std::string& name) {
  Loading loading{files, {}, {}, {}, true};
  auto text = files.read(name);
  if (!text) {
    Diagnostic diagnostic;
    diagnostic.code = facts_of(Code::FileUnreadable).id;
    diagnostic.file = name;
    diagnostic.what = "the job file cannot be read: " + text.error();
    diagnostic.remedy = "check the name and the current folder";
    loading.result.diagnostics.push_back(std::move(diagnostic));
    return std::move(loading.result);
  }
  const std::size_t job_file = add_file(loading, name, std::move(*text));
  loading.open.push_back(beside("", name));
  read_parts_files(loading, job_file);
  read_parts(loading);
  read_heads(loading);
  read_records(loading);
  check_job(loading.result.job, loading.result.diagnostics);
  name_what_has_none(loading.result.job);
  keep_once(loading.result.diagnostics);
  return std::move(loading.result);
}

MaterialSpec default_spring_steel() {
  MaterialSpec steel;
  steel.name = "spring steel";
  steel.youngs_modulus = {206e9, true, units::Kind::Stress, units::Reference::None, "206 GPa", {}};
  steel.poisson_ratio = {0.30, true, "0.30", {}};
  steel.density = {7850.0, true, units::Kind::Density, units::Reference::None, "7850 kg/m3", {}};
  return steel;
}

}  // namespace shimwright::file
