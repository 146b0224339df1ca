#pragma once

namespace shimwright::cli {

/// The commit that this program was built from, "0123456789", with "-changed" behind it when the source had
/// been changed since; "" when it was built from no clone. cmake/Identity.cmake writes it.
const char* build_identity();

}  // namespace shimwright::cli
