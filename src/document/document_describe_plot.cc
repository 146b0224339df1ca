#include "document/document_describe_list.h"
#include "document/document_plot.h"

namespace shimwright::document {

/// Of an x or a y: the axis names its kind.
inline constexpr Unit kOfTheAxis{"SI unit of the axis"};

template <>
const StructInfo& describe<PlotAxis>() {
  static constexpr FieldInfo fields[] = {
      field<&PlotAxis::title>("title", "What is measured, without its unit: \"shaft speed\"."),
      field<&PlotAxis::kind>("kind", "Kind of the numbers; it decides the unit behind the title."),
      field<&PlotAxis::reference>("reference", "Of pressures: from where they count."),
      field<&PlotAxis::thickness>("thickness",
                                  "Numbers are written as the trade writes a thickness: \"0.15 mm\"."),
      field<&PlotAxis::zero>("zero", "Zero is always in the picture."),
      field<&PlotAxis::magnitudes>("magnitudes",
                                   "Numbers have no sign: both strokes are positive, up and down from zero."),
      field<&PlotAxis::ratios>("ratios", "A logarithmic axis can be chosen."),
  };
  static constexpr auto info = structure<PlotAxis>("PlotAxis", "One axis of a plot.", fields);
  return info;
}

template <>
const StructInfo& describe<PlotLine>() {
  static constexpr FieldInfo fields[] = {
      field<&PlotLine::key>("key", "Stays the same from one state of a job to the next."),
      field<&PlotLine::name>("name", "Stands at the end of the line; empty: none."),
      field<&PlotLine::column>("column", "Heading in a table; empty: the name is enough."),
      field<&PlotLine::x>("x", kOfTheAxis, "Ascending, but for a loop."),
      field<&PlotLine::y>("y", kOfTheAxis, "As long as `x`."),
      field<&PlotLine::dotted>("dotted",
                               "As long as `x`: the piece up to this point is out of the range of the model. "
                               "Empty: no piece is."),
      field<&PlotLine::ink>("ink", "Colour, by what it is for."),
      field<&PlotLine::dash>("dash", "Dashes of the line."),
      field<&PlotLine::weight>("weight", "The line to look at is heavy, one of many is thin."),
      field<&PlotLine::behind>("behind", "One of a fan: drawn faint, and not read under the cursor."),
      field<&PlotLine::loop>("loop", "It comes back to its start: y is no function of x."),
      field<&PlotLine::down>("down", "Drawn down from zero: its own value is minus `y`."),
      field<&PlotLine::markers>("markers", "Each point has a small ring."),
      field<&PlotLine::spare>("spare", "One of too many: drawn only on request."),
  };
  static constexpr auto info = structure<PlotLine>(
      "PlotLine", "One line of a plot. Its name stands at its end, not in a legend.", fields);
  return info;
}

template <>
const StructInfo& describe<PlotBand>() {
  static constexpr FieldInfo fields[] = {
      field<&PlotBand::key>("key", "Stays the same from one state of a job to the next."),
      field<&PlotBand::name>("name", "Stands at the end of the band; empty: none."),
      field<&PlotBand::x>("x", kOfTheAxis, "Ascending."),
      field<&PlotBand::low>("low", kOfTheAxis, "One edge, as long as `x`."),
      field<&PlotBand::high>("high", kOfTheAxis, "The other edge, as long as `x`."),
      field<&PlotBand::ink>("ink", "Colour, by what it is for."),
  };
  static constexpr auto info = structure<PlotBand>("PlotBand", "A tint between two lines.", fields);
  return info;
}

template <>
const StructInfo& describe<PlotMark>() {
  static constexpr FieldInfo fields[] = {
      field<&PlotMark::x>("x", kOfTheAxis, "Place along the x axis."),
      field<&PlotMark::y>("y", kOfTheAxis, "Place along the y axis."),
      field<&PlotMark::text>("text", "Words, or the number of an event: see `events_of`."),
      field<&PlotMark::ink>("ink", "Colour, by what it is for."),
  };
  static constexpr auto info =
      structure<PlotMark>("PlotMark", "A ring with words: a limit, a target, an event.", fields);
  return info;
}

template <>
const StructInfo& describe<PlotRule>() {
  static constexpr FieldInfo fields[] = {
      field<&PlotRule::x>("x", kOfTheAxis, "Place along the x axis."),
      field<&PlotRule::text>("text", "Words beside it."),
      field<&PlotRule::ink>("ink", "Colour, by what it is for."),
  };
  static constexpr auto info =
      structure<PlotRule>("PlotRule", "An upright line across the whole plot.", fields);
  return info;
}

template <>
const StructInfo& describe<PlotSpec>() {
  static constexpr FieldInfo fields[] = {
      field<&PlotSpec::id>("id", "Which plot it is."),
      field<&PlotSpec::name>("name", "Short name, for a list: \"force\"."),
      field<&PlotSpec::title>("title", "\"Damping force over shaft speed\"."),
      field<&PlotSpec::caption>("caption", "What to see."),
      field<&PlotSpec::x>("x", "The x axis."),
      field<&PlotSpec::y>("y", "The y axis."),
      field<&PlotSpec::lines>("lines", "In the order in which they are drawn."),
      field<&PlotSpec::bands>("bands", "Tints behind the lines."),
      field<&PlotSpec::marks>("marks", "Words at places."),
      field<&PlotSpec::rules>("rules", "Upright lines."),
      field<&PlotSpec::dots>("dots",
                             "What a dotted piece means: \"air in the oil\"; empty: nothing is dotted."),
      field<&PlotSpec::events_of>(
          "events_of", "The run or the trace whose events the marks number; empty: the marks have words."),
  };
  static constexpr auto info = structure<PlotSpec>(
      "PlotSpec",
      "What one plot shows. Page, packet and command line draw it as it is. Numbers in its texts are in the "
      "units asked for.",
      fields);
  return info;
}

}  // namespace shimwright::document
