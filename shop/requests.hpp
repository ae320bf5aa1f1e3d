#pragma once

#include <optional>
#include <string>
#include <vector>

#include "shop/entities.hpp"

/// What a tablet sends. The rest of each thing (who, when, derived values) is the shop's to fill in.
namespace brakewright::shop {

struct NewJob {
  Job job = {};
  std::vector<Part> parts = {};  ///< one or two
};

struct NewReading {
  Uuid id = {};
  Uuid part_id = {};
  Stage stage = Stage::before;
  Quantity quantity = Quantity::thickness;
  std::int64_t circle = 0;
  std::int64_t point = 0;
  std::string text = {};  ///< as typed, read by core/length
  Unit default_unit = Unit::mm;
  std::optional<Uuid> instrument_id = {};
  std::optional<Uuid> supersedes_id = {};
  bool confirmed = false;  ///< keep it although it looks wrong
  std::optional<UtcTime> taken_at = {};
};

struct NewZeroCheck {
  Uuid id = {};
  Uuid instrument_id = {};
  std::string text = {};  ///< shown less what it should show, as typed
  Unit default_unit = Unit::mm;
  std::optional<Uuid> job_id = {};
};

struct NewFinding {
  Uuid id = {};
  Uuid part_id = {};
  FindingKind kind = FindingKind::nothing_found;
  Judgement judgement = Judgement::noted;
  std::string note = {};
};

struct NewDecision {
  Uuid id = {};
  Action action = Action::measure_again;
  std::string reason = {};
};

struct NewCut {
  Uuid id = {};
  Uuid part_id = {};
  std::int64_t outboard_marks = 0;
  std::int64_t inboard_marks = 0;
  std::string note = {};
};

struct NewAmendment {
  Uuid id = {};
  std::string text = {};
  std::optional<Uuid> subject_id = {};
};

}  // namespace brakewright::shop
