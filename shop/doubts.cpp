#include "shop/doubts.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "shop/places.hpp"
#include "shop/quantile.hpp"
#include "shop/states.hpp"

namespace brakewright::shop {
namespace {

constexpr double kInch = 25.4;
constexpr std::int64_t kMetricTurn = 500'000;
constexpr std::int64_t kInchTurn = 635'000;

struct Neighbour {
  const Reading* reading;
  std::int64_t nm;
};

/// What a reading is held against.
struct Surrounding {
  std::vector<Neighbour> others;               ///< same part, stage, quantity and circle
  std::optional<std::int64_t> median_nm;       ///< of those, or of the part's other circles or stage, or its nominal
  std::optional<std::int64_t> before_spot_nm;  ///< size at this spot before the cut
  std::optional<std::int64_t> before_most_nm;  ///< thickest spot before the cut; the narrowest of a drum
  std::optional<std::int64_t> nominal_nm;
  std::optional<std::int64_t> discard_nm;
  bool over_discard = false;  ///< another reading of a drum is there already
};

const Part* part_of(const JobFile& file, const Uuid& id) {
  for (const Part& part : file.parts) {
    if (part.id == id) return &part;
  }
  return nullptr;
}

/// Limit that a reading of this quantity should lie near, where one is known.
std::optional<std::int64_t> expected(const Part& part, Quantity quantity) {
  if (quantity != size_of(part.kind)) return std::nullopt;
  for (const auto& limit : {part.limits.nominal, part.limits.machine_to, part.limits.discard}) {
    if (limit) return limit->value.value.nm;
  }
  return std::nullopt;
}

/// The one with more metal left to cut: a drum grows as it is cut.
std::int64_t fuller(Quantity quantity, std::int64_t a, std::int64_t b) {
  return quantity == Quantity::diameter ? std::min(a, b) : std::max(a, b);
}

Surrounding surrounding_of(const JobFile& file, const Reading& asked) {
  Surrounding found;
  std::vector<std::int64_t> near;
  std::vector<std::int64_t> wide;
  const auto states = states_of(file.readings);
  for (std::size_t k = 0; k < states.size(); ++k) {
    const Reading& other = file.readings[k];
    if (states[k] != ReadingState::current || other.part_id != asked.part_id || other.quantity != asked.quantity)
      continue;
    if (asked.supersedes_id == other.id) continue;
    const std::int64_t nm = other.value.value.nm;
    wide.push_back(nm);
    if (other.stage == asked.stage && other.circle == asked.circle) {
      near.push_back(nm);
      found.others.push_back({&other, nm});
    }
    if (asked.stage == Stage::after && other.stage == Stage::before) {
      found.before_most_nm = fuller(asked.quantity, found.before_most_nm.value_or(nm), nm);
      if (other.circle == asked.circle && other.point == asked.point) {
        found.before_spot_nm = fuller(asked.quantity, found.before_spot_nm.value_or(nm), nm);
      }
    }
  }
  found.median_nm = quantile(near, 0.5);
  if (!found.median_nm) found.median_nm = quantile(wide, 0.5);
  if (const Part* part = part_of(file, asked.part_id)) {
    if (part->limits.nominal) found.nominal_nm = part->limits.nominal->value.value.nm;
    if (part->limits.discard) found.discard_nm = part->limits.discard->value.value.nm;
    found.over_discard = found.discard_nm &&
                         std::any_of(wide.begin(), wide.end(), [&](std::int64_t nm) { return nm > *found.discard_nm; });
    if (!found.median_nm) found.median_nm = expected(*part, asked.quantity);
  }
  return found;
}

/// The figure that may have been meant, in the unit and, unless told otherwise, to the place that was typed.
TypedLength in_unit_of(const Reading& reading, std::int64_t nm, std::int64_t finer = 1) {
  const Unit unit = reading.value.unit;
  return parse_length(format({nm}, unit, std::max<std::int64_t>(reading.value.resolution_nm / finer, 1)), unit).typed;
}

std::string shown(const Reading& reading, std::int64_t nm) {
  return format({nm}, reading.value.unit, std::max<std::int64_t>(reading.value.resolution_nm, 1000));
}

bool about(double ratio, double wanted, double tolerance) { return std::abs(ratio / wanted - 1) < tolerance; }

bool is_depth_or_size(Quantity quantity) {
  return quantity != Quantity::runout_outboard && quantity != Quantity::runout_inboard &&
         quantity != Quantity::hub_runout;
}

bool is_roughness(Quantity quantity) {
  return quantity == Quantity::roughness_outboard || quantity == Quantity::roughness_inboard;
}

bool is_size(Quantity quantity) {
  return quantity == Quantity::thickness || quantity == Quantity::diameter || quantity == Quantity::bore ||
         quantity == Quantity::hat_height || quantity == Quantity::cheek_outboard ||
         quantity == Quantity::cheek_inboard;
}

/// How far a value may lie from its neighbours before it is asked about. Common practice, no source.
std::int64_t far_nm(Quantity quantity) {
  switch (quantity) {
    case Quantity::thickness:
    case Quantity::cheek_outboard:
    case Quantity::cheek_inboard:
      return 300'000;
    case Quantity::diameter:
      return 1'000'000;
    case Quantity::runout_outboard:
    case Quantity::runout_inboard:
    case Quantity::hub_runout:
    case Quantity::bearing_play:
      return 500'000;
    case Quantity::scoring_outboard:
    case Quantity::scoring_inboard:
      return 2'000'000;
    case Quantity::roughness_outboard:
    case Quantity::roughness_inboard:
      return 20'000;
    case Quantity::bore:
    case Quantity::hat_height:
      return 2'000'000;
  }
  return 0;
}

Doubt below_zero(const Reading& reading) {
  const std::int64_t nm = reading.value.value.nm;
  if (nm == 0) return {"below_zero", "Is it really nothing? A size is over zero.", {}};
  return {"below_zero", "Is it " + shown(reading, -nm) + "? This cannot be below zero.", in_unit_of(reading, -nm)};
}

std::optional<Doubt> wrong_scale(const Reading& reading, const Surrounding& around) {
  const std::int64_t nm = reading.value.value.nm;
  if (is_roughness(reading.quantity) && nm > 100'000) {
    return Doubt{
        "other_unit", "Was that in micrometres? Roughness Ra of " + shown(reading, nm) + " would be a saw cut.",
        parse_length(format_number({nm}, Unit::mm, std::max<std::int64_t>(reading.value.resolution_nm, 1)) + " um",
                     Unit::mm)
            .typed};
  }
  if (!is_size(reading.quantity) || !around.median_nm || *around.median_nm <= 0) return std::nullopt;
  const double ratio = static_cast<double>(nm) / static_cast<double>(*around.median_nm);
  const Unit other = reading.value.unit == Unit::mm ? Unit::in : Unit::mm;
  const double other_ratio = other == Unit::in ? ratio * kInch : ratio / kInch;
  if (about(other_ratio, 1, 0.25)) {
    const auto number = format_number({nm}, reading.value.unit, std::max<std::int64_t>(reading.value.resolution_nm, 1));
    const TypedLength meant = parse_length(number + (other == Unit::in ? " in" : " mm"), other).typed;
    return Doubt{"other_unit",
                 "Is it " + number + (other == Unit::in ? " inches" : " millimetres") + "? As " + shown(reading, nm) +
                     " it is far from the other figures of this part.",
                 meant};
  }
  for (const double factor : {10.0, 0.1}) {
    if (!about(ratio, factor, 0.2)) continue;
    const auto meant = static_cast<std::int64_t>(std::llround(static_cast<double>(nm) / factor));
    return Doubt{"ten_times",
                 "Has the decimal point slipped? " + shown(reading, nm) + " is about ten times " +
                     (factor > 1 ? "more" : "less") + " than the other figures of this part.",
                 in_unit_of(reading, meant, factor > 1 ? 10 : 1)};
  }
  return std::nullopt;
}

std::optional<Doubt> lost_turn(const Reading& reading, const Surrounding& around) {
  if (reading.quantity != Quantity::thickness || around.others.empty() || !around.median_nm) return std::nullopt;
  const std::int64_t turn = reading.value.unit == Unit::in ? kInchTurn : kMetricTurn;
  const std::int64_t apart = reading.value.value.nm - *around.median_nm;
  const std::int64_t turns = (std::abs(apart) + turn / 2) / turn;
  if (turns < 1 || turns > 2 || std::abs(std::abs(apart) - turns * turn) > turn / 8) return std::nullopt;
  const std::int64_t meant = reading.value.value.nm - (apart > 0 ? turns : -turns) * turn;
  return Doubt{"lost_turn",
               "Is it " + shown(reading, meant) + "? " + shown(reading, reading.value.value.nm) + " is " +
                   (turns == 1 ? "one turn" : "two turns") + " of the thimble (" + shown(reading, turns * turn) +
                   ") from its neighbours.",
               in_unit_of(reading, meant)};
}

std::optional<Doubt> thicker(const Reading& reading, const Surrounding& around) {
  if (reading.quantity != Quantity::thickness) return std::nullopt;
  const std::int64_t nm = reading.value.value.nm;
  const std::int64_t slack = std::max<std::int64_t>(2 * reading.value.resolution_nm, 10'000);
  const auto before = around.before_spot_nm ? around.before_spot_nm : around.before_most_nm;
  if (before && nm > *before + slack) {
    return Doubt{"thicker_than_before",
                 "Is this spot really thicker after the cut? Before it was " + shown(reading, *before) + ".",
                 {}};
  }
  if (around.nominal_nm && nm > *around.nominal_nm + 300'000) {
    return Doubt{
        "thicker_than_new",
        "Is it really thicker than a new part? The nominal thickness is " + shown(reading, *around.nominal_nm) + ".",
        {}};
  }
  return std::nullopt;
}

std::optional<Doubt> narrower(const Reading& reading, const Surrounding& around) {
  if (reading.quantity != Quantity::diameter) return std::nullopt;
  const std::int64_t nm = reading.value.value.nm;
  const std::int64_t slack = std::max<std::int64_t>(2 * reading.value.resolution_nm, 10'000);
  const auto before = around.before_spot_nm ? around.before_spot_nm : around.before_most_nm;
  if (before && nm < *before - slack) {
    return Doubt{"smaller_than_before",
                 "Is this diameter really smaller after the cut? Before it was " + shown(reading, *before) + ".",
                 {}};
  }
  if (around.nominal_nm && nm < *around.nominal_nm - 300'000 && nm > *around.nominal_nm / 2) {
    return Doubt{
        "smaller_than_new",
        "Is it really smaller than a new drum? The nominal diameter is " + shown(reading, *around.nominal_nm) + ".",
        {}};
  }
  return std::nullopt;
}

/// A drum that is scrap by one reading: worth a second look before it is said.
std::optional<Doubt> over_discard(const Reading& reading, const Surrounding& around) {
  const std::int64_t nm = reading.value.value.nm;
  if (reading.quantity != Quantity::diameter || !around.discard_nm || around.over_discard) return std::nullopt;
  if (nm <= *around.discard_nm) return std::nullopt;
  return Doubt{
      "over_discard",
      "Is it really " + shown(reading, nm) + "? The drum is scrap at " + shown(reading, *around.discard_nm) + ".",
      {}};
}

std::optional<Doubt> far_off(const Reading& reading, const Surrounding& around) {
  const std::int64_t nm = reading.value.value.nm;
  const std::int64_t far = far_nm(reading.quantity);
  if (!around.others.empty() && around.median_nm && std::abs(nm - *around.median_nm) > far) {
    return Doubt{
        "far_from_others",
        "Is it really " + shown(reading, nm) + "? The others lie about " + shown(reading, *around.median_nm) + ".",
        {}};
  }
  if (!is_size(reading.quantity) && std::abs(nm) > 2 * far) {
    return Doubt{"far_from_others", "Is it really " + shown(reading, nm) + "? That is very much.", {}};
  }
  if (reading.quantity == Quantity::diameter && (nm < 50'000'000 || nm > 1'500'000'000)) {
    return Doubt{"far_from_others",
                 "Is it really " + shown(reading, nm) +
                     "? Drums are 50 to 1500 mm wide. Where the gauge shows over or under its setting, type the whole "
                     "diameter.",
                 {}};
  }
  if (reading.quantity == Quantity::thickness && (nm < 3'000'000 || nm > 80'000'000)) {
    return Doubt{"far_from_others", "Is it really " + shown(reading, nm) + "? Discs are 3 to 80 mm thick.", {}};
  }
  const bool of_the_size = reading.quantity == Quantity::thickness || reading.quantity == Quantity::diameter;
  if (of_the_size && around.others.empty() && around.median_nm &&
      (nm < *around.median_nm - 8'000'000 || nm > *around.median_nm + 8'000'000)) {
    return Doubt{"far_from_others",
                 "Is it really " + shown(reading, nm) + "? The limits and other readings of this part lie about " +
                     shown(reading, *around.median_nm) + ".",
                 {}};
  }
  return std::nullopt;
}

std::optional<Doubt> same_twice(const Reading& reading, const Surrounding& around) {
  for (const Neighbour& other : around.others) {
    const Reading& earlier = *other.reading;
    const auto apart = reading.taken_at - earlier.taken_at;
    if (earlier.by_person_id != reading.by_person_id || earlier.value.text != reading.value.text) continue;
    if (apart >= std::chrono::milliseconds(0) && apart < std::chrono::milliseconds(700)) {
      return Doubt{"same_twice", "Did the gauge send that twice? The same figure came less than a second ago.", {}};
    }
  }
  return std::nullopt;
}

}  // namespace

std::vector<Doubt> doubts_about(const JobFile& file, const Reading& reading) {
  const Surrounding around = surrounding_of(file, reading);
  std::vector<Doubt> doubts;
  const std::int64_t nm = reading.value.value.nm;
  if (is_depth_or_size(reading.quantity) && (nm < 0 || (nm == 0 && is_size(reading.quantity)))) {
    doubts.push_back(below_zero(reading));
  } else {
    for (const auto& explain : {wrong_scale, lost_turn, thicker, narrower, far_off, over_discard}) {
      if (auto doubt = explain(reading, around)) {
        doubts.push_back(std::move(*doubt));
        break;
      }
    }
  }
  if (auto doubt = same_twice(reading, around)) doubts.push_back(std::move(*doubt));
  return doubts;
}

}  // namespace brakewright::shop
