#pragma once
#include <span>
#include <string>
#include <string_view>

namespace shimwright::file {

/// Every fault that loading a job can find. The number behind each is stable: scripts and tests hang on it.
enum class Code {
  // the file
  FileUnreadable,
  NotToml,
  PartsFileUnreadable,
  PartsFileCycle,
  FormatUnknown,

  // keys and their values
  UnknownKey,
  WrongType,
  MissingKey,
  UnknownWord,
  DotInPartName,
  EmptyList,
  NotWhole,
  BadDate,

  // quantities
  NotANumber,
  DecimalComma,
  BareNumber,
  UnknownUnit,
  MalformedUnit,
  AmbiguousUnit,
  WrongUnitKind,
  ReferenceMissing,
  ReferenceUnwanted,
  BottleWeight,
  OutsideSense,
  RangeShape,
  StackShape,
  ThreadShape,
  PieceShape,
  TooMany,

  // named parts
  UnknownPart,
  DuplicatePart,
  UnknownStrengthClass,

  // a stack by itself
  BoreNotSmaller,
  ClampNotSmaller,
  SeatOutsideFace,
  SeatInsideClamp,
  PocketReversed,
  PocketInsideClamp,
  PocketOutsideSeat,
  RingBesideNothing,
  NotchTooDeep,
  BossNotSmaller,
  BackSpringOutside,
  FloatAndPreload,
  StatedTwice,

  // a valve
  ShimDoesNotFitPost,
  ThreadLongerThanPost,
  PostTooHollow,
  NutOnOtherThread,
  StackNotOnPost,
  ClicksBeyondLast,
  BleedKeyOfOtherKind,
  PortLargerThanPocket,
  SpacerDoesNotFitPost,

  // a unit
  RodNotSmaller,
  ValveLargerThanPiston,
  ReservoirKeyOfOtherKind,
  SpringSolidTooLong,
  CoilTooTight,
  FirstSpringStacked,
  PreloadTooLong,
  OilFillsAirChamber,
  AirChamberTooShort,
  StopLongerThanTravel,
  LayoutDoesNotSuit,
  FillDoesNotFit,
  LinkageNotRising,
  LinkageMixed,
  LinkageBeyondTravel,
  SagBeyondTravel,
  ViscosityNotFalling,
  ViscosityPointsAlike,
  ViscosityIncomplete,
  DuplicateName,

  // the bench
  DriveIncomplete,
  DriveOverstated,
  DriveKeyOfOtherKind,
  DriveBeyondTravel,
  BenchUnitUnknown,
  RecordUnreadable,
  RecordFaulty,
  MotionDoesNotFit,
  BenchHasNoSprings,
  DriveStandsStill,
  DriveTooFast,
};

/// What docs/diagnostics.md says of a code.
struct CodeFacts {
  Code code;
  std::string_view id;      // "E0201"
  std::string_view title;   // a short clause
  std::string_view cause;   // how people usually get there
  std::string_view remedy;  // one imperative sentence
};

/// All of them, in the order of their numbers.
std::span<const CodeFacts> code_facts();

const CodeFacts& facts_of(Code code);

/// docs/diagnostics.md, whole.
std::string diagnostics_page();

}  // namespace shimwright::file
