#include <fmt/core.h>

#include <algorithm>
#include <optional>

#include "file/load_reading.h"
#include "file/schema_tables.h"
#include "units/quantity.h"
#include "units/stack_text.h"

namespace shimwright::file {
namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
  return text;
}

/// "3 x NAME" taken apart.
struct Counted {
  std::optional<int> count;
  std::string_view rest;
};

Counted split_count(std::string_view text) {
  text = trimmed(text);
  std::size_t n_digits = 0;
  while (n_digits < text.size() && is_digit(text[n_digits])) ++n_digits;
  if (n_digits == 0 || n_digits > 4) return {std::nullopt, text};
  std::string_view rest = trimmed(text.substr(n_digits));
  for (const std::string_view times : {"x", "X", "*", "\u00d7"}) {
    if (!rest.starts_with(times)) continue;
    return {std::stoi(std::string(text.substr(0, n_digits))), trimmed(rest.substr(times.size()))};
  }
  return {std::nullopt, text};
}

/// A count inside a text, checked against the bounds of its key.
Count count_within(Reading& reading, const KeySchema& key, int value, const toml::Node& node) {
  const Origin origin = origin_of(reading, node);
  const bool fits = check_bounds(reading, key, static_cast<double>(value), origin, fmt::format("{}", value));
  return fits ? Count{value, true, origin} : Count{};
}

/// A length inside a text of several; the unit is that of the text's end when it has none of its own.
Quantity length_within(Reading& reading, const KeySchema& key, const toml::Node& node, double si,
                       const units::ShimRun::TextRange& place) {
  Quantity value;
  value.si = si;
  value.given = true;
  value.kind = units::Kind::Length;
  value.origin = origin_within(reading, node, place.offset, place.length);
  value.text =
      std::string(reading.document->text.substr(value.origin.begin, value.origin.end - value.origin.begin));
  if (!value.text.empty() && is_digit(value.text.back())) {
    const std::size_t unit = node.text.find_last_of(" 0123456789");
    if (unit != std::string::npos) value.text += " " + node.text.substr(unit + 1);
  }
  return check_bounds(reading, key, si, value.origin, value.text) ? value : Quantity{};
}

DiscSpec disc_from_part(Reading& reading, const DiscSpec& part, const Counted& counted,
                        const toml::Node& node) {
  DiscSpec disc = part;
  disc.part = {part.name, true, origin_of(reading, node)};
  disc.count = count_within(reading, *find_key(disc_schema(), "count"), counted.count.value_or(1), node);
  disc.text = node.text;
  disc.origin = origin_of(reading, node);
  return disc;
}

/// "3 x 24 x 0.15 mm", "3 x shim NAME" or "3 x NAME".
std::optional<DiscSpec> disc_from_text(Reading& reading, const toml::Node& node) {
  const std::vector<DiscSpec>& shims = reading.job->parts.shims;
  const Counted counted = split_count(node.text);
  const bool says_shim = counted.rest.starts_with("shim ");
  const std::string name(says_shim ? trimmed(counted.rest.substr(5)) : counted.rest);
  if (const DiscSpec* part = part_called(shims, name)) return disc_from_part(reading, *part, counted, node);
  if (const DiscSpec* part = part_called(shims, trimmed(node.text)))
    return disc_from_part(reading, *part, {{}, name}, node);
  if (says_shim) {
    report_unknown_part(reading, "shim", name, names_of(shims), origin_of(reading, node));
    return std::nullopt;
  }

  const auto run = units::parse_shims(node.text);
  if (!run) {
    const units::UnitFault& fault = run.error();
    const bool is_shape = fault.fault == units::Fault::StackShape;
    report(reading, unit_code(fault.fault), origin_within(reading, node, fault.offset, fault.length),
           {fault.what, fault.got, fault.expected,
            is_shape ? suggestion(name, names_of(shims), fault.remedy) : fault.remedy});
    return std::nullopt;
  }

  DiscSpec disc;
  disc.count = count_within(reading, *find_key(disc_schema(), "count"), run->count, node);
  disc.outer_diameter = length_within(reading, *find_key(disc_schema(), "outer_diameter"), node,
                                      run->outer_diameter, run->outer_diameter_place);
  disc.thickness = length_within(reading, *find_key(disc_schema(), "thickness"), node, run->thickness,
                                 run->thickness_place);
  disc.text = run->text;
  disc.origin = origin_of(reading, node);
  return disc;
}

/// "washer 2.0 mm": where the height begins, as a byte offset.
std::optional<std::size_t> height_begin(std::string_view text) {
  for (std::size_t at = text.size(); at-- > 1;) {
    const bool starts_number = is_digit(text[at]) && text[at - 1] == ' ';
    if (starts_number) return at;
  }
  return std::nullopt;
}

std::optional<PieceKind> reserved_piece(std::string_view text) {
  if (text == "compression stack") return PieceKind::CompressionStack;
  if (text == "rebound stack") return PieceKind::ReboundStack;
  if (text == "spacers") return PieceKind::Spacers;
  return std::nullopt;
}

