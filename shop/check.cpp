#include "shop/checking.hpp"
#include "shop/json_all.hpp"

namespace brakewright::shop {

#define BRAKEWRIGHT_CHECK(Entity) template void check(const Entity&, const std::string&);
BRAKEWRIGHT_ALL_JSON(BRAKEWRIGHT_CHECK)

}  // namespace brakewright::shop
