#include <cmath>
#include <string>

#include "core/disc_modes/plate.hpp"
#include "tests/outside/table.hpp"

namespace brakewright::outside {
namespace {

using namespace disc_modes;

// Source: leissa_annular_plate.csv, the case of Leissa, NASA SP-160 (Southwell 1922; Vogel and Skinner 1965), exact
// Bessel determinant of 30 digits, checked there by Ritz's method.
TEST(AnnularPlate, EveryRowOfTheTableIsMet) {
  const Table table("leissa_annular_plate.csv");
  for (std::size_t row = 0; row < table.size(); ++row) {
    const int n = static_cast<int>(table.number(row, "n_nodal_diameters"));
    const auto circles = static_cast<std::size_t>(table.number(row, "s_nodal_circles"));
    const auto found = frequency_parameters(table.number(row, "b_over_a"), table.number(row, "nu"), InnerEdge::clamped,
                                            n, static_cast<int>(circles) + 1);
    EXPECT_NEAR(found[circles] / table.number(row, "lambda2"), 1, 5.1e-9) << table.text(row, "b_over_a") << ' ' << n;
  }
}

// Source: annular plate free at both edges, Leissa, NASA SP-160, chapter 2 (Vogel and Skinner), nu taken as 0.3; from
// memory, three digits.
TEST(AnnularPlate, AFreeRingGivesTheFiguresRemembered) {
  const double remembered[][3] = {{0.1, 2, 5.30}, {0.3, 2, 4.91}, {0.5, 2, 4.28}, {0.7, 2, 3.57}, {0.9, 2, 2.94},
                                  {0.1, 3, 12.4}, {0.3, 3, 12.3}, {0.5, 3, 11.4}, {0.7, 3, 9.86}, {0.9, 3, 8.14},
                                  {0.1, 0, 8.77}, {0.3, 0, 8.36}, {0.5, 0, 9.32}, {0.7, 0, 13.2}, {0.9, 0, 34.9}};
  for (const auto& [b_over_a, n, lambda2] : remembered) {
    const double found = frequency_parameters(b_over_a, 0.3, InnerEdge::free, static_cast<int>(n), 1).front();
    EXPECT_NEAR(found / lambda2, 1, 4e-3) << b_over_a << ' ' << n;
  }
}

}  // namespace
}  // namespace brakewright::outside
