#include "damper/motion_packed.h"

namespace shimwright::damper::motion {

SW_PACKED_STEPPER(9);
SW_PACKED_STEPPER(kPlaces);

}  // namespace shimwright::damper::motion
