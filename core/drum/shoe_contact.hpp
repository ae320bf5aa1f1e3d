#pragma once

namespace brakewright::drum {

/// A shoe's lining against the drum.
struct Shoe {
  double lining_radius_mm = 0;  ///< of the lining's outer face, 20 to 750
  double arc_deg = 120;         ///< that the lining covers, 10 to 170
};

enum class Contact { full, mid_shoe, heel_and_toe };

struct ShoeContact {
  Contact contact = Contact::full;
  double gap_um = 0;        ///< radial gap where it does not touch: at the ends, or at mid-shoe
  double clearance_um = 0;  ///< drum's radius less the lining's
};

/// Where a rigid shoe touches first when it is pressed outward at its middle, and the gap it leaves.
///
/// A lining of less radius than the drum's touches at mid-shoe and leaves a gap at heel and toe, one of more radius
/// touches at heel and toe and leaves one in the middle. Within 5 um the fit counts as full.
/// The values must lie in their ranges and differ by less than a tenth: the caller has checked them.
/// Source: plane geometry of two circles.
ShoeContact shoe_contact(double drum_radius_mm, const Shoe& shoe);

/// "full", "mid-shoe", "heel and toe".
const char* name_of(Contact contact);

}  // namespace brakewright::drum
