#include "core/runout/scratch.hpp"

#include <cmath>
#include <complex>
#include <string>

#include "core/degree.hpp"
#include "core/input_error.hpp"

namespace brakewright {
namespace {

constexpr double kNothing_um = 1e-6;

void check(const std::vector<ScratchMark>& marks) {
  if (marks.empty()) throw InputError("too_few", "marks", "one or two marks are needed");
  if (marks.size() > 2) throw InputError("too_many", "marks", "one or two marks are needed");
  for (std::size_t i = 0; i < marks.size(); ++i) {
    const std::string path = "marks[" + std::to_string(i) + "].";
    const auto want = [&](bool good, const char* name, const char* message) {
      if (!good) throw InputError("out_of_range", path + name, message);
    };
    want(std::isfinite(marks[i].centre_deg) && marks[i].centre_deg >= 0 && marks[i].centre_deg < 360, "centre_deg",
         "must be from 0 to below 360");
    want(marks[i].arc_deg > 0 && marks[i].arc_deg <= 360, "arc_deg", "must be more than 0 and at most 360");
    want(std::isfinite(marks[i].infeed_um) && marks[i].infeed_um > 0, "infeed_um", "must be more than 0");
  }
}

ScratchSize size_of(const ScratchMark& mark) {
  const double quarter = std::sin(mark.arc_deg * kRadPerDeg / 4);
  const double amplitude = mark.infeed_um / (2 * quarter * quarter);  // 1 - cos(arc/2), without cancellation
  return {.amplitude_um = amplitude, .runout_um = 2 * amplitude, .upper_bound = mark.arc_deg >= 360};
}

ScratchShare share_of(std::complex<double> vector) {
  const double amplitude = std::abs(vector);
  double high = 0;
  if (amplitude > kNothing_um) {
    high = std::arg(vector) / kRadPerDeg;
    if (high < 0) high += 360;
    if (high >= 360) high = 0;
  }
  return {.runout_um = 2 * amplitude, .high_deg = high};
}

}  // namespace

ScratchReading read_scratches(const std::vector<ScratchMark>& marks) {
  check(marks);
  ScratchReading reading;
  bool bounded_only = false;
  for (const auto& mark : marks) {
    reading.marks.push_back(size_of(mark));
    bounded_only = bounded_only || reading.marks.back().upper_bound;
  }
  if (marks.size() < 2 || bounded_only) return reading;
  const auto first = std::polar(reading.marks[0].amplitude_um, marks[0].centre_deg * kRadPerDeg);
  const auto second = std::polar(reading.marks[1].amplitude_um, marks[1].centre_deg * kRadPerDeg);
  reading.part = share_of((first + second) / 2.0);
  reading.mount = share_of((first - second) / 2.0);
  return reading;
}

}  // namespace brakewright
