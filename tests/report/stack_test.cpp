#include "report/stack/stack.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <boost/random/mersenne_twister.hpp>
#include <boost/random/uniform_int_distribution.hpp>

#include "report/content/lathe_work.hpp"
#include "tests/report/turned_sample.hpp"
#include "tests/report/written_file.hpp"

namespace brakewright::report {
namespace {

using namespace sample;
using Random = boost::random::mt19937_64;

int pick(Random& random, int low, int high) { return boost::random::uniform_int_distribution<int>(low, high)(random); }

Length mm(Random& random, int low, int high) { return {std::int64_t{pick(random, low, high)} * 1'000'000}; }

std::string text_of(Random& random, int low, int high) { return std::to_string(pick(random, low, high)); }

shop::Piece random_piece(Random& random, int number, shop::PieceKind kind) {
  shop::Piece made = piece(number, "piece", kind, pick(random, 1, 70));
  const int small = pick(random, 27, 70);
  made.small = Length{std::int64_t{small} * 1'000'000};
  made.large = Length{std::int64_t{small + pick(random, 1, 40)} * 1'000'000};
  made.ring_inner = mm(random, 50, 110);
  made.ring_outer = mm(random, 112, 200);
  if (pick(random, 0, 1) == 1) {
    made.cup_depth = mm(random, 1, 60);
    made.cup_bore = mm(random, 30, 110);
  }
  made.solid = mm(random, 5, 20);
  made.free = mm(random, 21, 60);
  made.weighted = pick(random, 0, 1) == 1;
  made.damping = pick(random, 0, 1) == 1;
  return made;
}

/// Whatever might have gone on an arbor, in the order of its kind; nothing says that it fits.
WholeJob random_stack(std::uint64_t seed) {
  using shop::PieceKind;
  Random random(seed);
  static const WholeJob turned = turned_job(1);
  WholeJob job = turned;
  shop::Part& part = job.file.parts[0];
  std::vector<PieceKind> kinds;
  if (seed % 2 == 0) {
    kinds = {PieceKind::clamp, PieceKind::spring, PieceKind::cone, PieceKind::clamp};
    part.seat.flange = typed(text_of(random, 3, 20));
    part.seat.flat_outer = typed(text_of(random, 90, 220));
  } else {
    kinds = {PieceKind::taper, PieceKind::taper};
    part.construction = shop::Construction::integral_hub;
    part.seat.hub_length = typed(text_of(random, 20, 120));
    part.seat.inner_race = typed(text_of(random, 30, 70));
    part.seat.outer_race = typed(text_of(random, 30, 70));
  }
  for (int spacers = pick(random, 0, 6); spacers > 0; --spacers) kinds.push_back(PieceKind::spacer);
  kinds.push_back(PieceKind::nut);
  job.pieces.clear();
  shop::Mount& mount = job.file.mounts[0];
  mount.piece_ids.clear();
  for (std::size_t k = 0; k < kinds.size(); ++k) {
    job.pieces.push_back(random_piece(random, static_cast<int>(k) + 1, kinds[k]));
    mount.piece_ids.push_back(job.pieces.back().id);
  }
  mount.q = {pick(random, 0, 100) / 100.0, pick(random, 0, 100) / 100.0};
  return job;
}

/// About what the sheet's letters take.
double width_of(std::string_view text) { return 1.4 * static_cast<double>(text.size()); }

bool meet(const Box& a, const Box& b) {
  return std::min(a.right(), b.right()) > std::max(a.x_mm, b.x_mm) + 1e-9 &&
         std::min(a.bottom(), b.bottom()) > std::max(a.y_mm, b.y_mm) + 1e-9;
}

/// What is wrong with the labels of a drawing; empty when nothing is.
std::string fault_of(const Box& box, const StackPlan& plan) {
  for (std::size_t a = 0; a < plan.labels.size(); ++a) {
    const StackLabel& label = plan.labels[a];
    const std::string name = "label " + label.text;
    if (label.box.x_mm < box.x_mm - 1e-9 || label.box.right() > box.right() + 1e-9) return name + " leaves sideways";
    if (label.box.bottom() > box.bottom() + 1e-9) return name + " leaves at the foot";
    if (label.box.y_mm < plan.frame.foot_mm) return name + " stands in the section";
    for (std::size_t b = a + 1; b < plan.labels.size(); ++b) {
      if (meet(label.box, plan.labels[b].box)) return name + " meets " + plan.labels[b].text;
    }
  }
  return {};
}

TEST(StackLabels, NeverMeetNorLeaveTheDrawingInTwoThousandStacksOfRandomPieces) {
  for (std::uint64_t seed = 0; seed < 2000; ++seed) {
    const WholeJob job = random_stack(seed);
    const StackSection section = section_of(job.input(), job.file.parts[0], job.file.mounts[0]);
    ASSERT_FALSE(section.shapes.empty()) << seed;
    const Box box{10, 20, seed % 3 == 0 ? 40.0 : 82.0, 44};
    const StackPlan plan = plan_stack(box, section, width_of);
    EXPECT_EQ(plan.labels.size(), job.pieces.size() + 1) << seed;
    EXPECT_EQ(fault_of(box, plan), "") << seed;
  }
}

TEST(StackLabels, GoOnInFurtherRowsWhereOneIsTooNarrowAndKeepToTheDrawingWhereThreeAre) {
  for (const int count : {30, 60, 300}) {
    StackSection section;
    for (int k = 0; k < count; ++k) {
      const double x = k * 2;
      section.shapes.push_back({StackLook::steel, {{x, 5}, {x + 2, 5}, {x + 2, 9}, {x, 9}}, std::to_string(k + 1)});
    }
    const Box box{0, 0, 82, 44};
    const StackPlan plan = plan_stack(box, section, width_of);
    EXPECT_EQ(fault_of(box, plan), "") << count;
    EXPECT_EQ(plan.labels.size() == static_cast<std::size_t>(count), count < 61) << count;
    EXPECT_GT(plan.frame.scale, 0);
  }
}

TEST(StackLabels, LeadToTheirOwnPieceWhereNothingCoversIt) {
  // A sleeve, and a wider one drawn over its right half.
  StackSection section;
  section.shapes = {{StackLook::steel, {{0, 5}, {40, 5}, {40, 9}, {0, 9}}, "1"},
                    {StackLook::cone, {{20, 3}, {50, 3}, {50, 12}, {20, 12}}, "2"}};
  const StackPlan plan = plan_stack({0, 0, 82, 44}, section, width_of);
  ASSERT_EQ(plan.labels.size(), 2U);
  const auto along = [&](std::size_t k) {
    return (plan.labels[k].anchor.x_mm - plan.frame.left_mm) / plan.frame.scale;
  };
  EXPECT_GT(along(0), 0);
  EXPECT_LT(along(0), 20);
  EXPECT_GT(along(1), 20);
  EXPECT_LT(along(1), 50);
}

TEST(StackLabels, StandInTheOrderOfAssemblyOfAUsualStack) {
  const WholeJob job = turned_job(1);
  const StackSection section = section_of(job.input(), job.file.parts[0], job.file.mounts[0]);
  std::string order;
  for (const StackLabel& label : plan_stack({0, 0, 82, 44}, section, width_of).labels) {
    if (label.text != "rotor") order += label.text;
  }
  EXPECT_EQ(order, "123456");
}

TEST(StackLabels, ThereAreNoneWhereThereIsNoStack) {
  const StackPlan plan = plan_stack({0, 0, 82, 44}, {.shapes = {}, .none = "no stack"}, width_of);
  EXPECT_TRUE(plan.labels.empty());
  EXPECT_EQ(plan.frame.scale, 0);
}

TEST(LatheSheet, HasNoWordInAnotherWhateverTheStackThePassesAndTheSteps) {
  const std::string long_name = "a clamp of the old set with the long name that somebody once stamped on its rim";
  for (std::uint64_t seed = 0; seed < 24; ++seed) {
    WholeJob job = random_stack(seed);
    job.file.mounts[0].why = std::vector<std::string>(job.pieces.size(), "bears on the hat with a ring of 128.00 mm");
    if (seed % 3 == 1) {
      for (shop::Piece& one : job.pieces) one.name = long_name;
    }
    if (seed % 4 == 0) job.file.passes.clear();
    if (seed % 4 == 1) job.file.cut_plans.clear();
    for (std::uint64_t more = seed % 4 == 2 ? 28 : 0; more > 0; --more) {
      shop::Pass pass = job.file.passes.front();
      pass.outboard_marks = 1234;
      pass.note = "chips";
      job.file.passes.push_back(pass);
    }
    if (seed % 5 == 0) job.file.bench_steps.clear();
    job.assess();
    const std::string pdf = record_pdf(job.input(), seed % 2 == 0 ? shop::Paper::a4 : shop::Paper::letter);
    EXPECT_EQ(test::words_that_meet(pdf, 3), std::vector<std::string>()) << seed;
    EXPECT_EQ(test::words_outside(pdf), 0) << seed;
  }
}

TEST(LatheSheet, ShowsEveryHeadOfItsTablesWhole) {
  for (const int rotors : {1, 2}) {
    const std::string text = test::text_of_pdf(record_pdf(turned_job(rotors).input(), shop::Paper::a4));
    for (const char* head : {"piece, from the shoulder out", "hook", "why", "pass", "rpm", "feed mm", "plan m:s",
                             "cut m:s", "Ra µm", "leaves mm", "Before mounting", "what was done"}) {
      EXPECT_NE(text.find(head), std::string::npos) << head;
    }
  }
}

}  // namespace
}  // namespace brakewright::report
