#pragma once
#include <optional>
#include <string>
#include <vector>

#include "document/document_cure.h"
#include "document/document_value.h"

// What each struct and each member means: document_describe_spring.cc

namespace shimwright::document {

struct SpringPoint {
  double travel = 0;
  double force = 0;
  double rate = 0;
  std::vector<double> shares;
};

struct SpringEffect {
  std::string what;
  Value change;
  double at_sag = 0;
  double at_middle = 0;
  double at_end = 0;
};

/// What no preload and no pressure mends.
enum class SpringNeed { None, Stiffer, Softer };

struct SagResult {
  SagLoad under = SagLoad::Static;
  double load = 0;
  double travel = 0;
  double wheel_travel = 0;
  double share = 0;
  std::optional<Value> low;
  std::optional<Value> high;
  bool usual_target = false;
  bool topped_out = false;
  bool bottomed = false;
  std::string knob;
  std::optional<Value> change;
  SpringNeed need = SpringNeed::None;
  std::optional<Cure> cure;
  Outcome outcome;
};

struct SpringResult {
  std::vector<std::string> names;
  double travel = 0;
  std::vector<SpringPoint> points;
  std::vector<SpringEffect> effects;
  std::vector<SagResult> sag;

  std::optional<double> air_end_travel;
  std::optional<double> coil_bind_travel;
  std::optional<double> positive_pressure;
  double preload_force = 0;
  double end_force = 0;
  Outcome outcome;
};

}  // namespace shimwright::document
