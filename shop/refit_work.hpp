#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "shop/times.hpp"
#include "shop/uuid.hpp"

/// How a part goes back on its hub. Never changed; a later entry stands beside the earlier ones.
namespace brakewright::shop {

struct Refit {
  Uuid id = {};
  Uuid job_id = {};
  Uuid part_id = {};
  std::int64_t studs = 5;
  std::int64_t position = 0;          ///< by how many studs the part is turned from its index mark, as it was read
  std::optional<Uuid> plate_id = {};  ///< tapered plate between hub and part
  std::optional<std::int64_t> plate_position = {};  ///< stud at which its thickest place lies
  std::optional<double> foreseen_runout_um = {};    ///< peak to valley, at the indicator's circle
  std::optional<double> p_within = {};              ///< chance that it is within the runout limit
  std::optional<double> nut_torque_nm = {};
  std::string torque_source = {};  ///< where the vehicle's own figure was read
  std::string reason = {};         ///< needed when another position than the computed one was chosen
  Uuid by_person_id = {};
  UtcTime at = {};

  friend bool operator==(const Refit&, const Refit&) = default;
};

}  // namespace brakewright::shop
