#pragma once

#include <array>
#include <string>
#include <vector>

#include "core/dials/dial_check.hpp"

/// What may have happened between dial and metal, each as a Gaussian of what each face lost.
namespace brakewright::dials {

enum class CauseKind { agrees, backlash, spring, misread_mark, one_side_not_cut, hot_part, other };

constexpr std::size_t kCauseKinds = 7;

const char* name_of(CauseKind kind);

/// Held before the numbers are seen, our own, no source; those that cannot be are left out and the rest scaled up.
double prior_of(CauseKind kind);
const char* meaning_of(CauseKind kind);

/// Outboard and inboard.
using Pair = std::array<double, 2>;

/// One way in which it may have happened. What the faces lost is lost + parameter * lost_per_parameter.
struct Cause {
  CauseKind kind = CauseKind::agrees;
  std::string side = {};
  int marks = 0;
  double prior = 0;
  Pair lost_um{};
  Pair variance_um2{};
  double reading_um = 0;  ///< what heat adds to the reading of the sum
  double reading_variance_um2 = 0;
  double parameter = 0;  ///< its prior mean and standard deviation
  double parameter_sd = 0;
  Pair lost_per_parameter{};
  double reading_per_parameter = 0;
};

/// What one face loses when all is well.
struct FaceExpectation {
  double dialled_um = 0;
  Estimate touch_loss;
  Estimate lost;
};

FaceExpectation expectation_of(const FaceCut& face, double dial_sd_um, int settings);

/// How much thicker a part reads that is so much warmer.
double growth_um(double thickness_mm, double rise_k);

/// All ways, priors summing to 1.
std::vector<Cause> causes_of(const DialCheckInput& input);

}  // namespace brakewright::dials
