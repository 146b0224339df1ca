#include "quick_bench.h"

#include <algorithm>

namespace shimwright::laws {

file::JobSpec with_quick_bench(file::JobSpec job) {
  if (!job.bench) return job;
  const auto at_most = [](file::Count& count, int most) {
    count.value = std::min(count.value_or(most), most);
    count.given = true;
  };
  at_most(job.bench->cycles, 2);
  at_most(job.bench->samples, 32);
  job.bench->tolerance.value = 1e-4;
  job.bench->tolerance.given = true;
  for (file::DriveSpec& drive : job.bench->drives) {
    if (drive.frequency.size() > 1) drive.frequency.resize(1);
    if (drive.speed.size() > 1) drive.speed.resize(1);
  }
  return job;
}

}  // namespace shimwright::laws
