#include <algorithm>
#include <cmath>

#include "report/content/build.hpp"
#include "report/content/figures.hpp"
#include "shop/places.hpp"

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

std::string circle_name(int circle, int circles, bool drum) {
  if (circle == 0) return drum ? "open edge" : "outer";
  if (circle + 1 < circles) return "middle";
  return drum ? "closed edge" : "inner";
}

/// Each diameter at both of its ends.
std::vector<Spot> both_ends(std::vector<Spot> spots) {
  const std::size_t count = spots.size();
  for (std::size_t k = 0; k < count; ++k) {
    spots.push_back(spots[k]);
    spots.back().angle_deg += 180;
  }
  return spots;
}

int runout_points(const Spots& spots, const shop::Part& part) {
  if (spots.plan == nullptr) return spots.points;
  return static_cast<int>(shop::spread_of(shop::Quantity::runout_outboard, *spots.plan, part.kind).points);
}

}  // namespace

double full_scale_of(const std::vector<AssessedRotor>& rotors, Unit unit) {
  double largest_um = 0;
  for (const AssessedRotor& rotor : rotors) {
    for (const AssessedStage* stage : {&rotor.before, &rotor.after}) {
      const std::vector<Spot>& sizes = sizes_of(stage->spots, *rotor.part);
      const double mean = mean_of(sizes);
      for (const Spot& spot : sizes) {
        largest_um = std::max(largest_um, std::abs(spot.mean_mm - mean) * 1000);
      }
    }
  }
  return round_up(std::max(deviation(largest_um, unit), unit == Unit::mm ? 2.0 : 0.1));
}

Ring ring_of(const AssessedStage& stage, const shop::Part& part, const std::string& title, double full_scale,
             Unit unit) {
  const Spots& spots = stage.spots;
  const bool drum = shop::is_drum(part.kind);
  // A diameter stands at both of its ends.
  Ring ring{.title = title,
            .points = drum ? 2 * spots.points : spots.points,
            .circles = spots.circles,
            .full_scale = full_scale};
  ring.clockwise = spots.plan == nullptr || spots.plan->turning == shop::Turning::clockwise;
  const std::vector<Spot>& sizes = sizes_of(spots, part);
  if (sizes.empty()) {
    ring.centre_label = "not measured";
    return ring;
  }
  const double mean = mean_of(sizes);
  const Spot* worst = &sizes.front();
  for (const Spot& spot : sizes) {
    const double value = deviation((spot.mean_mm - mean) * 1000, unit);
    if (drum ? spot.mean_mm > worst->mean_mm : spot.mean_mm < worst->mean_mm) {
      worst = &spot;
      ring.lowest = ring.cells.size();
    }
    for (const double end_deg : {0.0, 180.0}) {
      ring.cells.push_back({std::clamp(spot.circle, 0, spots.circles - 1), spot.angle_deg + end_deg, value,
                            deviation_figure(value, decimals_for(full_scale), true)});
      if (!drum) break;
    }
  }
  if (!ring.lowest) ring.lowest = 0;
  const std::string where =
      " at point " + std::to_string(worst->point + 1) + ", " + deviation_figure(worst->angle_deg, 0, false) + "°";
  const std::string length(name_of(unit));
  if (stage.drum) {
    ring.centre_value = thickness_figure(stage.drum->out_of_round_mm, unit);
    ring.centre_label = length + " out-of-round";
    ring.caption = "widest " + thickness_figure(stage.drum->max_mm, unit) + " " + length + where;
  } else if (stage.thickness) {
    ring.centre_value = thickness_figure(stage.thickness->variation_mm, unit);
    ring.centre_label = length + " variation";
    ring.caption = "lowest " + thickness_figure(stage.thickness->min_mm, unit) + " " + length + where;
  } else {
    const auto wanted = static_cast<std::size_t>(spots.points * spots.circles);
    ring.centre_value = std::to_string(sizes.size()) + " of " + std::to_string(wanted);
    ring.centre_label = drum ? "diameters read" : "points read";
  }
  return ring;
}

TracePlot thickness_traces(const AssessedRotor& rotor, Unit unit) {
  const bool drum = shop::is_drum(rotor.part->kind);
  TracePlot plot{.title = drum ? "Diameter" : "Thickness",
                 .unit = deviation_unit(unit) + " from its mean",
                 .when_empty = "not measured"};
  int circles = 1;
  for (const AssessedStage* stage : {&rotor.before, &rotor.after}) {
    const std::vector<Spot> sizes = drum ? both_ends(stage->spots.diameter) : stage->spots.thickness;
    const double mean = mean_of(sizes);
    for (int circle = 0; circle < std::min(3, stage->spots.circles); ++circle) {
      add_lines(plot, sizes, stage == &rotor.after, static_cast<TraceMark>(circle), circle,
                drum ? 2 * stage->spots.points : stage->spots.points, mean, unit);
    }
    circles = std::max(circles, std::min(3, stage->spots.circles));
  }
  for (int circle = 0; circle < circles && circles > 1; ++circle) {
    plot.keys.push_back({static_cast<TraceMark>(circle), circle_name(circle, circles, drum)});
  }
  set_limit(plot, drum ? rotor.part->limits.out_of_round : rotor.part->limits.variation, unit);
  return plot;
}

TracePlot runout_traces(const AssessedRotor& rotor, Unit unit) {
  const bool drum = shop::is_drum(rotor.part->kind);
  TracePlot plot{.title = drum ? "Runout inside, on the lathe" : "Face runout",
                 .unit = deviation_unit(unit),
                 .when_empty = "not measured"};
  bool inboard = false;
  for (const AssessedStage* stage : {&rotor.before, &rotor.after}) {
    const bool after = stage == &rotor.after;
    const Spots& spots = stage->spots;
    add_lines(plot, spots.runout_outboard, after, TraceMark::round, 0, runout_points(spots, *rotor.part),
              mean_of(spots.runout_outboard), unit);
    add_lines(plot, spots.runout_inboard, after, TraceMark::square, 0, spots.points, mean_of(spots.runout_inboard),
              unit);
    inboard = inboard || !spots.runout_inboard.empty();
  }
  if (inboard) plot.keys = {{TraceMark::round, "outboard"}, {TraceMark::square, "inboard"}};
  if (!drum) set_limit(plot, rotor.part->limits.runout, unit);
  return plot;
}

ThicknessScale scale_of(const AssessedRotor& rotor, Unit unit) {
  const bool drum = shop::is_drum(rotor.part->kind);
  ThicknessScale scale{.title = (drum ? "Diameter, " : "Thickness, ") + std::string(name_of(unit)),
                       .grows = drum,
                       .when_empty = "no limit known, nothing measured"};
  const shop::Limits& limits = rotor.part->limits;
  const auto add = [&](const std::string& name, double mm, bool measured) {
    scale.marks.push_back({name, thickness_figure(mm, unit), mm, measured});
  };
  if (limits.nominal) add("new", limits.nominal->value.value.mm(), false);
  const auto worst = [](const AssessedStage& stage) {
    return stage.drum        ? std::optional(stage.drum->max_mm)
           : stage.thickness ? std::optional(stage.thickness->min_mm)
                             : std::optional<double>();
  };
  const auto before_mm = worst(rotor.before), after_mm = worst(rotor.after);
  if (before_mm) add(after_mm ? "before" : "now", *before_mm, true);
  if (after_mm) add("after the cut", *after_mm, true);
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
