#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/pulsation/pulsation.hpp"
#include "shop/assess.hpp"
#include "shop/road_advice.hpp"

/// A complaint of pulsation against the readings: where records become input of core/pulsation.
namespace brakewright::shop {

/// One corner of the car against the complaint.
struct PulsationCorner {
  Uuid part_id = {};
  Uuid job_id = {};
  std::string name = {};  ///< "front left"; with the job's number where two parts share a corner
  Axle axle = Axle::front;
  Side side = Side::left;
  bool read = false;                       ///< its variation was read
  std::optional<double> probability = {};  ///< that it is this one, of those read and none of them
  std::optional<int> order = {};           ///< of its variation that counts most
  std::optional<double> amplitude_um = {};
  std::string why = {};
  std::optional<double> runout_um = {};  ///< on the car, as it came
};

struct PulsationAdvice {
  Uuid job_id = {};
  std::vector<std::string> missing = {};  ///< "job.tyre", "job.felt_speed_km_per_h", "job.felt_frequency_hz",
                                          ///< "job.felt_in", "readings.thickness"
  std::optional<FeltIn> felt_in = {};
  std::optional<double> felt_speed_km_per_h = {};
  std::optional<double> felt_frequency_hz = {};
  std::optional<double> u_frequency_hz = {};  ///< that was counted with
  std::optional<RoadWheel> wheel = {};
  std::vector<pulsation::OrderFit> orders = {};  ///< empty while tyre, speed or frequency is missing
  std::vector<PulsationCorner> corners = {};     ///< most probable first, then those not read
  double p_other_corner = 1;
  std::vector<pulsation::SpeedRow> table = {};
  std::vector<Advice> next = {};
  std::vector<Advice> advice = {};
};

/// The job's own complaint against all parts of its vehicle that are known.
/// @param beside  other jobs of the same vehicle; their complaints do not count
/// Speeds are taken as shown by the speedometer, a frequency as known to 5 %. What is missing leaves its answer out and
/// is named; corners are weighed all the same, by the orders as they are usually met. Pure.
PulsationAdvice advise_pulsation(const JobFile& file, const std::vector<JobFile>& beside, const AssessContext& context);

}  // namespace brakewright::shop
