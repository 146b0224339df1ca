#include "server/answers.h"
#include "server/describe_list.h"

namespace shimwright::document {

template <>
struct EnumWords<server::PatchAction> {
  static constexpr std::array list = {"replace", "add", "remove"};
};
template <>
struct EnumWords<store::Journal::Standing> {
  static constexpr std::array list = {"kept",         "renewed",      "shortened", "beside",
                                      "other_writes", "cannot_write", "in_memory"};
  static_assert(list.size() == static_cast<std::size_t>(store::Journal::Standing::InMemory) + 1);
};
template <>
struct EnumWords<file::ValueKind> {
  static constexpr std::array list = {"quantity", "range",     "quantities", "number",    "count",
                                      "flag",     "text",      "texts",      "date",      "word",
                                      "thread",   "part list", "part",       "part name", "table",
                                      "tables",   "stack",     "pieces",     "parts"};
  static_assert(list.size() == static_cast<std::size_t>(file::ValueKind::Parts) + 1);
};

using units::Kind;

template <>
const StructInfo& describe<server::ErrorBody>() {
  static constexpr FieldInfo fields[] = {
      field<&server::ErrorBody::code>(
          "code",
          "Stable: no_such_job, no_such_route, no_such_key, bad_request, bad_token, bad_host, bad_origin, "
          "not_json, too_large, too_slow, too_many, conflict, faulty, read_only, disk, bug."),
      field<&server::ErrorBody::message>("message", "One sentence: why not."),
      field<&server::ErrorBody::remedy>("remedy", "One sentence: what to do."),
  };
  static constexpr auto info =
      structure<server::ErrorBody>("ErrorBody", "Why a request was not done.", fields);
  return info;
}

template <>
const StructInfo& describe<server::ErrorAnswer>() {
  static constexpr FieldInfo fields[] = {
      field<&server::ErrorAnswer::error>("error", "Why not."),
  };
  static constexpr auto info =
      structure<server::ErrorAnswer>("Error", "The answer to a request that was not done.", fields);
  return info;
}

template <>
const StructInfo& describe<Diagnostic>() {
  static constexpr FieldInfo fields[] = {
      field<&Diagnostic::code>("code", "Stable code; docs/diagnostics.md lists all."),
      field<&Diagnostic::severity>("severity", "Only a \"stop\" keeps the job from being computed."),
      field<&Diagnostic::file>("file", "File as the user named it; empty for a draft."),
      field<&Diagnostic::line>("line", "Line, from 1; 0 without a place."),
      field<&Diagnostic::column>("column", "Column in characters, from 1."),
      field<&Diagnostic::length>("length", "How many characters are meant."),
      field<&Diagnostic::path>("path", "Path of the key."),
      field<&Diagnostic::what>("what", "One short clause: what is wrong."),
      field<&Diagnostic::got>("got", "What was found, as typed."),
      field<&Diagnostic::expected>("expected", "What would be accepted."),
      field<&Diagnostic::remedy>("remedy", "One sentence: what to write."),
  };
  static constexpr auto info =
      structure<Diagnostic>("Diagnostic", "A fault in something that a person wrote.", fields);
  return info;
}

template <>
const StructInfo& describe<server::FaultyAnswer>() {
  static constexpr FieldInfo fields[] = {
      field<&server::FaultyAnswer::error>("error", "Why not."),
      field<&server::FaultyAnswer::diagnostics>("diagnostics", "What is wrong in it."),
  };
  static constexpr auto info =
      structure<server::FaultyAnswer>("Faulty", "A job that cannot be computed.", fields);
  return info;
}

template <>
const StructInfo& describe<server::DraftAnswer>() {
  static constexpr FieldInfo fields[] = {
      field<&server::DraftAnswer::path>("path", "Path of the key or element."),
      field<&server::DraftAnswer::typed>("typed", "As typed."),
      field<&server::DraftAnswer::insert>("insert", "It would be a new element before the one at `path`."),
      field<&server::DraftAnswer::diagnostic>("diagnostic", "What is wrong with it."),
  };
  static constexpr auto info =
      structure<server::DraftAnswer>("Draft",
                                     "A value that was typed and could not be taken. It stays until it is "
                                     "put right or dropped; an edit elsewhere that makes it good takes it.",
                                     fields);
  return info;
}

template <>
const StructInfo& describe<server::Timing>() {
  static constexpr FieldInfo fields[] = {
      field<&server::Timing::compute_ms>("compute_ms", Unit("ms"), "Reading and computing the job."),
      field<&server::Timing::encode_ms>("encode_ms", Unit("ms"), "Writing the answer."),
  };
  static constexpr auto info = structure<server::Timing>("Timing", "How long the answer took.", fields);
  return info;
}

template <>
const StructInfo& describe<server::PatchOperation>() {
  static constexpr FieldInfo fields[] = {
      field<&server::PatchOperation::op>("op", "What to do."),
      field<&server::PatchOperation::path>(
          "path", "A JSON pointer (RFC 6901) into the result; no name in it has a ~ or a /."),
      field<&server::PatchOperation::value>("value", "What stands there afterwards; absent with remove."),
  };
  static constexpr auto info =
      structure<server::PatchOperation>("PatchOperation", "One operation of RFC 6902.", fields);
  return info;
}

template <>
const StructInfo& describe<job::DiscView>() {
  static constexpr FieldInfo fields[] = {
      field<&job::DiscView::number>("number", "Number of the disc; 1 is the face disc."),
      field<&job::DiscView::label>("label", "For example \"20 x 0.15 mm\", in the units asked for."),
      field<&job::DiscView::thickness>("thickness", Kind::Length, "Thickness."),
      field<&job::DiscView::radius>("radius", Kind::Length, "Radii, ascending."),
      field<&job::DiscView::height>("height", Kind::Length,
                                    "Height of the underside over the clamp plane at each radius."),
      field<&job::DiscView::rest_height>("rest_height", Kind::Length, "The same at rest."),
      field<&job::DiscView::stress>("stress", Kind::Stress,
                                    "Largest stress of the two faces at each radius."),
      field<&job::DiscView::carries>("carries", "It takes a contact force."),
      field<&job::DiscView::highest_stress>("highest_stress", Kind::Stress, "Highest stress of the disc."),
      field<&job::DiscView::yield_margin>(
          "yield_margin", Kind::Number, "Strength over stress; absent when the material states no strength."),
      field<&job::DiscView::fatigue_margin>(
          "fatigue_margin", Kind::Number,
          "Permitted over present stress; absent when the material states no strength."),
  };
  static constexpr auto info =
      structure<job::DiscView>("DiscView", "One disc of a bent stack, for drawing.", fields);
  return info;
}

template <>
const StructInfo& describe<job::StackView>() {
  static constexpr FieldInfo fields[] = {
      field<&job::StackView::path>("path", "Path of the direction, unit[0].piston_valve.rebound, or stack."),
      field<&job::StackView::pressure>("pressure", Kind::PressureDifference,
                                       "Pressure drop over the face disc."),
      field<&job::StackView::speed>("speed", Kind::Speed, "Speed of the shaft; absent for a lone stack."),
      field<&job::StackView::flow>("flow", Kind::VolumeRate,
                                   "Flow through the valve; absent for a lone stack."),
      field<&job::StackView::bleed_flow>("bleed_flow", Kind::VolumeRate, "Flow through bleeds and leakage."),
      field<&job::StackView::stack_flow>("stack_flow", Kind::VolumeRate, "Flow under the stack."),
      field<&job::StackView::lift_at_seat>("lift_at_seat", Kind::Length, "Lift at the seat."),
      field<&job::StackView::lift_at_rim>("lift_at_rim", Kind::Length, "Lift at the rim."),
      field<&job::StackView::float_used>("float_used", Kind::Length,
                                         "Slide on the collar before the stack bends."),
      field<&job::StackView::opening_area>("opening_area", Kind::Area, "Open area between disc and seat."),
      field<&job::StackView::discs>("discs", "Each disc, face first."),
      field<&job::StackView::contacts>("contacts", "Who presses on whom."),
      field<&job::StackView::outcome>("outcome", "How the solution ended."),
  };
  static constexpr auto info =
      structure<job::StackView>("StackView", "One stack at one pressure, for drawing.", fields);
  return info;
}

template <>
const StructInfo& describe<server::JobState>() {
  static constexpr FieldInfo fields[] = {
      field<&server::JobState::id>("id", "16 hex digits, the same for a path for ever."),
      field<&server::JobState::name>("name", "Path from the folder."),
      field<&server::JobState::path>("path", "Path on the disk."),
      field<&server::JobState::serial>(
          "serial", "Grows with every change of this job, undo too: of two answers the larger is the newer."),
      field<&server::JobState::revision>(
          "revision", "Revision of the text and its drafts; undo goes back to an older one."),
      field<&server::JobState::disk_hash>(
          "disk_hash", "Hash of the file as last read or written; empty: there is no file."),
      field<&server::JobState::unsaved>("unsaved", "The text is not that of the file."),
      field<&server::JobState::disk_changed>("disk_changed", "The file is not what this text came from."),
      field<&server::JobState::disk_missing>("disk_missing",
                                             "There is no file; `disk_changed` is then set too."),
      field<&server::JobState::text>("text", "The text of the job file."),
      field<&server::JobState::drafts>("drafts", "What was typed and could not be taken."),
      field<&server::JobState::diagnostics>("diagnostics", "What is wrong in the text."),
      field<&server::JobState::can_undo>("can_undo", "There is a step back."),
      field<&server::JobState::can_redo>("can_redo", "There is a step forward."),
      field<&server::JobState::undo_note>("undo_note", "What undo takes back."),
      field<&server::JobState::redo_note>("redo_note", "What redo brings back."),
      field<&server::JobState::result_revision>(
          "result_revision", "Revision that the result belongs to: the last good one; 0 without a result."),
      field<&server::JobState::timing>("timing", "How long the answer took."),
      field<&server::JobState::values>(
          "values", "Every value of the file by its path, as typed, texts without their quotes."),
      field<&server::JobState::stack_view>("stack_view", "The stack that the client shows bent."),
      field<&server::JobState::result_tag>(
          "result_tag",
          "Stands with every result, whole or as a patch: equal for equal results of this start of the "
          "server. Send it back as X-Shimwright-Result."),
      field<&server::JobState::result_patch>(
          "result_patch",
          "Operations of RFC 6902, in order, that make the result of the one that X-Shimwright-Result named; "
          "empty when nothing has changed."),
      field<&server::JobState::result>("result", "The result; absent beside a patch."),
  };
  static constexpr auto info = structure<server::JobState>(
      "JobState", "One job: its text, its values, what is wrong in it, and what it gives.", fields);
  return info;
}

template <>
const StructInfo& describe<server::TrialAnswer>() {
  static constexpr FieldInfo fields[] = {
      field<&server::TrialAnswer::drafts>("drafts", "What could not be taken."),
      field<&server::TrialAnswer::diagnostics>("diagnostics", "What would be wrong in the text."),
      field<&server::TrialAnswer::timing>("timing", "How long the answer took."),
      field<&server::TrialAnswer::stack_view>("stack_view", "The stack that the client shows bent."),
      field<&server::TrialAnswer::result_tag>("result_tag", "As in JobState."),
      field<&server::TrialAnswer::result_patch>("result_patch", "As in JobState."),
      field<&server::TrialAnswer::result>(
          "result", "The result; absent beside a patch, and with a stop among the diagnostics."),
  };
  static constexpr auto info =
      structure<server::TrialAnswer>("Trial", "What a job would give after edits that are not kept.", fields);
  return info;
}

template <>
const StructInfo& describe<server::ConflictAnswer>() {
  static constexpr FieldInfo fields[] = {
      field<&server::ConflictAnswer::error>("error", "Why not."),
      field<&server::ConflictAnswer::job>("job", "The present state."),
  };
  static constexpr auto info =
      structure<server::ConflictAnswer>("Conflict", "An edit of a job that has changed since.", fields);
  return info;
}

template <>
const StructInfo& describe<server::DiskConflictAnswer>() {
  static constexpr FieldInfo fields[] = {
      field<&server::DiskConflictAnswer::error>("error", "Why not."),
      field<&server::DiskConflictAnswer::disk_text>("disk_text", "What the file holds now."),
      field<&server::DiskConflictAnswer::disk_hash>("disk_hash", "To be given back as `expect_disk`."),
  };
  static constexpr auto info =
      structure<server::DiskConflictAnswer>("DiskConflict", "A file that changed underneath.", fields);
  return info;
}

template <>
const StructInfo& describe<server::DiskText>() {
  static constexpr FieldInfo fields[] = {
      field<&server::DiskText::text>("text", "What the file holds now."),
      field<&server::DiskText::hash>("hash", "As `disk_hash` of a JobState."),
      field<&server::DiskText::missing>("missing", "There is no file."),
  };
  static constexpr auto info =
      structure<server::DiskText>("DiskText", "The file of a job, as it lies on the disk.", fields);
  return info;
}

template <>
const StructInfo& describe<server::JobEntry>() {
  static constexpr FieldInfo fields[] = {
      field<&server::JobEntry::id>("id", "16 hex digits, the same for a path for ever."),
      field<&server::JobEntry::name>("name", "Path from the folder."),
      field<&server::JobEntry::title>("title", "Title of the job."),
      field<&server::JobEntry::kind>("kind", "What it is about: fork, shock, both, stack, or empty."),
      field<&server::JobEntry::unsaved>("unsaved", "The journal holds a newer text than the file."),
      field<&server::JobEntry::faults>("faults", "How many faults it has."),
  };
  static constexpr auto info = structure<server::JobEntry>("JobEntry", "One job of the folder.", fields);
  return info;
}

template <>
const StructInfo& describe<server::Session>() {
  static constexpr FieldInfo fields[] = {
      field<&server::Session::program_version>("program_version", "Version of the program."),
      field<&server::Session::token>("token",
                                     "Goes with every write as X-Shimwright-Token; new at each start."),
      field<&server::Session::folder>("folder", "Folder whose jobs are served."),
      field<&server::Session::lan>("lan", "Other machines of the network may look too."),
      field<&server::Session::read_only>("read_only", "The journal can only be read: looking only."),
      field<&server::Session::notice>("notice",
                                      "What the user must know of the journal; empty when all is well."),
      field<&server::Session::journal>("journal", "The same as a word."),
      field<&server::Session::other_address>(
          "other_address",
          "Where the workbench is that writes the journal; empty when this "
          "one does, or nobody knows."),
      field<&server::Session::open>("open", "Id of the job to show first; empty: the list."),
      field<&server::Session::jobs>("jobs", "The jobs of the folder."),
  };
  static constexpr auto info =
      structure<server::Session>("Session", "Who serves, and which jobs lie in the folder.", fields);
  return info;
}

template <>
const StructInfo& describe<server::JobEvent>() {
  static constexpr FieldInfo fields[] = {
      field<&server::JobEvent::job>(
          "job", "Id of the job; empty: the journal itself, so that session and job are to be read again."),
      field<&server::JobEvent::serial>("serial", "As in JobState."),
      field<&server::JobEvent::revision>("revision", "As in JobState."),
      field<&server::JobEvent::client>("client", "Who did it; empty: the disk."),
      field<&server::JobEvent::disk_changed>("disk_changed", "As in JobState."),
      field<&server::JobEvent::parts_changed>("parts_changed",
                                              "One of its parts files has changed, and so may its result."),
  };
  static constexpr auto info =
      structure<server::JobEvent>("JobEvent", "Something happened to a job.", fields);
  return info;
}

template <>
const StructInfo& describe<server::RunBegun>() {
  static constexpr FieldInfo fields[] = {
      field<&server::RunBegun::run>("run", "Its id."),
  };
  static constexpr auto info = structure<server::RunBegun>("RunBegun", "A run on the bench.", fields);
  return info;
}

template <>
const StructInfo& describe<server::RunProgress>() {
  static constexpr FieldInfo fields[] = {
      field<&server::RunProgress::done>("done", Kind::Fraction, "Part that is done, 0 to 1."),
      field<&server::RunProgress::next>("next", "What comes next."),
  };
  static constexpr auto info = structure<server::RunProgress>("RunProgress", "How far a run is.", fields);
  return info;
}

template <>
const StructInfo& describe<server::DrawerShim>() {
  static constexpr FieldInfo fields[] = {
      field<&server::DrawerShim::name>("name", "Name of the part."),
      field<&server::DrawerShim::label>("label", "For example \"20 x 0.15 mm\"."),
      field<&server::DrawerShim::outer_diameter>("outer_diameter", Kind::Length, "Outer diameter."),
      field<&server::DrawerShim::thickness>("thickness", Kind::Length, "Thickness."),
      field<&server::DrawerShim::bore>("bore", Kind::Length, "Diameter of the bore."),
      field<&server::DrawerShim::in_hand>("in_hand", "How many there are."),
  };
  static constexpr auto info =
      structure<server::DrawerShim>("DrawerShim", "A shim of the parts files.", fields);
  return info;
}

template <>
const StructInfo& describe<server::DrawerSpring>() {
  static constexpr FieldInfo fields[] = {
      field<&server::DrawerSpring::name>("name", "Name of the part."),
      field<&server::DrawerSpring::rate>("rate", Kind::SpringRate, "Rate."),
      field<&server::DrawerSpring::free_length>("free_length", Kind::Length, "Free length."),
      field<&server::DrawerSpring::in_hand>("in_hand", "How many there are."),
  };
  static constexpr auto info =
      structure<server::DrawerSpring>("DrawerSpring", "A spring of the parts files.", fields);
  return info;
}

template <>
const StructInfo& describe<server::DrawerOil>() {
  static constexpr FieldInfo fields[] = {
      field<&server::DrawerOil::name>("name", "Name of the oil."),
      field<&server::DrawerOil::kinematic_viscosity_40>("kinematic_viscosity_40", Kind::KinematicViscosity,
                                                        "Kinematic viscosity at 40 degC."),
      field<&server::DrawerOil::kinematic_viscosity_100>("kinematic_viscosity_100", Kind::KinematicViscosity,
                                                         "Kinematic viscosity at 100 degC."),
  };
  static constexpr auto info =
      structure<server::DrawerOil>("DrawerOil", "An oil of the parts files.", fields);
  return info;
}

template <>
const StructInfo& describe<server::DrawerSpacer>() {
  static constexpr FieldInfo fields[] = {
      field<&server::DrawerSpacer::name>("name", "Name of the part."),
      field<&server::DrawerSpacer::thickness>("thickness", Kind::Length, "Thickness."),
      field<&server::DrawerSpacer::bore>("bore", Kind::Length, "Diameter of the bore."),
      field<&server::DrawerSpacer::in_hand>("in_hand", "How many there are."),
  };
  static constexpr auto info =
      structure<server::DrawerSpacer>("DrawerSpacer", "A spacer of the parts files.", fields);
  return info;
}

template <>
const StructInfo& describe<server::DrawerPart>() {
  static constexpr FieldInfo fields[] = {
      field<&server::DrawerPart::name>("name", "Name of the part."),
  };
  static constexpr auto info =
      structure<server::DrawerPart>("DrawerPart", "Another part of the parts files.", fields);
  return info;
}

template <>
const StructInfo& describe<server::Drawer>() {
  static constexpr FieldInfo fields[] = {
      field<&server::Drawer::shims>("shims", "Shims."),
      field<&server::Drawer::springs>("springs", "Coil springs."),
      field<&server::Drawer::oils>("oils", "Oils."),
      field<&server::Drawer::spacers>("spacers", "Spacers."),
      field<&server::Drawer::materials>("materials", "Materials."),
      field<&server::Drawer::fasteners>("fasteners", "Nuts and bolts."),
  };
  static constexpr auto info = structure<server::Drawer>(
      "Drawer", "What lies in the drawer: all parts of the job's parts files, in file order.", fields);
  return info;
}

template <>
const StructInfo& describe<server::SchemaKey>() {
  static constexpr FieldInfo fields[] = {
      field<&server::SchemaKey::path>("path", "For example unit[].piston_valve.rebound.clamp."),
      field<&server::SchemaKey::value>("value", "What the key takes."),
      field<&server::SchemaKey::unit>("unit",
                                      "Kind of the quantity, as length or pressure; empty for other values."),
      field<&server::SchemaKey::words>("words", "The words it takes, when it takes only these."),
      field<&server::SchemaKey::required>("required", "A job without it has a fault."),
      field<&server::SchemaKey::station>("station", "Station of the work where the key is filled in."),
      field<&server::SchemaKey::parts>("parts",
                                       "Which parts of the parts files it may name; empty for none."),
      field<&server::SchemaKey::doc>("doc", "What it means."),
      field<&server::SchemaKey::example>("example", "A value as one would type it."),
      field<&server::SchemaKey::accepts>("accepts", "What it accepts, in words."),
      field<&server::SchemaKey::bounds>("bounds", "Its bounds, in words."),
      field<&server::SchemaKey::low>("low", Unit("SI"), "Least value; absent without such a bound."),
      field<&server::SchemaKey::high>("high", Unit("SI"), "Largest value; absent without such a bound."),
  };
  static constexpr auto info = structure<server::SchemaKey>("SchemaKey", "One key of a job file.", fields);
  return info;
}

}  // namespace shimwright::document
