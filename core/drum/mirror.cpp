#include "core/drum/mirror.hpp"

#include <algorithm>
#include <cmath>

#include "core/input_error.hpp"
#include "core/thickness/reduced.hpp"
#include "core/want.hpp"

namespace brakewright::drum {
namespace {

constexpr double kRoom_mm = 100;       ///< that a mirrored diameter has over nothing
constexpr double kMostSpread_mm = 50;  ///< between any two figures of one drum

struct Span {
  double low = 1e300, high = -1e300;

  void take(double value, const std::string& field) {
    want(value, 50, 1500, field, "a diameter from 50 to 1500 mm");
    low = std::min(low, value);
    high = std::max(high, value);
    if (high - low > kMostSpread_mm) {
      throw InputError("out_of_range", field,
                       "diameters and limits of one drum lie within 50 mm of each other: inches may be among them");
    }
  }
};

Span check_diameters(const Drum& drum) {
  Span span;
  const auto limit = [&](const std::optional<LengthLimit>& one, const char* field) {
    if (one) span.take(one->value_mm, field);
  };
  limit(drum.limits.nominal, "limits.nominal.value_mm");
  limit(drum.limits.machine_to, "limits.machine_to.value_mm");
  limit(drum.limits.discard, "limits.discard.value_mm");
  if (drum.readings.empty()) throw InputError("too_few", "readings", "three diameters or more are needed");
  for (std::size_t i = 0; i < drum.readings.size(); ++i) {
    const std::string path = "readings[" + std::to_string(i) + "].";
    want(drum.readings[i].depth_mm, 0, 500, path + "depth_mm", "from 0 to 500 mm");
    want(drum.readings[i].angle_deg, 0, std::nextafter(360.0, 0), path + "angle_deg",
         "an angle of 0 or more, under 360");
    for (std::size_t j = 0; j < drum.readings[i].values_mm.size(); ++j) {
      span.take(drum.readings[i].values_mm[j], path + "values_mm[" + std::to_string(j) + "]");
    }
  }
  return span;
}

void check_order(const Limits& limits) {
  const auto over = [](const std::optional<LengthLimit>& less, const std::optional<LengthLimit>& more) {
    return less && more && less->value_mm > more->value_mm;
  };
  if (over(limits.machine_to, limits.discard)) {
    throw InputError("out_of_range", "limits.machine_to.value_mm",
                     "machine-to must not be over discard: the two may have been exchanged");
  }
  if (over(limits.nominal, limits.machine_to) || over(limits.nominal, limits.discard)) {
    throw InputError("out_of_range", "limits.nominal.value_mm", "nominal must not be over machine-to or discard");
  }
}

std::optional<LengthLimit> mirrored_limit(const std::optional<LengthLimit>& limit, double mirror_mm) {
  if (!limit) return std::nullopt;
  return LengthLimit{.value_mm = mirror_mm - limit->value_mm, .source = limit->source};
}

/// The gauge as the draws know it: what the temperature is uncertain by counts on the whole diameter.
Micrometer gauge_of(const Drum& drum, double diameter_mm) {
  Micrometer gauge = drum.gauge;
  const double warm = kTemperatureUncertaintyK * kGreyIronPerKelvin * diameter_mm;
  gauge.mpe_mm = std::sqrt(3.0) * std::hypot(gauge.mpe_mm / std::sqrt(3.0), warm);
  gauge.zero_error_mm = 0;
  return gauge;
}

}  // namespace

double mirror_for(const Drum& drum) { return check_diameters(drum).high + kRoom_mm; }

PartReadings mirrored(const Drum& drum, double mirror_mm) {
  const Span span = check_diameters(drum);
  check_order(drum.limits);
  want(drum.part_temperature_c, -40, 200, "part_temperature_c", "from -40 to 200 degrees Celsius");
  want(drum.gauge.zero_error_mm, -10, 10, "gauge.zero_error_mm", "from -10 to 10 mm");
  want(drum.gauge.mpe_mm, 0, 0.9, "gauge.mpe_mm", "from 0 to 0.9 mm");
  want(drum.score_um, 0, 1e5, "scoring.depth_um", "a depth from 0 to 100000 um");
  want(drum.u_score_um, 0, 1e4, "scoring.u_um", "from 0 to 10000 um");
  PartReadings part;
  part.kind = PartKind::drum;
  part.name = drum.name;
  part.mirror_mm = mirror_mm;
  part.limits.nominal = mirrored_limit(drum.limits.nominal, part.mirror_mm);
  part.limits.machine_to = mirrored_limit(drum.limits.machine_to, part.mirror_mm);
  part.limits.discard = mirrored_limit(drum.limits.discard, part.mirror_mm);
  part.limits.variation = drum.limits.out_of_round;
  part.limits.taper = drum.limits.taper;
  part.limits.scoring = drum.limits.scoring;
  part.limits.finish = drum.limits.finish;
  const double shrink = 1 - kGreyIronPerKelvin * (drum.part_temperature_c - 20);
  for (const Diameter& reading : drum.readings) {
    ThicknessPoint point{.angle_deg = std::fmod(2 * reading.angle_deg, 360),
                         .radius_mm = reading.depth_mm + kDepthOffset_mm,
                         .values_mm = {}};
    for (const double value : reading.values_mm) {
      point.values_mm.push_back(part.mirror_mm - (value - drum.gauge.zero_error_mm) * shrink);
    }
    part.readings.push_back(std::move(point));
  }
  part.micrometer = gauge_of(drum, span.high);
  part.arbor_runout = drum.arbor_runout;
  part.scoring = {.outboard_um = drum.score_um, .inboard_um = 0, .u_um = drum.u_score_um};
  part.findings = drum.findings;
  return part;
}

InputError in_drum_words(const InputError& error) {
  std::string field = error.field();
  const auto replace = [&](const std::string& from, const std::string& to) {
    const auto at = field.find(from);
    if (at != std::string::npos) field.replace(at, from.size(), to);
  };
  replace(".micrometer.", ".gauge.");
  replace(".limits.variation.", ".limits.out_of_round.");
  replace("scoring.outboard_um", "scoring.depth_um");
  replace(".radius_mm", ".depth_mm");
  const bool few = error.code() == "too_few" && field.find("readings") != std::string::npos &&
                   field.find("values_mm") == std::string::npos;
  return {error.code(), field, few ? "three different diameters or more at each depth" : error.what()};
}

VerdictInput mirrored(const DrumInput& input) {
  if (input.shoe) {
    want(input.shoe->lining_radius_mm, 20, 750, "shoe.lining_radius_mm", "from 20 to 750 mm");
    want(input.shoe->arc_deg, 10, 170, "shoe.arc_deg", "from 10 to 170 degrees");
  }
  VerdictInput job;
  for (std::size_t i = 0; i < input.parts.size(); ++i) {
    try {
      job.parts.push_back(mirrored(input.parts[i], mirror_for(input.parts[i])));
      const double radius =
          input.parts[i].readings[0].values_mm.empty() ? 0 : input.parts[i].readings[0].values_mm[0] / 2;
      if (input.shoe && radius > 0 && std::abs(input.shoe->lining_radius_mm / radius - 1) > 0.1) {
        throw InputError("out_of_range", "readings[0].values_mm", "the shoe's radius is not near that of this drum");
      }
    } catch (const InputError& error) {
      throw error.within("parts[" + std::to_string(i) + "]");
    }
  }
  job.complaint = input.complaint;
  job.lathe = input.lathe;
  job.margin_um = input.margin_um;
  job.confidence = input.confidence;
  job.house_allowance = input.house_allowance;
  job.wear_rate = input.wear_rate;
  job.seed = input.seed;
  job.draws = input.draws;
  return job;
}

}  // namespace brakewright::drum
