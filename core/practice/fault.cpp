#include "core/practice/fault.hpp"

#include <algorithm>
#include <iterator>
#include <string>

#include "core/input_error.hpp"

namespace brakewright::practice {

std::string_view name_of(Fault fault) {
  switch (fault) {
    case Fault::thin:
      return "thin";
    case Fault::thickness_waves:
      return "thickness_waves";
    case Fault::wobble:
      return "wobble";
    case Fault::grooves:
      return "grooves";
    case Fault::lip:
      return "lip";
    case Fault::hard_spots:
      return "hard_spots";
    case Fault::taper:
      return "taper";
    case Fault::uneven_cheeks:
      return "uneven_cheeks";
    case Fault::dirty_seat:
      return "dirty_seat";
    case Fault::bent_arbor:
      return "bent_arbor";
    case Fault::wrong_cone:
      return "wrong_cone";
    case Fault::pitted_races:
      return "pitted_races";
    case Fault::loose_nut:
      return "loose_nut";
    case Fault::worn_edge:
      return "worn_edge";
    case Fault::no_band:
      return "no_band";
    case Fault::coarse_feed:
      return "coarse_feed";
    case Fault::warm_part:
      return "warm_part";
    case Fault::micrometer_zero:
      return "micrometer_zero";
    case Fault::misread_turn:
      return "misread_turn";
    case Fault::speck:
      return "speck";
  }
  return {};
}

Fault fault_named(std::string_view name, std::string_view field) {
  const auto* found = std::find_if(std::begin(kFaults), std::end(kFaults), [&](Fault f) { return name_of(f) == name; });
  if (found != std::end(kFaults)) return *found;
  std::string accepted;
  for (const Fault fault : kFaults) accepted += (accepted.empty() ? "" : ", ") + std::string(name_of(fault));
  throw InputError("unknown_fault", std::string(field), "must be one of " + accepted);
}

}  // namespace brakewright::practice
