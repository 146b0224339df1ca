#pragma once
#include <string>

#include "server/api_fault.h"
#include "server/views.h"
#include "server/workbench.h"
#include "units/format.h"

namespace shimwright::server {

/// A file of the packet, "build-sheet.pdf"; `letter` for that paper instead of A4.
Answer<Attachment> packet_file(const document::ResultDocument& document, const std::string& file, bool letter,
                               units::System system);

/// One figure as SVG.
Answer<Attachment> figure(const document::ResultDocument& document, const FigureRequest& request,
                          units::System system);

}  // namespace shimwright::server
