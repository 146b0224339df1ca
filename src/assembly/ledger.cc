#include "assembly/ledger.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/check.h"

namespace shimwright::assembly {
namespace {

/// Heights that differ by less are the same; far below any micrometer, far above rounding of sums [m].
constexpr double kHair = 1e-9;

double thickness_of(const Piece& piece) {
  return piece.measured.value_or(piece.thickness);
}

double total_of(const Piece& piece) {
  return piece.adds_height ? piece.count * thickness_of(piece) : 0.0;
}

/// Where the threads of post and nut are, heights from the shoulder.
struct Threads {
  double post_from, post_to;  // full thread of the post
  double nut_from, nut_to;    // full thread of the nut, from its face
  double nut_height;
  double post_end;
  double stop;             // lowest place the nut's face can reach
  bool stopped_by_bottom;  // of a closed nut, before the thread ends
  bool is_closed;
};
Threads threads_of(const Post& post, const Nut& nut) {
  Threads t{};
  t.post_from = post.length - post.thread_length + post.runout;
  t.post_to = post.length - post.end_chamfer;
  t.nut_from = nut.face_chamfer;
  t.nut_to = nut.height - nut.top_chamfer;
  t.nut_height = nut.height;
  t.post_end = post.length;
  t.is_closed = nut.blind_depth > 0.0;

  const double at_thread_end = t.post_from - t.nut_from;
  const double at_bottom =
      t.is_closed ? post.length - nut.blind_depth : -std::numeric_limits<double>::infinity();
  t.stop = std::max(at_thread_end, at_bottom);
  t.stopped_by_bottom = at_bottom > at_thread_end;
  return t;
}

double face_at(const Threads& t, double pile) {
  return std::max(pile, t.stop);
}

double engaged_at(const Threads& t, double pile) {
  const double face = face_at(t, pile);
  return std::max(0.0, std::min(face + t.nut_to, t.post_to) - std::max(face + t.nut_from, t.post_from));
}

double protrusion_at(const Threads& t, double pile) {
  return t.post_end - face_at(t, pile) - t.nut_height;
}

double thread_left_at(const Threads& t, double pile) {
  return std::clamp(t.post_to - face_at(t, pile), 0.0, t.post_to - t.post_from);
}

/// Values that do not rise with the pile's height.
template <typename Quantity>
Spread spread_of(const Quantity& quantity, const Threads& t, double pile, double tolerance) {
  return {quantity(t, pile + tolerance), quantity(t, pile), quantity(t, pile - tolerance)};
}

Spread in_pitches(const Spread& spread, double pitch) {
  return {spread.low / pitch, spread.nominal / pitch, spread.high / pitch};
}

/// Flags `kind` when the value falls below the limit, sure at nominal, possible at the low end.
void flag_below(std::vector<LedgerFlag>& flags, FlagKind kind, const Spread& value, double limit) {
  if (value.nominal < limit - kHair) {
    flags.push_back({kind, Likelihood::Sure, value.nominal, limit});
  } else if (value.low < limit - kHair) {
    flags.push_back({kind, Likelihood::Possible, value.low, limit});
  }
}

void flag_above(std::vector<LedgerFlag>& flags, FlagKind kind, const Spread& value, double limit) {
  if (value.nominal > limit + kHair) {
    flags.push_back({kind, Likelihood::Sure, value.nominal, limit});
  } else if (value.high > limit + kHair) {
    flags.push_back({kind, Likelihood::Possible, value.high, limit});
  }
}

std::vector<LedgerFlag> flags_of(const Ledger& ledger, const PostAssembly& assembly, const Threads& t,
                                 double tolerance) {
  std::vector<LedgerFlag> flags;
  const double pile = ledger.height.nominal;
  const double pitch = assembly.post.thread.pitch;

  const FlagKind stop_kind = t.stopped_by_bottom ? FlagKind::EndBottoms : FlagKind::RunsOntoShank;
  flag_below(flags, stop_kind, {pile - tolerance, pile, pile + tolerance}, t.stop);

  if (ledger.engaged.nominal <= kHair) {
    flags.push_back({FlagKind::NoThreadReached, Likelihood::Sure, pile, t.post_to - t.nut_from});
  } else {
    flag_below(flags, FlagKind::TooLittleEngaged, ledger.engaged, ledger.engaged_needed);
  }

  // the end of the post hides inside a closed nut
  if (!t.is_closed) {
    flag_below(flags, FlagKind::EndTooDeep, ledger.protrusion, assembly.protrusion_needed * pitch);
    flag_above(flags, FlagKind::EndTooProud, ledger.protrusion, assembly.protrusion_allowed * pitch);
  }
  std::ranges::stable_sort(flags, {}, &LedgerFlag::likelihood);
  return flags;
}

void append_problems(Problems& problems, const Piece& piece, const std::string& field) {
  if (!(piece.thickness > 0.0))
    problems.push_back({field + ".thickness", piece.thickness, 0.0, "larger than zero"});
  if (!(piece.tolerance >= 0.0 && piece.tolerance < piece.thickness)) {
    problems.push_back({field + ".tolerance", piece.tolerance, piece.thickness,
                        "zero or larger, and smaller than the thickness"});
  }
  if (piece.measured && !(*piece.measured > 0.0)) {
    problems.push_back({field + ".measured", *piece.measured, 0.0, "larger than zero"});
  }
  if (!(piece.measured_tolerance >= 0.0)) {
    problems.push_back({field + ".measured_tolerance", piece.measured_tolerance, 0.0, "zero or larger"});
  }
  if (piece.count < 1)
    problems.push_back({field + ".count", static_cast<double>(piece.count), 1.0, "one or more"});
}

}  // namespace

Problems problems_in(const PostAssembly& assembly) {
  Problems problems = problems_in(assembly.post.thread);
  for (Problem& problem : problems) problem.field = "post.thread." + problem.field;
  const auto require = [&](bool holds, const char* field, double got, double limit, const char* allowed) {
    if (!holds) problems.push_back({field, got, limit, allowed});
  };

  // post
  const Post& post = assembly.post;
  require(post.length > 0.0, "post.length", post.length, 0.0, "larger than zero");
  require(post.thread_length > 0.0 && post.thread_length <= post.length, "post.thread_length",
          post.thread_length, post.length, "larger than zero and no longer than the post");
  require(post.runout >= 0.0, "post.runout", post.runout, 0.0, "zero or larger");
  require(post.end_chamfer >= 0.0, "post.end_chamfer", post.end_chamfer, 0.0, "zero or larger");
  require(post.runout + post.end_chamfer < post.thread_length, "post.runout", post.runout,
          post.thread_length - post.end_chamfer, "so short that full thread remains");
  require(post.tolerance >= 0.0, "post.tolerance", post.tolerance, 0.0, "zero or larger");

  // nut
  const Nut& nut = assembly.nut;
  require(nut.height > 0.0, "nut.height", nut.height, 0.0, "larger than zero");
  require(nut.face_chamfer >= 0.0, "nut.face_chamfer", nut.face_chamfer, 0.0, "zero or larger");
  require(nut.top_chamfer >= 0.0, "nut.top_chamfer", nut.top_chamfer, 0.0, "zero or larger");
  require(nut.face_chamfer + nut.top_chamfer < nut.height, "nut.face_chamfer", nut.face_chamfer,
          nut.height - nut.top_chamfer, "so short that full thread remains");
  require(nut.blind_depth >= 0.0 && nut.blind_depth <= nut.height, "nut.blind_depth", nut.blind_depth,
          nut.height, "zero for an open nut, else no deeper than the nut is high");

  // what is requested of it
  require(assembly.engaged_needed >= 0.0, "engaged_needed", assembly.engaged_needed, 0.0, "zero or larger");
  require(std::isfinite(assembly.protrusion_needed), "protrusion_needed", assembly.protrusion_needed, 0.0,
          "a number");
  require(assembly.protrusion_allowed >= assembly.protrusion_needed, "protrusion_allowed",
          assembly.protrusion_allowed, assembly.protrusion_needed, "no less than the protrusion needed");

  for (std::size_t i = 0; i < assembly.pieces.size(); ++i) {
    append_problems(problems, assembly.pieces[i], "pieces[" + std::to_string(i) + "]");
  }
  return problems;
}

HeightBand pile_height(std::span<const Piece> pieces) {
  HeightBand band;
  double squares = 0.0;
  for (const Piece& piece : pieces) {
    if (!piece.adds_height) continue;
    band.nominal += total_of(piece);
    const double each = piece.measured ? piece.measured_tolerance : piece.tolerance;
    band.worst += piece.count * each;
    // one micrometer errs the same way on every piece; the pieces themselves do not
    squares += each * each * piece.count * (piece.measured ? piece.count : 1);
  }
  band.rss = std::sqrt(squares);
  return band;
}

Ledger ledger(const PostAssembly& assembly) {
  const Problems problems = problems_in(assembly);
  SW_CHECK(problems.empty(), problems.front().field, problems.front().got);
  Ledger result;

  // the pile, shoulder first
  double at = 0.0;
  for (std::size_t i = 0; i < assembly.pieces.size(); ++i) {
    const Piece& piece = assembly.pieces[i];
    const double total = total_of(piece);
    result.lines.push_back({static_cast<int>(i), total, at, at + total, piece.measured.has_value()});
    at += total;
  }
  result.height = pile_height(assembly.pieces);

  // what it leaves of the thread
  const Threads t = threads_of(assembly.post, assembly.nut);
  const double pile = result.height.nominal;
  const double pitch = assembly.post.thread.pitch;
  const double tolerance = result.height.worst + assembly.post.tolerance;
  result.thread_left = spread_of(thread_left_at, t, pile, tolerance);
  result.engaged = spread_of(engaged_at, t, pile, tolerance);
  result.engaged_pitches = in_pitches(result.engaged, pitch);
  result.protrusion = spread_of(protrusion_at, t, pile, tolerance);
  result.protrusion_pitches = in_pitches(result.protrusion, pitch);
  result.clamp_gap = pile < t.stop - kHair ? t.stop - pile : 0.0;

  // between which heights all is well
  const double nut_thread = t.nut_to - t.nut_from;
  // a closed nut is never filled: one turn must be left to tighten before the post's end meets its bottom
  const double usual = t.is_closed ? std::max(0.0, engaged_at(t, t.stop) - pitch) : nut_thread;
  result.engaged_needed = assembly.engaged_needed > 0.0 ? assembly.engaged_needed : usual;
  result.least_height = t.stop;
  result.greatest_height = t.post_to - t.nut_from - result.engaged_needed;
  if (!t.is_closed) {
    const double flush = t.post_end - t.nut_height;
    result.least_height = std::max(result.least_height, flush - assembly.protrusion_allowed * pitch);
    result.greatest_height = std::min(result.greatest_height, flush - assembly.protrusion_needed * pitch);
  }
  result.can_fit =
      result.greatest_height >= result.least_height - kHair && result.engaged_needed <= nut_thread + kHair;
  result.flags = flags_of(result, assembly, t, tolerance);
  return result;
}

FloatGap float_gap(const Piece& collar, std::span<const Piece> sliding) {
  const HeightBand collar_height = pile_height({&collar, 1});
  const HeightBand stack = pile_height(sliding);
  FloatGap result;
  result.gap = collar_height.nominal - stack.nominal;
  result.worst = collar_height.worst + stack.worst;
  result.rss = std::hypot(collar_height.rss, stack.rss);
  result.surely_free = result.gap - result.worst > 0.0;
  result.surely_pinched = result.gap + result.worst < 0.0;
  return result;
}

}  // namespace shimwright::assembly
