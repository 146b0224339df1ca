#pragma once
#include <cstdio>
#include <fstream>
#include <string>

#include "base/test_folder.h"

namespace shimwright::report {

/// The text of a PDF as pdftotext reads it, its pages apart by a form feed.
inline std::string text_of_pdf(const std::string& bytes) {
  const TestFolder folder;
  const std::string path = folder.file("sheet.pdf");
  std::ofstream(path, std::ios::binary) << bytes;
  std::string text;
  if (FILE* pipe = popen(("pdftotext -layout " + path + " -").c_str(), "r")) {
    char buffer[4096];
    while (const std::size_t n = fread(buffer, 1, sizeof buffer, pipe)) text.append(buffer, n);
    pclose(pipe);
  }
  return text;
}

}  // namespace shimwright::report
