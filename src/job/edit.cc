#include "job/edit.h"

#include <algorithm>

#include "job/load.h"
#include "job/load_codes.h"
#include "job/load_reading.h"
#include "job/schema.h"
#include "toml/document.h"
#include "toml/edit.h"
#include "toml/quoted.h"

namespace shimwright::job {
namespace {

/// The file under which the edited text is read again; it names no parts file that could be found.
constexpr const char* kName = "";

Diagnostic from_fault(const toml::Fault& fault, std::string_view path) {
  Diagnostic diagnostic;
  diagnostic.code = facts_of(Code::NotToml).id;
  diagnostic.line = fault.line;
  diagnostic.column = fault.column;
  diagnostic.path = path;
  diagnostic.what = fault.what;
  diagnostic.expected = fault.expected;
  diagnostic.remedy = fault.remedy;
  return diagnostic;
}

Diagnostics unknown_key(std::string_view path) {
  const std::size_t dot = path.find_last_of('.');
  const std::string_view name = dot == std::string_view::npos ? path : path.substr(dot + 1);
  const KeySchema* parent =
      dot == std::string_view::npos ? nullptr : key_at(job_schema(), path.substr(0, dot));
  const TableSchema* table =
      dot == std::string_view::npos ? &job_schema() : (parent ? parent->table : nullptr);
  Diagnostic diagnostic;
  diagnostic.code = facts_of(Code::UnknownKey).id;
  diagnostic.path = path;
  diagnostic.what = "a job file has no such key";
  diagnostic.got = name;
  diagnostic.remedy =
      suggestion(name, table ? key_names(*table) : std::vector<std::string>{}, "look at the path");
  return {diagnostic};
}

/// True when values of this kind stand in quotes.
bool takes_text(ValueKind kind) {
  switch (kind) {
    case ValueKind::Number:
    case ValueKind::Count:
    case ValueKind::Flag:
    case ValueKind::Table:
    case ValueKind::TableList:
    case ValueKind::Parts:
      return false;
    default:
      return true;
  }
}

/// The value as TOML: as it is when it is some, in quotes when the key takes a text.
std::string as_toml(std::string_view value, const KeySchema& key) {
  const toml::Document probe = toml::parse("v = " + std::string(value));
  if (probe.ok() || !takes_text(key.kind)) return std::string(value);
  return toml::quote(value);
}

bool lies_within(std::string_view path, std::string_view whole) {
  if (!path.starts_with(whole)) return false;
  return path.size() == whole.size() || path[whole.size()] == '.' || path[whole.size()] == '[';
}

}  // namespace

Result<std::string, Diagnostics> set_key(const std::string& text, std::string_view path,
                                         std::string_view value) {
  const KeySchema* key = key_at(job_schema(), path);
  if (key == nullptr) return failure(unknown_key(path));

  const toml::Document document = toml::parse(text);
  auto edited = toml::set_value(document, path, as_toml(value, *key));
  if (!edited) return failure(Diagnostics{from_fault(edited.error(), path)});

  // what the loader says of the new value, and of nothing else
  MemoryFiles files({{kName, *edited}});
  Diagnostics diagnostics = load_job(files, kName).diagnostics;
  const auto elsewhere = [&](const Diagnostic& diagnostic) {
    return diagnostic.code == facts_of(Code::PartsFileUnreadable).id ||
           diagnostic.code == facts_of(Code::UnknownPart).id || !lies_within(diagnostic.path, path);
  };
  std::erase_if(diagnostics, elsewhere);
  if (has_stop(diagnostics)) return failure(std::move(diagnostics));
  return std::move(*edited);
}

}  // namespace shimwright::job
