#pragma once

#include <cstdint>
#include <vector>

#include "shop/school/entities.hpp"

/// Who reads what next in a study.
namespace brakewright::shop {

/// One reading that a study asks of one person.
struct StudyPlace {
  Uuid reference_part_id = {};
  Uuid instrument_id = {};
  std::int64_t repeat = 0;

  friend auto operator<=>(const StudyPlace&, const StudyPlace&) = default;
};

StudyPlace place_of(const StudyReading& reading);

/// All readings that a study asks of a person, in the order in which they take them: one instrument after another in
/// a random order, with each all parts as plan_study of core/gauge_study orders them. The order depends on the study's
/// seed and the person's id alone, so that every tablet knows it and nobody's order tells them another's.
std::vector<StudyPlace> order_of(const Study& study, const Uuid& person_id);

/// Those of them without a reading that counts. @param readings  of this study, of any person
std::vector<StudyPlace> open_places(const Study& study, const Uuid& person_id,
                                    const std::vector<StudyReading>& readings);

}  // namespace brakewright::shop
