#include "units/quantity.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "base/diagnostic.h"
#include "base/utf8.h"
#include "units/format.h"
#include "units/number_scan.h"
#include "units/unit_expression.h"

namespace shimwright::units {
namespace {

constexpr double kLargest = 1e15;  // in SI; a thousand times the stiffest modulus, 1e12 Pa
constexpr std::size_t kLongestText = 200;

bool has_reference(Kind kind) {
  return kind == Kind::Pressure;
}

std::string expectation(Kind kind) {
  return fmt::format("expected {} with its unit", facts(kind).name);
}

std::string such_as(Kind kind) {
  return fmt::format("write {}, such as {}", facts(kind).name, examples(kind));
}

// -- the weight of a bottle
// ---------------------------------------------------------------------------------------

bool ends_in_weight(std::string_view unit) {
  return unit == "wt" || unit == "Wt" || unit == "WT" || unit == "W" || unit == "w" || unit == "weight";
}

/// "5 wt", "7.5W", "SAE 5W", "10W-40", "ISO VG 15"; the words of each, or "".
std::string bottle_weight_remedy(std::string_view text) {
  const bool grade = text.starts_with("ISO") || text.starts_with("VG");
  if (grade)
    return "write the mm2/s from the data sheet: an ISO VG grade gives the viscosity at 40 degC only to "
           "within 10 percent";
  const auto number = scan_number(text);
  std::string_view unit = number ? trimmed(text.substr(number->n_bytes)) : std::string_view{};
  unit = unit.substr(0, unit.find('-'));
  if (!text.starts_with("SAE") && !ends_in_weight(unit)) return "";
  return "write the mm2/s from the oil's data sheet with its temperature: the weight on a bottle is not a "
         "viscosity";
}

// -- gauge or absolute
// --------------------------------------------------------------------------------------------

struct ReferenceWord {
  std::string_view text;
  Reference reference;
};
constexpr ReferenceWord kReferenceWords[] = {
    {"(g)", Reference::Gauge},      {"(G)", Reference::Gauge},           {"(gauge)", Reference::Gauge},
    {" gauge", Reference::Gauge},   {"(a)", Reference::Absolute},        {"(A)", Reference::Absolute},
    {"(abs)", Reference::Absolute}, {"(absolute)", Reference::Absolute}, {" absolute", Reference::Absolute},
    {" abs", Reference::Absolute},
};

/// The unit text without "(g)" or "(a)".
struct Referenced {
  std::string_view unit;
  std::string_view word;  // empty when there is none
  Reference reference = Reference::None;
};

Referenced split_reference(std::string_view unit) {
  for (const ReferenceWord& one : kReferenceWords) {
    if (!unit.ends_with(one.text)) continue;
    const std::string_view rest = unit.substr(0, unit.size() - one.text.size());
    return {trimmed(rest), unit.substr(rest.size()), one.reference};
  }
  return {unit, {}, Reference::None};
}

// -- what was meant
// -----------------------------------------------------------------------------------------------

bool fits(const UnitValue& unit, Kind kind) {
  return unit.dimension == facts(kind).dimension && (!unit.only || *unit.only == kind) &&
         !unit.only_in_products;
}

/// The unit text with shop words put right, when that gives the wanted kind; else "". `reason` says what was
/// wrong.
std::string meant_unit(std::string_view text, const std::vector<UnitWord>& words, Kind kind,
                       std::string& reason) {
  for (std::size_t nth = 0; nth < 2; ++nth) {  // a word has two meanings at most
    std::string meant;
    std::string why;
    std::size_t copied = 0;
    for (const UnitWord& word : words) {
      std::size_t n_seen = 0;
      for (const ShopWord& shop : shop_words()) {
        if (shop.word != word.word || n_seen++ != nth) continue;
        meant += text.substr(copied, word.offset - copied);
        meant += shop.meant;
        copied = word.offset + word.word.size();
        if (!shop.reason.empty()) why = fmt::format("{} {}", shop.word, shop.reason);
      }
    }
    if (copied == 0) continue;
    meant += text.substr(copied);
    if (words.size() > 1) std::ranges::replace(meant, '-', '.');
    const auto value = unit_value(meant);
    if (!value || !fits(*value, kind)) continue;
    reason = why;
    return meant;
  }
  return "";
}

std::string nearest_unit(std::string_view word, Kind kind) {
  std::vector<std::string> same_kind, any;
  for (const Unit& unit : all_units()) {
    (unit.dimension == facts(kind).dimension ? same_kind : any).emplace_back(unit.name);
  }
  const std::string near = nearest_name(word, same_kind);
  return near.empty() ? nearest_name(word, any) : near;
}

// -- reading one
// --------------------------------------------------------------------------------------------------

/// Reads one quantity and keeps the whole text at hand for the faults.
class QuantityReader {
 public:
  QuantityReader(std::string_view text, Kind kind) : whole_(text), text_(trimmed(text)), kind_(kind) {}

