#pragma once
#include <string>
#include <vector>

#include "document/document_oil.h"
#include "job/run_unit.h"
#include "oil/oil.h"

namespace shimwright::job {

struct OilRun {
  std::string name;
  std::vector<std::string> used_in;
  double working_temperature = 0.0;  // [K]
  double pressure = 0.0;             // at which the bulk modulus is given, absolute [Pa]
  std::vector<double> temperatures;  // rows of the table [K]; empty: 0 to 100 degC in tens
};

document::OilResult oil_result(const oil::OilModel& oil, const OilRun& run);

/// One unit with another oil; the stacks stay as they are solved, they know no oil.
document::OilSwap oil_swap(const UnitModels& models, const oil::OilModel& other,
                           const std::string& other_name);

}  // namespace shimwright::job
