#pragma once
#include <span>
#include <string>

#include "report/scene.h"

namespace shimwright::report {

struct PdfInfo {
  std::string title;
  std::string subject;
  std::string date;  // ISO 8601 day, of the job: the same job gives the same bytes on every day
};

/// The pages as one PDF, fonts embedded and subset, text searchable, bookmarks as its outline. Bytes, not a
/// file: the caller decides where.
std::string pdf_bytes(std::span<const Scene> pages, const PdfInfo& info);

/// Of a drawing that is written as PNG [1/inch].
inline constexpr double kPictureDpi = 150.0;

/// One drawing as a PNG on white paper at `dpi` dots per inch.
std::string png_bytes(const Scene& scene, double dpi);

}  // namespace shimwright::report
