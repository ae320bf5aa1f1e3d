#include "core/mount/mount.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <boost/random/mersenne_twister.hpp>
#include <boost/random/uniform_int_distribution.hpp>
#include <cmath>
#include <map>
#include <optional>
#include <tuple>

#include "core/input_error.hpp"
#include "core/mount/own_stack.hpp"

namespace brakewright::mount {
namespace {

using Draw = boost::random::mt19937_64;

int between(Draw& draw, int low, int high) { return boost::random::uniform_int_distribution<int>(low, high)(draw); }

/// Small dimensions on coarse steps, so that ties and limits met exactly are common.
struct Instance {
  Arbor arbor;
  PartSeat part;
  std::vector<Piece> pieces;
};

Piece random_piece(Draw& draw, PieceKind kind, int index) {
  Piece piece{.id = std::string(1, "cskpun"[static_cast<int>(kind)]) + std::to_string(index), .kind = kind};
  piece.bore_mm = between(draw, 0, 19) == 0 ? 28 : 25 + 0.05 * between(draw, -2, 2);
  piece.runout_um = 5 * between(draw, 0, 2);
  piece.length_mm = 5 * between(draw, 1, 6);
  switch (kind) {
    case PieceKind::cone:
    case PieceKind::taper:
      piece.small_mm = 48 + 2 * between(draw, 0, 5);
      piece.large_mm = piece.small_mm + 4 * between(draw, 1, 4);
      if (kind == PieceKind::taper && between(draw, 0, 2) > 0) piece.outside_mm = 5 * between(draw, 1, 4);
      break;
    case PieceKind::clamp:
      piece.ring_inner_mm = 78 + 2 * between(draw, 0, 4);
      piece.ring_outer_mm = 110 + between(draw, 0, 6);
      piece.cup_depth_mm = 10 * between(draw, 1, 4);
      piece.cup_bore_mm = 68 + 4 * between(draw, 0, 4);
      break;
    case PieceKind::spring:
      piece.solid_mm = 5 * between(draw, 1, 3);
      piece.free_mm = piece.solid_mm + 5 * between(draw, 1, 4);
      break;
    case PieceKind::spacer:
      piece.damping = between(draw, 0, 3) == 0;
      break;
    case PieceKind::nut:
      break;
  }
  return piece;
}

Instance random_instance(std::uint64_t seed) {
  Draw draw(seed);
  Instance made;
  made.arbor = {
      .diameter_mm = 25, .thread_start_mm = 40.0 + 10 * between(draw, 0, 9), .tip_mm = 0, .nut_engagement_mm = 10};
  made.arbor.tip_mm = made.arbor.thread_start_mm + 10 * between(draw, 1, 6);
  const bool hubbed = between(draw, 0, 2) == 0;
  made.part = {.kind = hubbed ? PartKind::hubbed : PartKind::hubless,
               .bore_mm = 54.0 + 2 * between(draw, 0, 5),
               .flange_mm = 6,
               .flat_inner_mm = 80,
               .flat_outer_mm = 116};
  if (between(draw, 0, 1) == 0) made.part.flat_outer_inboard_mm = 112.0 + between(draw, 0, 8);
  made.part.hub_length_mm = 40;
  made.part.inner_race_mm = 54 + 2 * between(draw, 0, 5);
  made.part.outer_race_mm = 52 + 2 * between(draw, 0, 5);
  const auto add = [&](PieceKind kind, int most) {
    const int count = between(draw, most > 3 ? 2 : 0, most);
    for (int i = 0; i < count; ++i) made.pieces.push_back(random_piece(draw, kind, i));
  };
  if (hubbed) {
    add(PieceKind::taper, 5);
  } else {
    add(PieceKind::cone, 4);
    add(PieceKind::spring, 4);
    add(PieceKind::clamp, 5);
  }
  add(PieceKind::spacer, 5);
  add(PieceKind::nut, 2);
  return made;
}

/// The rules and the order of preference once more, in plain arithmetic over every possible stack.
class BruteForce {
 public:
  explicit BruteForce(const Instance& instance) : in_(instance) {
    for (const auto& piece : in_.pieces) {
      if (std::abs(piece.bore_mm - in_.arbor.diameter_mm) < 0.1 + 1e-9) on_[piece.kind].push_back(&piece);
    }
    if (in_.part.kind == PartKind::hubless) {
      for (const auto* first : on_[PieceKind::clamp])
        for (const auto* spring : on_[PieceKind::spring])
          for (const auto* cone : on_[PieceKind::cone])
            for (const auto* second : on_[PieceKind::clamp]) try_clamps(*first, *spring, *cone, *second);
    } else {
      for (const auto* first : on_[PieceKind::taper])
        for (const auto* second : on_[PieceKind::taper]) try_tapers(*first, *second);
    }
    std::sort(ranked_.begin(), ranked_.end());
  }

