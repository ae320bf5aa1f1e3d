#include "core/dials/dial_check.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>

#include "core/dials/causes.hpp"
#include "core/input_error.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright::dials {
namespace {

/// Six marks of 25.4 um outboard and eight inboard; 20 um of air over each face.
DialCheckInput cut() {
  return {.outboard = {.marks = 6, .dial_um_per_mark = 25.4, .touch_loss = Estimate{20, 2}},
          .inboard = {.marks = 8, .dial_um_per_mark = 25.4, .touch_loss = Estimate{20, 2}},
          .dial_sd_um = 2,
          .settings = 1,
          .removed = {.um = 14 * 25.4 - 40, .u_um = 2}};
}

std::string first(const DialCheckInput& in) { return check_dials(in).findings.front().code; }

TEST(DialCheck, ASoundCutAgreesByHand) {
  DialCheckInput in = cut();
  in.removed.um -= 4;
  const auto check = check_dials(in);
  EXPECT_NEAR(check.sum.dialled_um, 355.6, 1e-9);
  EXPECT_NEAR(check.sum.expected.um, 315.6, 1e-9);
  EXPECT_NEAR(check.sum.expected.u_um, 4, 1e-12);  // two settings of 2 and two touch losses of 2
  EXPECT_NEAR(*check.sum.difference_um, -4, 1e-9);
  EXPECT_NEAR(*check.sum.z, -4 / std::sqrt(20.0), 1e-9);
  EXPECT_NEAR(check.chi_squared, 16.0 / 20, 1e-9);
  EXPECT_TRUE(check.agrees);
  EXPECT_EQ(check.findings.front().code, "agrees");
  EXPECT_NE(check.findings.front().text.find("315.6 um should be gone and 311.6 um are: 4.0 um less"),
            std::string::npos)
      << check.findings.front().text;
  EXPECT_NEAR(check.outboard.expected.um, 132.4, 1e-9);
  EXPECT_FALSE(check.outboard.z.has_value());
}

TEST(DialCheck, BayesRuleComesOutByHandWhereTwoExplanationsAreLeft) {
  // One dial, one face touched all round, known heat: agrees, backlash, spring, misread and other are left.
  DialCheckInput in = cut();
  in.inboard.marks = 0;
  in.outboard.touched_all = true;
  in.temperature_rise_k = 0;
  in.u_temperature_rise_k = 0;
  in.removed.um = 132.4;
  const auto check = check_dials(in);
  const double variance = 4 + 4 + 4;
  const auto normal = [](double off, double v) { return std::exp(-off * off / 2 / v) / std::sqrt(v); };
  const double agrees = 0.60 * normal(0, variance);
  const double backlash = 0.10 * normal(75, variance + 35.0 * 35);
  const double spring = 0.06 * normal(0.12 * 152.4, variance + std::pow(0.05 * 152.4, 2));
  const double other = 0.04 * normal(0, variance + 40000);  // each face may have lost 200/sqrt 2 um more or less
  double misread = 0, misread_prior = 0;
  for (const auto& [marks, weight] : {std::pair{1, 0.35}, {2, 0.08}, {5, 0.04}, {10, 0.03}}) {
    for (const int sign : {1, -1}) {
      if (6 + sign * marks < 1) continue;
      misread_prior += 0.10 * weight;
      misread += 0.10 * weight * normal(marks * 25.4, variance);
    }
  }
  const double all = agrees + backlash + spring + misread + other;
  EXPECT_NEAR(check.findings.front().p, agrees / all, 1e-9);
  double prior_sum = 0;
  for (const auto& prior : check.priors) {
    prior_sum += prior.p;
    if (prior.code == "agrees") {
      EXPECT_NEAR(prior.p, 0.60 / (0.60 + 0.10 + 0.06 + misread_prior + 0.04), 1e-12);
    }
    EXPECT_NE(prior.code, "one_side_not_cut");
    EXPECT_NE(prior.code, "hot_part");
  }
  EXPECT_NEAR(prior_sum, 1, 1e-12);
}

TEST(DialCheck, AMarkOffIsNamedWithItsNumberAndTheSumCannotSayOnWhichDial) {
  DialCheckInput in = cut();
  in.removed.um -= 2 * 25.4 - 1;
  const auto check = check_dials(in);
  EXPECT_FALSE(check.agrees);
  const auto found = std::find_if(check.findings.begin(), check.findings.end(),
                                  [](const DialFinding& f) { return f.code == "misread_mark"; });
  ASSERT_NE(found, check.findings.end());
  EXPECT_EQ(found->marks, -2);
  EXPECT_EQ(found->side, "");
  EXPECT_GT(check.cannot_tell_apart.size(), 1U);  // slack or spring may lose as much
  EXPECT_FALSE(found->check.empty());
  EXPECT_EQ(found->basis, "common practice, no source");
}

TEST(DialCheck, AMarkMoreThanDialledIsNoSlack) {
  DialCheckInput in = cut();
  in.removed.um += 25.4;
  const auto check = check_dials(in);
  EXPECT_EQ(check.findings.front().code, "misread_mark");
  EXPECT_EQ(check.findings.front().marks, 1);
  EXPECT_GT(check.findings.front().p, 0.9);
  EXPECT_TRUE(check.cannot_tell_apart.empty());
}

TEST(DialCheck, CheeksTellOnWhichDialTheMarkWasMisread) {
  DialCheckInput in = cut();
  in.removed.um -= 25.4;
  in.outboard.removed = Estimate{132, 3};
  in.inboard.removed = Estimate{183.2 - 26, 3};
  const auto check = check_dials(in);
  EXPECT_EQ(check.dof, 3);
  EXPECT_NEAR(*check.inboard.difference_um, -26, 1e-9);
  const auto found = std::find_if(check.findings.begin(), check.findings.end(),
                                  [](const DialFinding& f) { return f.code == "misread_mark"; });
  ASSERT_NE(found, check.findings.end());
  EXPECT_EQ(found->side, "inboard");
  EXPECT_EQ(found->marks, -1);
  EXPECT_GT(found->p, 0.5);
}

TEST(DialCheck, AFaceThatWasNotCutIsNamed) {
  DialCheckInput in = cut();
  in.removed.um = 8 * 25.4 - 20;
  const auto check = check_dials(in);
  EXPECT_EQ(check.findings.front().code, "one_side_not_cut");
  EXPECT_EQ(check.findings.front().side, "outboard");
  EXPECT_NE(check.findings.front().text.find("183.2 um is what the inboard dial alone"), std::string::npos)
      << check.findings.front().text;
  in.outboard.touched_all = true;  // somebody saw it bare
  for (const auto& finding : check_dials(in).findings) EXPECT_NE(finding.code, "one_side_not_cut");
}

TEST(DialCheck, NothingGoneOfTheOnlyFaceThatWasDialled) {
  DialCheckInput in = cut();
  in.inboard.marks = 0;
  in.removed.um = 0.5;
  EXPECT_EQ(first(in), "one_side_not_cut");
}

TEST(DialCheck, SlackLosesTheSameAtAnyDepthAndSpringGoesWithIt) {
  DialCheckInput in = cut();
  in.outboard.marks = 6;
  in.inboard.marks = 30;
  const double outboard = 6 * 25.4, inboard = 30 * 25.4;
  const auto with_losses = [&](double outboard_loss, double inboard_loss) {
    in.outboard.removed = Estimate{outboard - 20 - outboard_loss, 3};
    in.inboard.removed = Estimate{inboard - 20 - inboard_loss, 3};
    in.removed.um = outboard + inboard - 40 - outboard_loss - inboard_loss;
    return check_dials(in).findings.front();
  };
  const auto spring = with_losses(0.12 * outboard, 0.12 * inboard);
  EXPECT_EQ(spring.code, "spring");
  EXPECT_NEAR(*spring.amount_um, 0.12 * (outboard + inboard), 5);
  const auto slack = with_losses(88, 88);
  EXPECT_EQ(slack.code, "backlash");
  EXPECT_EQ(slack.side, "both");
  EXPECT_NEAR(*slack.amount_um, 176, 8);
}

TEST(DialCheck, SlackInOneScrewIsToldFromSpringWhereTheCheeksWereMeasured) {
  DialCheckInput in = cut();
  in.outboard.removed = Estimate{132.4 - 60, 3};
  in.inboard.removed = Estimate{183.2 + 1, 3};
  in.removed.um -= 60;
  const auto check = check_dials(in);
  EXPECT_EQ(check.findings.front().code, "backlash");
  EXPECT_EQ(check.findings.front().side, "outboard");
  EXPECT_NEAR(*check.findings.front().amount_um, 60, 4);
}

TEST(DialCheck, KnownHeatIsAllowedForAndNamedWhereItMatters) {
  DialCheckInput in = cut();
  in.temperature_rise_k = 60;
  in.thickness_mm = 30;
  const double grown = 11e-6 * 60 * 30e3;  // 19.8 um
  in.removed.um -= grown;
  const auto check = check_dials(in);
  EXPECT_NEAR(check.temperature_shift_um, grown, 1e-9);
  EXPECT_TRUE(check.agrees);
  EXPECT_EQ(check.findings.front().code, "hot_part");
  EXPECT_EQ(check.findings.front().basis, "calculated");
  EXPECT_NE(check.findings.front().text.find("19.8 um"), std::string::npos) << check.findings.front().text;
  in.temperature_rise_k = 0;
  EXPECT_FALSE(check_dials(in).agrees);
}

TEST(DialCheck, HeatOfWhichNothingIsKnownIsOneOfSeveralExplanationsOfAFewMicrometres) {
  DialCheckInput in = cut();
  in.dial_sd_um = 0.5;
  in.outboard.touch_loss = in.inboard.touch_loss = Estimate{20, 0.3};
  in.removed = {.um = in.removed.um - 8, .u_um = 0.5};
  const auto check = check_dials(in);
  EXPECT_EQ(check.findings.front().code, "hot_part");
  EXPECT_NEAR(*check.findings.front().amount_um, 8, 1);
}

TEST(DialCheck, AnUnknownTouchLossIsWideAndSaid) {
  DialCheckInput in = cut();
  in.outboard.touch_loss.reset();
  const auto check = check_dials(in);
  EXPECT_NEAR(check.outboard.touch_loss.um, 30, 1e-9);
  EXPECT_NEAR(check.outboard.touch_loss.u_um, 60 / std::sqrt(12.0), 1e-6);
  ASSERT_FALSE(check.notes.empty());
  EXPECT_NE(check.notes.front().find("outboard"), std::string::npos);
  EXPECT_TRUE(check.agrees);
}

TEST(DialCheck, AFaceThatWasNotBareAllRoundSaysLittle) {
  DialCheckInput in = cut();
  in.outboard.touched_all = false;
  in.removed.um = 8 * 25.4 - 20 + 70;
  const auto check = check_dials(in);
  EXPECT_NEAR(check.outboard.expected.um, 76.2, 1e-9);
  EXPECT_GT(check.outboard.expected.u_um, 40);
  EXPECT_TRUE(check.agrees);
}

TEST(DialCheck, WhatNothingExplainsIsOther) {
  DialCheckInput in = cut();
  in.outboard.touched_all = in.inboard.touched_all = true;
  in.removed.um += 90;
  EXPECT_EQ(first(in), "other");
}

/// A cut as it happens: what the dials stood at, what the screws lost, what gave way, how warm it was.
struct Happening {
  double outboard_off_um = 0, inboard_off_um = 0;  ///< added to the dialled depth
  double give = 0;
  bool outboard_uncut = false;
  double warm_um = 0;
};

DialCheckInput simulated(Random& random, const Happening& happening) {
  DialCheckInput in = cut();
  in.outboard.marks = static_cast<double>(4 + random.below(8));
  in.inboard.marks = static_cast<double>(4 + random.below(8));
  in.settings = 2;
  const auto lost = [&](FaceCut& face, double off_um) {
    const double dialled = face.marks * face.dial_um_per_mark;
    const double air = 15 + 10 * random.uniform();
    face.touch_loss = Estimate{air + 2 * random.normal(), 2};
    return dialled + off_um - happening.give * dialled - air + in.dial_sd_um * std::sqrt(2.0) * random.normal();
  };
  const double outboard = lost(in.outboard, happening.outboard_off_um);
  const double inboard = lost(in.inboard, happening.inboard_off_um);
  const double gone = (happening.outboard_uncut ? 0 : outboard) + inboard;
  in.removed = {.um = gone - happening.warm_um + 2 * random.normal(), .u_um = 2};
  in.outboard.removed = Estimate{(happening.outboard_uncut ? 0 : outboard) + 4 * random.normal(), 4};
  in.inboard.removed = Estimate{inboard + 4 * random.normal(), 4};
  return in;
}

double share_of(const char* code, const std::function<Happening(Random&)>& happen, int count, std::uint64_t seed) {
  Random random(seed);
  int named = 0;
  for (int i = 0; i < count; ++i) {
    const auto check = check_dials(simulated(random, happen(random)));
    named += check.findings.front().code == code;
  }
  return static_cast<double>(named) / count;
}

TEST(DialCheck, OfTwoThousandSoundCutsNinetyFiveInAHundredAgree) {
  for (const bool cheeks : {false, true}) {
    Random random(cheeks ? 1 : 2);
    int agree = 0, named = 0;
    for (int i = 0; i < 2000; ++i) {
      DialCheckInput in = simulated(random, {});
      if (!cheeks) in.outboard.removed = in.inboard.removed = std::nullopt;
      const auto check = check_dials(in);
      agree += check.agrees;
      named += check.findings.front().code == "agrees";
    }
    EXPECT_NEAR(agree / 2000.0, 0.95, 0.015);
    EXPECT_GT(named / 2000.0, 0.97);
  }
}

TEST(DialCheck, EachCauseIsNamedFirstInMostOfItsCases) {
  EXPECT_GT(share_of(
                "misread_mark", [](Random&) { return Happening{.outboard_off_um = 25.4}; }, 500, 3),
            0.9);
  EXPECT_GT(share_of(
                "misread_mark", [](Random&) { return Happening{.inboard_off_um = -25.4}; }, 500, 4),
            0.7);
  EXPECT_GT(share_of(
                "backlash", [](Random& random) { return Happening{.outboard_off_um = -(60 + 60 * random.uniform())}; },
                500, 5),
            0.8);
  EXPECT_GT(share_of(
                "spring", [](Random& random) { return Happening{.give = 0.1 + 0.08 * random.uniform()}; }, 500, 6),
            0.8);
  EXPECT_GT(share_of(
                "one_side_not_cut", [](Random&) { return Happening{.outboard_uncut = true}; }, 500, 7),
            0.9);
}

TEST(DialCheck, TheProbabilitiesAreThoseOfTheTruthDrawnFromThePriors) {
  // Truths drawn from the causes themselves: of all findings given a probability near p, a share near p must be true.
  Random random(8);
  std::map<int, std::pair<double, double>> by_tenth;  // sums of probability and of truth
  double top = 0, top_true = 0;
  constexpr int kCuts = 3000;
  for (int i = 0; i < kCuts; ++i) {
    DialCheckInput in = cut();
    in.outboard.marks = in.inboard.marks = 16;
    const auto causes = causes_of(in);
    double pick = random.uniform();
    const Cause* truth = &causes.back();
    for (const Cause& cause : causes) {
      if ((pick -= cause.prior) < 0) {
        truth = &cause;
        break;
      }
    }
    double sum = -truth->reading_um + in.removed.u_um * random.normal();
    const double parameter = truth->parameter + truth->parameter_sd * random.normal();
    Pair lost{};
    for (std::size_t s = 0; s < 2; ++s) {
      lost[s] = truth->lost_um[s] + parameter * truth->lost_per_parameter[s] +
                std::sqrt(truth->variance_um2[s]) * random.normal();
      sum += lost[s];
    }
    in.removed.um = sum - parameter * truth->reading_per_parameter;
    if (i % 2 == 0) in.inboard.removed = Estimate{lost[1] + 5 * random.normal(), 5};
    const auto check = check_dials(in);
    for (const auto& finding : check.findings) {
      auto& [p, right] = by_tenth[std::min(9, static_cast<int>(10 * finding.p))];
      p += finding.p;
      right += finding.code == name_of(truth->kind);
    }
    top += check.findings.front().p;
    top_true += check.findings.front().code == name_of(truth->kind);
  }
  EXPECT_NEAR(top_true / kCuts, top / kCuts, 0.02);
  for (const auto& [tenth, sums] : by_tenth) {
    EXPECT_NEAR(sums.second, sums.first, 3.5 * std::sqrt(sums.first) + 3) << "tenth " << tenth;
  }
}

TEST(DialCheck, TheFindingsAreInOrderAndHoldAlmostAllOfTheProbability) {
  Random random(9);
  for (int i = 0; i < 200; ++i) {
    DialCheckInput in = cut();
    in.removed.um += 60 * random.normal();
    const auto check = check_dials(in);
    double sum = 0;
    for (std::size_t k = 0; k < check.findings.size(); ++k) {
      if (k > 0) {
        EXPECT_GE(check.findings[k - 1].p, check.findings[k].p);
      }
      sum += check.findings[k].p;
      EXPECT_FALSE(check.findings[k].text.empty());
      EXPECT_FALSE(check.findings[k].check.empty());
      EXPECT_FALSE(check.findings[k].basis.empty());
    }
    EXPECT_GT(sum, 0.93);
    EXPECT_LE(sum, 1 + 1e-12);
  }
}

std::string refusal(const std::function<void(DialCheckInput&)>& spoil) {
  DialCheckInput in = cut();
  spoil(in);
  try {
    check_dials(in);
  } catch (const InputError& error) {
    return error.code() + " " + error.field();
  }
  return "accepted";
}

TEST(DialCheck, NonsenseIsRefusedByTheNameOfItsField) {
  EXPECT_EQ(refusal([](auto& in) { in.outboard.marks = -1; }), "out_of_range outboard.marks");
  EXPECT_EQ(refusal([](auto& in) { in.outboard.marks = in.inboard.marks = 0; }), "out_of_range outboard.marks");
  EXPECT_EQ(refusal([](auto& in) { in.inboard.dial_um_per_mark = 0; }), "out_of_range inboard.dial_um_per_mark");
  EXPECT_EQ(refusal([](auto& in) { in.removed.u_um = 0; }), "out_of_range u_removed_sum_um");
  EXPECT_EQ(refusal([](auto& in) { in.removed.um = std::nan(""); }), "not_finite removed_sum_um");
  EXPECT_EQ(refusal([](auto& in) { in.outboard.touch_loss = Estimate{-1, 1}; }), "out_of_range outboard.touch_loss_um");
  EXPECT_EQ(refusal([](auto& in) { in.inboard.removed = Estimate{100, 0}; }), "out_of_range inboard.u_removed_um");
  EXPECT_EQ(refusal([](auto& in) { in.settings = 0; }), "out_of_range settings");
  EXPECT_EQ(refusal([](auto& in) { in.temperature_rise_k = INFINITY; }), "not_finite temperature_rise_k");
  EXPECT_EQ(refusal([](auto& in) { in.thickness_mm = 0; }), "out_of_range thickness_mm");
}

TEST(DialCheck, TheFarthestReadingsStillGiveFiniteProbabilities) {
  for (const double um : {-1e5, 1e5}) {
    DialCheckInput in = cut();
    in.removed = {.um = um, .u_um = 0.01};
    in.dial_sd_um = 0;
    const auto check = check_dials(in);
    EXPECT_EQ(check.findings.front().code, "other");
    EXPECT_NEAR(check.findings.front().p, 1, 1e-9);
  }
}

}  // namespace
}  // namespace brakewright::dials
