#include "core/verdict/verdict.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <iostream>
#include <numbers>

#include "core/uncertainty/random.hpp"

/// When the verdict says p, it is right about p of the time: simulated jobs of known truth.
namespace brakewright {
namespace {

constexpr int kJobs = 3000;
constexpr double kDialUm = 25.4;
constexpr double kDialSdUm = 2.5;
constexpr double kNoiseUm = 1;

struct Curve {
  std::array<double, 3> cosine{};
  std::array<double, 3> sine{};
};

Curve any_curve(Random& random, double size_um) {
  Curve curve;
  for (std::size_t k = 0; k < 3; ++k) {
    curve.cosine[k] = size_um / static_cast<double>(k + 1) * random.normal();
    curve.sine[k] = size_um / static_cast<double>(k + 1) * random.normal();
  }
  return curve;
}

double at(const Curve& curve, double angle_deg) {
  double sum = 0;
  for (std::size_t k = 0; k < 3; ++k) {
    const double phase = static_cast<double>(k + 1) * angle_deg * std::numbers::pi / 180;
    sum += curve.cosine[k] * std::cos(phase) + curve.sine[k] * std::sin(phase);
  }
  return sum;
}

/// A job with all that nobody in the shop knows of it. Its limits are drawn without regard to the truth: one that was
/// set about the truth would tell of it.
struct KnownJob {
  VerdictInput job;
  double true_final_mm;
  double true_variation_mm;
  double true_lowest_mm;
};

KnownJob simulate(Random& random, std::uint64_t seed) {
  const Curve thickness = any_curve(random, 1 + 8 * random.uniform());
  const Curve outboard = any_curve(random, 5 + 15 * random.uniform());
  const double mean_um = 22000 + 20 * random.uniform();
  const double micrometer_off_um = 2 * (2 * random.uniform() - 1);
  const std::array<double, 2> groove_um = {40 + 60 * random.uniform(), 40 + 60 * random.uniform()};

  PartReadings part;
  part.micrometer = {.resolution_mm = 0.001, .mpe_mm = 0.002, .repeatability_mm = 0.001, .zero_error_mm = 0};
  part.scoring = {
      .outboard_um = groove_um[0] + 5 * random.normal(), .inboard_um = groove_um[1] + 5 * random.normal(), .u_um = 5};
  RunoutReadings trace{.carrier = Carrier::arbor, .outboard = {}, .indicator = {}};
  for (int i = 0; i < 12; ++i) {
    const double angle = 30.0 * i;
    const double reading = mean_um + at(thickness, angle) + micrometer_off_um + kNoiseUm * random.normal();
    part.readings.push_back({.angle_deg = angle, .radius_mm = std::nullopt, .values_mm = {std::round(reading) / 1000}});
    trace.outboard.angles_deg.push_back(angle);
    trace.outboard.values_um.push_back(std::round(at(outboard, angle) + kNoiseUm * random.normal()));
  }
  part.arbor_runout = trace;

  double out_high = -1e9, out_low = 1e9, in_high = -1e9, in_low = 1e9, high = -1e9, low = 1e9;
  for (int i = 0; i < 1440; ++i) {
    const double t = at(thickness, i / 4.0);
    const double a = at(outboard, i / 4.0);
    out_high = std::max(out_high, a), out_low = std::min(out_low, a);
    in_high = std::max(in_high, t - a), in_low = std::min(in_low, t - a);
    high = std::max(high, t), low = std::min(low, t);
  }
  const double out_marks = std::ceil((out_high - out_low + groove_um[0] + 10) / kDialUm);
  const double in_marks = std::ceil((in_high - in_low + groove_um[1] + 10) / kDialUm);
  KnownJob known;
  known.true_final_mm = (mean_um + out_high + in_high - (out_marks + in_marks) * kDialUm +
                         kDialSdUm * std::numbers::sqrt2 * random.normal()) /
                        1000;
  known.true_variation_mm = (high - low) / 1000;
  known.true_lowest_mm = (mean_um + low) / 1000;
  part.limits.machine_to = LengthLimit{21.68 + 0.16 * random.uniform(), "simulated"};
  part.limits.variation = LengthLimit{0.002 + 0.04 * random.uniform(), "simulated"};
  known.job.parts = {part};
  known.job.margin_um = 10;
  known.job.draws = 1000;
  known.job.seed = seed;
  return known;
}

/// Says of each band of p how often what it promised came true.
class Reliability {
 public:
  void add(double p, bool came_true) {
    const auto band = std::min<std::size_t>(kBands - 1, static_cast<std::size_t>(p * kBands));
    sums_[band] += p;
    hits_[band] += came_true ? 1 : 0;
    counts_[band] += 1;
  }

  void expect_honest(const char* name) const {
    for (std::size_t band = 0; band < kBands; ++band) {
      if (counts_[band] < 30) continue;
      const double said = sums_[band] / counts_[band];
      const double was = hits_[band] / counts_[band];
      std::cout << name << ": said " << said << ", was " << was << " of " << counts_[band] << "\n";
      const double scatter = std::sqrt(std::max(said * (1 - said), 0.01) / counts_[band]);
      EXPECT_NEAR(was, said, 3 * scatter + 0.03) << name << ", band " << band;
    }
  }

 private:
  static constexpr std::size_t kBands = 5;
  std::array<double, kBands> sums_{};
  std::array<double, kBands> hits_{};
  std::array<double, kBands> counts_{};
};

TEST(VerdictCalibration, WhenItSaysPItIsRightAboutPOfTheTime) {
  Random random(77);
  Reliability cut;
  Reliability variation;
  int held = 0;
  for (int i = 0; i < kJobs; ++i) {
    const KnownJob known = simulate(random, static_cast<std::uint64_t>(i));
    const PartVerdict part = judge(known.job).parts[0];
    cut.add(*part.p_final_over_machine_to, known.true_final_mm >= known.job.parts[0].limits.machine_to->value_mm);
    variation.add(*part.p_variation_within, known.true_variation_mm <= known.job.parts[0].limits.variation->value_mm);
    held += part.final_mm.low95 <= known.true_final_mm && known.true_final_mm <= part.final_mm.high95;
  }
  cut.expect_honest("final over machine-to");
  variation.expect_honest("variation within");
  const double rate = 100.0 * held / kJobs;
  std::cout << "interval of the final thickness held the truth in " << rate << " %\n";
  EXPECT_GT(rate, 92);
  EXPECT_LT(rate, 98.5);
}

}  // namespace
}  // namespace brakewright
