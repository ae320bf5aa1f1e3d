#include "core/dials/lathe_study.hpp"

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <cstdio>

#include "core/dials/depth_model.hpp"
#include "core/input_error.hpp"
#include "core/uncertainty/budget.hpp"
#include "core/want.hpp"

namespace brakewright::dials {
namespace {

constexpr std::size_t kLeastJobs = 5, kMostJobs = 10'000;
constexpr double kConfidence = 0.95, kOddP = 0.05;
constexpr double kToldApart = 0.10;   ///< half of each interval, as a share of the nominal value
constexpr double kContradiction = 4;  ///< between the faces and the sum, in standard uncertainties
constexpr double kSame = 1e-9;

void check_depth(const Estimate& depth, const std::string& field, const char* name) {
  want(depth.um, -kMost_um, kMost_um, field + name, "from -100000 to 100000 um");
  want(depth.u_um, 0.01, kMost_um, field + "u_" + name, "from 0.01 to 100000 um");
}

void check_job(const LatheJob& job, const std::string& field) {
  want(job.outboard_marks, 0, 1e5, field + "outboard_marks", "from 0 to 100000 marks");
  want(job.inboard_marks, 0, 1e5, field + "inboard_marks", "from 0 to 100000 marks");
  want(job.outboard_marks + job.inboard_marks, 1e-6, 2e5, field + "outboard_marks",
       "one dial at least was turned: more than 0 marks");
  want(job.settings, 1, 1000, field + "settings", "from 1 to 1000");
  check_depth(job.depth, field, "depth_um");
  if (job.outboard_depth) check_depth(*job.outboard_depth, field, "outboard_depth_um");
  if (job.inboard_depth) check_depth(*job.inboard_depth, field, "inboard_depth_um");
  want(job.days, -1e6, 1e6, field + "days", "from -1000000 to 1000000");
}

void check(const LatheStudyInput& in) {
  want(in.dial_um_per_mark, 0.01, 1e5, "dial_um_per_mark", "from 0.01 to 100000 um for one mark");
  if (in.dial_inboard_um_per_mark) {
    want(*in.dial_inboard_um_per_mark, 0.01, 1e5, "dial_inboard_um_per_mark", "from 0.01 to 100000 um for one mark");
  }
  if (in.jobs.size() > kMostJobs) throw InputError("out_of_range", "jobs", "at most 10000 jobs");
  for (std::size_t i = 0; i < in.jobs.size(); ++i) check_job(in.jobs[i], "jobs[" + std::to_string(i) + "].");
}

double t_factor(std::size_t dof) { return coverage_factor(static_cast<double>(dof), kConfidence); }

/// Looks at the jobs of one lathe.
class Study {
 public:
  explicit Study(const LatheStudyInput& in)
      : in_(in), nominal_{in.dial_um_per_mark, in.dial_inboard_um_per_mark.value_or(in.dial_um_per_mark)} {
    for (const LatheJob& job : in.jobs) {
      turned_[0] = turned_[0] || job.outboard_marks > 0;
      turned_[1] = turned_[1] || job.inboard_marks > 0;
      mean_day_ += job.days / static_cast<double>(in.jobs.size());
    }
    for (const LatheJob& job : in.jobs) last_day_ = std::max(last_day_, job.days - mean_day_);
  }

  LatheStudy look() {
    found_.jobs = in_.jobs.size();
    put_marks();
    put_spread();
    put_drift();
    put_odd_job();
    put_contradictions();
    return std::move(found_);
  }

 private:
  using Shape = std::vector<JobRow>;

  /// @param apart  one coefficient for each dial; else one factor on both nominal values
  /// @param drift  a last column: um per mark and 100 days
  Shape shape(bool apart, bool drift) const {
    Shape rows;
    for (const LatheJob& job : in_.jobs) {
      JobRow row{.job = &job};
      if (apart) {
        row.outboard = {job.outboard_marks, 0};
        row.inboard = {0, job.inboard_marks};
      } else {
        row.outboard = {job.outboard_marks * nominal_[0]};
        row.inboard = {job.inboard_marks * nominal_[1]};
      }
      if (drift) {
        row.outboard.push_back(job.outboard_marks * (job.days - mean_day_) / 100);
        row.inboard.push_back(job.inboard_marks * (job.days - mean_day_) / 100);
      }
      rows.push_back(std::move(row));
    }
    return rows;
  }

