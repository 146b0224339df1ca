#include <limits>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "toml/document.h"
#include "toml/quoted.h"

namespace shimwright::toml {
namespace {

using testing::HasSubstr;

/// The text has just one fault, at that place, and its words hold these.
void check(const std::string& text, int line, int column, const std::string& what,
           const std::string& remedy) {
  const Document document = parse(text);
  ASSERT_EQ(document.faults.size(), 1u) << text;
  const Fault& fault = document.faults[0];
  EXPECT_EQ(fault.line, line) << text;
  EXPECT_EQ(fault.column, column) << text;
  EXPECT_LE(fault.begin, fault.end);
  EXPECT_LE(fault.end, text.size());
  EXPECT_THAT(fault.what, HasSubstr(what)) << text;
  EXPECT_THAT(fault.remedy, HasSubstr(remedy)) << text;
  EXPECT_FALSE(fault.expected.empty());
}

TEST(TomlFaults, AQuantityWithoutQuotesIsOfferedInQuotes) {
  check("t = 0.15 mm", 1, 5, "quantity without quotes", R"(write "0.15 mm")");
  check("t = 5 \u00d7 3", 1, 5, "quantity without quotes", "write \"5 \u00d7 3\"");
  check("t = 0.15 \u00b5m # thin", 1, 5, "quantity without quotes", "write \"0.15 \u00b5m\"");
  check("t = 3mm", 1, 5, "quantity without quotes", R"(write "3mm")");
  check("t = \u00b10.02 mm", 1, 5, "quantity without quotes", "write \"\u00b10.02 mm\"");
  check("t = 1/2 in", 1, 5, "quantity without quotes", R"(write "1/2 in")");
  check("stack = [\n  \"3 x 24 x 0.15\",\n  2 x 20 x 0.1,\n]", 3, 3, "quantity without quotes",
        R"(write "2 x 20 x 0.1")");
  check("disc = { od = 24 mm }", 1, 15, "quantity without quotes", R"(write "24 mm")");
}

TEST(TomlFaults, ADecimalCommaIsOfferedAsAPoint) {
  check("t = 0,15", 1, 5, "comma inside a number", "write 0.15");
  check("t = 0,15 mm", 1, 5, "comma inside a number", R"(write "0.15 mm")");
}

TEST(TomlFaults, AMissingQuoteIsOffered) {
  check("t = \"0.15 mm\n", 1, 5, "not closed", R"(write "0.15 mm")");
  check("t = \"0.15 mm  # thin\n", 1, 5, "not closed", R"(write "0.15 mm")");
  check("t = '0.15 mm\n", 1, 5, "not closed", "write '0.15 mm'");
  check("t = 0.15 mm\"\n", 1, 5, "quote before the text", R"(write "0.15 mm")");
  check("a = 1\nt = \"\"\"\nabc\n", 2, 5, "before the file ends", "put \"\"\"");
}

TEST(TomlFaults, AStrayOrMissingCommaIsPointedAt) {
  check("a = 1,", 1, 6, "stray comma", "delete the comma");
  check("a = [1,, 2]", 1, 8, "comma without a value", "delete the comma");
  check("a = [1 2]", 1, 7, "no comma", "put a comma");
  check("a = { b = 1, }", 1, 12, "comma before the closing }", "delete the comma");
  check("a = { b = 1 c = 2 }", 1, 11, "an = inside a value", "own line");
  check("a = { b = \"x\" c = 2 }", 1, 15, "no comma between two entries", "put a comma");
}

TEST(TomlFaults, AColonIsOfferedAsEquals) {
  check("key: 3 mm", 1, 4, "colon", R"(write key = "3 mm")");
  check("key: \"x\"", 1, 4, "colon", R"(write key = "x")");
  check("a = { od: \"x\" }", 1, 9, "colon", "write =");
}

TEST(TomlFaults, AKeyThatIsNoneIsExplained) {
  check("face shim = 1", 1, 1, "not a plain key", R"("face shim")");
  check("L\u00e4nge = 1", 1, 1, "not a plain key", "\"L\u00e4nge\"");
  check("\u00d8 = 1", 1, 1, "not a plain key", "write \"\u00d8\"");
  check("just words", 1, 6, "no = after just", "#");
  check("key", 1, 1, "has no value", "write key =");
  check("key =", 1, 6, "no value", "write the value");
  check("= 1", 1, 1, "key is missing", "write a key");
  check("a..b = 1", 1, 3, "dot without a key", "delete the dot");
  check("a = 1 b = 2", 1, 5, "an = inside a value", "own line");
  check("a == 1", 1, 4, "second =", "delete");
}

TEST(TomlFaults, AHeaderThatIsNoneIsExplained) {
  check("[a", 1, 1, "not closed", "put ]");
  check("[[a]", 1, 1, "not closed", "put ]]");
  check("[]", 1, 2, "key is missing", "write a key");
  check("[a] b = 1", 1, 5, "more text", "own line");
}

TEST(TomlFaults, ADoubleDefinitionNamesTheFirstLine) {
  check("a = 1\n\na = 2", 3, 1, "already defined on line 1", "line 1");
  check("[a]\nb = 1\n[a]\nb = 2", 3, 2, "already defined on line 1", "line 1");
  check("a.b = 1\na.b = 2", 2, 1, "a.b is already defined on line 1", "line 1");
  check("a = 1\n[a.b]", 2, 2, "not a table", "line 1");
  check("a.b = 1\n[a]", 2, 2, "already defined on line 1", "line 1");
  check("a = { b = 1 }\n[a.c]", 2, 2, "already defined on line 1", "line 1");
  check("a = []\n[[a]]", 2, 3, "not a table", "line 1");
  check("[[a]]\n[a]", 2, 2, "not a table", "line 1");
  check("[a.b]\n[a]\nb.c = 1", 3, 1, "already defined on line 1", "line 1");
}

TEST(TomlFaults, AWordOfAnotherFormatIsTranslated) {
  check("a = True", 1, 5, "True", "write true");
  check("a = no", 1, 5, "no", "write false");
  check("a = -Inf", 1, 5, "Inf", "write -inf");
  check("a = null", 1, 5, "null", "remove the whole line");
  check("a = shim", 1, 5, "text without quotes", R"(write "shim")");
}

TEST(TomlFaults, ANumberWithASlipIsExplained) {
  check("a = 007", 1, 5, "leading zeros", "part number");
  check("a = .5", 1, 5, "before the point", "write 0.5");
  check("a = 5.", 1, 5, "after the point", "write 5.0");
  check("a = 1__0", 1, 5, "underscore", "leave the underscore out");
  check("a = 9223372036854775808", 1, 5, "64 bits", "decimal");
  check("a = 0xG", 1, 5, "not a number", "correct");
  check("a = 2023-02-30", 1, 5, "no such date", "correct the date");
  check("a = 10-24 UNC", 1, 5, "quantity", R"(write "10-24 UNC")");
}

TEST(TomlFaults, AnEscapeThatIsNoneIsExplained) {
  check(R"(a = "C:\parts")", 1, 8, R"(\p)", "single quotes");
  check(R"(a = "\ud800")", 1, 6, "not a character", "type the character");
  check(R"(a = "\u12")", 1, 6, "too short", "leading zeros");
}

TEST(TomlFaults, ByteTroubleIsFoundOnceALine) {
  check("a = 1\rb = 2", 1, 6, "carriage return", "line ending");
  check("a = 1 # \x01\x02", 1, 9, "U+0001", "delete it");
  check("# \xC0\xAF\na = 1", 1, 3, "0xC0", "UTF-8");
  check(
      "\xFF\xFE"
      "a",
      1, 1, "UTF-16", "UTF-8");
  check(std::string("a = \"x\0\"", 8), 1, 7, "U+0000", "delete it");
}

TEST(TomlFaults, ColumnsCountCharactersNotBytes) {
  check("\"\u00e4\u00f6\U0001F527\" = 3 mm", 1, 9, "quantity", "mm");
}

TEST(TomlFaults, AnUnclosedListDoesNotSwallowTheRest) {
  const Document document = parse("a = [1, 2\nb = 3 mm\n[c]\nd = 1\n");
  ASSERT_EQ(document.faults.size(), 2u);
  EXPECT_EQ(document.faults[0].line, 1);
  EXPECT_EQ(document.faults[1].line, 2);
  EXPECT_NE(document.at("c.d"), nullptr);
}

TEST(TomlFaults, AllFaultsOfATextComeAtOnceAndInOrder) {
  const Document document = parse("a = 1 mm\n[t]\nb: 2\nc = [3 mm, 4 mm]\na = 1\na = 2\n");
  std::vector<int> lines;
  for (const Fault& fault : document.faults) lines.push_back(fault.line);
  EXPECT_EQ(lines, (std::vector<int>{1, 3, 4, 4, 6}));
  EXPECT_EQ(document.at("a")->kind, Kind::Faulty);
  EXPECT_EQ(*document.at("t.a")->as_integer(), 1);
}

TEST(TomlLimits, ReadingStopsAtTheLimitOfFaults) {
  std::string text;
  for (int i = 0; i < 500; ++i) text += "x y\n";
  EXPECT_EQ(parse(text).faults.size(), 100u);
  EXPECT_EQ(parse(text, {.max_faults = 7}).faults.size(), 7u);
}

TEST(TomlLimits, DeepNestingIsRefusedNotFollowed) {
  std::string dotted = "a";
  for (int i = 0; i < 100'000; ++i) dotted += ".a";
  for (const std::string& text : {"a = " + std::string(100'000, '['), "a = " + std::string(100'000, '{'),
                                  dotted + " = 1", "[" + dotted + "]", "[[" + dotted + "]]"}) {
    const Document document = parse(text);
    ASSERT_FALSE(document.ok());
    EXPECT_EQ(document.faults.size(), 1u);
  }
}

TEST(TomlLimits, ALargeTextIsRefusedUnread) {
  EXPECT_TRUE(parse("a = 12345", {.max_bytes = 9}).ok());
  EXPECT_FALSE(parse("a = 123456", {.max_bytes = 9}).ok());
}

TEST(TomlTree, SpansAreTheBytesOfWhatTheyName) {
  const Document document =
      parse("# head\n[piston.rebound]\nshim.\"face od\" = \"24 mm\" # x\nstack = [\"a\", { n = 3 }]\n");
  ASSERT_TRUE(document.ok());
  const Node* od = document.at("piston.rebound.shim.\"face od\"");
  ASSERT_NE(od, nullptr);
  EXPECT_EQ(document.slice(od->span), "\"24 mm\"");
  EXPECT_EQ(document.slice(od->key_span), "\"face od\"");
  EXPECT_EQ(document.slice(od->statement), "shim.\"face od\" = \"24 mm\"");
  EXPECT_EQ(path_of(*od), "piston.rebound.shim.\"face od\"");
  EXPECT_EQ(document.slice(document.at("piston.rebound")->header), "[piston.rebound]");
  EXPECT_EQ(document.slice(document.at("piston.rebound.stack[1]")->span), "{ n = 3 }");
  EXPECT_EQ(path_of(*document.at("piston.rebound.stack[1].n")), "piston.rebound.stack[1].n");
  EXPECT_EQ(document.at("piston.rebound.stack[2]"), nullptr);
  EXPECT_EQ(document.at("piston.nothing"), nullptr);
  const LineColumn place = document.place(od->span.begin);
  EXPECT_EQ(place.line, 3);
  EXPECT_EQ(place.column, 18);
}

TEST(TomlTree, EntriesKeepTheOrderOfTheFile) {
  const Document document = parse("z = 1\na = 2\nm = 3\n");
  std::string order;
  for (const auto& child : document.root->children) order += child->key;
  EXPECT_EQ(order, "zam");
}

TEST(TomlTree, ValuesComeByKindAndOnlyByKind) {
  const Document document = parse("i = 3\nf = 1.5\ns = \"x\"\nb = true\n");
  EXPECT_EQ(document.at("i")->as_number(), 3.0);
  EXPECT_EQ(document.at("f")->as_number(), 1.5);
  EXPECT_EQ(document.at("s")->as_number(), std::nullopt);
  EXPECT_EQ(*document.at("s")->as_string(), "x");
  EXPECT_TRUE(*document.at("b")->as_boolean());
  EXPECT_EQ(document.at("i")->as_string(), nullptr);
  EXPECT_EQ(document.at("f")->as_integer(), nullptr);
}

TEST(TomlTree, AFloatBeyondTheRangeRoundsAsTheStandardDoes) {
  const Document document =
      parse("a = 1e400\nb = -1e400\nc = 1e-400\nd = 0e99999999999999999999\ne = 1e99999999999999999999\n");
  ASSERT_TRUE(document.ok());
  const double infinity = std::numeric_limits<double>::infinity();
  EXPECT_EQ(document.at("a")->number, infinity);
  EXPECT_EQ(document.at("b")->number, -infinity);
  EXPECT_EQ(document.at("c")->number, 0.0);
  EXPECT_EQ(document.at("d")->number, 0.0);
  EXPECT_EQ(document.at("e")->number, infinity);
}

TEST(TomlPath, WhatIsNoPathIsRefused) {
  for (const char* path : {"a.", ".a", "[0]", "a[", "a[]", "a[-1]", "a[x]", "a b", "a[0]b", "\"a"}) {
    EXPECT_FALSE(parse_path(path)) << path;
  }
  EXPECT_EQ(parse_path("a.\"b.c\"[2][0].d")->size(), 5u);
}

TEST(TomlQuote, QuotedTextReadsBackAsItself) {
  const std::string odd = "a\"b\\c\n\t\r\x01\x7F\u00e4";
  EXPECT_EQ(*parse("v = " + quote(odd)).at("v")->as_string(), odd);
  EXPECT_EQ(quote("0.15 mm"), "\"0.15 mm\"");
}

}  // namespace
}  // namespace shimwright::toml
