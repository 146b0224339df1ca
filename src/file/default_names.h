#pragma once
#include "file/spec.h"

namespace shimwright::file {

/// Names what the job leaves without a name, by what it is: a unit "shock", an adjuster "rebound needle", and
/// where two in a unit would be called alike "rebound needle of the foot valve". What was typed stays as it
/// is; a name given here is not `given`.
void name_what_has_none(JobSpec& job);

}  // namespace shimwright::file
