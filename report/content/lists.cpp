#include <algorithm>
#include <set>

#include "report/content/build.hpp"
#include "report/content/figures.hpp"
#include "report/content/names.hpp"
#include "shop/times.hpp"
#include "shop/words.hpp"

namespace brakewright::report {

namespace {

std::string side_in(const shop::JobFile& file, const shop::Uuid& part_id) {
  for (const shop::Part& part : file.parts) {
    if (part.id == part_id) return side_of(part);
  }
  return "Part unknown";
}

/// Instruments that the job's plans and readings name, in the order of the shop's list.
std::vector<const shop::Instrument*> used_instruments(const RecordInput& input) {
  std::set<shop::Uuid> ids;
  for (const shop::MeasuringPlan& plan : input.file.plans) {
    if (plan.thickness_instrument_id) ids.insert(*plan.thickness_instrument_id);
    if (plan.runout_instrument_id) ids.insert(*plan.runout_instrument_id);
  }
  for (const shop::Reading& reading : input.file.readings) {
    if (reading.instrument_id) ids.insert(*reading.instrument_id);
  }
  std::vector<const shop::Instrument*> used;
  for (const shop::Instrument& instrument : input.instruments) {
    if (ids.count(instrument.id) > 0) used.push_back(&instrument);
  }
  return used;
}

std::string zero_checks_of(const RecordInput& input, const shop::Instrument& instrument) {
  std::set<shop::Uuid> named;
  for (const shop::Reading& reading : input.file.readings) {
    if (reading.zero_check_id && reading.instrument_id == instrument.id) named.insert(*reading.zero_check_id);
  }
  std::vector<const shop::ZeroCheck*> checks;
  for (const shop::ZeroCheck& check : input.zero_checks) {
    if (check.instrument_id == instrument.id && named.count(check.id) > 0) checks.push_back(&check);
  }
  if (checks.empty()) return "none on record";
  std::sort(checks.begin(), checks.end(),
            [](const shop::ZeroCheck* a, const shop::ZeroCheck* b) { return a->at < b->at; });
  const shop::ZeroCheck& last = *checks.back();
  std::string text = format(last.error.value, last.error.unit, std::max<std::int64_t>(1, last.error.resolution_nm));
  text += ", " + time_figure(last.at, input.local_clock).substr(5, 11);
  if (checks.size() > 1) text += " (" + std::to_string(checks.size()) + ")";
  return text;
}

std::string due_of(const RecordInput& input, const shop::Instrument& instrument) {
  if (!instrument.calibration_due_on) return "–";
  const std::chrono::sys_days due(*instrument.calibration_due_on);
  const std::string text = shop::to_text(*instrument.calibration_due_on);
  const bool overdue =
      std::any_of(input.file.readings.begin(), input.file.readings.end(), [&](const shop::Reading& reading) {
        return reading.instrument_id == instrument.id && reading.taken_at >= due + std::chrono::days(1);
      });
  return overdue ? text + " overdue" : text;
}

}  // namespace

std::vector<ReasonContent> findings_of(const RecordInput& input) {
  std::vector<ReasonContent> findings;
  for (const shop::Finding& finding : input.file.findings) {
    if (finding.withdrawn_at) continue;
    std::string text = side_in(input.file, finding.part_id) + ": " + spoken(shop::word_of(finding.kind));
    if (finding.judgement == shop::Judgement::reject) text += " – reject";
    if (!finding.note.empty()) text += ". " + finding.note;
    findings.push_back(
        {text, person_name(input, finding.by_person_id, false) + ", " + time_figure(finding.at, input.local_clock)});
  }
  return findings;
}

std::vector<ReasonContent> amendments_of(const RecordInput& input) {
  std::vector<ReasonContent> amendments;
  for (const shop::Amendment& amendment : input.file.amendments) {
    amendments.push_back({amendment.text, person_name(input, amendment.by_person_id, true) + ", " +
                                              time_figure(amendment.at, input.local_clock)});
  }
  return amendments;
}

Table instruments_of(const RecordInput& input) {
  Table table{.columns = {{.head = "instrument", .share = 31, .lines = 2},
                          {"resolution", 14, Align::right},
                          {"", 1},
                          {"calibrated", 15},
                          {.head = "due", .share = 22, .whole = true},
                          {.head = "zero check", .share = 28, .whole = true}},
              .none = "no instrument named yet",
              .more = "more, see the job"};
  for (const shop::Instrument* instrument : used_instruments(input)) {
    const bool roughness = instrument->kind == shop::InstrumentKind::roughness_tester;
    const std::string serial = instrument->serial.empty() ? "" : ", " + instrument->serial;
    const std::string resolution = roughness ? deviation_figure(instrument->resolution.um(), 2, false) + " µm"
                                             : format(instrument->resolution, instrument->default_unit,
                                                      std::max<std::int64_t>(1, instrument->resolution.nm));
    table.rows.push_back({instrument->name + serial, resolution, "",
                          instrument->calibrated_on ? shop::to_text(*instrument->calibrated_on) : "–",
                          due_of(input, *instrument), zero_checks_of(input, *instrument)});
  }
  return table;
}

}  // namespace brakewright::report
