#include "core/chatter/outlook.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/chatter/twin_limit.hpp"
#include "core/input_error.hpp"

namespace brakewright::chatter {
namespace {

OutlookInput asked() {
  return {.outer_radius_mm = 140,
          .inner_radius_mm = 85,
          .thickness_mm = 22,
          .ring = {.by = RingKnownBy::size, .hz = 1000, .zeta = 0.003, .band_factor = 5},
          .holder = {.k_n_per_m = 2e7, .zeta = 0.03, .fn_hz = 250},
          .feed_mm_per_rev = 0.1,
          .nose_radius_mm = 0.4,
          .rpm = {80, 110},
          .depths_mm = {}};
}

Outlook with_depths(OutlookInput input, std::vector<double> depths_mm) {
  input.depths_mm = std::move(depths_mm);
  return outlook_of(input);
}

TEST(Outlook, GivesTheDiscAFifthOfItsRingsIronSwingingAtItsTone) {
  // By hand: pi/4 (0.28^2 - 0.17^2) m2 x 0.022 m x 7200 kg/m3 = 6.158 kg.
  const double by_hand = 0.2 * 6.158 * std::pow(2 * std::numbers::pi * 1000, 2);
  EXPECT_NEAR(outlook_of(asked()).k_disc_n_per_m / by_hand, 1, 1e-4);
}

/// The round edge in small pieces: what each pushes into the disc for a change of the chip's thickness.
double stiffness_along_the_edge(double depth_mm, double feed_mm, double nose_mm) {
  const double from = -std::asin(feed_mm / (2 * nose_mm)), to = std::acos(1 - depth_mm / nose_mm);
  constexpr int kPieces = 20000;
  double sum = 0;
  for (int i = 0; i < kPieces; ++i) {
    const double angle = from + (i + 0.5) * (to - from) / kPieces;
    const double before =
        feed_mm * std::sin(angle) + nose_mm - std::sqrt(nose_mm * nose_mm - std::pow(feed_mm * std::cos(angle), 2));
    const double surface = nose_mm - (nose_mm - depth_mm) / std::cos(angle);
    const double chip_mm = std::max(1e-9, std::min(before, surface));
    sum +=
        0.5 * 0.74 * 1160 * std::pow(chip_mm, -0.26) * std::pow(std::cos(angle), 2) * nose_mm * (to - from) / kPieces;
  }
  return sum / depth_mm * 1e6;
}

TEST(Outlook, CountsAForceWithinAFifthOfTheSumAlongTheEdge) {
  const double cuts[][3] = {{0.1, 0.1, 0.4}, {0.1, 0.2, 0.8}, {0.1, 0.05, 0.4}};
  for (const auto& [depth_mm, feed_mm, nose_mm] : cuts) {
    OutlookInput input = asked();
    input.feed_mm_per_rev = feed_mm;
    input.nose_radius_mm = nose_mm;
    const Outlook found = outlook_of(input);
    EXPECT_DOUBLE_EQ(found.counted_depth_mm, depth_mm);
    const double ratio = found.kf_n_per_m2 / stiffness_along_the_edge(depth_mm, feed_mm, nose_mm);
    EXPECT_GT(ratio, 0.8) << feed_mm;
    EXPECT_LT(ratio, 1.2) << feed_mm;
  }
}

TEST(Outlook, IsThatOfTheTwoToolsOnTheDisc) {
  OutlookInput input = asked();
  const Outlook bare = outlook_of(input);
  const TwinCut cut{.tool = input.holder,
                    .disc = {.k_n_per_m = bare.k_disc_n_per_m, .zeta = 0.003, .fn_hz = 1000},
                    .kf_n_per_m2 = bare.kf_n_per_m2};
  const TwinLimit twin = twin_limit(cut);
  EXPECT_DOUBLE_EQ(bare.disc.mm, twin.disc_mode.depth_mm);
  EXPECT_DOUBLE_EQ(bare.tools.mm, twin.tools_only.depth_mm);
  EXPECT_DOUBLE_EQ(bare.least.mm, twin.least().depth_mm);
  EXPECT_DOUBLE_EQ(bare.bare_mm, bare.least.mm);
  EXPECT_DOUBLE_EQ(bare.sings_hz, twin.least().chatter_hz);
  EXPECT_LE(bare.least.band.low_mm, bare.least.mm);
  input.banded = true;
  const Outlook banded = outlook_of(input);
  EXPECT_DOUBLE_EQ(banded.least.mm, bare.banded_mm);
  EXPECT_DOUBLE_EQ(banded.bare_mm, bare.bare_mm);
  EXPECT_GT(banded.least.mm, bare.least.mm);
}

TEST(Outlook, HoldsAtEachSpeedAsDeepAsWhateverSingsFirst) {
  const Outlook found = outlook_of(asked());
  ASSERT_EQ(found.limit_mm.size(), 2u);
  for (const auto& mm : found.limit_mm) {
    ASSERT_TRUE(mm.has_value());
    EXPECT_GE(*mm, found.least.mm * (1 - 1e-9)) << "no speed is worse than the worst of all";
    EXPECT_LE(*mm, found.least.mm * 1.05) << "at bench speeds the lobes have merged";
  }
}

TEST(Outlook, OfADepthIsEvenAtTheLimitAndOneInFortyAtTheEndsOfItsBand) {
  OutlookInput input = asked();
  input.holder.k_n_per_m = 1e10;  // only the disc sings
  const BandedLimit limit = outlook_of(input).disc;
  const Outlook found = with_depths(input, {limit.mm, limit.band.low_mm, limit.band.high_mm, 0});
  EXPECT_NEAR(found.p_sings[0], 0.5, 1e-9);
  EXPECT_NEAR(found.p_sings[1], 0.025, 1e-6);
  EXPECT_NEAR(found.p_sings[2], 0.975, 1e-6);
  EXPECT_EQ(found.p_sings[3], 0);
}

TEST(Outlook, OfADepthIsThatOfWhicheverLimitIsPassedSooner) {
  for (const double holder_n_per_m : {2e6, 2e7, 2e8}) {
    OutlookInput input = asked();
    input.holder.k_n_per_m = holder_n_per_m;
    input.banded = true;
    input.confidence = 0.9;
    const Outlook edges = outlook_of(input);
    const Outlook found = with_depths(input, {edges.quiet_mm, edges.sings_mm, edges.disc.mm, edges.tools.mm});
    EXPECT_NEAR(found.p_sings[0], 0.1, 1e-9);
    EXPECT_NEAR(found.p_sings[1], 0.9, 1e-9);
    EXPECT_GE(found.p_sings[2], 0.5 - 1e-9);
    EXPECT_GE(found.p_sings[3], 0.5 - 1e-9);
  }
}

TEST(Outlook, IsKnownBetterFromATapThanFromTheSizeAndBetterStillWithTheBandHeard) {
  OutlookInput input = asked();
  input.banded = true;
  const auto width = [&] {
    const Band95 band = outlook_of(input).disc.band;
    return band.high_mm / band.low_mm;
  };
  const double by_size = width();
  input.ring.by = RingKnownBy::marks;
  const double by_marks = width();
  input.ring.by = RingKnownBy::tap;
  input.ring.u_zeta = 0.0001;
  const double by_tap = width();
  input.ring.band_heard = true;
  const double both = width();
  EXPECT_LT(by_marks, by_size);
  EXPECT_LT(by_tap, by_marks);
  EXPECT_LT(both, by_tap);
}

TEST(Outlook, TakesATapWithTheBandOnBackByWhatTheBandDoes) {
  OutlookInput input = asked();
  const double bare_mm = outlook_of(input).bare_mm;
  input.ring = {.by = RingKnownBy::tap, .hz = 1000, .zeta = 0.015, .band_factor = 5, .heard_with_band = true};
  EXPECT_NEAR(outlook_of(input).bare_mm, bare_mm, 1e-12);
}

TEST(Outlook, OfACutLikeTheTapDoesNotAskWhatTheBandIsWorth) {
  const auto width = [](bool heard_with_band, bool banded) {
    OutlookInput input = asked();
    input.ring = {.by = RingKnownBy::tap, .hz = 1000, .zeta = 0.004, .u_zeta = 0.0002, .band_factor = 5};
    input.ring.heard_with_band = heard_with_band;
    input.banded = banded;
    input.holder.k_n_per_m = 1e10;
    const Band95 band = outlook_of(input).disc.band;
    return band.high_mm / band.low_mm;
  };
  EXPECT_NEAR(width(true, true) / width(false, false), 1, 0.01);
  EXPECT_NEAR(width(true, false) / width(false, true), 1, 0.05);
  EXPECT_GT(width(false, true), 1.2 * width(true, true));
}

TEST(Outlook, KeepsADampingThatCanBeReckonedHoweverMuchTheBandIsSaidToDo) {
  OutlookInput input = asked();
  input.ring.zeta = 0.1;
  input.ring.band_factor = 50;
  input.banded = true;
  EXPECT_TRUE(std::isfinite(outlook_of(input).least.mm));
}

TEST(Outlook, RefusalsNameTheField) {
  const auto field = [](auto change) {
    OutlookInput input = asked();
    change(input);
    try {
      outlook_of(input);
    } catch (const InputError& error) {
      return error.code() + " " + error.field();
    }
    return std::string("accepted");
  };
  EXPECT_EQ(field([](OutlookInput&) {}), "accepted");
  EXPECT_EQ(field([](OutlookInput& of) { of.inner_radius_mm = 140; }), "out_of_range inner_radius_mm");
  EXPECT_EQ(field([](OutlookInput& of) { of.ring.zeta = 1; }), "out_of_range ring.zeta");
  EXPECT_EQ(field([](OutlookInput& of) { of.holder.fn_hz = 0; }), "out_of_range holder.fn_hz");
  EXPECT_EQ(field([](OutlookInput& of) { of.feed_mm_per_rev = 1; }), "out_of_range feed_mm_per_rev");
  EXPECT_EQ(field([](OutlookInput& of) { of.depths_mm = {0.1, NAN}; }), "not_finite depths_mm[1]");
  EXPECT_EQ(field([](OutlookInput& of) { of.rpm = {80, 0}; }), "out_of_range rpm[1]");
  EXPECT_EQ(field([](OutlookInput& of) { of.confidence = 1; }), "out_of_range confidence");
}

}  // namespace
}  // namespace brakewright::chatter
