#include "report/content/on_car.hpp"

#include <algorithm>
#include <cmath>

#include "core/separation/separation.hpp"
#include "report/content/car_turns.hpp"
#include "report/content/figures.hpp"
#include "report/content/lathe_work.hpp"
#include "report/content/names.hpp"
#include "shop/find.hpp"

namespace brakewright::report {

namespace {

constexpr int kMostOrder = 6;

std::string small(double um, Unit unit) {
  return deviation_figure(deviation(um, unit), unit == Unit::mm ? 0 : 1) + " " + deviation_unit(unit);
}

std::string turned_by(std::int64_t studs) {
  if (studs == 0) return "as marked";
  return "turned by " + std::to_string(studs) + (studs == 1 ? " stud" : " studs");
}

std::string name_of(const CarTurn& turn) { return turn.turned ? "rotor " + turned_by(*turn.turned) : "hub flange"; }

const char* name_of(CarTime time) {
  switch (time) {
    case CarTime::as_it_came:
      return "as it came";
    case CarTime::to_refit:
      return "going back on";
    case CarTime::after_refit:
      break;
  }
  return "back on";
}

Table readings_of(const std::vector<CarTurn>& turns, std::optional<double> play_um, Unit unit) {
  Table table{.columns = {{.head = "when", .share = 17, .whole = true},
                          {.head = "what", .share = 34, .whole = true},
                          {"runout " + deviation_unit(unit), 16, Align::right},
                          {"highest at", 14, Align::right},
                          {"points", 12, Align::right}},
              .none = "nothing read on the car",
              .more = "more, see the job"};
  const int decimals = unit == Unit::mm ? 0 : 1;
  if (play_um) {
    table.rows.push_back({"", "bearing play", deviation_figure(deviation(*play_um, unit), decimals), "–", "–"});
  }
  const char* last = "";
  for (const CarTurn& turn : turns) {
    const char* when = name_of(turn.time);
    const std::string runout = turn.runout_um ? deviation_figure(deviation(*turn.runout_um, unit), decimals) : "–";
    table.rows.push_back({when == last ? "" : when, name_of(turn), runout,
                          turn.runout_um ? deviation_figure(turn.high_deg, 0) + "°" : "–",
                          std::to_string(turn.angles) + " of " + std::to_string(turn.points)});
    last = when;
  }
  return table;
}

/// As it came dashed, as it went back full: of the latter the last that was read.
TracePlot traces_of(const std::vector<CarTurn>& turns, const shop::Part& part, Unit unit) {
  TracePlot plot{.title = "Runout",
                 .unit = deviation_unit(unit),
                 .when_empty = "not read",
                 .before_name = "as it came",
                 .after_name = "back on"};
  const bool again = std::any_of(turns.begin(), turns.end(),
                                 [](const CarTurn& turn) { return turn.time == CarTime::after_refit && turn.turned; });
  bool marked = false, moved = false, hub = false;
  for (const CarTurn& turn : turns) {
    if (again && turn.time == CarTime::to_refit && turn.turned) continue;
    TraceLine line{.after = turn.time != CarTime::as_it_came, .step_deg = 360.0 / turn.points};
    line.mark = !turn.turned ? TraceMark::triangle : *turn.turned == 0 ? TraceMark::round : TraceMark::square;
    (line.mark == TraceMark::triangle ? hub : line.mark == TraceMark::round ? marked : moved) = true;
    double mean_um = 0;
    for (const double um : turn.trace.values_um) mean_um += um / static_cast<double>(turn.angles);
    for (std::size_t k = 0; k < turn.trace.angles_deg.size(); ++k) {
      line.readings.push_back({turn.trace.angles_deg[k], deviation(turn.trace.values_um[k] - mean_um, unit)});
    }
    plot.lines.push_back(std::move(line));
  }
  if (marked) plot.keys.push_back({TraceMark::round, "as marked"});
  if (moved) plot.keys.push_back({TraceMark::square, "turned"});
  if (hub) plot.keys.push_back({TraceMark::triangle, "hub"});
  if (part.limits.runout) {
    const double um = part.limits.runout->value.value.um();
    plot.limit = deviation(um, unit);
    plot.limit_text = small(um, unit);
  }
  return plot;
}

std::string listed(const std::vector<int>& orders) {
  std::string text;
  for (std::size_t k = 0; k < orders.size(); ++k) {
    text += (k == 0 ? "" : k + 1 == orders.size() ? " and " : ", ") + std::to_string(orders[k]);
  }
  return text;
}

/// Hub and rotor told apart from the positions that were read at one time.
ReasonContent told_apart(const std::vector<PositionTrace>& positions, CarTime time, std::int64_t studs, Unit unit) {
  const Separation found =
      separate({.positions = positions, .max_order = kMostOrder, .studs = static_cast<int>(studs)});
  ReasonContent told{.text = std::string("Whose runout, ") + name_of(time) + ": the hub's " +
                             small(found.carrier_runout_um, unit) + ", the rotor's own " +
                             small(found.part_runout_um, unit) + "."};
  if (!found.not_separable.empty()) {
    const bool one = found.not_separable.size() == 1;
    told.text += one ? " The wave of order " : " The waves of orders ";
    told.text += listed(found.not_separable) + (one ? " looks" : " look") + " alike in all positions: whose " +
                 (one ? "it is" : "they are") + " is not told.";
  }
  told.basis = "least squares over " + std::to_string(positions.size()) + " positions";
  if (found.residual_sd_um) told.basis += ", readings scatter by " + small(*found.residual_sd_um, unit);
  return told;
}

/// Of the time at which most positions were read; as it came, where that is even.
void tell_whose(OnCarContent& content, const std::vector<CarTurn>& turns, const shop::Part& part, Unit unit) {
  std::vector<PositionTrace> positions;
  CarTime when = CarTime::as_it_came;
  const CarTurn* hub = nullptr;
  bool of_rotor = false;
  for (const CarTime time : {CarTime::as_it_came, CarTime::to_refit}) {
    std::vector<PositionTrace> here;
    for (const CarTurn& turn : turns) {
      if (!turn.runout_um) continue;
      if (!turn.turned) hub = &turn;
      of_rotor = of_rotor || turn.turned;
      if (turn.time != time || !turn.turned || !part.studs) continue;
      here.push_back({.turn_deg = 360.0 * static_cast<double>(*turn.turned) / static_cast<double>(*part.studs),
                      .trace = turn.trace});
    }
    if (here.size() <= positions.size()) continue;
    positions = std::move(here);
    when = time;
  }
  if (positions.size() > 1) content.told.push_back(told_apart(positions, when, *part.studs, unit));
  if (hub != nullptr) {
    std::string text = "The bare flange runs " + small(*hub->runout_um, unit);
    if (part.hub_reading_diameter) {
      const TypedLength& typed = *part.hub_reading_diameter;
      text += " where it was read, at a circle of " +
              format(typed.value, typed.unit, std::max<std::int64_t>(1, typed.resolution_nm));
    }
    content.told.push_back({text + ".", "its tilt lifts the rotor in proportion to the radius"});
  }
  if (positions.size() < 2 && hub == nullptr && of_rotor) {
    content.told.push_back({"Read in one position: whose runout it is cannot be told.", ""});
  }
}

std::string by_whom(const RecordInput& input, const shop::Refit& refit) {
  return person_name(input, refit.by_person_id, false) + ", " + time_figure(refit.at, input.local_clock);
}

/// "turned by 2 studs of 5, with the tapered plate wedge 50, its thickest place 3 studs on from the hub's mark"
std::string fitted(const RecordInput& input, const shop::Refit& refit) {
  std::string text = turned_by(refit.position) + " of " + std::to_string(refit.studs);
  if (refit.position == 0) text = "as marked";
  if (!refit.plate_id) return text;
  const shop::TaperPlate* plate = shop::find(input.taper_plates, *refit.plate_id);
  text += ", with the tapered plate " + (plate == nullptr ? "that is not on record" : plate->name);
  if (!refit.plate_position) return text;
  if (*refit.plate_position == 0) return text + ", its thickest place at the hub's mark";
  text += ", its thickest place " + std::to_string(*refit.plate_position) +
          (*refit.plate_position == 1 ? " stud" : " studs") + " on from the hub's mark";
  return text;
}

void tell_refit(OnCarContent& content, const RecordInput& input, const shop::Part& part) {
  const Unit unit = input.settings.default_unit;
  const shop::Refit* refit = last_refit(input.file, part);
  if (refit == nullptr) return;
  std::string text = "Back on its hub " + fitted(input, *refit) + ".";
  if (refit->foreseen_runout_um) text += " Foreseen: " + small(*refit->foreseen_runout_um, unit);
  if (refit->foreseen_runout_um && refit->p_within) {
    text += ", within the limit with probability " + probability_figure(*refit->p_within);
  }
  if (refit->foreseen_runout_um) text += ".";
  if (!refit->reason.empty()) text += " " + refit->reason;
  std::string basis = by_whom(input, *refit);
  const auto count = std::count_if(input.file.refits.begin(), input.file.refits.end(),
                                   [&](const shop::Refit& one) { return one.part_id == part.id; });
  if (count > 1) basis += "; put on " + std::to_string(count) + " times, the last is told";
  content.told.push_back({text, basis});
}

/// What was read in the position in which the part stayed, against what was foreseen and allowed.
void tell_recheck(OnCarContent& content, const std::vector<CarTurn>& turns, const RecordInput& input,
                  const shop::Part& part) {
  const Unit unit = input.settings.default_unit;
  const shop::Refit* refit = last_refit(input.file, part);
  if (refit == nullptr) return;
  const auto again = std::find_if(turns.begin(), turns.end(), [&](const CarTurn& turn) {
    return turn.time == CarTime::after_refit && turn.turned == refit->position && turn.runout_um;
  });
  if (again == turns.end()) {
    content.told.push_back({"Not read again after it went back on.", ""});
    return;
  }
  std::string text = "Read again after it: " + small(*again->runout_um, unit);
  std::string basis;
  if (part.limits.runout) {
    const double limit_um = part.limits.runout->value.value.um();
    text += std::string(", ") + (*again->runout_um <= limit_um ? "within" : "over") + " the limit of " +
            small(limit_um, unit) + " as read";
    basis = "limit: " + source_of(*part.limits.runout);
  }
  if (refit->foreseen_runout_um) {
    const double more_um = *again->runout_um - *refit->foreseen_runout_um;
    text += "; " + small(std::abs(more_um), unit) + (more_um < 0 ? " less" : " more") + " than foreseen";
  }
  content.told.push_back({text + ".", basis});
}

void tell_torque(OnCarContent& content, const RecordInput& input, const shop::Part& part) {
  const shop::Refit* refit = last_refit(input.file, part);
  if (refit == nullptr) return;
  if (!refit->nut_torque_nm) {
    content.told.push_back({"No torque of the wheel nuts is on record; the vehicle's own figure counts.", ""});
    return;
  }
  content.told.push_back(
      {"Wheel nuts: " + deviation_figure(*refit->nut_torque_nm, 0) + " N·m.",
       refit->torque_source.empty() ? "where the figure was read is not on record" : "from: " + refit->torque_source});
}

}  // namespace

OnCarContent on_car_of(const RecordInput& input, const shop::Part& part) {
  const Unit unit = input.settings.default_unit;
  const std::vector<CarTurn> turns = car_turns_of(input.file, part);
  const std::optional<double> play_um = bearing_play_um(input.file, part);
  OnCarContent content;
  content.readings = readings_of(turns, play_um, unit);
  content.traces = traces_of(turns, part, unit);
  tell_whose(content, turns, part, unit);
  if (!turns.empty() && !play_um) {
    content.told.push_back({"Bearing play was not read: what of the runout is play is not known.", ""});
  }
  tell_refit(content, input, part);
  tell_recheck(content, turns, input, part);
  tell_torque(content, input, part);
  content.steps = steps_of(input, part, StepsWhere::on_the_car);
  content.steps_note = steps_note_of(input, part, StepsWhere::on_the_car);
  content.any = !content.readings.rows.empty() || !content.told.empty() || !content.steps.rows.empty();
  return content;
}

}  // namespace brakewright::report