/// The role whose word a text is.
Choice<PieceRole> role_called(std::string_view text, const Origin& origin) {
  const std::vector<std::string>& words = role_words();
  const auto found = std::ranges::find(words, text);
  if (found == words.end()) return {};
  return {static_cast<PieceRole>(found - words.begin()), true, *found, origin};
}

/// "compression stack", "2 x NAME" of a spacer, "washer 2.0 mm" by its role, or "cup 2.0 mm" by any name.
std::optional<PieceSpec> piece_from_text(Reading& reading, const toml::Node& node) {
  const Origin origin = origin_of(reading, node);
  const std::vector<SpacerSpec>& spacers = reading.job->parts.spacers;
  const Counted counted = split_count(node.text);
  PieceSpec piece;
  piece.kind = {PieceKind::Piece, true, "", origin};

  if (const auto reserved = reserved_piece(counted.rest)) {
    piece.kind = {*reserved, true, node.text, origin};
  } else if (const SpacerSpec* spacer = part_called(spacers, counted.rest)) {
    piece = piece_from(*spacer);
    piece.part = {spacer->name, true, origin};
    piece.count = count_within(reading, *find_key(piece_schema(), "count"), counted.count.value_or(1), node);
  } else if (const auto begin = height_begin(node.text)) {
    const KeySchema& key = *find_key(piece_schema(), "height");
    const auto height = units::parse(std::string_view(node.text).substr(*begin), units::Kind::Length);
    if (!height) {
      const units::UnitFault& fault = height.error();
      report(reading, unit_code(fault.fault),
             origin_within(reading, node, static_cast<int>(*begin) + fault.offset, fault.length),
             {fault.what, fault.got, fault.expected, fault.remedy});
      return std::nullopt;
    }
    const Counted name = split_count(std::string_view(node.text).substr(0, *begin));
    piece.name = {std::string(name.rest), true, origin};
    piece.role = role_called(name.rest, origin);
    piece.count = count_within(reading, *find_key(piece_schema(), "count"), name.count.value_or(1), node);
    piece.height = {height->si, true, units::Kind::Length, units::Reference::None, height->text, origin};
    if (!check_bounds(reading, key, height->si, origin, height->text)) return std::nullopt;
  } else {
    std::vector<std::string> known = names_of(spacers);
    known.insert(known.end(), {"compression stack", "rebound stack", "spacers"});
    report(reading, Code::PieceShape, origin,
           {"this is not a piece for the post", typed(reading, node),
            "a role or a name with its height, a spacer from a parts file, \"compression stack\", \"rebound "
            "stack\" or "
            "\"spacers\"",
            suggestion(counted.rest, known, "write a role and a height, such as \"washer 2.0 mm\"")});
    return std::nullopt;
  }
  piece.text = node.text;
  piece.origin = origin;
  return piece;
}

template <typename Spec>
Spec unread(const Reading& reading, const toml::Node& entry) {
  Spec spec;
  spec.text = entry.text;
  spec.origin = origin_of(reading, entry);
  return spec;
}

/// A list whose entries are texts or tables; one text alone is a list of one.
template <typename Spec, typename FromText>
std::vector<Spec> read_entries(Reading& reading, const KeySchema& key, const toml::Node& node,
                               FromText from_text) {
  std::vector<Spec> entries;
  const auto take = [&](const toml::Node& entry) {
    if (entry.kind == toml::Kind::String) {
      // an entry that cannot be read keeps its place, so that its neighbours are not taken for it
      auto spec = from_text(reading, entry);
      entries.push_back(spec ? std::move(*spec) : unread<Spec>(reading, entry));
    } else if (entry.is_table()) {
      Spec spec;
      read_table(reading, *key.table, entry, &spec);
      entries.push_back(std::move(spec));
    } else {
      report_wrong_type(reading, key, entry);
    }
  };
  if (!node.is_array()) {
    take(node);
    return entries;
  }
  for (const auto& child : node.children) take(*child);
  if (node.children.empty())
    report(reading, Code::EmptyList, origin_of(reading, node),
           {"the list is empty", "[]", accepted_by(key), fmt::format("fill it, or remove {}", key.name)});
  return entries;
}

}  // namespace

PieceSpec piece_from(const SpacerSpec& spacer) {
  PieceSpec piece;
  piece.kind = {PieceKind::Piece, true, "", spacer.origin};
  piece.role = {PieceRole::Spacer, true, "spacer", spacer.origin};
  piece.name = {spacer.name, true, spacer.origin};
  piece.height = spacer.thickness;
  piece.measured = spacer.measured;
  piece.tolerance = spacer.tolerance;
  piece.outer_diameter = spacer.outer_diameter;
  piece.bore = spacer.bore;
  piece.origin = spacer.origin;
  return piece;
}

std::vector<DiscSpec> read_stack(Reading& reading, const KeySchema& key, const toml::Node& node) {
  return read_entries<DiscSpec>(reading, key, node, disc_from_text);
}

std::vector<PieceSpec> read_pieces(Reading& reading, const KeySchema& key, const toml::Node& node) {
  return read_entries<PieceSpec>(reading, key, node, piece_from_text);
}

}  // namespace shimwright::file
