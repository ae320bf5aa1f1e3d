#include "core/thickness/advice.hpp"

#include <algorithm>
#include <cmath>

#include "core/thickness/figures.hpp"

namespace brakewright {
namespace {

/// One turn of a thimble: 0.5 mm on metric micrometers, 0.025 in on inch ones. Common practice, no source.
constexpr double kThimbleTurnsMm[] = {0.5, 0.635};

/// A part this far from 20 C had better be left to cool. Common practice, no source.
constexpr double kWarmK = 5;

constexpr int kLowOrders = 3;

void about_instrument(const ThicknessInput& input, const Reduced& reduced, std::optional<double> p_if_flat,
                      std::vector<Advice>& advice) {
  if (!input.variation_limit_mm || !p_if_flat) return;
  const double limit = *input.variation_limit_mm;
  if (input.micrometer.resolution_mm >= limit) {
    advice.push_back({"instrument_too_coarse", "One step of this micrometer, " +
                                                   mm_text(input.micrometer.resolution_mm) +
                                                   " mm, is as large as the limit of " + mm_text(limit) +
                                                   " mm: it cannot show a part to be within it."});
    return;
  }
  if (*p_if_flat >= input.confidence) return;
  advice.push_back({"instrument_too_coarse", "This micrometer cannot show a part to be within " + mm_text(limit) +
                                                 " mm: even if it read the same at every spot (step " +
                                                 mm_text(input.micrometer.resolution_mm) + " mm, repeatability " +
                                                 mm_text(reduced.noise.repeatability_um / 1000) +
                                                 " mm), the probability would be " + percent_text(*p_if_flat) + "."});
}

void about_scatter(const ThicknessInput& input, const Reduced& reduced, std::vector<Advice>& advice) {
  if (!reduced.scatters_more) return;
  advice.push_back({"repeats_scatter", "Repeats of one spot scatter by " + mm_text(reduced.scatter_mm) +
                                           " mm, more than the stated repeatability of " +
                                           mm_text(input.micrometer.repeatability_mm) +
                                           " mm: the larger figure is used. Clean the spots and the anvils, and use "
                                           "the ratchet."});
}

void about_points(const Thickness& thickness, std::vector<Advice>& advice) {
  std::string orders;
  for (const int order : thickness.blind_orders) {
    if (order <= kLowOrders) orders += (orders.empty() ? "" : ", ") + std::to_string(order);
  }
  if (orders.empty()) return;
  advice.push_back({"more_points", "These points see less than half of a pattern of " + orders +
                                       " waves per turn: 8 or 12 points would see it."});
}

void about_temperature(const ThicknessInput& input, const Thickness& thickness, std::vector<Advice>& advice) {
  if (std::abs(input.part_temperature_c - 20) < kWarmK) return;
  advice.push_back({"part_not_at_20c", "The part was not at 20 degrees C: " + mm_text(thickness.temperature_shift_mm) +
                                           " mm was added to bring its readings there. Let it come to room "
                                           "temperature if a limit is near."});
}

double median_of(std::vector<double> values) {
  std::nth_element(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2), values.end());
  return values[values.size() / 2];
}

void about_misreadings(const Thickness& thickness, std::vector<Advice>& advice) {
  std::vector<double> means;
  for (const PointMean& point : thickness.points) means.push_back(point.mean_mm);
  const double median = median_of(means);
  for (const PointMean& point : thickness.points) {
    const double off = std::abs(point.mean_mm - median);
    for (const double turn : kThimbleTurnsMm) {
      if (std::abs(off - turn) > 0.1 * turn) continue;
      advice.push_back({"thimble_turn", "The reading at " + angle_text(point.angle_deg) + " degrees is " +
                                            mm_text(off) +
                                            " mm from the others: about one turn of the thimble. Read it again."});
      break;
    }
  }
}

void about_repeats(const Thickness& thickness, const std::vector<Advice>& so_far, std::vector<Advice>& advice) {
  if (thickness.variation_verdict != Standing::cannot_tell) return;
  const bool coarse = std::any_of(so_far.begin(), so_far.end(),
                                  [](const Advice& known) { return known.code == "instrument_too_coarse"; });
  if (coarse) return;
  advice.push_back({"repeat_readings",
                    "The limit lies within what these readings leave open: read each spot again, or "
                    "at more spots."});
}

}  // namespace

std::vector<Advice> advise(const ThicknessInput& input, const Reduced& reduced, const Thickness& thickness,
                           std::optional<double> p_if_flat) {
  std::vector<Advice> advice;
  about_instrument(input, reduced, p_if_flat, advice);
  about_scatter(input, reduced, advice);
  about_misreadings(thickness, advice);
  about_points(thickness, advice);
  about_temperature(input, thickness, advice);
  about_repeats(thickness, advice, advice);
  return advice;
}

}  // namespace brakewright
