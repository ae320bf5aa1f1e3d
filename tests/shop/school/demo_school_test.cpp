#include <gtest/gtest.h>

#include <algorithm>

#include "core/uncertainty/random.hpp"
#include "shop/demo/classes.hpp"
#include "shop/demo/demo.hpp"
#include "store/open.hpp"
#include "store/sqlite_school.hpp"

namespace brakewright::shop {
namespace {

TEST(DemoSchool, HasAClosedAndAnOpenStudyPermitsOfSeveralStatesEvidenceAndAQueue) {
  const UtcTime now = UtcTime(std::chrono::sys_days(std::chrono::year(2026) / 3 / 4)) + std::chrono::hours(14);
  const auto store = store::open_in_memory();
  make_demo(*store, 3, now, {});
  const auto school_store = store::open_school(*store);
  make_demo_school(*store, *school_store, 3, now);
  Random dice(1);
  Shop shop(*store, {.now = [&] { return now; },
                     .random =
                         [&](auto bytes) {
                           for (auto& byte : bytes) byte = static_cast<std::uint8_t>(dice.below(256));
                         }});
  School school(shop, *school_store, [&] { return now; });
  ASSERT_EQ(school.studies().size(), 2U);
  EXPECT_TRUE(school.studies()[0].study.closed);
  const StudyAnswer answer = school.study_answer(school.studies()[0].study.id);
  ASSERT_TRUE(answer.figures);
  const auto said = [&](StudyCause cause) {
    return std::any_of(answer.words.begin(), answer.words.end(),
                       [&](const StudyWords& words) { return words.cause == cause && words.person_id; });
  };
  EXPECT_TRUE(said(StudyCause::ratchet)) << "one hand closes too hard, and one scatters";
  EXPECT_FALSE(school.studies()[1].study.closed);
  const auto permits = school.permits();
  const auto count = [&](auto wanted) { return std::count_if(permits.begin(), permits.end(), wanted); };
  EXPECT_GT(count([](const PermitState& one) { return !one.leads && one.stands; }), 0);
  EXPECT_EQ(count([](const PermitState& one) { return one.permit && one.permit->withdrawn_at; }), 1);
  EXPECT_GT(count([](const PermitState& one) { return !one.leads && !one.is_ready; }), 0);
  EXPECT_FALSE(school.evidence().empty());
  std::size_t waiting = 0;
  for (const Lathe& lathe : shop.lathes()) waiting += school.queue(lathe.id).lines.size();
  EXPECT_GT(waiting, 2U);
  EXPECT_THROW(make_demo_school(*store, *school_store, 3, now), RuleError);
}

}  // namespace
}  // namespace brakewright::shop
