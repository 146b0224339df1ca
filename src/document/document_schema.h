#pragma once
#include <span>
#include <string>
#include <string_view>

#include "document/document_describe.h"

namespace shimwright::document {

/// The JSON Schema of these structs and of everything in them, one definition for each struct:
/// {"Outcome": {"type": "object", ...}, ...}. The reader of a reference finds it behind `ref_prefix`, as
/// "#/components/schemas/". Made from the same descriptions as the JSON, so that it cannot say anything else.
/// Tested: document_schema_test.cc
std::string schemas_of(std::span<const StructInfo* const> roots, std::string_view ref_prefix);

/// Those of the result document and of the bench document.
std::string result_schemas(std::string_view ref_prefix);

}  // namespace shimwright::document
