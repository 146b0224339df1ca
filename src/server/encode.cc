#include "server/encode.h"

#include <cmath>
#include <string_view>
#include <unordered_map>

#include "document/document_walk.h"
#include "server/answers.h"
#include "server/describe_list.h"
#include "server/http.h"
#include "units/stack_text.h"

namespace shimwright::server {
namespace {

using document::brief_json;
using document::described;

ErrorBody error_of(const ApiFault& fault) {
  return {fault.code, fault.message, fault.remedy};
}

std::vector<DraftAnswer> drafts_of(const std::vector<FaultyDraft>& drafts) {
  std::vector<DraftAnswer> answers;
  for (const FaultyDraft& faulty : drafts)
    answers.push_back({faulty.draft.path, faulty.draft.typed, faulty.draft.insert, faulty.diagnostic});
  return answers;
}

/// Of a path that a faulty text has twice the last value counts.
document::TextsByName values_of(const std::vector<file::TypedValue>& values) {
  std::unordered_map<std::string_view, const file::TypedValue*> last;
  for (const file::TypedValue& value : values) last[value.path] = &value;
  document::TextsByName texts;
  for (const file::TypedValue& value : values)
    if (last[value.path] == &value) texts.emplace_back(value.path, value.typed);
  return texts;
}

/// Puts the result into an answer, or what makes it of the result that the client holds, and the stack that
/// the client shows bent. `bent` keeps the text of that stack.
template <class View, class AnswerTo>
void put_result(const View& view, std::string& bent, AnswerTo& answer) {
  if (!view.result) return;
  if (view.bent) {
    bent = to_json(*view.bent);
    answer.stack_view = StackViewJson{bent};
  }
  answer.result_tag = view.result->tag;
  if (view.result_patch)
    answer.result_patch = PatchJson{*view.result_patch};
  else
    answer.result = ResultJson{view.result->json()};
}

JobState state_of(const JobView& view, std::string& bent) {
  JobState state;
  state.id = view.id;
  state.name = view.name;
  state.path = view.path;
  state.serial = view.track.serial;
  state.revision = view.track.position;
  state.disk_hash = view.track.disk_hash;
  state.unsaved = view.unsaved;
  state.disk_changed = view.disk_changed;
  state.disk_missing = view.disk_missing;
  state.text = view.text;
  state.drafts = drafts_of(view.drafts);
  state.diagnostics = view.diagnostics;
  state.can_undo = view.track.undo_to != 0;
  state.can_redo = view.track.redo_to != 0;
  state.undo_note = view.track.undo_note;
  state.redo_note = view.track.redo_note;
  state.result_revision = view.result_revision;
  state.timing = view.timing;
  state.values = values_of(view.values);
  put_result(view, bent, state);
  return state;
}

// the drawer: a number is there only when the parts file states it

std::optional<double> stated(const file::Quantity& quantity) {
  return quantity ? std::optional(quantity.si) : std::nullopt;
}
std::optional<int> stated(const file::Count& count) {
  return count ? std::optional(count.value) : std::nullopt;
}

DrawerShim shim_of(const file::DiscSpec& shim) {
  std::string label = shim.name;
  if (shim.outer_diameter && shim.thickness) {
    const bool inches = units::is_imperial(shim.thickness.text);
    label = units::shim_text_plain(1, shim.outer_diameter.si, shim.thickness.si,
                                   inches ? units::System::Imperial : units::System::Metric);
  }
  return {shim.name,           label, stated(shim.outer_diameter), stated(shim.thickness), stated(shim.bore),
          stated(shim.in_hand)};
}

DrawerOil oil_of(const file::OilSpec& oil) {
  DrawerOil entry{oil.name, {}, {}};
  for (const file::ViscosityPoint& point : oil.viscosity) {
    if (!point.at || !point.value) continue;
    if (std::abs(point.at.si - 313.15) < 0.5) entry.kinematic_viscosity_40 = point.value.si;
    if (std::abs(point.at.si - 373.15) < 0.5) entry.kinematic_viscosity_100 = point.value.si;
  }
  return entry;
}

}  // namespace

std::string to_json(const ApiFault& fault) {
  if (fault.code == "faulty") return brief_json(described(FaultyAnswer{error_of(fault), fault.diagnostics}));
  return brief_json(described(ErrorAnswer{error_of(fault)}));
}

Response answer_of(const ApiFault& fault) {
  return {fault.status, "application/json", to_json(fault)};
}

std::string to_json(const Session& session) {
  return brief_json(described(session));
}

std::string to_json(const DiskText& disk) {
  return brief_json(described(disk));
}

std::string to_json(const JobView& view) {
  std::string bent;
  return brief_json(described(state_of(view, bent)));
}

std::string to_json(const Trial& trial) {
  std::string bent;
  TrialAnswer answer{drafts_of(trial.drafts), trial.diagnostics, trial.timing, {}, {}, {}, {}};
  put_result(trial, bent, answer);
  return brief_json(described(answer));
}

std::string to_json(const JobEvent& event) {
  return brief_json(described(event));
}

std::string to_json(const RunProgress& progress) {
  return brief_json(described(progress));
}

std::string to_json(const file::PartsSpec& parts) {
  Drawer drawer;
  for (const file::DiscSpec& shim : parts.shims) drawer.shims.push_back(shim_of(shim));
  for (const file::CoilSpringSpec& spring : parts.springs)
    drawer.springs.push_back(
        {spring.name, stated(spring.rate), stated(spring.free_length), stated(spring.in_hand)});
  for (const file::OilSpec& oil : parts.oils) drawer.oils.push_back(oil_of(oil));
  for (const file::SpacerSpec& spacer : parts.spacers)
    drawer.spacers.push_back(
        {spacer.name, stated(spacer.thickness), stated(spacer.bore), stated(spacer.in_hand)});
  for (const file::MaterialSpec& material : parts.materials) drawer.materials.push_back({material.name});
  for (const file::NutSpec& nut : parts.fasteners) drawer.fasteners.push_back({nut.name});
  return brief_json(described(drawer));
}

std::string to_json(const job::StackView& view) {
  return brief_json(described(view));
}

std::string run_json(const std::string& run) {
  return brief_json(described(RunBegun{run}));
}

std::string conflict_json(const ApiFault& fault, const JobView& present) {
  std::string bent;
  return brief_json(described(ConflictAnswer{error_of(fault), state_of(present, bent)}));
}

std::string conflict_json(const ApiFault& fault, const DiskConflict& conflict) {
  return brief_json(described(DiskConflictAnswer{error_of(fault), conflict.text, conflict.hash}));
}

}  // namespace shimwright::server
