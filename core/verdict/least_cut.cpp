#include "core/verdict/least_cut.hpp"

#include <algorithm>
#include <cmath>

namespace brakewright {
namespace {

CurveGrid difference(const CurveGrid& a, const CurveGrid& b) {
  CurveGrid grid;
  grid.count = a.count;
  for (std::size_t i = 0; i < a.count; ++i) grid.values[i] = a.values[i] - b.values[i];
  return grid;
}

/// Travel in whole marks.
Lanes whole_marks(const Lanes& travel_um, double dial_um_per_mark) {
  auto values = travel_um.array();
  for (float& value : values) {
    const auto marks = marks_for(static_cast<double>(value), dial_um_per_mark);
    value = static_cast<float>(static_cast<double>(marks) * dial_um_per_mark);
  }
  return Lanes::from(values);
}

/// The outboard face when nobody read it: half of the thickness's own waves.
CurveBlock half_of(const CurveBlock& thickness) {
  CurveBlock face;
  face.orders = thickness.orders;
  face.level = Lanes::all(0);
  for (std::size_t k = 0; k < face.orders; ++k) {
    face.cosine[k] = 0.5F * thickness.cosine[k];
    face.sine[k] = 0.5F * thickness.sine[k];
  }
  return face;
}

}  // namespace

CutDraws::CutDraws(const CutConditions& conditions, std::uint64_t seed, std::uint64_t stream)
    : conditions_(conditions), random_(seed, stream) {}

Lanes CutDraws::depth(double depth_um) {
  const double u_um = conditions_.scoring.u_um;
  if (u_um <= 0) return Lanes::all(static_cast<float>(depth_um));
  std::array<float, kLanes> depths;
  for (float& value : depths) value = static_cast<float>(std::max(0.0, depth_um + u_um * random_.normal()));
  return Lanes::from(depths);
}

Lanes CutDraws::dial_error(double settings) {
  const double sd_um = conditions_.lathe.dial_repeatability_um * std::sqrt(settings);
  if (sd_um <= 0) return Lanes::all(0);
  std::array<float, kLanes> errors;
  for (float& value : errors) value = static_cast<float>(sd_um * random_.normal());
  return Lanes::from(errors);
}

void CutDraws::mount(CurveBlock& face) {
  // Runout is twice the amplitude, and its square has eight times the variance of one coefficient.
  const double sd_um = conditions_.lathe.mount_runout_um / std::sqrt(8.0);
  if (!conditions_.remounted || sd_um <= 0) return;
  if (face.orders == 0) face.cosine[0] = face.sine[0] = Lanes::all(0);
  face.orders = std::max<std::size_t>(face.orders, 1);
  std::array<float, kLanes> cosine;
  std::array<float, kLanes> sine;
  for (std::size_t l = 0; l < kLanes; ++l) {
    cosine[l] = static_cast<float>(sd_um * random_.normal());
    sine[l] = static_cast<float>(sd_um * random_.normal());
  }
  face.cosine[0] += Lanes::from(cosine);
  face.sine[0] += Lanes::from(sine);
}

LeastCut CutDraws::next(std::span<const CurveBlock> thickness, const CurveBlock* outboard,
                        std::vector<Extremes>& ends) {
  std::size_t orders = outboard != nullptr ? outboard->orders : 1;
  for (const CurveBlock& circle : thickness) orders = std::max(orders, circle.orders);
  LeastCut cut{};
  CurveBlock mounted = outboard != nullptr ? *outboard : half_of(thickness[0]);
  mount(mounted);
  const CurveGrid face = on_grid(mounted, orders);
  const Extremes out = extremes(face);
  cut.outboard_ends = conditions_.remounted && outboard != nullptr ? extremes(on_grid(*outboard)) : out;
  Extremes in{};
  ends.resize(thickness.size());
  for (std::size_t c = 0; c < thickness.size(); ++c) {
    const CurveGrid grid = on_grid(thickness[c], orders);
    ends[c] = extremes(grid);
    const Extremes inboard = extremes(difference(grid, face));
    in.highest = c == 0 ? inboard.highest : larger(in.highest, inboard.highest);
    in.lowest = c == 0 ? inboard.lowest : smaller(in.lowest, inboard.lowest);
  }
  const Lathe& lathe = conditions_.lathe;
  const Lanes margin = Lanes::all(static_cast<float>(conditions_.margin_um));
  const Lanes out_travel = out.highest - out.lowest + depth(conditions_.scoring.outboard_um) + margin;
  const Lanes in_travel = in.highest - in.lowest + depth(conditions_.scoring.inboard_um) + margin;
  cut.final_um = out.highest + in.highest - whole_marks(out_travel, lathe.dial_um_per_mark) -
                 whole_marks(in_travel, lathe.dial_inboard_um_per_mark.value_or(lathe.dial_um_per_mark)) +
                 dial_error(2);
  return cut;
}

Lanes CutDraws::next_bore(const Extremes& radius) {
  const Lanes travel = radius.highest - radius.lowest + depth(conditions_.scoring.outboard_um) +
                       Lanes::all(static_cast<float>(conditions_.margin_um));
  return radius.lowest + whole_marks(travel, conditions_.lathe.dial_um_per_mark) + dial_error(1);
}

}  // namespace brakewright
