#pragma once
#include <optional>
#include <string>

#include "cli/asked.h"
#include "job/run_bench.h"

namespace shimwright::cli {

/// What `bench` alone takes.
struct BenchAsked {
  std::string air;         // "2 mL": in the rod chamber, in place of the job's
  std::string springs;     // "in" or "out", in place of the job's
  unsigned threads = 0;    // 0: all cores
  bool in_packet = false;  // of `packet`: a bench sheet too
};

/// True while a bench runs and takes the first Ctrl-C as "end, and show what is finished".
bool bench_listens();

/// Options as text to what run_bench_job takes; nothing after a fault was printed.
std::optional<job::BenchOptions> bench_options(const Streams& s, const Asked& asked, const BenchAsked& bench);

/// A job on the bench, with its progress on the error stream and Ctrl-C; nothing after faults were printed.
std::optional<document::BenchDocument> computed_bench(const Streams& s, const Asked& asked,
                                                      const BenchAsked& bench, const job::JobFile& file);

/// The verb: exit code, with the document shown as the options say.
int run_bench(const Streams& s, const Asked& asked, const BenchAsked& bench);

}  // namespace shimwright::cli
