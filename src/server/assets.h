#pragma once
#include <span>
#include <string_view>

namespace shimwright::server {

/// A file of the page, as it lies in the binary.
struct Asset {
  std::string_view path;  // "/", "/assets/index-3f2a.js"
  std::string_view mime;
  std::string_view etag;  // in quotes, of its bytes
  std::span<const unsigned char> bytes;
};

/// The page that was built with this program; empty in a build without one. Defined beside the program itself
/// (cmake/Web.cmake), so that nothing else needs what the page is built with.
std::span<const Asset> page_assets();

}  // namespace shimwright::server
