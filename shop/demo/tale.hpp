#pragma once

#include <optional>
#include <string>

#include "shop/demo/bench.hpp"

namespace brakewright::shop::demo {

/// What was wrong with a pair of rotors.
enum class Trouble { pulsing, scored, worn_out, thin, sound, cracked };

/// What is read on the car of a pair of rotors, and what turns out.
enum class OnCar {
  not_read,
  two_positions,  ///< hub and rotor share the runout
  hub_and_one,    ///< the bare flange, and the rotor as marked
  tilted_hub      ///< the rotor is left as it is; a tapered plate goes behind it
};

/// How far a job has come.
enum class Until {
  arrived,
  looked_over,
  half_measured,
  measured,
  decided,  ///< to be cut
  proven,   ///< the first part is on the arbor
  between_passes,
  half_finished,  ///< cut, the second part not yet washed
  cut,
  remeasured,  ///< what was read on the car is not back on it yet
  sealed
};

/// One invented job.
struct Tale {
  Trouble trouble = Trouble::pulsing;
  Complaint complaint = Complaint::pulsation;
  std::size_t kind = 0;   ///< of School::kinds
  std::size_t gauge = 0;  ///< of School::fine; past its end the coarse one
  std::int64_t points = 8;
  bool two_circles = false;
  OnCar on_car = OnCar::not_read;
  bool one_part = false;
  bool limits_known = true;
  bool overruled = false;
  bool mistyped = false;
  bool taken_back = false;
  bool pitted = false;
  bool cheeks = false;                    ///< read from face to vent too, before and after
  bool misread = false;                   ///< one mark of the outboard dial, on the first part
  std::string mishap = {};                ///< said at the lathe, with the first part
  std::optional<std::size_t> lathe = {};  ///< of School::lathes; any when left out
  Until until = Until::sealed;
  std::string amendment = {};
};

/// Lives one job through, from the counter to where its tale ends. @return its id
Uuid live(const Tale& tale, Shop& shop, Clock& clock, Random& random, const School& school);

}  // namespace brakewright::shop::demo
