#include "shop/refit_words.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "core/thickness/figures.hpp"
#include "shop/assess_inputs.hpp"

namespace brakewright::shop {
namespace {

constexpr double kAdjustablePlayLow_um = 25, kAdjustablePlayHigh_um = 127;
constexpr double kFlake_um = 25;
constexpr std::size_t kEnoughAngles = 8;

std::string studs_text(std::int64_t count) { return std::to_string(count) + (count == 1 ? " stud" : " studs"); }

const char* kPlayRange =
    "0.025 to 0.127 mm is named for adjustable bearings, from memory, no source read; a sealed one is said to have "
    "none "
    "(common practice, no source). The vehicle's own figure counts.";

void about_play(const JobFile& file, const Part& part, const RefitAdvice& known, std::vector<Advice>& advice) {
  if (!known.bearing_play_um) {
    if (!known.traces.empty()) {
      advice.push_back({"bearing_play_unread",
                        std::string("The play of the wheel bearing was not read. It belongs before any runout, because "
                                    "play shows as runout that does not repeat. ") +
                            kPlayRange});
    }
    return;
  }
  const double play_um = *known.bearing_play_um;
  if (play_um > kAdjustablePlayHigh_um) {
    advice.push_back({"bearing_play_large",
                      "The bearing has " + um_text(play_um) +
                          " um of play: put that right by the vehicle's own instructions, and read runout again. " +
                          kPlayRange});
  } else if (play_um >= kAdjustablePlayLow_um) {
    advice.push_back({"bearing_play", "The bearing has " + um_text(play_um) +
                                          " um of play: as an adjustable one may, and a sealed one may not. " +
                                          kPlayRange});
  }
  std::optional<UtcTime> play_at, runout_at;
  for (const Reading& reading : file.readings) {
    if (reading.part_id != part.id || reading.withdrawn_at || reading.stage != known.stage) continue;
    auto& at = reading.quantity == Quantity::bearing_play ? play_at : runout_at;
    at = std::min(at.value_or(reading.taken_at), reading.taken_at);
  }
  if (play_at && runout_at && *play_at > *runout_at) {
    advice.push_back({"bearing_play_after",
                      "Play was read after the first runout: where the bearing was adjusted in between, the runout "
                      "before it no longer holds."});
  }
}

void about_angles(const CarTraces& traces, std::vector<Advice>& advice) {
  std::size_t fewest = kEnoughAngles;
  for (const CarTrace& trace : traces.now) {
    fewest = std::min(fewest, std::set<double>(trace.angles_deg.begin(), trace.angles_deg.end()).size());
  }
  if (fewest >= kEnoughAngles) return;
  advice.push_back({"few_angles", std::to_string(fewest) +
                                      " points round the disc show its tilt; waves that come twice a turn or more "
                                      "may hide between them, and count with what is likely of them."});
}

void about_evidence(const Part& part, const CarTraces& traces, const RefitAdvice& known, std::vector<Advice>& advice) {
  if (known.evidence == RefitEvidence::hub_and_bench || known.evidence == RefitEvidence::bench_alone) {
    advice.push_back({"arbor_wobble",
                      "The arbor may have held the part out of square with its own seat: the wobble that this lathe "
                      "usually adds is counted with, and only a reading on the car shows it."});
  }
  if (traces.cut && traces.former.size() == 1 && traces.now.empty()) {
    advice.push_back({"former_alone",
                      "The runout that was read before the cut was hub and part together: it tells nothing of how the "
                      "part runs now."});
  }
  if (traces.cut && traces.former.size() >= 2 && known.evidence != RefitEvidence::positions) {
    advice.push_back({"hub_as_it_came",
                      "The hub counts as it was told apart before the part came off: where its flange was cleaned "
                      "since, it may run otherwise."});
  }
  if (traces.hub && known.evidence != RefitEvidence::positions) {
    advice.push_back({"flange_tilt_alone",
                      "Of the bare flange its tilt is carried to the disc's circle; how its finer waves seat the part "
                      "nobody knows: they count by their size alone."});
  }
  if (known.radius_mm && part.hub_reading_diameter) {
    const double gain = *known.radius_mm / (part.hub_reading_diameter->value.mm() / 2);
    advice.push_back({"flake", "A flake of " + um_text(kFlake_um) +
                                   " um left between hub and part at the flange's circle lifts the disc's by " +
                                   um_text(std::round(kFlake_um * gain)) +
                                   " um: radius over radius. Clean both faces before each fitting."});
  }
}

Advice turn_and_read(const RefitAdvice& known, const Part& part) {
  std::int64_t studs = 1;
  if (known.separation && known.separation->next_turn_deg && part.studs) {
    studs = std::llround(*known.separation->next_turn_deg * static_cast<double>(*part.studs) / 360);
  }
  return {"turn_and_read",
          "Turn the part on its hub so that its mark lies " + studs_text(studs) +
              " on from stud 0, all nuts at torque, and read it at the same points: that tells hub and "
              "part apart."};
}

std::string place_text(const RefitFitting& fitting) {
  std::string text = fitting.position == 0 ? "with its mark at stud 0"
                                           : "with its mark " + studs_text(fitting.position) + " on from stud 0";
  if (fitting.plate_position) {
    text += " and the plate " + fitting.plate_name + " with its thickest place at stud " +
            std::to_string(*fitting.plate_position);
  }
  return text;
}

/// A fitting with a plate is judged by what was read of it; nothing else tells what the plate really does.
void about_fitted(const CarTrace& fitted, const RefitAdvice& known, std::vector<Advice>& next) {
  const std::string read = "As it was fitted, with its plate, it was read at " + um_text(fitted.runout_um) + " um";
  if (!known.limit) {
    next.push_back({"find_limit", read + ": find the vehicle's own limit of runout to hold it against."});
  } else if (fitted.runout_um <= known.limit->value_mm * 1000) {
    next.push_back(
        {"enough", read + ", within the limit of " + um_text(known.limit->value_mm * 1000) + " um: leave it so."});
  } else {
    next.push_back({"clean_and_read", read + ", over the limit of " + um_text(known.limit->value_mm * 1000) +
                                          " um: take it off, clean flange, plate and hat to bare metal, and look at "
                                          "the plate's thickest place."});
  }
}

void about_best(const Part& part, const RefitAdvice& known, std::vector<Advice>& next) {
  const RefitFitting& best = known.refit->best;
  const bool alone = known.refit->known_position.has_value();
  if (!best.standing) {
    next.push_back({"find_limit", "Find the vehicle's own limit of runout: without one nobody can say whether " +
                                      um_text(best.runout_um) + " um will do."});
    if (alone) next.push_back(turn_and_read(known, part));
    return;
  }
  if (*best.standing == Standing::within) {
    if (best.read) {
      next.push_back({"enough", "As it was read " + place_text(best) + " it is within the limit: fit it so."});
    } else {
      next.push_back({"prove", "Fit it " + place_text(best) +
                                   ", all nuts at torque, and read it once more there: that proves it."});
    }
    return;
  }
  if (alone) {
    next.push_back(turn_and_read(known, part));
    return;
  }
  if (*best.standing == Standing::cannot_tell) {
    next.push_back({"read_there", "Fit it " + place_text(best) +
                                      ", all nuts at torque, and read it there: what is read in the position itself "
                                      "needs no telling apart, and settles it soonest."});
  } else {
    next.push_back({"clean_and_read", "Clean flange and hat to bare metal and read it again " + place_text(best) +
                                          ": where it is still over, look at the bearing and the hub."});
  }
  if (known.separation && known.separation->next_turn_deg && known.evidence == RefitEvidence::positions) {
    next.push_back(turn_and_read(known, part));
  }
}

}  // namespace

const char* text_of(RefitEvidence evidence) {
  switch (evidence) {
    case RefitEvidence::positions:
      return "The part as it is now was read on its hub in two positions or more: hub and part come apart.";
    case RefitEvidence::hub_and_part:
      return "The part as it is now was read in one position, and the hub is known by itself.";
    case RefitEvidence::hub_and_bench:
      return "Hub and part are known from two places: the arbor of the lathe, and the car.";
    case RefitEvidence::part_alone:
      return "The part was read in one position: what is seen is hub and part together, and nothing says whose it is.";
    case RefitEvidence::bench_alone:
      return "The part was read on the arbor, and nothing that counts of its hub.";
    case RefitEvidence::hub_alone:
      return "The hub was read, and nothing of the part as it is now.";
    case RefitEvidence::nothing:
      break;
  }
  return "Nothing was read yet of hub or part that counts now.";
}

std::vector<Advice> cautions_on(const JobFile& file, const Part& part, const CarTraces& traces,
                                const RefitAdvice& known) {
  std::vector<Advice> advice;
  about_play(file, part, known, advice);
  about_angles(traces, advice);
  about_evidence(part, traces, known, advice);
  return advice;
}

std::vector<Advice> next_readings(const Part& part, const CarTraces& traces, const RefitAdvice& known) {
  std::vector<Advice> next;
  if (!known.bearing_play_um) {
    next.push_back({"read_bearing_play", "Read the play of the wheel bearing first."});
  }
  if (traces.fitted_with_plate && traces.fitted) {
    about_fitted(*traces.fitted, known, next);
    return next;
  }
  if (known.refit) {
    about_best(part, known, next);
    return next;
  }
  if (!part.studs) next.push_back({"count_studs", "Count the studs of the hub: they are the positions of the part."});
  if (traces.now.empty()) {
    next.push_back({"read_part",
                    "Put the part on its hub with its mark at stud 0, all nuts at torque with washers, and "
                    "read its outboard face at each point, from stud 0."});
  }
  if (traces.hub && !part.hub_reading_diameter) {
    next.push_back({"hub_circle", "Say on which circle the bare flange was read: with it the flange counts."});
  } else if (known.evidence == RefitEvidence::bench_alone) {
    next.push_back({"read_hub", "Or read the bare flange at the same points, and say on which circle."});
  }
  return next;
}

}  // namespace brakewright::shop
