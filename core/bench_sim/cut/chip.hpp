#pragma once

#include <cstddef>

namespace brakewright::bench_sim {

/// Rings are worked in groups of as many.
inline constexpr int kLanes = 8;

/// The cells of one face at one angle: group g of kLanes rings is at block g mod `blocks`.
struct NoseRow {
  float* height = nullptr;          ///< um, of block 0; changed
  const float* hardness = nullptr;  ///< of the same cells, or null for plain iron
  float* top = nullptr;             ///< of block 0; raised to the height that each cell is left with
  std::size_t next_height = 0;      ///< from one block to the next, of heights and hardness
  std::size_t next_top = 0;
  int blocks = 1;
};

/// The nose over one row; ring i lies at (i - centre) * step_um along the feed.
struct NosePass {
  float radius_um = 0;
  float step_um = 0;
  double centre = 0;        ///< ring, and part of one, over which the lowest point of the nose is
  float tip_um = 0;         ///< height of that point in the face's own frame
  float exponent = 1;       ///< 1 - mc
  float least_chip_um = 0;  ///< a thinner one is rubbed over and stays
};

/// What one row gave.
struct NoseTake {
  double pressure = 0;  ///< sum of hardness * (chip in mm)^exponent: by kc11 and the step in mm, newtons into the disc
  double taken_um = 0;  ///< sum of the heights taken off
  double moment_um2 = 0;  ///< the same, each times its distance from the nose's middle
  float thickest_um = 0;  ///< chip, square to the edge
};

/// Takes off what stands over the nose, and says how hard that pressed.
///
/// Chip thickness is the height over the nose times the cosine of the edge there, its pressure by Kienzle's law acts
/// square to the edge; of that cos(theta) goes into the disc, over an edge of width/cos(theta).
/// @param from,to  groups, within the row's ring of blocks. Cells that the nose does not reach add exactly nothing, so
///                 that the answer does not depend on them
NoseTake take_row(const NoseRow& row, int from, int to, const NosePass& pass);

/// The same, bit for bit, by what every processor of its kind can do.
NoseTake take_row_plainly(const NoseRow& row, int from, int to, const NosePass& pass);

/// The nose's height over its lowest point, at a distance from its middle within its radius.
double nose_rise_um(double radius_um, double x_um);

}  // namespace brakewright::bench_sim
