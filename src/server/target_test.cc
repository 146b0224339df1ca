#include "server/target.h"

#include <gtest/gtest.h>

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
