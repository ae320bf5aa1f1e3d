#include "core/diagnosis/spoilt_part.hpp"

#include <gtest/gtest.h>

#include <set>

#include "core/diagnosis/diagnose.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright::diagnosis {
namespace {

TEST(SpoiltPart, TheSameSeedAndNumberGiveTheSamePart) {
  const SpoiltPart once = spoilt_part(3, 14), again = spoilt_part(3, 14);
  EXPECT_EQ(once.cause, again.cause);
  EXPECT_EQ(once.signs.values, again.signs.values);
  EXPECT_NE(spoilt_part(4, 14).signs.values, once.signs.values);
}

TEST(SpoiltPart, EveryCauseIsMadeAndEverySignLiesWithinWhatIsAccepted) {
  std::set<Cause> made;
  std::set<std::size_t> known;
  for (std::uint64_t number = 0; number < 120; ++number) {
    const SpoiltPart part = spoilt_part(5, number);
    made.insert(part.cause);
    EXPECT_NO_THROW(check(part.signs)) << number;
    for (std::size_t s = 0; s < kSigns; ++s) {
      if (part.signs.values[s]) known.insert(s);
    }
  }
  EXPECT_EQ(made.size(), kCauseCount);
  EXPECT_EQ(known.size(), kSigns);
}

TEST(Learn, ChancesAreTheLessonsShares) {
  std::vector<Lesson> lessons;
  for (int i = 0; i < 400; ++i) {
    Lesson lesson{.cause = practice::Fault::no_band, .size = 0.9};
    lesson.signs[Sign::howl] = i % 4 == 0 ? 0 : 1;
    lessons.push_back(lesson);
  }
  const Learnt figures = learn(lessons, 0, 8);
  const std::size_t kind = index_of(practice::Fault::no_band) * kWays + kWays - 1;
  EXPECT_NEAR(figures.of(Sign::howl, kind, 1), 0.75, 0.01);
  EXPECT_NEAR(figures.of(Sign::howl, kind - 1, 1), 0.75, 0.01) << "no lesson of that size: as the others";
  EXPECT_EQ(figures.parts, 400);
  EXPECT_EQ(figures.seed, 8);
}

TEST(Learn, SignsThatRepeatEachOtherAreNotBelievedAnew) {
  // Two causes with five signs that are always alike and right in three of four; sound parts have each as it comes.
  constexpr Sign kAlike[] = {Sign::howl, Sign::torn_surface, Sign::rubbed_glaze, Sign::lip_seen, Sign::dirt_seen};
  const Cause howling = practice::Fault::no_band, silent = practice::Fault::coarse_feed;
  Random random(4);
  std::vector<Lesson> lessons;
  for (int i = 0; i < 6000; ++i) {
    Lesson lesson{.cause = i % 3 == 0 ? howling : i % 3 == 1 ? silent : Cause(), .size = random.uniform()};
    const bool right = random.uniform() < 0.75;
    for (const Sign sign : kAlike) {
      const bool yes = i % 3 == 2 ? random.uniform() < 0.5 : (i % 3 == 0) == right;
      lesson.signs[sign] = yes ? 1 : 0;
    }
    lessons.push_back(lesson);
  }
  Signs all;
  for (const Sign sign : kAlike) all[sign] = 1;
  const auto chances = chances_of(all, learn(lessons, 0, 1));
  const double howls = chances[index_of(howling)], is_silent = chances[index_of(silent)];
  EXPECT_NEAR(howls / (howls + is_silent), 0.75, 0.05) << "five times as sure it would be 0.996";
}

}  // namespace
}  // namespace brakewright::diagnosis
