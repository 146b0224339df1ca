#pragma once

namespace shimwright::judge {

/// Margin to the fatigue limit below which a stack is looked at: a fifth left (common practice, no source).
inline constexpr double kFatigueSpare = 1.2;

}  // namespace shimwright::judge
