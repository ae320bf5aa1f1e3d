#include "core/dials/dial_check.hpp"

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <cmath>
#include <utility>

#include "core/dials/causes.hpp"
#include "core/dials/wording.hpp"
#include "core/input_error.hpp"
#include "core/want.hpp"

namespace brakewright::dials {
namespace {

constexpr double kLeastShown = 0.01, kHeld = 0.90, kOneStandsOut = 0.90, kSoundShare = 0.95;

using Vector = Eigen::Matrix<double, Eigen::Dynamic, 1, 0, 3, 1>;
using Matrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, 3, 3>;
using ToReadings = Eigen::Matrix<double, Eigen::Dynamic, 2, 0, 3, 2>;

void check_face(const FaceCut& face, const std::string& side) {
  want(face.marks, 0, 1e5, side + ".marks", "from 0 to 100000 marks");
  want(face.dial_um_per_mark, 0.01, 1e5, side + ".dial_um_per_mark", "from 0.01 to 100000 um for one mark");
  want(face.marks * face.dial_um_per_mark, 0, kMost_um, side + ".marks", "at most 100 mm of depth");
  if (face.touch_loss) {
    want(face.touch_loss->um, 0, kMost_um, side + ".touch_loss_um", "from 0 to 100000 um");
    want(face.touch_loss->u_um, 0, kMost_um, side + ".u_touch_loss_um", "from 0 to 100000 um");
  }
  if (face.removed) {
    want(face.removed->um, -kMost_um, kMost_um, side + ".removed_um", "from -100000 to 100000 um");
    want(face.removed->u_um, 0.01, kMost_um, side + ".u_removed_um", "from 0.01 to 100000 um");
  }
}

void check_input(const DialCheckInput& in) {
  check_face(in.outboard, "outboard");
  check_face(in.inboard, "inboard");
  if (in.outboard.marks + in.inboard.marks <= 0) {
    throw InputError("out_of_range", "outboard.marks", "one dial at least must have been turned: more than 0 marks");
  }
  want(in.dial_sd_um, 0, 1000, "dial_sd_um", "from 0 to 1000 um");
  want(in.settings, 1, 1000, "settings", "from 1 to 1000");
  want(in.removed.um, -kMost_um, kMost_um, "removed_sum_um", "from -100000 to 100000 um");
  want(in.removed.u_um, 0.01, kMost_um, "u_removed_sum_um", "from 0.01 to 100000 um");
  if (in.temperature_rise_k) want(*in.temperature_rise_k, -200, 200, "temperature_rise_k", "from -200 to 200 K");
  want(in.u_temperature_rise_k, 0, 200, "u_temperature_rise_k", "from 0 to 200 K");
  want(in.thickness_mm, 0.1, 1000, "thickness_mm", "from 0.1 to 1000 mm");
}

/// Everything that was measured: the sum first, then each face that was.
class Readings {
 public:
  explicit Readings(const DialCheckInput& in) {
    add(in.removed, 1, 1);
    if (in.outboard.removed) add(*in.outboard.removed, 1, 0);
    if (in.inboard.removed) add(*in.inboard.removed, 0, 1);
  }

  Eigen::Index size() const { return values_.size(); }

  /// What a way would have been read as.
  struct Forecast {
    Vector mean, per_parameter;
    Matrix covariance;
  };

  Forecast forecast(const Cause& cause) const {
    Eigen::Vector2d lost, variance;
    for (Eigen::Index s = 0; s < 2; ++s) {
      const auto side = static_cast<std::size_t>(s);
      lost[s] = std::max(0.0, cause.lost_um[side] + cause.parameter * cause.lost_per_parameter[side]);
      variance[s] = cause.variance_um2[side];
    }
    Forecast made;
    made.mean = to_readings_ * lost;
    made.mean[0] -= cause.reading_um + cause.parameter * cause.reading_per_parameter;
    made.per_parameter = to_readings_ * Eigen::Vector2d(cause.lost_per_parameter[0], cause.lost_per_parameter[1]);
    made.per_parameter[0] -= cause.reading_per_parameter;
    made.covariance = to_readings_ * variance.asDiagonal() * to_readings_.transpose();
    made.covariance.diagonal() += own_variance_;
    made.covariance(0, 0) += cause.reading_variance_um2;
    const double sd = cause.parameter_sd;
    made.covariance += sd * sd * made.per_parameter * made.per_parameter.transpose();
    return made;
  }

