#pragma once

#include <optional>
#include <vector>

#include "core/circle/circle.hpp"
#include "core/thickness/thickness.hpp"

namespace brakewright {

/// One turn of an indicator with the part in one position on its carrier (hub or arbor).
struct PositionTrace {
  double turn_deg = 0;  ///< how far the part is turned against the carrier, within +-36000; taken modulo 360
  Trace trace = {};     ///< angles fixed to the carrier; any zero of the indicator; at most 1000 readings
};

struct SeparationInput {
  std::vector<PositionTrace> positions;    ///< 1 to 64, at most 4000 readings in all
  int max_order = 0;                       ///< 1 to 100
  std::optional<double> noise_sd_um = {};  ///< of one reading where it is known, >= 0; else the residuals tell it
  std::optional<int> studs = {};           ///< 2 to 24: further positions are suggested in steps of these
};

/// How well one order is told apart.
struct OrderSeparation {
  int order = 0;
  int positions = 0;       ///< whose angles carry this order
  bool separable = false;  ///< whether the part's and the carrier's share come apart
  /// How much the noise of either share is raised over that of positions spread evenly; absent where not separable.
  std::optional<double> gain;
};

/// What the trace of one position says by itself.
struct PositionFigures {
  double turn_deg = 0;   ///< in [0, 360)
  double runout_um = 0;  ///< highest less lowest of the means per angle
  int distinct_angles = 0;
  int order_used = 0;         ///< highest order that its angles carry
  double residual_sd_um = 0;  ///< root mean square of its readings about the common model
  std::vector<int> blind_orders;
};

struct Separation {
  std::vector<Harmonic> carrier;   ///< of the separable orders, in the carrier's frame
  std::vector<Harmonic> part;      ///< of the separable orders, in the part's own frame
  std::vector<Harmonic> together;  ///< of all orders, carrier and part in the first position that carries the order
  std::vector<int> not_separable;  ///< orders up to `order_used` that come out alike in all positions read
  std::vector<OrderSeparation> orders;
  int order_asked = 0;
  int order_used = 0;                    ///< highest order that any position carries
  double carrier_runout_um = 0;          ///< peak to valley of `carrier`
  double part_runout_um = 0;             ///< peak to valley of `part`
  std::optional<double> residual_sd_um;  ///< nothing without degrees of freedom
  int dof = 0;
  /// Probability of residuals this large by the known noise alone; small: something moved between the positions.
  std::optional<double> p_repeats;
  std::optional<double> next_turn_deg;  ///< a further position that would tell more apart
  std::vector<PositionFigures> positions;
  std::vector<Advice> advice;
};

/// Whose runout is it: the carrier's share and the part's, order by order, from readings in several positions.
///
/// Least squares of y_j(t) = c_j + h(t) + p(t - turn_j) with h and p as harmonics; each position has its own level c_j.
/// Of each position only the orders that its own angles carry are used. Order k comes apart only where the positions
/// that carry it differ in k turn_j: half a turn separates odd orders alone. Orders whose noise would be raised over a
/// thousandfold count as not separable.
/// Partial evidence is answered, not refused: one trace gives `together` and nothing else; one or two angles in a
/// position give only its level; without degrees of freedom and without `noise_sd_um` there are no uncertainties.
/// @throws InputError "too_few", "sizes_differ", "not_finite", "out_of_range", with paths such as
///         `positions[1].values_um[3]`
/// Source: multi-position error separation by linear least squares; methods 5.
Separation separate(const SeparationInput& input);

}  // namespace brakewright
