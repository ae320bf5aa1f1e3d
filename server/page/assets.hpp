#pragma once

#include <span>
#include <string_view>

namespace brakewright::server {

/// A file of the page, as it is carried inside the program. Made by the build from web/dist; none stand here when the
/// program was built without the page.
struct Asset {
  std::string_view path;  ///< "/index.html"
  std::string_view etag;  ///< quoted, of the content
  std::string_view plain;
  std::string_view gzip;  ///< empty where packing gains nothing
};

std::span<const Asset> embedded_assets();

}  // namespace brakewright::server
