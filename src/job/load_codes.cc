#include "job/load_codes.h"

#include <fmt/format.h>

#include <array>

#include "base/check.h"

namespace shimwright::job {
namespace {

constexpr auto kCodes = std::to_array<CodeFacts>({
    {Code::FileUnreadable, "E0101", "the job file cannot be read",
     "The name is wrong, the file is elsewhere, or it may not be read.",
     "Look at the name and at where you are; quote a name with blanks."},
    {Code::NotToml, "E0102", "the text is not TOML",
     "A quote, a bracket or an equals sign is missing, or a text stands without quotes.",
     "Mend the place under the caret; the lines after it may be fine."},
    {Code::PartsFileUnreadable, "E0103", "a parts file cannot be read",
     "`parts` names a file from the folder of the file it stands in, not from where the command runs.",
     "Correct the name, or take it out of `parts`."},
    {Code::PartsFileCycle, "E0104", "parts files name each other in a ring",
     "A parts file names itself, or one that leads back to it.", "Take one of the names out of `parts`."},
    {Code::FormatUnknown, "E0105", "the file has a format this program does not read",
     "It was written for a later version.",
     "Use the version it was written for, or write format = 1 and mend what is then reported."},
    {Code::UnknownKey, "E0201", "the table has no such key",
     "A slip of the pen, or a key in the wrong table.",
     "Write the key that the message names; docs/job-file.md lists all."},
    {Code::WrongType, "E0202", "the value is of the wrong type",
     "Quotes are missing or too many, or a single value stands where a table belongs.",
     "Write the value in the form that the message shows."},
    {Code::MissingKey, "E0203", "the table lacks a key it cannot do without",
     "The line was left out, or put below the next [table].", "Add the key."},
    {Code::UnknownWord, "E0204", "the word is none of those that are known here",
     "Another spelling, or another trade name.", "Write one of the words that the message lists."},
    {Code::DotInPartName, "E0205", "a dot splits the name of a part",
     "In TOML a dot outside quotes opens a table: [shim.20x0.15] is a table `15` in `20x0`.",
     "Put the name in quotes: [shim.\"20x0.15\"]."},
    {Code::EmptyList, "E0206", "a list has nothing in it", "The entries are still to be written.",
     "Fill the list, or take the key out."},
    {Code::NotWhole, "E0207", "a whole number is needed", "A half click, a half shim.",
     "Write a whole number."},
    {Code::BadDate, "E0208", "the date is none", "Day and month are swapped, or the day does not exist.",
     "Write year, month and day: \"2026-11-20\"."},
    {Code::NotANumber, "E0301", "no number stands where one must",
     "The text is empty, or begins with its unit.", "Write the number first and the unit behind it."},
    {Code::DecimalComma, "E0302", "a comma stands in a number",
     "0,15 is read in many countries, but here a comma parts two values.", "Write a point: 0.15."},
    {Code::BareNumber, "E0303", "a number stands without its unit",
     "The unit was taken for granted; millimetres and inches then look alike.",
     "Put the value in quotes, with its unit."},
    {Code::UnknownUnit, "E0304", "the unit is not known",
     "A slip of the pen, or a unit that this trade does not use.",
     "Write one of the units that the message shows."},
    {Code::MalformedUnit, "E0305", "the unit cannot be read", "Two slashes, or an exponent without a unit.",
     "Write the unit as the message shows."},
    {Code::AmbiguousUnit, "E0306", "the unit has two meanings", "lb is a mass and a force; C is no degree.",
     "Write lbf or lbm, degC or degF."},
    {Code::WrongUnitKind, "E0307", "the unit is of the wrong kind",
     "A rate where a force belongs, or values in each other's lines.",
     "Look at what the key means, and write a unit of that kind."},
    {Code::ReferenceMissing, "E0308", "a pressure does not say what it is counted from",
     "Gauges count from the air outside, tables often from vacuum: one bar apart.",
     "Write bar(g) for a gauge, bar(a) for absolute."},
    {Code::ReferenceUnwanted, "E0309", "(g) or (a) stands where it means nothing",
     "It belongs to a pressure alone, not to a drop or a stress.", "Take it out."},
    {Code::BottleWeight, "E0310", "a weight on a bottle is no viscosity",
     "Bottles of the same weight differ by half.",
     "Take the viscosity at 40 and 100 degC from the oil's data sheet."},
    {Code::OutsideSense, "E0311", "the value makes no sense here",
     "A lost decimal point, or millimetres for inches.", "Look at the unit and at the decimal point."},
    {Code::RangeShape, "E0312", "a range is not written as one",
     "The word `to` is missing, or the larger value stands first.", "Write \"25 to 40 mm\"."},
    {Code::StackShape, "E0313", "an entry of a stack cannot be read", "A separator or a number is missing.",
     "Write count, outer diameter and thickness: \"3 x 24 x 0.15 mm\"."},
    {Code::ThreadShape, "E0314", "a thread cannot be read",
     "The pitch is missing, or the size has no coarse pitch.", "Write \"M6 x 0.75\" or \"1/4-28\"."},
    {Code::PieceShape, "E0315", "a piece on the post cannot be read",
     "It has no height, and is no part of a parts file.",
     "Write its role and a height: \"washer 2.0 mm\"."},
    {Code::TooMany, "E0316", "there is more of it than this program takes", "A count was mistyped.",
     "Look at the counts."},
    {Code::UnknownPart, "E0401", "no part of this name is known",
     "The name is spelt otherwise in the parts file, or the parts file is not named in `parts`.",
     "Write the name as the parts file has it."},
    {Code::DuplicatePart, "E0402", "two parts of one kind have the same name",
     "Two parts files list the same part.", "Give one of the two another name, or take it out."},
    {Code::UnknownStrengthClass, "E0403", "no strength is known for this class or material",
     "It is spelt otherwise, or it is not in the list.",
     "Write one of the known ones, or state yield_strength and strength."},
    {Code::BoreNotSmaller, "E0501", "a disc's hole is not smaller than the disc",
     "Bore and outer diameter are swapped.", "Correct one of the two."},
    {Code::ClampNotSmaller, "E0502", "the clamp is not smaller than the face shim",
     "The clamp's diameter was taken for its radius, or the other way round.",
     "Correct the clamp or the face shim."},
    {Code::SeatOutsideFace, "E0503", "the seat lies outside the face shim",
     "The face shim is too small to cover its seat, or another piston was measured.",
     "Fit a larger face shim, or correct the seat."},
    {Code::SeatInsideClamp, "E0504", "the seat lies inside the clamp",
     "The seat's inner edge was measured, or diameter and radius are mixed.",
     "Correct the seat or the clamp."},
    {Code::PocketReversed, "E0505", "the pocket's inner edge is not smaller than its outer edge",
     "The two are swapped.", "Swap them."},
    {Code::PocketInsideClamp, "E0506", "the pocket lies inside the clamp",
     "Diameter and radius are mixed: nothing could lift there.", "Correct the pocket or the clamp."},
    {Code::PocketOutsideSeat, "E0507", "the pocket reaches beyond the seat",
     "Oil beyond the seat has left the valve already.", "Correct the pocket or the seat."},
    {Code::RingBesideNothing, "E0508", "a ring shim has nothing to lie between",
     "A shim with a hole larger than the clamp is held by nothing but its neighbours.",
     "Put a clamped shim, wider than the ring's hole, before and behind it."},
    {Code::NotchTooDeep, "E0509", "a notch reaches the clamp, or the notches take the whole rim",
     "Depth and width are swapped.", "Correct the notch."},
    {Code::BossNotSmaller, "E0510", "the boss is not smaller than the seat", "The seat itself was measured.",
     "Correct the boss, or leave it out."},
    {Code::BackSpringOutside, "E0511", "the back spring does not press on the stack",
     "It is wider than the face shim, or narrower than the clamp.", "Correct its diameter."},
    {Code::FloatAndPreload, "E0512", "a stack that floats has a preload too",
     "What slides freely is pressed by nothing but its light spring.",
     "Take out seat_height and back_spring, or the float."},
    {Code::StatedTwice, "E0513", "one thing is stated in two ways", "Both were known; they need not agree.",
     "Take one of the two out."},
    {Code::ShimDoesNotFitPost, "E0601", "a shim's hole does not fit the post",
     "The shim is for another post.", "Take a shim with the right hole, or correct the bore or the thread."},
    {Code::ThreadLongerThanPost, "E0602", "the thread is longer than its post", "The lengths are swapped.",
     "Correct one of the two."},
    {Code::PostTooHollow, "E0603", "the post's bore leaves nothing under the thread",
     "The bore was measured elsewhere, or the thread is another.", "Correct the bore or the thread."},
    {Code::NutOnOtherThread, "E0604", "the nut has another thread than its post",
     "Pitches of one diameter are easily mixed; they seize.", "Take the right nut, or correct the thread."},
    {Code::StackNotOnPost, "E0605", "the pieces on the post and the stacks of the valve do not agree",
     "A stack was added without its place on the post, or stands there twice.",
     "Put \"compression stack\" and \"rebound stack\" where they stand, once each."},
    {Code::ClicksBeyondLast, "E0606", "the setting lies beyond the last click",
     "Clicks were counted in from fully out.", "Count out from seated."},
    {Code::BleedKeyOfOtherKind, "E0607", "the key belongs to another kind of bleed",
     "The kind was changed, and the old keys were left.", "Take the key out, or change the kind."},
    {Code::PortLargerThanPocket, "E0608", "the ports are larger than the pocket they open into",
     "The area of all ports was written for one of them.",
     "Write the area of one port, or correct the pocket."},
    {Code::SpacerDoesNotFitPost, "E0609", "a piece's hole does not fit over the post",
     "It is for another post.", "Take one with the right hole, or correct the bore."},
    {Code::RodNotSmaller, "E0701", "the rod is not smaller than its piston", "The two are swapped.",
     "Correct one of the two."},
    {Code::ValveLargerThanPiston, "E0702", "a part of the piston valve is wider than the bore it runs in",
     "Another piston was measured, or diameter and radius are mixed.", "Correct the part or the piston."},
    {Code::ReservoirKeyOfOtherKind, "E0703", "the key belongs to another kind of reservoir",
     "The kind was changed, and the old keys were left.", "Take the key out, or change the kind."},
    {Code::SpringSolidTooLong, "E0704", "a spring is as long solid as it is free",
     "The two lengths are swapped, or the wire leaves no gaps.", "Correct one of the lengths."},
    {Code::CoilTooTight, "E0705", "a spring's coil is as tight as its wire",
     "The inner diameter was written for the mean one, or wire and coil are swapped.",
     "Write the diameter from middle to middle of the wire."},
    {Code::FirstSpringStacked, "E0706", "the first spring is stacked on nothing",
     "The order of the springs was changed.", "List the spring that it stands on first."},
    {Code::PreloadTooLong, "E0707", "the preload is longer than the spring can be squeezed",
     "The unit of the preload is wrong, or the spring is another.", "Correct the preload."},
    {Code::OilFillsAirChamber, "E0708", "the oil fills the air chamber",
     "Oil of the leg was written for that of the chamber.", "Correct the oil, or the chamber's size."},
    {Code::AirChamberTooShort, "E0709", "the air chamber leaves no air at the end of the travel",
     "The length was measured with the unit half in.", "Write the length with the unit fully out."},
    {Code::StopLongerThanTravel, "E0710", "a stop acts over more than the whole travel",
     "Its length was written instead of the travel it acts over.", "Correct the length."},
    {Code::LayoutDoesNotSuit, "E0711", "the layout does not suit the unit",
     "The table was copied from another unit.", "Correct the kind or the layout, or take the table out."},
    {Code::FillDoesNotFit, "E0712", "the fill does not fit into its space",
     "A length was measured from the other end.", "Correct the lengths."},
    {Code::LinkageNotRising, "E0713", "the linkage's table does not rise from fully out",
     "Rows are out of order, or a value was misread.", "Sort the rows, start at 0 mm, and look at the row."},
    {Code::LinkageMixed, "E0714", "the linkage's rows do not all say the same thing",
     "Some give the shock's travel and some the leverage.", "Give the same in every row."},
    {Code::LinkageBeyondTravel, "E0715", "the linkage asks for more travel than the shock has",
     "Wheel and shock are swapped, or the travel is that of the wheel.", "Correct the table or the travel."},
    {Code::SagBeyondTravel, "E0716", "the sag aimed for is longer than the travel",
     "The unit or the table is wrong.", "Correct the sag or the travel."},
    {Code::ViscosityNotFalling, "E0717", "the oil does not thin when it gets warm",
     "The two values are swapped.", "Swap them."},
    {Code::ViscosityPointsAlike, "E0718", "two viscosities are given at one temperature",
     "One of the temperatures was mistyped.", "Correct one of them."},
    {Code::ViscosityIncomplete, "E0719", "the viscosities do not say how the oil thins",
     "One point says nothing about another temperature.",
     "Give two viscosities, or one and the viscosity index."},
    {Code::DuplicateName, "E0720", "two things go by one name", "A table was copied.",
     "Rename one of the two."},

    // the bench
    {Code::DriveIncomplete, "E0801", "the drive does not say how it moves",
     "One of stroke, frequency and speed says too little; two say all.",
     "Add the key that the message names."},
    {Code::DriveOverstated, "E0802", "the drive says its motion three times over",
     "The third of stroke, frequency and speed follows from the other two.", "Take one of the three out."},
    {Code::DriveKeyOfOtherKind, "E0803", "a key of another kind of drive",
     "The table was copied from another drive.", "Take the key out, or change the kind."},
    {Code::DriveBeyondTravel, "E0804", "the drive goes beyond the travel of the unit",
     "The stroke is that of the wheel, or the middle lies too near an end.",
     "Correct the stroke or the middle."},
    {Code::BenchUnitUnknown, "E0805", "no unit of the job goes by this name", "The unit was renamed.",
     "Write the name of a unit."},
    {Code::RecordUnreadable, "E0806", "the recorded stroke cannot be read", "The file was moved or renamed.",
     "Name it from the folder of the job file."},
    {Code::RecordFaulty, "E0807", "the recorded stroke holds what no stroke is",
     "A logger wrote a broken row, or the heading names no unit.", "Correct the row or the heading."},
    {Code::MotionDoesNotFit, "E0808", "what the unit is like in motion does not fit the unit",
     "A travel was measured from the other end.", "Correct the value that the message names."},
    {Code::BenchHasNoSprings, "E0809", "springs are to be in on the bench, and there are none",
     "The springs are in the other leg, or were never written down.",
     "Write the unit's springs, or take with_springs out."},
});

constexpr std::string_view kPageHead = R"(# Diagnostics

Every fault that reading a job can find, by its number. The number never changes its meaning; the words may.
All faults of all files are shown at once, each with its file, line and column, and nothing is computed from a job
that has one.

This page is written by the program: change `src/job/load_codes.cc`, then run
`SHIMWRIGHT_WRITE_DOCS=1 job_tests --gtest_filter='*Docs*'`.
)";

/// Faults that show only when a job is computed; `run` and `resolve` report them.
constexpr std::string_view kComputed = R"(
## When a job is computed

| code | what | how people get there | what to do |
|---|---|---|---|
| E0901 | the model of a part refuses a value | Each value makes sense, but not with the others. | Correct the value that the message names. |
| E0902 | what was asked for needs a value that the job does not give | A verb needs more than the file holds. | Add the key that the message names. |
| E0903 | no oil has this viscosity index at this viscosity | The index was read from another line of the data sheet. | Write the viscosity at a second temperature instead. |
| E0904 | no adjuster of the job has this name | A setting names a bleed that is no needle, or is spelt otherwise. | Write one of the names that the message lists. |
)";

constexpr std::array<std::pair<char, std::string_view>, 8> kGroups = {{
    {'1', "The file"},
    {'2', "Keys and their values"},
    {'3', "Quantities"},
    {'4', "Named parts"},
    {'5', "A stack by itself"},
    {'6', "A valve"},
    {'7', "A unit, its springs, its linkage and its oil"},
    {'8', "The bench"},
}};

}  // namespace

std::span<const CodeFacts> code_facts() {
  return kCodes;
}

const CodeFacts& facts_of(Code code) {
  const auto index = static_cast<std::size_t>(code);
  SW_CHECK(index < kCodes.size() && kCodes[index].code == code, index);
  return kCodes[index];
}

std::string diagnostics_page() {
  std::string page(kPageHead);
  for (const auto& [digit, title] : kGroups) {
    page += fmt::format("\n## {}\n\n| code | what | how people get there | what to do |\n|---|---|---|---|\n",
                        title);
    for (const CodeFacts& facts : kCodes)
      if (facts.id[2] == digit)
        page += fmt::format("| {} | {} | {} | {} |\n", facts.id, facts.title, facts.cause, facts.remedy);
  }
  return page + std::string(kComputed);
}

}  // namespace shimwright::job
