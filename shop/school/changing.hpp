#pragma once

#include <optional>
#include <type_traits>
#include <utility>

#include "shop/school/school.hpp"

/// How every command of a school reads and changes it; only for shop/school/*.cpp.
namespace brakewright::shop {

template <class F>
auto School::looking(F&& look) {
  std::optional<std::invoke_result_t<F>> result;
  shop_.undisturbed([&] { result = look(); });
  return std::move(*result);
}

template <class F>
auto School::journaled(const Uuid& by, F&& work) {
  std::optional<std::invoke_result_t<F, const Recorder&>> result;
  shop_.journaled(by, [&](const Recorder& recorder) { result = work(recorder); });
  return std::move(*result);
}

}  // namespace brakewright::shop
