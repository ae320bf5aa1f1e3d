#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/dials/dial_check.hpp"

namespace brakewright::dials {

/// One finished job of a lathe. A depth is mean thickness lost plus touch loss, at 20 C: what the tool went below the
/// highest spot of the face, which is what the dial counts.
struct LatheJob {
  double outboard_marks = 0;  ///< in all, >= 0; one dial at least was turned
  double inboard_marks = 0;
  int settings = 1;                             ///< how often each dial was set: the passes, from 1 to 1000
  Estimate depth = {};                          ///< both faces together; u > 0
  std::optional<Estimate> outboard_depth = {};  ///< of one face, where it was measured from face to vent; u > 0
  std::optional<Estimate> inboard_depth = {};
  double days = 0;  ///< when, from any day; for the drift
};

struct LatheStudyInput {
  std::vector<LatheJob> jobs = {};                      ///< of one lathe, in any order; at most 10000
  double dial_um_per_mark = 0;                          ///< nominal, > 0
  std::optional<double> dial_inboard_um_per_mark = {};  ///< nominal inboard; as the outboard's when left out
};

/// What one mark really is.
struct MarkValue {
  double um_per_mark = 0;
  double low95_um = 0;
  double high95_um = 0;
  double nominal_um = 0;
  bool agrees = true;  ///< the nominal value lies in the interval
};

/// How far jobs scatter about the fit.
struct JobSpread {
  double job_sd_um = 0;   ///< of a job's depth, its measurement counted
  double dial_sd_um = 0;  ///< of one setting of one dial, measurement taken out; 0 where that explains all
  double low95_um = 0;    ///< of dial_sd_um
  double high95_um = 0;
};

/// Change of the mean of both marks.
struct Drift {
  double um_per_100_days = 0;
  double low95_um = 0;
  double high95_um = 0;
  bool differs_from_zero = false;
  double um_per_mark_at_last_job = 0;  ///< mean of both dials
};

/// The job that fits the others least, where chance would hardly make one so.
struct OddJob {
  std::size_t job = 0;  ///< counted from 0, as given
  double depth_um = 0;
  double expected_um = 0;  ///< from the other jobs
  double t = 0;            ///< the difference over its standard uncertainty
  double p = 0;            ///< that the oddest of so many sound jobs is so odd
};

struct LatheStudy {
  std::size_t jobs = 0;
  std::size_t needs = 0;   ///< further jobs before anything is said: five are wanted
  bool separable = false;  ///< outboard and inboard are told apart
  std::optional<MarkValue> outboard = {};
  std::optional<MarkValue> inboard = {};
  std::optional<MarkValue> mean = {};  ///< of both dials, where both were turned
  std::optional<JobSpread> spread = {};
  std::optional<Drift> drift = {};  ///< where the jobs lie on more than one day and are enough for it
  std::optional<OddJob> odd_job = {};
  std::vector<std::string> notes = {};  ///< what could not be said, and which job would change that
};

/// What a mark of each dial of a lathe really is, from its finished jobs.
///
/// depth = outboard_marks * v_o + inboard_marks * v_i + error, fitted by weighted least squares. The error's variance
/// is that of the measurement plus settings * s^2 for each dial that was turned, s found so that the weighted sum of
/// squared residuals is its degrees of freedom (Paule and Mandel); faces measured on their own share the settings'
/// error with the sum, which is allowed for. Intervals are Student's with rows - columns degrees of freedom, scaled by
/// the residuals; s has those of the chi-squared quantiles of the same sum. The dials are told apart where both 95 %
/// intervals are within 10 % of the nominal value; else one factor on both nominal values is fitted and only their mean
/// is answered. Drift is one more column, all marks times 100 days about the mean day, in a fit of its own. The odd job
/// is the one with the largest residual, held against a fit of all others: two-sided Student, times the number of jobs
/// (Bonferroni), told under 0.05. A systematic error that all measurements share (a micrometer's) is in the answer and
/// cannot be seen in the scatter.
/// @throws InputError "out_of_range" or "not_finite" naming the field: "jobs[3].depth_um"
/// Source: Paule and Mandel (1982), J. Res. NBS 87; Viechtbauer (2007) for the interval of s, both from memory.
LatheStudy study_lathe(const LatheStudyInput& input);

}  // namespace brakewright::dials
