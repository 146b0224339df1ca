#include "base/terms.h"

namespace shimwright {

std::string word(Stroke stroke) {
  return stroke == Stroke::Compression ? "compression" : "rebound";
}

std::string word(ValvePlace place) {
  return place == ValvePlace::Piston ? "piston valve" : "foot valve";
}

std::string word(Theory theory) {
  return theory == Theory::Large ? "large deflection" : "linear";
}

}  // namespace shimwright
