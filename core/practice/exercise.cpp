#include "core/practice/exercise.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/practice/truth.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright::practice {
namespace {

using mount::Piece;
using mount::PieceKind;

/// An invented arbor; the stack reaches from 84 to 132 mm.
constexpr mount::Arbor kArbor{.diameter_mm = 24, .thread_start_mm = 84, .tip_mm = 150, .nut_engagement_mm = 18};

Piece cone_of(double small_mm, double large_mm) {
  return {.id = "", .kind = PieceKind::cone, .length_mm = 24, .small_mm = small_mm, .large_mm = large_mm};
}

Piece clamp_of(double ring_inner_mm, double ring_outer_mm, double cup_depth_mm) {
  return {.id = "",
          .kind = PieceKind::clamp,
          .length_mm = 32,
          .ring_inner_mm = ring_inner_mm,
          .ring_outer_mm = ring_outer_mm,
          .cup_depth_mm = cup_depth_mm,
          .cup_bore_mm = cup_depth_mm > 0 ? ring_inner_mm - 0.5 : 0};
}

Piece spring_of(double solid_mm, double free_mm) {
  return {.id = "", .kind = PieceKind::spring, .length_mm = free_mm, .solid_mm = solid_mm, .free_mm = free_mm};
}

Piece spacer_of(double length_mm, bool damping, bool weighted) {
  return {.id = "", .kind = PieceKind::spacer, .length_mm = length_mm, .weighted = weighted, .damping = damping};
}

Piece taper_of(double small_mm, double large_mm) {
  return {.id = "", .kind = PieceKind::taper, .length_mm = 24, .small_mm = small_mm, .large_mm = large_mm};
}

Piece nut() { return {.id = "", .kind = PieceKind::nut, .length_mm = 22}; }

/// Two stacks that fit, with two clamps to choose from at the shoulder, and pieces that nearly fit.
std::vector<Piece> pieces_for_hat(const mount::PartSeat& seat, bool tempting_cone) {
  const double bore = seat.bore_mm, inner = bore + 9, outer = seat.flat_outer_mm;
  return {cone_of(bore - 6, bore + 6),
          cone_of(bore - 4, bore + 6),
          cone_of(bore - 1.5, bore + 6.5),
          tempting_cone ? cone_of(bore - 8.5, bore + 2) : cone_of(bore - 18, bore - 8),
          spring_of(8, 24),
          spring_of(19, 30),
          clamp_of(inner, outer - 2, 28),
          clamp_of(inner, outer - 2, 28),
          clamp_of(inner, outer - 2, 0),
          clamp_of(inner, outer + 6, 28),
          clamp_of(inner, outer + 3, 0),
          spacer_of(18, true, false),
          spacer_of(20, false, false),
          spacer_of(30, false, true),
          nut(),
          nut()};
}

/// Tapers for both races, two alike to choose from at the shoulder; one that stands on the hub's bore instead of in the
/// inner race, where it tempts with its very tip in it; one that goes through the outer race; and what is for parts
/// with a hat.
std::vector<Piece> pieces_for_hub(const mount::PartSeat& seat, bool tempting_taper) {
  const double inner = seat.inner_race_mm, outer = seat.outer_race_mm;
  return {taper_of(inner - 6, inner + 6),
          taper_of(inner - 6, inner + 6),
          taper_of(inner - 4, inner + 6),
          tempting_taper ? taper_of(inner - 1.5, inner + 8.5) : taper_of(inner + 2, inner + 12),
          taper_of(outer - 6, outer + 6),
          taper_of(outer - 4, outer + 6),
          taper_of(outer - 12, outer - 2),
          cone_of(inner + 4, inner + 16),
          spring_of(8, 24),
          clamp_of(inner + 15, inner + 42, 28),
          clamp_of(inner + 15, inner + 42, 0),
          spacer_of(18, true, false),
          spacer_of(20, false, false),
          spacer_of(30, false, true),
          nut(),
          nut()};
}

std::vector<Piece> pegboard_of(const mount::PartSeat& seat, bool tempting_cone, Random& random) {
  const bool hubbed = seat.kind == mount::PartKind::hubbed;
  std::vector<Piece> pieces = hubbed ? pieces_for_hub(seat, tempting_cone) : pieces_for_hat(seat, tempting_cone);
  for (std::size_t i = pieces.size() - 1; i > 0; --i) std::swap(pieces[i], pieces[random.below(i + 1)]);
  std::stable_sort(pieces.begin(), pieces.end(), [](const Piece& a, const Piece& b) { return a.kind < b.kind; });
  int number = 0;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    number = i > 0 && pieces[i].kind == pieces[i - 1].kind ? number + 1 : 1;
    pieces[i].id = std::string(word_of(pieces[i].kind)) + "_" + std::to_string(number);
    pieces[i].bore_mm = kArbor.diameter_mm;
    pieces[i].runout_um = static_cast<double>(2 + random.below(10));
  }
  return pieces;
}

}  // namespace

const char* word_of(PieceKind kind) {
  switch (kind) {
    case PieceKind::cone:
      return "cone";
    case PieceKind::spring:
      return "spring";
    case PieceKind::clamp:
      return "clamp";
    case PieceKind::taper:
      return "taper";
    case PieceKind::spacer:
      return "spacer";
    case PieceKind::nut:
      return "nut";
  }
  return "piece";
}

Bench bench_of(const Exercise& exercise) {
  const Truth truth = truth_of(exercise);
  Bench bench;
  bench.make = truth.make;
  bench.start_radius_mm = truth.make.inner_radius_mm - 1.5;
  Random pegboard(exercise.seed, stream_of(Draw::pegboard));
  bench.pieces = pegboard_of(truth.make.shape.seat, truth.has(Fault::wrong_cone), pegboard);
  bench.instruments = {
      {.id = "micrometer_fine", .kind = "micrometer", .resolution_mm = 0.001, .u_mm = 0.0015},
      {.id = "micrometer_point", .kind = "point_micrometer", .resolution_mm = 0.001, .u_mm = 0.0025},
      {.id = "caliper_coarse", .kind = "caliper", .resolution_mm = 0.01, .u_mm = 0.02},
  };
  Random lathe(exercise.seed, stream_of(Draw::lathe));
  bench.lathe = {.arbor = kArbor,
                 .speeds_rpm = {100, 150, 200},
                 .feeds_mm_per_rev = {0.05, 0.1, 0.2, 0.4},
                 .dial_um_per_mark = lathe.uniform() < 0.5 ? 25.4 : 20,
                 .nose_radius_mm = truth.nose_radius_mm,
                 .max_speed_m_per_min = 170};
  if (bench.hubbed()) {
    bench.stud_positions_deg = {0};
    return bench;
  }
  for (int k = 0; k < 5; ++k) bench.stud_positions_deg.push_back(72.0 * k);
  Random hub(exercise.seed, stream_of(Draw::hub));
  bench.hub_runout_um = std::round(5 + 25 * hub.uniform());
  bench.hub_high_deg = std::floor(360 * hub.uniform());
  return bench;
}

}  // namespace brakewright::practice
