#pragma once
#include <cstddef>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "base/problem.h"
#include "file/spec.h"
#include "resolve/resolve_places.h"

namespace shimwright::resolve {

/// As a fault, code E0902: the command cannot work without it.
Diagnostic missing_fault(const file::JobSpec& job, const file::Missing& missing);

/// What physics refuses, said at the place in the file and in the user's units. Code E0901.
Diagnostics located(const file::JobSpec& job, const Problems& problems, const FieldPlaces& places,
                    const file::Origin& around);

/// What comes out of resolving besides the models: what is wrong in the file, and what it does not say.
struct ResolveReport {
  Diagnostics diagnostics;
  std::vector<file::Missing> missing;  // for sections that were requested

  std::size_t size() const { return diagnostics.size() + missing.size(); }

  void add(const ResolveReport& other);

  /// What physics refuses of a model. `around` is where a problem is shown whose field has no place.
  void add_refused(const file::JobSpec& job, const Problems& problems, const FieldPlaces& places,
                   const file::Origin& around);
};

}  // namespace shimwright::resolve
