#pragma once
#include <string>

#include "document/document.h"
#include "document/document_bench.h"

namespace shimwright::document {

/// The document as to_json() writes it, without blanks and with every number to seven digits: for a screen
/// that shows four, and waits for it while a finger drags.
/// Tested: document_brief_test.cc
std::string to_brief_json(const ResultDocument& document);
std::string to_brief_json(const BenchDocument& document);

}  // namespace shimwright::document
