#include "report/spread.h"

#include <algorithm>
#include <numeric>

namespace shimwright::report {

std::vector<double> spread(const std::vector<double>& wanted, double pitch, double min, double max) {
  std::vector<std::size_t> order(wanted.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](auto a, auto b) { return wanted[a] < wanted[b]; });

  // clusters of labels that touch share their displacement, so that each is as near to its place as the
  // others allow
  struct Cluster {
    double sum = 0.0;  // of (wanted - index * pitch)
    std::size_t first = 0, n = 0;
    double start(double lo, double hi, double p) const {
      return std::clamp(sum / double(n), lo, std::max(lo, hi - p * double(n - 1)));
    }
  };
  std::vector<Cluster> clusters;
  for (std::size_t k = 0; k < order.size(); ++k) {
    clusters.push_back({wanted[order[k]], k, 1});
    while (clusters.size() > 1) {
      const Cluster& b = clusters.back();
      Cluster& a = clusters[clusters.size() - 2];
      if (a.start(min, max, pitch) + pitch * double(a.n) <= b.start(min, max, pitch)) break;
      a.sum += b.sum - pitch * double(a.n) * double(b.n);
      a.n += b.n;
      clusters.pop_back();
    }
  }
  std::vector<double> places(wanted.size());
  for (const Cluster& c : clusters)
    for (std::size_t i = 0; i < c.n; ++i)
      places[order[c.first + i]] = c.start(min, max, pitch) + pitch * double(i);
  return places;
}

}  // namespace shimwright::report
