#include "shop/school/study_order.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <map>
#include <set>

namespace brakewright::shop {
namespace {

Uuid numbered(std::uint8_t kind, std::uint8_t number) {
  Uuid id;
  id.bytes[0] = kind;
  id.bytes[15] = number;
  return id;
}

Study study_of(std::uint8_t parts, std::uint8_t people, std::uint8_t instruments, std::int64_t repeats) {
  Study study{.id = numbered(1, 1), .repeats = repeats, .seed = 7};
  for (std::uint8_t k = 0; k < parts; ++k) study.reference_part_ids.push_back(numbered(2, k));
  for (std::uint8_t k = 0; k < people; ++k) study.person_ids.push_back(numbered(3, k));
  for (std::uint8_t k = 0; k < instruments; ++k) study.instrument_ids.push_back(numbered(4, k));
  return study;
}

TEST(StudyOrder, AsksEveryPartOfEveryPersonWithEachInstrumentAsOftenAsTheStudySays) {
  EXPECT_TRUE(rc::check([] {
    Study study = study_of(*rc::gen::inRange<std::uint8_t>(2, 12), 3, *rc::gen::inRange<std::uint8_t>(1, 4),
                           *rc::gen::inRange(2, 6));
    study.seed = *rc::gen::inRange(1, 1'000'000);
    for (const Uuid& person : study.person_ids) {
      const auto order = order_of(study, person);
      const std::set<StudyPlace> places(order.begin(), order.end());
      RC_ASSERT(places.size() == order.size());
      RC_ASSERT(order.size() == study.reference_part_ids.size() * study.instrument_ids.size() *
                                    static_cast<std::size_t>(study.repeats));
    }
  }));
}

TEST(StudyOrder, BringsNoPartTwiceRunningWithOneInstrument) {
  EXPECT_TRUE(rc::check([] {
    Study study = study_of(*rc::gen::inRange<std::uint8_t>(2, 9), 1, 2, 4);
    study.seed = *rc::gen::inRange(1, 1'000'000);
    const auto order = order_of(study, study.person_ids[0]);
    for (std::size_t k = 1; k < order.size(); ++k) {
      if (order[k].instrument_id != order[k - 1].instrument_id) continue;
      RC_ASSERT(order[k].reference_part_id != order[k - 1].reference_part_id);
    }
  }));
}

TEST(StudyOrder, IsAnotherForEachPersonAndStaysWhenSomebodyJoins) {
  const Study study = study_of(8, 20, 1, 3);
  std::set<std::vector<StudyPlace>> orders;
  for (const Uuid& person : study.person_ids) orders.insert(order_of(study, person));
  EXPECT_EQ(orders.size(), 20U);

  Study joined = study;
  joined.person_ids.insert(joined.person_ids.begin(), numbered(3, 99));
  for (const Uuid& person : study.person_ids) EXPECT_EQ(order_of(joined, person), order_of(study, person));
}

TEST(StudyOrder, BeginsWithEachPartAboutEquallyOften) {
  Study study = study_of(6, 1, 1, 2);
  std::map<Uuid, int> first;
  constexpr int kSeeds = 6'000;
  for (int seed = 1; seed <= kSeeds; ++seed) {
    study.seed = seed;
    ++first[order_of(study, study.person_ids[0]).front().reference_part_id];
  }
  double chi_squared = 0;
  for (const Uuid& part : study.reference_part_ids) {
    chi_squared += (first[part] - kSeeds / 6.0) * (first[part] - kSeeds / 6.0) / (kSeeds / 6.0);
  }
  // 99.9 % point of chi-squared with 5 degrees of freedom, NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4.
  EXPECT_LT(chi_squared, 20.515);
}

TEST(StudyOrder, LeavesOutWhatWasReadAndBringsBackWhatWasTakenBack) {
  const Study study = study_of(3, 2, 1, 2);
  const Uuid person = study.person_ids[0];
  const auto order = order_of(study, person);
  StudyReading reading{.id = numbered(5, 1), .study_id = study.id, .person_id = person};
  reading.reference_part_id = order[2].reference_part_id;
  reading.instrument_id = order[2].instrument_id;
  reading.repeat = order[2].repeat;
  const auto open = open_places(study, person, {reading});
  EXPECT_EQ(open.size(), order.size() - 1);
  EXPECT_EQ(std::count(open.begin(), open.end(), order[2]), 0);
  EXPECT_EQ(open_places(study, study.person_ids[1], {reading}).size(), order.size()) << "another person's reading";
  reading.withdrawn_at = UtcTime{};
  EXPECT_EQ(open_places(study, person, {reading}), order);
}

}  // namespace
}  // namespace brakewright::shop