  std::vector<std::vector<std::string>> best(std::size_t count) const {
    std::vector<std::vector<std::string>> ids;
    for (std::size_t i = 0; i < std::min(count, ranked_.size()); ++i) ids.push_back(std::get<6>(ranked_[i]));
    return ids;
  }

 private:
  using Rank = std::tuple<int, std::size_t, double, double, double, double, std::vector<std::string>>;
  static constexpr double kTiny = 1e-9;

  static double q_of(const Piece& piece, double bore) {
    return (bore - piece.small_mm) / (piece.large_mm - piece.small_mm);
  }

  void try_clamps(const Piece& first, const Piece& spring, const Piece& cone, const Piece& second) {
    const auto& part = in_.part;
    if (&first == &second) return;
    const double q = q_of(cone, part.bore_mm);
    if (q < 0.25 - kTiny || q > 0.75 + kTiny) return;
    if (first.cup_bore_mm < cone.large_mm + 2 - kTiny) return;
    const double room = first.cup_depth_mm - (1 - q) * cone.length_mm;
    if (room < spring.solid_mm + kTiny || room > spring.free_mm - kTiny) return;
    const double shoulder_inner = part.flat_inner_inboard_mm.value_or(part.flat_inner_mm);
    const double shoulder_outer = part.flat_outer_inboard_mm.value_or(part.flat_outer_mm);
    if (first.ring_inner_mm < shoulder_inner || first.ring_outer_mm > shoulder_outer) return;
    if (second.ring_inner_mm < part.flat_inner_mm || second.ring_outer_mm > part.flat_outer_mm) return;
    if (std::abs(first.ring_outer_mm - second.ring_outer_mm) > 2 + kTiny) return;
    finish({&first, &spring, &cone, &second}, first.length_mm + part.flange_mm + second.length_mm,
           std::min(first.ring_outer_mm, second.ring_outer_mm), std::abs(q - 0.5));
  }

  void try_tapers(const Piece& first, const Piece& second) {
    if (&first == &second) return;
    const double q1 = q_of(first, in_.part.inner_race_mm), q2 = q_of(second, in_.part.outer_race_mm);
    for (const double q : {q1, q2}) {
      if (q < 0.2 - kTiny || q > 0.8 + kTiny) return;
    }
    const double length = first.outside_mm.value_or((1 - q1) * first.length_mm) + in_.part.hub_length_mm +
                          second.outside_mm.value_or((1 - q2) * second.length_mm);
    finish({&first, &second}, length, 0, std::abs(q1 - 0.5) + std::abs(q2 - 0.5));
  }

  void finish(const std::vector<const Piece*>& carrier, double length, double ring, double off_middle) {
    const auto& spacers = on_[PieceKind::spacer];
    for (unsigned chosen = 0; chosen < (1U << spacers.size()); ++chosen) {
      for (const auto* nut : on_[PieceKind::nut]) {
        std::vector<const Piece*> pieces = carrier, filling;
        for (std::size_t i = 0; i < spacers.size(); ++i) {
          if ((chosen >> i & 1U) != 0) filling.push_back(spacers[i]);
        }
        std::sort(filling.begin(), filling.end(), [](auto* a, auto* b) { return a->id < b->id; });
        pieces.insert(pieces.end(), filling.begin(), filling.end());
        pieces.push_back(nut);
        rank(pieces, filling, length, ring, off_middle);
      }
    }
  }

