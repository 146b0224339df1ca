#pragma once
#include <cstddef>
#include <string>
#include <string_view>

namespace shimwright::store {

/// What must be known to make one text from another: the bytes kept at both ends, and the text between.
struct TextChange {
  std::size_t head = 0;  // bytes of the old text that begin the new one
  std::size_t tail = 0;  // bytes of the old text that end it
  std::string middle;
};

TextChange change_between(std::string_view before, std::string_view after);

/// `after` again. The change must be one from `before`: head and tail do not overlap in it.
std::string changed(std::string_view before, const TextChange& change);

}  // namespace shimwright::store
