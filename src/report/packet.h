#pragma once
#include <string>
#include <vector>

#include "document/document_bench.h"
#include "report/page.h"
#include "units/format.h"

namespace shimwright::report {

struct PacketOptions {
  Paper paper = Paper::A4;
  units::System system = units::System::Metric;
};

struct PacketFile {
  std::string name;   // "build-sheet.pdf"
  std::string bytes;  // the caller writes them
};

/// Everything printed for one job: the build sheet and, where there is something to set, the settings guide
/// as PDF, both as one self-contained HTML page, and every figure as SVG. The same document gives the same
/// bytes. With a `bench` its sheet and figures come too.
std::vector<PacketFile> packet_files(const document::ResultDocument& document, const PacketOptions& options,
                                     const document::BenchDocument* bench = nullptr);

/// Characters of the job's own words for which no typeface on this machine has a shape. Empty when all is
/// well.
std::string unprintable(const document::ResultDocument& document);

}  // namespace shimwright::report
