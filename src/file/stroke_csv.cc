#include "file/stroke_csv.h"

#include <fmt/core.h>

#include <algorithm>
#include <optional>
#include <span>

namespace shimwright::file {
namespace {

constexpr std::size_t kMostSamples = 200000;  // more is a whole day of riding, not a stroke

constexpr std::string_view kTimeNames[] = {"time", "t", "zeit", "temps", "seconds", "elapsed"};
constexpr std::string_view kTravelNames[] = {"travel", "stroke", "position", "displacement", "disp", "x"};

std::string lower_case(std::string_view text) {
  std::string lower(text);
  for (char& c : lower) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return lower;
}

std::string headings_of(const CsvTable& table) {
  std::string words;
  for (const CsvHead& head : table.heads) words += (words.empty() ? "\"" : ", \"") + head.name + "\"";
  return words;
}

/// The requested column, or the first with one of the usual names.
std::optional<std::size_t> column_of(const CsvTable& table, const std::string& asked,
                                     std::span<const std::string_view> usual, const char* key,
                                     std::vector<CsvFault>& faults) {
  for (std::size_t i = 0; i < table.heads.size(); ++i) {
    const std::string name = lower_case(table.heads[i].name);
    if (asked.empty() ? std::ranges::find(usual, name) != usual.end() : name == lower_case(asked)) return i;
  }
  faults.push_back({table.heads.front().line, 1, 1,
                    asked.empty() ? fmt::format("there is no column {}", usual.front())
                                  : fmt::format("there is no column \"{}\"", asked),
                    headings_of(table), "", fmt::format("name the column in {}", key)});
  return std::nullopt;
}

void check_time(const CsvTable& table, std::vector<double>& time, std::vector<CsvFault>& faults) {
  for (std::size_t i = 1; i < time.size(); ++i) {
    if (time[i] > time[i - 1]) continue;
    faults.push_back({table.rows[i].line, 1, 1, "the time does not increase from the row before",
                      fmt::format("{:g} s after {:g} s", time[i], time[i - 1]), "a later time",
                      "remove the row, or sort the rows by time"});
    return;
  }
  if (time.empty()) return;
  const double start = time.front();
  for (double& t : time) t -= start;
}

}  // namespace

StrokeResult read_stroke(std::string_view csv, const StrokeRequest& request) {
  StrokeResult result;
  const CsvResult read = read_csv(csv);
  result.faults = read.faults;
  if (!result.faults.empty()) return result;
  const CsvTable& table = read.table;

  // the two columns
  const auto travel = column_of(table, request.travel_column, kTravelNames, "travel_column", result.faults);
  std::optional<std::size_t> time;
  if (request.sample_rate <= 0.0)
    time = column_of(table, request.time_column, kTimeNames, "time_column, or give the sample_rate",
                     result.faults);
  std::optional<std::size_t> force;
  if (!request.force_column.empty())
    force = column_of(table, request.force_column, {}, "force_column", result.faults);
  if (table.rows.size() < 2 || table.rows.size() > kMostSamples) {
    result.faults.push_back({0, 1, 1, "this record has too few or too many samples",
                             fmt::format("{} samples", table.rows.size()),
                             fmt::format("2 to {} samples", kMostSamples),
                             table.rows.size() < 2 ? "record it again" : "keep only the part you need"});
  }
  if (!result.faults.empty()) return result;

  // their numbers
  result.stroke.travel = csv_numbers(table, *travel, units::Kind::Length, result.faults);
  if (force) result.stroke.force = csv_numbers(table, *force, units::Kind::Force, result.faults);
  if (time) {
    result.stroke.time = csv_numbers(table, *time, units::Kind::Time, result.faults);
    if (result.faults.empty()) check_time(table, result.stroke.time, result.faults);
  } else {
    for (std::size_t i = 0; i < table.rows.size(); ++i)
      result.stroke.time.push_back(static_cast<double>(i) / request.sample_rate);
  }
  if (!result.faults.empty()) result.stroke = {};
  return result;
}

}  // namespace shimwright::file
