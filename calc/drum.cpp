#include "core/drum/drum.hpp"

#include <nlohmann/json.hpp>

#include "calc/answers.hpp"
#include "calc/drum_answers.hpp"
#include "calc/job_input.hpp"
#include "calc/methods.hpp"
#include "core/drum/bore_plan.hpp"
#include "core/drum/cut_check.hpp"
#include "core/input_error.hpp"

namespace brakewright::calc {
namespace {

drum::Limits read_drum_limits(Reader reader) {
  const auto length = [&](std::string_view name) -> std::optional<LengthLimit> {
    const auto inner = reader.optional_object(name);
    if (!inner) return std::nullopt;
    return read_length_limit(*inner);
  };
  drum::Limits limits{.nominal = length("nominal"),
                      .machine_to = length("machine_to"),
                      .discard = length("discard"),
                      .out_of_round = length("out_of_round"),
                      .taper = length("taper"),
                      .scoring = length("scoring")};
  if (auto finish = reader.optional_object("finish")) limits.finish = read_roughness_limit(*finish);
  reader.done();
  return limits;
}

RunoutReadings read_inside(Reader reader) {
  RunoutReadings readings{.carrier = Carrier::arbor, .outboard = {}, .indicator = {}};
  Reader inside = reader.object("inside");
  readings.outboard = {.angles_deg = inside.numbers("angles_deg"), .values_um = inside.numbers("values_um")};
  inside.done();
  if (auto indicator = reader.optional_object("indicator")) {
    readings.indicator.resolution_um = indicator->number_or("resolution_um", readings.indicator.resolution_um);
    readings.indicator.repeatability_um = indicator->number_or("repeatability_um", readings.indicator.repeatability_um);
    indicator->done();
  }
  reader.done();
  return readings;
}

std::vector<drum::Diameter> read_diameters(Reader& reader) {
  std::vector<drum::Diameter> diameters;
  for (Reader& reading : reader.objects("readings")) {
    diameters.push_back({.depth_mm = reading.number("depth_mm"),
                         .angle_deg = reading.number("angle_deg"),
                         .values_mm = reading.numbers("values_mm")});
    reading.done();
  }
  return diameters;
}

/// What was read after the cut, beside the drum as it was; `before` needs its own figures still.
drum::CutCheckInput read_cut(Reader& reader, const drum::Drum& before) {
  drum::CutCheckInput cut{.before = before, .after = before};
  cut.after.readings = read_diameters(reader);
  if (auto gauge = reader.optional_object("gauge")) cut.after.gauge = read_micrometer(*gauge);
  cut.after.part_temperature_c = reader.number_or("part_temperature_c", 20);
  cut.marks = reader.optional_number("marks");
  cut.planned_final_mm = reader.optional_number("planned_final_mm");
  cut.ra_um = reader.optional_number("ra_um");
  cut.u_ra_relative = reader.number_or("u_ra_relative", cut.u_ra_relative);
  reader.done();
  return cut;
}

/// What core/drum calls "before" is a part here, and "after" a cut.
InputError own_words(const InputError& refusal, std::size_t index) {
  const std::string& field = refusal.field();
  const std::string place = "[" + std::to_string(index) + "]";
  if (field.rfind("before", 0) == 0) return {refusal.code(), "parts" + place + field.substr(6), refusal.what()};
  if (field.rfind("after", 0) == 0) return {refusal.code(), "cuts" + place + field.substr(5), refusal.what()};
  return refusal.within("cuts" + place);
}

/// The check of each drum, in the order of the parts.
Json checks_of(std::vector<Reader>& readers, const drum::DrumInput& input) {
  if (readers.size() > input.parts.size()) {
    throw InputError("sizes_differ", "cuts", "one for each drum, in the order of parts, and no more");
  }
  Json checks = Json::array();
  for (std::size_t i = 0; i < readers.size(); ++i) {
    drum::CutCheckInput cut = read_cut(readers[i], input.parts[i]);
    cut.dial_um_per_mark = input.lathe.dial_um_per_mark;
    cut.dial_repeatability_um = input.lathe.dial_repeatability_um;
    cut.draws = {.confidence = input.confidence, .seed = input.seed, .count = input.draws};
    try {
      checks.push_back(json_of(drum::check_drum_cut(cut)));
    } catch (const InputError& refusal) {
      throw own_words(refusal, i);
    }
  }
  return checks;
}

drum::Drum read_drum(Reader& reader, std::size_t index) {
  drum::Drum part;
  part.name = reader.optional_text("name").value_or("drum " + std::to_string(index + 1));
  if (auto limits = reader.optional_object("limits")) part.limits = read_drum_limits(*limits);
  part.readings = read_diameters(reader);
  part.gauge = read_micrometer(reader.object("gauge"));
  part.part_temperature_c = reader.number_or("part_temperature_c", 20);
  if (auto trace = reader.optional_object("arbor_runout")) part.arbor_runout = read_inside(*trace);
  if (auto scoring = reader.optional_object("scoring")) {
    part.score_um = scoring->number_or("depth_um", 0);
    part.u_score_um = scoring->number_or("u_um", 0);
    scoring->done();
  }
  for (Reader& finding : reader.optional_objects("findings")) {
    part.findings.push_back({.kind = finding.text("kind"), .reject = finding.boolean_or("reject", false)});
    finding.done();
  }
  reader.done();
  return part;
}

void read_lathe(std::optional<Reader> reader, Lathe& lathe) {
  if (!reader) return;
  const auto reads = reader->optional_one_of("dial_reads", {"radius", "diameter"});
  lathe.dial_um_per_mark = reader->number_or("dial_um_per_mark", lathe.dial_um_per_mark);
  if (reads && *reads == "diameter") lathe.dial_um_per_mark /= 2;
  lathe.dial_repeatability_um = reader->number_or("dial_repeatability_um", lathe.dial_repeatability_um);
  lathe.mount_runout_um = reader->number_or("mount_runout_um", lathe.mount_runout_um);
  reader->done();
}

/// What the planner needs beside the drum itself.
drum::BorePlanInput read_plan(Reader reader) {
  drum::BorePlanInput plan;
  plan.width_mm = reader.number("width_mm");
  plan.approach_mm = reader.number_or("approach_mm", 0);
  Reader lathe = reader.object("lathe");
  plan.speeds_rpm = lathe.numbers("speeds_rpm");
  plan.feeds_mm_per_rev = lathe.numbers("feeds_mm_per_rev");
  lathe.done();
  Reader insert = reader.object("insert");
  plan.nose_radius_mm = insert.number("nose_radius_mm");
  plan.max_speed_m_per_min = insert.number("max_speed_m_per_min");
  insert.done();
  Reader rules = reader.object("rules");
  plan.rough_max_um = rules.number_or("rough_max_um", plan.rough_max_um);
  plan.finish_min_um = rules.number_or("finish_min_um", plan.finish_min_um);
  plan.finish_max_um = rules.number_or("finish_max_um", plan.finish_max_um);
  plan.ra_target_um = rules.number("ra_target_um");
  plan.ra_factor = rules.number_or("ra_factor", plan.ra_factor);
  rules.done();
  reader.done();
  return plan;
}

/// The passes of each drum, to one size where both are cut.
Json plans_of(drum::BorePlanInput plan, const drum::DrumInput& input, const drum::Drums& found) {
  Json plans = Json::array();
  for (std::size_t i = 0; i < found.parts.size(); ++i) {
    const drum::DrumVerdict& part = found.parts[i];
    plan.diameter_mm = part.max_mm;
    plan.first_touch_mm = part.final_mm - part.marks_on_diameter_um / 1000;
    plan.diameter_mm = std::max(plan.diameter_mm, plan.first_touch_mm);
    plan.needed_um = part.marks_on_radius_um + (found.pair ? found.pair->extra_um[i] : 0);
    plan.machine_to_mm.reset();
    if (part.machine_to) plan.machine_to_mm = part.machine_to->value_mm;
    plan.dial_um_per_mark = input.lathe.dial_um_per_mark;
    try {
      plans.push_back(json_of(drum::plan_bore(plan), nullptr));
    } catch (const InputError& error) {
      if (error.code() != "no_plan") throw;
      plans.push_back(json_of(drum::BorePlan{}, &error));
    }
  }
  return plans;
}

}  // namespace

Json run_drum(const Json& input) {
  Reader reader(input);
  drum::DrumInput in;
  for (Reader& part : reader.objects("parts")) in.parts.push_back(read_drum(part, in.parts.size()));
  in.complaint = read_complaint(reader);
  read_lathe(reader.optional_object("lathe"), in.lathe);
  in.margin_um = reader.number_or("margin_um", 0);
  if (auto allowance = reader.optional_object("house_allowance")) in.house_allowance = read_length_limit(*allowance);
  in.wear_rate = read_wear_rate(reader.optional_object("wear_rate"));
  if (auto shoe = reader.optional_object("shoe")) {
    in.shoe = drum::Shoe{.lining_radius_mm = shoe->number("lining_radius_mm")};
    in.shoe->arc_deg = shoe->number_or("arc_deg", in.shoe->arc_deg);
    shoe->done();
  }
  std::optional<drum::BorePlanInput> plan;
  if (auto given = reader.optional_object("plan")) plan = read_plan(*given);
  read_draws(reader, in.confidence, in.seed, in.draws);
  std::vector<Reader> cuts = reader.optional_objects("cuts");
  reader.done();
  const drum::Drums found = drum::judge_drums(in);
  Json answer = json_of(found);
  if (plan) answer["plans"] = plans_of(*plan, in, found);
  if (!cuts.empty()) answer["cuts"] = checks_of(cuts, in);
  return answer;
}

}  // namespace brakewright::calc
