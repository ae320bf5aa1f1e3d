#include "server/page/assets.hpp"

#ifdef BRAKEWRIGHT_PAGE_INSIDE
#include "page_assets.inc"
#endif

namespace brakewright::server {

std::span<const Asset> embedded_assets() {
#ifdef BRAKEWRIGHT_PAGE_INSIDE
  return kAssets;
#else
  return {};
#endif
}

}  // namespace brakewright::server
