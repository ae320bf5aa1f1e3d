#include "core/roughness/roughness.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <string>

#include "core/input_error.hpp"
#include "core/roughness/gaussian.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright::roughness {
namespace {

/// A face as turned: feed marks, a long wave and scatter, from a seed.
Profile turned_face(std::uint64_t seed, std::size_t count = 4000, double spacing_um = 2) {
  Random random(seed);
  const double feed_um = 80 + 200 * random.uniform(), wave_mm = 2 + 5 * random.uniform();
  const double marks_um = 0.5 + 4 * random.uniform(), lean = 0.02 * (random.uniform() - 0.5);
  Profile profile{.spacing_um = spacing_um, .z_um = {}};
  for (std::size_t i = 0; i < count; ++i) {
    const double place_um = static_cast<double>(i) * spacing_um;
    const double in_mark = std::remainder(place_um, feed_um) / feed_um;
    profile.z_um.push_back(4 * marks_um * in_mark * in_mark + 0.2 * random.normal() + lean * place_um +
                           3 * std::sin(2 * std::numbers::pi * place_um * 1e-3 / wave_mm));
  }
  return profile;
}

void expect_near(const Roughness& found, const Roughness& wanted, double tolerance_um) {
  EXPECT_NEAR(found.heights_um.ra, wanted.heights_um.ra, tolerance_um);
  EXPECT_NEAR(found.heights_um.rq, wanted.heights_um.rq, tolerance_um);
  EXPECT_NEAR(found.heights_um.rp, wanted.heights_um.rp, tolerance_um);
  EXPECT_NEAR(found.heights_um.rv, wanted.heights_um.rv, tolerance_um);
  EXPECT_NEAR(found.heights_um.rt, wanted.heights_um.rt, tolerance_um);
  EXPECT_NEAR(found.rz_um, wanted.rz_um, tolerance_um);
  EXPECT_NEAR(*found.heights_um.rsk, *wanted.heights_um.rsk, tolerance_um);
  EXPECT_NEAR(*found.heights_um.rku, *wanted.heights_um.rku, tolerance_um);
}

template <class Change>
Profile changed(Profile profile, const Change& change) {
  for (std::size_t i = 0; i < profile.z_um.size(); ++i) {
    profile.z_um[i] = change(profile.z_um[i], static_cast<double>(i) * profile.spacing_um);
  }
  return profile;
}

const Settings kUsualSettings{.cutoff_mm = 0.8, .short_cutoff_um = 8};

RC_GTEST_PROP(Roughness, HeightAndLeanOfTheWholeFaceDoNotCountThroughTheFilter, ()) {
  const Profile profile = turned_face(*rc::gen::inRange<std::uint64_t>(0, 1'000'000));
  const double up_um = *rc::gen::inRange(-1000, 1000), lean = 1e-4 * *rc::gen::inRange(-300, 300);
  for (const double ends_mm : {0.0, 0.4, 1.6}) {
    Settings settings = kUsualSettings;
    settings.discard_ends_mm = ends_mm;
    const auto moved = changed(profile, [&](double z_um, double place_um) { return z_um + up_um + lean * place_um; });
    expect_near(roughness_of(moved, settings), roughness_of(profile, settings), 1e-8);
  }
}

RC_GTEST_PROP(Roughness, TwiceAsHighIsTwiceAsRoughAndOfTheSameShape, ()) {
  const Profile profile = turned_face(*rc::gen::inRange<std::uint64_t>(0, 1'000'000));
  const double scale = 0.01 * *rc::gen::inRange(1, 10'000);
  const auto found = roughness_of(profile, kUsualSettings);
  const auto higher = changed(profile, [&](double z_um, double) { return scale * z_um; });
  auto wanted = found;
  for (double* um : {&wanted.heights_um.ra, &wanted.heights_um.rq, &wanted.heights_um.rp, &wanted.heights_um.rv,
                     &wanted.heights_um.rt, &wanted.rz_um}) {
    *um *= scale;
  }
  expect_near(roughness_of(higher, kUsualSettings), wanted, 1e-8);
}

RC_GTEST_PROP(Roughness, AFaceUpsideDownHasPeaksForValleysAndTheOtherSkewness, ()) {
  const Profile profile = turned_face(*rc::gen::inRange<std::uint64_t>(0, 1'000'000));
  for (const Filter filter : {Filter::gaussian, Filter::none}) {
    const Settings settings{.cutoff_mm = 0.8, .filter = filter};
    auto wanted = roughness_of(profile, settings);
    std::swap(wanted.heights_um.rp, wanted.heights_um.rv);
    wanted.heights_um.rsk = -*wanted.heights_um.rsk;
    expect_near(roughness_of(changed(profile, [](double z_um, double) { return -z_um; }), settings), wanted, 1e-9);
  }
}

RC_GTEST_PROP(Roughness, AFaceReadBackwardsIsAsRough, ()) {
  Profile profile = turned_face(*rc::gen::inRange<std::uint64_t>(0, 1'000'000));
  const auto wanted = roughness_of(profile, kUsualSettings);
  std::reverse(profile.z_um.begin(), profile.z_um.end());
  expect_near(roughness_of(profile, kUsualSettings), wanted, 1e-9);
}

RC_GTEST_PROP(Roughness, MeanLineAndRoughnessAndTheirMeanAreTheProfile, ()) {
  const Profile profile = turned_face(*rc::gen::inRange<std::uint64_t>(0, 1'000'000));
  const auto found = roughness_of(profile, {.cutoff_mm = 0.8});
  ASSERT_EQ(found.mean_line_um.size(), profile.z_um.size());
  const double mean_um = profile.z_um[found.first] - found.mean_line_um[found.first] - found.evaluated_um.front();
  double sum_um = 0;
  for (std::size_t i = 0; i < found.evaluated_um.size(); ++i) {
    const std::size_t at = found.first + i;
    EXPECT_NEAR(found.mean_line_um[at] + found.evaluated_um[i] + mean_um, profile.z_um[at], 1e-9);
    sum_um += found.evaluated_um[i];
  }
  EXPECT_NEAR(sum_um, 0, 1e-8);
}

RC_GTEST_PROP(Roughness, TheFilterIsThePlainSumOverNeighboursFarFromTheEnds, ()) {
  const Profile profile = turned_face(*rc::gen::inRange<std::uint64_t>(0, 1'000'000), 1500, 2);
  const auto line = mean_line(profile.z_um, 2, 800);
  for (const std::size_t at : {600U, 750U, 899U}) {
    double weights = 0, sum = 0;
    for (int k = -600; k <= 600; ++k) {
      const double weight = gaussian_weight(2e-3 * k, 0.8);
      weights += weight;
      sum += weight * profile.z_um[static_cast<std::size_t>(static_cast<int>(at) + k)];
    }
    EXPECT_NEAR(line[at], sum / weights, 1e-10);
  }
}

TEST(Roughness, AFlatFaceIsItsOwnMeanLineAndHasNoSkewness) {
  for (const double z_um : {0.0, 3.7, -12345.678}) {
    const Profile flat{.spacing_um = 1, .z_um = std::vector<double>(3000, z_um)};
    EXPECT_EQ(mean_line(flat.z_um, 1, 800), flat.z_um);
    for (const Filter filter : {Filter::gaussian, Filter::none}) {
      const auto found = roughness_of(flat, {.cutoff_mm = 0.8, .filter = filter});
      EXPECT_EQ(found.heights_um.rt, 0);
      EXPECT_EQ(found.rz_um, 0);
      EXPECT_FALSE(found.heights_um.rsk);
      EXPECT_FALSE(found.heights_um.rku);
    }
  }
}

TEST(Roughness, ALeaningFlatFaceIsFlatThroughTheFilterAndNotWithoutIt) {
  const auto leaning = changed({.spacing_um = 1, .z_um = std::vector<double>(4000, 5.0)},
                               [](double z_um, double place_um) { return z_um + 0.017 * place_um; });
  const auto found = roughness_of(leaning, {.cutoff_mm = 0.8, .discard_ends_mm = 0});
  EXPECT_EQ(found.heights_um.rt, 0);
  EXPECT_FALSE(found.heights_um.rku);
  EXPECT_NEAR(roughness_of(leaning, {.cutoff_mm = 0.8, .filter = Filter::none}).heights_um.rt, 0.017 * 3999, 1e-9);
}

TEST(Roughness, WithoutAFilterTheMeanAloneIsTakenOut) {
  const Profile steps{.spacing_um = 10, .z_um = {1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1,
                                                 5, 5, 5, 5, 5, 5, 5, 5, 5, 5, 5, 5, 5, 5, 5, 5, 5, 5, 5, 5}};
  const auto found = roughness_of(steps, {.cutoff_mm = 0.2, .filter = Filter::none});
  EXPECT_DOUBLE_EQ(found.heights_um.ra, 2);
  EXPECT_DOUBLE_EQ(found.heights_um.rp, 2);
  EXPECT_DOUBLE_EQ(found.heights_um.rv, 2);
  EXPECT_DOUBLE_EQ(*found.heights_um.rku, 1);
  EXPECT_NEAR(*found.heights_um.rsk, 0, 1e-14);
  EXPECT_EQ(found.sections, 2);
  EXPECT_EQ(found.rz_um, 0);  // each of the two sections is level
}

TEST(Roughness, OneScratchCountsOnceInRzAndWhollyInRt) {
  Profile profile = turned_face(7);
  profile.z_um[2000] -= 50;
  const auto found = roughness_of(profile, {.cutoff_mm = 0.8});
  EXPECT_GT(found.heights_um.rv, 45);
  EXPECT_LT(found.rz_um, found.heights_um.rt / 2);
  EXPECT_LT(*found.heights_um.rsk, -1);
  EXPECT_GT(*found.heights_um.rku, 10);
}

TEST(Roughness, NormalScatterHasTheMomentsOfNormalScatter) {
  Random random(5);
  Profile profile{.spacing_um = 5, .z_um = {}};
  for (int i = 0; i < 100'000; ++i) profile.z_um.push_back(2 * random.normal());
  const auto found = roughness_of(profile, {.cutoff_mm = 8}).heights_um;
  EXPECT_NEAR(found.rq, 2, 0.02);
  EXPECT_NEAR(found.ra, 2 * std::sqrt(2 / std::numbers::pi), 0.02);
  EXPECT_NEAR(*found.rsk, 0, 0.05);
  EXPECT_NEAR(*found.rku, 3, 0.1);
}

TEST(Roughness, TheShortCutOffTakesHalfOfAWaveOfItsOwnLength) {
  Profile profile{.spacing_um = 0.5, .z_um = {}};
  for (int i = 0; i < 9600; ++i) profile.z_um.push_back(std::sin(2 * std::numbers::pi * i * 0.5 / 8));
  const auto found = roughness_of(profile, {.cutoff_mm = 0.8, .short_cutoff_um = 8});
  EXPECT_NEAR(found.heights_um.rq, 0.5 / std::sqrt(2.0), 1e-6);
}

TEST(Roughness, HalfACutOffIsLeftOutAtEachEndWhereNothingElseIsSaid) {
  const Profile profile = turned_face(3, 2400, 2);
  const auto found = roughness_of(profile, {.cutoff_mm = 0.8});
  EXPECT_EQ(found.first, 200U);
  EXPECT_EQ(found.evaluated_um.size(), 2000U);
  EXPECT_EQ(found.sections, 5);
  EXPECT_EQ(roughness_of(profile, {.cutoff_mm = 0.8, .filter = Filter::none}).evaluated_um.size(), 2400U);
}

TEST(Roughness, APointThatOnlyClosesAWholeNumberOfCutOffsIsLeftOut) {
  const Settings unfiltered{.cutoff_mm = 0.8, .filter = Filter::none};
  EXPECT_EQ(roughness_of(turned_face(3, 2001, 2), unfiltered).evaluated_um.size(), 2000U);
  EXPECT_EQ(roughness_of(turned_face(3, 2000, 2), unfiltered).evaluated_um.size(), 2000U);
  EXPECT_EQ(roughness_of(turned_face(3, 2002, 2), unfiltered).evaluated_um.size(), 2002U);
}

TEST(Roughness, RaOfTheSmoothestAndTheRoughestSectionStandRoundThatOfTheWhole) {
  Profile profile{.spacing_um = 2, .z_um = {}};
  for (int i = 0; i < 2000; ++i) profile.z_um.push_back((i % 2 == 0 ? 1 : -1) * (i < 400 ? 3.0 : i < 800 ? 0.5 : 1.0));
  const auto found = roughness_of(profile, {.cutoff_mm = 0.8, .filter = Filter::none});
  EXPECT_EQ(found.sections, 5);
  EXPECT_NEAR(found.ra_low_um, 0.5, 1e-12);
  EXPECT_NEAR(found.ra_high_um, 3, 1e-12);
  EXPECT_NEAR(found.heights_um.ra, (3 + 0.5 + 3 * 1.0) / 5, 1e-12);
}

TEST(Roughness, WithoutACutOffTheSuggestedOneIsUsed) {
  const Profile profile = turned_face(11);
  const auto found = roughness_of(profile, {});
  EXPECT_EQ(found.cutoff_mm, suggested_cutoff(profile));
  EXPECT_EQ(found.cutoff_mm, 0.8);
  expect_near(found, roughness_of(profile, {.cutoff_mm = 0.8}), 0);
}

TEST(Roughness, AShortProfileIsReadWithTheLongestCutOffThatItHolds) {
  EXPECT_EQ(suggested_cutoff(turned_face(11, 600, 1)), 0.25);
  EXPECT_EQ(suggested_cutoff(turned_face(11, 200, 1)), 0.08);
  // two cut-offs of 0.8 mm long, and yet a point short of them, as neither half nor whole ones are whole spacings
  EXPECT_EQ(suggested_cutoff(turned_face(11, 230, 7)), 0.25);
  EXPECT_EQ(suggested_cutoff(turned_face(11, 231, 7)), 0.8);
}

std::string refused(const Profile& profile, const Settings& settings) {
  try {
    roughness_of(profile, settings);
  } catch (const InputError& error) {
    return error.code() + " " + error.field();
  }
  return "accepted";
}

TEST(Roughness, RefusalsNameTheirField) {
  const Profile good = turned_face(1);
  EXPECT_EQ(refused(good, {.cutoff_mm = 0.8}), "accepted");
  EXPECT_EQ(refused({.spacing_um = 1, .z_um = {}}, {.cutoff_mm = 0.8}), "missing z_um");
  for (const double spacing_um : {0.0, -1.0, 1e-9, 1e9}) {
    EXPECT_EQ(refused({.spacing_um = spacing_um, .z_um = good.z_um}, {.cutoff_mm = 0.8}), "out_of_range spacing_um");
  }
  constexpr double nan = std::numeric_limits<double>::quiet_NaN(), infinity = std::numeric_limits<double>::infinity();
  EXPECT_EQ(refused({.spacing_um = nan, .z_um = good.z_um}, {.cutoff_mm = 0.8}), "not_finite spacing_um");
  Profile bad = good;
  bad.z_um[17] = nan;
  EXPECT_EQ(refused(bad, {.cutoff_mm = 0.8}), "not_finite z_um[17]");
  bad.z_um[17] = -infinity;
  EXPECT_EQ(refused(bad, {}), "not_finite z_um[17]");
  bad.z_um[17] = 2e6;
  EXPECT_EQ(refused(bad, {.cutoff_mm = 0.8}), "out_of_range z_um[17]");
  EXPECT_EQ(refused({.spacing_um = 1, .z_um = std::vector<double>(kMostPoints + 1)}, {}), "too_many z_um");
  EXPECT_EQ(refused({.spacing_um = 1, .z_um = std::vector<double>(799)}, {.cutoff_mm = 0.8}), "too_short z_um");
  EXPECT_EQ(refused({.spacing_um = 1, .z_um = std::vector<double>(1599)}, {.cutoff_mm = 0.8}),
            "too_short discard_ends_mm");
  EXPECT_EQ(refused({.spacing_um = 1, .z_um = std::vector<double>(100)}, {}), "too_short z_um");
  EXPECT_EQ(refused({.spacing_um = 1, .z_um = {3}}, {}), "too_short z_um");
  EXPECT_EQ(refused({.spacing_um = 41, .z_um = good.z_um}, {.cutoff_mm = 0.8}), "out_of_range spacing_um");
  EXPECT_EQ(refused({.spacing_um = 500, .z_um = good.z_um}, {}), "out_of_range spacing_um");
  for (const double cutoff_mm : {0.0, -0.8, 1e9}) {
    EXPECT_EQ(refused(good, {.cutoff_mm = cutoff_mm}), "out_of_range cutoff_mm");
  }
  EXPECT_EQ(refused(good, {.cutoff_mm = infinity}), "not_finite cutoff_mm");
  for (const double short_um : {0.0, 7.9, 81.0}) {
    EXPECT_EQ(refused(good, {.cutoff_mm = 0.8, .short_cutoff_um = short_um}), "out_of_range short_cutoff_um");
  }
  EXPECT_EQ(refused(good, {.cutoff_mm = 0.8, .short_cutoff_um = 8, .filter = Filter::none}),
            "out_of_range short_cutoff_um");
  EXPECT_EQ(refused(good, {.cutoff_mm = 0.8, .discard_ends_mm = -0.1}), "out_of_range discard_ends_mm");
  EXPECT_EQ(refused(good, {.cutoff_mm = 0.8, .discard_ends_mm = 4}), "too_short discard_ends_mm");
  EXPECT_EQ(refused(good, {.cutoff_mm = 0.8, .discard_ends_mm = 1e5}), "too_short discard_ends_mm");
}

TEST(Roughness, NoFiniteProfileGivesAFigureThatIsNone) {
  Random random(9);
  for (const double scale_um : {1e-12, 1e-160, 1.0, 9.9e5}) {
    Profile profile{.spacing_um = 1, .z_um = {}};
    for (int i = 0; i < 2000; ++i) profile.z_um.push_back(scale_um * (2 * random.uniform() - 1));
    const auto found = roughness_of(profile, {.cutoff_mm = 0.8}).heights_um;
    for (const double figure :
         {found.ra, found.rq, found.rp, found.rv, found.rt, found.rsk.value_or(0), found.rku.value_or(0)}) {
      EXPECT_TRUE(std::isfinite(figure)) << scale_um;
    }
  }
}

TEST(Heights, OfNoPointsThereAreNone) { EXPECT_THROW(heights_of({}), InputError); }

}  // namespace
}  // namespace brakewright::roughness
