#include <fmt/core.h>

#include "base/utf8.h"

#include <algorithm>
#include "units/number_scan.h"
#include "units/quantity.h"

namespace shimwright::units {
namespace {

constexpr std::size_t kMostItems = 1000;

std::size_t separator_at(std::string_view text, std::size_t from) {
  return text.find_first_of(",;", from);
}

/// A comma between two digits might be a decimal comma: 0,2 MPa must not become 0 and 2 MPa.
bool is_doubtful_comma(std::string_view text, std::size_t at) {
  return text[at] == ',' && at > 0 && is_digit(text[at - 1]) && at + 1 < text.size() &&
         is_digit(text[at + 1]);
}

std::vector<std::string_view> items_of(std::string_view text) {
  std::vector<std::string_view> items;
  std::size_t begin = 0;
  for (std::size_t at = separator_at(text, 0); at != std::string_view::npos; at = separator_at(text, begin)) {
    items.push_back(text.substr(begin, at - begin));
    begin = at + 1;
  }
  items.push_back(text.substr(begin));
  return items;
}

UnitFault list_fault(Fault fault, std::string_view whole, std::size_t at, std::size_t n_bytes,
                     std::string what, std::string remedy) {
  const std::string_view part = whole.substr(at, n_bytes);
  return {fault,
          characters_before(whole, part),
          static_cast<int>(std::max<std::size_t>(n_code_points(part), 1)),
          std::move(what),
          printable(part, 30),
          "",
          std::move(remedy)};
}

/// The unit of the last item, when it has one: what bare items before it are given.
std::string_view shared_unit(std::string_view last_item) {
  const std::string_view item = trimmed(last_item);
  const auto number = scan_number(item);
  return number ? trimmed(item.substr(number->n_bytes)) : std::string_view{};
}

bool is_bare(std::string_view item) {
  const auto number = scan_number(item);
  return number && number->n_bytes == item.size();
}

Result<std::vector<Quantity>, UnitFault> read_list(std::string_view text, Kind kind) {
  for (std::size_t at = separator_at(text, 0); at != std::string_view::npos;
       at = separator_at(text, at + 1)) {
    if (!is_doubtful_comma(text, at)) continue;
    return failure(list_fault(Fault::DecimalComma, text, at, 1,
                              "a comma between two digits can be read in two ways",
                              "write a decimal point, or a space after a comma that separates two values"));
  }
  const std::vector<std::string_view> items = items_of(text);
  if (items.size() > kMostItems) {
    return failure(list_fault(Fault::NotANumber, text, 0, text.size(),
                              fmt::format("expected {} values at most", kMostItems), "remove some"));
  }

  const std::string_view unit = shared_unit(items.back());
  std::vector<Quantity> quantities;
  for (const std::string_view item : items) {
    const std::string_view plain = trimmed(item);
    const bool shares = !unit.empty() && is_bare(plain);
    const std::string full = shares ? fmt::format("{} {}", plain, unit) : std::string(plain);
    auto quantity = parse(full, kind);
    if (!quantity) {
      UnitFault fault = quantity.error();
      // a fault of the shared unit is shown at the item that lacks its own
      if (shares) fault.offset = 0, fault.length = static_cast<int>(n_code_points(plain));
      fault.offset += characters_before(text, plain.empty() ? item : plain);
      return failure(std::move(fault));
    }
    quantities.push_back(*std::move(quantity));
  }
  return quantities;
}

}  // namespace

Result<std::vector<Quantity>, UnitFault> parse_list(std::string_view text, Kind kind) {
  return read_past_commas(text, [&](std::string_view one) { return read_list(one, kind); });
}

}  // namespace shimwright::units
