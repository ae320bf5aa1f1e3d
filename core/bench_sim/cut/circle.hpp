#pragma once

#include <vector>

namespace brakewright::bench_sim {

struct UnitVector {
  double x = 1, y = 0;
};

/// Cosine and sine of each angle of a grid, by series that only add, multiply and divide, within 1e-15.
/// @param angles  > 0
std::vector<UnitVector> unit_circle(int angles);

}  // namespace brakewright::bench_sim
