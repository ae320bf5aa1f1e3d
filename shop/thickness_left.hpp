#pragma once

#include <optional>
#include <string>
#include <vector>

#include "shop/assess.hpp"

/// How thick a part is and will be; a piece of shop/road_advice.hpp.
namespace brakewright::shop {

struct ThicknessLeft {
  double mean_mm = 0;
  double min_mm = 0;                ///< at its thinnest
  std::optional<double> u_mm = {};  ///< standard uncertainty of each, where it was read
  std::optional<double> variation_um = {};
  std::string basis = {};
};

struct Left {
  std::optional<ThicknessLeft> before = {};
  std::optional<ThicknessLeft> after = {};  ///< as read after the cut, else as planned or as the dials were turned
};

/// @param advice  gets what cannot be counted with
Left thickness_left(const JobFile& file, const Part& part, const AssessContext& context, std::vector<Advice>& advice);

/// Mean of a vented part's cheeks as they were read before the cut, mm.
std::optional<double> cheek_of(const JobFile& file, const Uuid& part_id);

}  // namespace brakewright::shop
