#include "document/document_brief.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <limits>
#include <string>
#include <utility>

#include "document/document_describe_list.h"
#include "document/document_walk.h"
#include "document/document_writer.h"

namespace shimwright::document {
namespace internal {

bool fits_float(double value) {
  return std::abs(value) < std::numeric_limits<float>::max();
}

void BriefWriter::number(double value) {
  if (!std::isfinite(value)) {
    out += "null";
    return;
  }
  std::array<char, 32> digits{};
  char* const begin = digits.data();
  char* const end = begin + digits.size();
  const auto done = fits_float(value) ? std::to_chars(begin, end, static_cast<float>(value))
                                      : std::to_chars(begin, end, value);
  out.append(begin, done.ptr);
}

void BriefWriter::text(std::string_view value) {
  const bool plain =
      std::ranges::all_of(value, [](char c) { return c >= ' ' && c < '\x7f' && c != '"' && c != '\\'; });
  if (plain) {
    out += '"';
    out += value;
    out += '"';
  } else {
    out += escaped(value);
  }
}

void BriefWriter::write(const TypeInfo& type, const void* value) {
  switch (type.shape) {
    case Shape::Number:
      return number(*static_cast<const double*>(value));
    case Shape::Integer:
      out += std::to_string(type.integer(value));
      return;
    case Shape::Bool:
      out += *static_cast<const bool*>(value) ? "true" : "false";
      return;
    case Shape::Text:
      return text(*static_cast<const std::string*>(value));
    case Shape::Word:
      out += '"';
      out += type.words[static_cast<std::size_t>(type.integer(value))];
      out += '"';
      return;
    case Shape::List: {
      const std::size_t n = type.size(value);
      out += '[';
      for (std::size_t i = 0; i < n; ++i) {
        if (i > 0) out += ',';
        write(*type.item, type.at(value, i));
      }
      out += ']';
      return;
    }
    case Shape::Struct:
      out += '{';
      members(type.structure(), value);
      out += '}';
      return;
    case Shape::TextsByName: {
      out += '{';
      for (const auto& [name, held] : *static_cast<const TextsByName*>(value)) {
        if (out.back() != '{') out += ',';
        text(name);
        out += ':';
        text(held);
      }
      out += '}';
      return;
    }
    case Shape::Written:
      out += type.written(value);
      return;
    case Shape::Any:
      out += "null";
      return;
  }
}

void BriefWriter::members(const StructInfo& structure, const void* value) {
  for (const FieldInfo& field : structure.fields) {
    const void* const member = field.get(value);
    if (!member) continue;
    key(field.key);
    write(*field.type, member);
  }
}

void BriefWriter::key(std::string_view key) {
  if (out.back() != '{') out += ',';
  out += '"';
  out += key;
  out += "\":";
}

}  // namespace internal

std::string brief_json(const Described& value) {
  internal::BriefWriter writer;
  writer.out = "{";
  if (!value.structure.version.empty()) {
    writer.key("schema");
    writer.text(value.structure.version);
  }
  writer.members(value.structure, value.value);
  writer.out += '}';
  return std::move(writer.out);
}

std::string to_brief_json(const ResultDocument& document) {
  return brief_json(described(document));
}

std::string to_brief_json(const BenchDocument& document) {
  return brief_json(described(document));
}

}  // namespace shimwright::document
