#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace brakewright {

enum class Distribution { normal, rectangular, triangular, u_shaped };

/// Standard uncertainty of a quantity that lies within +-half_width.
/// @param half_width    >= 0, finite
/// @param distribution  not normal: a normal distribution has no ends
/// @throws InputError "out_of_range" (field "half_width") otherwise
/// Source: JCGM 100:2008, 4.3.7 (rectangular, a/sqrt 3), 4.3.9 (triangular, a/sqrt 6), H.1.3.4 (U-shaped, a/sqrt 2).
double standard_uncertainty(double half_width, Distribution distribution);

/// One line of an uncertainty budget.
struct Component {
  std::string name = {};
  double u = 0.0;                  ///< standard uncertainty, >= 0, in the quantity's own unit
  double sensitivity = 1.0;        ///< change of the result per unit of the quantity
  std::optional<double> dof = {};  ///< >= 1; nothing for as good as infinitely many
};

struct Contribution {
  double u = 0.0;      ///< |sensitivity| * u, in the result's unit
  double share = 0.0;  ///< of the combined variance, 0 to 1; 0 when that is 0
};

struct Budget {
  double u = 0.0;                                ///< combined standard uncertainty
  std::optional<double> dof_effective = {};      ///< nothing when infinite
  double k = 0.0;                                ///< coverage factor
  double expanded = 0.0;                         ///< U = k u
  std::vector<Contribution> contributions = {};  ///< one for each component, in their order
};

/// Student's factor t that holds `confidence` between -t and t.
/// @param dof  >= 1, cut to whole as JCGM 100:2008, G.4.1 asks; nothing for the normal distribution
/// @param confidence  between 0 and 1, ends excluded
/// @throws InputError "out_of_range"
double coverage_factor(std::optional<double> dof, double confidence);

/// Combines uncorrelated components to an expanded uncertainty.
/// @param components  at least one
/// @param confidence  between 0 and 1, ends excluded
/// @throws InputError "missing", "not_finite", "out_of_range" with paths such as "components[2].dof"
/// Degenerate case: all components 0 gives u = U = 0 and infinite degrees of freedom.
/// Source: JCGM 100:2008, equations (10) and (G.2b); k by G.4.1 with the degrees of freedom cut to whole.
Budget combine(std::span<const Component> components, double confidence);

}  // namespace brakewright
