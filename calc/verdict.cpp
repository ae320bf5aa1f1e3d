#include "core/verdict/verdict.hpp"

#include <nlohmann/json.hpp>

#include "calc/answers.hpp"
#include "calc/job_input.hpp"
#include "calc/methods.hpp"

namespace brakewright::calc {
namespace {

std::optional<RunoutReadings> read_runout(std::optional<Reader> reader, Carrier carrier) {
  if (!reader) return std::nullopt;
  RunoutReadings readings{.carrier = carrier, .outboard = {}, .indicator = {}};
  Reader outboard = reader->object("outboard");
  readings.outboard = {.angles_deg = outboard.numbers("angles_deg"), .values_um = outboard.numbers("values_um")};
  outboard.done();
  if (auto indicator = reader->optional_object("indicator")) {
    readings.indicator.resolution_um = indicator->number_or("resolution_um", readings.indicator.resolution_um);
    readings.indicator.repeatability_um = indicator->number_or("repeatability_um", readings.indicator.repeatability_um);
    indicator->done();
  }
  reader->done();
  return readings;
}

Scoring read_scoring(std::optional<Reader> reader) {
  Scoring scoring;
  if (!reader) return scoring;
  scoring.outboard_um = reader->number_or("outboard_um", 0);
  scoring.inboard_um = reader->number_or("inboard_um", 0);
  scoring.u_um = reader->number_or("u_um", 0);
  reader->done();
  return scoring;
}

PartReadings read_part(Reader& reader, std::size_t index) {
  PartReadings part;
  part.name = reader.optional_text("name").value_or("part " + std::to_string(index + 1));
  if (auto limits = reader.optional_object("limits")) part.limits = read_limits(*limits);
  part.readings = read_points(reader.objects("readings"));
  part.micrometer = read_micrometer(reader.object("micrometer"));
  part.part_temperature_c = reader.number_or("part_temperature_c", 20);
  part.car_runout = read_runout(reader.optional_object("car_runout"), Carrier::car);
  part.arbor_runout = read_runout(reader.optional_object("arbor_runout"), Carrier::arbor);
  part.scoring = read_scoring(reader.optional_object("scoring"));
  for (Reader& finding : reader.optional_objects("findings")) {
    part.findings.push_back({.kind = finding.text("kind"), .reject = finding.boolean_or("reject", false)});
    finding.done();
  }
  reader.done();
  return part;
}

Lathe read_lathe(std::optional<Reader> reader) {
  Lathe lathe;
  if (!reader) return lathe;
  lathe.dial_um_per_mark = reader->number_or("dial_um_per_mark", lathe.dial_um_per_mark);
  lathe.dial_inboard_um_per_mark = reader->optional_number("dial_inboard_um_per_mark");
  lathe.dial_repeatability_um = reader->number_or("dial_repeatability_um", lathe.dial_repeatability_um);
  lathe.mount_runout_um = reader->number_or("mount_runout_um", lathe.mount_runout_um);
  reader->done();
  return lathe;
}

}  // namespace

Json run_verdict(const Json& input) {
  Reader reader(input);
  VerdictInput verdict;
  for (Reader& part : reader.objects("parts")) verdict.parts.push_back(read_part(part, verdict.parts.size()));
  verdict.complaint = read_complaint(reader);
  verdict.lathe = read_lathe(reader.optional_object("lathe"));
  verdict.margin_um = reader.number_or("margin_um", 0);
  if (auto allowance = reader.optional_object("house_allowance"))
    verdict.house_allowance = read_length_limit(*allowance);
  verdict.wear_rate = read_wear_rate(reader.optional_object("wear_rate"));
  read_draws(reader, verdict.confidence, verdict.seed, verdict.draws);
  reader.done();
  return to_json(judge(verdict));
}

}  // namespace brakewright::calc
