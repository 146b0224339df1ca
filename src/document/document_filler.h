#pragma once
#include <cmath>
#include <string>

#include "document/document_walk.h"

// For tests: a value in which everything differs from its default.

namespace shimwright::document {

struct Filler {
  int n = 0;

  void fill(const TypeInfo& type, void* value) {
    ++n;
    switch (type.shape) {
      case Shape::Number:
        *static_cast<double*>(value) = std::sqrt(n) * std::pow(10.0, n % 31 - 15) * (n % 3 == 0 ? -1 : 1);
        return;
      case Shape::Integer:
        return type.set_integer(value, n);
      case Shape::Bool:
        *static_cast<bool*>(value) = n % 2 == 0;
        return;
      case Shape::Text:
        *static_cast<std::string*>(value) = "text \"" + std::to_string(n) + "\" with a µ and a\nnew line";
        return;
      case Shape::Word:
        return type.set_integer(value, n % 2);
      case Shape::List:
        for (int i = 0; i < 2; ++i) {
          if (type.append_flag)
            type.append_flag(value, ++n % 2 == 0);
          else
            fill(*type.item, type.append(value));
        }
        return;
      case Shape::Struct:
        return members(type.structure(), value);
      default:
        return;  // no document holds it
    }
  }

  void members(const StructInfo& structure, void* value) {
    for (const FieldInfo& field : structure.fields) fill(*field.type, field.make(value));
  }
};

template <typename Struct>
Struct filled() {
  Struct value;
  Filler{}.members(describe<Struct>(), &value);
  return value;
}

}  // namespace shimwright::document
