#pragma once
#include <string>
#include <vector>

#include "assembly/ledger.h"
#include "base/outcome.h"

namespace shimwright::assembly {

/// Spacers of one kind in the drawer.
struct SpacerStock {
  Piece piece;      // count is not used
  int in_hand = 0;  // how many there are
  int fitted = 0;   // how many are on the post now
};

/// A pile without its spacers, and the drawer.
struct SpacerCase {
  PostAssembly assembly;           // pieces other than the spacers in stock
  std::vector<SpacerStock> stock;  // at most kMostSpacers pieces in all
};

inline constexpr int kMostSpacers = 20;

Problems problems_in(const SpacerCase& spacer_case);

enum class WhyLeftOut {
  NotNeeded,     // the choice fits without it; with one more it would still fit
  NutOffThread,  // one more and the nut is no longer filled as needed
  WorseFit,      // nothing fits in full, and one more takes it further off
};

/// Spacers of one kind that stay in the drawer.
struct LeftOut {
  int stock = 0;  // index into SpacerCase::stock
  int count = 0;
  int taken_out = 0;  // of these, how many are on the post now
  WhyLeftOut why = WhyLeftOut::NotNeeded;
  double engaged_with_one_more = 0.0;     // full thread in the nut then [m]
  double protrusion_with_one_more = 0.0;  // post's end past the nut then [m]
};

/// One way to fill the post.
struct SpacerChoice {
  std::vector<int> counts;  // per stock line
  int n_pieces = 0;
  double spacer_height = 0.0;  // [m]
  double height = 0.0;         // shoulder to nut face [m]
  double worst = 0.0;          // +/- of the height [m]
  double miss = 0.0;           // nominal height outside what fits [m]; 0: fits
  double worst_miss = 0.0;     // the same at the worse end of the tolerances [m]; 0: fits always
  double change = 0.0;         // of spacer height against what is fitted now, absolute [m]
};

/// The choice among all.
///
/// Model:  every combination is tried, none is guessed. Best: least worst_miss, then least miss, then fewest
///         pieces, then least change against what is fitted now, then thinnest, then the earlier stock lines.
///         Lengths are compared in whole nanometres, so that rounding decides nothing.
/// Errors: SW_CHECK when problems_in() finds any.
/// Tested: spacers_test.cc, against brute force over single pieces
struct SpacerAdvice {
  SpacerChoice best;
  SpacerChoice now;               // as fitted
  Ledger ledger;                  // with the best fitted below the nut
  std::vector<LeftOut> left_out;  // all that stays in the drawer, in stock order
  std::optional<SpacerChoice> next_best;
  bool fits = false;              // nominal height inside
  bool fits_always = false;       // also at the worst end
  double missing_least = 0.0;     // when the best is too low: a piece from this thick [m] ...
  double missing_greatest = 0.0;  // ... to this thick on top of it would do [m]; 0: nothing to add
  long n_searched = 0;            // combinations tried
};
SpacerAdvice choose_spacers(const SpacerCase& spacer_case);

}  // namespace shimwright::assembly
