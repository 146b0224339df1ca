// Cases of our own for each rule of TOML 1.0.0, read from its text; they need no suite beside the checkout.
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "toml_typed_json.h"

namespace shimwright::toml {
namespace {

using nlohmann::json;

/// `v = written` reads as a value of that type, written so in the suite's notation.
void check(const std::string& written, const std::string& type, const std::string& value) {
  const Document document = parse("v = " + written + "\n");
  ASSERT_TRUE(document.ok()) << written << ": " << document.faults[0].what;
  EXPECT_EQ(typed_json(*document.root)["v"], (json{{"type", type}, {"value", value}})) << written;
}

/// The whole text reads, and says the same as the JSON; plain JSON strings stand for text, numbers for
/// integers.
void check_tree(const std::string& text, const std::string& plain) {
  const Document document = parse(text);
  ASSERT_TRUE(document.ok()) << text << ": " << document.faults[0].what;
  const auto typed = [](const json& node, const auto& self) -> json {
    if (node.is_string()) return {{"type", "string"}, {"value", node}};
    if (node.is_number()) return {{"type", "integer"}, {"value", node.dump()}};
    json out = node.is_array() ? json::array() : json::object();
    for (const auto& item : node.items()) {
      if (node.is_array()) {
        out.push_back(self(item.value(), self));
      } else {
        out[item.key()] = self(item.value(), self);
      }
    }
    return out;
  };
  EXPECT_EQ(typed_json(*document.root), typed(json::parse(plain), typed)) << text;
}

void check_refused(const std::vector<std::string>& texts) {
  for (const std::string& text : texts) EXPECT_FALSE(parse(text).ok()) << text;
}

/// Each of them is refused behind `v = `, alone, in a list and in an inline table.
void check_no_value(const std::vector<std::string>& values) {
  for (const std::string& v : values) check_refused({"v = " + v, "v = [" + v + "]", "v = { a = " + v + " }"});
}

TEST(TomlRules, Integers) {
  check("0", "integer", "0");
  check("+0", "integer", "0");
  check("-0", "integer", "0");
  check("+99", "integer", "99");
  check("1_2_3", "integer", "123");
  check("9223372036854775807", "integer", "9223372036854775807");
  check("-9223372036854775808", "integer", "-9223372036854775808");
  check("0x7fff_FFFF_ffff_FFFF", "integer", "9223372036854775807");
  check("0xdeadbeef", "integer", "3735928559");
  check("0o0755", "integer", "493");
  check("0b0000", "integer", "0");
  check_no_value({"01",
                  "+01",
                  "-01",
                  "00",
                  "1_",
                  "_1",
                  "1__1",
                  "0x",
                  "0x_1",
                  "0x1_",
                  "0o8",
                  "0b2",
                  "+0x1",
                  "-0b1",
                  "0X1",
                  "0O7",
                  "0B1",
                  "0xg",
                  "1 000",
                  "--1",
                  "+-1",
                  "++1",
                  "1a",
                  "0_0x1",
                  "0_1",
                  "9223372036854775808",
                  "-9223372036854775809",
                  "0x8000000000000000",
                  "0x1__0"});
}

TEST(TomlRules, Floats) {
  check("1.0", "float", "1.0");
  check("-0.0", "float", "-0.0");
  check("+3.5", "float", "3.5");
  check("5e2", "float", "500.0");
  check("5E+02", "float", "500.0");
  check("6.25e-1", "float", "0.625");
  check("1_0.2_5", "float", "10.25");
  check("0e0", "float", "0.0");
  check("1e0_2", "float", "100.0");
  check("inf", "float", "inf");
  check("+inf", "float", "inf");
  check("-inf", "float", "-inf");
  check("nan", "float", "nan");
  check("+nan", "float", "nan");
  check("-nan", "float", "nan");
  check_no_value({".5",   "5.",    "+.5",      "-5.",  "5.e1",  "1e",   "1e+",   "1e1.0",
                  "01.5", "00.1",  "-01.0",    "1_.5", "1._5",  "1.5_", "_1.5",  "1__0.5",
                  "1e_1", "1e1_",  "1e1__0",   "1_e1", "1.2.3", "1..2", "Inf",   "NaN",
                  "INF",  "++1.0", "infinity", "in",   "na",    "1ee1", "0x1.8", "1.0f"});
}

TEST(TomlRules, Booleans) {
  check("true", "bool", "true");
  check("false", "bool", "false");
  check_no_value({"True", "FALSE", "t", "f", "tru", "truer", "falsey", "yes", "1true"});
}

TEST(TomlRules, DatesAndTimes) {
  check("1979-05-27T07:32:00Z", "datetime", "1979-05-27T07:32:00Z");
  check("1979-05-27t07:32:00z", "datetime", "1979-05-27T07:32:00Z");
  check("1979-05-27 07:32:00Z", "datetime", "1979-05-27T07:32:00Z");
  check("1979-05-27T00:32:00.999999-07:00", "datetime", "1979-05-27T00:32:00.999999-07:00");
  check("1979-05-27T00:32:00+23:59", "datetime", "1979-05-27T00:32:00+23:59");
  check("1979-05-27T07:32:00", "datetime-local", "1979-05-27T07:32:00");
  check("1979-05-27 07:32:00.5", "datetime-local", "1979-05-27T07:32:00.500");
  check("2000-02-29", "date-local", "2000-02-29");
  check("0000-01-01", "date-local", "0000-01-01");
  check("9999-12-31", "date-local", "9999-12-31");
  check("23:59:59", "time-local", "23:59:59");
  check("00:00:00.25", "time-local", "00:00:00.250");
  // RFC 3339 section 5.6: time-second runs to 60, for leap seconds
  check("1990-12-31T23:59:60Z", "datetime", "1990-12-31T23:59:60Z");
  check_no_value({"2023-02-29",
                  "1900-02-29",
                  "2023-02-30",
                  "2023-04-31",
                  "2023-00-10",
                  "2023-13-01",
                  "2023-01-00",
                  "2023-01-32",
                  "10000-01-01",
                  "999-01-01",
                  "2023-1-01",
                  "2023-01-1",
                  "2023-01",
                  "24:00:00",
                  "12:60:00",
                  "12:00:61",
                  "12:00",
                  "1:00:00",
                  "12:0:00",
                  "12:00:00.",
                  "12:00:00..1",
                  "12:00:00Z",
                  "2023-01-01T",
                  "2023-01-01T12",
                  "2023-01-01T12:00",
                  "2023-01-01T12:00Z",
                  "2023-01-01x12:00:00",
                  "2023-01-0112:00:00",
                  "2023-01-01T12:00:00+24:00",
                  "2023-01-01T12:00:00+01:60",
                  "2023-01-01T12:00:00+1:00",
                  "2023-01-01T12:00:00+01",
                  "2023-01-01T12:00:00+0100",
                  "2023-01-01T12:00:00 Z",
                  "2023-01-01  12:00:00",
                  "2023-01-01T12:00:00.Z",
                  "2023/01/01",
                  "2023-01-01T12:00:00ZZ"});
}

TEST(TomlRules, BasicStrings) {
  check(R"("")", "string", "");
  check(R"("a\b\t\n\f\r\"\\")", "string", "a\b\t\n\f\r\"\\");
  check(R"("\u00e4\U0001F527")", "string", "\u00e4\U0001F527");
  check("\"a\tb # c\"", "string", "a\tb # c");
  check(R"("\u0000")", "string", std::string(1, '\0'));
  check_no_value({"\"a",         "a\"",         "\"a\nb\"",    R"("\e")",         R"("\x41")",
                  R"("\a")",     R"("\ ")",     R"("\u123")",  R"("\U0011FFFF")", R"("\U00110000")",
                  R"("\ud800")", R"("\uDFFF")", R"("\u{41}")", R"("\'")",         R"("\/")",
                  R"("a"b")",    R"("a" "b")",  "\"\x01\"",    "\"\x7F\"",        "\"a\rb\"",
                  "\"\\"});
}

