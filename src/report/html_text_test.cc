#include "report/html_text.h"

#include <gtest/gtest.h>

namespace shimwright::report {
namespace {

// the five characters with a meaning in HTML, as its standard names them (13.3, Serialising HTML fragments;
// the apostrophe by its number)
TEST(HtmlText, WhatTheUserTypedCannotBecomeMarkup) {
  EXPECT_EQ(escaped("a & b"), "a &amp; b");
  EXPECT_EQ(escaped("<b>"), "&lt;b&gt;");
  EXPECT_EQ(escaped("3/4\" hose"), "3/4&quot; hose");
  EXPECT_EQ(escaped("rider's"), "rider&#39;s");
  EXPECT_EQ(escaped("&lt;"), "&amp;lt;");
  // a title that would end its attribute and begin a script
  const std::string all = escaped("\" onload='x' <script>");
  EXPECT_EQ(all.find_first_of("\"'<>"), std::string::npos) << all;
}

TEST(HtmlText, ANumberKeepsItsUnitOnTheLine) {
  EXPECT_EQ(escaped("4.5\xE2\x80\x89N"), "4.5\xE2\x80\xAFN");
}

}  // namespace
}  // namespace shimwright::report
