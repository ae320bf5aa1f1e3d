#include "shop/school/study_order.hpp"

#include <algorithm>
#include <limits>
#include <set>

#include "core/gauge_study/order.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright::shop {
StudyPlace place_of(const StudyReading& reading) {
  return {reading.reference_part_id, reading.instrument_id, reading.repeat};
}

std::vector<StudyPlace> order_of(const Study& study, const Uuid& person_id) {
  Random random(static_cast<std::uint64_t>(study.seed), seed_of(person_id));
  std::vector<Uuid> instruments = study.instrument_ids;
  gauge_study::shuffle(instruments, random);
  const std::vector<Uuid>& parts = study.reference_part_ids;
  std::vector<StudyPlace> order;
  for (const Uuid& instrument : instruments) {
    const std::uint64_t seed = random.below(std::numeric_limits<std::uint64_t>::max());
    const auto turns = gauge_study::plan_study(parts.size(), 1, static_cast<std::size_t>(study.repeats), seed);
    for (const gauge_study::Turn& turn : turns.front()) {
      order.push_back({parts[turn.part], instrument, static_cast<std::int64_t>(turn.repeat)});
    }
  }
  return order;
}

std::vector<StudyPlace> open_places(const Study& study, const Uuid& person_id,
                                    const std::vector<StudyReading>& readings) {
  std::set<StudyPlace> read;
  for (const StudyReading& reading : readings) {
    if (reading.person_id == person_id && !reading.withdrawn_at) read.insert(place_of(reading));
  }
  std::vector<StudyPlace> open = order_of(study, person_id);
  std::erase_if(open, [&](const StudyPlace& place) { return read.contains(place); });
  return open;
}

}  // namespace brakewright::shop
