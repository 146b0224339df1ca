// Any bytes are a job, or faults that each have a code, a place inside the text and a remedy. The first byte
// chooses what the bytes stand for: the job itself, its parts file, or both at once.
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string>

#include "base/check.h"
#include "file/edit.h"
#include "file/load.h"
#include "file/load_codes.h"

namespace shimwright::file {
namespace {

const char* const kJob =
    "parts = [\"shop.toml\"]\n[[unit]]\nkind = \"fork leg\"\noil = \"thin\"\npiston = \"24 mm\"\n"
    "[unit.piston_valve.rebound]\nseat = \"18 mm\"\nclamp = \"10 mm\"\nstack = [\"2 x shim a\", \"1 x 19 x "
    "0.15 mm\"]\n";

bool is_known(const std::string& code) {
  const auto facts = code_facts();
  return std::any_of(facts.begin(), facts.end(), [&](const CodeFacts& one) { return one.id == code; });
}

void check_load(const std::string& job, const std::string& parts) {
  MemoryFiles files({{"job.toml", job}, {"shop.toml", parts}});
  const LoadResult result = load_job(files, "job.toml");
  for (const Diagnostic& diagnostic : result.diagnostics) {
    SW_CHECK(is_known(diagnostic.code), diagnostic.code);
    SW_CHECK(!diagnostic.what.empty() && !diagnostic.remedy.empty(), diagnostic.code, diagnostic.what);
    const std::string& text = diagnostic.file == "job.toml" ? job : parts;
    const auto n_lines = 1 + std::count(text.begin(), text.end(), '\n');
    SW_CHECK(diagnostic.line >= 0 && diagnostic.line <= n_lines, diagnostic.line, n_lines);
    SW_CHECK(!render(diagnostic, text).empty(), diagnostic.code);
  }
}

/// An edit gives a text that still loads to the new value, or says why not.
void check_edit(const std::string& text, const std::string& value) {
  for (const char* path : {"title", "unit[0].travel", "unit[0].piston_valve.rebound.stack[1]"}) {
    const auto edited = set_key(text, path, value);
    SW_CHECK(edited.has_value() || !edited.error().empty(), path);
  }
}

}  // namespace
}  // namespace shimwright::file

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  const std::string text(reinterpret_cast<const char*>(data) + 1, size - 1);
  switch (data[0] % 4) {
    case 0:
      shimwright::file::check_load(shimwright::file::kJob, text);
      break;
    case 1:
      shimwright::file::check_load(text, text);
      break;
    case 2:
      shimwright::file::check_edit(shimwright::file::kJob, text);
      break;
    default:
      shimwright::file::check_load(text, "");
      shimwright::file::check_edit(text, "12 mm");
  }
  return 0;
}
