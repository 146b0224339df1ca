#pragma once
#include <string>

namespace shimwright {

/// The few words of the trade that the job file, the physics and the documents share. They are said once,
/// here, because no two of those three may know each other's types.

/// Which way the damper moves.
enum class Stroke { Compression, Rebound };

/// Which valve of the two-valve network.
enum class ValvePlace { Piston, Foot };

/// How a stack's lift is computed.
enum class Theory {
  Large,   // large lift: rotations finite, discs stretch as they dish
  Linear,  // small lift: the response is piecewise linear in the pressure
};

std::string word(Stroke stroke);     // "compression", "rebound"
std::string word(ValvePlace place);  // "piston valve", "foot valve"
std::string word(Theory theory);     // "large deflection", "linear"

}  // namespace shimwright
