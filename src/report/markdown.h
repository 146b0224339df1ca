#pragma once
#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "report/page.h"

namespace shimwright::report {

/// The bytes of the PNG that a document names, "pictures/stack.png".
using PictureOf = std::function<std::span<const unsigned char>(const std::string& name)>;

/// A document of ours as blocks `width` wide [pt]: headings of three levels, paragraphs, lists, tables,
/// commands in fences, pictures in a paragraph of their own, and a caution as a quote that begins with the
/// word in bold. Headings below the first become bookmarks. What it does not know is a fault in the program:
/// the documents are ours.
///
/// A picture that does not fit on its page lets the text behind it go ahead.
std::vector<Block> markdown_blocks(std::string_view markdown, double width, const PictureOf& picture);

}  // namespace shimwright::report
