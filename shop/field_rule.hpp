#pragma once

#include <concepts>
#include <limits>
#include <type_traits>

#include "shop/texts.hpp"

namespace brakewright::shop {

/// What is accepted in a field that comes from outside.
struct Rule {
  bool needed = true;  ///< a giver must say it; otherwise an absent one keeps its default
  double low = -std::numeric_limits<double>::infinity();
  double high = std::numeric_limits<double>::infinity();
  TextRule text = {};
  bool json = false;
};

namespace rules {
inline constexpr Rule plain{};
inline constexpr Rule made{.needed = false};  ///< filled in by the shop, or may stay unsaid
inline constexpr Rule name{.text = {.blank = false}};
inline constexpr Rule note{.text = {.longest = 4000, .lines = true}};
inline constexpr Rule typed{.text = {.longest = 60, .blank = false}};
inline constexpr Rule object{.needed = false, .text = {.longest = 4'000'000, .lines = true}, .json = true};
inline constexpr Rule counter{.needed = false, .low = 0, .high = 9e15};
inline constexpr Rule lining_arc_or_none{.needed = false, .low = 10, .high = 170};
inline constexpr Rule length_nm{.low = 0, .high = 1e10};                  ///< up to 10 m
inline constexpr Rule dimension{.needed = false, .low = 0, .high = 2e9};  ///< of something that one can lift
}  // namespace rules

template <class E, class T>
concept Of = std::same_as<std::remove_const_t<E>, T>;

}  // namespace brakewright::shop
