#include "core/pulsation/next.hpp"

#include <algorithm>

#include "core/thickness/figures.hpp"

namespace brakewright::pulsation {
namespace {

constexpr double kSure = 0.8;

bool blind(const Corner& corner, int order) {
  return std::find(corner.blind_orders.begin(), corner.blind_orders.end(), order) != corner.blind_orders.end();
}

std::string listed(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
  return text;
}

void about_order(const PulsationInput& input, const Pulsation& found, std::vector<Advice>& next) {
  if (found.orders.empty()) {
    next.push_back({"find_frequency",
                    "Count the beats over ten seconds at a steady speed, or record half a minute of it: which wheel "
                    "order it is then comes out."});
    return;
  }
  const OrderFit& best = found.orders.front();
  if (best.order == 0) {
    next.push_back(
        {"not_the_wheel",
         "The frequency fits no wheel order: look at what turns with the engine or the driveline, and at the "
         "brake system's own regulation."});
  } else if (best.probability < kSure) {
    const double speed = input.observations.front().speed_km_per_h;
    next.push_back({"another_speed", "More than one order fits: take the frequency again at about " +
                                         um_text(speed > 60 ? speed * 0.7 : speed * 1.4) +
                                         " km/h, where the law allows; a wheel order keeps its place at both."});
  }
}

void about_corners(const PulsationInput& input, const Pulsation& found, std::vector<Advice>& next) {
  const int order = found.orders.empty() || found.orders.front().order == 0 ? 1 : found.orders.front().order;
  std::vector<std::string> unread, unseen;
  for (const bool front_first : {input.felt != Felt::seat, input.felt == Felt::seat}) {
    for (const Corner& corner : input.corners) {
      if (corner.front != front_first) continue;
      if (!corner.read) unread.push_back(corner.name);
      if (corner.read && blind(corner, order)) unseen.push_back(corner.name);
    }
  }
  if (input.corners.empty()) {
    next.push_back({"read_corners",
                    "Read thickness at eight points or more round each disc of the axle that is felt, and each drum's "
                    "diameter."});
  }
  if (!unseen.empty()) {
    next.push_back({"blind_points", "The points read at " + listed(unseen) + " hardly see order " +
                                        std::to_string(order) + ": read " + std::to_string(4 * order + 4) +
                                        " points spread evenly."});
  }
  if (!unread.empty()) {
    next.push_back({"read_corner", "Not read yet: " + listed(unread) + ". Read the variation there, in this order."});
  }
}

void about_runout(const PulsationInput& input, const Pulsation& found, std::vector<Advice>& next) {
  if (!found.corners.empty() && found.corners.front().probability >= kSure) {
    next.push_back(
        {"this_corner", "It is most probably " + found.corners.front().name + ": " + found.corners.front().why});
    return;
  }
  const bool all_read = !input.corners.empty() &&
                        std::all_of(input.corners.begin(), input.corners.end(), [](const Corner& c) { return c.read; });
  if (all_read && found.p_other_corner > 0.5) {
    next.push_back({"elsewhere",
                    "No part read has variation enough at this order: look at bearings, tyres and wheels, and read "
                    "runout on the car with all nuts at torque."});
  }
  for (const Corner& corner : input.corners) {
    if (corner.runout_um && *corner.runout_um > 50) {
      next.push_back({"whose_runout", corner.name + " runs out by " + um_text(*corner.runout_um) +
                                          " um: read it in two positions on its studs to tell hub and part apart."});
    }
  }
}

}  // namespace

std::vector<Advice> next_steps(const PulsationInput& input, const Pulsation& found) {
  std::vector<Advice> next;
  about_runout(input, found, next);
  about_order(input, found, next);
  about_corners(input, found, next);
  return next;
}

}  // namespace brakewright::pulsation
