#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/heat/heat.hpp"
#include "core/pulsation/pulsation.hpp"
#include "core/verdict/verdict.hpp"
#include "shop/assess.hpp"

/// What a cut changes on the road: where records become input of core/heat and core/pulsation.
namespace brakewright::shop {

/// The stop that somebody asks about. What is left out is a usual figure, and stands in `RoadAdvice::assumed`.
struct RoadWish {
  std::optional<double> speed_km_per_h = {};
  std::optional<double> t_stop_s = {};
  std::optional<std::int64_t> stops = {};
  std::optional<double> interval_s = {};
  std::optional<double> axle_share = {};          ///< of the vehicle's energy that the brakes of this axle take
  std::optional<double> cheek_thickness_mm = {};  ///< of a vented disc before the cut, where it was not read
};

/// A figure that nobody gave and that was counted with.
struct RoadAssumed {
  std::string field = {};  ///< of RoadWish
  double value = 0;
  std::string unit = {};
  std::string basis = {};
};

/// The stop that all discs are held against.
struct RoadStop {
  double speed_km_per_h = 0;
  double t_stop_s = 0;
  std::int64_t stops = 0;
  double interval_s = 0;
  double axle_share = 0;
};

/// A disc of one thickness in that stop.
struct RoadDisc {
  double thickness_mm = 0;
  std::optional<double> u_thickness_mm = {};  ///< where it was read
  std::string basis = {};
  double mass_kg = 0;  ///< of the iron that is counted with: the ring, or both cheeks
  double energy_j = 0;
  heat::OneStop stop = {};
  heat::RepeatedStops repeats = {};
};

/// How long to discard at one wear rate.
struct RoadWear {
  WearRate rate = {};  ///< per 10 000 km
  std::string source = {};
  std::optional<WearRoom> uncut = {};
  std::optional<WearRoom> cut = {};
};

struct RoadPart {
  Uuid part_id = {};
  std::vector<std::string> missing = {};
  std::optional<RoadDisc> before = {};
  std::optional<RoadDisc> after = {};  ///< as read after the cut, else as planned
  std::optional<RoadDisc> at_discard = {};
  std::optional<RoadDisc> as_new = {};
  std::vector<RoadWear> wear = {};  ///< at the shop's own rate and at the part's own, as far as they are known
  std::optional<pulsation::Growth> growth = {};
  std::string growth_basis = {};
  std::vector<Advice> advice = {};
};

/// How far one turn of the wheel goes.
struct RoadWheel {
  std::string size = {};
  Tyre tyre = {};
};

struct RoadAdvice {
  Uuid job_id = {};
  std::vector<std::string> missing = {};  ///< "job.vehicle_mass_kg", "job.tyre"
  std::vector<RoadAssumed> assumed = {};
  RoadStop stop = {};
  std::vector<RoadPart> parts = {};  ///< in the order of the file's
  std::optional<RoadWheel> wheel = {};
  std::vector<pulsation::SpeedRow> felt = {};  ///< by speed, then by order; empty without a tyre
  std::vector<Advice> advice = {};
};

/// One stop and several from the vehicle's mass, before and after the cut beside a disc at its discard and at its
/// nominal thickness; how long to discard; how runout left in grows; what a wheel order beats at each speed. Ranges
/// with their sources, nothing a promise. A figure that is needed and not there leaves its answer absent and is named
/// in `missing`. Pure: the same file gives the same answer everywhere.
RoadAdvice advise_road(const JobFile& file, const std::vector<TaperPlate>& plates, const RoadWish& wish,
                       const AssessContext& context);

/// The tyre of a job; nothing where none is on record, or what is there cannot be read (then said in `advice`).
std::optional<RoadWheel> wheel_of(const Job& job, std::vector<Advice>& advice);

/// What one turn covers.
pulsation::Rolling rolling_of(const Tyre& tyre);

}  // namespace brakewright::shop
