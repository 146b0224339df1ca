#pragma once

namespace shimwright::flow {

/// A flow and how it changes with the drop that drives it. Both are positive in the element's own direction;
/// every law here is odd in the drop, passive (q * drop >= 0) and never falls.
struct FlowPoint {
  double q = 0.0;       // volume flow [m^3/s]
  double dq_ddp = 0.0;  // its derivative with the pressure drop [m^3/(s.Pa)]
};

}  // namespace shimwright::flow
