#pragma once
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "document/document_cure.h"
#include "document/document_value.h"

// What each struct and each member means: document_describe_value.cc

namespace shimwright::document {

struct Place {
  std::string unit;
  std::string valve;
  std::string stroke;
  std::string path;
  std::string file;
  int line = 0;
};

struct Finding {
  std::string code;
  Severity severity = Severity::Note;
  Place place;
  Station station = Station::Effect;

  std::string title;
  std::vector<NamedValue> numbers;
  std::string rule;
  std::string source;
  std::string remedy;
  std::string in_file;
  std::vector<Cure> cures;
};

}  // namespace shimwright::document