  void rank(const std::vector<const Piece*>& pieces, const std::vector<const Piece*>& filling, double length,
            double ring, double off_middle) {
    bool damping = false;
    for (const auto* spacer : filling) {
      length += spacer->length_mm;
      damping = damping || spacer->damping;
    }
    if (length < in_.arbor.thread_start_mm - kTiny) return;
    if (length > in_.arbor.tip_mm - in_.arbor.nut_engagement_mm + kTiny) return;
    double squares = 0;
    std::vector<std::string> ids;
    for (const auto* piece : pieces) {
      squares += piece->runout_um * piece->runout_um;
      ids.push_back(piece->id);
    }
    const auto rounded = [](double x) { return std::round(x * 1e6) / 1e6; };
    ranked_.emplace_back(damping ? 0 : 1, pieces.size(), -ring, rounded(off_middle), squares, rounded(length), ids);
  }

  const Instance& in_;
  std::map<PieceKind, std::vector<const Piece*>> on_;
  std::vector<Rank> ranked_;
};

TEST(Mount, TwoThousandRandomPegboardsGiveWhatTryingEverythingGives) {
  int feasible = 0, hubbed = 0;
  for (std::uint64_t seed = 1; seed <= 2000; ++seed) {
    const Instance instance = random_instance(seed);
    const auto answer = find_stacks(instance.arbor, instance.part, instance.pieces, 3);
    std::vector<std::vector<std::string>> found;
    for (const auto& stack : answer.stacks) found.push_back(stack.pieces);
    ASSERT_EQ(found, BruteForce(instance).best(3)) << "seed " << seed;
    ASSERT_EQ(answer.nearest.empty(), !found.empty()) << "seed " << seed;
    feasible += found.empty() ? 0 : 1;
    hubbed += !found.empty() && instance.part.kind == PartKind::hubbed ? 1 : 0;
  }
  EXPECT_GT(feasible, 300);
  EXPECT_LT(feasible, 1900);
  EXPECT_GT(hubbed, 50);
}

std::vector<Piece> pieces_of(const Instance& instance, const std::vector<std::string>& ids) {
  std::vector<Piece> pieces;
  for (const auto& id : ids) {
    pieces.push_back(
        *std::find_if(instance.pieces.begin(), instance.pieces.end(), [&](const Piece& p) { return p.id == id; }));
  }
  return pieces;
}

/// Pieces in the order of assembly, drawn without a look at their dimensions; empty when a kind is lacking.
std::vector<std::string> drawn_stack(const Instance& instance, Draw& draw) {
  std::map<PieceKind, std::vector<std::string>> left;
  for (const auto& piece : instance.pieces) left[piece.kind].push_back(piece.id);
  std::vector<std::string> ids;
  bool complete = true;
  const auto take = [&](PieceKind kind) {
    auto& from = left[kind];
    complete = complete && !from.empty();
    if (from.empty()) return;
    const auto at = from.begin() + between(draw, 0, static_cast<int>(from.size()) - 1);
    ids.push_back(*at);
    from.erase(at);
  };
  using enum PieceKind;
  const bool hubbed = instance.part.kind == PartKind::hubbed;
  for (const auto kind : hubbed ? std::vector{taper, taper} : std::vector{clamp, spring, cone, clamp}) take(kind);
  for (int more = between(draw, 0, static_cast<int>(left[spacer].size())); more > 0; --more) take(spacer);
  const auto fillers = ids.begin() + (hubbed ? 2 : 4);
  if (complete) std::sort(fillers, ids.end());
  take(nut);
  return complete ? ids : std::vector<std::string>{};
}

TEST(Mount, AStackPutTogetherByHandIsTakenWhenItIsOneOfAllThatThereAre) {
  int taken = 0, refused = 0;
  for (std::uint64_t seed = 1; seed <= 2000; ++seed) {
    const Instance instance = random_instance(seed);
    const auto all = BruteForce(instance).best(100'000);
    Draw draw(seed + 1'000'000);
    for (int round = 0; round < 5; ++round) {
      const bool known = round == 0 && !all.empty();
      const auto ids = known ? all[static_cast<std::size_t>(between(draw, 0, static_cast<int>(all.size()) - 1))]
                             : drawn_stack(instance, draw);
      if (ids.empty()) continue;
      const auto own = check_stack(instance.arbor, instance.part, pieces_of(instance, ids));
      const bool fits = std::find(all.begin(), all.end(), ids) != all.end();
      ASSERT_EQ(own.stack.has_value(), fits) << "seed " << seed;
      ASSERT_EQ(own.broken.empty(), fits) << "seed " << seed;
      (fits ? taken : refused) += 1;
    }
  }
  EXPECT_GT(taken, 300);
  EXPECT_GT(refused, 500);
}

TEST(Mount, EveryStackThatIsFoundPassesByHandWithTheSameFiguresAndReasons) {
  int seen = 0;
  for (std::uint64_t seed = 1; seed <= 500; ++seed) {
    const Instance instance = random_instance(seed);
    for (const auto& stack : find_stacks(instance.arbor, instance.part, instance.pieces, 5).stacks) {
      const auto own = check_stack(instance.arbor, instance.part, pieces_of(instance, stack.pieces));
      ASSERT_TRUE(own.stack) << "seed " << seed;
      EXPECT_EQ(own.stack->length_mm, stack.length_mm);
      EXPECT_EQ(own.stack->q, stack.q);
      EXPECT_EQ(own.stack->why, stack.why);
      ++seen;
    }
  }
  EXPECT_GT(seen, 200);
}

Instance shop_example() {
  Instance made;
  made.arbor = {.diameter_mm = 25, .thread_start_mm = 90, .tip_mm = 140, .nut_engagement_mm = 15};
  made.part = {.kind = PartKind::hubless, .bore_mm = 60, .flange_mm = 7, .flat_inner_mm = 80, .flat_outer_mm = 140};
  made.pieces = {
      {.id = "clamp-a",
       .kind = PieceKind::clamp,
       .bore_mm = 25,
       .length_mm = 35,
       .ring_inner_mm = 100,
       .ring_outer_mm = 130,
       .cup_depth_mm = 30,
       .cup_bore_mm = 75},
      {.id = "clamp-b",
       .kind = PieceKind::clamp,
       .bore_mm = 25,
       .length_mm = 35,
       .ring_inner_mm = 100,
       .ring_outer_mm = 130,
       .cup_depth_mm = 30,
       .cup_bore_mm = 75},
      {.id = "cone", .kind = PieceKind::cone, .bore_mm = 25, .length_mm = 20, .small_mm = 55, .large_mm = 65},
      {.id = "spring", .kind = PieceKind::spring, .bore_mm = 25, .solid_mm = 10, .free_mm = 35},
      {.id = "spacer", .kind = PieceKind::spacer, .bore_mm = 25, .length_mm = 20},
      {.id = "soft", .kind = PieceKind::spacer, .bore_mm = 25, .length_mm = 20, .damping = true},
      {.id = "nut", .kind = PieceKind::nut, .bore_mm = 25, .length_mm = 20},
  };
  return made;
}

TEST(Mount, AStackIsListedFromTheShoulderOutward) {
  const auto instance = shop_example();
  const auto answer = find_stacks(instance.arbor, instance.part, instance.pieces, 1);
  ASSERT_EQ(answer.stacks.size(), 1U);
  const auto& stack = answer.stacks.front();
  EXPECT_EQ(stack.pieces, (std::vector<std::string>{"clamp-a", "spring", "cone", "clamp-b", "soft", "nut"}));
  EXPECT_DOUBLE_EQ(stack.length_mm, 35 + 7 + 35 + 20);
  EXPECT_DOUBLE_EQ(stack.q.at(0), 0.5);
  EXPECT_EQ(stack.why.size(), stack.pieces.size());
}

TEST(Mount, WithoutAFittingConeTheAnswerSaysByHowMuchTheNearestMisses) {
  auto instance = shop_example();
  instance.part.bore_mm = 63;  // the cone takes 57.5 to 62.5
  const auto answer = find_stacks(instance.arbor, instance.part, instance.pieces, 3);
  ASSERT_TRUE(answer.stacks.empty());
  EXPECT_EQ(answer.nearest.at(0).rule, "cone");
  EXPECT_DOUBLE_EQ(answer.nearest.at(0).miss_mm, 0.5);
}

TEST(Mount, AStackThatEndsShortOfTheThreadNamesTheMissingLength) {
  auto instance = shop_example();
  instance.arbor = {.diameter_mm = 25, .thread_start_mm = 130, .tip_mm = 180, .nut_engagement_mm = 15};
  const auto answer = find_stacks(instance.arbor, instance.part, instance.pieces, 3);
  ASSERT_TRUE(answer.stacks.empty());
  EXPECT_EQ(answer.nearest.at(0).rule, "length");
  EXPECT_NEAR(answer.nearest.at(0).miss_mm, 130 - (35 + 7 + 35 + 20 + 20), 1e-3);
}

TEST(Mount, AnEmptyPegboardIsToldWhatItNeeds) {
  auto instance = shop_example();
  instance.pieces.clear();
  const auto answer = find_stacks(instance.arbor, instance.part, instance.pieces, 3);
  EXPECT_EQ(answer.nearest.size(), 4U);
  EXPECT_EQ(answer.nearest.at(0).rule, "no_clamp");
}

TEST(Mount, APieceOfAnotherArborStaysOnItsHook) {
  auto instance = shop_example();
  instance.pieces.back().bore_mm = 28;
  const auto answer = find_stacks(instance.arbor, instance.part, instance.pieces, 3);
  ASSERT_TRUE(answer.stacks.empty());
  EXPECT_EQ(answer.nearest.at(0).rule, "no_nut");
}

TEST(Mount, WhatAStackByHandBreaksIsNamedWithItsSize) {
  auto instance = shop_example();
  const auto broken = [&](const std::vector<std::string>& ids) {
    std::vector<std::string> rules;
    for (const auto& miss : check_stack(instance.arbor, instance.part, pieces_of(instance, ids)).broken) {
      rules.push_back(miss.rule);
    }
    return rules;
  };
  using Rules = std::vector<std::string>;
  EXPECT_EQ(broken({"clamp-b", "spring", "cone", "clamp-a", "soft", "nut"}), Rules{});
  EXPECT_EQ(broken({"clamp-a", "spring", "cone", "clamp-b", "soft", "spacer", "nut"}), Rules{});
  EXPECT_EQ(broken({"clamp-a", "spring", "cone", "clamp-b", "spacer", "soft", "nut"}), Rules{});
  EXPECT_EQ(broken({"clamp-a", "spring", "cone", "clamp-b", "nut"}), Rules{"length"});
  EXPECT_EQ(broken({"clamp-a", "cone", "spring", "clamp-b", "soft", "nut"}), Rules{"order"});
  EXPECT_EQ(broken({"clamp-a", "spring", "cone", "clamp-b", "soft"}), Rules{"order"});
  EXPECT_EQ(broken({}), Rules{"order"});
  instance.part.bore_mm = 63;
  instance.pieces.back().bore_mm = 28;
  EXPECT_EQ(broken({"clamp-a", "spring", "cone", "clamp-b", "soft", "nut"}), (Rules{"bore", "cone"}));
}

TEST(Mount, NonsenseIsRefusedByTheNameOfItsField) {
  const auto refused = [](auto spoil) {
    auto instance = shop_example();
    spoil(instance);
    try {
      find_stacks(instance.arbor, instance.part, instance.pieces, 3);
    } catch (const InputError& error) {
      return error.field();
    }
    return std::string("accepted");
  };
  EXPECT_EQ(refused([](Instance& i) { i.arbor.tip_mm = 50; }), "arbor.tip_mm");
  EXPECT_EQ(refused([](Instance& i) { i.pieces[1].id = "clamp-a"; }), "pieces[1].id");
  EXPECT_EQ(refused([](Instance& i) { std::swap(i.pieces[2].small_mm, i.pieces[2].large_mm); }), "pieces[2].large_mm");
  EXPECT_EQ(refused([](Instance& i) { i.pieces[3].free_mm = 5; }), "pieces[3].free_mm");
  EXPECT_EQ(refused([](Instance& i) { i.part.bore_mm = std::nan(""); }), "part.bore_mm");
  EXPECT_EQ(refused([](Instance& i) { i.pieces[4].length_mm = -1; }), "pieces[4].length_mm");
}

}  // namespace
}  // namespace brakewright::mount
