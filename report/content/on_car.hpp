#pragma once

#include "report/content/content.hpp"
#include "report/record.hpp"

namespace brakewright::report {

/// What was read of one part on the car, whose runout it is, and how the part went back on. `any` is false where
/// nothing of it is on record.
OnCarContent on_car_of(const RecordInput& input, const shop::Part& part);

/// Bedding-in and the first kilometres, for the driver; nothing while no part is on record as back on the car.
/// Common practice, no source: it says so itself, and whose instructions come first.
std::optional<DriverCardContent> driver_card_of(const RecordInput& input);

}  // namespace brakewright::report
