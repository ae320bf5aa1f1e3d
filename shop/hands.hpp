#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "shop/entities.hpp"

/// How well each person reads, from the studies of reference parts that they took part in.
namespace brakewright::shop {

/// What one closed study says of one person.
struct OwnHand {
  UtcTime since = {};  ///< when the study was closed; counts for readings from then on
  double sd_um = 0;    ///< of readings of one spot, taken again
  double u_um = 0;     ///< standard uncertainty that all their readings share: bias, and the references it was seen on
  std::string person_name = {};
  std::string study_name = {};
  std::vector<InstrumentKind> kinds = {};  ///< that were read with
};

/// Of each person, oldest study first.
using Hands = std::map<Uuid, std::vector<OwnHand>>;

/// What the reader's newest study with this kind of instrument, closed before a reading, says of it; null without one.
/// A later study changes nothing that was judged before it.
const OwnHand* hand_of(const Hands& hands, const Reading& reading, const Instrument* instrument);

}  // namespace brakewright::shop
