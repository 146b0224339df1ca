#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/terms.h"
#include "document/document_value.h"

// What each struct and each member means: document_describe_cure.cc

namespace shimwright::document {

/// What stands on the springs.
enum class SagLoad { Static, Rider };
std::string word(SagLoad load);  // "static", "rider"

/// What a cure moves.
enum class CureGoal { Force, CavitationMargin, Sag, YieldMargin, FatigueMargin };

struct KeyChange {
  std::string path;
  std::string adjuster;
  Value from;
  Value to;
};

struct CureEffect {
  CureGoal goal = CureGoal::Force;
  std::optional<Stroke> stroke;
  std::optional<double> speed;
  std::optional<SagLoad> under;
  std::optional<ValvePlace> valve;
  std::optional<double> drop;
  Value before;
  Value after;
};

struct Cure {
  std::string unit;
  std::vector<KeyChange> changes;
  std::vector<CureEffect> effects;
};

}  // namespace shimwright::document
