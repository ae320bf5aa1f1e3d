#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <cstring>
#include <numbers>

#include "core/bench_sim/cut/cut.hpp"
#include "core/uncertainty/random.hpp"
#include "tests/core/bench_sim/flat_part.hpp"

namespace brakewright::bench_sim {
namespace {

constexpr Side kSides[] = {Side::outboard, Side::inboard};

/// Scored, leaning, with hard spots; not a whole number of groups of rings.
SimPart rough_part(Random& random) {
  SimPart part = flat_part({.angles = 36 + static_cast<int>(random.below(90)),
                            .rings = 70 + static_cast<int>(random.below(60)),
                            .inner_radius_mm = 80,
                            .ring_step_mm = 0.02 + 0.01 * random.uniform()});
  const float lean = static_cast<float>(20 * random.uniform());
  for (int ring = 0; ring < part.grid.rings; ++ring) {
    const float score = static_cast<float>(10 * random.normal());
    for (int angle = 0; angle < part.grid.angles; ++angle) {
      const std::size_t cell = part.grid.at(ring, angle);
      const float wave = lean * static_cast<float>(std::cos(2 * std::numbers::pi * angle / part.grid.angles));
      part.outboard.height_um[cell] = score + wave + static_cast<float>(2 * random.normal());
      part.inboard.height_um[cell] = -score - wave + static_cast<float>(2 * random.normal());
      if (random.uniform() < 0.01) part.hardness[cell] = 1.5F;
    }
  }
  return part;
}

CutSetup some_setup(Random& random, const SimPart& part) {
  const auto tool = [&] {
    CuttingTool made{.nose = {.radius_mm = 0.2 + 0.6 * random.uniform(), .edge_radius_um = 5 * random.uniform()},
                     .tip_um = -20 - 80 * random.uniform()};
    if (random.uniform() < 0.7) made.holder = chatter::Mode{.k_n_per_m = 2e7, .zeta = 0.04, .fn_hz = 30};
    return made;
  };
  CutSetup setup{.rpm = 300,
                 .feed_mm_per_rev = 0.03 + 0.1 * random.uniform(),
                 .start_radius_mm = part.grid.inner_radius_mm - 0.4,
                 .motion = {.axial_um = 5 * random.normal(),
                            .tilt = {.x_um_per_mm = 0.2 * random.normal(), .y_um_per_mm = 0.2 * random.normal()}}};
  if (random.uniform() < 0.3) setup.motion.offset_x_mm = 0.3 * random.normal() / 3;
  if (random.uniform() < 0.8) setup.outboard = tool();
  if (!setup.outboard || random.uniform() < 0.8) setup.inboard = tool();
  // some of them chatter
  if (random.uniform() < 0.8)
    setup.disc = {{.k_n_per_m = std::pow(10, 5.5 + 2 * random.uniform()), .zeta = 0.01, .fn_hz = 40}};
  return setup;
}

/// The same cut with every ring under every nose at every angle, and nothing kept aside.
class PlainCut {
 public:
  PlainCut(SimPart& part, const CutSetup& setup)
      : part_(part), setup_(setup), step_s_(60 / setup.rpm / part.grid.angles), disc_(setup.disc, step_s_) {
    for (const Side side : kSides) {
      const auto& tool = tool_of(side);
      const std::vector<chatter::Mode> holder =
          tool && tool->holder ? std::vector<chatter::Mode>{*tool->holder} : std::vector<chatter::Mode>{};
      holders_.push_back(Vibration(holder, step_s_));
    }
  }

  std::optional<CuttingTool>& tool_of(Side side) { return side == Side::outboard ? setup_.outboard : setup_.inboard; }

  void change(const Motion& motion, double feed_mm_per_rev, double rpm) {
    setup_.motion = motion;
    setup_.feed_mm_per_rev = feed_mm_per_rev;
    disc_.set_step(60 / rpm / part_.grid.angles);
    for (Vibration& holder : holders_) holder.set_step(60 / rpm / part_.grid.angles);
  }

