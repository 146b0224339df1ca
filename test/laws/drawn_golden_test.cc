// What is told of some drawn jobs (findings, steps, fill, ledger, settings, what to pick), word by word and
// number by number, against what was told: regression (trust D of STYLE 1.3), never validation. The jobs are
// those of test/jobs/drawn: chosen out of some hundreds so that together they bring nearly every sentence
// that a job can.
//
// After a change on purpose:   SHIMWRIGHT_WRITE_DOCS=1 build-check/test/laws_tests
// --gtest_filter='DrawnGolden*' To choose the jobs anew:     SHIMWRIGHT_CHOOSE_JOBS=800 with the same
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>
#include <map>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "document/document_json.h"
#include "draw_job.h"
#include "job/run.h"
#include "job/run_bench.h"
#include "quick_bench.h"
#include "zoo.h"

namespace shimwright::laws {
namespace {

namespace fs = std::filesystem;
using Json = nlohmann::json;

const std::string kFolder = std::string(SW_SOURCE_DIR) + "/test/jobs/drawn";
constexpr std::size_t kMostJobs = 48;

/// The members of the documents that are looked at: what is judged, planned and filled, not what is solved.
bool is_looked_at(const std::string& path) {
  static const std::vector<std::string> kParts = {"findings",
                                                  "units[].plan",
                                                  "units[].fill",
                                                  "units[].reservoir",
                                                  "units[].settings",
                                                  "units[].key_figures",
                                                  "units[].valves[].post",
                                                  "units[].springs.sag",
                                                  "units[].springs.effects",
                                                  "pick_list",
                                                  "oil_swaps",
                                                  "machine",
                                                  "rider",
                                                  "bench.findings",
                                                  "bench.units[].release."};
  static const std::vector<std::string> kNot = {"settings.other", ".outcome.", "needs_parts", "end_travel",
                                                ".reference",     ".parts[].", ".needs[]",    ".kind"};
  return std::ranges::none_of(
             kNot, [&](const std::string& part) { return path.find(part) != std::string::npos; }) &&
         std::ranges::any_of(kParts, [&](const std::string& part) { return path.starts_with(part); });
}

/// A sentence without its numbers, and those.
struct Words {
  std::string words;
  std::vector<double> numbers;
};

Words split(const std::string& text) {
  Words split;
  for (std::size_t i = 0; i < text.size();) {
    const auto at = static_cast<unsigned char>(text[i]);
    const bool in_word = i > 0 && std::isalpha(static_cast<unsigned char>(text[i - 1])) != 0;
    if (std::isdigit(at) == 0 || in_word) {
      split.words += text[i] == '\n' ? ' ' : text[i];
      ++i;
      continue;
    }
    std::size_t end = i;
    while (end < text.size() && (std::isdigit(static_cast<unsigned char>(text[end])) != 0 ||
                                 (text[end] == '.' && end + 1 < text.size() &&
                                  std::isdigit(static_cast<unsigned char>(text[end + 1])) != 0)))
      ++end;
    split.numbers.push_back(std::strtod(text.substr(i, end - i).c_str(), nullptr));
    split.words += '#';
    i = end;
  }
  return split;
}

/// What a job is told: for each member of the documents its words in order, and all its numbers.
using Told = std::map<std::string, Words>;

void add(Told& told, const Json& json, const std::string& path) {
  if (json.is_object()) {
    for (const auto& [key, inner] : json.items()) add(told, inner, path.empty() ? key : path + "." + key);
  } else if (json.is_array()) {
    for (const Json& inner : json) add(told, inner, path + "[]");
  } else if (is_looked_at(path)) {
    Words& words = told[path];
    if (json.is_number()) {
      words.words += "# | ";
      words.numbers.push_back(json.get<double>());
    } else {
      const Words here = json.is_string() ? split(json.get<std::string>()) : Words{json.dump(), {}};
      words.words += here.words + " | ";
      words.numbers.insert(words.numbers.end(), here.numbers.begin(), here.numbers.end());
    }
  }
}

Told told_of(const Donors& donors, const std::string& text) {
  Told told;
  const file::LoadResult loaded = load_text(donors, text);
  const auto document = job::run_job(loaded.job, {});
  if (!document) return told;
  add(told, Json::parse(document::to_json(*document)), "");
  if (!loaded.job.bench) return told;
  if (const auto bench = job::run_bench_job(with_quick_bench(loaded.job), {}))
    add(told, Json::parse(document::to_json(*bench)), "bench");
  return told;
}

// ---- choosing

void for_each_part(const std::string& words, const std::function<void(const std::string&)>& act) {
  std::size_t begin = 0;
  for (std::size_t end = words.find(" | "); end != std::string::npos; end = words.find(" | ", begin)) {
    act(words.substr(begin, end - begin));
    begin = end + 3;
  }
}

/// The sentences that a job brings, each with its member.
std::set<std::string> sentences_of(const Told& told) {
  std::set<std::string> sentences;
  for (const auto& [path, words] : told)
    for_each_part(words.words, [&](const std::string& part) { sentences.insert(path + ": " + part); });
  return sentences;
}

/// The drawn jobs that bring most, one after the other: of a finding each sentence three times.
void choose_jobs(const Donors& donors, int n_drawn) {
  std::vector<std::pair<std::string, std::set<std::string>>> drawn;
  for (int seed = 1; seed <= n_drawn; ++seed) {
    const DrawnJob job = draw_job(donors, static_cast<std::uint64_t>(seed) + 100000);
    if (!job.valid) continue;
    const std::string text = toml_text(job.tree);
    drawn.emplace_back(text, sentences_of(told_of(donors, text)));
  }
  std::map<std::string, int> wanted;
  for (const auto& one : drawn)
    for (const std::string& sentence : one.second)
      wanted[sentence] = std::min(wanted[sentence] + 1, sentence.starts_with("findings") ? 3 : 1);
  fs::remove_all(kFolder);
  fs::create_directories(kFolder);
  for (const auto& [file, text] : donors.files) std::ofstream(kFolder + "/" + file) << text;
  for (std::size_t n = 0; n < kMostJobs; ++n) {
    const auto brings = [&](const auto& one) {
      int sum = 0;
      for (const std::string& sentence : one.second) sum += wanted.at(sentence) > 0 ? 1 : 0;
      return sum;
    };
    const auto best = std::ranges::max_element(drawn, {}, brings);
    if (best == drawn.end() || brings(*best) == 0) break;
    for (const std::string& sentence : best->second) --wanted[sentence];
    std::ofstream(fmt::format("{}/{:02}.job.toml", kFolder, n + 1)) << best->first;
    drawn.erase(best);
  }
  const auto left = std::ranges::count_if(wanted, [](const auto& one) { return one.second > 0; });
  std::printf("%zu sentences drawn, %td not brought as often as wanted\n", wanted.size(), left);
}

// ---- the files of what was told
// Of a job "path = words | words" and "path # numbers"; a sentence stands there by its mark, and once in
// sentences.told.

/// Sentences by their marks, "~1f3a9c04".
using Sentences = std::map<std::string, std::string>;

std::string marked(const std::string& words, Sentences& sentences) {
  if (words.size() < 16) return words;
  std::uint32_t mark = 2166136261u;  // FNV-1a (draft-eastlake-fnv), only to be short
  for (const char c : words) mark = (mark ^ static_cast<unsigned char>(c)) * 16777619u;
  const std::string name = fmt::format("~{:08x}", mark);
  sentences[name] = words;
  return name;
}

std::string lines_of(const Told& told, Sentences& sentences) {
  std::string lines;
  for (const auto& [path, words] : told) {
    std::string marks;
    bool has_words = false;
    for_each_part(words.words, [&](const std::string& part) {
      has_words = has_words || part != "#";
      marks += " " + marked(part, sentences);
    });
    if (has_words) lines += path + " =" + marks + "\n";
    if (words.numbers.empty()) continue;
    lines += path + " #";
    for (const double number : words.numbers) lines += fmt::format(" {:.4g}", number);
    lines += '\n';
  }
  return lines;
}

std::vector<double> numbers_in(const std::string& line) {
  std::istringstream in(line.substr(line.find(" #") + 2));
  std::vector<double> numbers;
  for (std::string word; in >> word;) numbers.push_back(std::strtod(word.c_str(), nullptr));
  return numbers;
}

/// Empty when they agree, numbers within a percent.
std::string difference(const std::string& was, const std::string& is) {
  if (was == is) return "";
  const std::string both = "\n  was: " + was + "\n  is:  " + is;
  const std::size_t at = is.find(" #");
  if (at == std::string::npos || is.find(" =") < at || was.substr(0, at) != is.substr(0, at)) return both;
  const std::vector<double> before = numbers_in(was), now = numbers_in(is);
  if (before.size() != now.size()) return both;
  // a rod that hardly moves has a speed that only rounding made: of the bench, a share of the largest counts
  double floor = 1e-12;
  if (is.starts_with("bench."))
    for (const double number : before) floor = std::max(floor, 1e-4 * std::abs(number));
  for (std::size_t i = 0; i < now.size(); ++i)
    if (!(std::abs(now[i] - before[i]) <= 0.01 * std::abs(before[i]) + floor) &&
        !(std::isnan(now[i]) && std::isnan(before[i])))
      return fmt::format("\n  {} number {}: was {}, is {}", is.substr(0, at), i + 1, before[i], now[i]);
  return "";
}

std::vector<std::string> lines_in(const std::string& text) {
  std::istringstream in(text);
  std::vector<std::string> lines;
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

std::vector<std::string> chosen_jobs() {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(kFolder))
    if (entry.path().string().ends_with(".job.toml")) names.push_back(entry.path().stem().stem().string());
  std::ranges::sort(names);
  return names;
}

TEST(DrawnGolden, DrawnJobsAreToldWhatTheyWereTold) {
  const bool writes = std::getenv("SHIMWRIGHT_WRITE_DOCS") != nullptr;
  const Donors donors = zoo_donors();
  if (const char* n = std::getenv("SHIMWRIGHT_CHOOSE_JOBS")) choose_jobs(donors, std::atoi(n));
  Sentences sentences;
  for (const std::string& name : chosen_jobs()) {
    const std::string path = kFolder + "/" + name;
    const std::string now = lines_of(told_of(donors, text_of_file(path + ".job.toml")), sentences);
    if (writes) std::ofstream(path + ".told") << now;
    const std::vector<std::string> was = lines_in(text_of_file(path + ".told")), is = lines_in(now);
    EXPECT_FALSE(is.empty()) << name;
    EXPECT_EQ(was.size(), is.size()) << name;
    for (std::size_t i = 0; i < std::min(was.size(), is.size()); ++i)
      EXPECT_EQ(difference(was[i], is[i]), "") << name;
  }
  std::string now;
  for (const auto& [mark, words] : sentences) now += mark + " " + words + "\n";
  if (writes) std::ofstream(kFolder + "/sentences.told") << now;
  const std::vector<std::string> before = lines_in(text_of_file(kFolder + "/sentences.told"));
  const std::set<std::string> known(before.begin(), before.end());
  for (const std::string& line : lines_in(now)) EXPECT_TRUE(known.contains(line)) << "new: " << line;
}

}  // namespace
}  // namespace shimwright::laws
