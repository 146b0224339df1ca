#pragma once
#include <string>
#include <vector>

#include "report/page.h"

namespace shimwright::report {

/// The pages of the manual.
std::vector<Scene> manual_pages(Paper paper, const std::string& version);

/// The manual for the technician as a PDF: docs/manual.md as it was when the program was built, with its
/// pictures, a table of contents and page numbers. `version` of the program, for the foot of each page.
std::string manual_pdf(Paper paper, const std::string& version);

}  // namespace shimwright::report
