#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// What went wrong with a finished part, from the signs on it.
namespace brakewright::diagnosis {

/// What can be read or seen on a finished part, its mount and its instruments. Each has its name, with its unit, in
/// `about`; runouts and variations are peak to valley.
enum class Sign {
  bench_runout_before,
  bench_runout_after,
  car_runout,
  car_runout_follows_part,
  scratch_apart,
  shoulder_runout,
  rim_wander,
  remount_difference,
  closing_error,
  variation,
  variation_wave_1,
  variation_wave_2,
  variation_wave_3,
  variation_wave_4,
  taper,
  thickness_step,
  face_step,
  both_faces_bump,
  ra,
  ra_over_kinematic,
  spiral_height,
  spiral_equals_feed,
  chatter_marks,
  chatter_height,
  cheek_difference,
  warm_drift,
  micrometer_offset,
  lip,
  dial_difference,
  blue_spots,
  torn_surface,
  rubbed_glaze,
  howl,
  lip_seen,
  dirt_seen,
};

inline constexpr std::size_t kSigns = 35;
inline constexpr std::size_t kMostLevels = 5;

/// What is known of a sign in general.
struct SignInfo {
  std::string_view name = {};   ///< in JSON, with the unit: "taper_um"
  std::string_view words = {};  ///< as a sentence begins: "Taper, outer edge less inner"
  std::string_view unit = {};   ///< as it is said: "um"; nothing for a plain number
  std::string_view how = {};    ///< how it is found; a sentence or two
  double low = 0, high = 0;     ///< what is accepted; 0 and 1 where it is yes or no
  bool yes_no = false;
  bool size_only = false;  ///< levels go by its size, either way alike
  /// Where one level ends and the next begins; the first `levels - 1` count. Our own, no source: they part what a sound
  /// bench leaves from what the faults do.
  std::array<double, kMostLevels - 1> ends = {};
  int levels = 2;
};

const SignInfo& about(Sign sign);

/// What is known of one part: a number for each sign, 1 for yes and 0 for no; absent means not known.
struct Signs {
  std::array<std::optional<double>, kSigns> values = {};

  std::optional<double>& operator[](Sign sign) { return values[static_cast<std::size_t>(sign)]; }
  const std::optional<double>& operator[](Sign sign) const { return values[static_cast<std::size_t>(sign)]; }
};

/// @throws InputError "not_finite" or "out_of_range" naming the sign: "taper_um"
void check(const Signs& signs);

/// Which level a value of a sign belongs to, 0 to levels - 1.
int level_of(Sign sign, double value);

/// The value in words: "Taper, outer edge less inner, is 24 um", "Blue spots: yes".
std::string said(Sign sign, double value);

}  // namespace brakewright::diagnosis
