#include "core/cleanup/cleanup.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <string>

#include "core/circle/circle.hpp"
#include "core/input_error.hpp"

namespace brakewright {
namespace {

constexpr int kMostCuts = 99;

std::string indexed(const char* name, std::size_t index) {
  return std::string(name) + "[" + std::to_string(index) + "]";
}

double checked(double value, double low, double high, const std::string& field, const char* accepted) {
  if (!std::isfinite(value)) throw InputError("not_finite", field, "a finite number is needed here");
  if (value < low || value > high) throw InputError("out_of_range", field, accepted);
  return value;
}

void check_scoring(const PerPoint& score, std::size_t count, const char* name) {
  if (score.size() != 1 && score.size() != count) {
    throw InputError("sizes_differ", name, "one depth for the whole face, or one for each of the angles");
  }
  for (std::size_t i = 0; i < score.size(); ++i) {
    checked(score[i], 0, 1e5, score.size() == 1 ? name : indexed(name, i), "a depth from 0 to 100000 um");
  }
}

void check(const CleanupInput& input) {
  const std::size_t count = input.thickness_mm.size();
  if (count == 0) throw InputError("too_few", "thickness_mm", "one point or more is needed");
  if (input.outboard_um.size() != count) {
    throw InputError("sizes_differ", "outboard_um", "one value for each of thickness_mm");
  }
  if (input.angles_deg.size() != count) {
    throw InputError("sizes_differ", "angles_deg", "one angle for each of thickness_mm");
  }
  for (std::size_t i = 0; i < count; ++i) {
    checked(input.thickness_mm[i], 0.1, 1000, indexed("thickness_mm", i), "a thickness from 0.1 to 1000 mm");
    checked(input.outboard_um[i], -1e5, 1e5, indexed("outboard_um", i), "from -100000 to 100000 um");
    checked(input.angles_deg[i], 0, std::nextafter(360.0, 0), indexed("angles_deg", i),
            "an angle of 0 or more, under 360");
  }
  check_scoring(input.score_outboard_um, count, "score_outboard_um");
  check_scoring(input.score_inboard_um, count, "score_inboard_um");
  checked(input.margin_um, 0, 1e5, "margin_um", "from 0 to 100000 um");
  checked(input.dial_um_per_mark, 0.01, 1e5, "dial_um_per_mark", "from 0.01 to 100000 um for one mark");
  if (input.dial_inboard_um_per_mark) {
    checked(*input.dial_inboard_um_per_mark, 0.01, 1e5, "dial_inboard_um_per_mark",
            "from 0.01 to 100000 um for one mark");
  }
  if (input.machine_to_mm) checked(*input.machine_to_mm, 0, 1000, "machine_to_mm", "from 0 to 1000 mm");
  if (input.discard_mm) checked(*input.discard_mm, 0, 1000, "discard_mm", "from 0 to 1000 mm");
}

double mean_of(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

/// The values of a fit of every order that the angles carry, at those same angles.
std::vector<double> fitted(const std::vector<double>& angles_deg, const std::vector<double>& values_um) {
  const int orders = static_cast<int>((std::min<std::size_t>(angles_deg.size(), 25) - 1) / 2);
  const CircleFit fit = fit_circle({angles_deg, values_um}, orders);
  std::vector<double> values;
  values.reserve(angles_deg.size());
  for (const double angle : angles_deg) values.push_back(value_at(fit, angle));
  return values;
}

double at(const PerPoint& score, std::size_t index) { return score.size() == 1 ? score[0] : score[index]; }

/// One face: how high it stands, and how low the tool must go.
struct Face {
  double highest = 0;
  double mean = 0;
  double reach = 0;
};

Face face_of(const std::vector<double>& deviations, const PerPoint& score, double margin_um) {
  Face face{.highest = deviations[0], .mean = mean_of(deviations), .reach = deviations[0] - at(score, 0)};
  for (std::size_t i = 0; i < deviations.size(); ++i) {
    face.highest = std::max(face.highest, deviations[i]);
    face.reach = std::min(face.reach, deviations[i] - at(score, i));
  }
  face.reach -= margin_um;
  return face;
}

int cuts_above(double start_mm, double final_mm, double machine_to_mm) {
  const double room = start_mm - machine_to_mm;
  const double cost = start_mm - final_mm;
  if (final_mm < machine_to_mm - 1e-9) return 0;
  if (cost <= 1e-9 || room / cost >= kMostCuts) return kMostCuts;
  return static_cast<int>(std::floor(room / cost + 1e-9));
}

}  // namespace

std::int64_t marks_for(double travel_um, double dial_um_per_mark) {
  const double marks = travel_um / dial_um_per_mark;
  return std::max<std::int64_t>(0, static_cast<std::int64_t>(std::ceil(marks - 1e-6)));
}

Cleanup least_cleanup(const CleanupInput& input) {
  check(input);
  const double thickness_mean_mm = mean_of(input.thickness_mm);
  std::vector<double> thickness_um;
  for (const double value : input.thickness_mm) thickness_um.push_back((value - thickness_mean_mm) * 1000);
  std::vector<double> outboard = input.outboard_um;
  if (input.use_fit) {
    outboard = fitted(input.angles_deg, outboard);
    thickness_um = fitted(input.angles_deg, thickness_um);
  }
  std::vector<double> inboard;
  std::vector<double> middle;
  double start_um = thickness_um[0];
  for (std::size_t i = 0; i < outboard.size(); ++i) {
    inboard.push_back(thickness_um[i] - outboard[i]);
    middle.push_back((outboard[i] - inboard[i]) / 2);
    start_um = std::min(start_um, thickness_um[i]);
  }
  const Face out = face_of(outboard, input.score_outboard_um, input.margin_um);
  const Face in = face_of(inboard, input.score_inboard_um, input.margin_um);
  const auto [middle_low, middle_high] = std::minmax_element(middle.begin(), middle.end());

  Cleanup cleanup;
  cleanup.outboard_cut_um = out.highest - out.reach;
  cleanup.inboard_cut_um = in.highest - in.reach;
  cleanup.outboard_marks = marks_for(cleanup.outboard_cut_um, input.dial_um_per_mark);
  const double dial_inboard_um = input.dial_inboard_um_per_mark.value_or(input.dial_um_per_mark);
  cleanup.inboard_marks = marks_for(cleanup.inboard_cut_um, dial_inboard_um);
  cleanup.final_mm = thickness_mean_mm + (out.reach + in.reach) / 1000;
  const double marks_um = static_cast<double>(cleanup.outboard_marks) * input.dial_um_per_mark +
                          static_cast<double>(cleanup.inboard_marks) * dial_inboard_um;
  cleanup.final_whole_marks_mm = thickness_mean_mm + (out.highest + in.highest - marks_um) / 1000;
  cleanup.removed_mean_outboard_um = out.mean - out.reach;
  cleanup.removed_mean_inboard_um = in.mean - in.reach;
  cleanup.cheek_difference_um = cleanup.removed_mean_outboard_um - cleanup.removed_mean_inboard_um;
  cleanup.wobble_um = *middle_high - *middle_low;
  cleanup.start_min_mm = thickness_mean_mm + start_um / 1000;
  if (input.machine_to_mm) {
    cleanup.over_machine_to_mm = cleanup.final_whole_marks_mm - *input.machine_to_mm;
    cleanup.cuts_left = cuts_above(cleanup.start_min_mm, cleanup.final_whole_marks_mm, *input.machine_to_mm);
  }
  if (input.discard_mm) cleanup.over_discard_mm = cleanup.final_whole_marks_mm - *input.discard_mm;
  return cleanup;
}

}  // namespace brakewright
