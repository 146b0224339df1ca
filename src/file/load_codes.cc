#include "file/load_codes.h"

#include <fmt/core.h>

#include <array>

#include "base/check.h"

namespace shimwright::file {
namespace {

constexpr auto kCodes = std::to_array<CodeFacts>({
    {Code::FileUnreadable, "E0101", "the job file cannot be read",
     "The name is wrong, the file is in another folder, or you have no permission to read it.",
     "Check the name and the current folder. Put a name with spaces in quotes."},
    {Code::NotToml, "E0102", "the text is not TOML",
     "A quote, a bracket or an equals sign is missing, or a text has no quotes.",
     "Correct the place above the caret. The lines after it may be right."},
    {Code::PartsFileUnreadable, "E0103", "a parts file cannot be read",
     "A name in `parts` starts from the folder of the file that contains it, not from the current folder.",
     "Correct the name, or remove it from `parts`."},
    {Code::PartsFileCycle, "E0104", "parts files name each other in a circle",
     "A parts file names itself, or names a file that leads back to it.",
     "Remove one of the names from `parts`."},
    {Code::FormatUnknown, "E0105", "this program cannot read the format of the file",
     "The file was written for a later version.",
     "Use the version for which the file was written, or write format = 1 and correct what the program then "
     "reports."},
    {Code::UnknownKey, "E0201", "the table has no such key", "A typing mistake, or a key in the wrong table.",
     "Write the key that the message suggests. docs/job-file.md lists all keys."},
    {Code::WrongType, "E0202", "the value is of the wrong type",
     "Quotes are missing or there are too many, or there is a single value in place of a table.",
     "Write the value in the form that the message shows."},
    {Code::MissingKey, "E0203", "a required key is missing in the table",
     "The line was left out, or was put below the next [table].", "Add the key."},
    {Code::UnknownWord, "E0204", "the word is not one of the known words",
     "The word has another spelling, or it is another trade name.",
     "Write one of the words that the message lists."},
    {Code::DotInPartName, "E0205", "a dot splits the name of a part",
     "In TOML a dot outside quotes starts a new table: [shim.20x0.15] is a table `15` inside `20x0`.",
     "Put the name in quotes: [shim.\"20x0.15\"]."},
    {Code::EmptyList, "E0206", "a list is empty", "The entries were not written yet.",
     "Fill the list, or remove the key."},
    {Code::NotWhole, "E0207", "a whole number is needed", "The value is half a click or half a shim.",
     "Write a whole number."},
    {Code::BadDate, "E0208", "not a valid date", "Day and month are swapped, or there is no such day.",
     "Write year, month and day: \"2026-11-20\"."},
    {Code::NotANumber, "E0301", "a number is missing", "The text is empty, or starts with the unit.",
     "Write the number first, then the unit."},
    {Code::DecimalComma, "E0302", "a number contains a comma",
     "Many countries write 0,15. Here a comma separates two values.", "Write a decimal point: 0.15."},
    {Code::BareNumber, "E0303", "a number has no unit",
     "The unit seemed obvious. But without it nobody can tell millimetres from inches.",
     "Put the value in quotes, with its unit."},
    {Code::UnknownUnit, "E0304", "the unit is not known",
     "A typing mistake, or a unit that is not used in this trade.",
     "Write one of the units that the message shows."},
    {Code::MalformedUnit, "E0305", "the unit cannot be read",
     "The unit has two slashes, or an exponent without a unit.", "Write the unit as the message shows."},
    {Code::AmbiguousUnit, "E0306", "the unit has two meanings",
     "lb can be a mass or a force; C alone does not mean degrees.", "Write lbf or lbm, degC or degF."},
    {Code::WrongUnitKind, "E0307", "the unit is of the wrong kind",
     "For example, a spring rate in place of a force, or two values in the wrong lines.",
     "Check what the key means, and write a unit of that kind."},
    {Code::ReferenceMissing, "E0308", "a pressure does not say whether it is gauge or absolute",
     "A gauge counts from the outside air, a table often counts from vacuum. The difference is one bar.",
     "Write bar(g) for gauge, bar(a) for absolute."},
    {Code::ReferenceUnwanted, "E0309", "(g) or (a) has no meaning here",
     "Only a pressure has it, not a pressure drop or a stress.", "Remove it."},
    {Code::BottleWeight, "E0310", "the weight on a bottle is not a viscosity",
     "The viscosity of two bottles with the same weight can differ by 50 %.",
     "Use the viscosity at 40 and 100 degC from the oil's data sheet."},
    {Code::OutsideSense, "E0311", "the value makes no sense here",
     "The decimal point is missing, or millimetres were written for inches.",
     "Check the unit and the decimal point."},
    {Code::RangeShape, "E0312", "a range cannot be read",
     "The word `to` is missing, or the larger value comes first.", "Write \"25 to 40 mm\"."},
    {Code::StackShape, "E0313", "an entry of a stack cannot be read", "An x or a number is missing.",
     "Write count, outer diameter and thickness: \"3 x 24 x 0.15 mm\"."},
    {Code::ThreadShape, "E0314", "a thread cannot be read",
     "The pitch is missing, and this size has no coarse pitch.", "Write \"M6 x 0.75\" or \"1/4-28\"."},
    {Code::PieceShape, "E0315", "a piece on the post cannot be read",
     "It has no height, and it is not in a parts file.", "Write a role and a height: \"washer 2.0 mm\"."},
    {Code::TooMany, "E0316", "too many of one thing for this program",
     "One of the counts has a typing mistake.", "Check the counts."},
    {Code::UnknownPart, "E0401", "no part has this name",
     "The parts file spells the name differently, or `parts` does not name the parts file.",
     "Write the name as in the parts file."},
    {Code::DuplicatePart, "E0402", "two parts of one kind have the same name",
     "Two parts files list the same part.", "Give one of the two another name, or remove it."},
    {Code::UnknownStrengthClass, "E0403", "the strength of this class or material is not known",
     "The list spells it differently, or does not contain it.",
     "Write a name from the list, or give yield_strength and strength."},
    {Code::BoreNotSmaller, "E0501", "a disc's hole is not smaller than the disc",
     "Bore and outer diameter are swapped.", "Correct one of the two."},
    {Code::ClampNotSmaller, "E0502", "the clamp is not smaller than the face shim",
     "Diameter and radius of the clamp are mixed up.", "Correct the clamp or the face shim."},
    {Code::SeatOutsideFace, "E0503", "the seat is outside the face shim",
     "The face shim is too small to cover its seat, or the seat of another piston was measured.",
     "Fit a larger face shim, or correct the seat."},
    {Code::SeatInsideClamp, "E0504", "the seat is inside the clamp",
     "The inner edge of the seat was measured, or diameter and radius are mixed up.",
     "Correct the seat or the clamp."},
    {Code::PocketReversed, "E0505", "the pocket's inner edge is not smaller than its outer edge",
     "The two are swapped.", "Swap them."},
    {Code::PocketInsideClamp, "E0506", "the pocket is inside the clamp",
     "Diameter and radius are mixed up: no shim can lift there.", "Correct the pocket or the clamp."},
    {Code::PocketOutsideSeat, "E0507", "the pocket extends beyond the seat",
     "Oil beyond the seat has already left the valve.", "Correct the pocket or the seat."},
    {Code::RingBesideNothing, "E0508", "a ring shim has no shims on both sides to hold it",
     "Only its neighbours hold a shim whose hole is larger than the clamp.",
     "Put a clamped shim, wider than the hole of the ring, in front of it and behind it."},
    {Code::NotchTooDeep, "E0509", "a notch reaches the clamp, or the notches take up the whole rim",
     "Depth and width are swapped.", "Correct the notch."},
    {Code::BossNotSmaller, "E0510", "the boss is not smaller than the seat",
     "The seat was measured, not the boss.", "Correct the boss, or remove it."},
    {Code::BackSpringOutside, "E0511", "the back spring does not press on the stack",
     "It is wider than the face shim, or narrower than the clamp.", "Correct its diameter."},
    {Code::FloatAndPreload, "E0512", "a floating stack also has a preload",
     "Only the light spring presses on a stack that slides freely.",
     "Remove seat_height and back_spring, or remove the float."},
    {Code::StatedTwice, "E0513", "the same thing is given in two ways",
     "Both values were known. They may contradict each other.", "Remove one of the two."},
    {Code::ShimDoesNotFitPost, "E0601", "a shim's hole does not fit the post",
     "The shim is for another post.", "Use a shim with the right hole, or correct the bore or the thread."},
    {Code::ThreadLongerThanPost, "E0602", "the thread is longer than its post", "The lengths are swapped.",
     "Correct one of the two."},
    {Code::PostTooHollow, "E0603", "the bore of the post leaves no metal under the thread",
     "The bore was measured at another place, or the post has another thread.",
     "Correct the bore or the thread."},
    {Code::NutOnOtherThread, "E0604", "the nut has another thread than its post",
     "It is easy to mix up two pitches of the same diameter. The wrong nut seizes on the post.",
     "Use the right nut, or correct the thread."},
    {Code::StackNotOnPost, "E0605", "the pieces on the post and the stacks of the valve do not agree",
     "A stack was added without its place on the post, or it is on the post twice.",
     "Write \"compression stack\" and \"rebound stack\" once each, at their place on the post."},
    {Code::ClicksBeyondLast, "E0606", "the setting is beyond the last click",
     "The clicks were counted inwards from fully out.", "Count outwards from fully in (seated)."},
    {Code::BleedKeyOfOtherKind, "E0607", "the key belongs to another kind of bleed",
     "The kind was changed, but the old keys are still there.", "Remove the key, or change the kind."},
    {Code::PortLargerThanPocket, "E0608", "the ports are larger than the pocket they open into",
     "The area of all ports was written as the area of one port.",
     "Write the area of one port, or correct the pocket."},
    {Code::SpacerDoesNotFitPost, "E0609", "a piece's hole does not fit over the post",
     "The piece is for another post.", "Use a piece with the right hole, or correct the bore."},
    {Code::RodNotSmaller, "E0701", "the rod is not smaller than its piston", "The two are swapped.",
     "Correct one of the two."},
    {Code::ValveLargerThanPiston, "E0702", "a part of the piston valve is wider than the bore it runs in",
     "Another piston was measured, or diameter and radius are mixed up.", "Correct the part or the piston."},
    {Code::ReservoirKeyOfOtherKind, "E0703", "the key belongs to another kind of reservoir",
     "The kind was changed, but the old keys are still there.", "Remove the key, or change the kind."},
    {Code::SpringSolidTooLong, "E0704", "a spring is as long when solid as when free",
     "The two lengths are swapped, or there is no gap between the coils.", "Correct one of the lengths."},
    {Code::CoilTooTight, "E0705", "a spring's coil is too small for its wire",
     "The inner diameter was written as the mean diameter, or wire and coil are swapped.",
     "Write the coil diameter from middle to middle of the wire."},
    {Code::FirstSpringStacked, "E0706", "the first spring stands on no other spring",
     "The order of the springs was changed.", "Put the spring that it stands on before it in the list."},
    {Code::PreloadTooLong, "E0707", "the preload is more than the spring can be compressed",
     "The unit of the preload is wrong, or it is another spring.", "Correct the preload."},
    {Code::OilFillsAirChamber, "E0708", "the oil fills the air chamber",
     "The oil of the leg was written as the oil of the chamber.", "Correct the oil, or the chamber's size."},
    {Code::AirChamberTooShort, "E0709", "the air chamber leaves no air at the end of the travel",
     "The length was measured with the unit partly in.", "Write the length with the unit fully out."},
    {Code::StopLongerThanTravel, "E0710", "a stop acts over more than the whole travel",
     "The length of the stop was written, not the travel over which it acts.", "Correct the length."},
    {Code::LayoutDoesNotSuit, "E0711", "the layout does not suit the unit",
     "The table was copied from another unit.", "Correct the kind or the layout, or remove the table."},
    {Code::FillDoesNotFit, "E0712", "a length of the fill does not fit into its space",
     "A length was measured from the other end.", "Correct the lengths."},
    {Code::LinkageNotRising, "E0713", "the linkage's table does not rise from fully out",
     "The rows are in the wrong order, or a value was read wrongly.",
     "Sort the rows, start at 0 mm, and check this row."},
    {Code::LinkageMixed, "E0714", "the rows of the linkage do not all give the same thing",
     "Some rows give the shock travel and some give the leverage.", "Give the same in every row."},
    {Code::LinkageBeyondTravel, "E0715", "the linkage needs more travel than the shock has",
     "Wheel and shock are swapped, or the travel of the wheel was written for the shock.",
     "Correct the table or the travel."},
    {Code::SagBeyondTravel, "E0716", "the target sag is more than the travel",
     "The unit or the table is wrong.", "Correct the sag or the travel."},
    {Code::ViscosityNotFalling, "E0717", "the oil does not get thinner when it gets warm",
     "The two values are swapped.", "Swap them."},
    {Code::ViscosityPointsAlike, "E0718", "two viscosities are given at the same temperature",
     "One of the temperatures has a typing mistake.", "Correct one of them."},
    {Code::ViscosityIncomplete, "E0719", "the viscosities do not show how the oil gets thinner when warm",
     "One viscosity says nothing about another temperature.",
     "Give two viscosities, or one and the viscosity index."},
    {Code::DuplicateName, "E0720", "two things have the same name", "A table was copied.",
     "Rename one of the two."},

    // the bench
    {Code::DriveIncomplete, "E0801", "the motion of the drive is not complete",
     "The drive needs two of stroke, frequency and speed.", "Add the key that the message names."},
    {Code::DriveOverstated, "E0802", "the drive gives all three of stroke, frequency and speed",
     "Two of the three already give the third.", "Remove one of the three."},
    {Code::DriveKeyOfOtherKind, "E0803", "the key belongs to another kind of drive",
     "The table was copied from another drive.", "Remove the key, or change the kind."},
    {Code::DriveBeyondTravel, "E0804", "the rod is moved beyond the travel of the unit",
     "The stroke is the stroke of the wheel, or the middle is too close to an end.",
     "Correct the stroke, the middle or the push of the hand test."},
    {Code::BenchUnitUnknown, "E0805", "no unit of the job has this name", "The unit was renamed.",
     "Write the name of a unit."},
    {Code::RecordUnreadable, "E0806", "the recorded stroke cannot be read", "The file was moved or renamed.",
     "Write the name relative to the folder of the job file."},
    {Code::RecordFaulty, "E0807", "the recorded stroke has a faulty row or heading",
     "The logger wrote a broken row, or a heading has no unit.", "Correct the row or the heading."},
    {Code::MotionDoesNotFit, "E0808", "a value under [unit.motion] does not fit the unit",
     "A travel was measured from the other end.", "Correct the value that the message names."},
    {Code::BenchHasNoSprings, "E0809", "the bench should run with springs, but there are none",
     "The springs are in the other leg, or they are not in the job.",
     "Add the springs of the unit, or remove with_springs."},
    {Code::DriveStandsStill, "E0810", "the drive does not move the rod",
     "A step was copied and its end forgotten, or the record is of another channel.",
     "Write another end, or name the right column."},
    {Code::DriveTooFast, "E0811", "the drive is faster than any bench",
     "A time was written in milliseconds for seconds, or a record has a jump.",
     "Correct the time, the frequency or the record."},
});

constexpr std::string_view kPageHead = R"(# Diagnostics

Every fault that the program can find when it reads a job. A number never changes its meaning; the words may change.
The program shows all faults of all files at once, each with its file, line and column. It does not calculate a job
that has a fault.

The program writes this page: change `src/file/load_codes.cc`, then run
`SHIMWRIGHT_WRITE_DOCS=1 file_tests --gtest_filter='*Docs*'`.
)";

/// Faults that show only when a job is computed; `run` and `resolve` report them.
constexpr std::string_view kComputed = R"(
## When a job is calculated

| code | what | how people get there | what to do |
|---|---|---|---|
| E0901 | a value does not work together with the others | Each value makes sense alone, but not together with the others. | Correct the value that the message names. |
| E0902 | a value is missing that this command needs | The command needs more than the job file contains. | Add the key that the message names. |
| E0903 | no oil has this viscosity index at this viscosity | The index was read from the wrong line of the data sheet. | Give the viscosity at a second temperature instead. |
| E0904 | no adjuster of the job has this name | The setting names a bleed that is not a needle, or spells the name differently. | Write one of the names that the message lists. |
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

}  // namespace shimwright::file
