#include "shop/road_advice.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/input_error.hpp"
#include "core/thickness/figures.hpp"
#include "shop/road_wear.hpp"
#include "shop/thickness_left.hpp"

namespace brakewright::shop {
namespace {

constexpr double kUsualSpeed_km_per_h = 100, kUsualDeceleration_m_s2 = 6, kUsualInterval_s = 60;
constexpr std::int64_t kUsualStops = 10;
constexpr double kUsualFrontShare = 0.7, kUsualRearShare = 0.3;

/// The stop that is asked about; what is not, with a usual figure that is said.
RoadStop stop_of(const JobFile& file, const RoadWish& wish, std::vector<RoadAssumed>& assumed) {
  const auto take = [&](const auto& given, auto usual, const char* field, const char* unit, const char* basis) {
    if (given) return *given;
    assumed.push_back({.field = field, .value = static_cast<double>(usual), .unit = unit, .basis = basis});
    return usual;
  };
  RoadStop stop;
  stop.speed_km_per_h = take(wish.speed_km_per_h, kUsualSpeed_km_per_h, "speed_km_per_h", "km/h",
                             "a stop to compare discs by: common practice, no source");
  stop.t_stop_s = take(wish.t_stop_s, stop.speed_km_per_h / 3.6 / kUsualDeceleration_m_s2, "t_stop_s", "s",
                       "a hard stop of 6 m/s2: common practice, no source");
  stop.stops = take(wish.stops, kUsualStops, "stops", "", "stops to compare discs by: common practice, no source");
  stop.interval_s = take(wish.interval_s, std::max(kUsualInterval_s, stop.t_stop_s), "interval_s", "s",
                         "a minute from stop to stop: common practice, no source");
  const bool front = file.job.axle == Axle::front;
  stop.axle_share = take(wish.axle_share, front ? kUsualFrontShare : kUsualRearShare, "axle_share", "",
                         "front brakes take about 0.6 to 0.8 of a car's energy, rear ones the rest: from memory, no "
                         "source read");
  return stop;
}

/// A disc's ring without its thickness, and the vehicle in the stop.
struct Ring {
  heat::HeatInput input;
  double area_m2 = 0;
  bool vented = false;
  double cheek_mm = 0, cheek_at_mm = 0;  ///< a cheek, and the thickness of the disc that has it
};

/// The depth of heating goes with the thickness: what a vented disc loses, its cheeks lose by halves.
std::optional<double> cheek_at(const Ring& ring, double thickness_mm) {
  if (!ring.vented) return std::nullopt;
  return ring.cheek_mm - (ring.cheek_at_mm - thickness_mm) / 2;
}

std::optional<RoadDisc> disc_of(const Ring& ring, const ThicknessLeft& left, RoadPart& part) {
  heat::HeatInput input = ring.input;
  heat::Disc& disc = input.vehicle->disc;
  disc.thickness_mm = left.mean_mm;
  disc.cheek_thickness_mm = cheek_at(ring, left.mean_mm);
  RoadDisc made{.thickness_mm = left.mean_mm, .u_thickness_mm = left.u_mm, .basis = left.basis};
  const double iron_mm = disc.cheek_thickness_mm ? 2 * *disc.cheek_thickness_mm : disc.thickness_mm;
  made.mass_kg = heat::kGreyIron.rho_kg_m3 * ring.area_m2 * iron_mm / 1000;
  try {
    heat::Heat found = heat::heat_of_stop(input);
    made.energy_j = found.energy_j;
    made.stop = std::move(found.stop);
    made.repeats = std::move(*found.repeats);
    for (const Advice& advice : found.advice) {
      const bool known = std::any_of(part.advice.begin(), part.advice.end(),
                                     [&](const Advice& said) { return said.code == advice.code; });
      if (!known) part.advice.push_back(advice);
    }
  } catch (const InputError& refusal) {
    part.advice.push_back({"not_worked_out", "A disc of " + mm_text(left.mean_mm) + " mm (" + left.basis +
                                                 ") cannot be counted with: " + refusal.field() + " " + refusal.what() +
                                                 "."});
    return std::nullopt;
  }
  return made;
}

/// The ring of a part in the stop; nothing, and what is missing said, where it cannot be counted with.
std::optional<Ring> ring_of(const JobFile& file, const Part& part, const RoadStop& stop, const RoadWish& wish,
                            const std::optional<ThicknessLeft>& before, std::vector<std::string>& missing) {
  const bool mass = file.job.vehicle_mass_kg && *file.job.vehicle_mass_kg > 0;
  if (!part.outer_diameter) missing.push_back("part.outer_diameter");
  if (!part.seat.ring_inner) missing.push_back("part.seat.ring_inner");
  if (!before) missing.push_back("readings.thickness");
  auto cheek = part.vented ? cheek_of(file, part.id) : std::nullopt;
  if (!cheek) cheek = wish.cheek_thickness_mm;
  if (part.vented && !cheek) missing.push_back("readings.cheek_outboard");
  if (!mass || !part.outer_diameter || !part.seat.ring_inner || !before || (part.vented && !cheek)) return std::nullopt;
  Ring ring{.input = {}, .vented = part.vented};
  const double outer_mm = part.outer_diameter->value.mm() / 2, inner_mm = part.seat.ring_inner->value.mm() / 2;
  ring.area_m2 = std::numbers::pi * (outer_mm * outer_mm - inner_mm * inner_mm) * 1e-6;
  ring.cheek_mm = cheek.value_or(0);
  ring.cheek_at_mm = before->mean_mm;
  ring.input.t_stop_s = stop.t_stop_s;
  ring.input.vented = part.vented;
  ring.input.vehicle = heat::Vehicle{.mass_kg = *file.job.vehicle_mass_kg,
                                     .speed_km_per_h = stop.speed_km_per_h,
                                     .disc_share = stop.axle_share / 2,
                                     .disc = {.outer_radius_mm = outer_mm, .inner_radius_mm = inner_mm}};
  ring.input.repeats = heat::Repeats{.stops = static_cast<int>(stop.stops), .interval_s = stop.interval_s};
  return ring;
}

void put_heat(const JobFile& file, const Part& part, const RoadStop& stop, const RoadWish& wish, const Left& left,
              RoadPart& made) {
  const auto ring = ring_of(file, part, stop, wish, left.before, made.missing);
  if (!ring) return;
  const auto limit = [](const std::optional<Limit>& of, const char* basis) -> std::optional<ThicknessLeft> {
    if (!of) return std::nullopt;
    return ThicknessLeft{.mean_mm = of->value.value.mm(), .min_mm = of->value.value.mm(), .basis = basis};
  };
  const auto disc = [&](const std::optional<ThicknessLeft>& of) {
    return of ? disc_of(*ring, *of, made) : std::nullopt;
  };
  made.before = disc(left.before);
  made.after = disc(left.after);
  made.at_discard = disc(limit(part.limits.discard, "discard thickness"));
  made.as_new = disc(limit(part.limits.nominal, "nominal thickness"));
}

std::vector<pulsation::SpeedRow> felt_at(const Tyre& tyre, const std::optional<double>& asked_km_per_h) {
  std::vector<double> speeds{30, 50, 70, 90, 110, 130};
  if (asked_km_per_h && *asked_km_per_h >= 1 && *asked_km_per_h <= 300) speeds.push_back(*asked_km_per_h);
  std::sort(speeds.begin(), speeds.end());
  speeds.erase(std::unique(speeds.begin(), speeds.end()), speeds.end());
  return pulsation::find_pulsation({.rolling = rolling_of(tyre),
                                    .observations = {{.speed_km_per_h = speeds.back()}},
                                    .corners = {},
                                    .speeds_km_per_h = speeds})
      .table;
}

}  // namespace

std::optional<RoadWheel> wheel_of(const Job& job, std::vector<Advice>& advice) {
  if (!job.tyre || job.tyre->find_first_not_of(' ') == std::string::npos) return std::nullopt;
  try {
    return RoadWheel{.size = *job.tyre, .tyre = read_tyre(*job.tyre)};
  } catch (const InputError& refusal) {
    advice.push_back(
        {"not_a_tyre", "The tyre on record cannot be read as a size: " + std::string(refusal.what()) + "."});
    return std::nullopt;
  }
}

pulsation::Rolling rolling_of(const Tyre& tyre) {
  return {.mm = tyre.rolling_mm, .low_mm = tyre.rolling_low_mm, .high_mm = tyre.rolling_high_mm};
}

RoadAdvice advise_road(const JobFile& file, const std::vector<TaperPlate>& plates, const RoadWish& wish,
                       const AssessContext& context) {
  RoadAdvice road{.job_id = file.job.id};
  road.stop = stop_of(file, wish, road.assumed);
  const bool discs =
      std::any_of(file.parts.begin(), file.parts.end(), [](const Part& part) { return !is_drum(part.kind); });
  const bool mass = file.job.vehicle_mass_kg && *file.job.vehicle_mass_kg > 0;
  if (discs && !mass) road.missing.push_back("job.vehicle_mass_kg");
  for (const Part& part : file.parts) {
    RoadPart made{.part_id = part.id};
    if (is_drum(part.kind)) {
      made.advice.push_back({"drum",
                             "A drum takes its heat through one side of its band: what is counted here holds for discs "
                             "alone. A drum that was turned is thinner and runs hotter."});
      road.parts.push_back(std::move(made));
      continue;
    }
    const Left left = thickness_left(file, part, context, made.advice);
    put_heat(file, part, road.stop, wish, left, made);
    put_wear(file, part, left, context, made);
    put_growth(file, part, plates, left, context, made);
    road.parts.push_back(std::move(made));
  }
  road.wheel = wheel_of(file.job, road.advice);
  if (road.wheel) {
    road.felt = felt_at(road.wheel->tyre, file.job.felt_speed_km_per_h);
  } else {
    road.missing.push_back("job.tyre");
  }
  return road;
}

}  // namespace brakewright::shop
