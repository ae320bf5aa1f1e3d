#pragma once

#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "core/runout/face_study.hpp"
#include "core/verdict/least_cut.hpp"
#include "core/verdict/verdict.hpp"

namespace brakewright {

/// All that the draws say of one part, before anything is decided.
struct PartStudy {
  PartVerdict verdict;                       ///< its figures and probabilities; action, p and reasons are still empty
  std::vector<std::uint8_t> final_holds;     ///< for each draw, whether the cut part is at machine-to or over
  std::vector<std::uint8_t> as_it_is_holds;  ///< for each draw, whether the uncut part is within all limits given
};

/// Draws the part, its cut and what the cut leaves.
/// @param index  0 or 1: parts take different draws, but share what one micrometer is off by
/// @throws InputError in the part's own terms, as `readings[0].values_mm[0]`
PartStudy study_part(const VerdictInput& input, const PartReadings& part, std::size_t index);

/// Streams of the seed; those of thickness are multiples of ten, from 0.
enum class Purpose : std::uint64_t { cleanup_face = 1, car_face = 2, workshop = 3, wear = 4, lobes = 5 };
std::uint64_t stream_of(std::size_t index, Purpose purpose);

/// What the loop over the draws gathers, in um from the thickness study's centre.
struct GatheredDraws {
  std::vector<float> final_um;
  std::vector<float> lowest_um;
};

/// Draws of the part's cut.
CutDraws cut_draws(const VerdictInput& input, const PartReadings& part, std::size_t index);

/// The least of what was drawn on all circles, or at all depths.
Lanes lowest_of(std::span<const Extremes> ends);

/// A study of one trace.
/// @param field  of the job under which the trace stands, and `face` its name there: a refusal calls it by them
std::unique_ptr<FaceStudy> face_study_of(const VerdictInput& input, const RunoutReadings& readings,
                                         const std::optional<LengthLimit>& limit, std::uint64_t stream,
                                         const std::string& field, const std::string& face = "outboard");

/// The machine-to limit in force: the part's own, else discard with the house allowance, else none.
std::optional<LengthLimit> machine_to_in_force(const VerdictInput& input, const PartReadings& part);

/// What the part's readings would most probably have shown at these spots, for asking what more readings would bring.
/// @param repeats  how often each spot would be read
/// @param halved   also at spots half-way between those that were read
std::vector<ThicknessPoint> expected_readings(const VerdictInput& input, const PartReadings& part, std::size_t repeats,
                                              bool halved);

}  // namespace brakewright
