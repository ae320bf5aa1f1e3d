#include "core/bench_sim/part/make.hpp"

#include <algorithm>
#include <string>

#include "core/bench_sim/part/streams.hpp"
#include "core/input_error.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright::bench_sim {
namespace {

/// Evenly from low to high in whole steps.
double stepped(Random& random, double low, double high, double step) {
  const auto steps = static_cast<std::uint64_t>((high - low) / step + 0.5);
  return low + step * static_cast<double>(random.below(steps + 1));
}

mount::PartSeat seat_of_seed(Random& random, double hat_radius_mm) {
  mount::PartSeat seat;
  seat.kind = mount::PartKind::hubless;
  seat.bore_mm = stepped(random, 54, 80, 0.5);
  seat.flange_mm = stepped(random, 6, 8, 0.5);
  seat.flat_inner_mm = seat.bore_mm + 6;
  seat.flat_outer_mm = 2 * (hat_radius_mm - 8);
  return seat;
}

void want_made(bool good, const char* field, const char* message) {
  if (!good) throw InputError("out_of_range", std::string("make.") + field, message);
}

void check_seat(const PartShape& shape) {
  const mount::PartSeat& seat = shape.seat;
  const auto within = [&](double diameter_mm) { return diameter_mm > 0 && diameter_mm <= 2 * shape.hat_radius_mm; };
  constexpr const char* kWithinHat = "must be more than 0 and within the hat";
  if (seat.kind == mount::PartKind::hubless) {
    want_made(within(seat.flat_outer_mm), "shape.seat.flat_outer_mm", kWithinHat);
    return;
  }
  want_made(within(seat.inner_race_mm), "shape.seat.inner_race_mm", kWithinHat);
  want_made(within(seat.outer_race_mm), "shape.seat.outer_race_mm", kWithinHat);
  want_made(seat.hub_length_mm >= 1 && seat.hub_length_mm <= 500, "shape.seat.hub_length_mm", "must be from 1 to 500");
}

}  // namespace

PartMake make_of_seed(std::uint64_t seed) {
  Random random(seed, stream_of(Purpose::make));
  PartMake make;
  make.outer_radius_mm = stepped(random, 120, 170, 1);
  make.inner_radius_mm = make.outer_radius_mm - stepped(random, 46, 58, 1);
  make.shape.hat_radius_mm = make.inner_radius_mm - 4;
  make.shape.hat_height_mm = stepped(random, 25, 60, 1);
  make.shape.band_inner_radius_mm = make.inner_radius_mm + stepped(random, 1, 3, 0.5);
  make.shape.band_outer_radius_mm = make.outer_radius_mm - stepped(random, 1.5, 3, 0.5);
  make.shape.seat = seat_of_seed(random, make.shape.hat_radius_mm);
  const bool vented = random.uniform() < 0.7;
  make.new_thickness_mm = vented ? stepped(random, 18, 30, 1) : stepped(random, 9, 12, 1);
  if (vented) make.shape.vent_mm = stepped(random, 6, 8, 0.5);
  make.shape.outboard_cheek_mm = (make.new_thickness_mm - make.shape.vent_mm) / 2;
  make.shape.inboard_cheek_mm = make.shape.outboard_cheek_mm;
  make.limits.discard_mm = make.new_thickness_mm - stepped(random, 2, 3, 0.5);
  make.limits.machine_to_mm = make.limits.discard_mm + 0.38;
  make.limits.variation_um = stepped(random, 10, 30, 5);
  make.limits.runout_um = stepped(random, 30, 130, 10);
  return make;
}

PartMake with_hub(PartMake make, std::uint64_t seed) {
  Random random(seed, stream_of(Purpose::hub));
  mount::PartSeat seat;
  seat.kind = mount::PartKind::hubbed;
  seat.hub_length_mm = stepped(random, 46, 56, 1);
  seat.inner_race_mm = stepped(random, 50, 62, 0.5);
  seat.outer_race_mm = stepped(random, 38, 46, 0.5);
  make.shape.seat = seat;
  return make;
}

void check(const PartMake& make) {
  const PartShape& shape = make.shape;
  want_made(make.outer_radius_mm <= 500, "outer_radius_mm", "must be at most 500");
  want_made(make.inner_radius_mm > 1 && make.inner_radius_mm < make.outer_radius_mm - 4, "inner_radius_mm",
            "must be more than 1, and more than 4 below the outer radius");
  want_made(make.new_thickness_mm >= 4 && make.new_thickness_mm <= 100, "new_thickness_mm", "must be from 4 to 100");
  want_made(shape.band_inner_radius_mm >= make.inner_radius_mm, "shape.band_inner_radius_mm", "must lie on the face");
  want_made(
      shape.band_outer_radius_mm > shape.band_inner_radius_mm && shape.band_outer_radius_mm <= make.outer_radius_mm,
      "shape.band_outer_radius_mm", "must lie on the face, beyond the band's inner radius");
  want_made(shape.hat_radius_mm > 0 && shape.hat_radius_mm <= make.inner_radius_mm, "shape.hat_radius_mm",
            "must be more than 0 and within the face's inner radius");
  want_made(shape.hat_height_mm >= 0 && shape.hat_height_mm <= 200, "shape.hat_height_mm", "must be from 0 to 200");
  want_made(shape.vent_mm >= 0 && shape.vent_mm <= make.new_thickness_mm - 3, "shape.vent_mm",
            "must be from 0 to 3 less than the new thickness");
  check_seat(shape);
  want_made(make.limits.discard_mm > 0 && make.limits.discard_mm <= make.new_thickness_mm, "limits.discard_mm",
            "must be more than 0 and at most the new thickness");
  want_made(make.limits.machine_to_mm >= make.limits.discard_mm && make.limits.machine_to_mm <= make.new_thickness_mm,
            "limits.machine_to_mm", "must be from the discard limit to the new thickness");
  want_made(make.limits.variation_um > 0 && make.limits.variation_um <= 1000, "limits.variation_um",
            "must be more than 0 and at most 1000");
  want_made(make.limits.runout_um > 0 && make.limits.runout_um <= 1000, "limits.runout_um",
            "must be more than 0 and at most 1000");
}

}  // namespace brakewright::bench_sim