  Result<Quantity, UnitFault> read() {
    if (text_.empty())
      return failure(fault_at(Fault::Empty, text_, expectation(kind_), "nothing", such_as(kind_)));
    if (text_.size() > kLongestText) {
      return failure(
          fault_at(Fault::NotANumber, text_, expectation(kind_), printable(text_, 30), such_as(kind_)));
    }
    const bool viscosity = kind_ == Kind::KinematicViscosity || kind_ == Kind::DynamicViscosity;
    if (viscosity) {
      if (std::string remedy = bottle_weight_remedy(text_); !remedy.empty()) {
        return failure(fault_at(Fault::BottleWeight, text_, expectation(kind_), typed(), std::move(remedy)));
      }
    }
    auto number = scan_number(text_);
    if (!number) return failure(number_fault(number.error()));
    number_ = *number;
    const std::string_view unit = trimmed(text_.substr(number_.n_bytes));
    if (unit.empty()) return without_unit();
    return with_unit(unit);
  }

 private:
  Result<Quantity, UnitFault> without_unit() {
    const bool plain = kind_ == Kind::Number || kind_ == Kind::Fraction;
    if (!plain)
      return failure(
          fault_at(Fault::UnitMissing, number_text(), expectation(kind_), "a bare number", unit_offer()));
    if (number_.is_fraction) return failure(no_fraction());
    return quantity(number_.value, Reference::None);
  }

  Result<Quantity, UnitFault> with_unit(std::string_view text) {
    if (kind_ == Kind::Number) {
      return failure(fault_at(Fault::WrongKind, text, "expected a plain number", typed(),
                              fmt::format("write \"{}\" without a unit", number_text())));
    }
    const Referenced referenced = split_reference(text);
    const std::string_view unit = referenced.unit;
    if (unit.empty())
      return failure(fault_at(Fault::UnitMissing, text, expectation(kind_), typed(), such_as(kind_)));

    const auto words = unit_words(unit);
    if (!words) return failure(unit_fault(unit, words.error()));
    const auto value = unit_value(*words);
    if (!value || !fits(*value, kind_)) {
      std::string reason;
      const std::string meant = meant_unit(unit, *words, kind_, reason);
      if (!meant.empty()) return failure(ambiguous(unit, meant, referenced.word, reason));
      if (!value) return failure(unit_fault(unit, value.error()));
      return failure(wrong_kind(unit, *value));
    }
    if (number_.is_fraction && unit != "in" && unit != "inch") return failure(no_fraction());

    const Reference reference = value->reference == Reference::None ? referenced.reference : value->reference;
    if (auto fault = reference_fault(text, unit, *value, referenced)) return failure(*fault);
    return quantity((number_.value + value->shift) * value->numerator / value->denominator, reference);
  }

  Result<Quantity, UnitFault> quantity(double si, Reference reference) {
    const bool below_zero = si < 0.0 && (kind_ == Kind::Temperature || reference == Reference::Absolute);
    if (below_zero) {
      const std::string_view zero =
          kind_ == Kind::Temperature ? "absolute zero, -273.15 degC" : "vacuum, 0 bar(a)";
      return failure(fault_at(
          Fault::OutOfRange, text_, fmt::format("expected {} above {}", facts(kind_).name, zero), typed(),
          kind_ == Kind::Temperature ? "check the sign" : "write (g) if it counts from the outside air"));
    }
    if (!std::isfinite(si) || std::abs(si) > kLargest) {
      return failure(fault_at(Fault::OutOfRange, text_,
                              fmt::format("expected {} that is possible in a machine", facts(kind_).name),
                              typed(), "check the exponent and the unit"));
    }
    return Quantity{si, reference, kind_, std::string(text_)};
  }

  // -- faults --

  std::string_view number_text() const { return text_.substr(0, number_.n_bytes); }
  std::string typed() const { return printable(text_, 40); }

  UnitFault fault_at(Fault fault, std::string_view part, std::string what, std::string got,
                     std::string remedy) const {
    const auto before = static_cast<std::size_t>(part.data() - whole_.data());
    return {fault,
            static_cast<int>(n_code_points(whole_.substr(0, before))),
            static_cast<int>(std::max<std::size_t>(n_code_points(part), 1)),
            std::move(what),
            std::move(got),
            "",
            std::move(remedy)};
  }

