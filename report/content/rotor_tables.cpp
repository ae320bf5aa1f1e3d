#include <algorithm>
#include <cmath>

#include "report/content/build.hpp"
#include "report/content/figures.hpp"
#include "report/content/names.hpp"

namespace brakewright::report {

namespace {

constexpr const char* kNone = "–";

std::string typed_text(const TypedLength& typed) {
  const bool bare = typed.text.find_first_not_of("0123456789.,+- ") == std::string::npos;
  return bare ? typed.text + " " + std::string(name_of(typed.unit)) : typed.text;
}

/// A place finer than typed, so that the conversion of a round limit is the limit and not a neighbour of it.
std::string converted(const TypedLength& typed) {
  constexpr std::int64_t kTenthOfAThou = 2540;
  const Unit other = typed.unit == Unit::mm ? Unit::in : Unit::mm;
  return format(typed.value, other, std::clamp<std::int64_t>(typed.resolution_nm / 10, 1, kTenthOfAThou));
}

std::string converted_ra(const TypedLength& typed) {
  if (typed.unit == Unit::mm) return deviation_figure(typed.value.um() / 0.0254, 0, false) + " µin";
  return deviation_figure(typed.value.um(), 2, false) + " µm";
}

void add_limit(Table& table, const std::string& name, const std::optional<shop::Limit>& limit, bool roughness = false) {
  if (!limit) {
    table.rows.push_back({name, kNone, "", "unknown"});
    return;
  }
  table.rows.push_back({name, typed_text(limit->value),
                        roughness ? converted_ra(limit->value) : converted(limit->value), source_of(*limit)});
}

struct ReadingColumn {
  std::string head;
  const std::vector<Spot>* spots = nullptr;
  int circle = 0;
  bool small = false;
};

std::vector<ReadingColumn> reading_columns(const AssessedRotor& rotor) {
  std::vector<ReadingColumn> columns;
  for (const AssessedStage* stage : {&rotor.before, &rotor.after}) {
    const std::vector<Spot>& sizes = sizes_of(stage->spots, *rotor.part);
    if (sizes.empty()) continue;
    const std::string name = stage == &rotor.before ? "before" : "after";
    for (int circle = 0; circle < stage->spots.circles; ++circle) {
      std::string head = name;
      if (stage->spots.circles > 1) head.append(" ").append(std::to_string(circle + 1));
      columns.push_back({head, &sizes, circle, false});
    }
  }
  for (const AssessedStage* stage : {&rotor.before, &rotor.after}) {
    const std::string dash = stage == &rotor.before ? "" : "′";
    if (!stage->spots.runout_outboard.empty())
      columns.push_back(
          {(shop::is_drum(rotor.part->kind) ? "inside" : "out") + dash, &stage->spots.runout_outboard, 0, true});
    if (!stage->spots.runout_inboard.empty()) columns.push_back({"in" + dash, &stage->spots.runout_inboard, 0, true});
  }
  return columns;
}

std::string reading_cell(const ReadingColumn& column, int point, Unit unit) {
  for (const Spot& spot : *column.spots) {
    if (spot.circle != column.circle || spot.point != point) continue;
    if (column.small) return deviation_figure(deviation(spot.mean_mm * 1000, unit), unit == Unit::mm ? 0 : 1, false);
    return thickness_figure(spot.mean_mm, unit);
  }
  return kNone;
}

/// A diameter is the same half a turn on, so that its points lie on half a turn.
double angle_of(const AssessedRotor& rotor, int point, int points) {
  return (shop::is_drum(rotor.part->kind) ? 180.0 : 360.0) * point / points;
}

std::string travel(double um, Unit unit) { return thickness_figure(um / 1000, unit); }

}  // namespace

Table limits_of(const shop::Limits& limits, bool drum) {
  Table table{.columns = {{.head = "limit", .share = 16, .whole = true},
                          {"as typed", 15, Align::right},
                          {"converted", 18, Align::right},
                          {"", 1},
                          {.head = "source", .share = 50, .lines = 2}}};
  add_limit(table, "nominal", limits.nominal);
  add_limit(table, "machine-to", limits.machine_to);
  add_limit(table, "discard", limits.discard);
  if (drum) {
    add_limit(table, "out-of-round", limits.out_of_round);
    add_limit(table, "taper", limits.taper);
  } else {
    add_limit(table, "variation", limits.variation);
    add_limit(table, "runout", limits.runout);
  }
  add_limit(table, "scoring", limits.scoring);
  add_limit(table, "finish Ra", limits.finish_ra, true);
  for (auto& row : table.rows) row.insert(row.begin() + 3, "");
  return table;
}

Table readings_of(const AssessedRotor& rotor, Unit unit) {
  const std::vector<ReadingColumn> columns = reading_columns(rotor);
  Table table{.none = "no readings yet", .more = "points more, see the job"};
  if (columns.empty()) return table;
  const bool tight = columns.size() > 6;
  table.columns = {{"", 5}};
  if (!tight) table.columns.push_back({"angle", 8, Align::right});
  int points = 0;
  for (const ReadingColumn& column : columns) {
    table.columns.push_back({column.head, column.small ? 6.0 : tight ? 9.0 : 12.0, Align::right});
    for (const Spot& spot : *column.spots) points = std::max(points, spot.point + 1);
  }
  const int planned = std::max(rotor.before.spots.points, rotor.after.spots.points);
  for (int point = 0; point < std::min(points, 72); ++point) {
    std::vector<std::string> row{std::to_string(point + 1)};
    if (!tight)
      row.push_back(deviation_figure(angle_of(rotor, point, planned), planned > 15 && 360 % planned != 0 ? 1 : 0) +
                    "°");
    for (const ReadingColumn& column : columns) row.push_back(reading_cell(column, point, unit));
    table.rows.push_back(row);
  }
  return table;
}

namespace {

/// One tool goes on the radius; the diameter changes by the double of it.
Table drum_cut_of(const AssessedRotor& drum, Table table, Unit unit) {
  table.columns[0].head = "";
  table.columns[0].whole = true;
  if (drum.cuts.empty()) return table;
  std::int64_t marks = 0;
  double um = 0;
  for (const shop::Cut& cut : drum.cuts) {
    marks += cut.outboard_marks;
    um += static_cast<double>(cut.outboard_marks) * cut.dial_um_per_mark;
  }
  table.rows.push_back({"radius", kNone, std::to_string(marks), travel(um, unit)});
  table.rows.push_back({"diameter", kNone, "", travel(2 * um, unit)});
  return table;
}

std::string drum_cut_note_of(const AssessedRotor& drum, Unit unit) {
  if (drum.cuts.empty()) return "No cut is on record.";
  std::string text = "Not measured after the cut yet.";
  if (drum.before.drum && drum.after.drum) {
    const double grown_um = (drum.after.drum->mean_mm - drum.before.drum->mean_mm) * 1000;
    text = "The mean diameter grew by " + travel(grown_um, unit) + " " + std::string(name_of(unit)) +
           "; the dial counts from first touch, on the radius.";
  }
  for (const shop::Cut& cut : drum.cuts) {
    if (!cut.note.empty()) text += " " + cut.note;
  }
  return text;
}

/// What was read after the cut against the limits, as read.
CheckContent drum_check_of(const AssessedRotor& drum, Unit unit) {
  if (drum.cuts.empty()) return {"", {{"Not cut: there is nothing to check.", ""}}};
  if (!drum.after.drum) return {"not checked", {{"Measure again after the cut, at the same places.", ""}}};
  CheckContent content{"as read"};
  const auto line = [&](const char* what, double mm, const char* name, const std::optional<shop::Limit>& limit) {
    if (!limit) return;
    content.lines.push_back({std::string(what) + " " + thickness_figure(mm, unit) + ", " + name + " " +
                                 thickness_figure(limit->value.value.mm(), unit) + " " + std::string(name_of(unit)),
                             source_of(*limit)});
  };
  const shop::Limits& limits = drum.part->limits;
  line("widest", drum.after.drum->max_mm, "machine-to", limits.machine_to);
  line("widest", drum.after.drum->max_mm, "discard", limits.discard);
  line("out-of-round", drum.after.drum->out_of_round_mm, "limit", limits.out_of_round);
  line("taper", std::abs(drum.after.drum->taper_mm), "limit", limits.taper);
  return content;
}

}  // namespace

Table cut_of(const AssessedRotor& rotor, Unit unit) {
  Table table{.columns = {{"side", 13},
                          {"needed", 9, Align::right},
                          {"turned", 9, Align::right},
                          {std::string(name_of(unit)), 9, Align::right}}};
  if (shop::is_drum(rotor.part->kind)) return drum_cut_of(rotor, std::move(table), unit);
  if (!rotor.verdict && rotor.cuts.empty()) return table;
  const bool planned = rotor.verdict && rotor.verdict->action == Action::cut;
  if (!planned && rotor.cuts.empty()) return table;
  for (const bool outboard : {true, false}) {
    std::int64_t marks = 0;
    double um = 0;
    for (const shop::Cut& cut : rotor.cuts) {
      const std::int64_t turned = outboard ? cut.outboard_marks : cut.inboard_marks;
      marks += turned;
      um += static_cast<double>(turned) *
            (outboard ? cut.dial_um_per_mark : cut.dial_inboard_um_per_mark.value_or(cut.dial_um_per_mark));
    }
    std::string needed = kNone;
    if (rotor.verdict) {
      const Cleanup& cleanup = rotor.verdict->cleanup;
      needed = std::to_string(outboard ? cleanup.outboard_marks : cleanup.inboard_marks);
    }
    table.rows.push_back({outboard ? "outboard" : "inboard", needed, rotor.cuts.empty() ? kNone : std::to_string(marks),
                          rotor.cuts.empty() ? kNone : travel(um, unit)});
  }
  return table;
}

std::string cut_note_of(const AssessedRotor& rotor, Unit unit) {
  if (shop::is_drum(rotor.part->kind)) return drum_cut_note_of(rotor, unit);
  const std::string unit_name(name_of(unit));
  if (rotor.cuts.empty()) {
    if (!rotor.verdict || rotor.verdict->action != Action::cut) return "No cut is on record.";
    return "Not cut yet. The least cut in whole marks leaves " +
           thickness_figure(rotor.verdict->cleanup.final_whole_marks_mm, unit) + " " + unit_name + ".";
  }
  std::string text;
  if (rotor.check) {
    const AfterCut& check = *rotor.check;
    text = "Removed " + travel(check.removed_mean_um, unit) + " " + unit_name + " in the mean (" +
           travel(check.removed_min_um, unit) + " to " + travel(check.removed_max_um, unit) + ")";
    if (check.planned_um) text += "; the dials took " + travel(*check.planned_um, unit);
    text += check.planned_um ? " from first touch." : ".";
    if (check.agrees_with_plan) text += *check.agrees_with_plan ? " That agrees." : " That does not agree.";
  } else {
    text = "Not measured after the cut yet.";
  }
  for (const shop::Cut& cut : rotor.cuts) {
    if (!cut.note.empty()) text += " " + cut.note;
  }
  return text;
}

namespace {

/// The check in its own two figures; the core's sentence where it is a check that has no such form.
std::string check_text(const AfterCheck& check, Unit unit) {
  const std::string length(name_of(unit));
  const auto lengths = [&](const std::string& what, const std::string& limit) {
    return what + " " + thickness_figure(check.value, unit) + ", " + limit + " " + thickness_figure(check.limit, unit) +
           " " + length;
  };
  if (check.code == "machine_to") return lengths("lowest", "machine-to");
  if (check.code == "discard") return lengths("lowest", "discard");
  if (check.code == "variation") return lengths("variation", "limit");
  return typeset(check.text);
}

}  // namespace

CheckContent check_of(const AssessedRotor& rotor, Unit unit) {
  if (shop::is_drum(rotor.part->kind)) return drum_check_of(rotor, unit);
  if (!rotor.check) {
    if (rotor.cuts.empty()) return {"", {{"Not cut: there is nothing to check.", ""}}};
    return {"not checked", {{"Measure again after the cut, at the same points.", ""}}};
  }
  CheckContent content{std::string(name_of(rotor.check->outcome))};
  for (const AfterCheck& check : rotor.check->checks) {
    std::string basis(name_of(check.outcome));
    basis.append(", p ").append(probability_figure(check.p));
    if (!check.source.empty()) basis.append(", ").append(check.source);
    content.lines.push_back({check_text(check, unit), basis});
  }
  for (const Advice& advice : rotor.check->advice) content.lines.push_back({typeset(advice.text), ""});
  return content;
}

}  // namespace brakewright::report
