#include "shop/hands.hpp"

#include <algorithm>

namespace brakewright::shop {

const OwnHand* hand_of(const Hands& hands, const Reading& reading, const Instrument* instrument) {
  const auto found = hands.find(reading.by_person_id);
  if (found == hands.end() || instrument == nullptr) return nullptr;
  const OwnHand* newest = nullptr;
  for (const OwnHand& hand : found->second) {
    const bool same_kind = std::find(hand.kinds.begin(), hand.kinds.end(), instrument->kind) != hand.kinds.end();
    if (same_kind && hand.since <= reading.received_at) newest = &hand;
  }
  return newest;
}

}  // namespace brakewright::shop
