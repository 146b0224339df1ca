// The same valid texts read by another parser, written by others: both must say the same.
#include <cmath>
#include <sstream>
#include <string>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>
#include <toml++/toml.h>

#include "toml/document.h"
#include "toml/quoted.h"

namespace shimwright::toml {
namespace {

template <typename T>
std::string printed(const T& value) {
  std::ostringstream out;
  out << value;
  return out.str();
}

/// Same kind and value, all the way down. Dates are compared as the other parser prints them.
bool agrees(const Node& ours, const ::toml::node& other) {
  switch (ours.kind) {
    case Kind::Table:
      if (!other.is_table() || other.as_table()->size() != ours.children.size()) return false;
      for (const auto& child : ours.children) {
        const ::toml::node* entry = other.as_table()->get(child->key);
        if (!entry || !agrees(*child, *entry)) return false;
      }
      return true;
    case Kind::Array:
      if (!other.is_array() || other.as_array()->size() != ours.children.size()) return false;
      for (std::size_t i = 0; i < ours.children.size(); ++i) {
        if (!agrees(*ours.children[i], *other.as_array()->get(i))) return false;
      }
      return true;
    case Kind::String:
      return other.is_string() && other.as_string()->get() == ours.text;
    case Kind::Integer:
      return other.is_integer() && other.as_integer()->get() == ours.integer;
    case Kind::Boolean:
      return other.is_boolean() && other.as_boolean()->get() == ours.boolean;
    case Kind::Float: {
      if (!other.is_floating_point()) return false;
      const double value = other.as_floating_point()->get();
      return value == ours.number || (std::isnan(value) && std::isnan(ours.number));
    }
    case Kind::LocalDate:
      return other.is_date() && printed(other.as_date()->get()) == ours.text;
    case Kind::LocalTime:
      return other.is_time() && printed(other.as_time()->get()) == ours.text;
    case Kind::LocalDateTime:
    case Kind::OffsetDateTime:
      return other.is_date_time() && printed(other.as_date_time()->get()) == ours.text;
    case Kind::Faulty:
      return false;
  }
  return false;
}

rc::Gen<std::string> number_text() {
  return rc::gen::oneOf(
      rc::gen::map(rc::gen::arbitrary<std::int64_t>(), [](std::int64_t v) { return std::to_string(v); }),
      rc::gen::map(rc::gen::arbitrary<double>(),
                   [](double v) {
                     std::ostringstream out;
                     out.precision(17);
                     out << std::scientific << v;
                     return out.str();
                   }),
      rc::gen::element<std::string>("0xDEAD_beef", "0o17", "0b1_0", "1_000", "+7", "-0", "-0.0", "1e5",
                                    "6.26E-3_4", "inf", "-inf", "nan"));
}

rc::Gen<std::string> value_text(int depth) {
  const auto text =
      rc::gen::map(rc::gen::arbitrary<std::string>(), [](const std::string& s) { return quote(s); });
  const auto other = rc::gen::element<std::string>("true", "false", "2024-02-29", "07:32:00",
                                                   "1979-05-27T07:32:00", "1979-05-27T00:32:00-07:00",
                                                   "'C:\\x'", "\"\"\"\na\\\n   b\"\"\"\"\"", "'''x''y'''");
  if (depth == 0) return rc::gen::oneOf(number_text(), text, other);
  const auto list = rc::gen::map(rc::gen::container<std::vector<std::string>>(value_text(depth - 1)),
                                 [](const std::vector<std::string>& all) {
                                   std::string out = "[ ";
                                   for (const auto& v : all) out += v + ",\n ";
                                   return out + "]";
                                 });
  const auto table = rc::gen::map(
      rc::gen::pair(value_text(depth - 1), value_text(depth - 1)),
      [](const auto& two) { return "{ a.b = " + two.first + ", \"c d\" = " + two.second + " }"; });
  return rc::gen::oneOf(number_text(), text, other, list, table);
}

RC_GTEST_PROP(TomlOracle, AnotherParserReadsTheSameFromAnyValue, ()) {
  const std::string text = "v = " + *value_text(2) + "\n[t.u]\nw = " + *value_text(1) +
                           "\n[[t.l]]\nx.y = " + *number_text() + "\n[[t.l]]\n[t.l.m]\n";
  const Document ours = parse(text);
  RC_ASSERT(ours.ok());
  RC_ASSERT(agrees(*ours.root, ::toml::parse(text)));
}

}  // namespace
}  // namespace shimwright::toml
