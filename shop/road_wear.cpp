#include "shop/road_wear.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/thickness/figures.hpp"
#include "core/uncertainty/random.hpp"
#include "core/verdict/wear.hpp"
#include "shop/car_traces.hpp"
#include "shop/progress.hpp"
#include "shop/refit_advice.hpp"

namespace brakewright::shop {
namespace {

constexpr double kUnit_km = 10'000;
constexpr double kMile_km = 1.609344;
constexpr double kLeastDistance_km = 1000;
/// Of a thickness when new about its nominal one, mm. Common practice, no source.
constexpr double kNominalU_mm = 0.1;
constexpr double kUsualSpread = 0.3;

WearRoom room_of(const Uuid& part_id, const ThicknessLeft& left, double discard_mm, const WearRate& rate) {
  return wear_room(left.min_mm - discard_mm, left.u_mm.value_or(0), rate, seed_of(part_id));
}

/// What this part has lost since it was new, over what the vehicle has run.
std::optional<RoadWear> own_rate(const JobFile& file, const Part& part, const Left& left) {
  if (!file.job.odometer || !part.limits.nominal || !left.before) return std::nullopt;
  const double run_km =
      static_cast<double>(*file.job.odometer) * (file.job.odometer_unit == DistanceUnit::mi ? kMile_km : 1);
  const double lost_mm = part.limits.nominal->value.value.mm() - left.before->mean_mm;
  if (run_km < kLeastDistance_km || lost_mm <= kNominalU_mm) return std::nullopt;
  RoadWear wear;
  wear.rate.mm_per_unit = lost_mm / run_km * kUnit_km;
  wear.rate.relative_u = std::hypot(kUsualSpread, std::hypot(kNominalU_mm, left.before->u_mm.value_or(0)) / lost_mm);
  wear.source = "this part's own: " + mm_text(std::round(lost_mm * 100) / 100) + " mm less than nominal in " +
                um_text(std::round(run_km)) +
                " km, if it is the vehicle's first and was never cut; 30 % spread from one driver to the next: common "
                "practice, no source";
  return wear;
}

}  // namespace

void put_wear(const JobFile& file, const Part& part, const Left& left, const AssessContext& context, RoadPart& made) {
  std::vector<RoadWear> rates;
  const auto& shop_rate = context.settings.wear_mm_per_10000_km;
  if (shop_rate && *shop_rate > 0) {
    RoadWear wear{.rate = {.mm_per_unit = *shop_rate}};
    wear.source = "the shop's own rate, as set; 30 % spread from one driver to the next: common practice, no source";
    rates.push_back(std::move(wear));
  } else {
    made.missing.push_back("settings.wear_mm_per_10000_km");
  }
  if (auto own = own_rate(file, part, left)) rates.push_back(std::move(*own));
  if (!part.limits.discard) made.missing.push_back("part.limits.discard");
  if (!part.limits.discard || !left.before) return;
  const double discard_mm = part.limits.discard->value.value.mm();
  for (RoadWear& wear : rates) {
    wear.uncut = room_of(part.id, *left.before, discard_mm, wear.rate);
    if (left.after) wear.cut = room_of(part.id, *left.after, discard_mm, wear.rate);
    made.wear.push_back(std::move(wear));
  }
}

namespace {

/// Runout that stays in, and whose it is: as read once back on the car, as foreseen when it went back, as it came.
std::optional<std::pair<double, std::string>> runout_left(const JobFile& file, const Part& part,
                                                          const std::vector<TaperPlate>& plates,
                                                          const AssessContext& context) {
  if (const auto traces = car_traces_of(file, part, context); traces.fitted) {
    return std::pair(traces.fitted->runout_um, "as read back on the car as it was fitted");
  }
  const Refit* fitted = refit_in_force(file, part.id);
  if (fitted != nullptr && fitted->foreseen_runout_um) {
    return std::pair(*fitted->foreseen_runout_um, "as foreseen when it was fitted");
  }
  const RefitAdvice known = advise_refit(file, part, plates, context);
  if (fitted != nullptr && known.refit) {
    for (const RefitFitting& fitting : known.refit->all) {
      const bool there = fitting.position == fitted->position && fitting.plate_id == fitted->plate_id &&
                         fitting.plate_position == fitted->plate_position;
      if (there) return std::pair(fitting.runout_um, "as foreseen where it was fitted");
    }
    return std::nullopt;
  }
  if (known.refit) return std::pair(known.refit->best.runout_um, "as foreseen in the best position");
  for (const CarTrace& trace : known.traces) {
    if (trace.turned) return std::pair(trace.runout_um, "as read on the car");
  }
  return std::nullopt;
}

}  // namespace

void put_growth(const JobFile& file, const Part& part, const std::vector<TaperPlate>& plates, const Left& left,
                const AssessContext& context, RoadPart& made) {
  if (!part.limits.runout) made.missing.push_back("part.limits.runout");
  if (!part.limits.variation) made.missing.push_back("part.limits.variation");
  const auto& now = left.after ? left.after : left.before;
  const bool read = now && now->variation_um;
  if (left.after && !read) made.missing.push_back("readings.thickness_after");
  const auto runout = runout_left(file, part, plates, context);
  if (!runout) made.missing.push_back("readings.runout_outboard");
  if (!runout || !part.limits.runout || !part.limits.variation || !read) return;
  made.growth = pulsation::growth_of({.runout_um = runout->first,
                                      .runout_limit_um = part.limits.runout->value.value.um(),
                                      .variation_um = *now->variation_um,
                                      .variation_limit_um = part.limits.variation->value.value.um()});
  made.growth_basis = runout->second;
}

}  // namespace brakewright::shop
