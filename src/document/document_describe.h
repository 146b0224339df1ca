#pragma once
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include "base/members.h"
#include "document/document_words.h"
#include "units/kind.h"
#include "units/quantity.h"

// How a struct that travels as JSON is described: once, as a list of its members. JSON, its schema, what
// changed between two values, the check for numbers that are not finite and the pages in docs/ are all made
// by walking this list; no walker is a template.
//
// The list of a struct is in a document_describe_*.cc:
//
//   template <>
//   const StructInfo& describe<DiscGroup>() {
//     static constexpr FieldInfo fields[] = {
//         field<&DiscGroup::count>("count", "How many equal shims lie there."),
//         ...
//     };
//     static constexpr auto info = structure<DiscGroup>("DiscGroup", "Equal neighbours.", fields);
//     return info;
//   }

namespace shimwright::document {

/// Written is JSON at hand as text; Any is any JSON, which no walker writes.
enum class Shape { Number, Integer, Bool, Text, Word, List, Struct, TextsByName, Written, Any };

struct StructInfo;

/// JSON of a type that was written before. It is not copied: whoever holds it keeps it alive.
template <typename>
struct WrittenJson {
  std::string_view text;
};

/// Any JSON: the type of a member that is described and never written.
struct AnyJson {};

/// Texts under names of their own, in their order; an object in JSON.
using TextsByName = std::vector<std::pair<std::string, std::string>>;

/// What a member holds, and how a walker reaches what is in it.
struct TypeInfo {
  Shape shape = Shape::Text;

  // an Integer, and of a Word the index into its words
  std::int64_t (*integer)(const void* value) = nullptr;
  void (*set_integer)(void* value, std::int64_t to) = nullptr;
  std::span<const char* const> words{};

  // a List; of Written JSON the type that it is of
  const TypeInfo* item = nullptr;
  std::size_t (*size)(const void* list) = nullptr;
  const void* (*at)(const void* list, std::size_t index) = nullptr;
  void* (*append)(void* list) = nullptr;                 // a new last item; null for a list of true and false
  void (*append_flag)(void* list, bool flag) = nullptr;  // for that list only

  std::string_view (*written)(const void* value) = nullptr;  // of Written JSON

  const StructInfo& (*structure)() = nullptr;  // a Struct
};

/// What a number is measured in. All numbers of a document are SI.
struct Unit {
  std::optional<units::Kind> kind{};  // none: `text` says it
  units::Reference reference = units::Reference::None;
  std::string_view text{};

  constexpr Unit() = default;
  constexpr Unit(units::Kind the_kind) : kind(the_kind) {}
  constexpr Unit(units::Kind the_kind, units::Reference counted_from)
      : kind(the_kind), reference(counted_from) {}
  constexpr explicit Unit(std::string_view unit_text) : text(unit_text) {}

  bool stated() const { return kind || !text.empty(); }
};

inline constexpr Unit kAbsolute{units::Kind::Pressure, units::Reference::Absolute};
inline constexpr Unit kNoUnit{units::Kind::Number};

/// "m", "N m", "kg/m3"; "" where a number has no unit.
std::string unit_text(const Unit& unit);

/// One member of a struct.
struct FieldInfo {
  std::string_view key;  // in JSON
  Unit unit{};           // of a number, or of the numbers in a list
  std::string_view doc;  // one sentence: what it means
  const TypeInfo* type = nullptr;
  bool optional = false;  // may be absent; `type` is that of what is there

