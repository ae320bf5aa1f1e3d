#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "core/bench_sim/cut/chip.hpp"
#include "core/bench_sim/cut/circle.hpp"
#include "core/bench_sim/cut/strip.hpp"
#include "core/bench_sim/cut/tool.hpp"
#include "core/bench_sim/cut/trace.hpp"
#include "core/bench_sim/cut/vibration.hpp"
#include "core/bench_sim/part/faces.hpp"
#include "core/chatter/flexibility.hpp"

namespace brakewright::bench_sim {

/// A tool on one face.
struct CuttingTool {
  RoundNose nose = {};                       ///< radius at least four ring steps
  std::optional<chatter::Mode> holder = {};  ///< how it bends away from the disc; absent: rigid
  double tip_um = 0;                         ///< height of the nose's lowest point over the perfect face, unbent and
                                             ///< with the part at no motion: negative in the iron; +-15 000
};

/// What is cut with what.
struct CutSetup {
  CutMaterial material = {};
  std::optional<CuttingTool> outboard = {};  ///< one at least
  std::optional<CuttingTool> inboard = {};
  std::vector<chatter::Mode> disc = {};  ///< axial, where the tools stand, up to 12; none: rigid
  double band_factor = 1;                ///< of a damping band on the disc's damping, 1 to 100
  double rpm = 150;                      ///< 1 to 10 000
  double feed_mm_per_rev = 0.1;          ///< outward, 0 to 5; 0 stays on one circle
  double start_radius_mm = 0;            ///< of the noses' middles, 0 to 2000
  Motion motion = {};                    ///< of the part on the spindle; offsets within +-1 mm
};

/// Both tools at once along one turn after another, angle by angle.
///
/// At each of the grid's angles the nose stands over the rings about it; what stands over its arc is chip: thickness
/// times hardness by Kienzle's law gives the thrust, which bends the disc and the holder by the time of the next angle.
/// Opposed thrusts subtract on the disc. What one turn leaves is what the next one meets, so that chatter comes by
/// itself. A chip thinner than the edge's least is pressed, not taken.
///
/// The forces of the angle after are guessed from the last two to place the tools there, and the motion is then made
/// exact for the forces found: the guess is off by (angle of a wave in a step)^4 of the damping's share, which is
/// nothing at ten steps to a wave; the straight line between the forces loses 1 % of a wave at 18 steps and 10 % at
/// six. Left out: forces along the cut and along the feed, the tilt of the face within one nose (0.1 um at 100 um of
/// runout), heat. Edges beyond the nose's radius do not cut. Heights are floats: about 1e-5 um.
///
/// The same input gives the same bits however the turns are cut into calls, and on every x86-64 processor: only sums,
/// products, quotients and square roots are taken. Where a compiler fuses products with sums, as on ARM, the last bits
/// may differ. One thread; no clock.
/// Source: Kienzle's law as in `cutting::nose_force`, of which it gives 93 to 100 %: the chip is measured across the
/// disc and not towards the nose's middle. Regeneration as in `chatter::absolute_limit`; least chip as Brammertz
/// (1961).
class Cut {
 public:
  /// @param part  is held and changed; its maps are old about the noses until `settle`
  /// @throws InputError "out_of_range", "not_finite", "missing" (field "outboard") or "sizes_differ" naming the field:
  ///         "outboard.nose.radius_mm", "inboard.holder.zeta", "disc[1].fn_hz", "material.mc", "rpm",
  ///         "motion.offset_x_mm"
  Cut(SimPart& part, CutSetup setup);
  Cut(const Cut&) = delete;
  Cut& operator=(const Cut&) = delete;

  /// Cuts at so many angles, one turn being the grid's; 0 to 100 000 000. Past the outer edge nothing is met.
  /// @throws InputError "out_of_range" naming `angles`
  void advance(int angles);

  /// What can be changed between calls. The noses and their holders stay.
  /// @throws InputError "out_of_range" or "not_finite" naming the field as in the setup
  void set_rpm(double rpm);
  void set_feed(double feed_mm_per_rev);
  void set_tip(Side side, double tip_um);  ///< "missing" where there is no tool
  void set_motion(const Motion& motion);

  /// Draws both noses to another radius, out of the cut on the way.
  void set_radius(double radius_mm);

  /// Sets the disc swinging, as a blow does.
  void knock_disc(double um_per_s) { disc_.knock(um_per_s); }

  /// Brings the part's maps up to date; the cut may go on.
  void settle() { strip_.bring_back(); }

  const CutSetup& setup() const { return setup_; }
  double radius_mm() const;                  ///< of the noses' middles now
  int next_angle() const { return angle_; }  ///< of the grid
  double turns() const;                      ///< cut in all
  double removed_mm3(Side side) const { return sides_[index(side)].removed_mm3; }
  double disc_um() const { return disc_.deflection_um(); }
  double holder_um(Side side) const { return sides_[index(side)].holder.deflection_um(); }

  /// What was felt at each angle of the last turn; empty where there is no tool.
  const CutTrace& trace(Side side) const { return sides_[index(side)].trace; }

 private:
  struct Window {
    int from = 0, to = 0;                    ///< groups that the nose may reach in this part of the turn
    double centre_from = 0, centre_to = -1;  ///< while its middle is within
    double tip_from_um = 0;                  ///< and it is no lower
  };
  struct OneSide {
    std::optional<CuttingTool> tool = {};
    Vibration holder{{}, 1};
    NosePass pass = {};
    double newtons = 0;  ///< of one of NoseTake::pressure
    Window window = {};
    CutTrace trace = {};
    double removed_mm3 = 0;
  };
  static std::size_t index(Side side) { return side == Side::outboard ? 0 : 1; }

  void step();
  double cut_side(Side side, double radius_mm, double lean_um);
  double ring_at(double radius_mm) const;  ///< and part of one, from the innermost
  void widen(OneSide& of, Side side, double centre, double tip_um, bool anew);
  void hold_rings(double radius_mm);
  void make_strip();
  double widest_nose_mm() const;
  double step_s() const { return 60 / setup_.rpm / part_.grid.angles; }

  SimPart& part_;
  CutSetup setup_;
  std::vector<UnitVector> circle_;
  CutStrip strip_;
  Vibration disc_;
  std::array<OneSide, 2> sides_;
  double from_radius_mm_ = 0;  ///< where the feed last changed
  std::int64_t steps_since_ = 0, steps_ = 0;
  int angle_ = 0, sector_ = -1;
  bool begins_sector_ = false;
};

}  // namespace brakewright::bench_sim
