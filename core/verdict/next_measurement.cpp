#include "core/verdict/next_measurement.hpp"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <functional>

#include "core/thickness/figures.hpp"

namespace brakewright {
namespace {

constexpr std::size_t kTrialDraws = 4000;
constexpr std::size_t kRepeats = 3;
constexpr std::size_t kMostSpots = 24;

/// A micrometer to borrow: 0.001 mm steps. Its figures are common practice, no source.
constexpr Micrometer kFine{.resolution_mm = 0.001, .mpe_mm = 0.001, .repeatability_mm = 0.0005, .zero_error_mm = 0};

/// The same for a drum. Common practice, no source.
constexpr Micrometer kFineForDrums{
    .resolution_mm = 0.01, .mpe_mm = 0.02, .repeatability_mm = 0.005, .zero_error_mm = 0};

const Micrometer& fine(const PartReadings& part) { return part.kind == PartKind::drum ? kFineForDrums : kFine; }

/// An angle as it is marked on the part: a drum's stand doubled.
double marked_deg(const PartReadings& part, double angle_deg) {
  return part.kind == PartKind::drum ? angle_deg / 2 : angle_deg;
}

const char* gauge_of(const PartReadings& part) { return part.kind == PartKind::drum ? "drum gauge" : "micrometer"; }

constexpr const char* kMethod =
    "plug-in: the posterior run again on the readings as they would come if the part is as now best estimated; "
    "p_settles in closed form from how far the interval narrows";

/// A reading that could be taken, and the job as it would stand with it.
struct Candidate {
  NextMeasurement measurement;
  std::function<void(VerdictInput&, PartReadings&)> take;
};

/// The probability that a question is about, with the width of what it rests on.
struct Answer {
  double p = 0;
  double width = 0;
};

double width_of(const Posterior& posterior) { return posterior.high95 - posterior.low95; }

Answer answer(const PartVerdict& numbers, const std::string& question) {
  if (question == "variation") {
    return {numbers.p_variation_within.value_or(0.5), width_of(numbers.thickness.true_variation_mm)};
  }
  if (question == "runout") return {numbers.p_runout_within.value_or(0.5), width_of(numbers.runout->true_runout_um)};
  if (question == "machine_to") return {numbers.p_final_over_machine_to.value_or(0.5), width_of(numbers.final_mm)};
  return {numbers.p_above_discard.value_or(0.5), numbers.thickness.u_min_mm};
}

/// Chance that the answer comes out clear, when the interval narrows by this ratio: what is measured next is normal
/// about the present estimate, with what the narrowing takes out of its variance.
double chance_to_settle(double p_after, double narrowing, double confidence) {
  const boost::math::normal standard;
  const double z = boost::math::quantile(standard, std::clamp(p_after, 1e-6, 1 - 1e-6));
  const double z_needed = boost::math::quantile(standard, confidence);
  const double spread = std::sqrt(std::max(0.0, 1 / (narrowing * narrowing) - 1));
  if (spread < 1e-3) return std::abs(z) >= z_needed ? 1 : 0;
  return boost::math::cdf(standard, (z - z_needed) / spread) + boost::math::cdf(standard, (-z - z_needed) / spread);
}

std::vector<double> angles_of(const std::vector<ThicknessPoint>& readings) {
  std::vector<double> angles;
  for (const ThicknessPoint& reading : readings) {
    if (std::find(angles.begin(), angles.end(), reading.angle_deg) == angles.end()) angles.push_back(reading.angle_deg);
  }
  std::sort(angles.begin(), angles.end());
  return angles;
}

/// Readings that have been brought to 20 C and to a zero of nothing.
void replace_readings(PartReadings& part, std::vector<ThicknessPoint> readings) {
  part.readings = std::move(readings);
  part.part_temperature_c = 20;
  part.micrometer.zero_error_mm = 0;
}

std::size_t most_repeats(const std::vector<ThicknessPoint>& readings) {
  std::size_t most = 0;
  for (const ThicknessPoint& reading : readings) most = std::max(most, reading.values_mm.size());
  return most;
}

std::vector<double> spots_near(const std::vector<double>& angles, double angle_deg) {
  const auto at = std::find(angles.begin(), angles.end(), angle_deg);
  if (at == angles.end() || angles.size() < 3) return angles;
  const auto i = static_cast<std::size_t>(at - angles.begin());
  return {angles[(i + angles.size() - 1) % angles.size()], angle_deg, angles[(i + 1) % angles.size()]};
}

Candidate repeats_of_all(const VerdictInput& input, const PartReadings& part) {
  const std::size_t repeats = most_repeats(part.readings) + kRepeats - 1;
  Candidate candidate;
  candidate.measurement.kind = "repeats";
  candidate.measurement.angles_deg = angles_of(part.readings);
  candidate.measurement.repeats = repeats;
  candidate.measurement.text = "Read every spot again until each has " + std::to_string(repeats) +
                               " readings, with the same " + gauge_of(part) + ".";
  candidate.take = [&input, repeats](VerdictInput&, PartReadings& trial) {
    replace_readings(trial, expected_readings(input, trial, repeats, false));
  };
  return candidate;
}

Candidate repeats_at_lowest(const VerdictInput& input, const PartReadings& part, double angle_deg) {
  const std::size_t repeats = most_repeats(part.readings) + 4;
  Candidate candidate;
  candidate.measurement.kind = "repeats";
  candidate.measurement.angles_deg = spots_near(angles_of(part.readings), angle_deg);
  candidate.measurement.repeats = repeats;
  candidate.measurement.text = "Read the " + std::string(part.kind == PartKind::drum ? "widest" : "lowest") +
                               " spot, at " + angle_text(marked_deg(part, angle_deg)) +
                               " degrees, and its two neighbours again until each has " + std::to_string(repeats) +
                               " readings.";
  const auto angles = candidate.measurement.angles_deg;
  candidate.take = [&input, repeats, angles](VerdictInput&, PartReadings& trial) {
    auto readings = expected_readings(input, trial, 1, false);
    const auto more = expected_readings(input, trial, repeats, false);
    for (std::size_t i = 0; i < readings.size(); ++i) {
      if (std::find(angles.begin(), angles.end(), readings[i].angle_deg) != angles.end()) readings[i] = more[i];
    }
    replace_readings(trial, std::move(readings));
  };
  return candidate;
}

Candidate more_spots(const VerdictInput& input, const PartReadings& part) {
  Candidate candidate;
  candidate.measurement.kind = "more_points";
  for (const ThicknessPoint& reading : expected_readings(input, part, 1, true)) {
    candidate.measurement.angles_deg.push_back(reading.angle_deg);
  }
  auto& angles = candidate.measurement.angles_deg;
  std::sort(angles.begin(), angles.end());
  angles.erase(std::unique(angles.begin(), angles.end()), angles.end());
  const std::size_t repeats = std::max<std::size_t>(1, most_repeats(part.readings));
  candidate.measurement.repeats = repeats;
  candidate.measurement.text = "Mark a spot half-way between each two and read " + std::to_string(angles.size()) +
                               " spots in place of " + std::to_string(angles_of(part.readings).size()) + ".";
  candidate.take = [&input, repeats](VerdictInput&, PartReadings& trial) {
    replace_readings(trial, expected_readings(input, trial, repeats, true));
  };
  return candidate;
}

Candidate finer_micrometer(const VerdictInput& input, const PartReadings& part) {
  Candidate candidate;
  candidate.measurement.kind = "finer_micrometer";
  candidate.measurement.angles_deg = angles_of(part.readings);
  candidate.measurement.repeats = kRepeats;
  candidate.measurement.resolution_mm = fine(part).resolution_mm;
  candidate.measurement.text = "Read every spot three times with a " + std::string(gauge_of(part)) + " that shows " +
                               mm_text(fine(part).resolution_mm) + " mm and repeats to half of that.";
  candidate.take = [&input](VerdictInput&, PartReadings& trial) {
    replace_readings(trial, expected_readings(input, trial, kRepeats, false));
    trial.micrometer = fine(trial);
  };
  return candidate;
}

Candidate trace_on_arbor(const PartReadings& part) {
  Candidate candidate;
  candidate.measurement.kind = "runout_on_arbor";
  candidate.measurement.angles_deg = angles_of(part.readings);
  candidate.measurement.repeats = 1;
  candidate.measurement.text =
      "Mount the part on the lathe and read its outboard face with an indicator at the same "
      "spots: what the mounting adds is then known.";
  candidate.take = [](VerdictInput&, PartReadings& trial) {
    RunoutReadings trace = trial.car_runout.value_or(RunoutReadings{});
    trace.carrier = Carrier::arbor;
    if (!trial.car_runout) {
      double mean = 0;
      for (const auto& reading : trial.readings)
        mean += reading.values_mm[0] / static_cast<double>(trial.readings.size());
      for (const auto& reading : trial.readings) {
        trace.outboard.angles_deg.push_back(reading.angle_deg);
        trace.outboard.values_um.push_back((reading.values_mm[0] - mean) * 500);
      }
    }
    trial.arbor_runout = trace;
  };
  return candidate;
}

Candidate trace_in_drum() {
  constexpr int kSpots = 12;
  RunoutReadings trace;
  trace.carrier = Carrier::arbor;
  Candidate candidate;
  candidate.measurement.kind = "runout_on_arbor";
  candidate.measurement.repeats = 1;
  candidate.measurement.text =
      "Mount the drum on the lathe and read its inside with an indicator at twelve even spots: eccentricity and odd "
      "lobes are then known.";
  for (int i = 0; i < kSpots; ++i) {
    candidate.measurement.angles_deg.push_back(720.0 * i / kSpots);
    trace.outboard.angles_deg.push_back(360.0 * i / kSpots);
    trace.outboard.values_um.push_back(0);
  }
  candidate.take = [trace](VerdictInput&, PartReadings& trial) { trial.arbor_runout = trace; };
  return candidate;
}

Candidate face_again(const PartReadings& part) {
  Candidate candidate;
  candidate.measurement.kind = "repeats";
  candidate.measurement.angles_deg = part.car_runout->outboard.angles_deg;
  candidate.measurement.repeats = kRepeats;
  candidate.measurement.text = "Turn the part on the car two more times and read the face again at every spot.";
  candidate.take = [](VerdictInput&, PartReadings& trial) {
    RunoutTrace& trace = trial.car_runout->outboard;
    const RunoutTrace once = trace;
    for (std::size_t i = 1; i < kRepeats; ++i) {
      trace.angles_deg.insert(trace.angles_deg.end(), once.angles_deg.begin(), once.angles_deg.end());
      trace.values_um.insert(trace.values_um.end(), once.values_um.begin(), once.values_um.end());
    }
  };
  return candidate;
}

Candidate depth_again() {
  Candidate candidate;
  candidate.measurement.kind = "scoring_depth";
  candidate.measurement.repeats = 1;
  candidate.measurement.text = "Read the depth of the deepest groove of each face with a gauge three times as exact.";
  candidate.take = [](VerdictInput&, PartReadings& trial) { trial.scoring.u_um /= 3; };
  return candidate;
}

bool finer_is_finer(const PartReadings& part) {
  const Micrometer& present = part.micrometer;
  return present.resolution_mm > fine(part).resolution_mm || present.repeatability_mm > fine(part).repeatability_mm ||
         present.mpe_mm > fine(part).mpe_mm;
}

std::vector<Candidate> candidates_for(const VerdictInput& input, const PartReadings& part, const PartVerdict& numbers,
                                      const std::string& question) {
  std::vector<Candidate> candidates;
  if (question == "runout") return {face_again(part)};
  const bool about_low = question == "discard" || question == "machine_to";
  if (about_low) candidates.push_back(repeats_at_lowest(input, part, numbers.thickness.min_angle_deg));
  candidates.push_back(repeats_of_all(input, part));
  if (question == "machine_to" && !part.arbor_runout) {
    candidates.push_back(part.kind == PartKind::drum ? trace_in_drum() : trace_on_arbor(part));
  }
  if (question == "machine_to" && part.scoring.u_um > 0) candidates.push_back(depth_again());
  if (2 * part.readings.size() <= kMostSpots) candidates.push_back(more_spots(input, part));
  if (finer_is_finer(part)) candidates.push_back(finer_micrometer(input, part));
  return candidates;
}

/// The measurement for what no reading can settle, with the words for it.
NextMeasurement plain(const PartReadings& part, const std::string& question, double p_now) {
  const bool drum = part.kind == PartKind::drum;
  NextMeasurement next;
  next.question = question;
  next.p_now = p_now;
  next.p_after = p_now;
  next.method = "no draws: a missing figure or depth decides";
  if (question == "taper") {
    next.kind = "repeats";
    next.repeats = kRepeats;
    next.text =
        "Read every diameter at the open and at the closed edge three times: the taper lies too near its limit.";
    return next;
  }
  if (question == "scoring") {
    next.kind = "scoring_depth";
    next.text = "Read the depth of the deepest groove again with a depth gauge: it lies too near its limit.";
    return next;
  }
  next.kind = "find_limit";
  const std::string which = question.substr(question.find(':') + 1);
  if (which == "machine_to") {
    next.text = std::string("Find the machine-to ") + (drum ? "diameter" : "thickness") +
                " of this part in its service information, or let the shop set a house rule: no reading can stand in "
                "for it.";
  } else if (which == "discard") {
    next.text = std::string("Find the discard ") + (drum ? "diameter" : "thickness") +
                ", cast in most parts or in the service information: no reading can stand in for it.";
  } else {
    next.text = std::string("Find the limits for ") +
                (drum ? "out-of-round and taper" : "thickness variation and runout") +
                " in the service information: no reading can stand in for them.";
  }
  return next;
}

}  // namespace

NextMeasurement find_next_measurement(const VerdictInput& input, std::size_t part_index, const PartVerdict& numbers,
                                      const std::string& question, double p_now) {
  const PartReadings& part = input.parts[part_index];
  if (question == "scoring" || question == "taper" || question.rfind("limit:", 0) == 0) {
    NextMeasurement next = plain(part, question, p_now);
    next.part = part.name;
    return next;
  }
  VerdictInput trial_input = input;
  trial_input.draws = std::min(input.draws, kTrialDraws);
  trial_input.parts.clear();
  const Answer now = answer(numbers, question);
  std::optional<NextMeasurement> best;
  for (Candidate& candidate : candidates_for(trial_input, part, numbers, question)) {
    PartReadings trial = part;
    candidate.take(trial_input, trial);
    const Answer then = answer(study_part(trial_input, trial, part_index).verdict, question);
    NextMeasurement& found = candidate.measurement;
    found.part = part.name;
    found.question = question;
    found.p_now = p_now;
    found.p_after = then.p;
    found.p_settles = chance_to_settle(then.p, std::clamp(then.width / now.width, 1e-3, 1.0), input.confidence);
    found.method = kMethod;
    if (then.p >= input.confidence || then.p <= 1 - input.confidence) return found;
    if (!best || found.p_settles > best->p_settles) best = found;
  }
  best->kind = "none";
  best->text =
      "The part lies so near its limit that no reading on hand is likely to settle it; the best of them: " + best->text;
  return *best;
}

}  // namespace brakewright
