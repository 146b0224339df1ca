#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "file/load_reading.h"
#include "units/format.h"
#include "units/quantity.h"

namespace shimwright::file {
namespace {

Quantity to_spec(const units::Quantity& quantity, const Origin& origin) {
  Quantity value;
  value.si = quantity.si;
  value.given = true;
  value.kind = quantity.kind;
  value.reference = quantity.reference;
  value.text = quantity.text;
  value.origin = origin;
  return value;
}

/// The quantity that a bare number most likely means: in the unit of its kind's example, and a share
/// below one as percent.
std::string likely_quantity(const KeySchema& key, const toml::Node& node, const std::string& number) {
  if (key.unit == units::Kind::Fraction) {
    const double value = node.as_number().value_or(0.0);
    return fmt::format("{:g} %", value <= 1.0 ? 100.0 * value : value);
  }
  const std::string_view example = units::facts(key.unit).metric_example;
  const std::size_t blank = example.find(' ');
  return number + std::string(blank == std::string_view::npos ? "" : example.substr(blank));
}

void report_bare_number(Reading& reading, const KeySchema& key, const toml::Node& node) {
  const std::string number = typed(reading, node);
  report(reading, Code::BareNumber, origin_of(reading, node),
         {fmt::format("expected {} with its unit", units::facts(key.unit).name), "the bare number " + number,
          units::examples(key.unit),
          fmt::format("if you mean {0}, write \"{0}\" in quotes, with its unit",
                      likely_quantity(key, node, number))});
}

/// The number and the bounds it broke, in the unit that the reader would use.
void report_outside(Reading& reading, const KeySchema& key, const Origin& origin,
                    const std::string& typed_text) {
  report(
      reading, Code::OutsideSense, origin,
      {"this value makes no sense here", typed_text,
       fmt::format("{}: {}", bounds_text(key), key.bounds.reason), "check the unit and the decimal point"});
}

}  // namespace

Code unit_code(units::Fault fault) {
  switch (fault) {
    case units::Fault::Empty:
    case units::Fault::NotANumber:
      return Code::NotANumber;
    case units::Fault::DecimalComma:
      return Code::DecimalComma;
    case units::Fault::UnitMissing:
      return Code::BareNumber;
    case units::Fault::UnitUnknown:
      return Code::UnknownUnit;
    case units::Fault::UnitMalformed:
      return Code::MalformedUnit;
    case units::Fault::UnitAmbiguous:
      return Code::AmbiguousUnit;
    case units::Fault::WrongKind:
      return Code::WrongUnitKind;
    case units::Fault::ReferenceMissing:
      return Code::ReferenceMissing;
    case units::Fault::ReferenceUnwanted:
      return Code::ReferenceUnwanted;
    case units::Fault::OutOfRange:
      return Code::OutsideSense;
    case units::Fault::BottleWeight:
      return Code::BottleWeight;
    case units::Fault::StackShape:
      return Code::StackShape;
  }
  return Code::NotANumber;
}

void report_wrong_type(Reading& reading, const KeySchema& key, const toml::Node& node) {
  if (node.kind == toml::Kind::Faulty) return;  // said already
  const bool has_unit = key.kind == ValueKind::Quantity || key.kind == ValueKind::QuantityList;
  if (has_unit && node.as_number()) return report_bare_number(reading, key, node);

  std::string remedy = fmt::format("write {} = {}", key.name, key.example);
  const bool wants_bare =
      key.kind == ValueKind::Number || key.kind == ValueKind::Count || key.kind == ValueKind::Flag;
  if (wants_bare && node.kind == toml::Kind::String)
    remedy = fmt::format("write it without quotes, as {}", key.example);
  if (key.kind == ValueKind::Text && node.as_number())
    remedy = fmt::format("put it in quotes: \"{}\"", typed(reading, node));
  report(
      reading, Code::WrongType, origin_of(reading, node),
      {"this value has the wrong type",
       fmt::format("the {} {}", toml::name_of(node.kind), typed(reading, node)), accepted_by(key), remedy});
}

bool expect_table(Reading& reading, const KeySchema& key, const toml::Node& node) {
  if (node.is_table()) return true;
  report_wrong_type(reading, key, node);
  return false;
}

bool check_bounds(Reading& reading, const KeySchema& key, double si, const Origin& origin,
                  const std::string& typed_text) {
  if (si >= key.bounds.low && si <= key.bounds.high) return true;
  report_outside(reading, key, origin, typed_text);
  return false;
}

Quantity read_quantity(Reading& reading, const KeySchema& key, const toml::Node& node) {
  if (node.kind != toml::Kind::String) return report_wrong_type(reading, key, node), Quantity{};
  const auto parsed = units::parse(node.text, key.unit);
  if (!parsed) {
    const units::UnitFault& fault = parsed.error();
    report(reading, unit_code(fault.fault), origin_within(reading, node, fault.offset, fault.length),
           {fault.what, fault.got, fault.expected, fault.remedy});
    return {};
  }
  const Quantity value = to_spec(*parsed, origin_of(reading, node));
  return check_bounds(reading, key, value.si, value.origin, typed(reading, node)) ? value : Quantity{};
}

QuantityRange read_range(Reading& reading, const KeySchema& key, const toml::Node& node) {
  if (node.kind != toml::Kind::String) return report_wrong_type(reading, key, node), QuantityRange{};
  const Origin origin = origin_of(reading, node);
  const FaultText shape{"expected a range", typed(reading, node),
                        "two values joined by \"to\", the smaller one first",
                        fmt::format("write {} = {}", key.name, key.example)};

  // the unit may stand once, at the end
  const std::size_t joint = node.text.find(" to ");
  if (joint == std::string::npos) return report(reading, Code::RangeShape, origin, shape), QuantityRange{};
  const std::string high_text = node.text.substr(joint + 4);
  std::string low_text = node.text.substr(0, joint);
  if (low_text.find_first_not_of("0123456789.+- ") == std::string::npos) {
    const std::size_t unit = high_text.find_first_not_of("0123456789.+- ");
    if (unit != std::string::npos) low_text += ' ' + high_text.substr(unit);
  }

  const auto low = units::parse(low_text, key.unit);
  const auto high = units::parse(high_text, key.unit);
  if (!low || !high) {
    const units::UnitFault& fault = low ? high.error() : low.error();
    report(reading, unit_code(fault.fault), origin, {fault.what, fault.got, fault.expected, fault.remedy});
    return {};
  }
  if (low->si > high->si) return report(reading, Code::RangeShape, origin, shape), QuantityRange{};
  for (const units::Quantity& end : {*low, *high})
    if (!check_bounds(reading, key, end.si, origin, typed(reading, node))) return {};

  QuantityRange range{to_spec(*low, origin), to_spec(*high, origin), true, node.text, origin};
  return range;
}

std::vector<Quantity> read_quantity_list(Reading& reading, const KeySchema& key, const toml::Node& node) {
  std::vector<Quantity> values;
  if (node.is_array()) {
    for (const auto& child : node.children) {
      const Quantity value = read_quantity(reading, key, *child);
      if (value) values.push_back(value);
    }
    return values;
  }
  if (node.kind != toml::Kind::String) return report_wrong_type(reading, key, node), values;

  const auto parsed = units::parse_list(node.text, key.unit);
  if (!parsed) {
    const units::UnitFault& fault = parsed.error();
    report(reading, unit_code(fault.fault), origin_within(reading, node, fault.offset, fault.length),
           {fault.what, fault.got, fault.expected, fault.remedy});
    return values;
  }
  for (const units::Quantity& quantity : *parsed) {
    const Quantity value = to_spec(quantity, origin_of(reading, node));
    if (check_bounds(reading, key, value.si, value.origin, value.text)) values.push_back(value);
  }
  return values;
}

Number read_number(Reading& reading, const KeySchema& key, const toml::Node& node) {
  const std::optional<double> number = node.as_number();
  if (!number) return report_wrong_type(reading, key, node), Number{};
  const Number value{*number, true, typed(reading, node), origin_of(reading, node)};
  const bool fits = std::isfinite(*number) && check_bounds(reading, key, *number, value.origin, value.text);
  if (!std::isfinite(*number)) report_outside(reading, key, value.origin, value.text);
  return fits ? value : Number{};
}

Count read_count(Reading& reading, const KeySchema& key, const toml::Node& node) {
  if (!node.as_number()) return report_wrong_type(reading, key, node), Count{};
  const std::int64_t* whole = node.as_integer();
  const Origin origin = origin_of(reading, node);
  if (whole == nullptr) {
    report(reading, Code::NotWhole, origin,
           {"expected a whole number", typed(reading, node), accepted_by(key),
            fmt::format("write {} = {}", key.name, key.example)});
    return {};
  }
  const bool fits = check_bounds(reading, key, static_cast<double>(*whole), origin, typed(reading, node));
  return fits ? Count{static_cast<int>(*whole), true, origin} : Count{};
}

Flag read_flag(Reading& reading, const KeySchema& key, const toml::Node& node) {
  const bool* flag = node.as_boolean();
  if (flag == nullptr) return report_wrong_type(reading, key, node), Flag{};
  return {*flag, true, origin_of(reading, node)};
}

Text read_text(Reading& reading, const KeySchema& key, const toml::Node& node) {
  const std::string* text = node.as_string();
  if (text == nullptr) return report_wrong_type(reading, key, node), Text{};
  return {*text, true, origin_of(reading, node)};
}

std::vector<Text> read_text_list(Reading& reading, const KeySchema& key, const toml::Node& node) {
  std::vector<Text> texts;
  if (node.is_array()) {
    for (const auto& child : node.children)
      if (const Text text = read_text(reading, key, *child)) texts.push_back(text);
  } else if (const Text text = read_text(reading, key, node)) {
    texts.push_back(text);
  }
  return texts;
}

Text read_date(Reading& reading, const KeySchema& key, const toml::Node& node) {
  const bool is_date = node.kind == toml::Kind::LocalDate;
  if (!is_date && node.kind != toml::Kind::String) return report_wrong_type(reading, key, node), Text{};
  const std::string& text = node.text;

  // a date that exists, year first: the reader of TOML knows the calendar
  const toml::Document probe = is_date ? toml::Document{} : toml::parse("d = " + text);
  const bool exists =
      is_date || (text.size() == 10 && probe.ok() && probe.root && probe.root->find("d") != nullptr &&
                  probe.root->find("d")->kind == toml::Kind::LocalDate);
  if (exists) return {text, true, origin_of(reading, node)};
  report(reading, Code::BadDate, origin_of(reading, node),
         {"expected a date", typed(reading, node), "year, month, day",
          fmt::format("write {} = {}", key.name, key.example)});
  return {};
}

int read_word(Reading& reading, const KeySchema& key, const toml::Node& node) {
  const std::string* text = node.as_string();
  if (text == nullptr) return report_wrong_type(reading, key, node), -1;
  for (std::size_t i = 0; i < key.words.size(); ++i)
    if (key.words[i] == *text) return static_cast<int>(i);
  const auto meant = std::ranges::find(key.meant, *text, &std::pair<std::string, std::string>::first);
  // no word at random: what is accepted stands beside it
  const std::string remedy = meant != key.meant.end()
                                 ? fmt::format("write \"{}\"", meant->second)
                                 : suggestion(*text, key.words, "write one of the words that are accepted");
  report(reading, Code::UnknownWord, origin_of(reading, node),
         {"this word is not known here", typed(reading, node), accepted_by(key), remedy});
  return -1;
}

}  // namespace shimwright::file
