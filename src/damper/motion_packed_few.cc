#include "damper/motion_packed.h"

namespace shimwright::damper::motion {

SW_PACKED_STEPPER(5);
SW_PACKED_STEPPER(7);

}  // namespace shimwright::damper::motion
