#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "shop/times.hpp"
#include "shop/uuid.hpp"

namespace brakewright::shop {

/// An act that was done, with what it gave back.
struct KeptAct {
  std::int64_t number = 0;  ///< from 1, without gaps
  std::string act_json = {};
  std::string outcome_json = {};
};

/// A run that is not ended, as its newest act left it.
struct OpenRun {
  Uuid run_id = {};
  std::int64_t acts = 0;
  std::string view_json = {};
  UtcTime at = {};
  bool ends = false;  ///< its newest act has ended it, and the record does not say so yet
};

/// Keeps the acts of runs that are not ended: several a second, each of which an answer waits for. Safe to call from
/// several threads. @throws StoreError  when the medium fails
class PracticeBook {
 public:
  virtual ~PracticeBook() = default;

  virtual std::vector<OpenRun> open_runs() = 0;
  virtual std::vector<KeptAct> acts(const Uuid& run_id) = 0;  ///< in their order
  /// The act is on the medium when this returns. @param after  the run with it; its `acts` is the act's number
  virtual void keep(const KeptAct& act, const OpenRun& after) = 0;
  virtual void forget(const Uuid& run_id) = 0;
};

}  // namespace brakewright::shop
