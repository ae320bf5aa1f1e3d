#pragma once

#include "shop/school/entities.hpp"
#include "shop/words.hpp"

namespace brakewright::shop {

template <>
struct Words<EvidenceLevel> {
  static constexpr auto all = std::to_array<std::string_view>({"seen", "with_help", "alone", "signed"});
};

}  // namespace brakewright::shop
