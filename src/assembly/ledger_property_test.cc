#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <tuple>

#include "assembly/fill.h"
#include "assembly/ledger.h"
#include "assembly/spacers.h"
#include "assembly/test_units.h"

// Laws of piles, spacers and levels, and the search against brute force.

namespace shimwright::assembly {
namespace {

double between(double low, double high) {
  return low + (high - low) * *rc::gen::inRange(0, 1001) / 1000.0;
}

Piece any_piece() {
  Piece piece{.id = "piece", .thickness = between(0.1 * kMm, 2.0 * kMm), .count = *rc::gen::inRange(1, 6)};
  piece.tolerance = piece.thickness * between(0.0, 0.1);
  if (*rc::gen::arbitrary<bool>()) piece.measured = piece.thickness * between(0.95, 1.05);
  piece.adds_height = *rc::gen::inRange(0, 5) > 0;
  return piece;
}

std::vector<Piece> any_pieces() {
  std::vector<Piece> pieces;
  const int n = *rc::gen::inRange(1, 12);
  for (int i = 0; i < n; ++i) pieces.push_back(any_piece());
  return pieces;
}

PostAssembly any_assembly() {
  PostAssembly assembly;
  assembly.post = {.thread = nominal_thread(6 * kMm, 1 * kMm),
                   .length = between(10 * kMm, 30 * kMm),
                   .thread_length = between(5 * kMm, 10 * kMm),
                   .runout = between(0.0, 1 * kMm),
                   .end_chamfer = between(0.0, 1 * kMm),
                   .tolerance = between(0.0, 0.1 * kMm)};
  assembly.nut = {.height = between(3 * kMm, 6 * kMm),
                  .face_chamfer = between(0.0, 0.8 * kMm),
                  .top_chamfer = between(0.0, 0.8 * kMm)};
  assembly.pieces = any_pieces();
  return assembly;
}

RC_GTEST_PROP(LedgerLaws, TheOrderOfPiecesDoesNotChangeTheirSum, ()) {
  PostAssembly assembly = any_assembly();
  const Ledger before = ledger(assembly);
  std::mt19937 shuffle(static_cast<unsigned>(*rc::gen::inRange(0, 1 << 20)));
  std::ranges::shuffle(assembly.pieces, shuffle);
  const Ledger after = ledger(assembly);
  const double rounding = 1e-15;
  RC_ASSERT(std::abs(after.height.nominal - before.height.nominal) < rounding);
  RC_ASSERT(std::abs(after.height.worst - before.height.worst) < rounding);
  RC_ASSERT(std::abs(after.height.rss - before.height.rss) < rounding);
  RC_ASSERT(std::abs(after.engaged.nominal - before.engaged.nominal) < rounding);
}

RC_GTEST_PROP(LedgerLaws, WhatToExpectIsNeverWorseThanTheWorst, ()) {
  const HeightBand band = pile_height(any_pieces());
  RC_ASSERT(band.rss <= band.worst * (1.0 + 1e-12));
}

RC_GTEST_PROP(LedgerLaws, AHigherPileNeverHasMoreThread, ()) {
  PostAssembly assembly = any_assembly();
  const Ledger before = ledger(assembly);
  assembly.pieces.push_back({.id = "one more", .thickness = between(0.01 * kMm, 3 * kMm)});
  const Ledger after = ledger(assembly);
  const double rounding = 1e-15;
  RC_ASSERT(after.engaged.nominal <= before.engaged.nominal + rounding);
  RC_ASSERT(after.protrusion.nominal <= before.protrusion.nominal + rounding);
  RC_ASSERT(after.thread_left.nominal <= before.thread_left.nominal + rounding);
  RC_ASSERT(after.clamp_gap <= before.clamp_gap + rounding);
}

RC_GTEST_PROP(LedgerLaws, SpreadsHoldTheirNominalAndEngagementNeverExceedsTheNut, ()) {
  const PostAssembly assembly = any_assembly();
  const Ledger result = ledger(assembly);
  for (const Spread& each : {result.engaged, result.protrusion, result.thread_left}) {
    const double rounding = 1e-15;
    RC_ASSERT(each.low <= each.nominal + rounding && each.nominal <= each.high + rounding);
  }
  RC_ASSERT(result.engaged.high <=
            assembly.nut.height - assembly.nut.face_chamfer - assembly.nut.top_chamfer + 1e-15);
  RC_ASSERT(result.engaged.low >= 0.0);
}

RC_GTEST_PROP(LedgerLaws, FlagsAndTheWindowOfHeightsTellTheSameStory, ()) {
  const PostAssembly assembly = any_assembly();
  const Ledger result = ledger(assembly);
  const double pile = result.height.nominal;
  const double hair = 2e-9;
  const bool near_edge =
      std::abs(pile - result.least_height) < hair || std::abs(pile - result.greatest_height) < hair;
  const bool inside = pile >= result.least_height && pile <= result.greatest_height;
  const bool flagged = std::ranges::any_of(
      result.flags, [](const LedgerFlag& flag) { return flag.likelihood == Likelihood::Sure; });
  RC_ASSERT(near_edge || inside == !flagged);
}

/// The rank of choose_spacers() written out again, over single pieces and bit masks.
struct BruteForce {
  std::vector<int> counts;
  long long worst_miss = 0, miss = 0, change = 0, height = 0;
  int n_pieces = 0;
};

BruteForce brute_force(const SpacerCase& c) {
  const Ledger bare = ledger(c.assembly);
  std::vector<std::size_t> single;
  double fitted = 0.0;
  for (std::size_t i = 0; i < c.stock.size(); ++i) {
    single.insert(single.end(), c.stock[i].in_hand, i);
    fitted += c.stock[i].fitted * c.stock[i].piece.thickness;
  }
  const auto nm = [](double length) { return std::llround(length * 1e9); };
  BruteForce best;
  bool first = true;
  for (unsigned mask = 0; mask < (1u << single.size()); ++mask) {
    BruteForce trial;
    trial.counts.assign(c.stock.size(), 0);
    double added = 0.0;
    double tolerance = bare.height.worst + c.assembly.post.tolerance;
    for (std::size_t bit = 0; bit < single.size(); ++bit) {
      if (!(mask >> bit & 1u)) continue;
      const Piece& piece = c.stock[single[bit]].piece;
      ++trial.counts[single[bit]];
      ++trial.n_pieces;
      added += piece.thickness;
      tolerance += piece.tolerance;
    }
    const double height = bare.height.nominal + added;
    const auto outside = [&](double t) {
      return std::max({0.0, bare.least_height - height + t, height + t - bare.greatest_height});
    };
    trial.worst_miss = nm(outside(tolerance));
    trial.miss = nm(outside(0.0));
    trial.change = nm(std::abs(added - fitted));
    trial.height = nm(added);
    const auto key = [](const BruteForce& b) {
      return std::tuple(b.worst_miss, b.miss, b.n_pieces, b.change, b.height);
    };
    const bool better =
        first || key(trial) < key(best) || (key(trial) == key(best) && trial.counts > best.counts);
    if (better) best = trial;
    first = false;
  }
  return best;
}

RC_GTEST_PROP(SpacerLaws, TheSearchFindsWhatBruteForceFinds, ()) {
  SpacerCase c;
  c.assembly = any_assembly();
  const int n_lines = *rc::gen::inRange(0, 5);
  for (int i = 0; i < n_lines; ++i) {
    // whole tenths of a millimetre, so that ties are common
    Piece piece{.id = "spacer", .thickness = 0.1 * kMm * *rc::gen::inRange(1, 20)};
    piece.tolerance = 0.01 * kMm * *rc::gen::inRange(0, 3);
    const int in_hand = *rc::gen::inRange(0, 4);
    c.stock.push_back({.piece = piece, .in_hand = in_hand, .fitted = *rc::gen::inRange(0, in_hand + 1)});
  }
  const SpacerAdvice advice = choose_spacers(c);
  const BruteForce brute = brute_force(c);
  const auto nm = [](double length) { return std::llround(length * 1e9); };
  // a nanometre either way is rounding of the sums
  RC_ASSERT(std::abs(nm(advice.best.worst_miss) - brute.worst_miss) <= 1);
  if (nm(advice.best.worst_miss) == brute.worst_miss && nm(advice.best.miss) == brute.miss) {
    RC_ASSERT(advice.best.n_pieces == brute.n_pieces);
    RC_ASSERT(std::abs(nm(advice.best.change) - brute.change) <= 1);
  }
}

RC_GTEST_PROP(SpacerLaws, MoreInTheDrawerNeverFitsWorse, ()) {
  SpacerCase c;
  c.assembly = any_assembly();
  c.stock.push_back({.piece = {.id = "a", .thickness = between(0.1 * kMm, 2 * kMm)}, .in_hand = 3});
  const double before = choose_spacers(c).best.worst_miss;
  c.stock.push_back({.piece = {.id = "b", .thickness = between(0.1 * kMm, 2 * kMm)}, .in_hand = 2});
  RC_ASSERT(choose_spacers(c).best.worst_miss <= before + 1e-9);
}

RC_GTEST_PROP(SpacerLaws, NothingInTheDrawerIsUsedTwiceOrLost, ()) {
  SpacerCase c;
  c.assembly = any_assembly();
  for (int i = 0; i < 3; ++i) {
    const int in_hand = *rc::gen::inRange(0, 5);
    c.stock.push_back({.piece = {.id = "s", .thickness = between(0.1 * kMm, 2 * kMm)}, .in_hand = in_hand});
  }
  const SpacerAdvice advice = choose_spacers(c);
  std::vector<int> left(c.stock.size(), 0);
  for (const LeftOut& each : advice.left_out) left[each.stock] = each.count;
  for (std::size_t i = 0; i < c.stock.size(); ++i) {
    RC_ASSERT(advice.best.counts[i] >= 0);
    RC_ASSERT(advice.best.counts[i] + left[i] == c.stock[i].in_hand);
  }
}

RC_GTEST_PROP(LevelLaws, OilAndAirGapAreInverseAndMonotone, ()) {
  OuterTube tube{.bore = between(30 * kMm, 60 * kMm), .height = between(300 * kMm, 700 * kMm)};
  const int n = *rc::gen::inRange(0, 4);
  for (int i = 0; i < n; ++i) {
    const double bottom = tube.height * between(0.0, 0.8);
    // up to three side by side leave room
    tube.standing.push_back({.diameter = tube.bore * between(0.05, 0.5),
                             .bottom = bottom,
                             .top = bottom + tube.height * between(0.05, 0.5)});
  }
  RC_PRE(problems_in(tube).empty());
  const double gap = tube.height * between(0.0, 1.0);
  const double oil = oil_at_air_gap(tube, gap);
  RC_ASSERT(std::abs(air_gap_at_oil(tube, oil) - gap) < 1e-9);
  RC_ASSERT(air_gap_at_oil(tube, oil + 1e-6) < gap);
}

}  // namespace
}  // namespace shimwright::assembly