  MarkValue value(const DepthFit& made, std::vector<double> combination, double nominal) const {
    combination.resize(made.fit.coefficients.size(), 0);
    MarkValue mark{.nominal_um = nominal};
    for (std::size_t i = 0; i < combination.size(); ++i) mark.um_per_mark += combination[i] * made.fit.coefficients[i];
    const double half = t_factor(made.dof()) * made.fit.standard_error_of(combination);
    mark.low95_um = mark.um_per_mark - half;
    mark.high95_um = mark.um_per_mark + half;
    const double slack = kSame * nominal;
    mark.agrees = nominal >= mark.low95_um - slack && nominal <= mark.high95_um + slack;
    return mark;
  }

  bool told_apart(const MarkValue& mark) const {
    return (mark.high95_um - mark.low95_um) / 2 <= kToldApart * mark.nominal_um;
  }

  void put_marks() {
    const double mean_nominal = (nominal_[0] + nominal_[1]) / 2;
    if (turned_[0] && turned_[1]) {
      if (const auto apart = fit_depths(shape(true, false))) {
        const auto outboard = value(*apart, {1, 0}, nominal_[0]), inboard = value(*apart, {0, 1}, nominal_[1]);
        if (told_apart(outboard) && told_apart(inboard)) {
          found_.separable = true;
          found_.outboard = outboard;
          found_.inboard = inboard;
          found_.mean = value(*apart, {0.5, 0.5}, mean_nominal);
          made_ = *apart;
          return;
        }
      }
      found_.notes.emplace_back(
          "Not separable: both dials were turned alike in these jobs, so only the mean of both is known. Cut one job "
          "with "
          "unequal marks, or measure each face to the vent before and after.");
    }
    made_ = *fit_depths(shape(false, false));
    if (turned_[0] && turned_[1]) {
      found_.mean = value(made_, {mean_nominal}, mean_nominal);
    } else {
      const std::size_t side = turned_[0] ? 0 : 1;
      (side == 0 ? found_.outboard : found_.inboard) = value(made_, {nominal_[side]}, nominal_[side]);
      found_.notes.push_back(std::string("The ") + (side == 0 ? "inboard" : "outboard") + " dial was never turned.");
    }
  }

  void put_spread() {
    const Shape rows = shape(found_.separable, false);
    const boost::math::chi_squared expected(static_cast<double>(made_.dof()));
    JobSpread spread{.dial_sd_um = std::sqrt(made_.setting_variance_um2)};
    spread.low95_um = std::sqrt(setting_variance_for(rows, boost::math::quantile(expected, 0.975)));
    spread.high95_um = std::sqrt(setting_variance_for(rows, boost::math::quantile(expected, 0.025)));
    double squares = 0;
    for (const JobRow& row : rows) squares += std::pow(row.job->depth.um - expected_um(row, made_), 2);
    const double dof = std::max(1.0, static_cast<double>(rows.size() - made_.fit.coefficients.size()));
    spread.job_sd_um = std::sqrt(squares / dof);
    found_.spread = spread;
  }

  static double expected_um(const JobRow& row, const DepthFit& made) {
    const auto sum = row.sum();
    double depth = 0;
    for (std::size_t i = 0; i < sum.size(); ++i) depth += sum[i] * made.fit.coefficients[i];
    return depth;
  }

