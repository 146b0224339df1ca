#include "cli/asked.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>
#include <string>

namespace shimwright::cli {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

/// What an option gives, and what is said of it.
template <typename Read>
auto said(Read&& read, std::string& err) {
  std::ostringstream out, faults;
  std::istringstream in;
  const auto value = read(Streams{out, faults, in});
  err = faults.str();
  EXPECT_EQ(out.str(), "");
  return value;
}

TEST(Clicks, AreANameAnEqualsSignAndAWholeNumberOfAtMostFourDigits) {
  struct Typed {
    std::string text, name;
    int clicks;
  };
  for (const Typed& typed :
       {Typed{"rebound needle = 8", "rebound needle", 8}, Typed{"rebound needle=8", "rebound needle", 8},
        Typed{"  rebound needle  =  0  ", "rebound needle", 0}, Typed{"a=9999", "a", 9999},
        Typed{"a=0012", "a", 12}}) {
    std::string err;
    const auto setting = said([&](const Streams& s) { return click_setting(s, typed.text); }, err);
    ASSERT_TRUE(setting.has_value()) << typed.text;
    EXPECT_EQ(setting->adjuster, typed.name) << typed.text;
    EXPECT_EQ(setting->clicks, typed.clicks) << typed.text;
    EXPECT_EQ(err, "");
  }
  for (const char* text : {"", "8", "rebound needle", "rebound needle 8", "a=", "a= ", "a=10000", "a=-1",
                           "a=1.5", "a=x", "a=8x", "a=8=9", "a=1 2"}) {
    std::string err;
    EXPECT_FALSE(said([&](const Streams& s) { return click_setting(s, text); }, err)) << text;
    EXPECT_THAT(err, HasSubstr("--clicks \"" + std::string(text) + "\": expected"));
    EXPECT_THAT(err, HasSubstr("write --clicks \"compression needle = 8\"\n"));
  }
}

TEST(Quantities, ComeInOrderAndInSiUnits) {
  std::string err;
  const auto values = said(
      [](const Streams& s) {
        return quantities(s, "--speeds", "3 m/s, 50 mm/s, 0.5 m/s", units::Kind::Speed);
      },
      err);
  ASSERT_TRUE(values.has_value());
  EXPECT_THAT(*values, ElementsAre(0.05, 0.5, 3.0));
  EXPECT_EQ(err, "");
}

/// The carets stand under the word that is wrong, and under nothing else.
TEST(Quantities, AFaultIsShownBelowItsPlace) {
  struct Typed {
    std::string text, wrong;
  };
  for (const Typed& typed : {Typed{"0.5 m/s, 2", "2"}, Typed{"0.5 furlong, 2 m/s", "furlong"},
                             Typed{"x", "x"}, Typed{"0.5 m/s, 3 psi, 1 m/s", "psi"}}) {
    std::string err;
    EXPECT_FALSE(said(
        [&](const Streams& s) { return quantities(s, "--speeds", typed.text, units::Kind::Speed); }, err));
    std::istringstream lines(err);
    std::string first, second;
    std::getline(lines, first);
    std::getline(lines, second);
    EXPECT_EQ(first, "--speeds \"" + typed.text + "\"");
    const std::size_t begin = first.find(typed.wrong, first.find('"'));
    EXPECT_EQ(second, std::string(begin, ' ') + std::string(typed.wrong.size(), '^')) << first;
  }
}

TEST(Quantities, AFaultWithoutAWordHasACaretToo) {
  std::string err;
  EXPECT_FALSE(said([](const Streams& s) { return quantities(s, "--speeds", "", units::Kind::Speed); }, err));
  EXPECT_THAT(err, testing::StartsWith("--speeds \"\"\n          ^\n")) << err;
}

TEST(Faults, AreCountedAndNotesAreNot) {
  const auto printed = [](const std::vector<Severity>& severities) {
    job::JobFile file;
    file.job.files.push_back({"a.job.toml", "first line\nsecond line\n"});
    file.job.files.push_back({"b.parts.toml", "other line\n"});
    Diagnostics diagnostics;
    for (std::size_t i = 0; i < severities.size(); ++i) {
      Diagnostic diagnostic;
      diagnostic.code = "E0001";
      diagnostic.severity = severities[i];
      diagnostic.file = "a.job.toml";
      diagnostic.line = static_cast<int>(severities.size() - i);
      diagnostic.column = 1;
      diagnostic.what = "fault";
      diagnostics.push_back(diagnostic);
    }
    std::ostringstream out, err;
    std::istringstream in;
    print_faults({out, err, in}, diagnostics, file);
    EXPECT_EQ(out.str(), "");
    return err.str();
  };
  EXPECT_EQ(printed({}), "");
  EXPECT_THAT(printed({Severity::Look}), testing::Not(HasSubstr("nothing was calculated")));
  EXPECT_THAT(printed({Severity::Stop, Severity::Look}),
              testing::EndsWith("\n1 fault: nothing was calculated.\n"));
  const std::string two = printed({Severity::Stop, Severity::Stop});
  EXPECT_THAT(two, testing::EndsWith("\n2 faults: nothing was calculated.\n"));
  EXPECT_THAT(two, HasSubstr("first line"));
  EXPECT_THAT(two, testing::Not(HasSubstr("other line"))) << "of the file that has the fault";
  EXPECT_LT(two.find("first line"), two.find("second line")) << "by their place";
}

}  // namespace
}  // namespace shimwright::cli
