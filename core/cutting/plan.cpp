#include "core/cutting/plan.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numbers>

#include "core/cutting/accepted.hpp"
#include "core/input_error.hpp"
#include "core/want.hpp"

namespace brakewright::cutting {
namespace {

/// Marks and limits come from decimal figures: a ratio this close to whole is whole.
constexpr double kWhole = 1e-9;
constexpr double kMostMarksOfDepth = 1e6;

void check_list(const std::vector<double>& values, const std::string& field) {
  want(!values.empty(), field, "at least one is needed");
  want_all_within(values, kPositive, field);
}

double inboard_dial_um(const PlanInput& in) { return in.dial_inboard_um_per_mark.value_or(in.dial_um_per_mark); }

void check(const PlanInput& in) {
  want_within(in.inner_radius_mm, kPositive, "ring.inner_radius_mm");
  want_within(in.outer_radius_mm, kPositive, "ring.outer_radius_mm");
  want(in.outer_radius_mm > in.inner_radius_mm, "ring.outer_radius_mm", "must be more than inner_radius_mm");
  want_within(in.approach_mm, kNotNegative, "ring.approach_mm");
  want_within(in.needed_outboard_um, kNotNegative, "needed_um.outboard");
  want_within(in.needed_inboard_um, kNotNegative, "needed_um.inboard");
  want_within(in.start_min_mm, kPositive, "start_min_mm");
  if (in.machine_to_mm) want_within(*in.machine_to_mm, kNotNegative, "machine_to_mm");
  check_list(in.speeds_rpm, "lathe.speeds_rpm");
  check_list(in.feeds_mm_per_rev, "lathe.feeds_mm_per_rev");
  want_within(in.dial_um_per_mark, kPositive, "lathe.dial_um_per_mark");
  want_within(inboard_dial_um(in), kPositive, "lathe.dial_inboard_um_per_mark");
  want_within(in.nose_radius_mm, kPositive, "insert.nose_radius_mm");
  want_within(in.max_speed_m_per_min, kPositive, "insert.max_speed_m_per_min");
  want_within(in.rough_max_um, kNotNegative, "rules.rough_max_um");
  want_within(in.finish_min_um, kNotNegative, "rules.finish_min_um");
  want_within(in.finish_max_um, kPositive, "rules.finish_max_um");
  want(in.finish_max_um >= in.finish_min_um, "rules.finish_max_um", "must be no less than finish_min_um");
  want_within(in.ra_target_um, kPositive, "rules.ra_target_um");
  want_within(in.ra_factor, kFactor, "rules.ra_factor");
  const double most = std::max({in.needed_outboard_um, in.needed_inboard_um, in.rough_max_um, in.finish_max_um});
  want(most / in.dial_um_per_mark <= kMostMarksOfDepth, "lathe.dial_um_per_mark", "is too small for these depths");
  want(most / inboard_dial_um(in) <= kMostMarksOfDepth, "lathe.dial_inboard_um_per_mark",
       "is too small for these depths");
}

std::int64_t marks_up(double um, double per_mark) {
  return static_cast<std::int64_t>(std::ceil(um / per_mark - kWhole));
}
std::int64_t marks_down(double um, double per_mark) {
  return static_cast<std::int64_t>(std::floor(um / per_mark + kWhole));
}

double ideal_ra_um(double feed, double nose_radius) {
  return 4 / (9 * std::sqrt(3.0)) * feed * feed / (8 * nose_radius) * 1e3;
}

/// A feed and a speed of the lathe.
struct Gear {
  double rpm = 0;
  double feed_mm_per_rev = 0;
};

/// The quickest gear with a feed that `allowed` takes; the slower speed where two are as quick.
template <class Allowed>
std::optional<Gear> quickest(const std::vector<double>& speeds, const PlanInput& in, const Allowed& allowed) {
  std::optional<Gear> best;
  for (const double rpm : speeds) {
    for (const double feed : in.feeds_mm_per_rev) {
      if (feed > 2 * in.nose_radius_mm || !allowed(feed)) continue;
      const double rate = rpm * feed, best_rate = best ? best->rpm * best->feed_mm_per_rev : 0;
      const bool as_quick = std::abs(rate - best_rate) <= kWhole * rate;
      if (as_quick ? rpm < best->rpm : rate > best_rate) best = Gear{.rpm = rpm, .feed_mm_per_rev = feed};
    }
  }
  return best;
}

double surface_speed(double rpm, const PlanInput& in) { return 2 * std::numbers::pi * in.outer_radius_mm * rpm / 1000; }

[[noreturn]] void refuse(const char* rule, const std::string& text) { throw InputError("no_plan", rule, text); }

std::string figure(const char* format, double a, double b) {
  char text[200];
  std::snprintf(text, sizeof text, format, a, b);
  return text;
}

/// One face: its dial, the whole marks of it that the rules allow, and how many it is cut by in all.
struct Face {
  double dial_um = 0;
  std::int64_t rough_most = 0;
  std::int64_t finish_least = 0;
  std::int64_t finish_most = 0;
  std::int64_t total = 0;

