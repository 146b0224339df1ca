#include "file/edit.h"

#include <fmt/core.h>

#include <algorithm>
#include <cstddef>
#include <optional>

#include "file/load.h"
#include "file/load_codes.h"
#include "file/load_reading.h"
#include "file/schema.h"
#include "toml/document.h"
#include "toml/edit.h"
#include "toml/quoted.h"

namespace shimwright::file {
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
      suggestion(name, table ? key_names(*table) : std::vector<std::string>{}, "check the path");
  return {diagnostic};
}

/// True when a value of this kind is a text whatever it looks like: the title of a job may be "300".
bool is_text(ValueKind kind) {
  switch (kind) {
    case ValueKind::Text:
    case ValueKind::Word:
    case ValueKind::Thread:
    case ValueKind::PartName:
      return true;
    default:
      return false;
  }
}

/// The value as TOML: as it is when it is some that the key could take, else in quotes.
std::string as_toml(std::string_view value, const KeySchema& key) {
  const toml::Document probe = toml::parse("v = " + std::string(value));
  const bool is_one_value = probe.ok() && probe.root->children.size() == 1;
  const bool may_stand = is_one_value && (!is_text(key.kind) || probe.root->find("v")->as_string());
  return may_stand ? std::string(value) : toml::quote(value);
}

bool lies_within(std::string_view path, std::string_view whole) {
  if (!path.starts_with(whole)) return false;
  return path.size() == whole.size() || path[whole.size()] == '.' || path[whole.size()] == '[';
}

/// What the loader says of the value at `path`, and of nothing else.
Diagnostics faults_at(const std::string& text, std::string_view path) {
  MemoryFiles files({{kName, text}});
  Diagnostics diagnostics = load_job(files, kName).diagnostics;
  const auto elsewhere = [&](const Diagnostic& diagnostic) {
    return diagnostic.code == facts_of(Code::PartsFileUnreadable).id ||
           diagnostic.code == facts_of(Code::UnknownPart).id || !lies_within(diagnostic.path, path);
  };
  std::erase_if(diagnostics, elsewhere);
  return diagnostics;
}

/// The edited text, unless the new value at `path` is not possible.
Result<std::string, Diagnostics> accepted(toml::Edited edited, std::string_view path) {
  if (!edited) return failure(Diagnostics{from_fault(edited.error(), path)});
  Diagnostics diagnostics = faults_at(*edited, path);
  if (has_stop(diagnostics)) return failure(std::move(diagnostics));
  return std::move(*edited);
}

Diagnostics refused(std::string_view path, std::string what, std::string remedy) {
  toml::Fault fault;
  fault.what = std::move(what);
  fault.remedy = std::move(remedy);
  return {from_fault(fault, path)};
}

/// A path split before its last index: "stack" and 2 of "stack[2]".
struct ListPlace {
  std::string list;
  std::size_t index = 0;
};

std::optional<ListPlace> list_place(std::string_view path) {
  const auto steps = toml::parse_path(path);
  if (!steps || steps->empty() || !steps->back().index) return std::nullopt;
  return ListPlace{std::string(path.substr(0, path.rfind('['))), *steps->back().index};
}

Diagnostics no_element(std::string_view path) {
  return refused(path, "this is not an element of a list", "Name it by its index, such as stack[2].");
}

void collect_values(const toml::Document& document, const toml::Node& node, std::vector<TypedValue>& values) {
  if (node.is_table() || node.is_array()) {
    for (const auto& child : node.children) collect_values(document, *child, values);
    return;
  }
  const std::string* text = node.as_string();
  values.push_back({toml::path_of(node), text ? *text : std::string(document.slice(node.span))});
}

}  // namespace

Result<std::string, Diagnostics> set_key(const std::string& text, std::string_view path,
                                         std::string_view value) {
  const KeySchema* key = key_at(job_schema(), path);
  if (key == nullptr) return failure(unknown_key(path));

  const toml::Document document = toml::parse(text);
  return accepted(toml::set_value(document, path, as_toml(value, *key)), path);
}

Result<std::string, Diagnostics> insert_item(const std::string& text, std::string_view path,
                                             std::string_view value) {
  const KeySchema* key = key_at(job_schema(), path);
  if (key == nullptr) return failure(unknown_key(path));
  const auto place = list_place(path);
  if (!place) return failure(no_element(path));
  const toml::Document document = toml::parse(text);
  const toml::Node* list = document.at(place->list);
  const bool of_tables = list ? list->origin == toml::Origin::TableArray : key->kind == ValueKind::TableList;
  if (of_tables) return accepted(toml::insert_table(document, path, value), path);
  const std::string element = as_toml(value, *key);
  if (!list && place->index == 0)
    return accepted(toml::set_value(document, place->list, "[" + element + "]"), path);
  return accepted(toml::insert_element(document, path, element), path);
}

Result<std::string, Diagnostics> remove_item(const std::string& text, std::string_view path) {
  const toml::Document document = toml::parse(text);
  auto edited = list_place(path) ? toml::remove_element(document, path) : toml::remove_key(document, path);
  if (!edited) return failure(Diagnostics{from_fault(edited.error(), path)});
  return std::move(*edited);
}

Result<std::string, Diagnostics> move_item(const std::string& text, std::string_view path, std::size_t to) {
  const auto place = list_place(path);
  if (!place) return failure(no_element(path));
  toml::Document document = toml::parse(text);
  const toml::Node* list = document.at(place->list);
  if (!list || !list->is_array() || place->index >= list->children.size() || to >= list->children.size())
    return failure(no_element(path));
  if (list->origin == toml::Origin::TableArray)
    return failure(
        refused(path, "this program does not move tables with headings", "Change their order in the text."));

  // values go round between the two places; every line keeps its remark
  std::vector<std::string> values;
  for (const auto& child : list->children) values.emplace_back(document.slice(child->span));
  const auto from = values.begin() + static_cast<std::ptrdiff_t>(place->index);
  const auto target = values.begin() + static_cast<std::ptrdiff_t>(to);
  if (place->index < to) std::rotate(from, from + 1, target + 1);
  if (to < place->index) std::rotate(target, from, from + 1);
  std::string moved = text;
  for (std::size_t i = 0; i < values.size(); ++i) {
    auto edited = toml::set_value(document, fmt::format("{}[{}]", place->list, i), values[i]);
    if (!edited) return failure(Diagnostics{from_fault(edited.error(), path)});
    moved = *edited;
    document = toml::parse(std::move(*edited));
  }
  return moved;
}

std::vector<TypedValue> typed_values(const std::string& text) {
  const toml::Document document = toml::parse(text);
  std::vector<TypedValue> values;
  if (document.root) collect_values(document, *document.root, values);
  return values;
}

}  // namespace shimwright::file
