// Any bytes are a stroke of rising time and finite travel, or faults that each have words, a remedy and a
// place inside the text.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>

#include "base/check.h"
#include "file/stroke_csv.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace shimwright::file;
  if (size == 0) return 0;
  const std::string text(reinterpret_cast<const char*>(data) + 1, size - 1);
  StrokeRequest request;
  if (data[0] & 1) request.sample_rate = 250.0;
  if (data[0] & 2) request.travel_column = "fork";
  if (data[0] & 4) request.time_column = "clock";
  const StrokeResult result = read_stroke(text, request);

  const auto n_lines = 1 + std::count(text.begin(), text.end(), '\n');
  for (const CsvFault& fault : result.faults) {
    SW_CHECK(!fault.what.empty() && !fault.remedy.empty(), fault.what);
    SW_CHECK(fault.line >= 0 && fault.line <= n_lines && fault.column >= 1, fault.line, fault.column);
  }
  SW_CHECK(result.stroke.time.size() == result.stroke.travel.size());
  SW_CHECK(result.faults.empty() == !result.stroke.time.empty(), result.faults.size());
  for (std::size_t i = 0; i < result.stroke.time.size(); ++i) {
    SW_CHECK(std::isfinite(result.stroke.travel[i]), i);
    SW_CHECK(i == 0 || result.stroke.time[i] > result.stroke.time[i - 1], i);
  }
  return 0;
}
