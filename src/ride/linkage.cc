#include "ride/linkage.h"

#include <string>

#include "base/check.h"
#include "num/bounds.h"

namespace shimwright::ride {
namespace {

constexpr double kLongestTravel = 1.0;  // of a wheel [m]
constexpr double kLeastLeverage = 0.2;  // wheel travel per shock travel [-]
constexpr double kMostLeverage = 20.0;  //
constexpr int kPerInterval = 32;        // places at which a leverage table is integrated

std::string row(std::size_t i, const char* name) {
  return "table[" + std::to_string(i) + "]." + name;
}

template <typename Row>
void check_wheel_travels(const std::vector<Row>& table, num::Bounds& bounds) {
  if (table.size() < 2) {
    bounds.add({"table", static_cast<double>(table.size()), 2.0, "at least two rows"});
    return;
  }
  bounds.check(row(0, "wheel_travel"), table.front().wheel_travel, 0.0, 0.0,
               "fully out, 0, in the first row");
  for (std::size_t i = 1; i < table.size(); ++i) {
    if (!(table[i].wheel_travel > table[i - 1].wheel_travel)) {
      bounds.add({row(i, "wheel_travel"), table[i].wheel_travel, table[i - 1].wheel_travel,
                  "more than the row before"});
    }
  }
  bounds.check(row(table.size() - 1, "wheel_travel"), table.back().wheel_travel, 0.0, kLongestTravel,
               "up to 1 m");
}

/// Spline of a column over the wheel travels.
template <typename Row, typename Column>
num::Curve spline_of(const std::vector<Row>& table, Column column) {
  std::vector<double> x, y;
  for (const Row& r : table) {
    x.push_back(r.wheel_travel);
    y.push_back(column(r));
  }
  return num::smooth_curve(std::move(x), std::move(y));
}

/// The first row after which a spline that should keep a property loses it, or the size of the table.
template <typename Keeps>
std::size_t first_break(const num::Curve& curve, Keeps keeps) {
  for (std::size_t i = 0; i + 1 < curve.x.size(); ++i) {
    for (const double x : num::evenly_spaced(curve.x[i], curve.x[i + 1], kPerInterval + 1)) {
      if (!keeps(num::curve_at(curve, x))) return i;
    }
  }
  return curve.x.size();
}

double shock_of(const LinkageRow& r) {
  return r.shock_travel;
}
double ratio_of(const LeverageRow& r) {
  return 1.0 / r.leverage;
}

/// Integral of a curve over one of its intervals' parts. Simpson's rule is exact for cubics.
double integral(const num::Curve& curve, double from, double to) {
  return (to - from) / 6.0 *
         (num::value_at(curve, from) + 4.0 * num::value_at(curve, 0.5 * (from + to)) +
          num::value_at(curve, to));
}

}  // namespace

Problems problems_in(const std::vector<LinkageRow>& table) {
  num::Bounds bounds;
  check_wheel_travels(table, bounds);
  if (table.size() >= 2) {
    bounds.check(row(0, "shock_travel"), table.front().shock_travel, 0.0, 0.0,
                 "fully out, 0, in the first row");
  }
  for (std::size_t i = 1; i < table.size(); ++i) {
    if (!(table[i].shock_travel > table[i - 1].shock_travel)) {
      bounds.add({row(i, "shock_travel"), table[i].shock_travel, table[i - 1].shock_travel,
                  "more than the row before"});
    }
  }
  Problems problems = bounds.take();
  if (!problems.empty()) return problems;

  // a table with one row mistyped still rises, but its spline turns back
  const num::Curve curve = spline_of(table, shock_of);
  const std::size_t i = first_break(curve, [](const num::CurvePoint& point) { return point.slope > 0.0; });
  if (i < table.size()) {
    problems.push_back({row(i + 1, "shock_travel"), table[i + 1].shock_travel, table[i].shock_travel,
                        "in line with its neighbours; the shock would turn back between these rows"});
  }
  return problems;
}

Problems problems_in(const std::vector<LeverageRow>& table) {
  num::Bounds bounds;
  check_wheel_travels(table, bounds);
  for (std::size_t i = 0; i < table.size(); ++i) {
    bounds.check(row(i, "leverage"), table[i].leverage, kLeastLeverage, kMostLeverage,
                 "0.2 to 20, wheel travel per shock travel");
  }
  Problems problems = bounds.take();
  if (!problems.empty()) return problems;

  const num::Curve curve = spline_of(table, ratio_of);
  const std::size_t i = first_break(curve, [](const num::CurvePoint& point) { return point.value > 0.0; });
  if (i < table.size()) {
    problems.push_back({row(i + 1, "leverage"), table[i + 1].leverage, table[i].leverage,
                        "in line with its neighbours; the shock would turn back between these rows"});
  }
  return problems;
}

Linkage linkage_through(const std::vector<LinkageRow>& table) {
  return {spline_of(table, shock_of)};
}

Linkage linkage_through(const std::vector<LeverageRow>& table) {
  const num::Curve ratio = spline_of(table, ratio_of);
  std::vector<double> x{0.0}, y{0.0}, slope{num::value_at(ratio, 0.0)};
  for (std::size_t i = 0; i + 1 < ratio.x.size(); ++i) {
    const std::vector<double> places = num::evenly_spaced(ratio.x[i], ratio.x[i + 1], kPerInterval + 1);
    for (std::size_t j = 1; j < places.size(); ++j) {
      y.push_back(y.back() + integral(ratio, places[j - 1], places[j]));
      x.push_back(places[j]);
      slope.push_back(num::value_at(ratio, places[j]));
    }
  }
  return {num::curve_with_slopes(std::move(x), std::move(y), std::move(slope))};
}

LinkagePoint linkage_at(const Linkage& linkage, double wheel_travel) {
  const num::CurvePoint point = num::curve_at(linkage.shock_travel, wheel_travel);
  return {point.value, point.slope, point.curvature};
}

double wheel_travel_at(const Linkage& linkage, double shock_travel) {
  return num::argument_at(linkage.shock_travel, shock_travel);
}

}  // namespace shimwright::ride
