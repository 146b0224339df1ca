#pragma once
#include <string>
#include <vector>

#include "units/kind.h"
#include "units/quantity.h"

namespace shimwright::document {

/// A colour by what it is for. Print, SVG and page each have it under the same name.
enum class PlotInk { Ink, Steel, Line, Copper, Compression, Rebound, Fine, Look, Stop };

enum class PlotDash { Solid, Long, Short, Chain };

/// How much a line counts: the one that is looked at, one beside it, one of many.
enum class PlotWeight { Heavy, Plain, Thin };

/// Which plot it is. A unit has one of each, but for records and steps: one for each run.
enum class PlotId {
  ForceOverSpeed,
  PressuresCompression,  // over speed
  PressuresRebound,
  SpringsOverTravel,
  LiftOverPressure,

  // on the bench
  LoopsOverTravel,
  DamperLoopsOverTravel,
  LoopsOverSpeed,
  PeakForceOverSpeed,
  PressuresOverCycle,
  FreePistonOverCycle,
  OilTemperature,
  MeasuredOverTravel,
  StepForceOverTime,
  LetGoTravelOverTime,
  LetGoForceOverTime,
};

// What each of the following structs and members means: document_describe_plot.cc

struct PlotAxis {
  std::string title;
  units::Kind kind = units::Kind::Number;
  units::Reference reference = units::Reference::None;
  bool thickness = false;
  bool zero = false;
  bool magnitudes = false;
  bool ratios = false;
};

struct PlotLine {
  std::string key;
  std::string name;
  std::string column;
  std::vector<double> x;
  std::vector<double> y;
  std::vector<bool> dotted;
  PlotInk ink = PlotInk::Ink;
  PlotDash dash = PlotDash::Solid;
  PlotWeight weight = PlotWeight::Plain;
  bool behind = false;
  bool loop = false;
  bool down = false;
  bool markers = false;
  bool spare = false;
};

struct PlotBand {
  std::string key;
  std::string name;
  std::vector<double> x;
  std::vector<double> low;
  std::vector<double> high;
  PlotInk ink = PlotInk::Steel;
};

struct PlotMark {
  double x = 0;
  double y = 0;
  std::string text;
  PlotInk ink = PlotInk::Steel;
};

struct PlotRule {
  double x = 0;
  std::string text;
  PlotInk ink = PlotInk::Stop;
};

struct PlotSpec {
  PlotId id = PlotId::ForceOverSpeed;
  std::string name;
  std::string title;
  std::string caption;
  PlotAxis x;
  PlotAxis y;
  std::vector<PlotLine> lines;
  std::vector<PlotBand> bands;
  std::vector<PlotMark> marks;
  std::vector<PlotRule> rules;
  std::string dots;
  std::string events_of;
};

}  // namespace shimwright::document
