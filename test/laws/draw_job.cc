#include "draw_job.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <random>
#include <set>
#include <utility>

#include "job/run.h"
#include "zoo.h"

namespace shimwright::laws {
namespace {

using file::KeySchema;
using file::TableSchema;
using file::ValueKind;

// ---- donors

/// Calls `visit(table, schema)` for a table of a job and for every table in it.
template <typename Visit>
void for_each_table(Tree& table, const TableSchema& schema, const Visit& visit) {
  visit(table, schema);
  for (auto& [name, inner] : table.entries) {
    const KeySchema* key = file::find_key(schema, name);
    if (key == nullptr || key->table == nullptr) continue;
    if (key->kind == ValueKind::Parts) {
      for (auto& part : inner.entries)
        if (part.second.shape == Tree::Shape::Table) for_each_table(part.second, *key->table, visit);
    } else if (inner.shape == Tree::Shape::Table) {
      for_each_table(inner, *key->table, visit);
    } else {
      for (Tree& item : inner.items)
        if (item.shape == Tree::Shape::Table) for_each_table(item, *key->table, visit);
    }
  }
}

void add_examples(const TableSchema& schema, std::set<const TableSchema*>& seen, Donors& donors) {
  if (!seen.insert(&schema).second) return;
  for (const KeySchema& key : schema.keys) {
    auto& values = donors.values[{&schema, key.name}];
    if (!key.example.empty() && key.kind != ValueKind::Parts) values.push_back(tree_of_value(key.example));
    for (const std::string& word : key.words) values.push_back(Tree::value("\"" + word + "\""));
    if (key.table != nullptr) add_examples(*key.table, seen, donors);
  }
}

void add_seen(Tree job, Donors& donors) {
  for_each_table(job, file::job_schema(), [&](Tree& table, const TableSchema& schema) {
    for (const auto& [name, inner] : table.entries) {
      const KeySchema* key = file::find_key(schema, name);
      if (key != nullptr && key->kind != ValueKind::Parts) donors.values[{&schema, name}].push_back(inner);
    }
  });
}

/// The names of a value that is one text or a list of texts.
std::vector<std::string> names_in(const Tree* tree) {
  std::vector<std::string> names;
  if (tree == nullptr) return names;
  const auto take = [&](const Tree& one) {
    if (one.text.size() > 2) names.push_back(one.text.substr(1, one.text.size() - 2));
  };
  if (tree->shape == Tree::Shape::List)
    for (const Tree& item : tree->items) take(item);
  else
    take(*tree);
  return names;
}

/// Puts the parts of the files that a job names into the job itself.
void take_in_parts(const std::string& folder, Tree& job) {
  for (const std::string& name : names_in(job.find("parts"))) {
    const toml::Document document = toml::parse(text_of_file(folder + "/" + name));
    const Tree parts = tree_of(document, *document.root);
    for (const auto& [group, inner] : parts.entries) {
      if (inner.shape != Tree::Shape::Table) continue;
      if (job.find(group) == nullptr) job.set(group, Tree::table());
      for (const auto& [part, values] : inner.entries) job.find(group)->set(part, values);
    }
  }
  job.erase("parts");
}

// ---- drawing

class Draw {
 public:
  Draw(const Donors& donors, std::uint64_t seed) : donors_(donors), random_(seed) {}

  Tree job() {
    Tree job = one_of(donors_.jobs);
    if (chance(0.3)) change_units(job);
    for_each_table(job, file::job_schema(),
                   [&](Tree& table, const TableSchema& schema) { change_table(table, schema); });
    return job;
  }

  /// A value for a key that is missing.
  const Tree* donor(const TableSchema& schema, const std::string& key) {
    const auto found = donors_.values.find({&schema, key});
    return found == donors_.values.end() || found->second.empty() ? nullptr : &one_of(found->second);
  }

 private:
  bool chance(double share) { return std::uniform_real_distribution<>(0.0, 1.0)(random_) < share; }
  template <typename T>
  const T& one_of(const std::vector<T>& list) {
    return list[std::uniform_int_distribution<std::size_t>(0, list.size() - 1)(random_)];
  }

  /// A unit of another job in place of one, beside it, or one less; the parts it names come along.
  void change_units(Tree& job) {
    Tree* units = job.find("unit");
    if (units == nullptr || units->items.empty()) return;
    const Tree& other = one_of(donors_.jobs);
    const Tree* theirs = other.find("unit");
    if (theirs == nullptr || theirs->items.empty()) return;
    Tree unit = one_of(theirs->items);
    unit.set("name", Tree::value("\"other unit\""));
    if (chance(0.5) || units->items.size() > 1)
      units->items.back() = std::move(unit);
    else
      units->items.push_back(std::move(unit));
    for (const auto& [group, inner] : other.entries) {
      const KeySchema* key = file::find_key(file::job_schema(), group);
      if (key == nullptr || key->kind != ValueKind::Parts) continue;
      if (job.find(group) == nullptr) job.set(group, Tree::table());
      for (const auto& [part, values] : inner.entries)
        if (job.find(group)->find(part) == nullptr) job.find(group)->set(part, values);
    }
  }

