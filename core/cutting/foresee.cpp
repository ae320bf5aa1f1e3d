#include "core/cutting/foresee.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numbers>

#include "core/cutting/accepted.hpp"
#include "core/cutting/finish.hpp"
#include "core/cutting/force.hpp"
#include "core/uncertainty/conformity.hpp"
#include "core/want.hpp"

namespace brakewright::cutting {
namespace {

/// Decimal figures that agree so far are the same, as in plan().
constexpr double kSame = 1e-9;
constexpr double kRubs_um = 50;
constexpr std::size_t kMostPasses = 1000;
constexpr std::int64_t kMostMarks = 1'000'000;

double inboard_dial_um(const ForeseeInput& in) { return in.dial_inboard_um_per_mark.value_or(in.dial_um_per_mark); }

void check_part(const ForeseeInput& in) {
  want_within(in.inner_radius_mm, kPositive, "ring.inner_radius_mm");
  want_within(in.outer_radius_mm, kPositive, "ring.outer_radius_mm");
  want(in.outer_radius_mm > in.inner_radius_mm, "ring.outer_radius_mm", "must be more than inner_radius_mm");
  want_within(in.approach_mm, kNotNegative, "ring.approach_mm");
  want_within(in.start_min_mm, kPositive, "start_min_mm");
  want_within(in.u_start_min_um, kNotNegative, "u_start_min_um");
  if (in.machine_to_mm) want_within(*in.machine_to_mm, kNotNegative, "machine_to_mm");
  if (in.discard_mm) want_within(*in.discard_mm, kNotNegative, "discard_mm");
}

void check_tools(const ForeseeInput& in) {
  want_within(in.dial_um_per_mark, kPositive, "lathe.dial_um_per_mark");
  want_within(inboard_dial_um(in), kPositive, "lathe.dial_inboard_um_per_mark");
  want_within(in.dial_sd_um, kNotNegative, "lathe.dial_sd_um");
  want_all_within(in.speeds_rpm, kPositive, "lathe.speeds_rpm");
  want_all_within(in.feeds_mm_per_rev, kPositive, "lathe.feeds_mm_per_rev");
  want_within(in.nose_radius_mm, kPositive, "insert.nose_radius_mm");
  want_within(in.max_speed_m_per_min, kPositive, "insert.max_speed_m_per_min");
  want_within(in.kc11_n_per_mm2, kPositive, "material.kc11_n_per_mm2");
  want(in.mc >= 0 && in.mc < 1, "material.mc", "must be from 0 to below 1");
  want_within(in.rough_max_um, kNotNegative, "rules.rough_max_um");
  want_within(in.finish_min_um, kNotNegative, "rules.finish_min_um");
  want_within(in.finish_max_um, kPositive, "rules.finish_max_um");
  want(in.finish_max_um >= in.finish_min_um, "rules.finish_max_um", "must be no less than finish_min_um");
  want_within(in.ra_target_um, kPositive, "rules.ra_target_um");
  want_within(in.ra_factor, kFactor, "rules.ra_factor");
  want(in.confidence >= 0.5 && in.confidence < 1, "confidence", "must be from 0.5 to below 1");
}

void check_passes(const ForeseeInput& in) {
  want(in.passes.size() <= kMostPasses, "passes", "at most 1000 passes are looked at");
  for (std::size_t i = 0; i < in.passes.size(); ++i) {
    const auto& pass = in.passes[i];
    const std::string field = "passes[" + std::to_string(i) + "].";
    const auto whole = [](std::int64_t marks) { return marks >= 0 && marks <= kMostMarks; };
    want(whole(pass.outboard_marks), field + "outboard_marks", "must be from 0 to 1000000");
    want(whole(pass.inboard_marks), field + "inboard_marks", "must be from 0 to 1000000");
    want_within(pass.rpm, kPositive, field + "rpm");
    want_within(pass.feed_mm_per_rev, kPositive, field + "feed_mm_per_rev");
    want(pass.feed_mm_per_rev <= 2 * in.nose_radius_mm, field + "feed_mm_per_rev",
         "must be at most twice the nose radius, or ridges are left standing");
  }
}

template <class... Figures>
std::string text_of(const char* format, Figures... figures) {
  char text[300];
  std::snprintf(text, sizeof text, format, figures...);
  return text;
}

/// One face of a pass.
struct SideCut {
  const char* name = "";
  double depth_um = 0;
  double depth_so_far_um = 0;  ///< this pass counted
};

bool beyond_nose(const SideCut& cut, const ForeseeInput& in) {
  return cut.depth_um * 1e-3 > in.nose_radius_mm * (1 + kSame);
}

/// Goes through the passes and keeps what has happened so far.
class Look {
 public:
  explicit Look(const ForeseeInput& in) : in_(in) {
    seen_.final_mm = in.start_min_mm;
    seen_.u_final_um = in.u_start_min_um;
  }

