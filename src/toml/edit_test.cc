#include "toml/edit.h"

#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace shimwright::toml {
namespace {

void check(const Edited& edited, const std::string& wanted) {
  ASSERT_TRUE(edited.has_value()) << edited.error().what << "; " << edited.error().remedy;
  EXPECT_EQ(*edited, wanted);
}

const char* const kJob = R"(# my job
name = "test"   # keep

[piston.rebound]
od      = "24 mm"
stack   = [
  "3 x 24",  # face
  "2 x 20"   # last
]

# left leg
[[legs]]
side = "left"

# right leg
[[legs]]
side = "right"
[legs.spring]
rate = "9 N/mm"
)";

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return text.replace(at, from.size(), to);
}

TEST(TomlEdit, AValueIsReplacedAndNothingElse) {
  const Document job = parse(kJob);
  check(set_value(job, "piston.rebound.od", "\"25 mm\""), replaced(kJob, "\"24 mm\"", "\"25 mm\""));
  check(set_value(job, "piston.rebound.stack[1]", "\"1 x 18\""), replaced(kJob, "\"2 x 20\"", "\"1 x 18\""));
  check(set_value(job, "legs[1].spring.rate", "\"8 N/mm\""), replaced(kJob, "\"9 N/mm\"", "\"8 N/mm\""));
}

TEST(TomlEdit, ANewKeyFollowsTheLastEntryOfItsTableInItsStyle) {
  const Document job = parse(kJob);
  check(set_value(job, "piston.rebound.port", "\"x\""),
        replaced(kJob, "# last\n]\n", "# last\n]\nport    = \"x\"\n"));
  check(set_value(job, "rider", "\"x\""), replaced(kJob, "# keep\n", "# keep\nrider = \"x\"\n"));
  check(set_value(job, "legs[0].oil", "\"x\""), replaced(kJob, "\"left\"\n", "\"left\"\noil = \"x\"\n"));
  check(set_value(parse("[a]\r\n  b=1\r\n[c]\r\n"), "a.d", "2"), "[a]\r\n  b=1\r\n  d=2\r\n[c]\r\n");
  check(set_value(parse("a = { b = 1 }\n"), "a.c", "2"), "a = { b = 1, c = 2 }\n");
  check(set_value(parse("a = {}\n"), "a.c", "2"), "a = { c = 2 }\n");
  check(set_value(parse("a.b = 1\nx = 1\n"), "a.c", "2"), "a.b = 1\na.c = 2\nx = 1\n");
  check(set_value(parse("[a]\n[b]\n"), "a.c", "2"), "[a]\nc = 2\n[b]\n");
  check(set_value(parse("a = 1"), "b", "2"), "a = 1\nb = 2");
  check(set_value(parse(""), "b", "2"), "b = 2\n");
}

TEST(TomlEdit, AMissingTableGetsAHeaderWhereItBelongs) {
  const Document job = parse(kJob);
  check(set_value(job, "legs[0].spring.rate", "\"7 N/mm\""),
        replaced(kJob, "# right leg", "[legs.spring]\nrate = \"7 N/mm\"\n\n# right leg"));
  check(set_value(job, "oil.name", "\"x\""), std::string(kJob) + "\n[oil]\nname = \"x\"\n");
  check(set_value(job, "piston.x", "1"),
        replaced(kJob, "[piston.rebound]", "[piston]\nx = 1\n\n[piston.rebound]"));
  check(set_value(parse("[a]\nb = 1\n"), "c", "2"), "c = 2\n\n[a]\nb = 1\n");
}

TEST(TomlEdit, ARemovedKeyTakesItsLineOnly) {
  const Document job = parse(kJob);
  check(remove_key(job, "name"), replaced(kJob, "name = \"test\"   # keep\n", ""));
  check(remove_key(job, "piston.rebound.od"), replaced(kJob, "od      = \"24 mm\"\n", ""));
  check(remove_key(parse("a = { b = 1, c = 2, d = 3 }"), "a.b"), "a = { c = 2, d = 3 }");
  check(remove_key(parse("a = { b = 1, c = 2, d = 3 }"), "a.d"), "a = { b = 1, c = 2 }");
  check(remove_key(parse("a = { b = 1 }"), "a.b"), "a = { }");
  check(remove_key(parse("x = 1\na.b = 1\na.c = 2\n"), "a"), "x = 1\n");
  check(remove_key(parse("x = 1\n\n[a]\nb = 1\n\n[a.c]\nd = 1\n\n# e\n[e]\n"), "a"), "x = 1\n\n# e\n[e]\n");
}

