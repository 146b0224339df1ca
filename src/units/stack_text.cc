#include "units/stack_text.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "base/utf8.h"
#include "units/number_scan.h"

namespace shimwright::units {
namespace {

constexpr int kMostShims = 200;  // of one kind in a row
constexpr std::string_view kShape = "COUNT x OUTER DIAMETER x THICKNESS";
constexpr std::string_view kExample = "write it like \"3 x 24 x 0.15 mm\" (or \"3 x 0.945 x 0.006 in\")";

/// A part between two `x`, and what it holds.
struct Part {
  std::string_view text;  // trimmed, into the whole
  std::string_view unit;  // empty when there is none
  double number = 0.0;
};

UnitFault shims_fault(Fault fault, std::string_view whole, std::string_view part, std::string what,
                      std::string remedy) {
  return {fault,
          characters_before(whole, part),
          static_cast<int>(std::max<std::size_t>(n_code_points(part), 1)),
          std::move(what),
          printable(part, 40),
          "",
          std::move(remedy)};
}

/// Bytes of a separator at `at`, 0 when there is none.
std::size_t separator_bytes_at(std::string_view text, std::size_t at) {
  const CodePoint point = code_point_at(text, at);
  const bool times = point.value == U'x' || point.value == U'X' || point.value == U'×' || point.value == U'*';
  return times ? point.n_bytes : 0;
}

std::vector<std::string_view> split(std::string_view text) {
  std::vector<std::string_view> parts;
  std::size_t begin = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t n_separator = separator_bytes_at(text, at);
    if (n_separator > 0) parts.push_back(trimmed(text.substr(begin, at - begin))), begin = at + n_separator;
    at += n_separator > 0 ? n_separator : code_point_at(text, at).n_bytes;
  }
  parts.push_back(trimmed(text.substr(begin)));
  return parts;
}

Result<Part, UnitFault> read_part(std::string_view whole, std::string_view text) {
  if (text.empty()) {
    return failure(shims_fault(Fault::StackShape, whole, text,
                               fmt::format("a number is missing in {}", kShape), std::string(kExample)));
  }
  auto number = scan_number(text);
  if (!number) {
    number.error().offset += characters_before(whole, text);
    return failure(number.error());
  }
  return Part{text, trimmed(text.substr(number->n_bytes)), number->value};
}

/// A length; its unit may also come after the last number.
Result<double, UnitFault> length_of(std::string_view whole, const Part& part, std::string_view unit_for_all) {
  const bool own = !part.unit.empty();
  auto quantity =
      parse(own ? std::string(part.text) : fmt::format("{} {}", part.text, unit_for_all), Kind::Length);
  if (!quantity) {
    UnitFault fault = quantity.error();
    if (!own) fault.offset = 0, fault.length = static_cast<int>(n_code_points(part.text));
    fault.offset += characters_before(whole, part.text);
    return failure(std::move(fault));
  }
  if (quantity->si > 0.0) return quantity->si;
  return failure(shims_fault(Fault::OutOfRange, whole, part.text, "expected a length above zero",
                             std::string(kExample)));
}

Result<int, UnitFault> count_of(std::string_view whole, const Part& part) {
  if (!part.unit.empty()) {
    return failure(
        shims_fault(Fault::StackShape, whole, part.text, "a count has no unit", std::string(kExample)));
  }
  const bool whole_number =
      part.number == std::floor(part.number) && part.number >= 1 && part.number <= kMostShims;
  if (!whole_number) {
    return failure(shims_fault(Fault::OutOfRange, whole, part.text,
                               fmt::format("expected a count from 1 to {}", kMostShims),
                               std::string(kExample)));
  }
  return static_cast<int>(part.number);
}

ShimRun::TextRange place_of(std::string_view whole, std::string_view part) {
  return {characters_before(whole, part), static_cast<int>(n_code_points(part))};
}

/// Digits of a diameter: a hundredth of a millimetre or a thousandth of an inch, zeros at the end left out.
std::string diameter_digits(double si, System system) {
  std::string digits =
      fmt::format("{:.{}f}", to_unit(si, Kind::Length, system), system == System::Metric ? 2 : 3);
  digits.erase(digits.find_last_not_of('0') + 1);
  if (digits.ends_with('.')) digits.pop_back();
  return digits;
}

Result<ShimRun, UnitFault> read_shims(std::string_view text) {
  const std::string_view typed = trimmed(text);
  const std::vector<std::string_view> texts = split(typed);
  if (texts.size() < 2 || texts.size() > 3) {
    const Fault fault = typed.empty() ? Fault::Empty : Fault::StackShape;
    return failure(shims_fault(fault, text, typed, fmt::format("expected {} with its unit", kShape),
                               std::string(kExample)));
  }
  std::vector<Part> parts;
  for (const std::string_view one : texts) {
    auto part = read_part(text, one);
    if (!part) return failure(part.error());
    parts.push_back(*part);
  }

  // the last two are lengths, and the last must have its unit
  const Part& diameter_part = parts[parts.size() - 2];
  const Part& thickness_part = parts.back();
  if (thickness_part.unit.empty()) {
    return failure(shims_fault(Fault::UnitMissing, text, thickness_part.text,
                               fmt::format("expected {} with its unit", kShape),
                               fmt::format("write \"{} mm\" (or the same in inches, \"... in\")", typed)));
  }
  // the thickness first: a faulty unit for both lengths is there
  const auto thickness = length_of(text, thickness_part, {});
  if (!thickness) return failure(thickness.error());
  const auto diameter = length_of(text, diameter_part, thickness_part.unit);
  if (!diameter) return failure(diameter.error());
  if (*thickness >= *diameter) {
    return failure(shims_fault(Fault::StackShape, text, typed, "a shim is wider than it is thick",
                               fmt::format("keep the order {}", kShape)));
  }

  ShimRun run{.outer_diameter = *diameter, .thickness = *thickness, .text = std::string(typed)};
  run.outer_diameter_place = place_of(text, diameter_part.text);
  run.thickness_place = place_of(text, thickness_part.text);
  if (parts.size() == 3) {
    const auto count = count_of(text, parts[0]);
    if (!count) return failure(count.error());
    run.count = *count;
    run.count_place = place_of(text, parts[0].text);
  }
  return run;
}

}  // namespace

Result<ShimRun, UnitFault> parse_shims(std::string_view text) {
  return read_past_commas(text, read_shims);
}

std::string shim_text(int count, double outer_diameter, double thickness, System system) {
  const std::string shim =
      fmt::format("{} × {}", diameter_digits(outer_diameter, system), format_thickness(thickness, system));
  return count == 1 ? shim : fmt::format("{} × {}", count, shim);
}

std::string shim_text_plain(int count, double outer_diameter, double thickness, System system) {
  const std::string shim = fmt::format("{} x {}", diameter_digits(outer_diameter, system),
                                       format_thickness_plain(thickness, system));
  return count == 1 ? shim : fmt::format("{} x {}", count, shim);
}

}  // namespace shimwright::units
