#pragma once
#include <string>
#include <string_view>

#include "document/document_describe.h"

// How the brief documents and what changes in them are written. Private to the module.

namespace shimwright::document::internal {

/// True for a number that is written with the digits of a float.
bool fits_float(double value);

/// A text in its quotes as JSON; what is no UTF-8 comes out as U+FFFD.
std::string escaped(std::string_view text);

/// Appends to one text; no tree is built on the way.
struct BriefWriter {
  std::string out;

  /// The shortest text of the nearest float: 24 bits, seven digits.
  void number(double value);
  void text(std::string_view value);
  void write(const TypeInfo& type, const void* value);

  /// The members that are present, each with its key, without the braces around them.
  void members(const StructInfo& structure, const void* value);
  void key(std::string_view key);
};

}  // namespace shimwright::document::internal
