#include "assembly/spacers.h"

#include <algorithm>
#include <cmath>
#include <tuple>
#include <utility>

#include "base/check.h"

namespace shimwright::assembly {
namespace {

constexpr double kNanometre = 1e-9;

/// The part of the case that every combination shares.
struct Window {
  double least, greatest;       // heights that fit [m]
  double base, base_tolerance;  // pile without spacers [m]
  double fitted;                // spacer height on the post now [m]
};

double thickness_of(const SpacerStock& stock) {
  return stock.piece.measured.value_or(stock.piece.thickness);
}

double tolerance_of(const SpacerStock& stock) {
  return stock.piece.measured ? stock.piece.measured_tolerance : stock.piece.tolerance;
}

/// How far outside the window the band height +/- tolerance reaches.
double miss_of(const Window& window, double height, double tolerance) {
  return std::max({0.0, window.least - (height - tolerance), height + tolerance - window.greatest});
}

SpacerChoice choice_of(const Window& window, const std::vector<SpacerStock>& stock, std::vector<int> counts) {
  SpacerChoice choice;
  choice.worst = window.base_tolerance;
  for (std::size_t i = 0; i < stock.size(); ++i) {
    choice.n_pieces += counts[i];
    choice.spacer_height += counts[i] * thickness_of(stock[i]);
    choice.worst += counts[i] * tolerance_of(stock[i]);
  }
  choice.counts = std::move(counts);
  choice.height = window.base + choice.spacer_height;
  choice.miss = miss_of(window, choice.height, 0.0);
  choice.worst_miss = miss_of(window, choice.height, choice.worst);
  choice.change = std::abs(choice.spacer_height - window.fitted);
  return choice;
}

/// What a choice is ranked by, smaller first; lengths in whole nanometres.
using Rank = std::tuple<long long, long long, int, long long, long long>;
Rank rank_of(double worst_miss, double miss, int n_pieces, double change, double spacer_height) {
  const auto whole = [](double length) { return std::llround(length / kNanometre); };
  return {whole(worst_miss), whole(miss), n_pieces, whole(change), whole(spacer_height)};
}

/// Walks all counts, the earlier stock lines from many to none, so that the first of equals is the one to
/// keep.
class Search {
 public:
  Search(const Window& window, const std::vector<SpacerStock>& stock)
      : window_(window), stock_(stock), counts_(stock.size(), 0) {}

  void run() { walk(0, 0.0, window_.base_tolerance, 0); }

  long n_searched() const { return n_searched_; }
  const std::vector<int>& best() const { return best_; }
  const std::vector<int>& second() const { return second_; }

 private:
  void walk(std::size_t line, double spacer_height, double tolerance, int n_pieces) {
    if (line == stock_.size()) {
      take(spacer_height, tolerance, n_pieces);
      return;
    }
    for (int n = stock_[line].in_hand; n >= 0; --n) {
      counts_[line] = n;
      walk(line + 1, spacer_height + n * thickness_of(stock_[line]),
           tolerance + n * tolerance_of(stock_[line]), n_pieces + n);
    }
    counts_[line] = 0;
  }

  void take(double spacer_height, double tolerance, int n_pieces) {
    const double height = window_.base + spacer_height;
    const Rank rank = rank_of(miss_of(window_, height, tolerance), miss_of(window_, height, 0.0), n_pieces,
                              std::abs(spacer_height - window_.fitted), spacer_height);
    ++n_searched_;
    if (best_.empty() || rank < best_rank_) {
      second_ = std::exchange(best_, counts_);
      second_rank_ = std::exchange(best_rank_, rank);
    } else if (second_.empty() || rank < second_rank_) {
      second_ = counts_;
      second_rank_ = rank;
    }
  }

