#include "document/document_describe_list.h"
#include "document/document_post.h"

namespace shimwright::document {

using units::Kind;

template <>
const StructInfo& describe<LedgerLine>() {
  static constexpr FieldInfo fields[] = {
      field<&LedgerLine::name>("name", "For example \"piston\", \"compression stack\"."),
      field<&LedgerLine::part>("part", "What it stands for."),
      field<&LedgerLine::shape>("shape", "What to draw."),
      field<&LedgerLine::count>("count", "How many pieces."),
      field<&LedgerLine::height>("height", Kind::Length, "Height of all of them together."),
      field<&LedgerLine::tolerance>("tolerance", Kind::Length, "Plus and minus, of all of them together."),
      field<&LedgerLine::measured>("measured", "False: the height is nominal."),
      field<&LedgerLine::typed>("typed", "As written in the job file."),
      field<&LedgerLine::from>("from", Kind::Length, "Distance from the shoulder to its near face."),
      field<&LedgerLine::to>("to", Kind::Length, "Distance from the shoulder to its far face."),
      field<&LedgerLine::outer_radius>("outer_radius", Kind::Length, "For the drawing; 0: not known."),
      field<&LedgerLine::direction>("direction",
                                    "Which of the post's `directions` says its right way up; absent: none."),
  };
  static constexpr auto info = structure<LedgerLine>(
      "LedgerLine", "One line of the height ledger, from the shoulder outwards.", fields);
  return info;
}

template <>
const StructInfo& describe<SpacerLine>() {
  static constexpr FieldInfo fields[] = {
      field<&SpacerLine::name>("name", "For example \"6x0.3\"."),
      field<&SpacerLine::thickness>("thickness", Kind::Length, "Thickness of one."),
      field<&SpacerLine::in_hand>("in_hand", "How many there are."),
      field<&SpacerLine::used>("used", "How many the program takes."),
      field<&SpacerLine::written>("written", "How many the job file lists."),
  };
  static constexpr auto info =
      structure<SpacerLine>("SpacerLine", "Spacers taken from those in hand.", fields);
  return info;
}

template <>
const StructInfo& describe<ThreadResult>() {
  static constexpr FieldInfo fields[] = {
      field<&ThreadResult::designation>("designation", "For example \"M6 x 0.75\"."),
      field<&ThreadResult::pitch>("pitch", Kind::Length, "Pitch of the thread."),
      field<&ThreadResult::post_length>("post_length", Kind::Length,
                                        "From the shoulder to the end of the post."),
      field<&ThreadResult::thread_start>("thread_start", Kind::Length,
                                         "From the shoulder to the first full turn."),
      field<&ThreadResult::stack_height>("stack_height", Kind::Length,
                                         "All pieces, from the shoulder to the seat of the nut."),
      field<&ThreadResult::stack_tolerance>("stack_tolerance", Kind::Length,
                                            "Worst case of that height, plus and minus."),
      field<&ThreadResult::nut_height>("nut_height", Kind::Length, "Height of the nut."),
      field<&ThreadResult::engaged_turns>("engaged_turns", Kind::Number, "Turns of the nut on the post."),
      field<&ThreadResult::nut_turns>("nut_turns", Kind::Number, "Turns that the nut has."),
      field<&ThreadResult::least_turns>("least_turns", Kind::Number,
                                        "Turns on the post with all tolerances against it."),
      field<&ThreadResult::protrusion>(
          "protrusion", Kind::Length, "How far the post stands out of the nut; negative: the nut overhangs."),
      field<&ThreadResult::unthreaded_gap>(
          "unthreaded_gap", Kind::Length,
          "From the seat of the nut back to the first full turn; negative: the nut bottoms on it."),
  };
  static constexpr auto info =
      structure<ThreadResult>("ThreadResult", "How the nut sits on its thread.", fields);
  return info;
}

template <>
const StructInfo& describe<PostFlag>() {
  static constexpr FieldInfo fields[] = {
      field<&PostFlag::kind>("kind", "What is wrong."),
      field<&PostFlag::what>(
          "what", "One clause: \"the nut stops at the end of the thread before it touches the pile\"."),
      field<&PostFlag::sure>("sure", "False: only at the worst end of the tolerances."),
      field<&PostFlag::serious>("serious", "False: it holds, but not as it should."),
      field<&PostFlag::value>("value", Kind::Length, "What was found."),
      field<&PostFlag::limit>("limit", Kind::Length, "The limit that it passes."),
  };
  static constexpr auto info =
      structure<PostFlag>("PostFlag", "Something wrong with how the nut sits.", fields);
  return info;
}

template <>
const StructInfo& describe<TorqueResult>() {
  static constexpr FieldInfo fields[] = {
      field<&TorqueResult::asked>("asked", "Torque that the job file asks for."),
      field<&TorqueResult::to_use>(
          "to_use",
          "The one torque for the wrench: as asked, else the estimate; absent: the thread carries none."),
      field<&TorqueResult::on_the_thread>("on_the_thread", "What is on the thread."),
      field<&TorqueResult::friction_low>("friction_low", Kind::Number,
                                         "Least coefficient of friction in the thread."),
      field<&TorqueResult::friction_high>("friction_high", Kind::Number,
                                          "Highest coefficient of friction in the thread."),
      field<&TorqueResult::preload_low>(
          "preload_low", Kind::Force, "Least clamping force at the asked torque, or at the recommended one."),
      field<&TorqueResult::preload_high>("preload_high", Kind::Force,
                                         "Highest clamping force at that torque."),
      field<&TorqueResult::post_stress>("post_stress", Kind::Stress,
                                        "Equivalent stress of the post at the highest preload."),
      field<&TorqueResult::stretch_margin>(
          "stretch_margin", Kind::Number,
          "Yield strength of the post over that stress, with the lowest friction of the "
          "thread. A torque is refused by the usual friction, at 0.9 of yield."),
      field<&TorqueResult::strip_margin>("strip_margin", Kind::Number,
                                         "Force that strips the softer thread over the highest preload."),
      field<&TorqueResult::range_low>("range_low", Kind::Torque, "Recommended torque, from."),
      field<&TorqueResult::range_high>("range_high", Kind::Torque, "Recommended torque, up to."),
      field<&TorqueResult::limit>("limit", Kind::Torque, "Torque beyond which the thread cannot carry it."),
      field<&TorqueResult::estimate>("estimate", "Nobody published the torque: the range is derived."),
      field<&TorqueResult::derivation>("derivation", "One sentence: how the range was derived."),
      field<&TorqueResult::derivation_steps>("derivation_steps", "The numbers of that derivation, in order."),
      field<&TorqueResult::torque_source>("torque_source", "Who published the torque; empty: nobody."),
      field<&TorqueResult::gives_way>(
          "gives_way", "What gives way first: \"the post stretches\", \"the nut's thread strips\"."),
      field<&TorqueResult::verdict>("verdict", "One sentence on the torque."),
      field<&TorqueResult::slip_torque>(
          "slip_torque", Kind::Torque,
          "The torque that was likely meant, a twelfth or twelve times as much; 0: no such slip."),
      field<&TorqueResult::too_low>("too_low", "The asked torque leaves the pile loose."),
      field<&TorqueResult::tight>("tight", "It holds, but not at both ends of the friction range."),
      field<&TorqueResult::refused>("refused", "The thread cannot carry the asked torque."),
  };
  static constexpr auto info =
      structure<TorqueResult>("TorqueResult", "The torque of the nut and what it does.", fields);
  return info;
}

template <>
const StructInfo& describe<DirectionNote>() {
  static constexpr FieldInfo fields[] = {
      field<&DirectionNote::part>("part", "For example \"piston\"."),
      field<&DirectionNote::words>("words", "For example \"the three large ports face the shoulder\"."),
      field<&DirectionNote::how_to_tell>("how_to_tell", "How to see or feel it."),
      field<&DirectionNote::if_reversed>("if_reversed", "What goes wrong the other way up."),
  };
  static constexpr auto info =
      structure<DirectionNote>("DirectionNote", "The right way up of one part.", fields);
  return info;
}

template <>
const StructInfo& describe<CollarFloat>() {
  static constexpr FieldInfo fields[] = {
      field<&CollarFloat::stack>("stack", "The stack that floats."),
      field<&CollarFloat::collar>("collar", "Name of the collar that it slides on."),
      field<&CollarFloat::stated>("stated", Kind::Length, "The float that the job states."),
      field<&CollarFloat::left>("left", Kind::Length,
                                "Length of the collar less all that slides on it: the float that is built; "
                                "negative: the stack is pinched."),
      field<&CollarFloat::tolerance>("tolerance", Kind::Length,
                                     "By how much that may be wrong, all tolerances at their ends."),
  };
  static constexpr auto info =
      structure<CollarFloat>("CollarFloat", "A floating stack and the length of its collar.", fields);
  return info;
}

template <>
const StructInfo& describe<PostResult>() {
  static constexpr FieldInfo fields[] = {
      field<&PostResult::name>("name", "For example \"fork leg, piston valve\"."),
      field<&PostResult::ledger>("ledger", "All pieces, shoulder first, the nut last."),
      field<&PostResult::bore_radius>("bore_radius", Kind::Length, "Bore of a hollow post; 0: solid."),
      field<&PostResult::major_radius>("major_radius", Kind::Length, "Major radius of the thread."),
      field<&PostResult::thread>("thread", "How the nut sits; absent: no thread is stated."),
      field<&PostResult::spacers>("spacers", "The spacers in hand and those used."),
      field<&PostResult::spacer_advice>(
          "spacer_advice", "\"Leave out two 0.3 mm spacers: ...\"; empty when it is right as written."),
      field<&PostResult::fits>("fits", "It fits with the spacers used."),
      field<&PostResult::fits_always>("fits_always", "It fits at the worst end of all tolerances too."),
      field<&PostResult::missing_least>("missing_least", Kind::Length,
                                        "A piece from this thickness on would do; 0: nothing to add."),
      field<&PostResult::missing_greatest>("missing_greatest", Kind::Length,
                                           "A piece up to this thickness would do; 0: nothing to add."),
      field<&PostResult::choices_examined>("choices_examined", "How many choices of spacers were examined."),
      field<&PostResult::flags>("flags", "What is wrong with the spacers used, worst first."),
      field<&PostResult::floats>("floats", "What the collars leave their floating stacks."),
      field<&PostResult::torque>("torque", "The torque and what it does."),
      field<&PostResult::directions>("directions", "Which way up the parts go."),
  };
  static constexpr auto info =
      structure<PostResult>("PostResult", "One post: what is on it, how the nut sits, how tight.", fields);
  return info;
}

}  // namespace shimwright::document
