#include "job/document_patch.h"

#include <bit>
#include <cstddef>
#include <cstdint>
#include <string_view>
#include <utility>

#include "job/document_brief.h"
#include "job/document_fields_whole.h"
#include "job/document_writer.h"

namespace shimwright::job {
namespace {

using internal::Fields;
using internal::kIsOptional;
using internal::kIsVector;
using internal::Writer;

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

/// What stands around path and value of an operation.
constexpr std::string_view kAround = R"({"op":"replace","path":"","value":},)";

/// True when both are written with the same digits.
bool looks_equal(double a, double b) {
  if (!std::isfinite(a) || !std::isfinite(b)) return !std::isfinite(a) && !std::isfinite(b);
  if (!internal::fits_float(a) || !internal::fits_float(b)) return a == b;
  return std::bit_cast<std::uint32_t>(static_cast<float>(a)) ==
         std::bit_cast<std::uint32_t>(static_cast<float>(b));
}

struct Comparer {
  Writer writer{};     // the operations so far
  std::string path{};  // where the comparison is

  void begin(const char* operation) {
    writer.out += writer.out.size() > 1 ? ",{\"op\":\"" : "{\"op\":\"";
    writer.out += operation;
    writer.out += "\",\"path\":\"";
    writer.out += path;
    writer.out += '"';
  }

  template <typename T>
  void put(const char* operation, const T& value) {
    begin(operation);
    writer.out += ",\"value\":";
    writer.write(value);
    writer.out += '}';
  }

  void take_out() {
    begin("remove");
    writer.out += '}';
  }

  /// A value that has no parts.
  template <typename T>
  Size compare_plain(const T& from, const T& to) {
    if constexpr (std::is_same_v<T, double>) {
      if (!looks_equal(from, to)) put("replace", to);
    } else {
      if (from != to) put("replace", to);
    }
    if constexpr (std::is_same_v<T, std::string>) return exactly(to.size() + 3);
    return kNumberSize;
  }

  template <typename List>
  Size compare_list(const List& from, const List& to) {
    if (from.size() != to.size()) {
      const std::size_t before = writer.out.size();
      put("replace", to);
      const std::size_t around = path.size() + kAround.size();
      return exactly(writer.out.size() - before - around);
    }
    Size size = exactly(1);  // the brackets, less the last comma
    for (std::size_t i = 0; i < to.size(); ++i) {
      const std::size_t end = path.size();
      path += '/';
      path += std::to_string(i);
      size += compare<typename List::value_type>(from[i], to[i]);
      path.resize(end);
    }
    return size;
  }

  template <typename Member>
  Size compare_member(const char* name, const Member& from, const Member& to) {
    const std::size_t end = path.size();
    path += '/';
    path += name;
    Size size = exactly(std::string_view(name).size() + 3);
    if constexpr (kIsOptional<Member>) {
      if (from && to) size += compare(*from, *to);
      if (!from && to) put("add", *to);
      if (from && !to) take_out();
      if (!to) size = {};
    } else {
      size += compare(from, to);
    }
    path.resize(end);
    return size;
  }

  template <typename Struct>
  Size compare_members(const Struct& from, const Struct& to) {
    Size size = exactly(1);  // the brackets, less the last comma
    const auto add = [&](const auto& field) {
      size += compare_member(field.name, from.*(field.member), to.*(field.member));
    };
    std::apply([&](const auto&... field) { (add(field), ...); }, Fields<Struct>::list);
    return size;
  }

  /// Writes the operations of a part; how much the part itself takes.
  template <typename T>
  Size compare(const T& from, const T& to) {
    if constexpr (std::is_arithmetic_v<T> || std::is_enum_v<T> || std::is_same_v<T, std::string>) {
      return compare_plain(from, to);
    } else {
      const std::size_t before = writer.out.size();
      Size size;
      if constexpr (kIsVector<T>) {
        size = compare_list(from, to);
      } else {
        size = compare_members(from, to);
      }
      const auto taken = static_cast<double>(writer.out.size() - before);
      const auto whole = static_cast<double>(size.usual + path.size() + kAround.size());
      if (!path.empty() && whole < kWorthReplacing * taken) {
        writer.out.resize(before);
        put("replace", to);
      }
      return size;
    }
  }
};

}  // namespace

std::optional<std::string> brief_patch(const ResultDocument& from, const ResultDocument& to) {
  Comparer comparer;
  comparer.writer.out = "[";
  const Size size = comparer.compare(from, to);
  std::string& operations = comparer.writer.out;
  operations += ']';
  if (operations.size() >= size.least && operations.size() >= to_brief_json(to).size()) return std::nullopt;
  return std::move(operations);
}

}  // namespace shimwright::job
