#pragma once

#include <cmath>
#include <cstddef>

#include "core/dials/lathe_study.hpp"
#include "core/uncertainty/random.hpp"

namespace brakewright::dials {

/// A lathe as it is, and how its jobs are measured.
struct Truth {
  double outboard_um = 25.4, inboard_um = 25.4;
  double dial_sd_um = 2.5;
  double drift_um_per_100_days = 0;  ///< of each mark
  double u_depth_um = 3;
  double u_face_um = 0;  ///< 0: the faces are not measured
  bool alike = false;    ///< both dials always turned by the same marks
};

inline LatheStudyInput jobs_of(const Truth& truth, std::size_t count, Random& random) {
  LatheStudyInput in{.dial_um_per_mark = 25.4};
  for (std::size_t i = 0; i < count; ++i) {
    LatheJob job;
    job.outboard_marks = static_cast<double>(4 + random.below(12));
    job.inboard_marks = truth.alike ? job.outboard_marks : static_cast<double>(4 + random.below(12));
    job.settings = static_cast<int>(1 + random.below(3));
    job.days = 10.0 * static_cast<double>(i);
    const double turn = truth.drift_um_per_100_days * job.days / 100;
    const double sd = truth.dial_sd_um * std::sqrt(job.settings);
    const double outboard = job.outboard_marks * (truth.outboard_um + turn) + sd * random.normal();
    const double inboard = job.inboard_marks * (truth.inboard_um + turn) + sd * random.normal();
    job.depth = {.um = outboard + inboard + truth.u_depth_um * random.normal(), .u_um = truth.u_depth_um};
    if (truth.u_face_um > 0) {
      job.outboard_depth = Estimate{outboard + truth.u_face_um * random.normal(), truth.u_face_um};
      job.inboard_depth = Estimate{inboard + truth.u_face_um * random.normal(), truth.u_face_um};
    }
    in.jobs.push_back(job);
  }
  return in;
}

}  // namespace brakewright::dials
