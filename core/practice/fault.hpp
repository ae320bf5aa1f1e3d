#pragma once

#include <string_view>
#include <vector>

/// Practice on the simulated bench: an exercise, what is done at it act by act, and what it was worth.
namespace brakewright::practice {

/// What can be wrong at a bench, with part, mount, tools or instruments. Cause of signs and choice of a teacher alike.
enum class Fault {
  thin,             ///< no iron left to cut: machine-to would be passed
  thickness_waves,  ///< thickness that varies round the part
  wobble,           ///< faces not square to the hub's face
  grooves,          ///< scoring deeper than a light cut reaches
  lip,              ///< rust or unswept iron at the rim
  hard_spots,       ///< left by overheating
  taper,            ///< thickness changes along the radius
  uneven_cheeks,    ///< one wall of a vented part thinner
  dirty_seat,       ///< a chip or rust between part and clamp
  bent_arbor,       ///< or an adapter out of true: turns with the spindle
  wrong_cone,       ///< a cone or taper that does not fit tempts: on it the part sits off centre
  pitted_races,     ///< of a part with its hub: seats anew at each mounting
  loose_nut,        ///< slips in the cut
  worn_edge,        ///< rubs, rough
  no_band,          ///< nothing on the disc that damps it; it sings
  coarse_feed,      ///< last pass too fast
  warm_part,        ///< measured or cut while hot
  micrometer_zero,  ///< not zeroed
  misread_turn,     ///< one reading of a micrometer is a whole turn of its thimble off
  speck,            ///< on a face: a spike at one place, until it is wiped off
};

inline constexpr Fault kFaults[] = {
    Fault::thin,        Fault::thickness_waves, Fault::wobble,          Fault::grooves,      Fault::lip,
    Fault::hard_spots,  Fault::taper,           Fault::uneven_cheeks,   Fault::dirty_seat,   Fault::bent_arbor,
    Fault::wrong_cone,  Fault::pitted_races,    Fault::loose_nut,       Fault::worn_edge,    Fault::no_band,
    Fault::coarse_feed, Fault::warm_part,       Fault::micrometer_zero, Fault::misread_turn, Fault::speck};

/// Its name in JSON, the same as here.
std::string_view name_of(Fault fault);

/// @throws InputError "unknown_fault" naming `field`
Fault fault_named(std::string_view name, std::string_view field);

}  // namespace brakewright::practice