  void at(std::size_t index) {
    index_ = index;
    const PassSetting& set = in_.passes[index];
    outboard_.depth_um = static_cast<double>(set.outboard_marks) * in_.dial_um_per_mark;
    inboard_.depth_um = static_cast<double>(set.inboard_marks) * inboard_dial_um(in_);
    ForeseenPass pass = motion(set);
    put_forces(set, pass);
    put_thickness(pass);
    warn_of_gear(set, pass);
    for (const SideCut* cut : {&outboard_, &inboard_}) warn_of_depth(*cut);
    warn_of_limits(pass);
    seen_.time_s += pass.time_s;
    seen_.cut_length_outboard_m += pass.cut_length_outboard_m;
    seen_.cut_length_inboard_m += pass.cut_length_inboard_m;
    seen_.passes.push_back(pass);
  }

  Foresight result() { return std::move(seen_); }

 private:
  bool last() const { return index_ + 1 == in_.passes.size(); }

  void warn(const char* code, std::string text, const char* side = "") {
    seen_.warnings.push_back({.code = code, .text = std::move(text), .pass = index_, .side = side});
  }

  ForeseenPass motion(const PassSetting& set) const {
    const double ro = in_.outer_radius_mm, ri = in_.inner_radius_mm;
    const Finish left = finish(set.feed_mm_per_rev, in_.nose_radius_mm);
    const double spiral_m = std::numbers::pi * (ro - ri) * (ro + ri) / set.feed_mm_per_rev * 1e-3;
    ForeseenPass pass;
    pass.time_s = (ro - ri + in_.approach_mm) / (set.feed_mm_per_rev * set.rpm) * 60;
    pass.surface_speed_m_per_min = 2 * std::numbers::pi * ro * set.rpm / 1000;
    pass.ra_um = left.ra_um;
    pass.ra_low_um = left.ra_low_um;
    pass.ra_high_um = left.ra_high_um;
    pass.cut_length_outboard_m = set.outboard_marks > 0 ? spiral_m : 0;
    pass.cut_length_inboard_m = set.inboard_marks > 0 ? spiral_m : 0;
    return pass;
  }

  std::optional<SideForce> force_on(const SideCut& cut, const PassSetting& set, bool& extrapolated) const {
    if (cut.depth_um <= 0) return SideForce{};
    if (beyond_nose(cut, in_)) return std::nullopt;
    const auto force = nose_force({.depth_mm = std::min(cut.depth_um * 1e-3, in_.nose_radius_mm),
                                   .feed_mm_per_rev = set.feed_mm_per_rev,
                                   .nose_radius_mm = in_.nose_radius_mm,
                                   .kc11_n_per_mm2 = in_.kc11_n_per_mm2,
                                   .mc = in_.mc});
    extrapolated = extrapolated || force.extrapolated;
    return SideForce{.n = force.force_n, .low_n = force.force_low_n, .high_n = force.force_high_n};
  }

  void put_forces(const PassSetting& set, ForeseenPass& pass) const {
    pass.outboard = force_on(outboard_, set, pass.extrapolated);
    const bool alike = std::abs(outboard_.depth_um - inboard_.depth_um) <= kSame * outboard_.depth_um;
    pass.inboard = alike ? pass.outboard : force_on(inboard_, set, pass.extrapolated);
    if (pass.outboard && pass.inboard) {
      pass.power_w = (pass.outboard->n + pass.inboard->n) * pass.surface_speed_m_per_min / 60;
    }
  }

  /// @param slack_mm  > 0: a thickness on the limit is over it
  std::optional<double> p_over(const std::optional<double>& limit_mm, double slack_mm) const {
    if (!limit_mm) return std::nullopt;
    return judge_conformity(seen_.final_mm + slack_mm, seen_.u_final_um * 1e-3, {.lower = limit_mm}, in_.confidence)
        .p_conform;
  }

  void put_thickness(ForeseenPass& pass) {
    for (SideCut* cut : {&outboard_, &inboard_}) {
      cut->depth_so_far_um += cut->depth_um;
      if (cut->depth_um > 0) seen_.u_final_um = std::hypot(seen_.u_final_um, in_.dial_sd_um);
    }
    seen_.final_mm = in_.start_min_mm - (outboard_.depth_so_far_um + inboard_.depth_so_far_um) * 1e-3;
    pass.thickness_after_mm = seen_.final_mm;
    pass.u_thickness_after_um = seen_.u_final_um;
    pass.p_over_machine_to = p_over(in_.machine_to_mm, kSame);
    pass.p_over_discard = p_over(in_.discard_mm, -kSame);
  }

