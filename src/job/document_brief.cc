#include "job/document_brief.h"

#include <string>
#include <utility>

#include "job/document_fields_bench.h"
#include "job/document_fields_whole.h"
#include "job/document_json.h"
#include "job/document_writer.h"

namespace shimwright::job {
namespace {

using internal::Writer;

template <typename Root>
std::string brief(const char* schema, const Root& document) {
  Writer writer;
  writer.out = "{";
  writer.member("schema", std::string(schema));
  writer.members(document);
  writer.out += '}';
  return std::move(writer.out);
}

}  // namespace

std::string to_brief_json(const ResultDocument& document) {
  return brief(kResultSchema, document);
}

std::string to_brief_json(const BenchDocument& document) {
  return brief(kBenchSchema, document);
}

}  // namespace shimwright::job
