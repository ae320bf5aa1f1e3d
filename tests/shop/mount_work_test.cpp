#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include "tests/shop/bench_scene.hpp"

namespace brakewright::shop {
namespace {

class MountWork : public BenchScene {};

TEST_F(MountWork, AStackTakesItsPiecesOffThePegboardAndGivesTheOldOnesBack) {
  const auto stack = hang_a_stack();
  const Piece other = hang(piece(PieceKind::nut, "N2", 20));
  const auto file = decided();
  auto ids = ids_of(stack);
  const Mount first = mount(file, ids);
  EXPECT_NEAR(first.length_mm, 97, 1e-9);
  EXPECT_EQ(first.why.size(), 6U);
  EXPECT_EQ(state(stack[5].id), PieceState::in_use);
  EXPECT_EQ(state(other.id), PieceState::on_board);
  ids.back() = other.id;
  mount(file, ids);
  EXPECT_EQ(state(stack[5].id), PieceState::on_board);
  EXPECT_EQ(state(other.id), PieceState::in_use);
  EXPECT_EQ(shop.bookings_of(stack[0].id).size(), 1U);
}

TEST_F(MountWork, TheSameMountSentTwiceIsOneAndAnotherWithItsIdIsRefused) {
  const auto ids = ids_of(hang_a_stack());
  const auto file = decided();
  const NewMount wanted{id(), file.parts[0].id, lathe, ids, ""};
  const Mount first = shop.record_mount(file.job.id, wanted, teacher);
  const auto seq = shop.last_seq();
  EXPECT_EQ(shop.record_mount(file.job.id, wanted, teacher), first);
  EXPECT_EQ(shop.last_seq(), seq);
  auto other = wanted;
  std::swap(other.piece_ids[0], other.piece_ids[3]);
  EXPECT_EQ(refusal([&] { shop.record_mount(file.job.id, other, teacher); }), "id_taken");
}

TEST_F(MountWork, PiecesInUseElsewhereOrMissingAreNotAdvised) {
  const auto ids = ids_of(hang_a_stack());
  const auto here = decided();
  const auto elsewhere = decided();
  ASSERT_FALSE(shop.stacks(here.job.id, here.parts[0].id, 3).answer.stacks.empty());
  mount(elsewhere, ids);
  EXPECT_EQ(shop.stacks(here.job.id, here.parts[0].id, 3).missing, std::vector<std::string>{"pegboard"});
  EXPECT_FALSE(shop.stacks(elsewhere.job.id, elsewhere.parts[0].id, 3).answer.stacks.empty());
  EXPECT_EQ(refusal([&] { mount(here, ids); }), "in_use");
  for (const Uuid& piece_id : ids) shop.book({id(), piece_id, BookingKind::returned, elsewhere.job.id, ""}, teacher);
  EXPECT_FALSE(shop.stacks(here.job.id, here.parts[0].id, 3).answer.stacks.empty());
  shop.book({id(), ids[2], BookingKind::missing, {}, ""}, teacher);
  const auto without = shop.stacks(here.job.id, here.parts[0].id, 3);
  ASSERT_FALSE(without.answer.nearest.empty());
  EXPECT_EQ(without.answer.nearest[0].rule, "no_cone");
  shop.book({id(), ids[2], BookingKind::found, {}, ""}, teacher);
  EXPECT_FALSE(shop.stacks(here.job.id, here.parts[0].id, 3).answer.stacks.empty());
}

TEST_F(MountWork, APieceThatIsNoLongerUsedIsNotAdvised) {
  auto stack = hang_a_stack();
  const auto file = decided();
  stack[5].active = false;
  hang(stack[5]);
  EXPECT_EQ(shop.stacks(file.job.id, file.parts[0].id, 3).answer.nearest.at(0).rule, "no_nut");
}

TEST_F(MountWork, WhatMissesIsCalledByItsNameOnThePegboard) {
  hang_a_stack();
  const auto file = decided();
  Part part = file.parts[0];
  part.seat.bore = mm("63");
  shop.change_part(part, teacher);
  const auto nearest = shop.stacks(file.job.id, part.id, 3).answer.nearest;
  ASSERT_EQ(nearest.at(0).rule, "cone");
  EXPECT_NE(nearest[0].text.find("cone K1 takes bores"), std::string::npos) << nearest[0].text;
  EXPECT_NEAR(nearest[0].miss_mm, 0.5, 1e-9);
}

TEST_F(MountWork, UnknownDimensionsAreNamedInsteadOfGuessed) {
  hang_a_stack();
  const auto file = open();
  const auto advice = shop.stacks(file.job.id, file.parts[0].id, 3);
  EXPECT_EQ(advice.missing,
            (std::vector<std::string>{"seat.bore", "seat.flange", "seat.flat_inner", "seat.flat_outer"}));
  EXPECT_TRUE(advice.answer.stacks.empty());
}

TEST_F(MountWork, PiecesThatBreakARuleNeedAReasonAndSayWhich) {
  const auto stack = hang_a_stack();
  const auto file = decided();
  auto ids = ids_of(stack);
  ids.erase(ids.begin() + 4);
  try {
    mount(file, ids);
    FAIL() << "a stack that ends short of the thread was taken";
  } catch (const RuleError& refused) {
    EXPECT_EQ(refused.code(), "breaks_a_rule");
    EXPECT_NE(std::string(refused.what()).find("short of the thread by 13.000 mm"), std::string::npos)
        << refused.what();
  }
  EXPECT_EQ(refusal([&] { mount(file, ids, " \n"); }), "breaks_a_rule");
  EXPECT_EQ(mount(file, ids, "a sleeve of the school's own fills the gap").length_mm, 0);
}

TEST_F(MountWork, NonsenseAmongPiecesIsRefused) {
  auto ids = ids_of(hang_a_stack());
  const auto file = decided();
  EXPECT_EQ(refusal([&] { mount(file, {}); }), "too_few");
  ids.push_back(ids[0]);
  EXPECT_EQ(refusal([&] { mount(file, ids); }), "duplicate_id");
  ids.back() = id();
  EXPECT_EQ(refusal([&] { mount(file, ids); }), "unknown_piece");
  const auto undecided = open();
  EXPECT_EQ(refusal([&] { mount(undecided, ids); }), "not_decided");
  auto cone = piece(PieceKind::cone, "K9", 20);
  std::swap(cone.small, cone.large);
  EXPECT_EQ(refusal([&] { hang(cone); }), "out_of_range");
}

TEST_F(MountWork, TwoTabletsThatMountTheSamePieceAreNotBothRight) {
  const auto ids = ids_of(hang_a_stack());
  const auto one = decided();
  const auto two = decided();
  mount(one, ids);
  EXPECT_EQ(refusal([&] { mount(two, ids); }), "in_use");
  EXPECT_TRUE(shop.job_file(two.job.id).mounts.empty());
}

TEST_F(MountWork, AProofOverTheRuleGoesOnWithAReasonOnly) {
  const auto file = decided();
  EXPECT_EQ(refusal([&] { prove(file, swing(file, "0.06")); }), "reason_needed");
  auto with = swing(file, "0.06");
  with.reason = "the teacher looked";
  EXPECT_EQ(prove(file, with).allowed_um, 50);
  auto back = swing(file, "0.06");
  back.goes_on = false;
  EXPECT_FALSE(prove(file, back).goes_on);
  EXPECT_EQ(prove(file, swing(file, "0.05")).runout_um, 50);
  EXPECT_EQ(refusal([&] { prove(file, swing(file, "12")); }), "out_of_range");
}

TEST_F(MountWork, ATraceSaysItsSwingAndTooShortAOneIsRefused) {
  const auto file = decided();
  NewMountProof trace{.id = id(), .part_id = file.parts[0].id, .kind = ProofKind::indicator};
  trace.goes_on = true;
  EXPECT_EQ(refusal([&] { prove(file, trace); }), "missing");
  trace.trace_um = {0, 10};
  EXPECT_EQ(refusal([&] { prove(file, trace); }), "too_few");
  trace.trace_um = {-20, 0, 15, 5};
  EXPECT_EQ(prove(file, trace).runout_um, 35);
}

TEST_F(MountWork, OneScratchSaysHowMuchAndTwoSayWhose) {
  const auto file = decided();
  NewMountProof scratch{.id = id(), .part_id = file.parts[0].id, .kind = ProofKind::scratch};
  scratch.marks = {{.centre_deg = 30, .arc_deg = 180, .infeed_um = 20}};
  const MountProof one = prove(file, scratch);
  EXPECT_NEAR(one.runout_um, 40, 1e-9);
  EXPECT_FALSE(one.part_runout_um);
  EXPECT_NEAR(one.costs_um, 40, 1e-9);
  scratch.id = id();
  scratch.marks.push_back({.centre_deg = 30, .arc_deg = 180, .infeed_um = 10});
  const MountProof two = prove(file, scratch);
  EXPECT_NEAR(two.runout_um, 20, 1e-9);
  EXPECT_NEAR(*two.part_runout_um, 30, 1e-9);
  EXPECT_NEAR(*two.mount_runout_um, 10, 1e-9);
  EXPECT_NEAR(two.costs_um, 10, 1e-9);
  scratch.id = id();
  scratch.marks = {{.centre_deg = 0, .arc_deg = 360, .infeed_um = 20}};
  EXPECT_TRUE(prove(file, scratch).upper_bound);
  scratch.id = id();
  scratch.marks.resize(3, {.centre_deg = 0, .arc_deg = 90, .infeed_um = 20});
  EXPECT_EQ(refusal([&] { prove(file, scratch); }), "too_many");
  scratch.marks = {{.centre_deg = 0, .arc_deg = 0, .infeed_um = 20}};
  EXPECT_EQ(refusal([&] { prove(file, scratch); }), "out_of_range");
}

/// Pegboards at random: whatever is advised can be mounted.
RC_GTEST_FIXTURE_PROP(MountWork, NoStackThatIsAdvisedIsRefused, ()) {
  const auto between = [](int low, int high) { return *rc::gen::inRange(low, high + 1); };
  for (int k = between(2, 4); k > 0; --k) {
    Piece clamp = piece(PieceKind::clamp, "C" + std::to_string(k), 5 * between(5, 7));
    clamp.ring_outer = of_mm(between(128, 132));
    hang(clamp);
  }
  for (int k = between(1, 2); k > 0; --k) {
    Piece cone = piece(PieceKind::cone, "K" + std::to_string(k), 20);
    cone.small = of_mm(between(54, 56));
    hang(cone);
    hang(piece(PieceKind::spring, "S" + std::to_string(k), 20));
  }
  for (int k = between(2, 5); k > 0; --k) {
    Piece spacer = piece(PieceKind::spacer, "R" + std::to_string(k), 5 * between(1, 5));
    spacer.damping = between(0, 1) == 1;
    hang(spacer);
  }
  hang(piece(PieceKind::nut, "N", 20));
  const JobFile file = decided();
  const auto advice = shop.stacks(file.job.id, file.parts[0].id, 10);
  RC_CLASSIFY(!advice.answer.stacks.empty());
  for (const mount::Stack& stack : advice.answer.stacks) {
    std::vector<Uuid> ids;
    for (const std::string& text : stack.pieces) ids.push_back(parse_uuid(text));
    const Mount made = mount(file, ids);
    RC_ASSERT(made.length_mm == stack.length_mm);
    RC_ASSERT(made.q == stack.q);
    RC_ASSERT(made.why == stack.why);
  }
}

}  // namespace
}  // namespace brakewright::shop
