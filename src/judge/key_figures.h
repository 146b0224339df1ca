#pragma once
#include "document/document.h"

namespace shimwright::judge {

/// Adds the few numbers that stay in view while a build changes: of each unit its forces, margins to
/// cavitation, worst shim and least engaged thread; of a lone stack its lifts and its worst shim. Their
/// verdicts are those of the document's findings, so that it has to be judged before.
///
/// Tested: key_figures_test.cc
void add_key_figures(document::ResultDocument& document);

}  // namespace shimwright::judge