  const Vector& values() const { return values_; }

 private:
  void add(const Estimate& reading, double outboard, double inboard) {
    const auto row = values_.size();
    values_.conservativeResize(row + 1);
    own_variance_.conservativeResize(row + 1);
    to_readings_.conservativeResize(row + 1, 2);
    values_[row] = reading.um;
    own_variance_[row] = reading.u_um * reading.u_um;
    to_readings_(row, 0) = outboard;
    to_readings_(row, 1) = inboard;
  }

  Vector values_, own_variance_;
  ToReadings to_readings_;
};

/// A way with how well it foretold the readings.
struct Judged {
  Cause cause;
  double chi_squared = 0;
  double log_weight = 0;
  double p = 0;
  double parameter = 0;  ///< most probable, not below 0
};

Judged judged(const Cause& cause, const Readings& readings) {
  const auto forecast = readings.forecast(cause);
  const Eigen::LLT<Matrix> factor(forecast.covariance);
  const Vector off = readings.values() - forecast.mean;
  const Vector weighed = factor.solve(off);
  Judged result{.cause = cause};
  result.chi_squared = off.dot(weighed);
  const Matrix lower = factor.matrixL();
  result.log_weight = std::log(cause.prior) - result.chi_squared / 2 - lower.diagonal().array().log().sum();
  const double variance = cause.parameter_sd * cause.parameter_sd;
  result.parameter = std::max(0.0, cause.parameter + variance * forecast.per_parameter.dot(weighed));
  return result;
}

std::vector<Judged> judge_all(const DialCheckInput& in, const Readings& readings) {
  std::vector<Judged> ways;
  for (const Cause& cause : causes_of(in)) ways.push_back(judged(cause, readings));
  const auto best = std::max_element(ways.begin(), ways.end(),
                                     [](const Judged& a, const Judged& b) { return a.log_weight < b.log_weight; });
  const double highest = best->log_weight;
  double sum = 0;
  for (Judged& way : ways) sum += way.p = std::exp(way.log_weight - highest);
  for (Judged& way : ways) way.p /= sum;
  return ways;
}

Balance balance_of(const FaceCut& face, const DialCheckInput& in) {
  const auto sound = expectation_of(face, in.dial_sd_um, in.settings);
  return {.dialled_um = sound.dialled_um,
          .touch_loss = sound.touch_loss,
          .expected = sound.lost,
          .measured = face.removed,
          .difference_um = {},
          .z = {}};
}

Balance with_difference(Balance balance) {
  if (!balance.measured) return balance;
  const double difference_um = balance.measured->um - balance.expected.um;
  balance.difference_um = difference_um;
  balance.z = difference_um / std::hypot(balance.measured->u_um, balance.expected.u_um);
  return balance;
}

Estimate sum_of(const Estimate& a, const Estimate& b) {
  return {.um = a.um + b.um, .u_um = std::hypot(a.u_um, b.u_um)};
}

void put_balances(const DialCheckInput& in, DialCheck& check) {
  check.outboard = balance_of(in.outboard, in);
  check.inboard = balance_of(in.inboard, in);
  check.sum = {.dialled_um = check.outboard.dialled_um + check.inboard.dialled_um,
               .touch_loss = sum_of(check.outboard.touch_loss, check.inboard.touch_loss),
               .expected = sum_of(check.outboard.expected, check.inboard.expected),
               .measured = in.removed,
               .difference_um = {},
               .z = {}};
  if (in.temperature_rise_k) {
    check.temperature_shift_um = growth_um(in.thickness_mm, *in.temperature_rise_k);
    check.sum.expected.um -= check.temperature_shift_um;
    check.sum.expected.u_um = std::hypot(check.sum.expected.u_um, growth_um(in.thickness_mm, in.u_temperature_rise_k));
  }
  check.sum = with_difference(std::move(check.sum));
  check.outboard = with_difference(std::move(check.outboard));
  check.inboard = with_difference(std::move(check.inboard));
}

/// The value that holds nine tenths of a kind's probability, if one does.
template <class Value, class Of>
std::optional<Value> standing_out(const std::vector<Judged>& ways, CauseKind kind, double p, const Of& of) {
  for (const Judged& candidate : ways) {
    if (candidate.cause.kind != kind) continue;
    double held = 0;
    for (const Judged& way : ways) {
      if (way.cause.kind == kind && of(way.cause) == of(candidate.cause)) held += way.p;
    }
    if (held >= kOneStandsOut * p) return of(candidate.cause);
  }
  return std::nullopt;
}

/// What a way's parameter makes of the sum.
double loss_um(const Judged& way) {
  const Cause& cause = way.cause;
  return way.parameter * (cause.reading_per_parameter - cause.lost_per_parameter[0] - cause.lost_per_parameter[1]);
}

std::optional<DialFinding> finding_of(CauseKind kind, const std::vector<Judged>& ways) {
  DialFinding finding;
  finding.code = name_of(kind);
  double amount = 0;
  bool has_parameter = false;
  for (const Judged& way : ways) {
    if (way.cause.kind != kind) continue;
    finding.p += way.p;
    amount += way.p * loss_um(way);
    has_parameter = has_parameter || way.cause.parameter_sd > 0;
  }
  if (finding.p < kLeastShown) return std::nullopt;
  finding.side = standing_out<std::string>(ways, kind, finding.p, [](const Cause& c) { return c.side; }).value_or("");
  if (kind == CauseKind::misread_mark) {
    finding.marks = standing_out<int>(ways, kind, finding.p, [](const Cause& c) { return c.marks; });
  }
  if (has_parameter) finding.amount_um = amount / finding.p;
  return finding;
}

/// Heat that is known and makes more than the uncertainty of the difference is why a sound cut looked wrong.
bool heat_matters(const DialCheck& check) {
  return std::abs(check.temperature_shift_um) > std::hypot(check.sum.expected.u_um, check.sum.measured->u_um);
}

void put_findings(const DialCheckInput& in, const std::vector<Judged>& ways, DialCheck& check) {
  for (std::size_t k = 0; k < kCauseKinds; ++k) {
    auto kind = static_cast<CauseKind>(k);
    auto finding = finding_of(kind, ways);
    if (!finding) continue;
    if (kind == CauseKind::agrees && heat_matters(check)) {
      kind = CauseKind::hot_part;
      finding->code = name_of(kind);
      finding->amount_um = check.temperature_shift_um;
    }
    put_words(*finding, kind, in, check);
    check.findings.push_back(std::move(*finding));
  }
  std::stable_sort(check.findings.begin(), check.findings.end(),
                   [](const DialFinding& a, const DialFinding& b) { return a.p > b.p; });
  double held = 0;
  for (const DialFinding& finding : check.findings) {
    if (held >= kHeld) break;
    held += finding.p;
    check.cannot_tell_apart.push_back(finding.code);
  }
  if (check.cannot_tell_apart.size() == 1) check.cannot_tell_apart.clear();
}

void put_priors(const std::vector<Judged>& ways, DialCheck& check) {
  for (std::size_t k = 0; k < kCauseKinds; ++k) {
    const auto kind = static_cast<CauseKind>(k);
    double p = 0;
    for (const Judged& way : ways) p += way.cause.kind == kind ? way.cause.prior : 0;
    if (p > 0) check.priors.push_back({.code = name_of(kind), .p = p, .meaning = meaning_of(kind)});
  }
}

}  // namespace

DialCheck check_dials(const DialCheckInput& in) {
  check_input(in);
  const Readings readings(in);
  const auto ways = judge_all(in, readings);
  DialCheck check;
  put_balances(in, check);
  check.chi_squared = ways.front().chi_squared;
  check.dof = static_cast<int>(readings.size());
  const boost::math::chi_squared expected(check.dof);
  check.agrees = check.chi_squared <= boost::math::quantile(expected, kSoundShare);
  put_findings(in, ways, check);
  put_priors(ways, check);
  check.notes = notes_of(in);
  return check;
}

}  // namespace brakewright::dials
