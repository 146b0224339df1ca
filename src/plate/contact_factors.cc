#include "plate/contact_factors.h"

#include <algorithm>
#include <cmath>

namespace shimwright::plate {
namespace {

constexpr double kSharedBore =
    1e-9;  // flexibility of a place between two bores, as a share of the ring's own
constexpr double kRingGround = 1e-9;  // a ring that nothing touches hangs on this share of its own stiffness
constexpr double kLostDigits = 1e-7;  // a border's pivot below this share of what it was taken from

}  // namespace

void Flexibility::resize(int n_stations) {
  n = n_stations;
  column.assign(static_cast<std::size_t>(n) * n, 0.0);
  have.assign(n, 0);
  rest.assign(n, 0.0);
  complete = false;
}

void ContactFactors::set_up(const Layout& layout) {
  const std::size_t n_points = layout.points.size();
  has_factors_ = false;
  n_layers_ = layout.n_layers();
  n_border_ = 0;
  active_.assign(n_points, 0);
  position_.assign(n_points, -1);
  beside_ring_.assign(n_points, 0);
  for (std::size_t p = 0; p < n_points; ++p)
    for (int layer : {layout.points[p].lower, layout.points[p].upper})
      if (layer != kBelow && layer < n_layers_ && layout.layers[layer].ring) beside_ring_[p] = 1;
}

void ContactFactors::number_unknowns(const Layout& layout) {
  unknowns_.clear();
  spans_.clear();
  station_.clear();
  std::size_t r = 0;
  for (int lower = kBelow; lower < n_layers_; ++lower) {
    for (; r < layout.runs.size() && layout.runs[r].lower == lower; ++r) {
      const ContactRun& run = layout.runs[r];
      Span span;
      span.lower = run.lower;
      span.upper = run.upper < n_layers_ ? run.upper : kBelow;
      span.begin = static_cast<int>(unknowns_.size());
      for (int k = 0; k < run.n; ++k) {
        const int p = run.first_point + k;
        position_[p] = -1;
        if (!active_[p]) continue;
        position_[p] = static_cast<int>(unknowns_.size());
        unknowns_.push_back({p, -1});
        station_.push_back(run.station + k);
      }
      span.end = static_cast<int>(unknowns_.size());
      if (span.end > span.begin) spans_.push_back(span);
    }
    // a ring's balance comes after all that presses on it, so that its pivot is never zero
    if (lower != kBelow && layout.layers[lower].ring) {
      const int at = static_cast<int>(unknowns_.size());
      spans_.push_back({kBelow, kBelow, lower, at, at + 1});
      unknowns_.push_back({-1, lower});
      station_.push_back(0);
    }
  }
  find_profile();
}

/// Each column reaches down to the last unknown that shares a layer with it, and never less far than the one
/// before.
void ContactFactors::find_profile() {
  const int n = static_cast<int>(unknowns_.size());
  last_of_layer_.assign(n_layers_, -1);
  for (const Span& span : spans_)
    for (int layer : {span.lower, span.upper, span.ring})
      if (layer != kBelow) last_of_layer_[layer] = span.end - 1;
  column_end_.resize(n);
  column_offset_.resize(n);
  int size = 0;
  int end = 0;
  for (const Span& span : spans_) {
    for (int layer : {span.lower, span.upper, span.ring})
      if (layer != kBelow) end = std::max(end, last_of_layer_[layer]);
    for (int i = span.begin; i < span.end; ++i) {
      end = std::max(end, i);
      column_end_[i] = end;
      column_offset_[i] = size;
      size += end - i + 1;
    }
  }
  factors_.resize(size);
  over_pivot_.resize(n);
  right_.resize(n);
  given_.resize(n);
  column_.resize(n);
}

/// What the gaps of the unknowns `from` to `to` (the first of them in `first_span`) yield to a unit force
/// between the bodies of `by` at a station: into out[0 ...], which is zero.
void ContactFactors::couple(const Layout& layout, const std::vector<Flexibility>& layers, const Span& by,
                            int station, Range range, double* out) const {
  const auto add = [&](int layer, const Span& span, double sign) {
    const int begin = layout.layers[layer].begin;
    const double* lift = &layers[layer].column[static_cast<std::size_t>(station - begin) * layers[layer].n];
    for (int i = std::max(range.from, span.begin); i < span.end; ++i)
      out[i - range.from] += sign * lift[station_[i] - begin];
  };
  for (std::size_t s = range.first_span; s < spans_.size() && spans_[s].begin <= range.to; ++s) {
    const Span& span = spans_[s];
    if (span.ring != kBelow) {
      if (by.upper == span.ring) out[span.begin - range.from] = 1.0;
      if (by.lower == span.ring) out[span.begin - range.from] = -1.0;
      continue;
    }
    if (by.lower != kBelow && span.lower == by.lower) add(by.lower, span, 1.0);
    if (by.lower != kBelow && span.upper == by.lower) add(by.lower, span, -1.0);
    if (by.upper != kBelow && span.lower == by.upper) add(by.upper, span, -1.0);
    if (by.upper != kBelow && span.upper == by.upper) add(by.upper, span, 1.0);
  }
}

/// How far a gap gives under its own force. Two rings that touch at a shared bore give only together: a
/// little flexibility of the place itself keeps that pivot from being zero.
double ContactFactors::pivot(const Layout& layout, const std::vector<Flexibility>& layers, int point) const {
  const double value = between(layout, layers, point, point) + layout.points[point].compliance;
  if (!beside_ring_[point]) return value;
  double rim = 0.0;
  for (int layer : {layout.points[point].lower, layout.points[point].upper})
    if (layer != kBelow && layer < n_layers_ && layout.layers[layer].ring)
      rim = std::max(rim, layers[layer].column.back());
  return value > kSharedBore * kSharedBore * rim ? value : kSharedBore * rim;
}

/// How far the gap at point a gives under a unit force at point b.
double ContactFactors::between(const Layout& layout, const std::vector<Flexibility>& layers, int a,
                               int b) const {
  const ContactPoint& at = layout.points[a];
  const ContactPoint& by = layout.points[b];
  double value = 0.0;
  for (int of_at : {at.lower, at.upper}) {
    if (of_at == kBelow || of_at >= n_layers_) continue;
    for (int of_by : {by.lower, by.upper}) {
      if (of_by != of_at) continue;
      const int begin = layout.layers[of_at].begin;
      const double lift =
          layers[of_at]
              .column[static_cast<std::size_t>(by.station - begin) * layers[of_at].n + at.station - begin];
      value += (of_at == at.lower) == (of_by == by.lower) ? lift : -lift;
    }
  }
  return value;
}

void ContactFactors::factor(const Layout& layout, const std::vector<Flexibility>& layers,
                            const std::vector<char>& active) {
  active_ = active;
  n_border_ = 0;
  number_unknowns(layout);
  std::fill(factors_.begin(), factors_.end(), 0.0);
  for (std::size_t s = 0; s < spans_.size(); ++s) {
    const Span& span = spans_[s];
    for (int j = span.begin; j < span.end; ++j) {
      double* column = &factors_[column_offset_[j]];
      if (span.ring != kBelow) {
        for (std::size_t other = s + 1; other < spans_.size() && spans_[other].begin <= column_end_[j];
             ++other)
          for (int i = spans_[other].begin; i < spans_[other].end; ++i)
            column[i - j] = spans_[other].upper == span.ring   ? 1.0
                            : spans_[other].lower == span.ring ? -1.0
                                                               : 0.0;
        column[0] = -kRingGround / layers[span.ring].column.back();
        continue;
      }
      couple(layout, layers, span, station_[j], {s, j, column_end_[j]}, column);
      column[0] = pivot(layout, layers, unknowns_[j].point);
    }
  }
  factor_profile(view(), factors_.data(), over_pivot_.data());
  border_columns_.resize(unknowns_.size() * kMaxBorder);
  has_factors_ = true;
}

/// Factors of the corner, a row longer. False when its pivot is lost in rounding.
bool ContactFactors::append(double whole) {
  const int k = n_border_;
  double* row = corner_l_[k];
  for (int j = 0; j < k; ++j) {
    double value = corner_[k][j];
    for (int i = 0; i < j; ++i) value -= row[i] * corner_l_[j][i];
    row[j] = value;
  }
  double pivot_value = corner_[k][k];
  for (int j = 0; j < k; ++j) {
    const double scaled = row[j] * corner_l_[j][j];
    pivot_value -= scaled * row[j];
    row[j] = scaled;
  }
  if (!(std::abs(pivot_value) > kLostDigits * std::abs(whole))) return false;
  row[k] = 1.0 / pivot_value;
  return true;
}

void ContactFactors::drop(int border) {
  const int n_left = n_border_ - 1;
  for (int b = border; b < n_left; ++b) {
    border_[b] = border_[b + 1];
    std::copy_n(border_column(b + 1), unknowns_.size(), border_column(b));
    for (int j = 0; j < border; ++j) corner_[b][j] = corner_[b + 1][j];
    for (int j = border; j <= b; ++j) corner_[b][j] = corner_[b + 1][j + 1];
  }
  for (n_border_ = 0; n_border_ < n_left; ++n_border_) append(0.0);
}

bool ContactFactors::toggle(const Layout& layout, const std::vector<Flexibility>& layers, int point) {
  for (int b = 0; b < n_border_; ++b) {
    if (border_[b].point != point) continue;
    drop(b);
    active_[point] = !active_[point];
    return true;
  }
  if (n_border_ == kMaxBorder || beside_ring_[point]) return false;

  // the border's own column and the system's answer to it
  const int n = static_cast<int>(unknowns_.size());
  Border next{point, active_[point] ? position_[point] : -1};
  double* answer = border_column(n_border_);
  std::fill(answer, answer + n, 0.0);
  int first = next.position;
  if (next.position >= 0) {
    answer[next.position] = 1.0;
  } else {
    const ContactPoint& at = layout.points[point];
    Span by;
    by.lower = at.lower;
    by.upper = at.upper < n_layers_ ? at.upper : kBelow;
    couple(layout, layers, by, at.station, {0, 0, n - 1}, answer);
    for (first = 0; first < n && answer[first] == 0.0;) ++first;
  }
  std::copy_n(answer, n, column_.data());
  solve_profile(view(), factors_.data(), over_pivot_.data(), first, answer);

  // its row of the Schur complement
  double* row = corner_[n_border_];
  for (int b = 0; b < n_border_; ++b) {
    const double whole =
        next.position < 0 && border_[b].position < 0 ? between(layout, layers, point, border_[b].point) : 0.0;
    row[b] = whole - dot(n - first, column_.data() + first, border_column(b) + first);
  }
  const double whole = next.position < 0 ? pivot(layout, layers, point) : 0.0;
  const double taken = dot(n - first, column_.data() + first, answer + first);
  row[n_border_] = whole - taken;
  if (!append(next.position < 0 ? whole : taken)) return false;
  border_[n_border_++] = next;
  active_[point] = !active_[point];
  return true;
}

void ContactFactors::solve(const std::vector<double>& overlap, std::vector<double>& force,
                           std::vector<double>& shift) {
  const int n = static_cast<int>(unknowns_.size());
  for (int i = 0; i < n; ++i) right_[i] = unknowns_[i].point < 0 ? 0.0 : overlap[unknowns_[i].point];
  if (n_border_ > 0) given_ = right_;
  solve_profile(view(), factors_.data(), over_pivot_.data(), 0, right_.data());

  // the border: its own unknowns, then what they take from the others
  double own[kMaxBorder];
  for (int b = 0; b < n_border_; ++b) {
    own[b] = border_[b].position < 0 ? overlap[border_[b].point] - dot(n, border_column(b), given_.data())
                                     : -right_[border_[b].position];
    for (int j = 0; j < b; ++j) own[b] -= corner_l_[b][j] * own[j];
  }
  for (int b = 0; b < n_border_; ++b) own[b] *= corner_l_[b][b];
  for (int b = n_border_ - 1; b >= 0; --b)
    for (int j = 0; j < b; ++j) own[j] -= corner_l_[b][j] * own[b];
  for (int b = 0; b < n_border_; ++b) add_scaled(n, -own[b], border_column(b), right_.data());

  std::fill(force.begin(), force.end(), 0.0);
  std::fill(shift.begin(), shift.end(), 0.0);
  for (int i = 0; i < n; ++i) {
    if (unknowns_[i].point < 0) {
      shift[unknowns_[i].ring] = right_[i];
    } else {
      force[unknowns_[i].point] = right_[i];
    }
  }
  for (int b = 0; b < n_border_; ++b) force[border_[b].point] = border_[b].position < 0 ? own[b] : 0.0;
}

}  // namespace shimwright::plate