  static bool listed(double value, const std::vector<double>& values) {
    return values.empty() || std::any_of(values.begin(), values.end(),
                                         [&](double known) { return std::abs(known - value) <= kSame * known; });
  }

  void warn_of_gear(const PassSetting& set, const ForeseenPass& pass) {
    if (pass.surface_speed_m_per_min > in_.max_speed_m_per_min * (1 + kSame)) {
      warn("speed_over_insert", text_of("%.4g rev/min is %.4g m/min at the outer edge, and the insert takes %.4g m/min",
                                        set.rpm, pass.surface_speed_m_per_min, in_.max_speed_m_per_min));
    }
    if (!listed(set.rpm, in_.speeds_rpm)) {
      warn("speed_not_on_lathe", text_of("the lathe has no speed of %.4g rev/min", set.rpm));
    }
    if (!listed(set.feed_mm_per_rev, in_.feeds_mm_per_rev)) {
      warn("feed_not_on_lathe", text_of("the lathe has no feed of %.4g mm a turn", set.feed_mm_per_rev));
    }
    if (last() && pass.ra_um * in_.ra_factor > in_.ra_target_um * (1 + kSame)) {
      warn("ra_over_target",
           text_of("Ra %.3g um ideal, times %.3g is %.3g um, and %.3g um is wanted after the last pass", pass.ra_um,
                   in_.ra_factor, pass.ra_um * in_.ra_factor, in_.ra_target_um));
    }
    if (set.outboard_marks + set.inboard_marks == 0) warn("nothing_cut", "no mark is set on either side");
  }

  void warn_of_depth(const SideCut& cut) {
    const double slack_um = kSame * cut.depth_um;
    const bool air = cut.depth_um <= 0;
    if (!last() && cut.depth_um > in_.rough_max_um + slack_um) {
      warn("rough_over_max",
           text_of("%.4g um on this side, and a rough pass may take %.4g um", cut.depth_um, in_.rough_max_um),
           cut.name);
    }
    const bool too_light = cut.depth_um < in_.finish_min_um - slack_um || air;
    const bool too_deep = cut.depth_um > in_.finish_max_um + slack_um;
    if (last() && cut.depth_so_far_um > 0 && (too_light || too_deep)) {
      warn("finish_out_of_range",
           text_of("the last pass takes %.4g um on this side, and the rule is %.4g to %.4g um", cut.depth_um,
                   in_.finish_min_um, in_.finish_max_um),
           cut.name);
    }
    if (!air && cut.depth_um < kRubs_um - slack_um) {
      warn("rubbing",
           text_of("%.4g um: under about %.0f um an edge rubs instead of cutting (common practice, no source)",
                   cut.depth_um, kRubs_um),
           cut.name);
    }
    if (beyond_nose(cut, in_)) {
      warn("depth_over_nose",
           text_of("%.4g um is deeper than the nose radius of %.4g mm: the straight edge cuts too, and "
                   "no force is given",
                   cut.depth_um, in_.nose_radius_mm),
           cut.name);
    }
  }

  void warn_of_limits(const ForeseenPass& pass) {
    const double left = pass.thickness_after_mm;
    if (left <= 0) warn("nothing_left", "these passes take more than there is");
    if (in_.discard_mm && left <= *in_.discard_mm + kSame) {
      warn("under_discard",
           text_of("%.3f mm would be left, at or under the discard thickness of %.3f mm", left, *in_.discard_mm));
    }
    if (!in_.machine_to_mm) return;
    if (left < *in_.machine_to_mm - kSame) {
      warn("under_machine_to", text_of("%.3f mm would be left, %.3f mm under machine-to (%.3f mm)", left,
                                       *in_.machine_to_mm - left, *in_.machine_to_mm));
    } else if (*pass.p_over_machine_to < in_.confidence) {
      warn("near_machine_to",
           text_of("%.3f mm would be left, with a standard uncertainty of %.1f um: %.1f %% that it is "
                   "over machine-to (%.3f mm), and %.4g %% is wanted",
                   left, pass.u_thickness_after_um, 100 * *pass.p_over_machine_to, *in_.machine_to_mm,
                   100 * in_.confidence));
    }
  }

  const ForeseeInput& in_;
  Foresight seen_;
  std::size_t index_ = 0;
  SideCut outboard_{.name = "outboard"}, inboard_{.name = "inboard"};
};

}  // namespace

Foresight foresee(const ForeseeInput& in) {
  check_part(in);
  check_tools(in);
  check_passes(in);
  Look look(in);
  for (std::size_t i = 0; i < in.passes.size(); ++i) look.at(i);
  return look.result();
}

}  // namespace brakewright::cutting
