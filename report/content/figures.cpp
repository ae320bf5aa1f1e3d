#include "report/content/figures.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "report/record.hpp"

namespace brakewright::report {

namespace {

constexpr double kUmPerThou = 25.4;

Length length_of(double mm) { return {std::llround(mm * 1e6)}; }

std::int64_t step_of(Unit unit) { return unit == Unit::mm ? 1000 : 2540; }

}  // namespace

std::string thickness_figure(double mm, Unit unit) { return format_number(length_of(mm), unit, step_of(unit)); }

std::string in_other_unit(double mm, Unit unit) {
  const Unit other = unit == Unit::mm ? Unit::in : Unit::mm;
  return format(length_of(mm), other, step_of(other));
}

double deviation(double um, Unit unit) { return unit == Unit::mm ? um : um / kUmPerThou; }

std::string deviation_unit(Unit unit) { return unit == Unit::mm ? "µm" : "thou"; }

std::string deviation_figure(double value, int decimals, bool with_plus) {
  char text[64];
  std::snprintf(text, sizeof text, "%.*f", decimals, std::abs(value));
  const std::string digits = text;
  const bool zero = digits.find_first_of("123456789") == std::string::npos;
  if (zero) return digits;
  if (value < 0) return "−" + digits;
  return with_plus ? "+" + digits : digits;
}

std::string probability_figure(double p) {
  if (p < 0.001) return "<0.001";
  if (p > 0.999) return ">0.999";
  char text[16];
  std::snprintf(text, sizeof text, "%.*f", p < 0.1 || p > 0.9 ? 3 : 2, p);
  return text;
}

double round_up(double value) {
  if (!(value > 0)) return 1;
  const double power = std::pow(10, std::floor(std::log10(value)));
  for (const double factor : {1.0, 1.5, 2.0, 3.0, 5.0}) {
    if (power * factor >= value * (1 - 1e-9)) return power * factor;
  }
  return power * 10;
}

std::string time_figure(shop::UtcTime time, const std::optional<LocalClock>& clock) {
  if (clock) time += clock->ahead_of_utc;
  const auto day = std::chrono::floor<std::chrono::days>(time);
  const std::chrono::year_month_day date(day);
  const std::chrono::hh_mm_ss hours(std::chrono::floor<std::chrono::minutes>(time - day));
  char text[48];
  std::snprintf(text, sizeof text, "%04d-%02u-%02u %02d:%02d ", static_cast<int>(date.year()),
                static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()),
                static_cast<int>(hours.hours().count()), static_cast<int>(hours.minutes().count()));
  return text + (clock ? clock->label : "UTC");
}

std::string grouped(std::int64_t count) {
  std::string digits = std::to_string(count);
  const std::size_t sign = count < 0 ? 1 : 0;
  for (std::size_t place = digits.size(); place > sign + 3;) {
    place -= 3;
    digits.insert(place, "\u00a0");
  }
  return digits;
}

}  // namespace brakewright::report
