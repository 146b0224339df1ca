// Any text is read: a job, or faults that each stand inside it. Seeds are whole examples, cut, joined and
// misspelt.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "base/utf8.h"
#include "file/edit.h"
#include "file/load.h"
#include "toml/document.h"

namespace shimwright::file {
namespace {

std::string example(const std::string& name) {
  std::ifstream stream(std::string(SW_SOURCE_DIR) + "/examples/" + name);
  std::ostringstream text;
  text << stream.rdbuf();
  return text.str();
}

LoadResult load_with_parts(const std::string& job) {
  static const std::string parts = example("enduro-fork/shop.parts.toml");
  MemoryFiles files({{"job.toml", job}, {"shop.parts.toml", parts}});
  return load_job(files, "job.toml");
}

/// The text with one run of bytes replaced.
std::string misspelt(const std::string& text) {
  const auto begin = *rc::gen::inRange<std::size_t>(0, text.size());
  const auto length = *rc::gen::inRange<std::size_t>(0, 12);
  const auto into = *rc::gen::element<std::string>("", "\"", "[", "]", "=", "0", "-", "mm", "x", "\n", "{",
                                                   "9e9", ".", "#", " ");
  std::string changed = text;
  return changed.replace(begin, length, into);
}

RC_GTEST_PROP(LoadProperty, AMisspeltJobIsReadOrFaultedInsideItself, ()) {
  static const std::string job = example("enduro-fork/enduro-fork.job.toml");
  std::string text = job;
  const int n_slips = *rc::gen::inRange(1, 5);
  for (int i = 0; i < n_slips; ++i) text = misspelt(text);

  const LoadResult result = load_with_parts(text);
  const auto n_lines = 1 + std::count(text.begin(), text.end(), '\n');
  for (const Diagnostic& diagnostic : result.diagnostics) {
    RC_ASSERT(diagnostic.code.size() == 5u);
    RC_ASSERT(!diagnostic.what.empty() && !diagnostic.remedy.empty());
    if (diagnostic.file != "job.toml") continue;
    RC_ASSERT(diagnostic.line >= 1 && diagnostic.line <= n_lines);
    RC_ASSERT(diagnostic.column >= 1 && diagnostic.length >= 1);
  }
}

/// Reading is a function of the text.
RC_GTEST_PROP(LoadProperty, TwoReadingsAreAlike, ()) {
  static const std::string job = example("enduro-shock/enduro-shock.job.toml");
  const std::string text = misspelt(job);
  const LoadResult first = load_with_parts(text);
  const LoadResult second = load_with_parts(text);
  RC_ASSERT(first.diagnostics.size() == second.diagnostics.size());
  for (std::size_t i = 0; i < first.diagnostics.size(); ++i)
    RC_ASSERT(first.diagnostics[i].path == second.diagnostics[i].path);
}

/// A thickness that was set is the thickness that is read, and every other byte stays.
RC_GTEST_PROP(EditProperty, AValueThatWasSetIsRead, ()) {
  static const std::string job = example("stack-only/tapered.job.toml");
  const int hundredths = *rc::gen::inRange(10, 40);
  const std::string value = "5 x 19 x 0." + std::to_string(hundredths) + " mm";
  const auto edited = set_key(job, "stack.discs[0]", value);
  RC_ASSERT(edited.has_value());

  MemoryFiles files({{"job.toml", *edited}});
  const LoadResult result = load_job(files, "job.toml");
  RC_ASSERT(result.ok());
  const DiscSpec& disc = result.job.stack->stack[0];
  RC_ASSERT(disc.text == value);
  RC_ASSERT(std::abs(disc.thickness.si - hundredths * 1e-5) < 1e-12);  // [m], decimal rounding

  const auto back = set_key(*edited, "stack.discs[0]", "5 x 19 x 0.15 mm");
  RC_ASSERT(back.has_value());
  RC_ASSERT(*back == job);
}

}  // namespace
}  // namespace shimwright::file
