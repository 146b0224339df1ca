#include "file/judged_speeds.h"

namespace shimwright::file {

JudgedSpeeds judged_speeds(UnitKind kind) {
  if (kind == UnitKind::Shock) return {{0.05, 0.25, 0.5, 1.5}, 1.5, 1.0, 2.0};
  return {{0.05, 0.5, 1.0, 3.0}, 3.0, 1.5, 4.0};
}

}  // namespace shimwright::file
