#pragma once

#include <gtest/gtest.h>

#include <functional>
#include <memory>

#include "shop/store.hpp"

namespace brakewright::shop {

/// What shop/store.hpp promises, asked of any store: a second one is held to it with INSTANTIATE_TEST_SUITE_P.
struct StoreMaker {
  const char* name;
  std::function<std::unique_ptr<Store>()> make;  ///< an empty shop
};

inline void PrintTo(const StoreMaker& maker, std::ostream* out) { *out << maker.name; }

class StoreContract : public testing::TestWithParam<StoreMaker> {
 protected:
  StoreContract() : store_(GetParam().make()) {}
  Store& store() { return *store_; }

 private:
  std::unique_ptr<Store> store_;
};

}  // namespace brakewright::shop
