#pragma once

#include <optional>
#include <type_traits>
#include <utility>

#include "shop/shop.hpp"

/// How every command of a shop changes it; only for shop/*.cpp.
namespace brakewright::shop {

template <class F>
auto Shop::changing(const Uuid& by, F&& work) {
  std::optional<std::invoke_result_t<F>> result;
  {
    const std::lock_guard lock(guard_);
    ++depth_;
    try {
      store_.transact([&] {
        if (!known_people().empty()) expect_person(by, "by_person_id");
        result = work();
      });
    } catch (const InputError&) {
      if (--depth_ == 0) forget();
      throw;
    } catch (...) {
      --depth_;
      forget();
      throw;
    }
    if (--depth_ == 0) {
      for (Change& change : uncommitted_) unannounced_.push_back(std::move(change));
      uncommitted_.clear();
    }
  }
  announce();
  return std::move(*result);
}

}  // namespace brakewright::shop