TEST(TomlRules, LiteralStrings) {
  check("''", "string", "");
  check(R"('C:\x\u00e4"')", "string", R"(C:\x\u00e4")");
  check_no_value({"'a", "a'", "'a\nb'", "'a'b'", "'\x1F'", "'\r'", "'''a''", "''''a''"});
}

TEST(TomlRules, MultilineBasicStrings) {
  check("\"\"\"\"\"\"", "string", "");
  check("\"\"\"\na\nb\"\"\"", "string", "a\nb");
  check("\"\"\"\r\na\r\nb\"\"\"", "string", "a\nb");
  check("\"\"\"\n\na\"\"\"", "string", "\na");
  check("\"\"\"a\\\n\n   \t b\"\"\"", "string", "ab");
  check("\"\"\"a \\  \t\r\n  b\"\"\"", "string", "a b");
  check("\"\"\"a\"\"b\"\"\"", "string", "a\"\"b");
  check("\"\"\"a\"\"\"\"", "string", "a\"");
  check("\"\"\"a\"\"\"\"\"", "string", "a\"\"");
  check("\"\"\"\"\"a\"\"\"", "string", "\"\"a");
  check("\"\"\"a\\\"\"\"\"", "string", "a\"");
  check("\"\"\"a\"\"\\\"\"\"\"", "string", "a\"\"\"");
  check("\"\"\"\\\\\"\"\"", "string", "\\");
  check_no_value({"\"\"\"", "\"\"\"a\"\"", "\"\"\"a\"\"\"\"\"\"", "\"\"\"a\\ b\"\"\"", "\"\"\"\\e\"\"\"",
                  "\"\"\"a\x01\"\"\"", "\"\"\"a\rb\"\"\"", "\"\"\"a\\\"\"\"", "\"\"\"a\\\r\"\"\"",
                  "\"\"\"\\ud900\"\"\""});
}

TEST(TomlRules, MultilineLiteralStrings) {
  check("''''''", "string", "");
  check("'''\na\\\n'b'''''", "string", "a\\\n'b''");
  check("'''a''b'''", "string", "a''b");
  check_no_value({"'''", "'''a''", "'''a''''''", "'''a\x0B'''", "'''a\rb'''"});
}

TEST(TomlRules, Keys) {
  check_tree("a-b_1 = 1\n1234 = 2\n-- = 3\n", R"({"a-b_1": 1, "1234": 2, "--": 3})");
  check_tree("\"\" = 1\n'x y' = 2\n\"\\u00e4\" = 3\n", "{\"\": 1, \"x y\": 2, \"\u00e4\": 3}");
  check_tree("a . \"b.c\" .'d' = 1\n3.14 = 2\n", R"({"a": {"b.c": {"d": 1}}, "3": {"14": 2}})");
  check_tree("true = 1\ninf = 2\n2024-02-29 = 3\n", R"({"true": 1, "inf": 2, "2024-02-29": 3})");
  check_tree("a.b = 1\nx = 2\na.c = 3\n", R"({"a": {"b": 1, "c": 3}, "x": 2})");
  check_refused({"= 1",
                 "a",
                 "a =",
                 "a = \n",
                 "a\n= 1",
                 "a =\n1",
                 "a b = 1",
                 "a.=1",
                 ".a = 1",
                 "a..b = 1",
                 "\u00e4 = 1",
                 "a! = 1",
                 "a = 1 b = 2",
                 "a == 1",
                 "a = 1 = 2",
                 "\"a\nb\" = 1",
                 "\"\"\"a\"\"\" = 1",
                 "'''a''' = 1",
                 "\"a = 1",
                 "a\" = 1",
                 "\"\\x\" = 1",
                 "a: 1",
                 "a[0] = 1",
                 "{ a = 1 }",
                 "\"a\" b = 1",
                 "a = 1\na = 2",
                 "a = 1\n\"a\" = 2",
                 "a = 1\na.b = 2",
                 "a.b = 1\na = 2",
                 "a.b.c = 1\na.b = 2",
                 "a = {}\na.b = 1",
                 "a = []\na.b = 1"});
}

TEST(TomlRules, Arrays) {
  check_tree("a = []\nb = [ 1 , 2 ,]\nc = [[1], [\"x\", 2]]\n",
             R"({"a": [], "b": [1, 2], "c": [[1], ["x", 2]]})");
  check_tree("a = [ # c ]\n\n 1 # x,\n , # y\n 2\n # z\n]\n", R"({"a": [1, 2]})");
  check_tree("a = [{b = 1}, {}]\n", R"({"a": [{"b": 1}, {}]})");
  check_refused({"a = [", "a = [1", "a = [1,", "a = ]", "a = [1 2]", "a = [,]", "a = [1,,]", "a = [,1]",
                 "a = [1]]", "a = [1] 2", "a = [1;2]", "a = [1}", "a = [b = 1]", "a = [[1]", "a = [1\nb = 2",
                 "a = [1]\n[a]", "a = [1]\n[[a]]", "a = [{}]\n[[a]]", "a = [{}]\n[a.b]"});
}

TEST(TomlRules, InlineTables) {
  check_tree("a = {}\nb = { }\nc = { x = 1, y.z = 2, y.w = 3, \"q r\" = [\n1\n] }\n",
             R"({"a": {}, "b": {}, "c": {"x": 1, "y": {"z": 2, "w": 3}, "q r": [1]}})");
  check_tree("a = { b = { c = { } }, d = '''x\ny''' }\n", R"({"a": {"b": {"c": {}}, "d": "x\ny"}})");
  check_refused({"a = {",
                 "a = { b = 1",
                 "a = { b = 1, }",
                 "a = { , }",
                 "a = { b = 1,, c = 2 }",
                 "a = { b = 1 c = 2 }",
                 "a = { b }",
                 "a = { b = }",
                 "a = { = 1 }",
                 "a = {\n}",
                 "a = { b = 1,\nc = 2 }",
                 "a = { b = 1\n}",
                 "a = { # c\n}",
                 "a = { b = 1, b = 2 }",
                 "a = { b = 1, b.c = 2 }",
                 "a = { b.c = 1, b = 2 }",
                 "a = { b = {}, b.c = 1 }",
                 "a = {}\n[a]",
                 "a = {}\n[a.b]",
                 "a = {}\n[[a.b]]",
                 "a = {}\na = {}",
                 "a.b = {}\n[a.b.c]",
                 "a = { b = {} }\na.b.c = 1",
                 "a = {} b = 1",
                 "a = { b: 1 }",
                 "a = { [b] }"});
}

TEST(TomlRules, Tables) {
  check_tree("[a]\n[ b . 'c d' ]\nx = 1\n[a.b]\n", R"({"a": {"b": {}}, "b": {"c d": {"x": 1}}})");
  check_tree("[a.b.c]\nx = 1\n[a]\ny = 2\n[a.b]\nz = 3\n",
             R"({"a": {"y": 2, "b": {"z": 3, "c": {"x": 1}}}})");
  check_tree("[f]\na.c = 1\na.t.s = 2\n[f.a.x]\ny = 3\n",
             R"({"f": {"a": {"c": 1, "t": {"s": 2}, "x": {"y": 3}}}})");
  check_tree("  [a] # c\n\tb = 1", R"({"a": {"b": 1}})");
  check_tree("['']\n[\"\".\"\"]\n", R"({"": {"": {}}})");
  check_refused({"[]",
                 "[",
                 "[a",
                 "a]",
                 "[a]]",
                 "[ [a] ]",
                 "[a.]",
                 "[.a]",
                 "[a..b]",
                 "[a b]",
                 "[a]b = 1",
                 "[a] [b]",
                 "[a\n]",
                 "[a # c\n]",
                 "[\u00e4]",
                 "[a#b]",
                 "[\"a\nb\"]",
                 "[\"\"\"a\"\"\"]",
                 "[a]\n[a]",
                 "[a.b]\n[a.b]",
                 "[a.b]\n[a]\n[a]",
                 "a = 1\n[a]",
                 "a = 1\n[a.b]",
                 "a.b = 1\n[a]",
                 "a.b.c = 1\n[a.b]",
                 "[a]\nb = 1\n[a.b]",
                 "[a]\nb = 1\n[a.b.c]",
                 "[a]\nb.c = 1\n[a.b]",
                 "[a.b]\n[a]\nb.c = 1",
                 "[a.b.c]\n[a]\nb.c.d = 1",
                 "[a]=1",
                 "[a].b = 1",
                 "[\"a\\x\"]"});
}

TEST(TomlRules, ArraysOfTables) {
  check_tree("[[a]]\nx = 1\n[a.t]\ny = 2\n[[a.l]]\n[[a.l]]\n[[a]]\n[[ a . l ]]\nz = 3\n",
             R"({"a": [{"x": 1, "t": {"y": 2}, "l": [{}, {}]}, {"l": [{"z": 3}]}]})");
  check_tree("[[a.b]]\n[a]\nx = 1\n", R"({"a": {"b": [{}], "x": 1}})");
  check_tree("[[a]]\nb.c = 1\n[[a]]\nb.c = 2\n", R"({"a": [{"b": {"c": 1}}, {"b": {"c": 2}}]})");
  check_tree("[f]\na.c = 1\n[[f.a.s]]\n", R"({"f": {"a": {"c": 1, "s": [{}]}}})");
  check_refused({"[[]]",
                 "[[a]",
                 "[[a",
                 "[a]]",
                 "[[a] ]",
                 "[ [a]]",
                 "[[a]]]",
                 "[[a]] b = 1",
                 "[[a\n]]",
                 "[[a.]]",
                 "[[a]]\n[a]",
                 "[a]\n[[a]]",
                 "a = 1\n[[a]]",
                 "[[a.b]]\n[[a]]",
                 "[a.b]\n[[a]]",
                 "[a.b]\n[[a.b]]",
                 "[[a]]\n[a.b]\n[a.b]",
                 "[[a]]\n[a.b]\n[[a.b]]",
                 "[[a]]\n[[a.b]]\n[a.b]",
                 "[[a.b]]\n[a]\nb = 1",
                 "[[a.b]]\n[a]\nb.c = 1",
                 "a = [{}]\n[[a]]",
                 "a.b = []\n[[a.b]]",
                 "[a]\nb.c = 1\n[[a.b]]"});
}

TEST(TomlRules, CommentsAndBlanks) {
  check_tree("", "{}");
  check_tree(" \t\n\r\n# c", "{}");
  check_tree("# \u00e4\tx\r\na = 1#c\r\n", R"({"a": 1})");
  check_refused({"# \x01", "# \x7F", "# a\rb", "a = 1 \r", "\r", "\x0C",
                 "\x0B"
                 "a = 1",
                 "a = 1\u00a0", "\u3000a = 1",
                 "a =\u00a0"
                 "1",
                 "// c", "a = 1 // c", "; c", "\u2028"});
}

TEST(TomlRules, Encoding) {
  check_tree(
      "\xEF\xBB\xBF"
      "a = 1\n",
      R"({"a": 1})");
  check_tree("a = '\xEF\xBB\xBF'\n", "{\"a\": \"\xEF\xBB\xBF\"}");
  check_tree("a = '\xF4\x8F\xBF\xBF'\n", "{\"a\": \"\xF4\x8F\xBF\xBF\"}");
  const std::string null(1, '\0');
  check_refused({null,
                 "a = 1" + null,
                 "# " + null,
                 "a = '" + null + "'",
                 " \xEF\xBB\xBF"
                 "a = 1",
                 "\xEF\xBB\xBF\xEF\xBB\xBF",
                 "\xEF\xBB"
                 "a = 1",
                 "\xFF\xFE"
                 "a",
                 "\xFE\xFF"
                 "a",
                 "# \x80",
                 "# \xC0\xAF",
                 "# \xC3",
                 "# \xE0\x80\xAF",
                 "# \xED\xA0\x80",
                 "# \xF0\x80\x80\xAF",
                 "# \xF4\x90\x80\x80",
                 "# \xF5\x80\x80\x80",
                 "a = '\xC3'",
                 "a = \"\xE4\"",
                 "a = '''\xFF'''",
                 "\xC3 = 1"});
}

}  // namespace
}  // namespace shimwright::toml
