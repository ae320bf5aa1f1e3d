#include <algorithm>
#include <cmath>

#include "report/content/build.hpp"
#include "report/content/figures.hpp"

namespace brakewright::report {

namespace {

double mean_of(const std::vector<Spot>& spots) {
  double sum = 0;
  for (const Spot& spot : spots) sum += spot.mean_mm;
  return spots.empty() ? 0 : sum / static_cast<double>(spots.size());
}

int decimals_for(double full_scale) { return full_scale > 5 ? 0 : full_scale > 0.5 ? 1 : 2; }

void add_lines(TracePlot& plot, const std::vector<Spot>& spots, bool after, TraceMark mark, int circle, int points,
               double zero_mm, Unit unit) {
  TraceLine line{.after = after, .mark = mark, .step_deg = 360.0 / points};
  for (const Spot& spot : spots) {
    if (spot.circle == circle) {
      line.readings.push_back({spot.angle_deg, deviation((spot.mean_mm - zero_mm) * 1000, unit)});
    }
  }
  if (!line.readings.empty()) plot.lines.push_back(line);
}

void set_limit(TracePlot& plot, const std::optional<shop::Limit>& limit, Unit unit) {
  if (!limit) return;
  plot.limit = deviation(limit->value.value.um(), unit);
  plot.limit_text = deviation_figure(*plot.limit, decimals_for(*plot.limit), false) + " " + deviation_unit(unit);
}

std::string circle_name(int circle, int circles) {
  if (circle == 0) return "outer";
  return circle + 1 == circles ? "inner" : "middle";
}

}  // namespace

double full_scale_of(const std::vector<AssessedRotor>& rotors, Unit unit) {
  double largest_um = 0;
  for (const AssessedRotor& rotor : rotors) {
    for (const AssessedStage* stage : {&rotor.before, &rotor.after}) {
      const double mean = mean_of(stage->spots.thickness);
      for (const Spot& spot : stage->spots.thickness) {
        largest_um = std::max(largest_um, std::abs(spot.mean_mm - mean) * 1000);
      }
    }
  }
  return round_up(std::max(deviation(largest_um, unit), unit == Unit::mm ? 2.0 : 0.1));
}

Ring ring_of(const AssessedStage& stage, const std::string& title, double full_scale, Unit unit) {
  const Spots& spots = stage.spots;
  Ring ring{.title = title, .points = spots.points, .circles = spots.circles, .full_scale = full_scale};
  ring.clockwise = spots.plan == nullptr || spots.plan->turning == shop::Turning::clockwise;
  if (spots.thickness.empty()) {
    ring.centre_label = "not measured";
    return ring;
  }
  const double mean = mean_of(spots.thickness);
  const Spot* lowest = &spots.thickness.front();
  for (const Spot& spot : spots.thickness) {
    const double value = deviation((spot.mean_mm - mean) * 1000, unit);
    if (spot.mean_mm < lowest->mean_mm) {
      lowest = &spot;
      ring.lowest = ring.cells.size();
    }
    ring.cells.push_back({std::clamp(spot.circle, 0, spots.circles - 1), spot.angle_deg, value,
                          deviation_figure(value, decimals_for(full_scale), true)});
  }
  if (!ring.lowest) ring.lowest = 0;
  if (stage.thickness) {
    ring.centre_value = thickness_figure(stage.thickness->variation_mm, unit);
    ring.centre_label = std::string(name_of(unit)) + " variation";
    ring.caption = "lowest " + thickness_figure(stage.thickness->min_mm, unit) + " " + std::string(name_of(unit)) +
                   " at point " + std::to_string(lowest->point + 1) + ", " +
                   deviation_figure(lowest->angle_deg, 0, false) + "°";
  } else {
    const auto wanted = static_cast<std::size_t>(spots.points * spots.circles);
    ring.centre_value = std::to_string(spots.thickness.size()) + " of " + std::to_string(wanted);
    ring.centre_label = "points read";
  }
  return ring;
}

TracePlot thickness_traces(const AssessedRotor& rotor, Unit unit) {
  TracePlot plot{.title = "Thickness", .unit = deviation_unit(unit) + " from its mean", .when_empty = "not measured"};
  int circles = 1;
  for (const AssessedStage* stage : {&rotor.before, &rotor.after}) {
    const double mean = mean_of(stage->spots.thickness);
    for (int circle = 0; circle < std::min(3, stage->spots.circles); ++circle) {
      add_lines(plot, stage->spots.thickness, stage == &rotor.after, static_cast<TraceMark>(circle), circle,
                stage->spots.points, mean, unit);
    }
    circles = std::max(circles, std::min(3, stage->spots.circles));
  }
  for (int circle = 0; circle < circles && circles > 1; ++circle) {
    plot.keys.push_back({static_cast<TraceMark>(circle), circle_name(circle, circles)});
  }
  set_limit(plot, rotor.part->limits.variation, unit);
  return plot;
}

TracePlot runout_traces(const AssessedRotor& rotor, Unit unit) {
  TracePlot plot{.title = "Face runout", .unit = deviation_unit(unit), .when_empty = "not measured"};
  bool inboard = false;
  for (const AssessedStage* stage : {&rotor.before, &rotor.after}) {
    const bool after = stage == &rotor.after;
    const Spots& spots = stage->spots;
    add_lines(plot, spots.runout_outboard, after, TraceMark::round, 0, spots.points, mean_of(spots.runout_outboard),
              unit);
    add_lines(plot, spots.runout_inboard, after, TraceMark::square, 0, spots.points, mean_of(spots.runout_inboard),
              unit);
    inboard = inboard || !spots.runout_inboard.empty();
  }
  if (inboard) plot.keys = {{TraceMark::round, "outboard"}, {TraceMark::square, "inboard"}};
  set_limit(plot, rotor.part->limits.runout, unit);
  return plot;
}

ThicknessScale scale_of(const AssessedRotor& rotor, Unit unit) {
  ThicknessScale scale{.title = "Thickness, " + std::string(name_of(unit)),
                       .when_empty = "no limit known, nothing measured"};
  const shop::Limits& limits = rotor.part->limits;
  const auto add = [&](const std::string& name, double mm, bool measured) {
    scale.marks.push_back({name, thickness_figure(mm, unit), mm, measured});
  };
  if (limits.nominal) add("new", limits.nominal->value.value.mm(), false);
  if (rotor.before.thickness) add(rotor.after.thickness ? "before" : "now", rotor.before.thickness->min_mm, true);
  if (rotor.after.thickness) add("after the cut", rotor.after.thickness->min_mm, true);
  if (limits.machine_to) {
    scale.machine_to_mm = limits.machine_to->value.value.mm();
    add("machine-to", *scale.machine_to_mm, false);
  } else if (rotor.verdict && rotor.verdict->machine_to && rotor.verdict->machine_to_is_house_rule) {
    scale.machine_to_mm = rotor.verdict->machine_to->value_mm;
    add("house rule", *scale.machine_to_mm, false);
  }
  if (limits.discard) {
    scale.discard_mm = limits.discard->value.value.mm();
    add("discard", *scale.discard_mm, false);
  }
  return scale;
}

}  // namespace brakewright::report
