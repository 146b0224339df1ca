#pragma once

namespace shimwright::job {

/// The program's version, as every result says it; the same as in CMakeLists.txt (pick_list_test.cc).
inline constexpr const char* kProgramVersion = "0.1.0";

}  // namespace shimwright::job
