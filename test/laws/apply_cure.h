#pragma once
#include <string>

#include "document/document_cure.h"
#include "job_tree.h"

namespace shimwright::laws {

/// A value as a job file states it, with more digits than any page prints.
std::string toml_of(const document::Value& value);

/// The job with keys changed. False when there is no table that a key could stand in.
bool apply(const document::KeyChange& change, Tree& job);
bool apply(const document::Cure& cure, Tree& job);

}  // namespace shimwright::laws
