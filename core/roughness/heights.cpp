#include "core/roughness/heights.hpp"

#include <algorithm>
#include <cmath>

#include "core/input_error.hpp"

namespace brakewright::roughness {

Heights heights_of(std::span<const double> heights) {
  if (heights.empty()) throw InputError("missing", "", "one height or more is needed");
  const auto count = static_cast<double>(heights.size());
  // about the first height first, so that a flat profile has no rounding and a high one loses no digits
  const double first = heights.front();
  double mean = 0;
  for (const double height : heights) mean += (height - first) / count;
  Heights found;
  double squares = 0, cubes = 0, fourths = 0;
  for (const double height : heights) {
    const double off = (height - first) - mean, square = off * off;
    found.ra += std::abs(off) / count;
    found.rp = std::max(found.rp, off);
    found.rv = std::max(found.rv, -off);
    squares += square / count;
    cubes += square * off / count;
    fourths += square * square / count;
  }
  found.rq = std::sqrt(squares);
  found.rt = found.rp + found.rv;
  if (squares * squares > 0) {
    found.rsk = cubes / (squares * found.rq);
    found.rku = fourths / (squares * squares);
  }
  return found;
}

}  // namespace brakewright::roughness
