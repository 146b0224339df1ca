#pragma once
#include "document/document_describe_list.h"

// What the workbench takes and answers, described. Each struct of the API has one description: in
// describe_answers.cc or in describe_requests.cc.

namespace shimwright::server {
struct BenchBody;
struct ClientBody;
struct ConflictAnswer;
struct DiskConflictAnswer;
struct DiskText;
struct Drawer;
struct EditBody;
struct ErrorAnswer;
struct FaultyAnswer;
struct JobEvent;
struct JobState;
struct NewJobRequest;
struct RunBegun;
struct RunProgress;
struct SaveBody;
struct SchemaKey;
struct Session;
struct TrialAnswer;
struct TryBody;
}  // namespace shimwright::server

namespace shimwright::job {
struct StackView;
}  // namespace shimwright::job

namespace shimwright::document {

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
const StructInfo& describe<server::DiskText>();
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
