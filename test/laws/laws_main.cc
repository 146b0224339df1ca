// laws N [FIRST] [NAME]: draws N jobs and tells which laws they break, each with the smallest job that still
// does.
#include <fmt/format.h>

#include <cstdlib>
#include <iostream>
#include <map>

#include "laws.h"

namespace {

using namespace shimwright::laws;

struct Tally {
  int drawn = 0;
  int valid = 0;
  std::map<std::string, int> broken;
  std::map<std::string, int> refused;  // by the code of the fault
};

/// The law and the words before the first number: jobs that break a law alike are shown once.
std::string kind_of(const Broken& one) {
  return one.law + "|" + one.how.substr(0, one.how.find_first_of("0123456789"));
}

void show(const Donors& donors, const Tree& tree, std::uint64_t seed, const Broken& first) {
  const std::string kind = kind_of(first);
  const std::string named = first.law == "runs" ? "" : first.law;
  const auto still = [&](const Tree& less) {
    for (const Broken& one : broken_laws(donors, less, named))
      if (kind_of(one) == kind) return true;
    return false;
  };
  std::cout << fmt::format("\n--- {}\nseed {}: {}\n", first.law, seed, first.how) << std::flush;
  std::cout << toml_text(shrunk(tree, still, 120)) << std::flush;
}

}  // namespace

int main(int n_arguments, char** arguments) {
  const int n = n_arguments > 1 ? std::atoi(arguments[1]) : 0;
  const std::uint64_t first = n_arguments > 2 ? std::strtoull(arguments[2], nullptr, 10) : 1;
  const std::string named = n_arguments > 3 ? arguments[3] : "";
  if (n <= 0) {
    std::cerr << "usage: laws N [FIRST SEED] [BEGINNING OF A LAW'S NAME]\n";
    return 2;
  }
  const Donors donors = zoo_donors();
  Tally tally;
  for (int i = 0; i < n; ++i) {
    const std::uint64_t seed = first + static_cast<std::uint64_t>(i);
    const DrawnJob drawn = draw_job(donors, seed);
    ++tally.drawn;
    if (!drawn.valid) {
      ++tally.refused[drawn.refused];
      continue;
    }
    ++tally.valid;
    for (const Broken& one : broken_laws(donors, drawn.tree, named))
      if (tally.broken[kind_of(one)]++ == 0) show(donors, drawn.tree, seed, one);
  }
  std::cout << fmt::format("\n{} jobs drawn, {} of them valid, {} kinds of broken laws\n", tally.drawn,
                           tally.valid, tally.broken.size());
  for (const auto& [fault, times] : tally.refused)
    std::cout << fmt::format("{:6d}  not valid, {}\n", times, fault);
  for (const auto& [kind, times] : tally.broken) std::cout << fmt::format("{:6d}  {}\n", times, kind);
  return tally.broken.empty() ? 0 : 1;
}
