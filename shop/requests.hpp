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

struct NewMount {
  Uuid id = {};
  Uuid part_id = {};
  Uuid lathe_id = {};
  std::vector<Uuid> piece_ids = {};
  std::string reason = {};
};

struct NewMountProof {
  Uuid id = {};
  Uuid part_id = {};
  ProofKind kind = ProofKind::indicator;
  std::optional<TypedLength> runout = {};
  std::vector<double> trace_um = {};
  std::vector<ProofMark> marks = {};
  bool goes_on = false;
  std::string reason = {};
};

struct NewCutPlan {
  Uuid id = {};
  Uuid part_id = {};
  Uuid lathe_id = {};
  std::optional<Uuid> insert_id = {};
  std::vector<PlannedPass> passes = {};
};

struct NewRefit {
  Uuid id = {};
  Uuid part_id = {};
  std::int64_t position = 0;
  std::optional<Uuid> plate_id = {};
  std::optional<std::int64_t> plate_position = {};
  std::optional<double> nut_torque_nm = {};
  std::string torque_source = {};
  std::string reason = {};
};

struct NewForesight {
  std::optional<Uuid> insert_id = {};
  std::vector<PlannedPass> passes = {};
};

struct NewPass {
  Uuid id = {};
  Uuid part_id = {};
  std::optional<Uuid> plan_id = {};
  std::int64_t outboard_marks = 0;
  std::int64_t inboard_marks = 0;
  double rpm = 0;
  double feed_mm_per_rev = 0;
  std::optional<Uuid> outboard_corner_id = {};
  std::optional<Uuid> inboard_corner_id = {};
  PassOutcome outcome = PassOutcome::finished;
  UtcTime began_at = {};
  UtcTime ended_at = {};
  std::string note = {};
};

struct NewBenchStep {
  Uuid id = {};
  Uuid part_id = {};
  BenchPhase phase = BenchPhase::cut;
  std::string step = {};
  std::int64_t pass = 0;
  StepEvent event = StepEvent::done;
  std::string detail = {};
  std::optional<UtcTime> taken_at = {};
};

struct NewBooking {
  Uuid id = {};
  Uuid piece_id = {};
  BookingKind kind = BookingKind::taken;
  std::optional<Uuid> job_id = {};
  std::string note = {};
};

struct NewAmendment {
  Uuid id = {};
  std::string text = {};
  std::optional<Uuid> subject_id = {};
};

}  // namespace brakewright::shop
