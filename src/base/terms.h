#pragma once
#include <array>
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

/// Where in the order of the work a part of a job is done.
enum class Station { Rider, Hardware, Valving, Springs, Effect, Fit, Build, HandOver };

/// Their words, in the order of their values.
inline constexpr std::array kStrokeWords = {"compression", "rebound"};
inline constexpr std::array kValvePlaceWords = {"piston valve", "foot valve"};
inline constexpr std::array kTheoryWords = {"large deflection", "linear"};
inline constexpr std::array kStationWords = {"rider",  "hardware", "valving", "springs",
                                             "effect", "fit",      "build",   "handover"};

std::string word(Stroke stroke);
std::string word(ValvePlace place);
std::string word(Theory theory);

}  // namespace shimwright
