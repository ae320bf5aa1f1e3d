#include "core/dials/causes.hpp"

#include <algorithm>
#include <cmath>

namespace brakewright::dials {
namespace {

constexpr double kUnknownTouchLoss_um = 30, kUnknownTouchLossU_um = 17.320508;  // rectangular, 0 to 60
constexpr double kBacklash_um = 75, kBacklashSd_um = 35, kBacklashApart_um = 20;
constexpr double kSpring = 0.12, kSpringSd = 0.05;
constexpr double kWarm_k = 25, kWarmSd_k = 15;
constexpr double kOther_um = 200;
constexpr double kUncutSd_um = 2;
constexpr double kGrowthPerK = 11e-6;
constexpr double kUntouchedIsLikelier = 5;
constexpr const char* kSides[] = {"outboard", "inboard"};

struct MisreadWeight {
  int marks;
  double weight;
};
constexpr MisreadWeight kMisreads[] = {{1, 0.35}, {2, 0.08}, {5, 0.04}, {10, 0.03}};

/// Gathers the ways, starting each from what happens when all is well.
class Gathering {
 public:
  explicit Gathering(const DialCheckInput& in) : in_(in) {
    const FaceCut* faces[] = {&in.outboard, &in.inboard};
    for (std::size_t s = 0; s < 2; ++s) {
      const auto sound = expectation_of(*faces[s], in.dial_sd_um, in.settings);
      sound_.lost_um[s] = sound.lost.um;
      sound_.variance_um2[s] = sound.lost.u_um * sound.lost.u_um;
      dialled_[s] = sound.dialled_um;
    }
    if (in.temperature_rise_k) {
      sound_.reading_um = growth_um(in.thickness_mm, *in.temperature_rise_k);
      sound_.reading_variance_um2 = std::pow(growth_um(in.thickness_mm, in.u_temperature_rise_k), 2);
    }
    sound_.prior = prior_of(CauseKind::agrees);
    causes_.push_back(sound_);
    add_backlash();
    add_spring();
    add_misread();
    add_uncut();
    if (!in.temperature_rise_k) add_warm();
    add_other();
    double sum = 0;
    for (const Cause& cause : causes_) sum += cause.prior;
    for (Cause& cause : causes_) cause.prior /= sum;
  }

  std::vector<Cause> all() { return std::move(causes_); }

 private:
  bool cut(std::size_t side) const { return dialled_[side] > 0; }
  bool both() const { return cut(0) && cut(1); }

  Cause begin(CauseKind kind, double share) const {
    Cause cause = sound_;
    cause.kind = kind;
    cause.prior = prior_of(kind) * share;
    return cause;
  }

  void add_backlash() {
    for (std::size_t s = 0; s < 2; ++s) {
      if (!cut(s)) continue;
      Cause cause = begin(CauseKind::backlash, both() ? 0.4 : 1.0);
      cause.side = kSides[s];
      cause.parameter = kBacklash_um;
      cause.parameter_sd = kBacklashSd_um;
      cause.lost_per_parameter[s] = -1;
      causes_.push_back(cause);
    }
    if (!both()) return;
    Cause cause = begin(CauseKind::backlash, 0.2);
    cause.side = "both";
    cause.parameter = kBacklash_um;
    cause.parameter_sd = kBacklashSd_um;
    cause.lost_per_parameter = {-1, -1};
    for (double& variance : cause.variance_um2) variance += kBacklashApart_um * kBacklashApart_um;
    causes_.push_back(cause);
  }

  void add_spring() {
    Cause cause = begin(CauseKind::spring, 1);
    cause.side = both() ? "both" : kSides[cut(0) ? 0 : 1];
    cause.parameter = kSpring;
    cause.parameter_sd = kSpringSd;
    cause.lost_per_parameter = {-dialled_[0], -dialled_[1]};
    causes_.push_back(cause);
  }