  const Window& window_;
  const std::vector<SpacerStock>& stock_;
  std::vector<int> counts_;
  std::vector<int> best_, second_;
  Rank best_rank_, second_rank_;
  long n_searched_ = 0;
};

/// The pile with `counts` of the spacers below the nut.
PostAssembly with_spacers(const SpacerCase& spacer_case, const std::vector<int>& counts) {
  PostAssembly assembly = spacer_case.assembly;
  for (std::size_t i = 0; i < counts.size(); ++i) {
    if (counts[i] == 0) continue;
    assembly.pieces.push_back(spacer_case.stock[i].piece);
    assembly.pieces.back().count = counts[i];
    assembly.pieces.back().adds_height = true;
  }
  return assembly;
}

std::vector<LeftOut> left_out_of(const SpacerCase& spacer_case, const Window& window,
                                 const SpacerAdvice& advice) {
  std::vector<LeftOut> all;
  for (std::size_t i = 0; i < spacer_case.stock.size(); ++i) {
    const SpacerStock& stock = spacer_case.stock[i];
    const int chosen = advice.best.counts[i];
    if (chosen == stock.in_hand) continue;

    // try one more of it
    std::vector<int> more = advice.best.counts;
    ++more[i];
    const Ledger tried = ledger(with_spacers(spacer_case, more));
    const SpacerChoice choice = choice_of(window, spacer_case.stock, std::move(more));
    const double miss = advice.fits_always ? choice.worst_miss : choice.miss;
    LeftOut left{.stock = static_cast<int>(i), .count = stock.in_hand - chosen};
    left.taken_out = std::max(0, stock.fitted - chosen);
    left.engaged_with_one_more = tried.engaged.nominal;
    left.protrusion_with_one_more = tried.protrusion.nominal;
    if (!advice.fits) {
      left.why = WhyLeftOut::WorseFit;
    } else {
      left.why = miss > kNanometre ? WhyLeftOut::NutOffThread : WhyLeftOut::NotNeeded;
    }
    all.push_back(left);
  }
  return all;
}

}  // namespace

Problems problems_in(const SpacerCase& spacer_case) {
  Problems problems = problems_in(spacer_case.assembly);
  int n_pieces = 0;
  for (std::size_t i = 0; i < spacer_case.stock.size(); ++i) {
    const SpacerStock& stock = spacer_case.stock[i];
    const std::string field = "stock[" + std::to_string(i) + "]";
    if (!(thickness_of(stock) > 0.0)) {
      problems.push_back({field + ".piece.thickness", thickness_of(stock), 0.0, "larger than zero"});
    }
    if (!(tolerance_of(stock) >= 0.0 && tolerance_of(stock) < thickness_of(stock))) {
      problems.push_back({field + ".piece.tolerance", tolerance_of(stock), thickness_of(stock),
                          "zero or larger, and smaller than the thickness"});
    }
    if (stock.in_hand < 0) {
      problems.push_back({field + ".in_hand", static_cast<double>(stock.in_hand), 0.0, "zero or more"});
    }
    if (stock.fitted < 0 || stock.fitted > stock.in_hand) {
      problems.push_back({field + ".fitted", static_cast<double>(stock.fitted),
                          static_cast<double>(stock.in_hand), "zero or more, and no more than are in hand"});
    }
    n_pieces += std::max(0, stock.in_hand);
  }
  if (n_pieces > kMostSpacers) {
    problems.push_back({"stock", static_cast<double>(n_pieces), static_cast<double>(kMostSpacers),
                        "at most twenty spacers in all, so that every combination can be tried"});
  }
  return problems;
}

SpacerAdvice choose_spacers(const SpacerCase& spacer_case) {
  const Problems problems = problems_in(spacer_case);
  SW_CHECK(problems.empty(), problems.front().field, problems.front().got);

  // what the bare pile leaves room for
  const Ledger bare = ledger(spacer_case.assembly);
  Window window{.least = bare.least_height,
                .greatest = bare.greatest_height,
                .base = bare.height.nominal,
                .base_tolerance = bare.height.worst + spacer_case.assembly.post.tolerance,
                .fitted = 0.0};
  std::vector<int> fitted;
  for (const SpacerStock& stock : spacer_case.stock) {
    fitted.push_back(stock.fitted);
    window.fitted += stock.fitted * thickness_of(stock);
  }

  // every combination
  Search search(window, spacer_case.stock);
  search.run();
  SpacerAdvice advice;
  advice.n_searched = search.n_searched();
  advice.best = choice_of(window, spacer_case.stock, search.best());
  advice.now = choice_of(window, spacer_case.stock, std::move(fitted));
  // no spacers at all leave no second choice
  if (advice.n_searched > 1) advice.next_best = choice_of(window, spacer_case.stock, search.second());

  // what it comes to
  advice.ledger = ledger(with_spacers(spacer_case, advice.best.counts));
  advice.fits = bare.can_fit && advice.best.miss <= kNanometre;
  advice.fits_always = bare.can_fit && advice.best.worst_miss <= kNanometre;
  advice.left_out = left_out_of(spacer_case, window, advice);
  if (!advice.fits && bare.can_fit && advice.best.height < window.least) {
    advice.missing_least = window.least - advice.best.height;
    advice.missing_greatest = window.greatest - advice.best.height;
  }
  return advice;
}

}  // namespace shimwright::assembly
