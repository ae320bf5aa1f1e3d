#pragma once

#include "core/practice/act.hpp"
#include "shop/words.hpp"

/// Words of what stands in core/practice.
namespace brakewright::shop {

template <>
struct Words<practice::Action> {
  static constexpr auto all = std::to_array<std::string_view>({"leave", "cut", "replace"});
};

template <>
struct Words<practice::Side> {
  static constexpr auto all = std::to_array<std::string_view>({"outboard", "inboard"});
};

}  // namespace brakewright::shop