TEST(TomlEdit, AnElementGoesInAndOutOfAListInItsStyle) {
  const Document job = parse(kJob);
  check(insert_element(job, "piston.rebound.stack[1]", "\"n\""),
        replaced(kJob, "# face\n", "# face\n  \"n\",\n"));
  check(insert_element(job, "piston.rebound.stack[2]", "\"n\""),
        replaced(kJob, "\"2 x 20\"   # last\n", "\"2 x 20\",   # last\n  \"n\"\n"));
  check(insert_element(job, "piston.rebound.stack[0]", "\"n\""),
        replaced(kJob, "  \"3 x 24\"", "  \"n\",\n  \"3 x 24\""));
  check(remove_element(job, "piston.rebound.stack[0]"), replaced(kJob, "  \"3 x 24\",  # face\n", ""));
  check(remove_element(job, "piston.rebound.stack[1]"), replaced(kJob, "  \"2 x 20\"   # last\n", ""));
  check(insert_element(parse("a = [1, 2]"), "a[0]", "9"), "a = [9, 1, 2]");
  check(insert_element(parse("a = [1, 2]"), "a[1]", "9"), "a = [1, 9, 2]");
  check(insert_element(parse("a = [1,2]"), "a[2]", "9"), "a = [1,2,9]");
  check(insert_element(parse("a = []"), "a[0]", "9"), "a = [9]");
  check(insert_element(parse("a = [\n  1,\n]\n"), "a[1]", "9"), "a = [\n  1,\n  9,\n]\n");
  check(remove_element(parse("a = [1, 2, 3]"), "a[0]"), "a = [2, 3]");
  check(remove_element(parse("a = [1, 2, 3]"), "a[2]"), "a = [1, 2]");
  check(remove_element(parse("a = [1]"), "a[0]"), "a = []");
}

TEST(TomlEdit, ATableGoesInAndOutOfAListOfTables) {
  const Document job = parse(kJob);
  check(insert_table(job, "legs[1]", "side = \"mid\"\n"),
        replaced(kJob, "# right leg", "[[legs]]\nside = \"mid\"\n\n# right leg"));
  check(insert_table(job, "legs[2]", "side = \"mid\""), std::string(kJob) + "\n[[legs]]\nside = \"mid\"\n");
  check(insert_table(job, "wheels[0]", "n = 1"), std::string(kJob) + "\n[[wheels]]\nn = 1\n");
  check(remove_element(job, "legs[0]"), replaced(kJob, "# left leg\n[[legs]]\nside = \"left\"\n\n", ""));
  const std::string job_text = kJob;
  check(remove_element(job, "legs[1]"), job_text.substr(0, job_text.find("\n# right leg")));
}

TEST(TomlEdit, ATableAddedAtTheEndAndRemovedLeavesTheFileAsItWas) {
  const Document longer = parse(*insert_table(parse(kJob), "legs[2]", "side = \"mid\""));
  check(remove_element(longer, "legs[2]"), kJob);
}

TEST(TomlEdit, WhatCannotBeDoneIsRefusedWithAReason) {
  const Document job = parse(kJob);
  const auto refused = [](const Edited& edited, const std::string& what) {
    ASSERT_FALSE(edited.has_value()) << *edited;
    EXPECT_THAT(edited.error().what, testing::HasSubstr(what));
    EXPECT_FALSE(edited.error().remedy.empty());
  };
  refused(set_value(job, "name", "0.15 mm"), "this is not a value: a quantity without quotes");
  refused(set_value(job, "name", "1\nb = 2"), "more than one value");
  refused(set_value(job, "name", "1 # c"), "more than one value");
  refused(set_value(job, "piston", "1"), "not a single value");
  refused(set_value(job, "name.x", "1"), "no place for");
  refused(set_value(job, "legs[5].side", "1"), "no place for");
  refused(set_value(job, "a..b", "1"), "is not a path");
  refused(remove_key(job, "nothing"), "nothing to remove");
  refused(remove_key(job, "legs[0]"), "an element of a list");
  refused(remove_element(job, "name"), "not an element of a list");
  refused(insert_element(job, "piston.rebound.stack[7]", "1"), "no list of values");
  refused(insert_element(job, "legs[0]", "1"), "no list of values");
  refused(insert_table(job, "piston.rebound.stack[0]", "a = 1"), "no list of [[...]] tables");
  refused(insert_table(job, "legs[0]", "a = 1 mm"), "these entries cannot be read");
  refused(insert_table(job, "legs[0]", "[a]\n"), "contain a header");
  const Edited faulty = set_value(parse("a = 1 mm\nb = 2\n"), "b", "3");
  refused(faulty, "quantity");
  EXPECT_EQ(faulty.error().line, 1);
}

}  // namespace
}  // namespace shimwright::toml
