#include "shop/school/permits.hpp"

#include "tests/shop/school/schoolroom.hpp"

namespace brakewright::shop {
namespace {

class Permits : public Schoolroom {
 protected:
  SafetyPoint point(std::int64_t right = 1) {
    return school.put_safety_point({.id = id(),
                                    .question = "The part is still turning. What first?",
                                    .choices = {"A rag", "Stop the spindle", "Call out"},
                                    .right_choice = right,
                                    .reason = "Nothing touches a turning part."},
                                   teacher);
  }

  SafetyAnswer answer(const SafetyPoint& asked, std::int64_t choice) {
    clock += std::chrono::minutes(1);
    return school.answer_safety_point(
        {.id = id(), .person_id = students[0], .safety_point_id = asked.id, .choice = choice}, students[0]);
  }

  PermitNeed need(PermitNeedKind what) {
    for (const PermitNeed& one : school.permit_of(students[0]).needs) {
      if (one.what == what) return one;
    }
    ADD_FAILURE() << "not asked";
    return {};
  }

  void sign_cuts(std::int64_t count) {
    for (std::int64_t k = 0; k < count; ++k) school.sign_cut({.id = id(), .person_id = students[0]}, teacher);
  }

  /// A closed study in which the first student is so far off and scatters so much.
  void close_study(double off_um, double sd_um) {
    Study study = small_study(3);
    read_all(study, students[0], off_um, sd_um);
    read_all(study, students[1], 0, 1);
    clock += std::chrono::hours(1);
    study.closed = true;
    school.put_study(study, teacher);
  }
};

TEST_F(Permits, AreNotReadyWhereNoSafetyPointsAreEntered) {
  EXPECT_FALSE(need(PermitNeedKind::safety_points).is_met());
  EXPECT_EQ(need(PermitNeedKind::safety_points).text, "no safety points are entered yet");
}

TEST_F(Permits, AreNotAskedForOnAJobAtWhichSomebodyStandsByThatDayUntilOneIsWithdrawn) {
  const Uuid here = open().job.id, elsewhere = open().job.id;
  EXPECT_FALSE(school.may_cut(students[0], here));
  school.sign_cut({.id = id(), .person_id = students[0], .job_id = here}, teacher);
  EXPECT_TRUE(school.may_cut(students[0], here));
  EXPECT_FALSE(school.may_cut(students[0], elsewhere));
  EXPECT_FALSE(school.may_cut(students[1], here));
  clock += std::chrono::hours(13);
  EXPECT_FALSE(school.may_cut(students[0], here));
  school.sign_cut({.id = id(), .person_id = students[0], .job_id = here}, teacher);
  clock += std::chrono::minutes(1);
  const Uuid permit = id();
  school.give_permit(students[0], {.id = permit, .reason = "seen at work"}, teacher);
  EXPECT_TRUE(school.may_cut(students[0], elsewhere));
  school.withdraw_permit(students[0], permit, "left the guard open", teacher);
  EXPECT_FALSE(school.may_cut(students[0], here)) << "what was signed before counts no more";
}

TEST_F(Permits, NeedTheirSafetyPointsAnsweredRightAsTheyAreWordedNow) {
  SafetyPoint asked = point();
  EXPECT_EQ(need(PermitNeedKind::safety_points).of, 1);
  EXPECT_FALSE(answer(asked, 0).was_right);
  EXPECT_EQ(need(PermitNeedKind::safety_points).done, 0);
  EXPECT_TRUE(answer(asked, 1).was_right);
  EXPECT_TRUE(need(PermitNeedKind::safety_points).is_met()) << "the newest answer counts";
  asked.reason = "It pulls the rag in, and the hand behind it.";
  asked = school.put_safety_point(asked, teacher);
  EXPECT_TRUE(need(PermitNeedKind::safety_points).is_met()) << "the same question";
  clock += std::chrono::minutes(1);
  asked.question = "The part is still turning and has a burr. What first?";
  school.put_safety_point(asked, teacher);
  EXPECT_FALSE(need(PermitNeedKind::safety_points).is_met()) << "another question";
}

TEST_F(Permits, NeedMeasuringFromTheNewestClosedStudy) {
  EXPECT_FALSE(need(PermitNeedKind::measuring).is_met());
  close_study(-20, 1);
  EXPECT_EQ(need(PermitNeedKind::measuring).done, 0);
  EXPECT_EQ(need(PermitNeedKind::measuring).of, 4) << "80 % of five parts";
  close_study(0, 1);
  EXPECT_EQ(need(PermitNeedKind::measuring).done, 5);
  EXPECT_TRUE(need(PermitNeedKind::measuring).is_met());
}

TEST_F(Permits, NeedASteadyHandWhereTheRuleNamesOne) {
  PermitRule rule = school.permit_rule();
  rule.sd_at_most = Length{4'000};
  school.change_permit_rule(rule, teacher);
  close_study(0, 15);
  EXPECT_FALSE(need(PermitNeedKind::steady_hand).is_met());
  close_study(0, 1);
  EXPECT_TRUE(need(PermitNeedKind::steady_hand).is_met());
}

TEST_F(Permits, StandToTheEndOfTheirLastDay) {
  answer(point(), 1);
  close_study(0, 1);
  EXPECT_EQ(refusal([&] { school.give_permit(students[0], {.id = id()}, teacher); }), "reason_needed");
  sign_cuts(2);
  ASSERT_TRUE(school.permit_of(students[0]).is_ready);
  const PermitState given = school.give_permit(students[0], {.id = id()}, teacher);
  EXPECT_TRUE(given.stands);
  const auto last = std::chrono::sys_days(given.permit->lapses_on);
  EXPECT_EQ(last, std::chrono::floor<std::chrono::days>(clock) + std::chrono::days(180));
  clock = last + std::chrono::hours(24) - std::chrono::milliseconds(1);
  EXPECT_TRUE(school.permit_of(students[0]).stands);
  clock += std::chrono::milliseconds(1);
  EXPECT_FALSE(school.permit_of(students[0]).stands);
}

TEST_F(Permits, AreWithdrawnAtOnce) {
  const auto given = school.give_permit(students[0], {.id = id(), .reason = "has a trade paper"}, teacher);
  ASSERT_TRUE(given.stands) << "given over what is missing, with a reason";
  const auto after = school.withdraw_permit(students[0], given.permit->id, "left the guard open", teacher);
  EXPECT_FALSE(after.stands);
  EXPECT_EQ(after.permit->withdrawn_why, "left the guard open");
  EXPECT_EQ(refusal([&] { school.withdraw_permit(students[1], given.permit->id, "", teacher); }), "unknown_permit");
}

TEST_F(Permits, AreGivenAndSignedByWhoLeadsAndNeededByStudentsAlone) {
  EXPECT_EQ(refusal([&] { school.give_permit(students[0], {.id = id(), .reason = "me"}, students[0]); }),
            "needs_teacher");
  EXPECT_EQ(refusal([&] { school.sign_cut({.id = id(), .person_id = students[0]}, students[1]); }), "needs_teacher");
  EXPECT_EQ(refusal([&] { school.sign_cut({.id = id(), .person_id = teacher}, teacher); }), "own_work");
  EXPECT_TRUE(school.permit_of(teacher).stands);
  EXPECT_EQ(refusal([&] { school.give_permit(teacher, {.id = id()}, teacher); }), "needs_none");
  const auto visitor = shop.put_person({.id = id(), .name = "Visitor", .role = Role::visitor}, teacher).id;
  school.give_permit(visitor, {.id = id(), .reason = "asked"}, teacher);
  EXPECT_FALSE(school.permit_of(visitor).stands);
}

TEST_F(Permits, GoByTheRuleThatSomebodySawLast) {
  PermitRule rule = school.permit_rule();
  rule.supervised_cuts = 1;
  EXPECT_EQ(school.change_permit_rule(rule, teacher).version, rule.version + 1);
  EXPECT_EQ(refusal([&] { school.change_permit_rule(rule, teacher); }), "changed_meanwhile");
  EXPECT_EQ(need(PermitNeedKind::supervised_cuts).of, 1);
}

TEST_F(Permits, AskForPointsAtTheSimulatedBenchWhereTheRuleDoes) {
  PermitRule rule = school.permit_rule();
  rule.practice_points = 70;
  school.change_permit_rule(rule, teacher);
  EXPECT_EQ(need(PermitNeedKind::practice).text, "no safe run at the simulated bench yet; 70 points are asked");
  double best = 69.9;
  school.practice_from({.best_points = [&] { return std::map<Uuid, double>{{students[0], best}}; }});
  EXPECT_EQ(need(PermitNeedKind::practice).done, 69);
  EXPECT_FALSE(need(PermitNeedKind::practice).is_met());
  best = 70;
  EXPECT_TRUE(need(PermitNeedKind::practice).is_met());
}

}  // namespace
}  // namespace brakewright::shop