  void put_drift() {
    const auto made = fit_depths(shape(found_.separable, true));
    if (!made) {
      found_.notes.emplace_back("Whether a mark changes with time cannot be said: the jobs lie on one day.");
      return;
    }
    std::vector<double> combination(made->fit.coefficients.size(), 0);
    combination.back() = 1;
    const auto slope = value(*made, combination, 0);
    Drift drift{.um_per_100_days = slope.um_per_mark, .low95_um = slope.low95_um, .high95_um = slope.high95_um};
    drift.differs_from_zero = slope.low95_um > 0 || slope.high95_um < 0;
    std::vector<double> at_last(combination.size(), 0);
    at_last.back() = last_day_ / 100;
    const double mean_nominal = (nominal_[0] + nominal_[1]) / 2;
    if (found_.separable) {
      at_last[0] = at_last[1] = 0.5;
    } else {
      at_last[0] = turned_[0] && turned_[1] ? mean_nominal : nominal_[turned_[0] ? 0 : 1];
    }
    drift.um_per_mark_at_last_job = value(*made, at_last, 0).um_per_mark;
    found_.drift = drift;
    if (drift.differs_from_zero) {
      found_.notes.emplace_back(
          "The dials' value changes with time, so that one value for all jobs is a mean: look for wear, or for a "
          "change "
          "of micrometer.");
    }
  }

  /// Standardised residual of a job's depth in the fit of all.
  double oddness(const JobRow& row) const {
    return std::abs(row.job->depth.um - expected_um(row, made_)) /
           std::sqrt(depth_variance(*row.job, made_.setting_variance_um2));
  }

  void put_odd_job() {
    Shape rows = shape(found_.separable, false);
    const auto oddest = std::max_element(rows.begin(), rows.end(),
                                         [&](const JobRow& a, const JobRow& b) { return oddness(a) < oddness(b); });
    const JobRow odd = *oddest;
    const auto at = static_cast<std::size_t>(oddest - rows.begin());
    const double count = static_cast<double>(rows.size());
    rows.erase(oddest);
    const auto others = fit_depths(rows);
    if (!others) return;
    const double u_fit = others->fit.standard_error_of(odd.sum());
    const double scale = others->fit.residual_sd * others->fit.residual_sd;
    const double u = std::sqrt(u_fit * u_fit + scale * depth_variance(*odd.job, others->setting_variance_um2));
    OddJob job{.job = at, .depth_um = odd.job->depth.um, .expected_um = expected_um(odd, *others)};
    job.t = u > 0 ? (job.depth_um - job.expected_um) / u : 0;
    const boost::math::students_t student(static_cast<double>(others->dof()));
    job.p = std::min(1.0, count * 2 * boost::math::cdf(boost::math::complement(student, std::abs(job.t))));
    if (job.p >= kOddP) return;
    found_.odd_job = job;
    char text[300];
    std::snprintf(
        text, sizeof text,
        "Job %zu of these does not fit the others: its depth is %.1f um, and the others let expect %.1f um. Look "
        "at its readings before the dial is blamed.",
        at + 1, job.depth_um, job.expected_um);
    found_.notes.emplace_back(text);
  }

  void put_contradictions() {
    for (std::size_t i = 0; i < in_.jobs.size(); ++i) {
      const LatheJob& job = in_.jobs[i];
      if (!job.outboard_depth || !job.inboard_depth) continue;
      const double apart = job.depth.um - job.outboard_depth->um - job.inboard_depth->um;
      const double u = std::hypot(job.depth.u_um, job.outboard_depth->u_um, job.inboard_depth->u_um);
      if (std::abs(apart) <= kContradiction * u) continue;
      char text[200];
      std::snprintf(
          text, sizeof text,
          "In job %zu of these the two faces together and the thickness differ by %.1f um, more than %.0f times "
          "the uncertainty.",
          i + 1, std::abs(apart), kContradiction);
      found_.notes.emplace_back(text);
    }
  }

  const LatheStudyInput& in_;
  double nominal_[2];
  bool turned_[2] = {false, false};
  double mean_day_ = 0, last_day_ = -1e9;
  DepthFit made_;
  LatheStudy found_;
};

}  // namespace

LatheStudy study_lathe(const LatheStudyInput& in) {
  check(in);
  if (in.jobs.size() < kLeastJobs) {
    return {.jobs = in.jobs.size(), .needs = kLeastJobs - in.jobs.size()};
  }
  return Study(in).look();
}

}  // namespace brakewright::dials
