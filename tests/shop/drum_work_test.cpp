#include "shop/plans.hpp"
#include "shop/progress.hpp"
#include "tests/shop/drum_scene.hpp"

namespace brakewright::shop {
namespace {

class DrumWork : public DrumScene {
 protected:
  /// Looked over, gauged and decided to be turned.
  JobFile decided(std::size_t parts = 1, double mean_mm = 284.0, double oval_mm = 0.2) {
    const JobFile file = open_drums(parts);
    look_over(file);
    gauge_drums(file, mean_mm, oval_mm);
    shop.decide(id(), file.job.id, Action::cut, "as the class was told", teacher);
    return shop.job_file(file.job.id);
  }

  void record_cut(const JobFile& file, std::int64_t marks, std::size_t part = 0) {
    shop.record_cut({.id = id(), .job_id = file.job.id, .part_id = file.parts[part].id, .outboard_marks = marks},
                    teacher);
  }

  PlanAdvice plan(const JobFile& file, std::size_t part = 0, bool own_size = false) {
    return shop.plan(file.job.id, file.parts[part].id, {}, own_size);
  }

  Assessment assessed(const JobFile& file) { return shop.assessment(file.job.id); }
};

// By hand: diameters of 284.1, 284, 283.9 and 284 mm; the least cut goes from the least radius to the largest and the
// margin of 10 um beyond: 110 um, which is 5 marks of 25.4 um, from 283.9 to 284.154 mm.
TEST_F(DrumWork, IsJudgedOnDiametersAndCutOnTheRadius) {
  const JobFile file = open_drums();
  look_over(file);
  gauge_drums(file, 284.0, 0.2);
  const Assessment made = assessed(file);
  EXPECT_FALSE(made.verdict);
  ASSERT_TRUE(made.drums);
  const drum::DrumVerdict& drum = made.drums->parts.at(0);
  EXPECT_EQ(made.drums->action, brakewright::Action::cut);
  EXPECT_NEAR(drum.max_mm, 284.1, 1e-9);
  EXPECT_NEAR(drum.cut_on_radius_um, 110, 1e-6);
  EXPECT_EQ(drum.marks, 5);
  EXPECT_NEAR(drum.change_on_diameter_um, 220, 1e-6);
  EXPECT_NEAR(drum.final_mm, 283.9 + 2 * 5 * 0.0254, 1e-9);
  const MapAssessment& map = made.parts.at(0).before;
  EXPECT_FALSE(map.thickness);
  ASSERT_TRUE(map.diameter);
  EXPECT_NEAR(map.diameter->out_of_round_mm, 0.2, 1e-9);
  EXPECT_EQ(map.diameter->points.size(), 8U);
}

TEST_F(DrumWork, TheDecisionKeepsWhatWasComputedOfDrums) {
  const JobFile file = decided();
  const Decision& decision = file.decisions.at(0);
  EXPECT_EQ(decision.computed_action, Action::cut);
  EXPECT_GT(decision.computed_p, 0.9);
  EXPECT_NE(decision.computed_json, "{}");
}

TEST_F(DrumWork, NobodyCutsADrumAtItsDiscardDiameter) {
  const JobFile file = open_drums();
  look_over(file);
  gauge_drums(file, 285.6, 0.02);
  EXPECT_EQ(refusal([&] { shop.decide(id(), file.job.id, Action::cut, "all the same", teacher); }), "below_discard");
  EXPECT_EQ(assessed(file).drums->action, brakewright::Action::replace);
}

TEST_F(DrumWork, AnIndicatorInsideShowsWhatTheGaugeCannot) {
  const JobFile file = open_drums();
  look_over(file);
  gauge_drums(file, 284.0, 0.0);
  EXPECT_TRUE(assessed(file).drums->parts[0].runout_assumed);
  // Off its centre by 0.1 mm: on the radius 0.2 mm from end to end, and nothing on any diameter.
  for (std::int64_t point = 0; point < 8; ++point) {
    NewReading inside =
        diameter(file, 0, point,
                 format_number({std::llround(100 * std::cos(static_cast<double>(point) * std::numbers::pi / 4)) * 1000},
                               Unit::mm, 1000));
    inside.quantity = Quantity::runout_outboard;
    inside.instrument_id.reset();
    inside.confirmed = true;
    add(file, inside);
  }
  const drum::DrumVerdict drum = assessed(file).drums->parts[0];
  EXPECT_FALSE(drum.runout_assumed);
  EXPECT_NEAR(drum.cut_on_radius_um, 200 + 10, 1e-6);
}

TEST_F(DrumWork, APlanSaysDepthOnTheRadiusAndChangeOnTheDiameter) {
  const JobFile file = decided();
  const PlanAdvice advice = plan(file);
  ASSERT_FALSE(advice.refusal) << advice.refusal->message;
  ASSERT_TRUE(advice.missing.empty());
  EXPECT_NEAR(*advice.needed_outboard_um, 110, 1e-6);
  EXPECT_NEAR(*advice.touch_mm, 283.9, 1e-9);
  EXPECT_NEAR(*advice.start_max_mm, 284.1, 1e-9);
  EXPECT_FALSE(advice.start_min_mm);
  // The last pass takes 25 to 40 um in a drum: one mark.
  ASSERT_EQ(advice.passes.size(), 2U);
  EXPECT_EQ(advice.passes[1].outboard_marks, 1);
  EXPECT_EQ(advice.passes[0].outboard_marks, 4);
  EXPECT_NEAR(*advice.passes[0].depth_on_radius_um, 101.6, 1e-9);
  EXPECT_NEAR(*advice.passes[0].change_on_diameter_um, 203.2, 1e-9);
  EXPECT_NEAR(*advice.passes[1].diameter_after_mm, 284.154, 1e-9);
  EXPECT_NEAR(*advice.final_mm, assessed(file).drums->parts[0].final_mm, 1e-9);
  EXPECT_GT(*advice.passes[1].p_over_machine_to, 0.999);
}

TEST_F(DrumWork, APlanWantsTheBandAndNotTheRing) {
  JobFile file = open_drums();
  Part part = file.parts[0];
  part.band_width.reset();
  shop.change_part(part, teacher);
  look_over(file);
  gauge_drums(file, 284.0, 0.2);
  EXPECT_EQ(plan(file).missing, std::vector<std::string>{"band_width"});
}

TEST_F(DrumWork, ADrumIsTurnedWithOneTool) {
  const JobFile file = decided();
  const std::vector<PlannedPass> passes{{1, 1, 100, 0.1}};
  EXPECT_EQ(refusal([&] { shop.foresight(file.job.id, file.parts[0].id, {.insert_id = {}, .passes = passes}); }),
            "other_kind");
  EXPECT_EQ(
      refusal([&] {
        shop.record_cut(
            {.id = id(), .job_id = file.job.id, .part_id = file.parts[0].id, .outboard_marks = 2, .inboard_marks = 2},
            teacher);
      }),
      "other_kind");
}

TEST_F(DrumWork, PassesThatOpenADrumTooFarAreNotSettledOn) {
  const JobFile file = decided();
  const auto settle = [&](std::int64_t marks) {
    return refusal([&] {
      shop.settle_plan(file.job.id,
                       {.id = id(),
                        .part_id = file.parts[0].id,
                        .lathe_id = lathe,
                        .insert_id = {},
                        .passes = {{marks, 0, 100, 0.1}}},
                       teacher);
    });
  };
  // From 283.9 mm, machine-to 284.734 and discard 285.496 mm: 16 marks are 0.8128 mm, 17 are 0.8636, 32 are 1.6256.
  EXPECT_EQ(settle(16), "done");
  EXPECT_EQ(settle(17), "over_machine_to");
  EXPECT_EQ(settle(32), "over_discard");
}

class DrumPairs : public DrumWork {
 protected:
  /// A pair, decided to be cut: the left drum 284.0 mm wide, the right one as said; both oval by 0.2 mm.
  JobFile pair(double right_mm, const std::string& right_machine_to = "284.734",
               const std::string& left_machine_to = "284.734") {
    Part left = drum(), right = drum(Side::right);
    left.limits.machine_to = limit(left_machine_to);
    right.limits.machine_to = limit(right_machine_to);
    const JobFile file = open_with({left, right});
    look_over(file);
    for (std::size_t part = 0; part < 2; ++part) {
      for (std::int64_t point = 0; point < 4; ++point) {
        for (std::int64_t depth = 0; depth < 2; ++depth) {
          const double mm = (part == 0 ? 284.0 : right_mm) + (point == 0 ? 0.1 : point == 2 ? -0.1 : 0);
          NewReading reading = diameter(
              file, depth, point, format_number({std::llround(mm * 1e3) * 1000}, Unit::mm, 1000), Stage::before, part);
          reading.confirmed = true;
          add(file, reading);
        }
      }
    }
    shop.decide(id(), file.job.id, Action::cut, "as the class was told", teacher);
    return shop.job_file(file.job.id);
  }

