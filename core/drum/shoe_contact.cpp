#include "core/drum/shoe_contact.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace brakewright::drum {
namespace {

constexpr double kFull_um = 5;

}  // namespace

ShoeContact shoe_contact(double drum_radius_mm, const Shoe& shoe) {
  const double half = shoe.arc_deg / 2 * std::numbers::pi / 180;
  const double lining = shoe.lining_radius_mm, off = drum_radius_mm - lining;
  ShoeContact found{.contact = Contact::full, .gap_um = 0, .clearance_um = 1000 * off};
  if (off >= 0) {
    // Centres apart by `off`: the lining's end lies at (off + r cos, r sin) from the drum's centre.
    found.gap_um = 1000 * (drum_radius_mm - std::hypot(off + lining * std::cos(half), lining * std::sin(half)));
    found.contact = Contact::mid_shoe;
  } else {
    // The end lies on the drum: the centres are apart by e with (e + r cos)^2 + (r sin)^2 = R^2.
    const double across = lining * std::sin(half);
    const double apart =
        std::sqrt(std::max(0.0, drum_radius_mm * drum_radius_mm - across * across)) - lining * std::cos(half);
    found.gap_um = 1000 * (drum_radius_mm - (apart + lining));
    found.contact = Contact::heel_and_toe;
  }
  found.gap_um = std::max(0.0, found.gap_um);
  if (found.gap_um <= kFull_um) found.contact = Contact::full;
  return found;
}

const char* name_of(Contact contact) {
  switch (contact) {
    case Contact::full:
      return "full";
    case Contact::mid_shoe:
      return "mid-shoe";
    case Contact::heel_and_toe:
      break;
  }
  return "heel and toe";
}

}  // namespace brakewright::drum
