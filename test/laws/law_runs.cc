#include "document/document_json.h"
#include "job/run_bench.h"
#include "laws.h"
#include "quick_bench.h"
#include "report/packet.h"

namespace shimwright::laws {

std::vector<std::string> broken_by_bench(const LawCase& at) {
  std::vector<std::string> broken;
  if (!at.job.bench) return broken;
  const auto bench = job::run_bench_job(with_quick_bench(at.job), {});
  if (!bench) return broken;
  for (const std::string& path : document::non_finite_paths(*bench)) broken.push_back(path + " is no number");
  return broken;
}

std::vector<std::string> broken_by_print(const LawCase& at) {
  std::vector<std::string> broken;
  if (report::packet_files(at.document, {}).empty()) broken.push_back("the packet is empty");
  return broken;
}

}  // namespace shimwright::laws
