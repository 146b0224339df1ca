#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "file/table_csv.h"

namespace shimwright::file {

/// A stroke as a logger or a bench wrote it down.
struct RecordedStroke {
  std::vector<double> time;    // strictly rising, from 0 [s]
  std::vector<double> travel;  // as the record counts it [m] (as time)
  std::vector<double> force;   // measured [N] (as time); empty if not requested
};

struct StrokeRequest {
  std::string time_column;    // heading; empty: by its usual names
  std::string travel_column;  // likewise
  std::string force_column;   // heading; empty: none is read
  double sample_rate = 0.0;   // [Hz] of a file without time; 0: it has one
};

struct StrokeResult {
  RecordedStroke stroke;
  std::vector<CsvFault> faults;
};

/// Time and travel out of a table.
///
/// Errors: never throws for data.
/// Tested: stroke_csv_test.cc, fuzz/table_csv_fuzz.cc
StrokeResult read_stroke(std::string_view csv, const StrokeRequest& request);

}  // namespace shimwright::file
