#pragma once
#include <cstdint>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "file/load.h"
#include "file/schema.h"
#include "job_tree.h"

namespace shimwright::laws {

/// What jobs are drawn from: whole jobs, and for every key of the schema the values that it was seen with.
/// The example of the schema is always among them, so that a new key is drawn without anybody remembering it.
struct Donors {
  std::vector<Tree> jobs;  // each with its parts in it, so that it needs no other file
  std::map<std::pair<const file::TableSchema*, std::string>, std::vector<Tree>> values;
  std::map<std::string, std::string> files;  // what jobs name beside parts: recorded strokes
};

/// Those of test/zoo.
Donors zoo_donors();

struct DrawnJob {
  Tree tree;
  bool valid = false;   // read without a fault and taken by the models
  std::string refused;  // otherwise the last fault that could not be mended: its code and place
};

/// A job out of a seed, the same for the same seed: a job of the donors, with units, tables and keys taken
/// away, added and swapped along the schema, and numbers moved. What the reader or the models refuse is
/// mended where they point; a job that cannot be mended is not valid.
DrawnJob draw_job(const Donors& donors, std::uint64_t seed);

/// Reads a job from its text, with the donors' other files beside it.
file::LoadResult load_text(const Donors& donors, const std::string& text);

/// The smallest job that the shrinking finds for which `fails` still holds: tables, list items and keys go as
/// long as it does. `fails` is asked at most `most` times.
Tree shrunk(Tree job, const std::function<bool(const Tree&)>& fails, int most = 400);

}  // namespace shimwright::laws
