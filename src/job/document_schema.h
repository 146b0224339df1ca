#pragma once
#include <string>
#include <string_view>

namespace shimwright::job {

/// The JSON Schema of the result and the bench document and of everything in them, one definition for each
/// struct:
/// {"Outcome": {"type": "object", ...}, ...}. The reader of a reference finds it behind `ref_prefix`, as
/// "#/components/schemas/". Made from the same lists as the writer, so that it cannot say anything else.
/// Tested: document_schema_test.cc
std::string result_schemas(std::string_view ref_prefix);

}  // namespace shimwright::job