  void advance(int angles, double from_radius_mm) {
    const auto circle = unit_circle(part_.grid.angles);
    for (int i = 0; i < angles; ++i) {
      const UnitVector to = circle[static_cast<std::size_t>(angle_)];
      const Motion& motion = setup_.motion;
      const double radius = from_radius_mm + setup_.feed_mm_per_rev * i / part_.grid.angles -
                            motion.offset_x_mm * to.x - motion.offset_y_mm * to.y;
      const double lean = motion.axial_um + radius * (motion.tilt.x_um_per_mm * to.x + motion.tilt.y_um_per_mm * to.y);
      double thrust[2] = {};
      for (const Side side : kSides) thrust[side == Side::inboard] = cut_at(side, radius, lean);
      disc_.advance(thrust[1] - thrust[0]);
      for (std::size_t s = 0; s < 2; ++s) holders_[s].advance(thrust[s]);
      angle_ = (angle_ + 1) % part_.grid.angles;
    }
  }

 private:
  double cut_at(Side side, double radius, double lean) {
    const auto& tool = tool_of(side);
    if (!tool) return 0;
    const FaceGrid& grid = part_.grid;
    const double sign = side == Side::outboard ? 1 : -1;
    const double give = holders_[side == Side::inboard].foreseen_um() - sign * disc_.foreseen_um();
    const int groups = (grid.rings + kLanes - 1) / kLanes;
    std::vector<float> height(static_cast<std::size_t>(groups) * kLanes, -1e9F), hard(height.size(), 1.0F), top(height);
    for (int ring = 0; ring < grid.rings; ++ring) {
      height[static_cast<std::size_t>(ring)] = part_.face(side).height_um[grid.at(ring, angle_)];
      hard[static_cast<std::size_t>(ring)] = part_.hardness[grid.at(ring, angle_)];
    }
    const NoseTake take = take_row_plainly({.height = height.data(),
                                            .hardness = hard.data(),
                                            .top = top.data(),
                                            .next_height = kLanes,
                                            .next_top = kLanes,
                                            .blocks = groups},
                                           0, groups,
                                           {.radius_um = static_cast<float>(tool->nose.radius_mm * 1000),
                                            .step_um = static_cast<float>(grid.ring_step_mm * 1000),
                                            .centre = (radius - grid.inner_radius_mm) / grid.ring_step_mm,
                                            .tip_um = static_cast<float>(tool->tip_um + give - sign * lean),
                                            .exponent = static_cast<float>(1 - setup_.material.mc),
                                            .least_chip_um = static_cast<float>(least_chip_um(tool->nose))});
    for (int ring = 0; ring < grid.rings; ++ring) {
      part_.face(side).height_um[grid.at(ring, angle_)] = height[static_cast<std::size_t>(ring)];
    }
    return take.pressure * (setup_.material.kc11_n_per_mm2 * setup_.material.thrust_ratio *
                            wear_force_factor(tool->nose) * grid.ring_step_mm);
  }

