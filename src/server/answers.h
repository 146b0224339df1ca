#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "document/document_describe.h"
#include "file/schema.h"
#include "job/stack_view.h"
#include "server/views.h"

// What goes out as JSON, where the workbench itself keeps it in another shape. What each struct and each
// member means: describe_answers.cc

namespace shimwright::server {

struct ErrorBody {
  std::string code;
  std::string message;
  std::string remedy;
};

struct ErrorAnswer {
  ErrorBody error;
};

struct FaultyAnswer {
  ErrorBody error;
  Diagnostics diagnostics;
};

struct DraftAnswer {
  std::string path;
  std::string typed;
  bool insert = false;
  Diagnostic diagnostic;
};

enum class PatchAction { Replace, Add, Remove };

struct PatchOperation {
  PatchAction op = PatchAction::Replace;
  std::string path;
  std::optional<document::AnyJson> value;
};

using ResultJson = document::WrittenJson<document::ResultDocument>;
using PatchJson = document::WrittenJson<std::vector<PatchOperation>>;
using StackViewJson = document::WrittenJson<job::StackView>;

struct JobState {
  std::string id;
  std::string name;
  std::string path;
  std::int64_t serial = 0;
  std::int64_t revision = 0;
  std::string disk_hash;
  bool unsaved = false;
  bool disk_changed = false;
  bool disk_missing = false;
  std::string text;
  std::vector<DraftAnswer> drafts;
  Diagnostics diagnostics;
  bool can_undo = false;
  bool can_redo = false;
  std::string undo_note;
  std::string redo_note;
  std::int64_t result_revision = 0;
  Timing timing;
  document::TextsByName values;
  std::optional<StackViewJson> stack_view;
  std::optional<std::string> result_tag;
  std::optional<PatchJson> result_patch;
  std::optional<ResultJson> result;
};

struct TrialAnswer {
  std::vector<DraftAnswer> drafts;
  Diagnostics diagnostics;
  Timing timing;
  std::optional<StackViewJson> stack_view;
  std::optional<std::string> result_tag;
  std::optional<PatchJson> result_patch;
  std::optional<ResultJson> result;
};

struct ConflictAnswer {
  ErrorBody error;
  JobState job;
};

struct DiskConflictAnswer {
  ErrorBody error;
  std::string disk_text;
  std::string disk_hash;
};

struct RunBegun {
  std::string run;
};

struct RunProgress {
  double done = 0;
  std::string next;
};

struct DrawerShim {
  std::string name;
  std::string label;
  std::optional<double> outer_diameter;
  std::optional<double> thickness;
  std::optional<double> bore;
  std::optional<int> in_hand;
};

struct DrawerSpring {
  std::string name;
  std::optional<double> rate;
  std::optional<double> free_length;
  std::optional<int> in_hand;
};

struct DrawerOil {
  std::string name;
  std::optional<double> kinematic_viscosity_40;
  std::optional<double> kinematic_viscosity_100;
};

struct DrawerSpacer {
  std::string name;
  std::optional<double> thickness;
  std::optional<double> bore;
  std::optional<int> in_hand;
};

struct DrawerPart {
  std::string name;
};

struct Drawer {
  std::vector<DrawerShim> shims;
  std::vector<DrawerSpring> springs;
  std::vector<DrawerOil> oils;
  std::vector<DrawerSpacer> spacers;
  std::vector<DrawerPart> materials;
  std::vector<DrawerPart> fasteners;
};

struct SchemaKey {
  std::string path;
  file::ValueKind value = file::ValueKind::Text;
  std::string unit;
  std::vector<std::string> words;
  bool required = false;
  Station station = Station::Hardware;
  std::string parts;
  std::string doc;
  std::string example;
  std::string accepts;
  std::string bounds;
  std::optional<double> low;
  std::optional<double> high;
};

}  // namespace shimwright::server