  const void* (*get)(const void* owner) = nullptr;  // null: absent
  void* (*make)(void* owner) = nullptr;             // makes an absent member present
};

/// Keys that stand together in one form of a struct; the second may be empty.
struct Form {
  std::string_view first;
  std::string_view second{};
};

/// A struct with all its members.
struct StructInfo {
  std::string_view name;  // in the schema
  std::string_view doc;   // what it is
  std::span<const FieldInfo> fields;
  std::string_view version{};     // of a whole document: what its first key `schema` says
  std::span<const Form> forms{};  // of a struct with several forms: it has just the keys of one of them
};

/// The description of a struct. Where another file of descriptions needs it, document_describe_list.h
/// declares it.
template <typename Struct>
const StructInfo& describe() = delete;

namespace internal {

inline constexpr bool kFlags[] = {false, true};

template <typename T>
inline constexpr bool kIsWritten = false;
template <typename T>
inline constexpr bool kIsWritten<WrittenJson<T>> = true;

template <typename T>
constexpr TypeInfo list_type();
template <typename T>
constexpr TypeInfo written_type(const WrittenJson<T>*);

template <typename T>
constexpr TypeInfo make_type() {
  if constexpr (std::is_same_v<T, bool>) {
    return {.shape = Shape::Bool};
  } else if constexpr (std::is_same_v<T, double>) {
    return {.shape = Shape::Number};
  } else if constexpr (std::is_same_v<T, std::string>) {
    return {.shape = Shape::Text};
  } else if constexpr (std::is_enum_v<T> || std::is_integral_v<T>) {
    TypeInfo type{.shape = Shape::Integer};
    type.integer = [](const void* value) { return static_cast<std::int64_t>(*static_cast<const T*>(value)); };
    type.set_integer = [](void* value, std::int64_t to) { *static_cast<T*>(value) = static_cast<T>(to); };
    if constexpr (std::is_enum_v<T>) {
      type.shape = Shape::Word;
      type.words = EnumWords<T>::list;
    }
    return type;
  } else if constexpr (std::is_same_v<T, TextsByName>) {
    return {.shape = Shape::TextsByName};
  } else if constexpr (std::is_same_v<T, AnyJson>) {
    return {.shape = Shape::Any};
  } else if constexpr (kIsWritten<T>) {
    return written_type(static_cast<const T*>(nullptr));
  } else if constexpr (kIsVector<T>) {
    return list_type<T>();
  } else {
    return {.shape = Shape::Struct, .structure = &describe<T>};
  }
}

template <typename T>
inline constexpr TypeInfo kType = make_type<T>();

template <typename T>
constexpr TypeInfo list_type() {
  TypeInfo type{.shape = Shape::List, .item = &kType<typename T::value_type>};
  type.size = [](const void* list) { return static_cast<const T*>(list)->size(); };
  if constexpr (std::is_same_v<T, std::vector<bool>>) {
    type.at = [](const void* list, std::size_t index) -> const void* {
      return &kFlags[(*static_cast<const T*>(list))[index] ? 1 : 0];
    };
    type.append_flag = [](void* list, bool flag) { static_cast<T*>(list)->push_back(flag); };
  } else {
    type.at = [](const void* list, std::size_t index) -> const void* {
      return &(*static_cast<const T*>(list))[index];
    };
    type.append = [](void* list) -> void* { return &static_cast<T*>(list)->emplace_back(); };
  }
  return type;
}

template <typename T>
constexpr TypeInfo written_type(const WrittenJson<T>*) {
  TypeInfo type{.shape = Shape::Written, .item = &kType<T>};
  type.written = [](const void* value) { return static_cast<const WrittenJson<T>*>(value)->text; };
  return type;
}

template <typename Held>
struct Present {
  using Type = Held;
};
template <typename Held>
struct Present<std::optional<Held>> {
  using Type = Held;
};

/// How a member is reached.
template <auto member>
struct Access;
template <typename Owner, typename Held, Held Owner::* member>
struct Access<member> {
  using Type = typename Present<Held>::Type;
  static constexpr bool optional = kIsOptional<Held>;

  static const void* get(const void* owner) {
    const Held& held = static_cast<const Owner*>(owner)->*member;
    if constexpr (optional) {
      return held ? &*held : nullptr;
    } else {
      return &held;
    }
  }
  static void* make(void* owner) {
    Held& held = static_cast<Owner*>(owner)->*member;
    if constexpr (optional) {
      return &held.emplace();
    } else {
      return &held;
    }
  }
};

/// True for a number and for a list of numbers: they say their unit, if only that they have none.
template <typename T>
inline constexpr bool kIsNumeric = std::is_same_v<T, double> || std::is_same_v<T, std::vector<double>>;

template <auto member>
constexpr FieldInfo field_of(std::string_view key, Unit unit, std::string_view doc) {
  using Reach = Access<member>;
  return {key, unit, doc, &kType<typename Reach::Type>, Reach::optional, &Reach::get, &Reach::make};
}

}  // namespace internal

/// A member that is a number or a list of numbers.
template <auto member>
constexpr FieldInfo field(std::string_view key, Unit unit, std::string_view doc) {
  static_assert(internal::kIsNumeric<typename internal::Access<member>::Type>, "only a number has a unit");
  return internal::field_of<member>(key, unit, doc);
}

/// Any other member.
template <auto member>
constexpr FieldInfo field(std::string_view key, std::string_view doc) {
  static_assert(!internal::kIsNumeric<typename internal::Access<member>::Type>,
                "a number says its unit; kNoUnit where it has none");
  return internal::field_of<member>(key, {}, doc);
}

/// A struct; does not compile when the list leaves out a member.
template <typename Struct, std::size_t n>
constexpr StructInfo structure(std::string_view name, std::string_view doc, const FieldInfo (&fields)[n],
                               std::string_view version = {}, std::span<const Form> forms = {}) {
  static_assert(has_members<Struct, n>(), "the description leaves out a member");
  return {name, doc, fields, version, forms};
}

}  // namespace shimwright::document