  SimPart& part_;
  CutSetup setup_;
  double step_s_ = 0;
  Vibration disc_;
  std::vector<Vibration> holders_;
  int angle_ = 0;
};

TEST(CutBits, LookingOnlyWhereTheNoseMayReachMissesNothing) {
  Random random(71);
  for (int trial = 0; trial < 150; ++trial) {
    SimPart part = rough_part(random), plain = part;
    const CutSetup setup = some_setup(random, part);
    Cut cut(part, setup);
    PlainCut plain_cut(plain, setup);
    const int first = static_cast<int>(random.below(1500)), second = static_cast<int>(random.below(1500));
    cut.advance(first);
    plain_cut.advance(first, setup.start_radius_mm);
    // deeper, shifted on its mount, faster, and back over what has been cut
    for (const Side side : kSides) {
      if (!plain_cut.tool_of(side)) continue;
      const double tip_um = plain_cut.tool_of(side)->tip_um - 30;
      plain_cut.tool_of(side)->tip_um = tip_um;
      cut.set_tip(side, tip_um);
    }
    const Motion shifted{.axial_um = 10 * random.normal(),
                         .tilt = {.x_um_per_mm = 0.2 * random.normal(), .y_um_per_mm = 0.2 * random.normal()},
                         .offset_x_mm = 0.1 * random.normal(),
                         .offset_y_mm = 0.1 * random.normal()};
    const double feed_mm = 0.02 + 0.1 * random.uniform(), rpm = 250 + 200 * random.uniform();
    const double back_mm = part.grid.inner_radius_mm + 0.5 * random.uniform();
    if (trial % 3 == 0) cut.settle();
    cut.set_motion(shifted);
    cut.set_feed(feed_mm);
    cut.set_rpm(rpm);
    cut.set_radius(back_mm);
    plain_cut.change(shifted, feed_mm, rpm);
    cut.advance(second);
    plain_cut.advance(second, back_mm);
    cut.settle();
    ASSERT_EQ(part.outboard.height_um, plain.outboard.height_um) << trial;
    ASSERT_EQ(part.inboard.height_um, plain.inboard.height_um) << trial;
  }
}

TEST(CutBits, CutInPiecesIsCutAtOnceBitForBit) {
  Random random(72);
  for (int trial = 0; trial < 500; ++trial) {
    SimPart part = rough_part(random), pieces = part;
    const CutSetup setup = some_setup(random, part);
    Cut at_once(part, setup), in_pieces(pieces, setup);
    const int whole = 1500;
    at_once.advance(whole);
    at_once.settle();
    for (int done = 0; done < whole;) {
      const int piece = std::min(whole - done, static_cast<int>(random.below(400)));
      in_pieces.advance(piece);
      if (random.uniform() < 0.3) in_pieces.settle();
      done += piece;
    }
    in_pieces.settle();
    ASSERT_EQ(part.outboard.height_um, pieces.outboard.height_um) << trial;
    ASSERT_EQ(part.inboard.height_um, pieces.inboard.height_um) << trial;
    for (const Side side : kSides) {
      ASSERT_EQ(at_once.trace(side).thrust_n, in_pieces.trace(side).thrust_n) << trial;
      ASSERT_EQ(at_once.removed_mm3(side), in_pieces.removed_mm3(side)) << trial;
    }
  }
}

double volume_mm3(const SimPart& part, Side side) {
  const double cell = part.grid.ring_step_mm * 2 * std::numbers::pi / part.grid.angles;
  double sum = 0;
  for (int ring = 0; ring < part.grid.rings; ++ring) {
    for (int angle = 0; angle < part.grid.angles; ++angle) {
      sum += static_cast<double>(part.face(side).height_um[part.grid.at(ring, angle)]) * 1e-3 * cell *
             part.grid.radius_mm(ring);
    }
  }
  return sum;
}

TEST(CutBits, NoIronIsLostNorMade) {
  Random random(73);
  for (int trial = 0; trial < 500; ++trial) {
    SimPart part = rough_part(random);
    const SimPart before = part;
    Cut cut(part, some_setup(random, part));
    cut.advance(1500);
    cut.settle();
    for (const Side side : kSides) {
      const double gone_mm3 = volume_mm3(before, side) - volume_mm3(part, side);
      EXPECT_NEAR(cut.removed_mm3(side), gone_mm3, 1e-5 * (1 + gone_mm3)) << trial;
      for (std::size_t i = 0; i < part.grid.cells(); ++i) {
        ASSERT_LE(part.face(side).height_um[i], before.face(side).height_um[i]);
      }
    }
  }
}

/// FNV-1a of the bits.
std::uint64_t hash_of(const SimPart& part) {
  std::uint64_t hash = 14695981039346656037U;
  for (const Side side : kSides) {
    for (const float height : part.face(side).height_um) {
      std::uint32_t bits = 0;
      std::memcpy(&bits, &height, sizeof bits);
      hash = (hash ^ bits) * 1099511628211U;
    }
  }
  return hash;
}

TEST(CutBits, TheSameSeedGivesTheSameFaces) {
  Random random(74);
  SimPart part = flat_part({.angles = 120, .rings = 100, .inner_radius_mm = 80, .ring_step_mm = 0.02});
  for (float& height : part.outboard.height_um) height = static_cast<float>(random.below(4000)) / 256;
  for (float& hardness : part.hardness) hardness = 1 + static_cast<float>(random.below(4)) / 8;
  const CuttingTool tool{.holder = chatter::Mode{.k_n_per_m = 1e7, .zeta = 0.03, .fn_hz = 150}, .tip_um = -60};
  Cut cut(part, {.outboard = tool,
                 .inboard = tool,
                 .disc = {{.k_n_per_m = 2e6, .zeta = 0.01, .fn_hz = 130}},
                 .rpm = 300,
                 .start_radius_mm = 79.5,
                 .motion = {.tilt = {.x_um_per_mm = 0.25, .y_um_per_mm = 0.125}, .offset_x_mm = 0.125}});
  cut.advance(120 * 30);
  cut.settle();
  EXPECT_EQ(hash_of(part), 10435166663494939367U);
}

}  // namespace
}  // namespace brakewright::bench_sim
