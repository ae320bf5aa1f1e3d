#include "core/separation/advice.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <limits>
#include <numbers>
#include <string>

#include "core/thickness/figures.hpp"

namespace brakewright::separation {
namespace {

constexpr int kOrdersThatMatter = 6;
constexpr double kStepDeg = 15;

std::string listed(const std::vector<int>& orders) {
  std::string text;
  for (std::size_t i = 0; i < orders.size(); ++i) {
    text += (i == 0 ? "" : i + 1 == orders.size() ? " and " : ", ") + std::to_string(orders[i]);
  }
  return text;
}

/// The highest gain over the orders that matter; orders that nothing brings apart count as the hopeless gain.
double worst_gain(const std::vector<double>& turns_deg, int orders) {
  double worst = 0;
  for (int k = 1; k <= orders; ++k) worst += std::min(gain_of(turns_deg, k), kHopelessGain);
  return worst;
}

std::string where_next(const Separation& found) {
  if (!found.next_turn_deg) return "";
  return " Turn the part on by " + angle_text(*found.next_turn_deg) + " degrees from where turn 0 is and read again.";
}

void advise_on_positions(const Separation& found, std::vector<Advice>& advice) {
  const bool one_turn = std::all_of(found.positions.begin(), found.positions.end(), [&](const PositionFigures& p) {
    return std::abs(std::remainder(p.turn_deg - found.positions[0].turn_deg, 360.0)) < 1e-6;
  });
  if (one_turn) {
    advice.push_back({"one_position",
                      "The part was read in one position: what is seen is carrier and part together, and nothing says "
                      "whose it is." +
                          where_next(found)});
    return;
  }
  if (!found.not_separable.empty()) {
    advice.push_back({"not_separable", "Orders " + listed(found.not_separable) +
                                           " come out alike in all positions read: whose they are cannot be told." +
                                           where_next(found)});
  }
  std::vector<int> weak;
  for (const OrderSeparation& order : found.orders) {
    if (order.gain && *order.gain > kWeakGain) weak.push_back(order.order);
  }
  if (!weak.empty()) {
    advice.push_back({"weak", "Orders " + listed(weak) +
                                  " come apart only weakly, because the positions lie close together for them: noise "
                                  "counts over threefold." +
                                  where_next(found)});
  }
}

}  // namespace

double gain_of(const std::vector<double>& turns_deg, int order) {
  std::complex<double> sum;
  for (const double turn : turns_deg) sum += std::polar(1.0, order * turn * std::numbers::pi / 180);
  if (turns_deg.size() < 2) return std::numeric_limits<double>::infinity();
  const double alike = std::min(std::abs(sum) / static_cast<double>(turns_deg.size()), 1.0);
  return 1 / std::sqrt((1 - alike) * (1 + alike));
}

std::optional<double> next_turn_deg(const SeparationInput& input, const Separation& found) {
  const bool well = std::all_of(found.orders.begin(), found.orders.end(), [](const OrderSeparation& order) {
    return order.order > kOrdersThatMatter || (order.gain && *order.gain <= kWeakGain);
  });
  const int orders = std::min(found.order_used, kOrdersThatMatter);
  if (well || orders == 0) return std::nullopt;
  std::vector<double> turns;
  for (const PositionFigures& position : found.positions) turns.push_back(position.turn_deg);
  const double now = worst_gain(turns, orders);
  const double step = input.studs ? 360.0 / *input.studs : kStepDeg;
  std::optional<double> best;
  double least = now * (1 - 1e-6);
  turns.push_back(0);
  for (double turn = step; turn < 360 - 1e-6; turn += step) {
    turns.back() = turn;
    const double gain = worst_gain(turns, orders);
    if (gain < least * (1 - 1e-9)) least = gain, best = turn;
  }
  return best;
}

std::vector<Advice> advise(const SeparationInput& input, const Separation& found) {
  std::vector<Advice> advice;
  advise_on_positions(found, advice);
  std::vector<int> short_of;
  for (std::size_t j = 0; j < found.positions.size(); ++j) {
    if (found.positions[j].order_used < input.max_order) short_of.push_back(static_cast<int>(j) + 1);
  }
  if (!short_of.empty()) {
    advice.push_back({"few_angles", "The angles read in position " + listed(short_of) +
                                        " do not carry all the orders asked for: twice the order and one angle more, "
                                        "spread evenly, are needed."});
  }
  if (found.p_repeats && *found.p_repeats < 0.01) {
    advice.push_back({"does_not_repeat",
                      "The positions do not tell one story within the noise stated: something moved between them, such "
                      "as dirt on the faces, the nuts' torque or the indicator's stand."});
  }
  if (found.dof == 0 && !input.noise_sd_um) {
    advice.push_back({"no_spare_readings",
                      "There are as many unknowns as readings: nothing is left to judge the uncertainty by. Read more "
                      "angles, or state the noise of one reading."});
  }
  return advice;
}

}  // namespace brakewright::separation
