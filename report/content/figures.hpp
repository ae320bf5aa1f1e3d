#pragma once

#include <optional>
#include <string>

#include "core/length/length.hpp"
#include "shop/entities.hpp"

/// Numbers and times as the record writes them.
namespace brakewright::report {

struct LocalClock;

/// Where there is no figure.
inline constexpr const char* kNone = "–";

/// Thickness in the shop's unit without its name: three decimals of a millimetre, four of an inch.
std::string thickness_figure(double mm, Unit unit);

/// The same in the other unit, with its name.
std::string in_other_unit(double mm, Unit unit);

/// Small deviations: micrometres in a metric shop, thousandths of an inch ("thou") in an inch shop.
double deviation(double um, Unit unit);
std::string deviation_unit(Unit unit);
/// @param decimals  places shown; a real minus sign, never "-0"
std::string deviation_figure(double value, int decimals, bool with_plus = false);

/// Two or three places that mean something: "0.993", "<0.001", ">0.999".
std::string probability_figure(double p);

/// A round number at or over the value: 1, 2, 5, 10, 15, 20, 30, 50 times a power of ten. 1 for values that are not
/// over zero.
double round_up(double value);

/// "2026-03-04 09:15 UTC", or in the local clock with its label.
std::string time_figure(shop::UtcTime time, const std::optional<LocalClock>& clock);

/// "118 400" with no-break spaces.
std::string grouped(std::int64_t count);

}  // namespace brakewright::report
