#pragma once
#include <string>
#include <vector>

#include "base/result.h"
#include "document/document_bench.h"
#include "units/format.h"

namespace shimwright::cli {

enum class FigureKind { None, Stack, Force, Spring, Post };

/// Draws the figure of a verb to `path`, as SVG or PNG by its ending; where a job has several (stacks, units)
/// the second and later get "-2", "-3" before the ending. The names written, or one sentence why not.
Result<std::vector<std::string>, std::string> write_figures(const std::string& path,
                                                            const document::ResultDocument& document,
                                                            FigureKind kind, units::System system);

/// The figures of a bench, unit by unit, in the same way.
Result<std::vector<std::string>, std::string> write_bench_figures(const std::string& path,
                                                                  const document::BenchDocument& document,
                                                                  units::System system);

}  // namespace shimwright::cli
