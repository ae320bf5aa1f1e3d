#include <algorithm>
#include <cmath>

#include "report/content/build.hpp"
#include "report/content/figures.hpp"
#include "report/content/names.hpp"

namespace brakewright::report {

namespace {

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

std::string notes_of(const std::vector<shop::Cut>& cuts) {
  std::string text;
  for (const shop::Cut& cut : cuts) {
    if (!cut.note.empty()) text += " " + cut.note;
  }
  return text;
}

/// One tool goes on the radius; the diameter changes by the double of it.
Table drum_cut_of(const AssessedRotor& drum, Table table, Unit unit) {
  table.columns[0].head = "";
  table.columns[0].whole = true;
  const auto& verdict = drum.drum_verdict;
  const bool planned = verdict && verdict->action == Action::cut;
  if (!planned && drum.cuts.empty()) return table;
  std::int64_t marks = 0;
  double um = 0;
  for (const shop::Cut& cut : drum.cuts) {
    marks += cut.outboard_marks;
    um += static_cast<double>(cut.outboard_marks) * cut.dial_um_per_mark;
  }
  const bool cut = !drum.cuts.empty();
  const std::string needed = verdict ? std::to_string(verdict->marks) : kNone;
  table.rows.push_back({"radius", needed, cut ? std::to_string(marks) : kNone, cut ? travel(um, unit) : kNone});
  table.rows.push_back({"diameter", "", "", cut ? travel(2 * um, unit) : kNone});
  return table;
}

std::string drum_cut_note_of(const AssessedRotor& drum, Unit unit) {
  const std::string unit_name(name_of(unit));
  if (drum.cuts.empty()) {
    if (!drum.drum_verdict || drum.drum_verdict->action != Action::cut) return "No cut is on record.";
    return "Not cut yet. The least cut in whole marks leaves " + thickness_figure(drum.drum_verdict->final_mm, unit) +
           " " + unit_name + ".";
  }
  std::string text = "Not measured after the cut yet.";
  if (const auto& check = drum.drum_check) {
    text = "The diameter grew by " + travel(check->taken_mean_um, unit) + " " + unit_name + " in the mean (" +
           travel(check->taken_min_um, unit) + " to " + travel(check->taken_max_um, unit) + ")";
    if (check->planned_um) text += "; the dial stands for " + travel(*check->planned_um, unit) + " from first touch";
    text += ".";
    if (check->agrees_with_plan) text += *check->agrees_with_plan ? " That agrees." : " That does not agree.";
  }
  return text + notes_of(drum.cuts);
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
  return text + notes_of(rotor.cuts);
}

namespace {

/// The check in its own two figures; the core's sentence where it is a check that has no such form.
/// @param farthest  what a part's most worn spot is called: "lowest", "widest"
std::string check_text(const AfterCheck& check, const std::string& farthest, Unit unit) {
  const std::string length(name_of(unit));
  const auto lengths = [&](const std::string& what, const std::string& limit) {
    return what + " " + thickness_figure(check.value, unit) + ", " + limit + " " + thickness_figure(check.limit, unit) +
           " " + length;
  };
  if (check.code == "machine_to") return lengths(farthest, "machine-to");
  if (check.code == "discard") return lengths(farthest, "discard");
  if (check.code == "variation" || check.code == "taper") return lengths(check.code, "limit");
  if (check.code == "out_of_round") return lengths("out-of-round", "limit");
  return typeset(check.text);
}

/// @param check  AfterCut, or that of a drum
template <class Check>
CheckContent check_content(const Check& check, const std::string& farthest, Unit unit) {
  CheckContent content{std::string(name_of(check.outcome))};
  for (const AfterCheck& one : check.checks) {
    std::string basis(name_of(one.outcome));
    basis.append(", p ").append(probability_figure(one.p));
    if (!one.source.empty()) basis.append(", ").append(one.source);
    content.lines.push_back({check_text(one, farthest, unit), basis});
  }
  for (const Advice& advice : check.advice) content.lines.push_back({typeset(advice.text), ""});
  return content;
}

}  // namespace

CheckContent check_of(const AssessedRotor& rotor, Unit unit) {
  if (rotor.drum_check) return check_content(*rotor.drum_check, "widest", unit);
  if (rotor.check) return check_content(*rotor.check, "lowest", unit);
  if (rotor.cuts.empty()) return {"", {{"Not cut: there is nothing to check.", ""}}};
  const char* places = shop::is_drum(rotor.part->kind) ? "places" : "points";
  return {"not checked", {{std::string("Measure again after the cut, at the same ") + places + ".", ""}}};
}

}  // namespace brakewright::report
