#pragma once

#include <map>

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

  /// The most points that each person reached in a safe run that counts: of runs of the same exercise only the first
  /// that ended with a mark does, since its mark tells what was wrong there.
  virtual std::map<Uuid, double> best_points() = 0;
};

}  // namespace brakewright::shop
