#pragma once

#include <string>

#include "core/bench_sim/cut/cut.hpp"

/// What a cut is refused for; each throws InputError naming the field as it stands in the setup.
namespace brakewright::bench_sim {

/// @returns the part, when it and the setup are good
SimPart& checked(SimPart& part, const CutSetup& setup);

void want_feed(double feed_mm_per_rev);
void want_start(double radius_mm);
void want_tip(double tip_um, const std::string& field);
void check_motion(const Motion& motion);

}  // namespace brakewright::bench_sim
