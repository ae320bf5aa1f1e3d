#include "core/diagnosis/diagnose.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/input_error.hpp"
#include "tests/core/diagnosis/textbook.hpp"

namespace brakewright::diagnosis {
namespace {

double doubt_bits(const Signs& signs) { return diagnose(signs).doubt_bits; }

double chance_of(const Diagnosis& found, const Cause& cause) {
  for (const Suspect& suspect : found.causes) {
    if (suspect.cause == cause) return suspect.p;
  }
  return -1;
}

TEST(Diagnose, EachTextbookSignatureHasItsCauseOnTop) {
  for (const Textbook& book : textbooks()) {
    const Diagnosis found = diagnose(signs_of(book));
    EXPECT_EQ(name_of(found.causes.front().cause), name_of(book.cause)) << book.line;
    EXPECT_GT(found.causes.front().p, 0.8) << book.line;
    EXPECT_NE(about(book.cause).basis.find(book.line), std::string_view::npos);
  }
}

TEST(Diagnose, ASoundPartIsFoundSound) {
  Signs sound;
  for (const auto& [sign, value] : std::initializer_list<std::pair<Sign, double>>{{Sign::bench_runout_after, 3},
                                                                                  {Sign::car_runout, 10},
                                                                                  {Sign::shoulder_runout, 1},
                                                                                  {Sign::rim_wander, 20},
                                                                                  {Sign::remount_difference, 1},
                                                                                  {Sign::closing_error, 0},
                                                                                  {Sign::variation, 3},
                                                                                  {Sign::taper, 0},
                                                                                  {Sign::thickness_step, 2},
                                                                                  {Sign::face_step, 1.5},
                                                                                  {Sign::both_faces_bump, 1},
                                                                                  {Sign::ra, 1},
                                                                                  {Sign::spiral_height, 2},
                                                                                  {Sign::chatter_marks, 0},
                                                                                  {Sign::cheek_difference, 0.02},
                                                                                  {Sign::warm_drift, 0},
                                                                                  {Sign::micrometer_offset, 0.3},
                                                                                  {Sign::lip, 1},
                                                                                  {Sign::blue_spots, 0},
                                                                                  {Sign::howl, 0},
                                                                                  {Sign::dirt_seen, 0}}) {
    sound[sign] = value;
  }
  const Diagnosis found = diagnose(sound);
  EXPECT_EQ(name_of(found.causes.front().cause), "nothing");
  EXPECT_GT(found.causes.front().p, 0.5);
}

TEST(Diagnose, NothingKnownLeavesEveryCauseAsLikelyAsItIsDrawn) {
  const Diagnosis found = diagnose({});
  for (const Suspect& suspect : found.causes) {
    EXPECT_NEAR(suspect.p, 1.0 / kCauseCount, 1e-12);
    EXPECT_TRUE(suspect.speaks_for.empty());
    EXPECT_TRUE(suspect.speaks_against.empty());
  }
  EXPECT_NEAR(found.doubt_bits, std::log2(kCauseCount), 1e-12);
}

TEST(Diagnose, ProbabilitiesSumToOneAndAreInOrder) {
  for (const Textbook& book : textbooks()) {
    const Diagnosis found = diagnose(signs_of(book));
    ASSERT_EQ(found.causes.size(), kCauseCount);
    double sum = 0, before = 1;
    for (const Suspect& suspect : found.causes) {
      EXPECT_LE(suspect.p, before);
      before = suspect.p;
      sum += suspect.p;
    }
    EXPECT_NEAR(sum, 1, 1e-12);
  }
}

/// The same part with a sign at each of its levels.
std::vector<Signs> outcomes(const Signs& signs, Sign sign) {
  std::vector<Signs> each;
  for (int level = 0; level < about(sign).levels; ++level) {
    Signs then = signs;
    const auto& ends = about(sign).ends;
    then[sign] = level == 0 ? std::max(about(sign).low, ends[0] - 0.5) : ends[static_cast<std::size_t>(level) - 1];
    if (about(sign).yes_no) then[sign] = level;
    EXPECT_EQ(level_of(sign, *then[sign]), level);
    each.push_back(then);
  }
  return each;
}

TEST(Diagnose, AYesOrNoIsExpectedToTellByWhatItsTwoAnswersLeave) {
  Signs signs;
  signs[Sign::ra] = 3;
  for (const Sign sign : {Sign::torn_surface, Sign::howl, Sign::spiral_equals_feed}) {
    const auto after = outcomes(signs, sign);
    // What is believed now is the mean of what each answer makes believed: that gives the chance of yes.
    const Cause cause = practice::Fault::worn_edge;
    const double now = chance_of(diagnose(signs), cause), no = chance_of(diagnose(after[0]), cause),
                 yes = chance_of(diagnose(after[1]), cause);
    const double p_yes = (now - no) / (yes - no);
    ASSERT_GT(p_yes, 0);
    ASSERT_LT(p_yes, 1);
    const double left = p_yes * doubt_bits(after[1]) + (1 - p_yes) * doubt_bits(after[0]);
    EXPECT_NEAR(gain_bits(signs, sign, learnt()), doubt_bits(signs) - left, 1e-9) << about(sign).name;
  }
}

TEST(Diagnose, NoCheckIsExpectedToTellLessThanNothing) {
  for (const Textbook& book : textbooks()) {
    const Signs signs = signs_of(book);
    for (std::size_t s = 0; s < kSigns; ++s) {
      const Sign sign = static_cast<Sign>(s);
      const double gain = gain_bits(signs, sign, learnt());
      EXPECT_GE(gain, 0);
      EXPECT_LE(gain, doubt_bits(signs) + 1e-12) << "more than there is to know";
      if (signs[sign]) {
        EXPECT_EQ(gain, 0) << "known already";
      }
    }
  }
}

TEST(Diagnose, TheNextCheckIsTheOneOfMostGainAndSomeOutcomeOfItLessensTheDoubt) {
  for (const Textbook& book : textbooks()) {
    Signs signs;
    signs[book.found.front().first] = book.found.front().second;
    const auto next = diagnose(signs).next_check;
    ASSERT_TRUE(next);
    EXPECT_FALSE(signs[next->sign]);
    for (std::size_t s = 0; s < kSigns; ++s) {
      EXPECT_LE(gain_bits(signs, static_cast<Sign>(s), learnt()), next->gain_bits + 1e-12);
    }
    double least = 1e300;
    for (const Signs& then : outcomes(signs, next->sign)) least = std::min(least, doubt_bits(then));
    EXPECT_LE(least, doubt_bits(signs) - next->gain_bits + 1e-9);
  }
}

TEST(Diagnose, RunoutThatFollowsThePartIsTracedFurtherByACheckOfTheMount) {
  Signs signs;
  signs[Sign::car_runout] = 70;
  signs[Sign::car_runout_follows_part] = 1;
  signs[Sign::bench_runout_after] = 3;
  const Diagnosis before = diagnose(signs);
  for (const auto fault : {practice::Fault::dirty_seat, practice::Fault::bent_arbor, practice::Fault::pitted_races}) {
    EXPECT_GT(chance_of(before, fault), 0.15);
  }
  const Sign check = before.next_check->sign;
  EXPECT_TRUE(check == Sign::shoulder_runout || check == Sign::remount_difference) << about(check).name;
  signs[Sign::shoulder_runout] = 20;
  EXPECT_GT(chance_of(diagnose(signs), practice::Fault::bent_arbor), 0.8);
  signs[Sign::shoulder_runout] = 1;
  EXPECT_LT(chance_of(diagnose(signs), practice::Fault::bent_arbor), 0.05);
}

TEST(Diagnose, AllKnownLeavesNoCheckToMake) {
  Signs signs;
  for (auto& value : signs.values) value = 0;
  EXPECT_FALSE(diagnose(signs).next_check);
}

TEST(Diagnose, TheSameSignsGiveTheSameAnswer) {
  const Signs signs = signs_of(textbooks().front());
  const Diagnosis once = diagnose(signs), again = diagnose(signs);
  for (std::size_t i = 0; i < kCauseCount; ++i) {
    EXPECT_EQ(once.causes[i].cause, again.causes[i].cause);
    EXPECT_EQ(once.causes[i].p, again.causes[i].p);
  }
  EXPECT_EQ(once.next_check->sign, again.next_check->sign);
  EXPECT_EQ(once.next_check->gain_bits, again.next_check->gain_bits);
}

TEST(Diagnose, WitnessesSayWhichSignCountedAndByHowMuch) {
  const Diagnosis found = diagnose(
      signs_of({"F19", practice::Fault::micrometer_zero, {{Sign::micrometer_offset, 20}, {Sign::warm_drift, 0}}}));
  const Suspect& first = found.causes.front();
  ASSERT_FALSE(first.speaks_for.empty());
  EXPECT_EQ(first.speaks_for.front().sign, Sign::micrometer_offset);
  EXPECT_GT(first.speaks_for.front().factor, 20);
  EXPECT_TRUE(first.speaks_for.front().text.ends_with(" to 1 for this cause."));
  EXPECT_NE(first.speaks_for.front().text.find("Micrometer's error on a known standard: 20 um; "), std::string::npos)
      << first.speaks_for.front().text;
  for (const Suspect& suspect : found.causes) {
    if (suspect.cause != practice::Fault::warm_part) continue;
    ASSERT_FALSE(suspect.speaks_against.empty());
    EXPECT_LT(suspect.speaks_against.front().factor, 1);
    EXPECT_TRUE(suspect.speaks_against.front().text.ends_with(" to 1 against this cause."));
  }
}

TEST(Diagnose, SignsThatAllSayTheSameAreStillNamed) {
  for (const Textbook& book : textbooks()) {
    const Diagnosis found = diagnose(signs_of(book));
    EXPECT_FALSE(found.causes.front().speaks_for.empty()) << book.line;
    EXPECT_FALSE(found.causes.back().speaks_against.empty()) << book.line;
  }
}

TEST(Diagnose, AWitnessesFactorIsTheOddsWithItOverTheOddsWithout) {
  Signs signs = signs_of(textbooks().front());
  const Diagnosis with = diagnose(signs);
  ASSERT_FALSE(with.causes.front().speaks_for.front().alone);
  for (const Witness& witness : with.causes.front().speaks_for) {
    Signs without = signs;
    without[witness.sign].reset();
    const double p = with.causes.front().p, q = chance_of(diagnose(without), with.causes.front().cause);
    EXPECT_NEAR(std::log(witness.factor), std::log(p / (1 - p) / (q / (1 - q))), 1e-6);
  }
}

TEST(Signs, NonsenseIsRefusedWithTheSign) {
  const auto refusal = [](Sign sign, double value) -> std::string {
    Signs signs;
    signs[sign] = value;
    try {
      diagnose(signs);
    } catch (const InputError& error) {
      return error.code() + " " + error.field();
    }
    return "accepted";
  };
  EXPECT_EQ(refusal(Sign::car_runout, -1), "out_of_range car_runout_um");
  EXPECT_EQ(refusal(Sign::scratch_apart, 181), "out_of_range scratch_apart_deg");
  EXPECT_EQ(refusal(Sign::howl, 0.5), "out_of_range howl_heard");
  EXPECT_EQ(refusal(Sign::ra, std::numeric_limits<double>::quiet_NaN()), "not_finite ra_um");
  EXPECT_EQ(refusal(Sign::taper, -40), "accepted");
}

TEST(Signs, EachHasANameOfItsOwnWordsAndLevelsThatRise) {
  for (std::size_t s = 0; s < kSigns; ++s) {
    const SignInfo& info = about(static_cast<Sign>(s));
    for (std::size_t other = 0; other < s; ++other) EXPECT_NE(info.name, about(static_cast<Sign>(other)).name);
    EXPECT_FALSE(info.words.empty());
    EXPECT_FALSE(info.how.empty());
    for (int i = 1; i + 1 < info.levels; ++i) {
      EXPECT_GT(info.ends[static_cast<std::size_t>(i)], info.ends[static_cast<std::size_t>(i) - 1]) << info.name;
    }
    EXPECT_EQ(level_of(static_cast<Sign>(s), info.high), info.levels - 1) << info.name;
  }
}

TEST(Learnt, IsACompleteTableOfChances) {
  const Learnt& figures = learnt();
  EXPECT_GE(figures.parts, 2000);
  for (std::size_t s = 0; s < kSigns; ++s) {
    for (std::size_t kind = 0; kind < kKinds; ++kind) {
      double sum = 0;
      for (int level = 0; level < about(static_cast<Sign>(s)).levels; ++level) {
        EXPECT_GT(figures.of(static_cast<Sign>(s), kind, level), 0);
        sum += figures.of(static_cast<Sign>(s), kind, level);
      }
      EXPECT_NEAR(sum, 1, 1e-9);
    }
  }
}

}  // namespace
}  // namespace brakewright::diagnosis
