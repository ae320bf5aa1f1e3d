#pragma once

#include <chrono>
#include <string>
#include <string_view>

namespace brakewright::shop {

/// Coordinated universal time, to the millisecond; "2026-03-04T09:15:00.250Z" in JSON and SQL.
using UtcTime = std::chrono::sys_time<std::chrono::milliseconds>;

/// A calendar day without a time, "2026-03-04".
using Date = std::chrono::year_month_day;

/// "2026-03-04T09:15:00.250Z".
std::string to_text(UtcTime time);

/// Takes 0 to 3 decimals of a second and a final Z.
/// @throws InputError "not_a_time" (field empty) for any other form, a day or hour that does not exist, and years
///         outside 2000 to 2099, which no shop has seen
UtcTime parse_time(std::string_view text);

/// "2026-03-04".
std::string to_text(Date date);

/// @throws InputError "not_a_date" (field empty) for any other form, a day that does not exist, and years outside
///         1950 to 2099
Date parse_date(std::string_view text);

}  // namespace brakewright::shop
