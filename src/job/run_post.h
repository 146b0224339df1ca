#pragma once
#include "damper/motion_model.h"
#include "document/document_fill.h"
#include "document/document_phrase.h"
#include "document/document_post.h"
#include "document/document_reservoir.h"
#include "file/spec.h"
#include "resolve/resolve_fill.h"
#include "resolve/resolve_post.h"

namespace shimwright::job {

/// Ledger, spacers, thread and torque of one post.
document::PostResult post_result(const resolve::PostModel& model, const document::Phrase& phrase);

/// The right way round of each directional part of a valve: what the job says of a piece, else the trade's
/// rule. Each line of the ledger is told which of the notes is its own.
void add_directions(const file::ValveSpec& valve, const resolve::PostModel& model,
                    document::PostResult& post);

/// What the asked torque does to the joint, or the range that is derived where none is asked.
///
/// Units:  engaged_length: of full thread in the nut [m], > 0.
document::TorqueResult torque_result(const resolve::TorqueModel& model, double engaged_length,
                                     const document::Phrase& phrase);

/// The reservoir with the rod out and in, cold and warm.
document::ReservoirResult reservoir_result(const resolve::ReservoirModel& model, const oil::OilModel& oil,
                                           const resolve::Conditions& conditions);

/// Volumes, growth, purge, how to bleed, and the acceptance test read backwards.
///
/// `at_rest`: the damper as it is filled, for what a rod that stops short says; null where it is not known.
document::FillResult fill_result(const resolve::FillModel& model, const damper::MotionModel* at_rest,
                                 const file::HandTestSpec* hand_test, const document::Phrase& phrase);

}  // namespace shimwright::job
