#pragma once
#include <string>

#include "document/document_describe.h"

namespace shimwright::document {

/// The line of docs/result-document.md and docs/bench-document.md below which everything is made from the
/// descriptions. The text above it is written by hand.
inline constexpr const char* kPageMark =
    "<!-- From here on this page is made from src/document/document_describe_*.cc. -->";

/// The text below the mark, one section for each struct.
/// Tested: document_pages_test.cc
std::string result_page_tables();
std::string bench_page_tables();

/// The section of one struct.
std::string page_section(const StructInfo& structure);

}  // namespace shimwright::document
