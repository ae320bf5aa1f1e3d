#pragma once

#include <optional>
#include <vector>

#include "core/drum/drum.hpp"
#include "core/runout/runout.hpp"
#include "core/thickness/thickness.hpp"
#include "core/verdict/verdict.hpp"
#include "shop/assess.hpp"

/// A job's records as the core's inputs; the pieces of shop/assess.hpp.
namespace brakewright::shop {

/// Current readings of one part at one stage, of one quantity, in order of receipt.
std::vector<Reading> current(const JobFile& file, const Uuid& part_id, Stage stage, Quantity quantity);

/// Thickness readings as points, each reduced by its instrument's zero error. Circles with fewer than three angles are
/// left out. Radii are from the axis where the outer diameter is known; else 150 mm is taken for half of it when there
/// are several circles, which only matters for their order and distance.
std::vector<ThicknessPoint> thickness_points(const JobFile& file, const Part& part, Stage stage,
                                             const AssessContext& context);

/// The readings of a drum at one stage as the core knows it: its diameters, less the zero error of their gauge, with
/// its limits; what was found and how it runs on the arbor at the stage before the cut. Depths with fewer than three
/// angles are left out.
drum::Drum drum_of(const JobFile& file, const Part& part, Stage stage, const AssessContext& context);

/// What took the readings of a part's size at a stage: the coarsest figures of all the instruments used. Its zero error
/// is 0: `thickness_points` has taken it off. Without a known instrument, the last typed place stands for the
/// permissible error and half of it for repeatability. A reader's own uncertainty that is known, and larger than the
/// repeatability of the instrument, takes the place of it.
Micrometer micrometer_of(const JobFile& file, const Uuid& part_id, Stage stage, const AssessContext& context);

/// One turn of the indicator on one face; nothing with fewer than three angles.
std::optional<RunoutTrace> runout_trace(const JobFile& file, const Uuid& part_id, Stage stage, Quantity face);
/// The coarsest figures of the indicators that took these; without a known one, the last typed place stands for its
/// step and half of it for repeatability.
Indicator coarsest_of(const std::vector<Reading>& readings, const AssessContext& context);
Indicator indicator_of(const JobFile& file, const Uuid& part_id, Stage stage, const AssessContext& context);

/// The outboard face as the part runs on the arbor now, in the part's frame: by the proof of its mount, else as it was
/// read on the arbor before the cut. A proof by the whole swing alone has no angle; where it shows more than was read,
/// its high spot is put where the part is thinnest, which costs most.
std::optional<RunoutTrace> face_on_arbor(const JobFile& file, const Part& part, const AssessContext& context);

/// Whether that rests on a swing without an angle.
bool is_swing_alone(const MountProof& proof);

/// The shop's confidence as the core takes it.
double asked_confidence(const AssessContext& context);

PartLimits limits_of(const Part& part);
/// What was seen on a part, in plain words.
std::vector<brakewright::Finding> findings_of(const JobFile& file, const Uuid& part_id);
Scoring scoring_of(const JobFile& file, const Uuid& part_id, const AssessContext& context);
double temperature_of(const JobFile& file, const Uuid& part_id, Stage stage);

/// Words on what the readings of a part's size at a stage rest on that is not as it should be.
std::vector<Advice> advice_on(const JobFile& file, const Uuid& part_id, Stage stage, const AssessContext& context);

}  // namespace brakewright::shop
