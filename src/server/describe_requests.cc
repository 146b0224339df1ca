#include "server/describe_list.h"
#include "server/requests.h"
#include "server/workbench.h"

namespace shimwright::document {

using units::Kind;

template <>
const StructInfo& describe<server::EditForm>() {
  static constexpr Form forms[] = {{"set", "typed"}, {"remove"}, {"insert", "typed"},
                                   {"move", "to"},   {"drop"},   {"text"}};
  static constexpr FieldInfo fields[] = {
      field<&server::EditForm::set>("set", "Path of a key; one that is not there is added."),
      field<&server::EditForm::remove>("remove", "Path of a key, a table or an element."),
      field<&server::EditForm::insert>("insert",
                                       "Path of an element, as unit[0].x.stack[2]: the new one stands before "
                                       "it; one behind the last adds at the end."),
      field<&server::EditForm::move>("move", "Path of an element."),
      field<&server::EditForm::drop>("drop", "Path of a draft that is no longer wanted."),
      field<&server::EditForm::text>("text", "The whole file; only with `base` the present revision."),
      field<&server::EditForm::typed>(
          "typed",
          "As typed, without quotes where the key takes a text; of a [[table]] its lines of key = value."),
      field<&server::EditForm::to>("to", "Index of the element afterwards."),
  };
  static constexpr auto info = structure<server::EditForm>(
      "Edit", "One change of a job file. Paths as in the `values` of a JobState.", fields, {}, forms);
  return info;
}

template <>
const StructInfo& describe<server::EditBody>() {
  static constexpr FieldInfo fields[] = {
      field<&server::EditBody::base>("base", "Revision that the client saw."),
      field<&server::EditBody::client>("client", "Name of the tab; comes back in events."),
      field<&server::EditBody::note>("note", "What undo calls it."),
      field<&server::EditBody::again>(
          "again",
          "The answer to the first request was lost: nothing is done when this client has changed the job "
          "already. So give each such change a client of its own."),
      field<&server::EditBody::edits>("edits", "The changes, in order."),
  };
  static constexpr auto info =
      structure<server::EditBody>("EditRequest", "Changes that are to be kept.", fields);
  return info;
}

template <>
const StructInfo& describe<server::TryBody>() {
  static constexpr FieldInfo fields[] = {
      field<&server::TryBody::edits>("edits", "The changes, in order."),
  };
  static constexpr auto info =
      structure<server::TryBody>("TryRequest", "Changes that are not to be kept.", fields);
  return info;
}

template <>
const StructInfo& describe<server::ClientBody>() {
  static constexpr FieldInfo fields[] = {
      field<&server::ClientBody::client>("client", "Name of the tab; comes back in events."),
  };
  static constexpr auto info = structure<server::ClientBody>("ClientRequest", "Who asks.", fields);
  return info;
}

template <>
const StructInfo& describe<server::SaveBody>() {
  static constexpr FieldInfo fields[] = {
      field<&server::SaveBody::client>("client", "Name of the tab; comes back in events."),
      field<&server::SaveBody::expect_disk>(
          "expect_disk",
          "`disk_hash` of the JobState, or of the DiskConflict after the user has seen its text."),
      field<&server::SaveBody::over>(
          "over", "Write whatever the file holds; its text is put into the journal first, one undo away."),
  };
  static constexpr auto info =
      structure<server::SaveBody>("SaveRequest", "Write the text to its file.", fields);
  return info;
}

template <>
const StructInfo& describe<server::NewJobRequest>() {
  static constexpr FieldInfo fields[] = {
      field<&server::NewJobRequest::client>("client", "Name of the tab; comes back in events."),
      field<&server::NewJobRequest::name>("name", "File name in the folder, ending in .job.toml."),
      field<&server::NewJobRequest::from>("from",
                                          "Id of a job to copy, or fork, shock, stack for a plain start."),
  };
  static constexpr auto info =
      structure<server::NewJobRequest>("NewJobRequest", "Begin a new job file.", fields);
  return info;
}

template <>
const StructInfo& describe<server::ClickForm>() {
  static constexpr FieldInfo fields[] = {
      field<&server::ClickForm::adjuster>(
          "adjuster",
          "Name of the needle, in every unit that has it; \"unit: needle\" is that of one unit alone."),
      field<&server::ClickForm::clicks>("clicks", "Clicks out from seated."),
  };
  static constexpr auto info =
      structure<server::ClickForm>("ClickSetting", "A click setting for the bench.", fields);
  return info;
}

template <>
const StructInfo& describe<server::BenchBody>() {
  static constexpr FieldInfo fields[] = {
      field<&server::BenchBody::client>("client", "Name of the tab; comes back in events."),
      field<&server::BenchBody::air_in_rod_chamber>("air_in_rod_chamber", Kind::Volume,
                                                    "Air that the bleed left, at one atmosphere."),
      field<&server::BenchBody::oil_temperature>("oil_temperature", Kind::Temperature,
                                                 "Temperature of the oil at the start."),
      field<&server::BenchBody::clicks>("clicks", "Other click settings than those of the job."),
  };
  static constexpr auto info = structure<server::BenchBody>(
      "BenchRequest", "Put a job on the bench. What is left out is as the job says.", fields);
  return info;
}

}  // namespace shimwright::document
