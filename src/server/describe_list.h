#pragma once
#include "document/document_describe_list.h"
#include "server/answers.h"
#include "server/requests.h"
#include "server/workbench.h"

// What the workbench takes and answers, described. Each struct of the API has one description: in
// describe_answers.cc or in describe_requests.cc.

namespace shimwright::document {

template <>
struct EnumWords<server::PatchAction> {
  static constexpr std::array list = {"replace", "add", "remove"};
};
template <>
struct EnumWords<file::ValueKind> {
  static constexpr std::array list = {"quantity", "range",     "quantities", "number",    "count",
                                      "flag",     "text",      "texts",      "date",      "word",
                                      "thread",   "part list", "part",       "part name", "table",
                                      "tables",   "stack",     "pieces",     "parts"};
  static_assert(list.size() == static_cast<std::size_t>(file::ValueKind::Parts) + 1);
};

template <>
const StructInfo& describe<server::ErrorAnswer>();
template <>
const StructInfo& describe<server::FaultyAnswer>();
template <>
const StructInfo& describe<server::JobState>();
template <>
const StructInfo& describe<server::TrialAnswer>();
template <>
const StructInfo& describe<server::ConflictAnswer>();
template <>
const StructInfo& describe<server::DiskConflictAnswer>();
template <>
const StructInfo& describe<server::Session>();
template <>
const StructInfo& describe<server::JobEvent>();
template <>
const StructInfo& describe<server::RunBegun>();
template <>
const StructInfo& describe<server::RunProgress>();
template <>
const StructInfo& describe<job::StackView>();
template <>
const StructInfo& describe<server::Drawer>();
template <>
const StructInfo& describe<server::SchemaKey>();

template <>
const StructInfo& describe<server::EditBody>();
template <>
const StructInfo& describe<server::TryBody>();
template <>
const StructInfo& describe<server::ClientBody>();
template <>
const StructInfo& describe<server::SaveBody>();
template <>
const StructInfo& describe<server::NewJobRequest>();
template <>
const StructInfo& describe<server::BenchBody>();

}  // namespace shimwright::document
