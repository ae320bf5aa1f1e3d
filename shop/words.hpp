#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <string_view>

#include "core/input_error.hpp"
#include "shop/entities.hpp"

/// The word of each enumerator, the same in JSON, SQL, CSV and on the page, in the order of the enumerators.
namespace brakewright::shop {

template <class E>
struct Words;

#define BRAKEWRIGHT_WORDS(Enum, ...)                                            \
  template <>                                                                   \
  struct Words<Enum> {                                                          \
    static constexpr auto all = std::to_array<std::string_view>({__VA_ARGS__}); \
  };

BRAKEWRIGHT_WORDS(Unit, "mm", "in")
BRAKEWRIGHT_WORDS(Role, "teacher", "student", "lead_hand", "visitor")
BRAKEWRIGHT_WORDS(InstrumentKind, "micrometer", "dial_indicator", "depth_gauge", "caliper", "roughness_tester",
                  "drum_gauge")
BRAKEWRIGHT_WORDS(LimitSource, "cast_on_part", "service_information", "house_rule", "common_practice", "unknown")
BRAKEWRIGHT_WORDS(Complaint, "pulsation", "noise", "pull", "pad_change", "inspection", "practice")
BRAKEWRIGHT_WORDS(Axle, "front", "rear")
BRAKEWRIGHT_WORDS(JobState, "open", "sealed")
BRAKEWRIGHT_WORDS(DistanceUnit, "km", "mi")
BRAKEWRIGHT_WORDS(FeltIn, "pedal", "steering_wheel", "seat", "body")
BRAKEWRIGHT_WORDS(Side, "left", "right")
BRAKEWRIGHT_WORDS(PartKind, "disc", "drum", "drum_in_hat")
BRAKEWRIGHT_WORDS(Construction, "hubless", "integral_hub")
BRAKEWRIGHT_WORDS(Stage, "before", "after", "on_car", "refit")
BRAKEWRIGHT_WORDS(Turning, "clockwise", "anticlockwise")
BRAKEWRIGHT_WORDS(RunoutPlace, "on_car", "on_arbor")
BRAKEWRIGHT_WORDS(Quantity, "thickness", "runout_outboard", "runout_inboard", "scoring_outboard", "scoring_inboard",
                  "roughness_outboard", "roughness_inboard", "bore", "hat_height", "cheek_outboard", "cheek_inboard",
                  "bearing_play", "hub_runout", "diameter")
BRAKEWRIGHT_WORDS(ReadingState, "current", "superseded", "withdrawn")
BRAKEWRIGHT_WORDS(FindingKind, "nothing_found", "crack", "heat_check", "hard_spot", "blueing", "broken_fin",
                  "vent_rust", "rust_lip", "deep_pitting", "loose_hat", "worn_bearing_race", "other")
BRAKEWRIGHT_WORDS(Judgement, "noted", "reject")
BRAKEWRIGHT_WORDS(Action, "leave", "cut", "replace", "measure_again")
BRAKEWRIGHT_WORDS(WaitsFor, "limits", "findings", "readings", "decision", "mount", "plan", "cut", "finish",
                  "readings_after", "refit", "seal", "nothing")
BRAKEWRIGHT_WORDS(Paper, "a4", "letter")
BRAKEWRIGHT_WORDS(DialReads, "depth", "diameter")
BRAKEWRIGHT_WORDS(ThreadHand, "left", "right")
BRAKEWRIGHT_WORDS(PieceKind, "cone", "spring", "clamp", "taper", "spacer", "nut")
BRAKEWRIGHT_WORDS(BookingKind, "taken", "returned", "missing", "found")
BRAKEWRIGHT_WORDS(PieceState, "on_board", "in_use", "missing")
BRAKEWRIGHT_WORDS(EdgeCondition, "sharp", "worn", "chipped")
BRAKEWRIGHT_WORDS(ProofKind, "indicator", "scratch")
BRAKEWRIGHT_WORDS(PassOutcome, "finished", "stopped")
BRAKEWRIGHT_WORDS(BenchPhase, "mount", "cut", "finish", "refit")
BRAKEWRIGHT_WORDS(StepEvent, "done", "undone", "begun", "paused", "resumed", "stopped", "trouble")

#undef BRAKEWRIGHT_WORDS

template <class E>
constexpr std::string_view word_of(E value) {
  return Words<E>::all.at(static_cast<std::size_t>(value));
}

/// @throws InputError "out_of_range" (field empty) that lists the accepted words
template <class E>
E parse_word(std::string_view word) {
  for (std::size_t k = 0; k < Words<E>::all.size(); ++k) {
    if (Words<E>::all[k] == word) return static_cast<E>(k);
  }
  std::string message = "accepted here: ";
  for (const auto known : Words<E>::all) {
    if (known != Words<E>::all.front()) message += ", ";
    message += known;
  }
  throw InputError("out_of_range", "", message);
}

}  // namespace brakewright::shop
