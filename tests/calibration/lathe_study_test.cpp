#include "core/dials/lathe_study.hpp"

#include <gtest/gtest.h>

#include "tests/core/dials/simulated_lathe.hpp"

/// How often the intervals of a lathe study hold the truth: over 2000 simulated lathes of each kind.
namespace brakewright::dials {
namespace {

TEST(LatheStudy, TheIntervalsHoldTheTruthInNinetyFiveOfAHundredLathes) {
  struct Case {
    Truth truth;
    std::size_t jobs;
  };
  const Case cases[] = {{{.outboard_um = 25.1, .inboard_um = 25.9}, 12},
                        {{.outboard_um = 25.1, .inboard_um = 25.9, .dial_sd_um = 1, .u_face_um = 6}, 8},
                        {{.outboard_um = 25.2, .inboard_um = 25.2, .alike = true}, 6}};
  for (const auto& [truth, count] : cases) {
    Random random(3 + count);
    int lathes = 2000, told = 0, outboard = 0, inboard = 0, mean = 0, drift = 0, spread = 0, with_drift = 0, odd = 0;
    for (int i = 0; i < lathes; ++i) {
      const auto study = study_lathe(jobs_of(truth, count, random));
      const auto holds = [](const MarkValue& mark, double um) { return mark.low95_um <= um && um <= mark.high95_um; };
      if (study.separable) {
        ++told;
        outboard += holds(*study.outboard, truth.outboard_um);
        inboard += holds(*study.inboard, truth.inboard_um);
      }
      mean += study.separable || truth.alike ? holds(*study.mean, (truth.outboard_um + truth.inboard_um) / 2) : 0;
      if (study.drift) {
        ++with_drift;
        drift += study.drift->low95_um <= 0 && 0 <= study.drift->high95_um;
      }
      spread += study.spread->low95_um <= truth.dial_sd_um && truth.dial_sd_um <= study.spread->high95_um;
      odd += study.odd_job.has_value();
    }
    SCOPED_TRACE(count);
    if (truth.alike) {
      EXPECT_EQ(told, 0);
      EXPECT_NEAR(mean / 2000.0, 0.95, 0.02);
    } else {
      EXPECT_GT(told, 1900);
      EXPECT_NEAR(static_cast<double>(outboard) / told, 0.95, 0.02);
      EXPECT_NEAR(static_cast<double>(inboard) / told, 0.95, 0.02);
      EXPECT_NEAR(static_cast<double>(mean) / told, 0.95, 0.02);
    }
    EXPECT_EQ(with_drift, lathes);
    EXPECT_NEAR(static_cast<double>(drift) / with_drift, 0.95, 0.02);
    EXPECT_NEAR(spread / 2000.0, 0.95, 0.025);
    EXPECT_LT(odd / 2000.0, 0.07);
  }
}

}  // namespace
}  // namespace brakewright::dials