  void add_misread() {
    const FaceCut* faces[] = {&in_.outboard, &in_.inboard};
    for (std::size_t s = 0; s < 2; ++s) {
      if (!cut(s)) continue;
      for (const auto& misread : kMisreads) {
        for (const int sign : {1, -1}) {
          if (faces[s]->marks + sign * misread.marks < 1) continue;
          Cause cause = begin(CauseKind::misread_mark, misread.weight * (both() ? 0.5 : 1.0));
          cause.side = kSides[s];
          cause.marks = sign * misread.marks;
          cause.lost_um[s] = std::max(0.0, cause.lost_um[s] + cause.marks * faces[s]->dial_um_per_mark);
          causes_.push_back(cause);
        }
      }
    }
  }

  void add_uncut() {
    const FaceCut* faces[] = {&in_.outboard, &in_.inboard};
    for (std::size_t s = 0; s < 2; ++s) {
      if (!cut(s) || faces[s]->touched_all.value_or(false)) continue;
      const double likelier = faces[s]->touched_all.value_or(true) ? 1 : kUntouchedIsLikelier;
      Cause cause = begin(CauseKind::one_side_not_cut, likelier * (both() ? 0.5 : 1.0));
      cause.side = kSides[s];
      cause.lost_um[s] = 0;
      cause.variance_um2[s] = kUncutSd_um * kUncutSd_um;
      causes_.push_back(cause);
    }
  }

  void add_warm() {
    Cause cause = begin(CauseKind::hot_part, 1);
    cause.parameter = growth_um(in_.thickness_mm, kWarm_k);
    cause.parameter_sd = growth_um(in_.thickness_mm, kWarmSd_k);
    cause.reading_per_parameter = 1;
    causes_.push_back(cause);
  }

  void add_other() {
    Cause cause = begin(CauseKind::other, 1);
    for (std::size_t s = 0; s < 2; ++s) cause.variance_um2[s] += kOther_um * kOther_um / 2;
    causes_.push_back(cause);
  }

  const DialCheckInput& in_;
  Cause sound_;
  Pair dialled_{};
  std::vector<Cause> causes_;
};

}  // namespace

const char* name_of(CauseKind kind) {
  static constexpr const char* kNames[kCauseKinds] = {"agrees",           "backlash", "spring", "misread_mark",
                                                      "one_side_not_cut", "hot_part", "other"};
  return kNames[static_cast<std::size_t>(kind)];
}

double prior_of(CauseKind kind) {
  static constexpr double kPriors[kCauseKinds] = {0.60, 0.10, 0.06, 0.10, 0.05, 0.05, 0.04};
  return kPriors[static_cast<std::size_t>(kind)];
}

const char* meaning_of(CauseKind kind) {
  static constexpr const char* kMeanings[kCauseKinds] = {
      "what was dialled is gone, less the air above the faces",
      "the slack of one screw or of both, 75 um with a standard deviation of 35 um, whatever the depth",
      "tool or part gives way by 12 % of the depth, with a standard deviation of 5 %",
      "one dial stood 1, 2, 5 or 10 marks off, one mark in 7 of 10 cases",
      "one face lost nothing",
      "measured warm: 25 K with a standard deviation of 15 K where no temperature is known",
      "anything else, within about 200 um"};
  return kMeanings[static_cast<std::size_t>(kind)];
}

FaceExpectation expectation_of(const FaceCut& face, double dial_sd_um, int settings) {
  FaceExpectation sound;
  sound.dialled_um = face.marks * face.dial_um_per_mark;
  if (sound.dialled_um <= 0) return sound;
  const double settings_variance = settings * dial_sd_um * dial_sd_um;
  if (!face.touched_all.value_or(true)) {
    sound.lost = {.um = sound.dialled_um / 2, .u_um = sound.dialled_um / std::sqrt(12.0)};
    return sound;
  }
  sound.touch_loss = face.touch_loss.value_or(Estimate{.um = kUnknownTouchLoss_um, .u_um = kUnknownTouchLossU_um});
  sound.lost = {.um = std::max(0.0, sound.dialled_um - sound.touch_loss.um),
                .u_um = std::sqrt(settings_variance + sound.touch_loss.u_um * sound.touch_loss.u_um)};
  return sound;
}

double growth_um(double thickness_mm, double rise_k) { return kGrowthPerK * thickness_mm * 1e3 * rise_k; }

std::vector<Cause> causes_of(const DialCheckInput& input) { return Gathering(input).all(); }

}  // namespace brakewright::dials