  UnitFault number_fault(UnitFault fault) const {
    const auto before = static_cast<std::size_t>(text_.data() - whole_.data());
    fault.offset += static_cast<int>(n_code_points(whole_.substr(0, before)));
    if (fault.fault == Fault::NotANumber) {
      fault.what = fmt::format("{} for {}", fault.what, facts(kind_).name);
      fault.remedy = fmt::format("{}: {}", fault.remedy, examples(kind_));
    }
    return fault;
  }

  /// `write "0.20 mm" (or "0.00787 in")`: the number as typed in the trade's unit.
  std::string unit_offer() const {
    const std::string_view number = number_text();
    if (has_reference(kind_))
      return fmt::format("write \"{0} bar(g)\" above the outside air, or \"{0} bar(a)\" above vacuum",
                         number);
    const std::string metric = unit_name_plain(kind_, System::Metric),
                      imperial = unit_name_plain(kind_, System::Imperial);
    const std::string offer = fmt::format("write \"{} {}\"", number, metric);
    const bool convertible = std::abs(number_.value) < kLargest;
    if (metric == imperial || !convertible) return offer;
    const double si = from_unit(number_.value, kind_, System::Metric);
    return fmt::format("{} (or \"{} {}\")", offer, number_text_plain(si, kind_, System::Imperial), imperial);
  }

  UnitFault no_fraction() const {
    return fault_at(Fault::NotANumber, number_text(), "a fraction is only allowed in inches", typed(),
                    fmt::format("write {:.4g} in place of {}", number_.value, number_text()));
  }

  UnitFault unit_fault(std::string_view unit, const UnitTextFault& inner) const {
    if (inner.fault != Fault::UnitUnknown) {
      return fault_at(inner.fault, unit.substr(std::min(inner.offset, unit.size()), inner.length), inner.what,
                      typed(), inner.remedy);
    }
    const std::string_view word = unit.substr(inner.offset, inner.length);
    const std::string near = nearest_unit(word, kind_);
    const std::string remedy = near.empty() ? such_as(kind_)
                                            : fmt::format("write \"{}\" if you mean that; write {} like {}",
                                                          near, facts(kind_).name, examples(kind_));
    return fault_at(Fault::UnitUnknown, word, fmt::format("there is no unit \"{}\"", printable(word, 30)), "",
                    remedy);
  }

  UnitFault ambiguous(std::string_view unit, const std::string& meant, std::string_view reference,
                      const std::string& reason) const {
    std::string remedy = fmt::format("write \"{} {}{}\"", number_text(), meant, reference);
    if (!reason.empty()) remedy += ": " + reason;
    return fault_at(Fault::UnitAmbiguous, unit, expectation(kind_), typed(), remedy);
  }

  UnitFault wrong_kind(std::string_view unit, const UnitValue& value) const {
    const std::string other = value.only ? std::string(facts(*value.only).name) : kinds_of(value.dimension);
    const std::string got = fmt::format("{}, {}", typed(), other.empty() ? "which no damper has" : other);
    return fault_at(Fault::WrongKind, unit, expectation(kind_), got, such_as(kind_));
  }

  std::optional<UnitFault> reference_fault(std::string_view text, std::string_view unit,
                                           const UnitValue& value, const Referenced& referenced) const {
    const bool twice = value.reference != Reference::None && referenced.reference != Reference::None;
    const bool said = value.reference != Reference::None || referenced.reference != Reference::None;
    if (twice) {
      return fault_at(Fault::UnitMalformed, text, "gauge or absolute is written twice", typed(),
                      fmt::format("write \"{} {}\"", number_text(), unit));
    }
    if (has_reference(kind_) && !said) {
      return fault_at(
          Fault::ReferenceMissing, text, "expected a pressure that says gauge or absolute", typed(),
          fmt::format("write \"{0} {1}(g)\" above the outside air, or \"{0} {1}(a)\" above vacuum",
                      number_text(), unit));
    }
    if (!has_reference(kind_) && said) {
      return fault_at(Fault::ReferenceUnwanted, text,
                      fmt::format("{} is neither gauge nor absolute", facts(kind_).name), typed(),
                      such_as(kind_));
    }
    return std::nullopt;
  }

  std::string_view whole_;
  std::string_view text_;
  Kind kind_;
  ScannedNumber number_;
};

}  // namespace

bool is_imperial(std::string_view text) {
  text = trimmed(text);
  const auto number = scan_number(text);
  if (!number) return false;
  const auto words = unit_words(split_reference(trimmed(text.substr(number->n_bytes))).unit);
  return words && std::ranges::any_of(*words, [](const UnitWord& word) {
           const Unit* unit = find_unit(word.word);
           return unit != nullptr && unit->imperial;
         });
}

Result<Quantity, UnitFault> parse(std::string_view text, Kind kind) {
  return read_past_commas(text, [&](std::string_view one) { return QuantityReader(one, kind).read(); });
}

}  // namespace shimwright::units
