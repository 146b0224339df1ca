#include "document/document_pages.h"

#include <algorithm>
#include <string_view>
#include <vector>

#include "base/check.h"
#include "document/document_describe_list.h"
#include "document/document_walk.h"

namespace shimwright::document {
namespace {

using Structs = std::vector<const StructInfo*>;

/// A page that has a section for each of its structs; others have theirs on the first page.
struct Page {
  Structs own;
  std::string other_page{};

  std::string link(const StructInfo& structure) const {
    std::string anchor(structure.name);
    std::ranges::transform(anchor, anchor.begin(),
                           [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
    const bool here = std::ranges::find(own, &structure) != own.end();
    return "[" + std::string(structure.name) + "](" + (here ? "" : other_page) + "#" + anchor + ")";
  }

  std::string type_text(const TypeInfo& type) const {
    switch (type.shape) {
      case Shape::Number:
        return "number";
      case Shape::Integer:
        return "whole number";
      case Shape::Bool:
        return "true/false";
      case Shape::Text:
        return "text";
      case Shape::Word:
        return "word";
      case Shape::List:
        return "list of " + type_text(*type.item);
      default:
        break;
    }
    SW_CHECK(type.shape == Shape::Struct, static_cast<int>(type.shape));
    return link(type.structure());
  }

  std::string row(const FieldInfo& field) const {
    std::string meaning(field.doc);
    const std::span<const char* const> words = field.type->words;
    for (std::size_t i = 0; i < words.size(); ++i)
      meaning += (i == 0 ? " Words: " : " / ") + std::string(words[i]);
    return "| `" + std::string(field.key) + "` | " + type_text(*field.type) +
           (field.optional ? " (may be absent)" : "") + " | " + unit_text(field.unit) + " | " + meaning +
           " |\n";
  }

  std::string section(const StructInfo& structure) const {
    std::string text = "\n## " + std::string(structure.name) + "\n\n" + std::string(structure.doc) +
                       "\n\n| key | type | unit | meaning |\n|---|---|---|---|\n";
    if (!structure.version.empty())
      text += "| `schema` | text |  | Always `" + std::string(structure.version) + "`. |\n";
    for (const FieldInfo& field : structure.fields) text += row(field);
    return text;
  }

  std::string tables() const {
    std::string text;
    for (const StructInfo* structure : own) text += section(*structure);
    return text;
  }
};

/// What the first page describes: the result document, the comparison, all that is in them.
Structs on_result_page() {
  Structs structs = structs_within(describe<ResultDocument>());
  for (const StructInfo* structure : structs_within(describe<Comparison>()))
    if (std::ranges::find(structs, structure) == structs.end()) structs.push_back(structure);
  return structs;
}

}  // namespace

std::string result_page_tables() {
  return Page{on_result_page()}.tables();
}

std::string bench_page_tables() {
  const Structs elsewhere = on_result_page();
  Structs structs = structs_within(describe<BenchDocument>());
  std::erase_if(structs, [&](const StructInfo* structure) {
    return std::ranges::find(elsewhere, structure) != elsewhere.end();
  });
  return Page{std::move(structs), "result-document.md"}.tables();
}

std::string page_section(const StructInfo& structure) {
  return Page{structs_within(structure)}.section(structure);
}

}  // namespace shimwright::document
