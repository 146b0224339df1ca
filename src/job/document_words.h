#pragma once
#include <array>
#include <cstddef>

#include "base/diagnostic.h"
#include "base/outcome.h"
#include "job/document.h"

namespace shimwright::job::internal {

/// The words by which an enumeration travels in JSON, in the order of its values.
template <typename Enum>
struct Words;
template <>
struct Words<Status> {
  static constexpr std::array list = {"converged", "out of range", "stalled"};
};
template <>
struct Words<Severity> {
  static constexpr std::array list = {"fine", "look", "stop"};
};
template <>
struct Words<Stroke> {
  static constexpr std::array list = {"compression", "rebound"};
};
template <>
struct Words<Theory> {
  static constexpr std::array list = {"large deflection", "linear"};
};
template <>
struct Words<ValvePlace> {
  static constexpr std::array list = {"piston valve", "foot valve"};
};
template <>
struct Words<Carrier> {
  static constexpr std::array list = {"bleed", "stack", "port"};
};
template <>
struct Words<PieceShape> {
  static constexpr std::array list = {"washer", "disc", "piston", "spacer", "nut", "other"};
};
template <>
struct Words<PostFault> {
  static constexpr std::array list = {"clamps nothing", "too few turns", "end too deep", "end too proud"};
};
template <>
struct Words<units::Reference> {
  static constexpr auto list = units::kReferenceWords;
};
template <>
struct Words<units::Kind> {
  static constexpr auto list = units::kKindWords;
};

}  // namespace shimwright::job::internal
