#pragma once
#include <cstddef>

#include "damper/damper.h"
#include "job/document.h"
#include "job/stack_memo.h"
#include "job/value_memo.h"
#include "valve/valve.h"

namespace shimwright::job {

/// What earlier runs found, by value: who turns one shim of a fork computes one stack, one valve and what
/// follows from them; who changes the title computes nothing. The document is to the last bit what it would
/// be without.
///
/// Threads: any.
/// Tested: run_memo_test.cc, stack_memo_test.cc
struct RunMemo {
  StackMemo stacks;
  ValueMemo<valve::SolvedValve> valves{24};  // a tenth of a megabyte each
  ValueMemo<damper::TurnedLaws> turned{8};   // a fifth of a megabyte each
  ValueMemo<ClickFamily> families{48};
  ValueMemo<SpringResult> springs{16};
  ValueMemo<UnitResult> units{16};
};

}  // namespace shimwright::job
