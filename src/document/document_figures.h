#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "document/document_value.h"

// What each struct and each member means: document_describe_figures.cc

namespace shimwright::document {

struct KeyFigure {
  std::string key;
  std::string label;
  std::string short_label;
  Value value;
  std::string where;
  std::optional<double> pressure;
  Severity verdict = Severity::Note;
  std::string reason;
  std::string pointer;
};

struct KeyForceFigures {
  double speed = 0;
  KeyFigure compression;
  KeyFigure rebound;
};

struct KeyFigures {
  std::vector<KeyForceFigures> forces;
  std::vector<KeyFigure> margins;
};

}  // namespace shimwright::document
