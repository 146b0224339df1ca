#include "base/utf8.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

namespace shimwright {
namespace {

TEST(Utf8, CountsCharactersNotBytes) {
  EXPECT_EQ(n_code_points(""), 0u);
  EXPECT_EQ(n_code_points("0.15 mm"), 7u);
  EXPECT_EQ(n_code_points("0.15 µm"), 7u);
  EXPECT_EQ(n_code_points("3 × 24"), 6u);
  EXPECT_EQ(n_code_points("\xF0\x9D\x84\x9E"), 1u);
}

TEST(Utf8, StrayBytesCountOneEach) {
  EXPECT_EQ(n_code_points("\xFF\xFE"), 2u);
  EXPECT_EQ(n_code_points("\xC2"), 1u);              // cut short
  EXPECT_EQ(n_code_points("\xC0\x80"), 2u);          // overlong
  EXPECT_EQ(n_code_points("\xED\xA0\x80"), 3u);      // a surrogate
  EXPECT_EQ(n_code_points("\xF4\x90\x80\x80"), 4u);  // past U+10FFFF
  EXPECT_FALSE(code_point_at("\xFF", 0).valid);
  EXPECT_EQ(code_point_at("a", 1).n_bytes, 0u);
}

RC_GTEST_PROP(Utf8, WhatIsWrittenIsReadBack, ()) {
  const auto value = static_cast<char32_t>(*rc::gen::inRange<std::uint32_t>(0, 0x110000));
  RC_PRE(value < 0xD800 || value > 0xDFFF);
  std::string text;
  append_utf8(text, value);
  const CodePoint point = code_point_at(text, 0);
  RC_ASSERT(point.valid);
  RC_ASSERT(point.value == value);
  RC_ASSERT(point.n_bytes == text.size());
}

RC_GTEST_PROP(Utf8, PrintableTextIsValidAndHasNoControlCharacters, (const std::string& bytes)) {
  const std::string text = printable(bytes, 1000);
  for (std::size_t at = 0; at < text.size();) {
    const CodePoint point = code_point_at(text, at);
    RC_ASSERT(point.valid);
    RC_ASSERT(point.value >= 0x20u);
    at += point.n_bytes;
  }
}

TEST(Utf8, PrintableTextIsCutWithAnEllipsis) {
  EXPECT_EQ(printable("0.15 mm", 7), "0.15 mm");
  EXPECT_EQ(printable("0.15 mm", 4), "0.15…");
  EXPECT_EQ(printable("a\x1b\n\xE2\x80\xAE", 9), "a\uFFFD\uFFFD\uFFFD");
}

}  // namespace
}  // namespace shimwright
