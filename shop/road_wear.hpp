#pragma once

#include <vector>

#include "shop/road_advice.hpp"
#include "shop/thickness_left.hpp"

/// How long a part lasts, and how runout left in grows; pieces of shop/road_advice.hpp.
namespace brakewright::shop {

void put_wear(const JobFile& file, const Part& part, const Left& left, const AssessContext& context, RoadPart& made);

void put_growth(const JobFile& file, const Part& part, const std::vector<TaperPlate>& plates, const Left& left,
                const AssessContext& context, RoadPart& made);

}  // namespace brakewright::shop