  double depth_um() const { return static_cast<double>(total) * dial_um; }
};

Face face_of(const PlanInput& in, double dial_um, double needed_um) {
  Face face{.dial_um = dial_um,
            .rough_most = marks_down(in.rough_max_um, dial_um),
            .finish_least = std::max<std::int64_t>(1, marks_up(in.finish_min_um, dial_um)),
            .finish_most = marks_down(in.finish_max_um, dial_um),
            .total = 0};
  if (needed_um > 0) face.total = std::max(marks_up(needed_um, dial_um), face.finish_least);
  return face;
}

std::int64_t rough_passes(const Face& face) {
  if (face.total <= face.finish_most) return 0;
  return (face.total - face.finish_most + face.rough_most - 1) / face.rough_most;
}

/// Marks of one face over the passes, the last one being the finish.
std::vector<std::int64_t> shared_out(const Face& face, std::size_t passes) {
  std::vector<std::int64_t> marks(passes, 0);
  if (face.total == 0) return marks;
  const auto roughs = static_cast<std::int64_t>(passes) - 1;
  const std::int64_t last = std::max(face.finish_least, face.total - roughs * face.rough_most);
  marks.back() = last;
  const std::int64_t rest = face.total - last;
  for (std::int64_t i = 0; i < roughs; ++i) {
    marks[static_cast<std::size_t>(i)] = rest / roughs + (i < rest % roughs ? 1 : 0);
  }
  return marks;
}

Pass pass_of(const Gear& gear, const PlanInput& in) {
  const double travel = in.outer_radius_mm - in.inner_radius_mm + in.approach_mm;
  return {.outboard_marks = 0,
          .inboard_marks = 0,
          .rpm = gear.rpm,
          .feed_mm_per_rev = gear.feed_mm_per_rev,
          .time_s = travel / (gear.feed_mm_per_rev * gear.rpm) * 60,
          .ra_um = ideal_ra_um(gear.feed_mm_per_rev, in.nose_radius_mm),
          .surface_speed_m_per_min = surface_speed(gear.rpm, in)};
}

void refuse_impossible_marks(const PlanInput& in, const Face& face) {
  if (face.total == 0) return;
  if (face.finish_least > face.finish_most) {
    refuse("rules.finish_max_um",
           figure("no whole mark of %.4g um lies in a last pass of at most %.4g um", face.dial_um, in.finish_max_um));
  }
  if (face.total > face.finish_most && face.rough_most == 0) {
    refuse("rules.rough_max_um",
           figure("one mark is %.4g um, and a rough pass may take %.4g um", face.dial_um, in.rough_max_um));
  }
}

/// The quickest gears for the rough passes and for the last one.
struct Gears {
  Gear rough, finish;
};

Gears gears(const PlanInput& in) {
  std::vector<double> speeds;
  for (const double rpm : in.speeds_rpm) {
    if (surface_speed(rpm, in) <= in.max_speed_m_per_min * (1 + kWhole)) speeds.push_back(rpm);
  }
  if (speeds.empty()) {
    const double slowest = *std::min_element(in.speeds_rpm.begin(), in.speeds_rpm.end());
    refuse("insert.max_speed_m_per_min",
           figure("the lathe's slowest speed makes %.4g m/min at the edge, and the insert takes %.4g",
                  surface_speed(slowest, in), in.max_speed_m_per_min));
  }
  const double finest = *std::min_element(in.feeds_mm_per_rev.begin(), in.feeds_mm_per_rev.end());
  const auto rough = quickest(speeds, in, [](double) { return true; });
  if (!rough) {
    refuse("lathe.feeds_mm_per_rev",
           figure("the lathe's slowest feed is %.4g mm a turn, more than twice the nose radius of %.4g mm", finest,
                  in.nose_radius_mm));
  }
  const auto finish = quickest(speeds, in, [&](double feed) {
    return ideal_ra_um(feed, in.nose_radius_mm) * in.ra_factor <= in.ra_target_um * (1 + kWhole);
  });
  if (!finish) {
    refuse("rules.ra_target_um",
           figure("the lathe's slowest feed leaves Ra %.4g um with the factor, and %.4g um is wanted",
                  ideal_ra_um(finest, in.nose_radius_mm) * in.ra_factor, in.ra_target_um));
  }
  return {.rough = *rough, .finish = *finish};
}

}  // namespace

Plan plan(const PlanInput& in) {
  check(in);
  const Face outboard = face_of(in, in.dial_um_per_mark, in.needed_outboard_um);
  const Face inboard = face_of(in, inboard_dial_um(in), in.needed_inboard_um);
  Plan made{.passes = {}, .time_s = 0, .final_mm = in.start_min_mm - (outboard.depth_um() + inboard.depth_um()) * 1e-3};
  if (outboard.total + inboard.total == 0) return made;

  refuse_impossible_marks(in, outboard);
  refuse_impossible_marks(in, inboard);
  if (in.machine_to_mm && made.final_mm < *in.machine_to_mm - kWhole) {
    refuse("machine_to_mm",
           figure("%.4f mm would be left, and the part may be cut to %.4f mm", made.final_mm, *in.machine_to_mm));
  }
  const Gears gear = gears(in);
  const auto roughs = static_cast<std::size_t>(std::max(rough_passes(outboard), rough_passes(inboard)));
  const auto out_marks = shared_out(outboard, roughs + 1), in_marks = shared_out(inboard, roughs + 1);
  for (std::size_t i = 0; i <= roughs; ++i) {
    Pass pass = pass_of(i < roughs ? gear.rough : gear.finish, in);
    pass.outboard_marks = out_marks[i];
    pass.inboard_marks = in_marks[i];
    made.time_s += pass.time_s;
    made.passes.push_back(pass);
  }
  return made;
}

}  // namespace brakewright::cutting
