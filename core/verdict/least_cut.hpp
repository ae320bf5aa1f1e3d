#pragma once

#include <span>
#include <vector>

#include "core/circle/true_curve.hpp"
#include "core/verdict/verdict.hpp"

namespace brakewright {

/// What of the job bears on the cut.
struct CutConditions {
  Lathe lathe;
  Scoring scoring;
  double margin_um = 0;
  bool remounted = true;  ///< the part will be mounted afresh: one more mounting's wobble is drawn
};

struct LeastCut {
  Lanes final_um;          ///< thickness left, from where the thickness curves count
  Extremes outboard_ends;  ///< of the outboard face as it was read, without the mounting
};

/// The least cut in whole marks that cleans both faces of each drawn part: methods 6, with scoring, dial and mounting
/// drawn as well.
class CutDraws {
 public:
  CutDraws(const CutConditions& conditions, std::uint64_t seed, std::uint64_t stream);

  /// @param thickness  a block of thickness curves for each circle
  /// @param outboard   the outboard face; null when it was not read: the thickness is then shared by both faces alike
  /// @param ends       of each circle's thickness, as a by-product
  LeastCut next(std::span<const CurveBlock> thickness, const CurveBlock* outboard, std::vector<Extremes>& ends);

  /// Radius that the least cut of a bore leaves: one tool, from the least radius it touches first past the largest.
  /// @param radius  ends of the bore's radius as mounted, over all its depths
  Lanes next_bore(const Extremes& radius);

  /// Adds what one more mounting does to a face or, as eccentricity, to a bore, where the part is mounted afresh.
  void mount(CurveBlock& face);

 private:
  Lanes depth(double depth_um);
  Lanes dial_error(double settings);

  CutConditions conditions_;
  Random random_;
};

}  // namespace brakewright