  void change_table(Tree& table, const TableSchema& schema) {
    const bool whole = &schema == &file::job_schema();
    for (const KeySchema& key : schema.keys) {
      if (key.kind == ValueKind::Parts || key.name == "format" || key.name == "parts") continue;
      Tree* value = table.find(key.name);
      if (value == nullptr) {
        const Tree* given =
            chance(key.kind == ValueKind::Table ? 0.03 : 0.02) ? donor(schema, key.name) : nullptr;
        if (given != nullptr) table.set(key.name, *given);
      } else if (!key.required && chance(whole ? 0.02 : 0.03)) {
        table.erase(key.name);
      } else if (chance(0.05)) {
        if (const Tree* given = donor(schema, key.name)) *value = *given;
      } else if (chance(0.25)) {
        move(*value, key);
      }
    }
  }

  void move(Tree& value, const KeySchema& key) {
    switch (key.kind) {
      case ValueKind::Quantity:
      case ValueKind::Number:
        value.text = scaled(value.text);
        break;
      case ValueKind::Count:
        value.text = fmt::format("{}", std::max(0, std::atoi(value.text.c_str()) + pick(-4, 4)));
        break;
      case ValueKind::Flag:
        value.text = chance(0.5) ? "true" : "false";
        break;
      case ValueKind::Stack:
        if (value.shape == Tree::Shape::List) move_stack(value);
        break;
      default:
        break;
    }
  }

  int pick(int low, int high) { return std::uniform_int_distribution<>(low, high)(random_); }

  /// The number at the head of a value, moved; its unit as it was.
  std::string scaled(const std::string& text) {
    const std::size_t at = text.find_first_of("0123456789-+.");
    if (at == std::string::npos) return text;
    char* end = nullptr;
    const double number = std::strtod(text.c_str() + at, &end);
    const std::size_t rest = static_cast<std::size_t>(end - text.c_str());
    if (rest == at || (rest < text.size() && text[rest] == '/')) return text;
    const double reach = chance(0.1) ? 3.0 : 0.4;
    const double factor = std::exp(std::uniform_real_distribution<>(-reach, reach)(random_));
    return text.substr(0, at) + fmt::format("{:.4g}", number * factor) + text.substr(rest);
  }

  /// One shim twice, one shim less, or another count of one.
  void move_stack(Tree& stack) {
    if (stack.items.empty()) return;
    const auto index = std::uniform_int_distribution<std::size_t>(0, stack.items.size() - 1)(random_);
    Tree shim = stack.items[index];
    if (chance(0.3) && stack.items.size() > 1)
      stack.items.erase(stack.items.begin() + static_cast<std::ptrdiff_t>(index));
    else if (chance(0.5))
      stack.items.insert(stack.items.begin() + static_cast<std::ptrdiff_t>(index), std::move(shim));
    else if (shim.text.size() > 2 && std::isdigit(static_cast<unsigned char>(shim.text[1])))
      stack.items[index].text = scaled_count(shim.text);
  }

  std::string scaled_count(const std::string& text) {
    const std::size_t end = text.find_first_not_of("0123456789", 1);
    return end == std::string::npos ? text : fmt::format("\"{}{}", pick(1, 8), text.substr(end));
  }

