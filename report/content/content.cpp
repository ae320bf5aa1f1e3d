#include "report/content/content.hpp"

#include <algorithm>

#include "report/content/build.hpp"
#include "report/content/figures.hpp"
#include "report/content/lathe_work.hpp"
#include "report/content/names.hpp"
#include "report/content/on_car.hpp"
#include "shop/words.hpp"

namespace brakewright::report {

namespace {

std::string lathe_name(const RecordInput& input) {
  std::optional<shop::Uuid> id = input.file.job.lathe_id;
  if (!id && !input.file.cuts.empty()) id = input.file.cuts.back().lathe_id;
  for (const shop::Lathe& lathe : input.lathes) {
    if (id && lathe.id == *id) return lathe.name;
  }
  return {};
}

std::string temperature_note(const Spots& spots, const char* when) {
  if (spots.plan == nullptr || !spots.plan->part_temperature_c || *spots.plan->part_temperature_c == 20) return {};
  return ", at " + deviation_figure(*spots.plan->part_temperature_c, 0, false) + " °C " + when;
}

std::string description_of(const AssessedRotor& rotor) {
  const shop::Part& part = *rotor.part;
  const auto length = [](const TypedLength& typed) {
    return format(typed.value, typed.unit, std::max<std::int64_t>(1, typed.resolution_nm));
  };
  if (shop::is_drum(part.kind)) {
    std::string text = part.construction == shop::Construction::hubless ? "hubless" : "with integral hub";
    if (part.band_width) text += ", braking band " + length(*part.band_width) + " wide";
    return text + temperature_note(rotor.before.spots, "before") + temperature_note(rotor.after.spots, "after");
  }
  std::string text = part.construction == shop::Construction::hubless ? "hubless" : "with integral hub";
  text += part.vented ? ", vented" : ", solid";
  if (part.outer_diameter) text += ", outer diameter " + length(*part.outer_diameter);
  return text + temperature_note(rotor.before.spots, "before") + temperature_note(rotor.after.spots, "after");
}

constexpr std::size_t kSpokenDigits = 16;
constexpr std::size_t kDigitsInGroup = 4;

std::string in_groups(const std::string& digits) {
  std::string text;
  for (std::size_t at = 0; at < digits.size(); at += kDigitsInGroup) {
    text += (at == 0 ? "" : " ") + digits.substr(at, kDigitsInGroup);
  }
  return text;
}

CarriedJob carried_of(const RecordInput& input) {
  const shop::Job& job = input.file.job;
  CarriedJob carried{.number = job.number, .sealed = job.sealed_at.has_value()};
  if (!carried.sealed || !input.seal_entry) return carried;
  carried.seal_entry = input.seal_entry->seq;
  carried.seal_entry_sha256 = input.seal_entry->entry_sha256;
  carried.seal_sha256 = job.seal_sha256;
  carried.public_key = input.seal_entry->public_key;
  return carried;
}

std::string sides_of(const shop::JobFile& file) {
  bool left = false;
  bool right = false;
  for (const shop::Part& part : file.parts) (part.side == shop::Side::left ? left : right) = true;
  return left && right ? "left and right" : left ? "left" : right ? "right" : "no part";
}

std::vector<std::string> cautions() {
  return {
      "Brake dust: wet or HEPA methods only, never an air line and never a dry brush.",
      "The instructions of the lathe's and the vehicle's makers, local rules and licensed practice come first, also "
      "for refitting, torque, bedding-in and the road test.",
      "Limits belong to the part that was worked on. Check each against its source before you rely on it.",
      "This sheet says what is within the limits that were entered, and how probably. It calls no part safe."};
}

}  // namespace

TitleContent title_of(const RecordInput& input) {
  const shop::Job& job = input.file.job;
  TitleContent title{.shop_name = input.settings.shop_name,
                     .job_number = std::to_string(job.number),
                     .vehicle = job.vehicle,
                     .brought_by = job.brought_by};
  title.complaint = spoken(shop::word_of(job.complaint));
  if (!job.complaint_note.empty()) title.complaint += ": " + job.complaint_note;
  title.axle_and_sides = spoken(shop::word_of(job.axle));
  title.axle_and_sides.append(", ").append(sides_of(input.file));
  for (const shop::Job& other : input.beside) {
    title.axle_and_sides += "; " + spoken(shop::word_of(other.axle)) + ": job " + std::to_string(other.number);
  }
  if (job.odometer) title.odometer = grouped(*job.odometer) + " " + spoken(shop::word_of(job.odometer_unit));
  title.worker = person_name(input, job.worker_person_id, false);
  title.lathe = lathe_name(input);
  title.opened = time_figure(job.opened_at, input.local_clock);
  title.printed = time_figure(input.printed_at, input.local_clock);
  if (job.sealed_at) {
    title.sealed = time_figure(*job.sealed_at, input.local_clock);
    title.sealed_by = person_name(input, job.sealed_by_person_id, false);
    title.seal_sha256 = job.seal_sha256;
    if (input.seal_entry) {
      title.seal_entry = std::to_string(input.seal_entry->seq);
      title.seal_entry_groups = in_groups(input.seal_entry->entry_sha256.substr(0, kSpokenDigits));
    }
  }
  title.job_url = input.job_url;
  const auto& parts = input.file.parts;
  if (!parts.empty() && shop::is_drum(parts.front().kind)) title.record = "Drum record";
  if (job.complaint == shop::Complaint::practice) title.stamps.push_back("practice");
  if (input.settings.demo) title.stamps.push_back("demo data, invented");
  return title;
}

RotorContent rotor_of(const RecordInput& input, const AssessedRotor& rotor, double full_scale) {
  const Unit unit = input.settings.default_unit;
  RotorContent content{.title = side_of(*rotor.part) + " " + name_of_kind(*rotor.part),
                       .description = description_of(rotor)};
  const bool drum = shop::is_drum(rotor.part->kind);
  const bool before = !sizes_of(rotor.before.spots, *rotor.part).empty();
  content.before = ring_of(rotor.before, *rotor.part, before ? "Before" : "Points to read", full_scale, unit);
  content.after = ring_of(rotor.after, *rotor.part, "After the cut", full_scale, unit);
  if (drum) content.ring_words = {.below = "narrower", .above = "wider"};
  if (rotor.after.spots.plan == nullptr && !rotor.after.spots.any) {
    content.after.points = content.before.points;
    content.after.circles = content.before.circles;
    content.after.clockwise = content.before.clockwise;
  }
  const int decimals = full_scale < 5 ? 1 : 0;
  content.full_scale_text = deviation_figure(full_scale, decimals, false) + " " + deviation_unit(unit);
  content.thickness = thickness_traces(rotor, unit);
  content.runout = runout_traces(rotor, unit);
  content.scale = scale_of(rotor, unit);
  content.figures_unit = "Figures, " + std::string(name_of(unit));
  content.figures = drum ? drum_figures_of(rotor, unit) : figures_of(rotor, unit);
  content.cut_table = cut_of(rotor, unit);
  content.cut_note = cut_note_of(rotor, unit);
  content.check = check_of(rotor, unit);
  content.limits = limits_of(rotor.part->limits, drum);
  content.readings = readings_of(rotor, unit);
  content.readings_note = (drum ? "diameter " : "thickness ") + std::string(name_of(unit)) + ", runout " +
                          deviation_unit(unit) + " (′ after)";
  return content;
}

Content content_of(const RecordInput& input) {
  const std::vector<AssessedRotor> rotors = assessed_rotors(input);
  Content content{.title = title_of(input), .verdict = verdict_of(input, assessed_job(input))};
  const double full_scale = full_scale_of(rotors, input.settings.default_unit);
  for (const AssessedRotor& rotor : rotors) {
    content.rotors.push_back(rotor_of(input, rotor, full_scale));
    content.rotors.back().work = lathe_work_of(input, *rotor.part);
    content.turned = content.turned || content.rotors.back().work.any;
    content.rotors.back().on_car = on_car_of(input, *rotor.part);
    content.on_car = content.on_car || content.rotors.back().on_car.any;
    content.measured = content.measured || rotor.before.spots.any || rotor.after.spots.any;
  }
  content.findings = findings_of(input);
  content.instruments = instruments_of(input);
  content.amendments = amendments_of(input);
  content.cautions = cautions();
  content.card = driver_card_of(input);
  content.carried = carried_of(input);
  content.newest_entry = input.newest_entry;
  return content;
}

}  // namespace brakewright::report
