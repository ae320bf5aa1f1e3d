#include <cmath>

#include "report/content/build.hpp"
#include "report/content/figures.hpp"

namespace brakewright::report {

namespace {

struct Cells {
  std::string value = {};
  std::string note = {};
};

template <class Make>
FigureContent row(const std::string& name, const std::string& limit, const AssessedRotor& rotor, Make make,
                  bool large = false) {
  const Cells before = make(rotor.before);
  const Cells after = make(rotor.after);
  return {name,
          limit,
          before.value.empty() ? kNone : before.value,
          before.note,
          after.value.empty() ? kNone : after.value,
          after.note,
          large};
}

std::string limit_text(const char* name, const std::optional<shop::Limit>& limit, Unit unit) {
  if (!limit) return std::string(name) + " unknown";
  return std::string(name) + " " + thickness_figure(limit->value.value.mm(), unit);
}

std::string pair_text(std::optional<double> outboard_um, std::optional<double> inboard_um, Unit unit) {
  if (!outboard_um && !inboard_um) return {};
  const int decimals = unit == Unit::mm ? 0 : 1;
  const auto figure = [&](const std::optional<double>& um) {
    return deviation_figure(deviation(*um, unit), decimals, false);
  };
  if (!outboard_um || !inboard_um) return figure(outboard_um ? outboard_um : inboard_um);
  return figure(outboard_um) + " | " + figure(inboard_um);
}

Cells lowest(const AssessedStage& stage, Unit unit) {
  if (!stage.thickness) return {};
  return {thickness_figure(stage.thickness->min_mm, unit), in_other_unit(stage.thickness->min_mm, unit)};
}

Cells mean(const AssessedStage& stage, Unit unit) {
  if (!stage.thickness) return {};
  return {thickness_figure(stage.thickness->mean_mm, unit), in_other_unit(stage.thickness->mean_mm, unit)};
}

Cells over_discard(const AssessedStage& stage) {
  if (!stage.thickness || !stage.thickness->p_min_above_discard) return {};
  return {probability_figure(*stage.thickness->p_min_above_discard), "probability"};
}

Cells variation(const AssessedStage& stage, Unit unit) {
  if (!stage.thickness) return {};
  return {thickness_figure(stage.thickness->variation_mm, unit), "high less low"};
}

Cells truly(const AssessedStage& stage, Unit unit) {
  if (!stage.thickness) return {};
  const Posterior& range = stage.thickness->true_variation_mm;
  return {thickness_figure(range.low95, unit) + "–" + thickness_figure(range.high95, unit),
          "middle " + thickness_figure(range.median, unit)};
}

Cells within(const AssessedStage& stage) {
  if (!stage.thickness || !stage.thickness->p_variation_within) return {};
  std::string note;
  if (stage.thickness->variation_verdict) note = name_of(*stage.thickness->variation_verdict);
  return {probability_figure(*stage.thickness->p_variation_within), note};
}

Cells taper(const AssessedStage& stage, Unit unit) {
  if (!stage.thickness || stage.thickness->circles.size() < 2) return {};
  return {deviation_figure(deviation(stage.thickness->taper_mm * 1000, unit), unit == Unit::mm ? 0 : 1, true) + " " +
              deviation_unit(unit),
          "outer less inner"};
}

/// Which faces the figures of `pair_text` belong to.
std::string faces_of(bool outboard, bool inboard) {
  if (outboard && inboard) return "out | in";
  return outboard ? "outboard" : inboard ? "inboard" : "";
}

Cells runout(const AssessedStage& stage, Unit unit) {
  Cells cells{pair_text(stage.runout_outboard_um, stage.runout_inboard_um, unit)};
  if (cells.value.empty()) return cells;
  const bool both = stage.runout_outboard_um && stage.runout_inboard_um;
  cells.note = both ? "out | in" : stage.runout_outboard_um ? "out" : "in";
  if (stage.spots.plan != nullptr) {
    cells.note += stage.spots.plan->runout_place == shop::RunoutPlace::on_car ? ", on car" : ", on arbor";
  }
  return cells;
}

std::optional<double> um_of(const std::optional<double>& mm) {
  return mm ? std::optional<double>(*mm * 1000) : std::nullopt;
}

Cells scoring(const AssessedStage& stage, Unit unit) {
  const Spots& spots = stage.spots;
  return {pair_text(um_of(spots.scoring_outboard_mm), um_of(spots.scoring_inboard_mm), unit),
          faces_of(spots.scoring_outboard_mm.has_value(), spots.scoring_inboard_mm.has_value())};
}

std::string ra_figure(double mm, Unit unit) {
  return unit == Unit::mm ? deviation_figure(mm * 1000, 2, false) : deviation_figure(mm * 1e6 / 25.4, 0, false);
}

std::string ra_unit(Unit unit) { return unit == Unit::mm ? "µm" : "µin"; }

Cells finish(const AssessedStage& stage, Unit unit) {
  const auto& outboard = stage.spots.roughness_outboard_mm;
  const auto& inboard = stage.spots.roughness_inboard_mm;
  if (!outboard && !inboard) return {};
  const std::string faces = faces_of(outboard.has_value(), inboard.has_value());
  if (!outboard || !inboard) return {ra_figure(outboard ? *outboard : *inboard, unit), faces};
  return {ra_figure(*outboard, unit) + " | " + ra_figure(*inboard, unit), faces};
}

std::string small_limit(const std::optional<shop::Limit>& limit, Unit unit) {
  if (!limit) return "limit unknown, " + deviation_unit(unit);
  return "limit " + deviation_figure(deviation(limit->value.value.um(), unit), unit == Unit::mm ? 0 : 1, false) + " " +
         deviation_unit(unit);
}

std::string ra_limit(const shop::Limits& limits, Unit unit) {
  if (!limits.finish_ra) return "limit unknown, " + ra_unit(unit);
  return "limit " + ra_figure(limits.finish_ra->value.value.mm(), unit) + " " + ra_unit(unit);
}

Cells widest(const AssessedStage& stage, Unit unit) {
  if (!stage.drum) return {};
  return {thickness_figure(stage.drum->max_mm, unit), in_other_unit(stage.drum->max_mm, unit)};
}

Cells probability(const std::optional<double>& p) {
  if (!p) return {};
  return {probability_figure(*p), "probability"};
}

Cells mean_diameter(const AssessedStage& stage, Unit unit) {
  if (!stage.drum) return {};
  return {thickness_figure(stage.drum->mean_mm, unit), in_other_unit(stage.drum->mean_mm, unit)};
}

Cells out_of_round(const AssessedStage& stage, Unit unit) {
  if (!stage.drum) return {};
  std::string depths;
  for (const drum::DepthFigures& depth : stage.drum->depths) {
    depths += (depths.empty() ? "" : " | ") + thickness_figure(depth.out_of_round_mm, unit);
  }
  return {thickness_figure(stage.drum->out_of_round_mm, unit), stage.drum->depths.size() > 1 ? depths : ""};
}

/// A drum has one surface: nothing needs telling which.
Cells inside(Cells cells) { return {cells.value}; }

/// A drum that is wider at its open edge is bell-mouthed.
Cells open_less_closed(const AssessedStage& stage, Unit unit) {
  if (!stage.drum || stage.drum->depths.size() < 2) return {};
  const double wider_mm = -stage.drum->taper_mm;
  const std::string sign = wider_mm < 0 ? "−" : "+";
  std::string note = wider_mm > 0 ? "open edge wider" : wider_mm < 0 ? "closed edge wider" : "";
  if (stage.drum->barrel_mm > 0) note = "barrel " + thickness_figure(stage.drum->barrel_mm, unit);
  return {sign + thickness_figure(std::abs(wider_mm), unit), note};
}

}  // namespace

std::vector<FigureContent> drum_figures_of(const AssessedRotor& drum, Unit unit) {
  const shop::Limits& limits = drum.part->limits;
  using Stage = const AssessedStage&;
  const auto of = [](std::optional<double> drum::Figures::*p) {
    return [p](Stage s) { return s.drum ? probability((*s.drum).*p) : Cells{}; };
  };
  std::vector<FigureContent> rows;
  rows.push_back(row(
      "widest", limit_text("up to", limits.machine_to, unit), drum, [&](Stage s) { return widest(s, unit); }, true));
  rows.push_back(
      row("under discard", limit_text("discard", limits.discard, unit), drum, of(&drum::Figures::p_under_discard)));
  rows.push_back(row("mean", "", drum, [&](Stage s) { return mean_diameter(s, unit); }));
  rows.push_back(row(
      "out-of-round", limit_text("limit", limits.out_of_round, unit), drum,
      [&](Stage s) { return out_of_round(s, unit); }, true));
  rows.push_back(row("within limit", "probability", drum, of(&drum::Figures::p_out_of_round_within)));
  rows.push_back(row("bell-mouth", limit_text("taper limit", limits.taper, unit), drum,
                     [&](Stage s) { return open_less_closed(s, unit); }));
  rows.push_back(row("within limit", "probability", drum, of(&drum::Figures::p_taper_within)));
  rows.push_back(
      row("scoring", small_limit(limits.scoring, unit), drum, [&](Stage s) { return inside(scoring(s, unit)); }));
  rows.push_back(row("finish Ra", ra_limit(limits, unit), drum, [&](Stage s) { return inside(finish(s, unit)); }));
  return rows;
}

std::vector<FigureContent> figures_of(const AssessedRotor& rotor, Unit unit) {
  const shop::Limits& limits = rotor.part->limits;
  using Stage = const AssessedStage&;
  std::vector<FigureContent> rows;
  rows.push_back(row(
      "lowest", limit_text("machine-to", limits.machine_to, unit), rotor, [&](Stage s) { return lowest(s, unit); },
      true));
  rows.push_back(row("over discard", limit_text("discard", limits.discard, unit), rotor, over_discard));
  rows.push_back(row("mean", "", rotor, [&](Stage s) { return mean(s, unit); }));
  rows.push_back(row(
      "variation", limit_text("limit", limits.variation, unit), rotor, [&](Stage s) { return variation(s, unit); },
      true));
  rows.push_back(row("truly", "95 % range", rotor, [&](Stage s) { return truly(s, unit); }));
  rows.push_back(row("within limit", "probability", rotor, within));
  if (rotor.before.spots.circles > 1 || rotor.after.spots.circles > 1) {
    rows.push_back(row("taper", "", rotor, [&](Stage s) { return taper(s, unit); }));
  }
  rows.push_back(row("runout", small_limit(limits.runout, unit), rotor, [&](Stage s) { return runout(s, unit); }));
  rows.push_back(row("scoring", small_limit(limits.scoring, unit), rotor, [&](Stage s) { return scoring(s, unit); }));
  rows.push_back(row("finish Ra", ra_limit(limits, unit), rotor, [&](Stage s) { return finish(s, unit); }));
  return rows;
}

}  // namespace brakewright::report
