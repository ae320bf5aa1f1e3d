#pragma once

#include "shop/practice/entities.hpp"
#include "shop/shelf.hpp"

namespace brakewright::shop {

/// Where practice is kept: in the same transactions as its shop.
class PracticeStore {
 public:
  virtual ~PracticeStore() = default;

  virtual Shelf<PracticeSet>& sets() = 0;
  virtual Shelf<PracticeRun>& runs() = 0;
  virtual Shelf<PracticeRecord>& records() = 0;
};

}  // namespace brakewright::shop
