#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <map>
#include <utility>
#include <vector>

#include "core/diagnosis/diagnose.hpp"
#include "core/diagnosis/spoilt_part.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright::diagnosis {
namespace {

constexpr std::uint64_t kHeldOutSeed = 990'001;
constexpr std::uint64_t kHeldOut = 2000;
/// By chance alone, one bin of 200 at a half is off by 3.5 points.
constexpr std::size_t kLeastOnTop = 200, kLeastOfAny = 400;

/// What was said, and whether it was so.
using Said = std::vector<std::pair<double, bool>>;

/// Bins of a tenth; one with fewer than `least` is joined to the next above, the last one to that below it.
void expect_reliable(const char* name, std::size_t least, Said said) {
  std::sort(said.begin(), said.end());
  std::vector<std::size_t> ends;
  for (std::size_t from = 0, i = 0; i < said.size(); ++i) {
    const bool ends_tenth =
        i + 1 == said.size() || std::floor(10 * said[i].first) != std::floor(10 * said[i + 1].first);
    if (!ends_tenth || i + 1 - from < least) continue;
    ends.push_back(from = i + 1);
  }
  ASSERT_FALSE(ends.empty());
  ends.back() = said.size();
  std::size_t from = 0;
  for (const std::size_t to : ends) {
    double mean = 0, so = 0;
    for (std::size_t i = from; i < to; ++i) mean += said[i].first, so += said[i].second;
    const auto count = static_cast<double>(to - from);
    std::printf("  %s: said %.3f, came true %.3f of %.0f\n", name, mean / count, so / count, count);
    EXPECT_NEAR(mean / count, so / count, 0.05) << name;
    from = to;
  }
}

/// Parts of a seed that nothing was learnt from, with their diagnoses. Known truth: the cause that spoilt each.
class DiagnosisCoverage : public testing::Test {
 protected:
  static void SetUpTestSuite() {
    for (std::uint64_t number = 0; number < kHeldOut; ++number) {
      parts().push_back(spoilt_part(kHeldOutSeed, number));
    }
  }
  static std::vector<SpoiltPart>& parts() {
    static std::vector<SpoiltPart> kept;
    return kept;
  }
};

TEST_F(DiagnosisCoverage, TheCauseOnTopIsTheTrueOneInFourOfFive) {
  ASSERT_NE(learnt().seed, kHeldOutSeed);
  int right = 0, in_three = 0;
  std::map<Cause, std::pair<int, int>> of;
  for (const SpoiltPart& part : parts()) {
    const auto causes = diagnose(part.signs).causes;
    const bool found = causes.front().cause == part.cause;
    right += found;
    for (std::size_t i = 0; i < 3; ++i) in_three += causes[i].cause == part.cause;
    of[part.cause].first += found;
    ++of[part.cause].second;
  }
  const double share = static_cast<double>(right) / kHeldOut;
  std::printf("  right on top %.3f, among the first three %.3f of %d\n", share,
              static_cast<double>(in_three) / kHeldOut, static_cast<int>(kHeldOut));
  for (const auto& [cause, count] : of) {
    std::printf("  %-16s %3d of %3d\n", std::string(name_of(cause)).c_str(), count.first, count.second);
  }
  EXPECT_GE(share, 0.8);
}

TEST_F(DiagnosisCoverage, WhatIsSaidOfTheCauseOnTopComesTrueAsOften) {
  Said top;
  for (const SpoiltPart& part : parts()) {
    const Suspect first = diagnose(part.signs).causes.front();
    top.emplace_back(first.p, first.cause == part.cause);
  }
  expect_reliable("on top", kLeastOnTop, std::move(top));
}

TEST_F(DiagnosisCoverage, WhatIsSaidOfAnyCauseComesTrueAsOften) {
  Said all;
  for (const SpoiltPart& part : parts()) {
    for (const Suspect& suspect : diagnose(part.signs).causes) all.emplace_back(suspect.p, suspect.cause == part.cause);
  }
  expect_reliable("any", kLeastOfAny, std::move(all));
}

/// Every second group of signs is taken away, so that there is something to check.
Signs half_known(const Signs& all, std::uint64_t number) {
  Signs half = all;
  Random random(5, number);
  for (auto& value : half.values) {
    if (random.uniform() < 0.6) value.reset();
  }
  return half;
}

TEST_F(DiagnosisCoverage, TheNextCheckTakesAwayAsMuchDoubtAsItIsExpectedToAndMoreThanAnyOther) {
  double foreseen = 0, taken = 0, by_chance = 0, log_before = 0, log_after = 0;
  int checks = 0;
  for (std::size_t i = 0; i < parts().size(); ++i) {
    Signs known = half_known(parts()[i].signs, i);
    const Diagnosis before = diagnose(known);
    const Sign sign = before.next_check->sign;
    if (!parts()[i].signs[sign]) continue;
    Signs more = known, other = known;
    more[sign] = parts()[i].signs[sign];
    // the first unknown sign that the part has
    for (std::size_t s = 0; s < kSigns; ++s) {
      if (known.values[s] || !parts()[i].signs.values[s]) continue;
      other.values[s] = parts()[i].signs.values[s];
      break;
    }
    const Diagnosis after = diagnose(more);
    foreseen += before.next_check->gain_bits;
    taken += before.doubt_bits - after.doubt_bits;
    by_chance += before.doubt_bits - diagnose(other).doubt_bits;
    const auto at = index_of(parts()[i].cause);
    log_before += std::log2(chances_of(known, learnt())[at]);
    log_after += std::log2(chances_of(more, learnt())[at]);
    ++checks;
  }
  std::printf(
      "  next check: %.3f bits foreseen, %.3f taken, %.3f by another check; true cause likelier by %.3f bits, of "
      "%d\n",
      foreseen / checks, taken / checks, by_chance / checks, (log_after - log_before) / checks, checks);
  EXPECT_NEAR(taken / foreseen, 1, 0.15);
  EXPECT_GT(taken, 1.5 * by_chance);
  EXPECT_NEAR((log_after - log_before) / foreseen, 1, 0.2);
}

}  // namespace
}  // namespace brakewright::diagnosis
