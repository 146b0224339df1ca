#include "server/target.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <map>
#include <string>

namespace shimwright::server {
namespace {

TEST(Target, APathIsTakenAsItStandsAndTheQueryDecoded) {
  const auto target = parse_target("/api/jobs/00ff/stack?path=unit%5B0%5D.a+b&speed=0.5&path=second");
  ASSERT_TRUE(target.has_value());
  EXPECT_EQ(target->path, "/api/jobs/00ff/stack");
  EXPECT_EQ(target->query.at("path"), "unit[0].a b");
  EXPECT_EQ(target->query.at("speed"), "0.5");
}

TEST(Target, PathsWithATrickInThemAreNone) {
  for (const char* target :
       {"", "*", "api", "http://127.0.0.1/", "/../etc/passwd", "/assets/../../etc/passwd", "/assets/./x",
        "//x", "/a//b", "/%2e%2e/etc/passwd", "/assets%2fx", "/assets\\x", "/a b", "/.git/config", "/a\x01",
        "/a\xc3\xa9", "/a?x=%", "/a?x=%zz"})
    EXPECT_FALSE(parse_target(target).has_value()) << target;
}

TEST(Target, EveryByteCanBeWrittenWithTwoDigitsOfEitherCase) {
  for (int byte = 0; byte < 256; ++byte)
    for (const char* form : {"%{:02x}", "%{:02X}"}) {
      const auto read = parse_form("k=a" + fmt::format(fmt::runtime(form), byte) + "b");
      ASSERT_TRUE(read.has_value()) << byte;
      EXPECT_EQ(read->at("k"), std::string("a") + static_cast<char>(byte) + "b") << byte;
    }
  EXPECT_EQ(parse_form("k=%41")->at("k"), "A") << "at the end too";
  EXPECT_EQ(parse_form("%6b=%2B+%2b")->at("k"), "+ +");
  for (const char* bad : {"%", "%4", "a%", "%/0", "%:0", "%@0", "%G0", "%`0", "%g0", "%0/", "%0:", "%0@",
                          "%0G", "%0`", "%0g", "% 1", "%+1", "%-1", "%0x41"}) {
    EXPECT_FALSE(parse_form("k=" + std::string(bad)).has_value()) << bad;
    EXPECT_FALSE(parse_form(std::string(bad) + "=v").has_value()) << bad;
  }
}

TEST(Target, AFormHasItsNamesAndValuesAndAnEmptyOneNone) {
  using Form = std::map<std::string, std::string>;
  EXPECT_EQ(parse_form("").value(), Form{});
  EXPECT_EQ(parse_form("&&").value(), Form{});
  EXPECT_EQ(parse_form("a=1&b=2&&c=&d&e==x=").value(),
            (Form{{"a", "1"}, {"b", "2"}, {"c", ""}, {"d", ""}, {"e", "=x="}}));
  EXPECT_EQ(parse_form("a=1&a=2").value(), (Form{{"a", "1"}})) << "the first counts";
}

TEST(Target, APathHasLettersDigitsAndFourSignsAndEndsWhereTheQueryBegins) {
  for (int c = 1; c < 256; ++c) {
    if (c == '?' || c == '#') continue;
    const char sign = static_cast<char>(c);
    const bool may = (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') ||
                     sign == '/' || sign == '.' || sign == '-' || sign == '_';
    EXPECT_EQ(parse_target(std::string("/a") + sign + "b").has_value(), may) << c;
  }
  EXPECT_EQ(parse_target("/a/b")->path, "/a/b");
  EXPECT_TRUE(parse_target("/a/b")->query.empty());
  EXPECT_EQ(parse_target("/a?b=1#c?d=2")->path, "/a");
  EXPECT_EQ(parse_target("/a?b=1#c?d=2")->query.size(), 1u);
  EXPECT_EQ(parse_target("/a?b=1#c?d=2")->query.at("b"), "1");
  EXPECT_EQ(parse_target("/a#b")->path, "/a");
  EXPECT_TRUE(parse_target("/a.b/c..d").has_value()) << "dots inside a name lead nowhere else";
}

TEST(Target, AQueryWithoutEndIsNone) {
  std::string target = "/a?";
  for (int i = 0; i < 100; ++i) target += "k" + std::to_string(i) + "=1&";
  EXPECT_FALSE(parse_target(target).has_value());
}

TEST(Target, ASecretAgreesOnlyWithItself) {
  EXPECT_TRUE(same_secret("secret", "secret"));
  for (const char* given : {"", "secre", "secrets", "Secret", "secretsecret"})
    EXPECT_FALSE(same_secret(given, "secret")) << given;
  EXPECT_FALSE(same_secret("", "")) << "no secret lets nobody in";
}

}  // namespace
}  // namespace shimwright::server