  const Donors& donors_;
  std::mt19937_64 random_;
};

// ---- mending

constexpr int kMostMendings = 4;  // of one key, before its table goes

/// The schema of the table that the last key of a path stands in.
const TableSchema* table_of(const std::string& path) {
  const std::size_t dot = path.rfind('.');
  if (dot == std::string::npos) return &file::job_schema();
  const KeySchema* key = file::key_at(file::job_schema(), path.substr(0, dot));
  return key == nullptr ? nullptr : key->table;
}

std::string last_key(const std::string& path) {
  const std::size_t dot = path.rfind('.');
  return dot == std::string::npos ? path : path.substr(dot + 1);
}

/// What stands at the place of one fault goes; where nothing stands, what is missing comes. What does not fit
/// time and again goes with the table that it stands in.
bool mend(Draw& draw, const std::string& path, int times, Tree& job) {
  if (path.empty()) return erase_path(job, "bench");  // a row of the record that it names
  for (std::string above = path; times > kMostMendings && above.find_last_of(".[") != std::string::npos;) {
    above.resize(above.find_last_of(".["));
    if (erase_path(job, above)) return true;
  }
  if (erase_path(job, path)) return true;
  const std::size_t dot = path.rfind('.');
  Tree* holder = dot == std::string::npos ? &job : at_path(job, path.substr(0, dot));
  const TableSchema* schema = table_of(path);
  if (holder == nullptr || schema == nullptr || holder->shape != Tree::Shape::Table) return false;
  const Tree* given = draw.donor(*schema, last_key(path));
  if (given == nullptr) return false;
  holder->set(last_key(path), *given);
  return true;
}

Diagnostics stops_of(const Diagnostics& diagnostics) {
  Diagnostics stops;
  for (const Diagnostic& diagnostic : diagnostics)
    if (diagnostic.severity == Severity::Stop) stops.push_back(diagnostic);
  return stops;
}

/// What the models refuse, found without computing anything that takes time.
Diagnostics refused_by_models(const file::JobSpec& job) {
  job::RunOptions options;
  bool resolved = false;  // the first question comes before the faults are told, the second before the work
  options.progress = [&resolved](double, std::string_view) { return !std::exchange(resolved, true); };
  const auto document = job::run_job(job, options);
  return document ? Diagnostics{} : document.error().diagnostics;
}

}  // namespace

Donors zoo_donors() {
  Donors donors;
  std::set<const TableSchema*> seen;
  add_examples(file::job_schema(), seen, donors);
  for (const std::string& path : zoo_jobs()) {
    const toml::Document document = toml::parse(text_of_file(path));
    Tree job = tree_of(document, *document.root);
    const std::string folder = std::filesystem::path(path).parent_path().string();
    take_in_parts(folder, job);
    add_seen(job, donors);
    donors.jobs.push_back(std::move(job));
  }
  for (const auto& entry : std::filesystem::directory_iterator(SW_SOURCE_DIR "/test/zoo"))
    if (entry.path().extension() == ".csv")
      donors.files[entry.path().filename().string()] = text_of_file(entry.path().string());
  return donors;
}

file::LoadResult load_text(const Donors& donors, const std::string& text) {
  std::map<std::string, std::string> texts = donors.files;
  texts["drawn.job.toml"] = text;
  file::MemoryFiles files(std::move(texts));
  return file::load_job(files, "drawn.job.toml");
}

DrawnJob draw_job(const Donors& donors, std::uint64_t seed) {
  constexpr int kMostRounds = 25;
  Draw draw(donors, seed);
  DrawnJob drawn{draw.job()};
  std::map<std::string, int> times;
  for (int round = 0; round < kMostRounds; ++round) {
    const file::LoadResult loaded = load_text(donors, toml_text(drawn.tree));
    Diagnostics stops = stops_of(loaded.diagnostics);
    if (stops.empty()) stops = stops_of(refused_by_models(loaded.job));
    if (stops.empty()) {
      drawn.valid = true;
      return drawn;
    }
    drawn.refused = stops.front().code + " " + stops.front().path;
    // from behind, so that the places of the others stay
    bool mended = false;
    for (auto fault = stops.rbegin(); fault != stops.rend(); ++fault)
      mended |= mend(draw, fault->path, ++times[fault->path], drawn.tree);
    if (!mended) return drawn;
  }
  return drawn;
}

// ---- shrinking

namespace {

/// Ways to everything that could be taken away, the large first.
void list_paths(const Tree& tree, const std::string& path, std::vector<std::string>& paths) {
  for (const auto& [key, inner] : tree.entries) {
    const bool bare = key.find_first_not_of("abcdefghijklmnopqrstuvwxyz_0123456789") == std::string::npos;
    const std::string here = (path.empty() ? "" : path + ".") + (bare ? key : "\"" + key + "\"");
    paths.push_back(here);
    list_paths(inner, here, paths);
  }
  for (std::size_t i = tree.items.size(); i-- > 0;) {
    const std::string here = fmt::format("{}[{}]", path, i);
    paths.push_back(here);
    list_paths(tree.items[i], here, paths);
  }
}

}  // namespace

Tree shrunk(Tree job, const std::function<bool(const Tree&)>& fails, int most) {
  bool smaller = true;
  while (smaller && most > 0) {
    smaller = false;
    std::vector<std::string> paths;
    list_paths(job, "", paths);
    std::ranges::stable_sort(paths, {},
                             [](const std::string& path) { return std::ranges::count(path, '.'); });
    for (const std::string& path : paths) {
      Tree less = job;
      if (most-- <= 0 || !erase_path(less, path) || !fails(less)) continue;
      job = std::move(less);
      smaller = true;
    }
  }
  return job;
}

}  // namespace shimwright::laws
