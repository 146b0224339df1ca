#include "base/terms.h"

#include <cstddef>

namespace shimwright {

std::string word(Stroke stroke) {
  return kStrokeWords.at(static_cast<std::size_t>(stroke));
}

std::string word(ValvePlace place) {
  return kValvePlaceWords.at(static_cast<std::size_t>(place));
}

std::string word(Theory theory) {
  return kTheoryWords.at(static_cast<std::size_t>(theory));
}

}  // namespace shimwright
