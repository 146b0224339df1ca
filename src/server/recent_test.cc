#include "server/recent.h"

#include <gtest/gtest.h>

#include <string>

namespace shimwright::server {
namespace {

/// The names of a few that are still here, without using them.
std::string kept(Recent<int> recent, const std::string& names) {
  std::string found;
  for (const char name : names)
    if (Recent<int>(recent).find(std::string(1, name))) found += name;
  return found;
}

TEST(Recent, KeepsSoManyAndLetsTheOldestGoFirst) {
  Recent<int> recent(3);
  EXPECT_FALSE(recent.find("a"));
  for (const char* name : {"a", "b", "c"}) recent.add(name, name[0]);
  EXPECT_EQ(kept(recent, "abcd"), "abc");
  recent.add("d", 'd');
  EXPECT_EQ(kept(recent, "abcd"), "bcd");
  EXPECT_EQ(recent.find("c"), 'c');
}

TEST(Recent, WhatIsLookedUpStaysLonger) {
  Recent<int> recent(3);
  for (const char* name : {"a", "b", "c"}) recent.add(name, name[0]);
  EXPECT_EQ(recent.find("a"), 'a');
  recent.add("d", 'd');
  EXPECT_EQ(kept(recent, "abcd"), "acd");
}

TEST(Recent, OneNameHasOneValue) {
  Recent<int> recent(2);
  recent.add("a", 1);
  recent.add("b", 2);
  recent.add("a", 3);
  EXPECT_EQ(recent.find("a"), 1);
  EXPECT_EQ(recent.find("b"), 2) << "nothing had to go for it";
}

}  // namespace
}  // namespace shimwright::server
