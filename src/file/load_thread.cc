#include <fmt/core.h>

#include <charconv>
#include <cmath>
#include <optional>

#include "assembly/thread.h"
#include "file/load_reading.h"

namespace shimwright::file {
namespace {

/// A decimal number at the front of `text`, which is taken off.
std::optional<double> take_number(std::string_view& text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  double value = 0.0;
  const auto [end, error] =
      std::from_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed);
  if (error != std::errc() || !std::isfinite(value)) return std::nullopt;
  text.remove_prefix(static_cast<std::size_t>(end - text.data()));
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  return value;
}

/// "M6 x 0.75", or "M6" for the coarse pitch.
std::optional<assembly::Thread> metric_thread(std::string_view text) {
  text.remove_prefix(1);
  const auto diameter_mm = take_number(text);
  if (!diameter_mm) return std::nullopt;
  if (text.empty()) {
    const auto pitch = assembly::coarse_pitch(*diameter_mm * 1e-3);
    return pitch ? std::optional(assembly::nominal_thread(*diameter_mm * 1e-3, *pitch)) : std::nullopt;
  }
  for (const std::string_view times : {"x", "X", "\u00d7"}) {
    if (!text.starts_with(times)) continue;
    text.remove_prefix(times.size());
    const auto pitch_mm = take_number(text);
    if (!pitch_mm || (!text.empty() && text != "mm")) return std::nullopt;
    return assembly::nominal_thread(*diameter_mm * 1e-3, *pitch_mm * 1e-3);
  }
  return std::nullopt;
}

/// Size in inches: "1/4", "0.25", "#10".
std::optional<double> take_inches(std::string_view& text) {
  const bool by_number = text.starts_with('#');
  if (by_number) text.remove_prefix(1);
  auto size = take_number(text);
  if (size && by_number) return 0.060 + 0.013 * *size;  // ASME B1.1 numbered sizes
  if (size && text.starts_with('/')) {
    text.remove_prefix(1);
    const auto below = take_number(text);
    if (!below || *below == 0.0) return std::nullopt;
    size = *size / *below;
  }
  if (size && text.starts_with("in")) text.remove_prefix(2);
  return size;
}

/// "1/4-28", "#10-32 UNF".
std::optional<assembly::Thread> inch_thread(std::string_view text) {
  const auto diameter_in = take_inches(text);
  if (!diameter_in || !text.starts_with('-')) return std::nullopt;
  text.remove_prefix(1);
  const auto turns_per_inch = take_number(text);
  const bool ends_well = text.empty() || text == "UNF" || text == "UNC" || text == "UNEF";
  if (!turns_per_inch || *turns_per_inch <= 0.0 || !ends_well) return std::nullopt;
  return assembly::unified_thread(*diameter_in * 25.4e-3, *turns_per_inch);
}

}  // namespace

Thread read_thread(Reading& reading, const KeySchema& key, const toml::Node& node) {
  if (node.kind != toml::Kind::String) return report_wrong_type(reading, key, node), Thread{};
  const std::string_view text = node.text;
  const auto size = text.starts_with('M') ? metric_thread(text) : inch_thread(text);
  const Origin origin = origin_of(reading, node);
  if (!size || !assembly::problems_in(*size).empty()) {
    report(reading, Code::ThreadShape, origin,
           {"not a thread", typed(reading, node), "\"M6 x 0.75\", \"M6\" for the coarse pitch, or \"1/4-28\"",
            "write diameter and pitch, or diameter and turns per inch"});
    return {};
  }
  if (!check_bounds(reading, key, size->diameter, origin, typed(reading, node))) return {};
  return {*size, true, node.text, origin};
}

}  // namespace shimwright::file
