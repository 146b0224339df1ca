#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "base/utf8.h"
#include "units/format.h"
#include "units/quantity.h"
#include "units/stack_text.h"
#include "units/unit_table.h"

namespace shimwright::units {
namespace {

Kind any_kind() {
  return all_kinds()[*rc::gen::inRange<std::size_t>(0, all_kinds().size())].kind;
}

/// A value of a magnitude that the kind can have, in its trade unit.
double any_value(Kind kind) {
  const double mantissa = *rc::gen::inRange(1000, 9999) / 1000.0;
  const double magnitude = mantissa * std::pow(10.0, *rc::gen::inRange(-3, 4));
  const bool negative = *rc::gen::arbitrary<bool>() && kind != Kind::Temperature && kind != Kind::Pressure;
  return negative ? -magnitude : magnitude;
}

RC_GTEST_PROP(Format, WhatIsPrintedReadsBackWithinItsDigits, ()) {
  const Kind kind = any_kind();
  const System system = *rc::gen::arbitrary<bool>() ? System::Metric : System::Imperial;
  const double si = from_unit(any_value(kind), kind, system);
  const FormatOptions options{.reference = kind == Kind::Pressure ? Reference::Absolute : Reference::None,
                              .sign = *rc::gen::arbitrary<bool>()};
  const double unit_step = from_unit(1.0, kind, system) - from_unit(0.0, kind, system);
  // three figures round by half a unit in the third, 0.5 %; kinds with one decimal by 0.05 of their unit
  const double tolerance =
      std::max(0.0051 * std::abs(si - from_unit(0.0, kind, system)), 0.051 * std::abs(unit_step));
  for (const bool plain : {false, true}) {
    const std::string text =
        plain ? format_plain(si, kind, system, options) : format(si, kind, system, options);
    const auto quantity = parse(text, kind);
    if (!quantity) RC_FAIL(text + ": " + quantity.error().what);
    RC_ASSERT(std::abs(quantity->si - si) <= tolerance);
    RC_ASSERT(quantity->reference == options.reference);
  }
}

RC_GTEST_PROP(Format, PlainTextIsAscii, ()) {
  const Kind kind = any_kind();
  const System system = *rc::gen::arbitrary<bool>() ? System::Metric : System::Imperial;
  const std::string text = format_plain(from_unit(any_value(kind), kind, system), kind, system);
  for (const char c : text) RC_ASSERT(c >= 0x20 && c < 0x7F);
}

RC_GTEST_PROP(Format, TheTradeUnitConvertsThereAndBack, ()) {
  const Kind kind = any_kind();
  const double value = any_value(kind);
  for (const System system : {System::Metric, System::Imperial}) {
    const double there_and_back = to_unit(from_unit(value, kind, system), kind, system);
    RC_ASSERT(std::abs(there_and_back - value) <=
              1e-10 + 1e-13 * std::abs(value));  // an offset of 459.67 costs digits
  }
}

RC_GTEST_PROP(Quantity, AUnitIsReadInItsOwnKindsAndRefusedInAllOthers, ()) {
  const Unit& unit = all_units()[*rc::gen::inRange<std::size_t>(0, all_units().size())];
  const Kind kind = any_kind();
  const auto quantity = parse("3 " + std::string(unit.name), kind);
  const bool own = unit.dimension == facts(kind).dimension && (!unit.only || *unit.only == kind);
  const bool said = unit.reference != Reference::None;
  const bool readable =
      own && kind != Kind::Number && !unit.only_in_products && said == (kind == Kind::Pressure);
  RC_ASSERT(quantity.has_value() == readable);
}

RC_GTEST_PROP(Quantity, ScalesWithItsNumber, ()) {
  const Unit& unit = all_units()[*rc::gen::inRange<std::size_t>(0, all_units().size())];
  RC_PRE(unit.shift == 0.0 && !unit.only_in_products);
  const int n = *rc::gen::inRange(1, 1000);
  for (const KindFacts& one : all_kinds()) {
    const auto single = parse("1 " + std::string(unit.name), one.kind);
    const auto many = parse(std::to_string(n) + " " + std::string(unit.name), one.kind);
    RC_ASSERT(single.has_value() == many.has_value());
    if (single) RC_ASSERT(std::abs(many->si / single->si / n - 1.0) < 1e-14);  // two roundings
  }
}

/// A fault lies inside the text it speaks of, and says what to do.
void check_fault(std::string_view text, const UnitFault& fault) {
  RC_ASSERT(fault.offset >= 0);
  RC_ASSERT(fault.length >= 1);
  RC_ASSERT(static_cast<std::size_t>(fault.offset) <= n_code_points(text));
  RC_ASSERT(!fault.what.empty());
  RC_ASSERT(!fault.remedy.empty());
}

void check_any_text(const std::string& text) {
  for (const KindFacts& one : all_kinds()) {
    if (const auto quantity = parse(text, one.kind); !quantity) check_fault(text, quantity.error());
    if (const auto list = parse_list(text, one.kind); !list) check_fault(text, list.error());
  }
  if (const auto run = parse_shims(text); !run) check_fault(text, run.error());
}

RC_GTEST_PROP(Quantity, AnyBytesGiveAValueOrAFaultInsideTheText, (const std::string& bytes)) {
  check_any_text(bytes);
}

RC_GTEST_PROP(Quantity, TextsCloseToAQuantityGiveAValueOrAFaultInsideTheText, ()) {
  const std::vector<std::string> pieces{
      "1",   "0.5", "-",   "/",      "1/8", " ",    ".",     "*",    "·",   "mm", "N",    "lb", "degC",
      "(g)", "(",   ")",   "^",      "2",   "²",    ",",     ";",    "x",   "×",  "e",    "e9", "K",
      "\"",  "wt",  "SAE", "\u2009", "µm",  "\xFF", "fl oz", "psig", "mPa", "%",  "gauge"};
  std::string text;
  const int n_pieces = *rc::gen::inRange(0, 9);
  for (int i = 0; i < n_pieces; ++i) text += *rc::gen::elementOf(pieces);
  check_any_text(text);
}

}  // namespace
}  // namespace shimwright::units