  static bool warns(const PlanAdvice& advice, const std::string& code) {
    return std::any_of(advice.warnings.begin(), advice.warnings.end(),
                       [&](const auto& warning) { return warning.code == code; });
  }
};

TEST_F(DrumPairs, AreTurnedToOneSizeUnlessItIsDeclined) {
  const JobFile file = pair(284.3);
  const double wide_mm = 284.2 + 2 * 5 * 0.0254;
  const PlanAdvice small = plan(file, 0), wide = plan(file, 1), own = plan(file, 0, true);
  EXPECT_NEAR(*small.pair_mm, wide_mm, 1e-9);
  EXPECT_NEAR(*small.final_mm, wide_mm, 0.0254 + 1e-9);
  EXPECT_NEAR(*wide.final_mm, wide_mm, 1e-9);
  EXPECT_FALSE(own.pair_mm);
  EXPECT_NEAR(*own.final_mm, 283.9 + 2 * 5 * 0.0254, 1e-9);
}

TEST_F(DrumPairs, NeitherIsOpenedOverItsOwnMachineToForTheOther) {
  // The wide one comes to 284.454 mm. From 283.9 mm in marks of 50.8 um on the diameter that is 10.9 marks: 11 are
  // 284.4588 mm.
  const JobFile rounds_over = pair(284.3, "284.734", "284.456");
  const PlanAdvice small = plan(rounds_over, 0);
  EXPECT_NEAR(*small.pair_mm, 284.454, 1e-9);
  EXPECT_NEAR(*small.final_mm, 283.9 + 10 * 0.0508, 1e-9);
  const JobFile too_wide = pair(284.3, "284.734", "284.44");
  const PlanAdvice alone = plan(too_wide, 0);
  EXPECT_FALSE(alone.pair_mm);
  EXPECT_TRUE(warns(alone, "pair_over_machine_to"));
  EXPECT_NEAR(*alone.final_mm, 283.9 + 5 * 0.0508, 1e-9);
}

TEST_F(DrumWork, AfterTheCutTheDiameterIsHeldAgainstTwiceTheMarks) {
  const JobFile file = decided();
  record_cut(file, 6);
  EXPECT_EQ(waits_for(shop.job_file(file.job.id)), WaitsFor::readings_after);
  gauge_drums(file, 284.2, 0.0, Stage::after);
  const Assessment made = assessed(file);
  const PartAssessment& part = made.parts.at(0);
  EXPECT_FALSE(part.check);
  EXPECT_FALSE(part.dial_check);
  ASSERT_TRUE(part.drum_check);
  EXPECT_EQ(part.drum_check->outcome, Outcome::pass);
  EXPECT_NEAR(part.drum_check->taken_mean_um, 200, 1e-6);
  EXPECT_NEAR(*part.drum_check->planned_on_radius_um, 152.4, 1e-9);
  EXPECT_NEAR(*part.drum_check->planned_um, 304.8, 1e-9);
  EXPECT_EQ(made.waits_for, WaitsFor::seal);
  shop.seal(file.job.id, teacher);
  EXPECT_TRUE(shop.seal_holds(file.job.id));
  EXPECT_EQ(shop.lathe_study(lathe).jobs, 0U);
}

TEST_F(DrumWork, HouseFiguresOfThicknessSayNothingOfDiameters) {
  Settings settings = shop.settings();
  settings.house_allowance = of_mm(0.4);
  settings.wear_mm_per_10000_km = 0.1;
  shop.change_settings(settings, teacher);
  Part part = drum();
  part.limits.machine_to.reset();
  const JobFile file = open_with({part});
  look_over(file);
  gauge_drums(file, 284.0, 0.2);
  const Assessment made = assessed(file);
  EXPECT_FALSE(made.drums->parts[0].machine_to);
  EXPECT_FALSE(made.drums->parts[0].wear_room_uncut);
  EXPECT_NE(std::find(made.missing.begin(), made.missing.end(), "Machine-to diameter of the left part."),
            made.missing.end());
}

TEST_F(DrumWork, TheLiningIsHeldAgainstTheDrumBeforeAndAfter) {
  Part part = drum();
  part.lining_radius = mm("142");
  const JobFile file = open_with({part});
  look_over(file);
  gauge_drums(file, 284.0, 0.2);
  const drum::DrumVerdict drum = assessed(file).drums->parts[0];
  ASSERT_TRUE(drum.shoe_after);
  EXPECT_EQ(drum.shoe_before->contact, drum::Contact::full);
  EXPECT_EQ(drum.shoe_after->contact, drum::Contact::mid_shoe);
}

}  // namespace
}  // namespace brakewright::shop
