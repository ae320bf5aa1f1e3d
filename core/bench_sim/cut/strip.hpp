#pragma once

#include <array>
#include <vector>

#include "core/bench_sim/cut/chip.hpp"
#include "core/bench_sim/part/faces.hpp"

namespace brakewright::bench_sim {

/// The rings about the nose, taken out of a part's maps in groups of kLanes rings, [angle * kLanes + ring], so that a
/// turn reads each group from end to end; brought back when the nose has gone on. While they are out, the part's own
/// maps are old there.
///
/// Group g has the rings from g * kLanes on; those that the part does not have hold kNoIron. Its tops bound the heights
/// of each ring in each sector of a turn from above; there are up to 36 sectors, of 32 angles or more.
class CutStrip {
 public:
  static constexpr float kNoIron = -1e9F;

  /// @param part    holds the maps; must outlive this
  /// @param groups  that can be out at once, > 0
  CutStrip(SimPart& part, int groups);

  int from() const { return from_; }  ///< groups that are out
  int to() const { return to_; }

  /// Takes out these and, if need be, brings others back.
  /// @param from,to  at most as many as can be out
  void hold(int from, int to);

  /// Writes what is out into the maps, and keeps it out as well.
  void bring_back() const;

  /// What a nose has under it at an angle.
  NoseRow row(Side side, int angle);

  float* top(Side side, int group, int sector) {
    return tops_[index(side)].data() + block(group) * lanes(sectors_) + lanes(sector);
  }

  int sector_of(int angle) const { return angle * sectors_ / angles_; }

 private:
  static std::size_t index(Side side) { return side == Side::outboard ? 0 : 1; }
  static std::size_t lanes(int count) { return static_cast<std::size_t>(count) * kLanes; }
  std::size_t block(int group) const { return static_cast<std::size_t>(group % groups_); }
  int rings_of(int group) const;
  void take_out(int group);
  void take_out_face(Side side, int group);
  void take_out_hardness(int group);
  void bring_back(int group) const;

  SimPart* part_;
  int angles_ = 0, groups_ = 0, sectors_ = 1;
  int from_ = 0, to_ = 0;
  int not_plain_ = 0;  ///< groups out that are not all plain iron
  std::vector<bool> plain_;
  std::array<std::vector<float>, 2> heights_, tops_;
  std::vector<float> hardness_;
};

}  // namespace brakewright::bench_sim
