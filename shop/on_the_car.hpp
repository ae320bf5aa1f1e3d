#pragma once

#include <vector>

#include "shop/shop.hpp"

/// What an advice on the car rests on; only for shop/*.cpp.
namespace brakewright::shop {

struct Shop::OnTheCar {
  JobFile file;
  std::vector<TaperPlate> plates;
  Ground ground;
};

}  // namespace brakewright::shop
