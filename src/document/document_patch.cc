#include "document/document_patch.h"

#include <bit>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string_view>
#include <utility>

#include "document/document_describe_list.h"
#include "document/document_walk.h"
#include "document/document_writer.h"

namespace shimwright::document {
namespace {

using internal::BriefWriter;

/// Bytes that a part of a document takes. What has not changed is not written, so they are only bounded.
struct Size {
  std::size_t usual = 0;
  std::size_t least = 0;

  Size& operator+=(const Size& more) {
    usual += more.usual;
    least += more.least;
    return *this;
  }
};

Size exactly(std::size_t bytes) {
  return {bytes, bytes};
}

/// Of a number, a word, true or false, with the comma.
constexpr Size kNumberSize{11, 2};

/// A part is replaced as a whole when it takes less than this share of the single operations: writing it a
/// second time costs too.
constexpr double kWorthReplacing = 0.75;

/// The text around path and value of an operation.
constexpr std::string_view kAround = R"({"op":"replace","path":"","value":},)";

/// True when both are written with the same digits.
bool looks_equal(double a, double b) {
  if (!std::isfinite(a) || !std::isfinite(b)) return !std::isfinite(a) && !std::isfinite(b);
  if (!internal::fits_float(a) || !internal::fits_float(b)) return a == b;
  return std::bit_cast<std::uint32_t>(static_cast<float>(a)) ==
         std::bit_cast<std::uint32_t>(static_cast<float>(b));
}

/// True when two values that have no parts are written alike.
bool looks_equal(const TypeInfo& type, const void* from, const void* to) {
  switch (type.shape) {
    case Shape::Number:
      return looks_equal(*static_cast<const double*>(from), *static_cast<const double*>(to));
    case Shape::Bool:
      return *static_cast<const bool*>(from) == *static_cast<const bool*>(to);
    case Shape::Text:
      return *static_cast<const std::string*>(from) == *static_cast<const std::string*>(to);
    default:
      return type.integer(from) == type.integer(to);
  }
}

/// A value that has no parts.
bool is_plain(const TypeInfo& type) {
  return type.shape != Shape::List && type.shape != Shape::Struct;
}

Size size_of_plain(const TypeInfo& type, const void* value) {
  if (type.shape == Shape::Text) return exactly(static_cast<const std::string*>(value)->size() + 3);
  return kNumberSize;
}

struct Comparer {
  BriefWriter writer{};  // the operations so far
  std::string path{};    // where the comparison is

  void begin(const char* operation) {
    writer.out += writer.out.size() > 1 ? ",{\"op\":\"" : "{\"op\":\"";
    writer.out += operation;
    writer.out += "\",\"path\":\"";
    writer.out += path;
    writer.out += '"';
  }

  void put(const char* operation, const TypeInfo& type, const void* value) {
    begin(operation);
    writer.out += ",\"value\":";
    writer.write(type, value);
    writer.out += '}';
  }

  void take_out() {
    begin("remove");
    writer.out += '}';
  }

  Size compare_list(const TypeInfo& type, const void* from, const void* to) {
    const std::size_t n = type.size(to);
    if (type.size(from) != n) {
      const std::size_t before = writer.out.size();
      put("replace", type, to);
      const std::size_t around = path.size() + kAround.size();
      return exactly(writer.out.size() - before - around);
    }
    Size size = exactly(1);  // the brackets, less the last comma
    for (std::size_t i = 0; i < n; ++i) {
      const void* const before = type.at(from, i);
      const void* const after = type.at(to, i);
      if (is_plain(*type.item) && looks_equal(*type.item, before, after)) {
        size += size_of_plain(*type.item, after);  // most of a document: no path is written
        continue;
      }
      const std::size_t end = path.size();
      path += '/';
      path += std::to_string(i);
      size += compare(*type.item, before, after);
      path.resize(end);
    }
    return size;
  }

  Size compare_member(const FieldInfo& field, const void* from, const void* to) {
    const std::size_t end = path.size();
    path += '/';
    path += field.key;
    Size size = exactly(field.key.size() + 3);
    if (from && to) size += compare(*field.type, from, to);
    if (!from && to) put("add", *field.type, to);
    if (from && !to) take_out();
    if (!to) size = {};
    path.resize(end);
    return size;
  }

  Size compare_members(const StructInfo& structure, const void* from, const void* to) {
    Size size = exactly(1);  // the brackets, less the last comma
    for (const FieldInfo& field : structure.fields)
      size += compare_member(field, field.get(from), field.get(to));
    return size;
  }

  /// Writes the operations of a part; how much the part itself takes.
  Size compare(const TypeInfo& type, const void* from, const void* to) {
    if (is_plain(type)) {
      if (!looks_equal(type, from, to)) put("replace", type, to);
      return size_of_plain(type, to);
    }
    const std::size_t before = writer.out.size();
    const Size size = type.shape == Shape::List ? compare_list(type, from, to)
                                                : compare_members(type.structure(), from, to);
    const auto taken = static_cast<double>(writer.out.size() - before);
    const auto whole = static_cast<double>(size.usual + path.size() + kAround.size());
    if (!path.empty() && whole < kWorthReplacing * taken) {
      writer.out.resize(before);
      put("replace", type, to);
    }
    return size;
  }
};

}  // namespace

std::optional<std::string> brief_patch(const Described& from, const Described& to) {
  Comparer comparer;
  comparer.writer.out = "[";
  const Size size = comparer.compare_members(to.structure, from.value, to.value);
  std::string& operations = comparer.writer.out;
  operations += ']';
  if (operations.size() >= size.least && operations.size() >= brief_json(to).size()) return std::nullopt;
  return std::move(operations);
}

std::optional<std::string> brief_patch(const ResultDocument& from, const ResultDocument& to) {
  return brief_patch(described(from), described(to));
}

}  // namespace shimwright::document
