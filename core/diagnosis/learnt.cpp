#include "core/diagnosis/learnt.hpp"

#include <cmath>

#include "core/diagnosis/learnt_figures.hpp"

namespace brakewright::diagnosis {

static_assert(kLearntShareCount == kKinds);

namespace {

double chance_of(std::uint16_t kept) { return std::exp(-kept / kLearntPerUnit); }

Learnt unpacked() {
  Learnt figures{.parts = kLearntParts, .seed = kLearntSeed};
  for (std::size_t cause = 0; cause < kCauseCount; ++cause) {
    double sum = 0;
    for (std::size_t way = 0; way < kWays; ++way) sum += chance_of(kLearntShares[cause * kWays + way]);
    for (std::size_t way = 0; way < kWays; ++way) {
      figures.share[cause * kWays + way] = chance_of(kLearntShares[cause * kWays + way]) / sum / kCauseCount;
    }
  }
  const std::uint16_t* chance = kLearntChances;
  for (std::size_t s = 0; s < kSigns; ++s) {
    const auto levels = static_cast<std::size_t>(about(static_cast<Sign>(s)).levels);
    for (auto& row : figures.chance[s]) {
      double sum = 0;
      for (std::size_t level = 0; level < levels; ++level) sum += row[level] = chance_of(*chance++);
      for (double& share : row) share /= sum;
    }
  }
  return figures;
}

}  // namespace

const Learnt& learnt() {
  static const Learnt kFigures = unpacked();
  return kFigures;
}

}  // namespace brakewright::diagnosis
