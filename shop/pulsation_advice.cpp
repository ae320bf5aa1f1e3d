#include "shop/pulsation_advice.hpp"

#include <algorithm>
#include <map>

#include "core/input_error.hpp"
#include "core/thickness/figures.hpp"
#include "shop/assess_inputs.hpp"
#include "shop/car_traces.hpp"
#include "shop/words.hpp"

namespace brakewright::shop {
namespace {

constexpr double kLeastLimit_um = 0.1;
constexpr std::size_t kFewestDraws = 100;  ///< nothing that is drawn is used here
constexpr double kFrequencyU = 0.05;
constexpr double kLeastSpeed_km_per_h = 5, kMostSpeed_km_per_h = 300;
constexpr double kLeastFrequency_hz = 0.2, kMostFrequency_hz = 200;

pulsation::Felt felt_of(const std::optional<FeltIn>& felt) {
  if (!felt) return pulsation::Felt::unknown;
  switch (*felt) {
    case FeltIn::pedal:
      return pulsation::Felt::pedal;
    case FeltIn::steering_wheel:
      return pulsation::Felt::wheel;
    case FeltIn::seat:
      return pulsation::Felt::seat;
    case FeltIn::body:
      break;
  }
  return pulsation::Felt::unknown;
}

std::string corner_name(const JobFile& file, const Part& part) {
  return std::string(word_of(file.job.axle)) + " " + std::string(word_of(part.side));
}

/// A drum's diameters before the cut, at the depth where they differ most.
void put_diameters(const JobFile& file, const Part& part, const AssessContext& context, pulsation::Corner& corner) {
  const drum::Drum drum = drum_of(file, part, Stage::before, context);
  if (drum.readings.empty()) return;
  const drum::Figures found = drum::reduce_diameters(drum, {.count = kFewestDraws});
  const auto worst = std::max_element(found.depths.begin(), found.depths.end(), [](const auto& a, const auto& b) {
    return a.out_of_round_mm < b.out_of_round_mm;
  });
  corner.read = true;
  corner.variation = worst->harmonics;
  corner.blind_orders = worst->blind_orders;
}

void put_thickness(const JobFile& file, const Part& part, const AssessContext& context, pulsation::Corner& corner) {
  ThicknessInput input;
  input.readings = thickness_points(file, part, Stage::before, context);
  if (input.readings.empty()) return;
  input.micrometer = micrometer_of(file, part.id, Stage::before, context);
  input.part_temperature_c = temperature_of(file, part.id, Stage::before);
  input.draws = kFewestDraws;
  const Thickness found = reduce_thickness(input);
  corner.read = true;
  corner.variation = found.harmonics;
  corner.blind_orders = found.blind_orders;
}

/// Variation and runout of one part as it came.
pulsation::Corner corner_of(const JobFile& file, const Part& part, const AssessContext& context,
                            std::vector<Advice>& advice) {
  pulsation::Corner corner{.name = corner_name(file, part), .front = file.job.axle == Axle::front};
  const bool drum = is_drum(part.kind);
  const auto& limit = drum ? part.limits.out_of_round : part.limits.variation;
  if (limit) corner.variation_limit_um = std::max(kLeastLimit_um, limit->value.value.um());
  try {
    drum ? put_diameters(file, part, context, corner) : put_thickness(file, part, context, corner);
  } catch (const InputError& refusal) {
    advice.push_back({"thickness_not_counted", "What was read at the " + corner.name + " cannot be counted with: " +
                                                   refusal.what() + ". Take back or correct the reading."});
  }
  if (!drum) corner.runout_um = car_traces_of(file, part, context).came_um;
  return corner;
}

bool any_drum(const JobFile& own, const std::vector<JobFile>& beside) {
  const auto has_drum = [](const JobFile& file) {
    return std::any_of(file.parts.begin(), file.parts.end(), [](const Part& part) { return is_drum(part.kind); });
  };
  return has_drum(own) || std::any_of(beside.begin(), beside.end(), has_drum);
}

struct Known {
  std::vector<pulsation::Corner> corners;
  std::vector<PulsationCorner> records;  ///< in the same order
};

Known corners_of(const JobFile& own, const std::vector<JobFile>& beside, const AssessContext& context,
                 std::vector<Advice>& advice) {
  constexpr std::size_t kMostCorners = 12;
  Known known;
  std::vector<const JobFile*> files{&own};
  for (const JobFile& other : beside) files.push_back(&other);
  std::map<std::string, int> met;
  for (const JobFile* file : files) {
    for (const Part& part : file->parts) ++met[corner_name(*file, part)];
  }
  for (const JobFile* file : files) {
    for (const Part& part : file->parts) {
      if (known.corners.size() == kMostCorners) return known;
      pulsation::Corner corner = corner_of(*file, part, context, advice);
      if (met[corner.name] > 1) corner.name += " (job " + std::to_string(file->job.number) + ")";
      known.records.push_back({.part_id = part.id,
                               .job_id = file->job.id,
                               .name = corner.name,
                               .axle = file->job.axle,
                               .side = part.side,
                               .read = corner.read,
                               .why = corner.read ? "" : "Its variation was not read.",
                               .runout_um = corner.runout_um});
      known.corners.push_back(std::move(corner));
    }
  }
  return known;
}

/// Corners in the order of their probability, those not read behind them.
std::vector<PulsationCorner> ranked(const Known& known, const std::vector<pulsation::CornerFit>& fits) {
  std::vector<PulsationCorner> ranked;
  for (const pulsation::CornerFit& fit : fits) {
    for (const PulsationCorner& record : known.records) {
      if (record.name != fit.name) continue;
      ranked.push_back(record);
      ranked.back().probability = fit.probability;
      ranked.back().order = fit.order;
      ranked.back().amplitude_um = fit.amplitude_um;
      ranked.back().why = fit.why;
      break;
    }
  }
  for (const PulsationCorner& record : known.records) {
    if (!record.read) ranked.push_back(record);
  }
  return ranked;
}

/// A figure of the complaint within what can be counted with; one outside is said.
std::optional<double> within(const std::optional<double>& figure, double least, double most, const char* what,
                             std::vector<Advice>& advice) {
  if (!figure || (*figure >= least && *figure <= most)) return figure;
  advice.push_back({"out_of_range", std::string("The ") + what + " on record, " + um_text(*figure) +
                                        ", is outside of what can be counted with (" + um_text(least) + " to " +
                                        um_text(most) + ")."});
  return std::nullopt;
}

std::vector<std::string> missing_of(const PulsationAdvice& made, const std::optional<double>& speed,
                                    const std::optional<double>& frequency, const JobFile& file, bool any_read) {
  std::vector<std::string> missing;
  if (!made.wheel) missing.push_back("job.tyre");
  if (!speed) missing.push_back("job.felt_speed_km_per_h");
  if (!frequency) missing.push_back("job.felt_frequency_hz");
  if (!made.felt_in) missing.push_back("job.felt_in");
  const bool drums = !file.parts.empty() && is_drum(file.parts.front().kind);
  if (!any_read) missing.push_back(drums ? "readings.diameter" : "readings.thickness");
  return missing;
}

/// The steps of the core, less what was answered already and more for what it does not ask.
std::vector<Advice> next_of(std::vector<Advice> steps, const PulsationAdvice& made, const std::optional<double>& speed,
                            const std::optional<double>& frequency) {
  std::vector<Advice> asked;
  if (frequency && !made.wheel) {
    asked.push_back({"read_tyre", "Read the tyre's size off its wall: with it the frequency becomes a wheel order."});
  }
  if (frequency && !speed) {
    asked.push_back(
        {"ask_speed", "Ask at which speed that frequency was counted: without it no wheel order comes out."});
  }
  if (frequency) std::erase_if(steps, [](const Advice& step) { return step.code == "find_frequency"; });
  asked.insert(asked.end(), steps.begin(), steps.end());
  return asked;
}

}  // namespace

PulsationAdvice advise_pulsation(const JobFile& file, const std::vector<JobFile>& beside,
                                 const AssessContext& context) {
  const Job& job = file.job;
  PulsationAdvice made{.job_id = job.id,
                       .felt_in = job.felt_in,
                       .felt_speed_km_per_h = job.felt_speed_km_per_h,
                       .felt_frequency_hz = job.felt_frequency_hz};
  made.wheel = wheel_of(job, made.advice);
  const auto speed =
      within(job.felt_speed_km_per_h, kLeastSpeed_km_per_h, kMostSpeed_km_per_h, "speed in km/h", made.advice);
  const auto frequency =
      within(job.felt_frequency_hz, kLeastFrequency_hz, kMostFrequency_hz, "frequency in Hz", made.advice);
  const Known known = corners_of(file, beside, context, made.advice);

  // Without tyre, speed and frequency together no order is weighed; what stands in for them here then weighs nothing.
  constexpr pulsation::Rolling kAnyWheel{.mm = 2000, .low_mm = 1900, .high_mm = 2100};
  constexpr double kAnySpeed_km_per_h = 60;
  pulsation::PulsationInput input{.rolling = made.wheel ? rolling_of(made.wheel->tyre) : kAnyWheel,
                                  .observations = {},
                                  .felt = felt_of(job.felt_in),
                                  .corners = known.corners,
                                  .speeds_km_per_h = {}};
  pulsation::Observation seen{.speed_km_per_h = speed.value_or(kAnySpeed_km_per_h),
                              .u_speed_relative = pulsation::kSpeedometerU,
                              .speed_factor = pulsation::kSpeedometerFactor};
  if (made.wheel && speed && frequency) {
    seen.frequency_hz = frequency;
    seen.u_frequency_hz = kFrequencyU * *frequency;
    made.u_frequency_hz = seen.u_frequency_hz;
  }
  input.observations.push_back(seen);
  if (made.wheel) {
    input.speeds_km_per_h = {30, 50, 70, 90, 110, 130};
    if (speed) input.speeds_km_per_h.push_back(*speed * pulsation::kSpeedometerFactor);
    std::sort(input.speeds_km_per_h.begin(), input.speeds_km_per_h.end());
  }
  pulsation::Pulsation found = pulsation::find_pulsation(input);
  made.orders = std::move(found.orders);
  made.table = std::move(found.table);
  made.p_other_corner = found.p_other_corner;
  made.corners = ranked(known, found.corners);
  if (any_drum(file, beside)) {
    made.advice.push_back({"drum_even_orders",
                           "A drum's diameters show its even orders alone: whether it runs eccentric, which beats once "
                           "a turn, an indicator inside it on the hub shows."});
  }
  made.missing = missing_of(made, speed, frequency, file, !found.corners.empty());
  made.next = next_of(std::move(found.next), made, speed, frequency);
  return made;
}

}  // namespace brakewright::shop
