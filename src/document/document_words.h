#pragma once
#include <array>
#include <cstddef>

#include "base/diagnostic.h"
#include "base/outcome.h"
#include "base/terms.h"
#include "units/kind.h"
#include "units/quantity.h"

namespace shimwright::document {

// Only named here: a description includes the enumerations that it holds.
enum class Carrier;
enum class CureGoal;
enum class PieceShape;
enum class LinePart;
enum class ThreadCoat;
enum class SagLoad;
enum class SpringNeed;
enum class FillRoom;
enum class RodAt;
enum class PartKind;
enum class UnitState;
enum class RunKind;
enum class OilChamber;
enum class PostFault;
enum class PlotId;
enum class PlotInk;
enum class PlotDash;
enum class PlotWeight;

/// The words by which an enumeration travels in JSON, in the order of its values.
template <typename Enum>
struct EnumWords;
template <>
struct EnumWords<Status> {
  static constexpr std::array list = {"converged", "out of range", "stalled"};
};
template <>
struct EnumWords<Severity> {
  static constexpr auto list = kSeverityWords;
};
template <>
struct EnumWords<Stroke> {
  static constexpr auto list = kStrokeWords;
};
template <>
struct EnumWords<Theory> {
  static constexpr auto list = kTheoryWords;
};
template <>
struct EnumWords<Station> {
  static constexpr auto list = kStationWords;
};
template <>
struct EnumWords<ValvePlace> {
  static constexpr auto list = kValvePlaceWords;
};
template <>
struct EnumWords<Carrier> {
  static constexpr std::array list = {"bleed", "stack", "port"};
};
template <>
struct EnumWords<CureGoal> {
  static constexpr std::array list = {"force", "cavitation margin", "sag", "yield margin", "fatigue margin"};
};
template <>
struct EnumWords<PieceShape> {
  static constexpr std::array list = {"washer", "disc", "piston", "spacer", "nut", "other"};
};
template <>
struct EnumWords<LinePart> {
  static constexpr std::array list = {"piece", "compression stack", "rebound stack", "spacers", "nut"};
};
template <>
struct EnumWords<ThreadCoat> {
  static constexpr std::array list = {"dry", "oiled", "anti-seize paste", "threadlocker",
                                      "high-strength threadlocker"};
};
template <>
struct EnumWords<SagLoad> {
  static constexpr std::array list = {"static", "rider"};
};
template <>
struct EnumWords<SpringNeed> {
  static constexpr std::array list = {"none", "stiffer", "softer"};
};
template <>
struct EnumWords<FillRoom> {
  static constexpr std::array list = {"cartridge", "outer", "reservoir"};
};
template <>
struct EnumWords<RodAt> {
  static constexpr std::array list = {"fully out", "fully in"};
};
template <>
struct EnumWords<PartKind> {
  static constexpr std::array list = {"piece",        "shims",
                                      "spacers",      "nut",
                                      "slide spring", "back spring",
                                      "main spring",  "top-out spring",
                                      "bump stop",    "free piston",
                                      "bladder",      "compensator spring",
                                      "oil",          "oil of the air spring"};
};
template <>
struct EnumWords<UnitState> {
  static constexpr std::array list = {"pressure out",
                                      "spring out",
                                      "threads clean",
                                      "parts clean",
                                      "head on the rod",
                                      "piston valve tight",
                                      "foot valve tight",
                                      "seals greased",
                                      "gas side ready",
                                      "foot valve in",
                                      "rod in the tube",
                                      "oil in",
                                      "bled",
                                      "closed",
                                      "compensator in",
                                      "gas in",
                                      "damper in the leg",
                                      "outer oil in",
                                      "outer air out",
                                      "level set",
                                      "spring in",
                                      "leg closed",
                                      "tried",
                                      "air set",
                                      "clicks set",
                                      "sag measured"};
};
template <>
struct EnumWords<RunKind> {
  static constexpr std::array list = {"sine", "triangle", "step", "recorded"};
};
template <>
struct EnumWords<OilChamber> {
  static constexpr std::array list = {"compression chamber", "rod chamber", "reservoir"};
};
template <>
struct EnumWords<PostFault> {
  static constexpr std::array list = {"clamps nothing", "too few turns", "end too deep", "end too proud"};
};
template <>
struct EnumWords<PlotId> {
  static constexpr std::array list = {
      "force-over-speed",      "pressures-compression", "pressures-rebound",        "springs-over-travel",
      "lift-over-pressure",    "loops-over-travel",     "damper-loops-over-travel", "loops-over-speed",
      "peak-force-over-speed", "pressures-over-cycle",  "free-piston-over-cycle",   "oil-temperature",
      "measured-over-travel",  "step-force-over-time",  "let-go-travel-over-time",  "let-go-force-over-time"};
};
template <>
struct EnumWords<PlotInk> {
  static constexpr std::array list = {"ink",     "steel", "line", "copper", "compression",
                                      "rebound", "fine",  "look", "stop"};
};
template <>
struct EnumWords<PlotDash> {
  static constexpr std::array list = {"solid", "long", "short", "chain"};
};
template <>
struct EnumWords<PlotWeight> {
  static constexpr std::array list = {"heavy", "plain", "thin"};
};
template <>
struct EnumWords<units::Reference> {
  static constexpr auto list = units::kReferenceWords;
};
template <>
struct EnumWords<units::Kind> {
  static constexpr auto list = units::kKindWords;
};

}  // namespace shimwright::document
