#include "shop/refit_advice.hpp"

#include <algorithm>
#include <cmath>

#include "core/input_error.hpp"
#include "shop/assess_inputs.hpp"
#include "shop/car_traces.hpp"
#include "shop/find.hpp"
#include "shop/progress.hpp"
#include "shop/refit_words.hpp"

namespace brakewright::shop {
namespace {

constexpr int kMostOrder = 6;
constexpr std::size_t kMostPlates = 64;
constexpr std::size_t kDraws = 4000;
constexpr int kSpareReadings = 3;
constexpr double kLeastNoise_um = 0.1;

/// Whether these positions tell the hub apart from what is on it.
bool tell_apart(const std::vector<CarTrace>& traces) { return traces.size() >= 2; }

/// By how much a tilt of the flange grows from its own circle to the indicator's on the disc.
std::optional<double> lift_of(const Part& part, std::optional<double> radius_mm) {
  if (!radius_mm || !part.hub_reading_diameter) return std::nullopt;
  return *radius_mm / (part.hub_reading_diameter->value.mm() / 2);
}

RefitEvidence evidence_of(const CarTraces& traces, bool hub) {
  const bool known_hub = hub || tell_apart(traces.former);
  if (tell_apart(traces.now)) return RefitEvidence::positions;
  if (!traces.now.empty()) {
    if (known_hub) return RefitEvidence::hub_and_part;
    return traces.bench ? RefitEvidence::hub_and_bench : RefitEvidence::part_alone;
  }
  if (traces.bench) return known_hub ? RefitEvidence::hub_and_bench : RefitEvidence::bench_alone;
  return traces.hub || known_hub ? RefitEvidence::hub_alone : RefitEvidence::nothing;
}

/// The arbor's usual share in what is read on it, as the spread of each coordinate of a tilt.
double arbor_tilt_um(const JobFile& file, const AssessContext& context) {
  if (context.bench) return context.bench->mount_rms_um / std::sqrt(8.0);
  const Lathe* lathe = file.job.lathe_id ? find(context.lathes, *file.job.lathe_id) : nullptr;
  return typed_figures(lathe != nullptr ? *lathe : Lathe{}).mount_rms_um / std::sqrt(8.0);
}

/// The readings that bear on the question, each for what it tells.
RefitReadings readings_for(const CarTraces& traces, const RefitAdvice& known, const Part& part, double arbor_um) {
  RefitReadings readings{.positions = positions_of(traces.now, *part.studs), .noise_sd_um = *known.noise_um};
  if (known.evidence == RefitEvidence::positions || known.evidence == RefitEvidence::part_alone) return readings;
  if (const auto lift = lift_of(part, known.radius_mm); lift && traces.hub) {
    readings.flange.push_back({.trace = {traces.hub->angles_deg, traces.hub->values_um}, .lift = *lift});
  }
  if (tell_apart(traces.former)) readings.other_part = positions_of(traces.former, *part.studs);
  if (known.evidence == RefitEvidence::hub_and_bench && traces.bench) {
    readings.bench.push_back({.trace = *traces.bench, .u_tilt_um = arbor_um});
  }
  return readings;
}

std::vector<const TaperPlate*> plates_for(const std::vector<TaperPlate>& plates, const Part& part) {
  std::vector<const TaperPlate*> fit;
  for (const TaperPlate& plate : plates) {
    if (plate.active && plate.studs == *part.studs && fit.size() < kMostPlates) fit.push_back(&plate);
  }
  return fit;
}

RefitFitting fitting_of(const FittedRunout& core, const std::vector<const TaperPlate*>& plates,
                        const CarTraces& traces) {
  RefitFitting fitting{.position = core.position, .turn_deg = core.turn_deg, .high_deg = core.high_deg};
  fitting.runout_um = core.true_runout_um ? core.true_runout_um->median : core.runout_um;
  fitting.low95_um = core.true_runout_um ? core.true_runout_um->low95 : core.runout_um;
  fitting.high95_um = core.true_runout_um ? core.true_runout_um->high95 : core.runout_um;
  fitting.p_within = core.p_within;
  fitting.standing = core.verdict;
  if (core.plate) {
    fitting.plate_id = plates[*core.plate]->id;
    fitting.plate_name = plates[*core.plate]->name;
    fitting.plate_position = core.plate_position;
  }
  fitting.read = !core.plate && std::any_of(traces.now.begin(), traces.now.end(),
                                            [&](const CarTrace& trace) { return trace.turned == core.position; });
  return fitting;
}

RefitChoice choice_of(const brakewright::Refit& core, const RefitInput& input,
                      const std::vector<const TaperPlate*>& plates, const CarTraces& traces) {
  RefitChoice choice{.best = fitting_of(core.best, plates, traces)};
  for (const FittedRunout& one : core.all) choice.all.push_back(fitting_of(one, plates, traces));
  if (input.keep_position) choice.known_position = *input.keep_position;
  const auto first = choice.all.begin();
  choice.best_without_plate =
      input.keep_position
          ? choice.all[static_cast<std::size_t>(*input.keep_position)]
          : *std::min_element(first, first + input.positions,
                              [](const RefitFitting& a, const RefitFitting& b) { return a.runout_um < b.runout_um; });
  return choice;
}

bool can_be_worked_out(RefitEvidence evidence) {
  return evidence != RefitEvidence::nothing && evidence != RefitEvidence::hub_alone &&
         evidence != RefitEvidence::bench_alone;
}

void work_out(const JobFile& file, const Part& part, const std::vector<TaperPlate>& plates, const CarTraces& traces,
              const AssessContext& context, RefitAdvice& known) {
  const auto& apart = tell_apart(traces.now) ? traces.now : tell_apart(traces.former) ? traces.former : traces.now;
  if (!apart.empty()) {
    known.separation = separate({.positions = positions_of(apart, *part.studs),
                                 .max_order = kMostOrder,
                                 .noise_sd_um = known.noise_um,
                                 .studs = static_cast<int>(*part.studs)});
    if (known.separation->dof >= kSpareReadings) {
      known.noise_um = std::max(*known.noise_um, known.separation->residual_sd_um.value_or(0));
    }
  }
  if (!can_be_worked_out(known.evidence)) return;
  const auto on_hand = known.radius_mm ? plates_for(plates, part) : std::vector<const TaperPlate*>{};
  RefitInput input{.hub = {}, .part = {}, .positions = static_cast<int>(*part.studs), .radius_mm = known.radius_mm};
  for (const TaperPlate* plate : on_hand) {
    input.plates.push_back(
        {.id = to_text(plate->id), .taper_um = plate->taper_um, .diameter_mm = plate->diameter.mm()});
  }
  if (known.limit) input.limit_um = known.limit->value_mm * 1000;
  input.readings = readings_for(traces, known, part, arbor_tilt_um(file, context));
  input.confidence = asked_confidence(context);
  input.seed = seed_of(part.id, seed_of(file.job.id));
  input.draws = kDraws;
  input.by_likely = true;
  if (known.evidence == RefitEvidence::part_alone) {
    input.keep_position = static_cast<int>(traces.now.front().turned.value_or(0) % *part.studs);
  }
  const brakewright::Refit found = best_refit(input);
  known.refit = choice_of(found, input, on_hand, traces);
  known.advice.insert(known.advice.end(), found.advice.begin(), found.advice.end());
}

std::vector<std::string> missing_of(const Part& part, const CarTraces& traces) {
  std::vector<std::string> missing;
  if (!part.studs) missing.push_back("part.studs");
  if (!part.outer_diameter) missing.push_back("part.outer_diameter");
  if (traces.hub && !part.hub_reading_diameter) missing.push_back("part.hub_reading_diameter");
  if (!part.limits.runout) missing.push_back("part.limits.runout");
  return missing;
}

}  // namespace

RefitAdvice advise_refit(const JobFile& file, const Part& part, const std::vector<TaperPlate>& plates,
                         const AssessContext& context) {
  RefitAdvice known{.part_id = part.id};
  if (is_drum(part.kind)) {
    known.advice.push_back({"drum",
                            "A drum has no face to read on the car: clean hub and drum to bare metal where they meet, "
                            "and fit it by the vehicle's own instructions."});
    return known;
  }
  const CarTraces traces = car_traces_of(file, part, context);
  const auto plan = plan_of(file, part.id, traces.stage);
  if (part.outer_diameter && plan && !plan->circles_from_edge.empty()) {
    known.radius_mm = part.outer_diameter->value.mm() / 2 - plan->circles_from_edge.front().mm();
  }
  known.missing = missing_of(part, traces);
  known.stage = traces.stage;
  known.traces = traces.now;
  if (traces.hub) known.traces.push_back(*traces.hub);
  if (traces.noise_um > 0) known.noise_um = std::max(traces.noise_um, kLeastNoise_um);
  known.limit = limits_of(part).runout;
  for (const Stage stage : {Stage::on_car, Stage::refit}) {
    for (const Reading& play : current(file, part.id, stage, Quantity::bearing_play)) {
      known.bearing_play_um = play.value.value.um();
    }
  }
  known.evidence = evidence_of(traces, traces.hub && lift_of(part, known.radius_mm));
  known.advice = cautions_on(file, part, traces, known);
  if (part.studs) {
    try {
      work_out(file, part, plates, traces, context, known);
    } catch (const InputError& refusal) {
      known.refit.reset();
      known.advice.push_back({"not_worked_out", std::string("These figures cannot be counted with: ") + refusal.what() +
                                                    ". Take back or correct the reading."});
    }
  }
  known.next = next_readings(part, traces, known);
  return known;
}

}  // namespace brakewright::shop
