#include "core/chatter/twin_limit.hpp"

#include "tests/outside/table.hpp"

namespace brakewright::outside {
namespace {

// Source: twin_tool_disc_limit.csv, derived from the three equations of motion; checked there by the sign of the
// rightmost root of the delay equation at 0.999 and 1.001 of the limit.
TEST(TwinToolLimit, EveryRowOfTheTableIsMet) {
  const Table table("twin_tool_disc_limit.csv");
  for (std::size_t row = 0; row < table.size(); ++row) {
    const auto found = chatter::twin_limit({.tool = {.k_n_per_m = table.number(row, "k_tool"),
                                                     .zeta = table.number(row, "zeta_tool"),
                                                     .fn_hz = table.number(row, "fn_tool_Hz")},
                                            .disc = {.k_n_per_m = table.number(row, "k_disc"),
                                                     .zeta = table.number(row, "zeta_disc"),
                                                     .fn_hz = table.number(row, "fn_disc_Hz")},
                                            .kf_n_per_m2 = table.number(row, "Kf_N_per_m2")});
    EXPECT_NEAR(found.tools_only.depth_mm, table.number(row, "b_lim_tools_only_mode_mm"), 5e-7);
    EXPECT_NEAR(found.disc_mode.depth_mm, table.number(row, "b_lim_disc_mode_mm"), 5e-7);
    EXPECT_NEAR(found.disc_mode.chatter_hz, table.number(row, "chatter_freq_disc_mode_Hz"), 1e-3);
    EXPECT_NEAR(found.single_side.depth_mm, table.number(row, "b_lim_single_side_mm"), 5e-7);
    EXPECT_TRUE(found.disc_governs);
  }
}

}  // namespace
}  // namespace brakewright::outside
